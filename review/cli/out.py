"""Files a command writes for a parent: never over another one without being told."""

import sys
from pathlib import Path

import click

from review import files
from review.cli.options import is_yes
from review.core.text import clean
from review.errors import Mendable
from review.render.screen import echo

FORCE = click.option("--force", is_flag=True, help="Write over a file that is there.")


def write_out(path: Path, content: bytes, force: bool) -> None:
    """Write the file and say so; over one that is there only by a yes at a terminal, or --force."""
    name = clean(str(path))
    if path.is_dir():
        raise Mendable(f"{name} is a folder. Name a file in it, like {name}/page.html")
    files.check_replaceable(path)
    if files.is_there(path) and not force and not may_replace(name):
        raise Mendable(f"{name} is there already. Choose another name, or add --force.")
    try:
        files.write_whole(path, content)
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise Mendable(f"{name} cannot be written ({reason}). Choose another place.") from error
    echo([f"Written: {name}"])


def may_replace(name: str) -> bool:
    """Whether a person says that it may be written over; nobody there: no."""
    return sys.stdin.isatty() and is_yes(f"{name} is there already. Write over it?")
