"""What each command does: gather, let the core decide, write back. One function a command."""
