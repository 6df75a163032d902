"""A name as one word of a command line, for the shell that is there."""

import re
import sys

from review.core.text import clean

WINDOWS = sys.platform == "win32"


def word(name: str) -> str:
    """The name of a child, a set or a file as a shell takes it, for a sentence that says what to type."""
    return quoted(clean(name))


def quoted(text: str) -> str:
    """The text as one word of the shell. Those of Windows agree on double quotes alone."""
    if not WINDOWS:
        from shlex import quote  # only where something is named

        return quote(text)
    return text if re.fullmatch(r"[\w.:/\\+-]+", text) else f'"{text}"'
