"""Commands in what we print, as this user can type them: the program as it was invoked, and its book."""

import re
from functools import cache

from review.core.text import clean
from review.shell import quoted

_program = "review"
_book = ""
COMMANDS = (
    "away", "backup", "brief", "child", "completion", "demo", "enter", "export", "extra", "fit",
    "focus", "import", "known", "log", "manual", "merge", "misses", "overdue", "pacing", "placement",
    "progress", "restore", "set", "sheet", "stuck", "taught", "teach", "undo", "verify", "warmup", "words",
)  # fmt: skip


def invoked(program: str, book: str | None) -> None:
    """Remember how the program was called; asked once, at the start of a run. No name of a file may command a
    terminal."""
    global _program, _book
    shown = book if not book or book.isprintable() else clean(book)
    _program, _book = program, f" --book {quoted(shown)}" if shown else ""


def on_book(book: str) -> None:
    """From here on the commands that are printed name another book: the demo's, not the family's own."""
    invoked(_program, book)


def bare() -> str:
    """The command without any word behind it."""
    return f"{_program}{_book}"


def typable(text: str) -> str:
    """The text with every `review COMMAND` in it as this user types it."""
    if "review " not in text:
        return text
    return command().sub(lambda found: f"{_program}{'' if found[1] else _book} ", text)


@cache
def command() -> re.Pattern[str]:
    """Made for the first line that may name one: it takes a hundredth of a report's time. What follows -m is
    the program as it was invoked already; what names its book keeps it."""
    return re.compile(rf"(?<!-m )\breview (?=(--book )|(?:{'|'.join(COMMANDS)})\b)")


def command_at(text: str) -> int:
    """Where the first command in it begins that a user can type; -1: there is none."""
    if f"{_program} " not in text:
        return -1
    found = re.search(rf"(?<![\w/]){re.escape(_program)} (?:--book |(?:{'|'.join(COMMANDS)})\b)", text)
    return found.start() if found else -1
