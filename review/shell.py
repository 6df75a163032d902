"""A name as one word of a command line, for the shell that is there."""

import re
import sys

from review.core.text import clean

WINDOWS = sys.platform == "win32"


def word(name: str) -> str:
    """The name of a child, a set or a file as a shell takes it, for a sentence that says what to type."""
    return quoted(clean(name))


def quoted(text: str) -> str:
    """The text as one word of the shell, as a person can type it: an apostrophe stands in double quotes, not
    as the five signs of 'O'"'"'Hara', and a letter with a mark in none. Those of Windows agree on double
    quotes alone."""
    if re.fullmatch(r"[\w.:/\\+-]+" if WINDOWS else r"[\w.:/+-]+", text):
        return text
    if WINDOWS or ("'" in text and not re.search(r'["$`\\!]', text)):
        return f'"{text}"'
    from shlex import quote  # only where something is named

    return quote(text)
