"""Printing for a parent: wrapped lines and tables, safe for any stream."""

import json
import re
import sys
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import TextIO

from review.core.text import held, let_go
from review.render.invoked import command_at, typable
from review.signs import fit

ROOMY = 76  # columns a table needs (measured on the widest one here)
NARROW = 36  # columns: the names of sets below a heading have up to 34 (measured here)
SHELL_WORD = re.compile(r"'[^']*'|\"[^\"]*\"|\S+")  # spaces within quotes part no words
PATH = re.compile(r"['\"]?(?:~|\.{1,2}|[A-Za-z]:)?[/\\]")  # how one begins that says where it begins
WIDEST = 80  # longer lines are hard to read (common practice, no source)


def width() -> int:
    """Columns to print for; 80 where nobody says."""
    from shutil import get_terminal_size  # with what packs files: a child's path does without

    return max(20, min(WIDEST, get_terminal_size((WIDEST, 24)).columns))


def put(text: str, stream: TextIO) -> None:
    """Written at once, whole: a pipe that was closed is found here, and not at the end."""
    stream.write(f"{text}\n")
    stream.flush()


def echo(lines: Iterable[str]) -> None:
    """Print lines, wrapped with a hanging indent, in signs that the stream can show."""
    encoding, columns = sys.stdout.encoding or "ascii", width()
    told = [part for line in lines for part in broken(typable(line), columns)]
    if told:
        put(fit("\n".join(told), encoding), sys.stdout)


def echo_json(value: object, indent: int | None = 2) -> None:
    """One JSON text. Signs stand as they are where the stream is UTF-8, which JSON is; else they are escaped,
    and whoever reads it finds them again."""
    utf8 = (sys.stdout.encoding or "").lower().replace("_", "-") in ("utf-8", "utf8")
    put(json.dumps(value, ensure_ascii=not utf8, indent=indent), sys.stdout)


def fitted(text: str) -> str:
    """The text of a question, as the terminal can show it."""
    return fit(text, sys.stdout.encoding)


def warn(text: str) -> None:
    """A sentence beside what is asked for, to the error stream."""
    put(fit(on_errors(typable(text)), sys.stderr.encoding), sys.stderr)


def on_errors(text: str) -> str:
    """Broken between words where a person reads it; a path stays whole, and a log gets lines as they are."""
    if not sys.stderr.isatty():
        return text
    return "\n".join(part for line in text.split("\n") for part in broken(line, width(), whole_words=True))


def broken(line: str, columns: int, whole_words: bool = False) -> list[str]:
    """Wrapped, but for a command with a path that has no room: it stands unbroken behind what is said of it,
    for it is copied."""
    if len(line) <= columns:
        return wrapped(line, columns)
    indent, at = len(line) - len(line.lstrip(" ")), command_at(line)
    room = columns - indent - 2
    if at >= 0 and has_long_path(SHELL_WORD.findall(line[at:]), room):
        said = line[:at].rstrip(" ")
        return [*wrapped(said, columns, whole_words), f"{' ' * (indent + 2)}{line[at:]}"] if said else [line]
    return wrapped(line, columns, whole_words)


def has_long_path(words: Sequence[str], room: int) -> bool:
    """Whether one of the words is a path, or what follows --book, and longer than a line."""
    return any(
        len(word) > room and (before == "--book" or PATH.match(word))
        for before, word in pairwise(["", *words])
    )


def wrapped(line: str, columns: int, whole_words: bool = False) -> list[str]:
    """Broken between words, and within no sum; what follows stands two deeper than the line began."""
    if len(line) <= columns and line.isprintable() and not line.endswith(" "):
        return [line]  # as it would come out: most lines of a report are short
    indent = len(line) - len(line.lstrip(" "))
    words = held(line[indent:], columns - indent - 2).split(" ")
    if line.isprintable() and "" not in words and indent + 2 + max(map(len, words)) <= columns:
        return let_go(_filled(words, indent, columns))  # the same, in a fifth of the time
    from textwrap import wrap

    found = wrap(
        held(line, columns - indent - 2),
        columns,
        subsequent_indent=" " * (indent + 2),
        break_on_hyphens=False,
        break_long_words=not whole_words,
        drop_whitespace=True,
        initial_indent="",
    )
    return let_go(found) or [""]


def _filled(words: Sequence[str], indent: int, columns: int) -> list[str]:
    """Words that all fit a line and stand one space apart."""
    done, line = list[str](), " " * indent + words[0]
    for word in words[1:]:
        if len(line) + 1 + len(word) <= columns:
            line = f"{line} {word}"
        else:
            done.append(line)
            line = f"{' ' * (indent + 2)}{word}"
    return [*done, line]


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], sentences: Iterable[str], plain: bool) -> None:
    """A table on a terminal that has room for it; else the same as sentences, a row each."""
    if plain or not sys.stdout.isatty() or width() < ROOMY:
        echo(sentences)
        return
    from rich import box
    from rich.console import Console
    from rich.table import Column, Table

    encoding = sys.stdout.encoding
    shape = box.SIMPLE_HEAD if fit("─", encoding) == "─" else box.ASCII2
    first = Column(heads[0], no_wrap=is_narrow(row[0] for row in rows))
    drawn = Table(first, *heads[1:], box=shape, pad_edge=False, header_style="bold")
    for row in rows:
        drawn.add_row(*(fit(cell, encoding) for cell in row))
    Console(markup=False, emoji=False, highlight=False, width=width()).print(drawn)


def is_narrow(cells: Iterable[str]) -> bool:
    """Such a column stays whole while wider ones wrap: a name that is typed is never cut short."""
    return max(map(len, cells), default=0) <= NARROW
