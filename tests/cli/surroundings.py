"""Every command among the surroundings a family may have: encodings, dumb terminals, narrow ones, odd names.

The commands are the examples of each `--help`, so a new command is among them by itself.
"""

import csv
import io
import json
import os
import re
import shlex
import shutil
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

import click

from review.cli import run
from review.cli.group import COMMANDS, root
from tests.tables import DATA

NAMES = (
    "[/]\x1b[2J\x07Ann",
    "Ab\u202ecde\u2066\u200b",
    "Zoë 🦭 日本",
    "N" * 40,
    "=cmd|'/c x'!A1",
    "<script>alert(1)</script>",
    "</td><img src=x onerror=alert(1)>",
    "\x1b]8;;https://example.org\x07Ida\x1b]52;c;eA==\x07",
    "e" + "\u0301" * 30,
    "مريم\x00\n\u2029م",
    "#let x = 1; $x$ @y <z>",
    "{name} $(x) `x` \\ 'x'",
)
"""Escape codes, a link and the clipboard (OSC 8 and 52), marks that turn or hide text, markup of terminals,
pages and typesetters, a formula, wide and rare signs, stacks of accents, the longest name there may be."""

OWN_SET = """
[set]
id = "odd-set"
title = "[/] \\u001b[31mred\\u001b[0m \\u202e 🦭 × —"
about = "[bold]About\\u0007 the sea — “quoted” [/]"
aim = "accuracy"
ages = [6, 9]

[[skill]]
id = "odd-skill"
title = "[red] \\u001b]0;title\\u0007 skill ÷ ☃"
kind = "pairs"
pairs = [["\\u001b[2J[/] 7 × 🦭?", "12"], ["☃ □ −?", "[/]"], ["=1+1 <b>", "</td><script>"], ["$x$", "@SUM"]]
"""

ANSWERS = "".join(
    json.dumps({"answer": text, "seconds": 2}) + "\n"
    for text in ("\x1b[2J[/]", "=cmd|'/c x'!A1", "<script>alert(1)</script>", "\u202e\u2066x", "\x00\n",
                 "@SUM(1)", "#x $y$", "🦭", "x" * 10_000, "e" + "\u0301" * 300)
    for _ in range(2)
)  # fmt: skip
"""Lines of another program: each is given twice, as what cannot be read is asked once more."""

CONTROL = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2066-\u2069\ufeff]")


TYPED = "m\n?\n\x1b[2J<b>=1\u202e\n12\nstop\n"  # where something is asked


class Surroundings(NamedTuple):
    encoding: str = "utf-8"
    env: Mapping[str, str] = {}
    options: tuple[str, ...] = ()


ALL: Mapping[str, Surroundings] = {
    "usual": Surroundings(),
    "posix": Surroundings("ascii", {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}),
    "latin-1": Surroundings("latin-1", {"PYTHONIOENCODING": "latin-1", "PYTHONUTF8": "0"}),
    "code page": Surroundings("cp1252", {"PYTHONIOENCODING": "cp1252", "PYTHONUTF8": "0"}),
    "old code page": Surroundings("cp850", {"PYTHONIOENCODING": "cp850", "PYTHONUTF8": "0"}),
    "oldest code page": Surroundings("cp437", {"PYTHONIOENCODING": "cp437", "PYTHONUTF8": "0"}),
    "dumb": Surroundings(env={"TERM": "dumb"}),
    "no colour": Surroundings(env={"NO_COLOR": "1", "FORCE_COLOR": "1"}),
    "narrow": Surroundings(env={"COLUMNS": "40"}),
    "narrowest": Surroundings(env={"COLUMNS": "20"}),
    "wide": Surroundings(env={"COLUMNS": "200"}),
    "plain": Surroundings(options=("--plain",)),
}


class Done(NamedTuple):
    code: int
    out: bytes
    err: bytes


def leaves() -> list[tuple[str, ...]]:
    """Every command, and every command of a group."""
    context = click.Context(root)
    found: list[tuple[str, ...]] = [()]
    for name in COMMANDS:
        command = root.get_command(context, name)
        inner = list(getattr(command, "commands", {}))
        found += [(name,), *((name, other) for other in inner)]
    return found


def help_of(command: Sequence[str]) -> str:
    found: click.Command = root
    context = click.Context(root, info_name="review")
    for name in command:
        assert isinstance(found, click.Group)
        inner = found.get_command(context, name)
        assert inner is not None
        context, found = click.Context(inner, info_name=name, parent=context), inner
    return found.get_help(context)


def examples() -> Iterator[tuple[str, ...]]:
    """The commands that the help texts show, without what writes a season, and what a parent asks besides."""
    shown = (
        line.strip()
        for command in leaves()
        for line in help_of(command).splitlines()
        if line.strip().startswith("review ")
    )
    unlike = dict.fromkeys(tuple(shlex.split(line)[1:]) for line in shown)
    yield from (words for words in unlike if words[0] != "demo")
    yield from BESIDES


BESIDES: tuple[tuple[str, ...], ...] = (
    (),
    ("overdue", "--all"),
    ("set", "show", "odd-set.toml"),
    ("set", "check", "odd-set.toml"),
    ("set", "add", "odd-set.toml", "Mira"),
    ("child", "list", "--json"),
    ("verify", "--json"),
    ("set", "list", "--json"),
    ("warmup", "Odd", "--aloud"),
    ("warmup", "Odd"),
    ("warmup", "Odd", "--explain"),
    ("warmup", "Odd", "--explain", "--json"),
    ("log", "Odd", "--since", "2026-01-01", "--out", "odd.html"),
    ("log", "Odd", "--since", "2026-01-01", "--format", "csv"),
    ("log", "Odd", "--since", "2026-01-01"),
    ("export", "odd.csv", "Odd", "--csv"),
    ("progress", "--html", "all.html"),
    ("sheet", "Odd", "--out", "odd-sheet.html"),
    ("sheet", "Odd", "--out", "odd-sheet.pdf"),
    ("sheet", "--slips", "odd-set.toml", "--out", "slips.pdf"),
    ("misses", "Odd", "--json"),
    ("child", "add", "N" * 10_000, "--age", "7"),
    ("child", "show", "x" * 10_000),
    ("set", "show", "=" * 10_000),
    ("warmup", "Nobody\x1b[2J 🦭"),
    ("overdew\x1b[2J",),
    ("set", "show", "☃"),
)


def dated(words: Sequence[str], day: str) -> list[str]:
    """On that day, where the command takes one."""
    known = leaves()
    command = tuple(words[:2]) if tuple(words[:2]) in known else tuple(words[:1])
    takes = bool(words) and command in known and "--on " in help_of(command)
    return [*words, "--on", day] if takes else [*words]


def prepare(folder: Path, call: Callable[..., object]) -> None:
    """A book of hostile names, with Mira who is in every example."""
    shutil.copy(DATA / "our-sums.toml", folder)
    (folder / "odd-set.toml").write_text(OWN_SET, encoding="utf-8")
    call(["child", "add", "Mira", "--age", "7", "--on", "2026-01-05"])
    for set_id in ("times-2-5-10", "addition-facts-10", "telling-time-hours"):
        call(["set", "add", set_id, "Mira", "--taught", "--on", "2026-01-05"])
    call(["set", "add", "roman-early", "Mira", "--on", "2026-01-05"])
    for name in NAMES:
        call(["child", "add", name, "--age", "8", "--on", "2026-01-05"])
    call(["child", "add", "Odd", "--age", "6", "--on", "2026-01-05"])
    call(["set", "add", "odd-set.toml", "Odd", "--taught", "--on", "2026-01-05"])
    call(["set", "add", "telling-time-hours", "Odd", "--taught", "--on", "2026-01-05"])
    call(["warmup", "Odd", "--jsonl", "--on", "2026-01-05"], typed=ANSWERS)


@contextmanager
def within(place: Surroundings, folder: Path) -> Iterator[Callable[..., Done]]:
    """A way to run commands in this very process, with streams of that encoding."""
    env, streams, before = dict(os.environ), (sys.stdin, sys.stdout, sys.stderr, sys.argv), os.getcwd()
    os.environ.pop("COLUMNS", None)
    os.environ |= {"REVIEW_BOOK": "family.book", **place.env}
    os.chdir(folder)
    sys.argv = ["review"]

    def call(words: Sequence[str], typed: str = TYPED) -> Done:
        out, err = (io.TextIOWrapper(io.BytesIO(), place.encoding, write_through=True) for _ in "oe")
        sys.stdin = io.TextIOWrapper(io.BytesIO(typed.encode("utf-8", "surrogatepass")), place.encoding)
        sys.stdout, sys.stderr = out, err
        code = run([*place.options, *words])
        return Done(code, written(out), written(err))

    try:
        yield call
    finally:
        os.chdir(before)
        os.environ.clear()
        os.environ.update(env)
        sys.stdin, sys.stdout, sys.stderr, sys.argv = streams


def written(stream: io.TextIOWrapper) -> bytes:
    stream.flush()
    buffer = stream.buffer
    assert isinstance(buffer, io.BytesIO)
    return buffer.getvalue()


def faults(done: Done, place: Surroundings, columns: int = 0) -> list[str]:
    """What a screen, or one who listens, would stumble over."""
    found = []
    for name, data in (("out", done.out), ("err", done.err)):
        try:
            text = data.decode(place.encoding)
        except UnicodeDecodeError as error:
            found.append(f"{name}: {error}")
            continue
        found += [f"{name}: a control sign in {line!r}" for line in text.split("\n") if CONTROL.search(line)]
        found += [f"{name}: {text}"] if "Traceback" in text else []
        if columns:
            found += [f"{name}: too wide: {line}" for line in text.splitlines() if len(line) > columns]
    return found


def amiss(words: Sequence[str], done: Done, place: Surroundings, columns: int = 0) -> list[str]:
    """The same of a command, where what a program is to read is no screen: a table for a spreadsheet is the
    same bytes everywhere (RFC 4180), and a script or JSON may be as wide as it is."""
    if "csv" in words:
        begins = done.out.startswith(b"\xef\xbb\xbf")
        return [*table_faults(done.out), *([] if begins else ["no mark of UTF-8"])]
    read = "--json" in words or bool({"completion", "manual"} & {*words[:1]})
    return faults(done, place, 0 if read or done.code else columns)


# --- what was written into files ------------------------------------------------------------------------

FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""How a cell begins that a spreadsheet may take for a formula (OWASP, "CSV Injection")."""
ACTIVE = re.compile(
    r"<\s*(?:script|img|iframe|object|embed|link)\b|\bon\w+\s*=\s*[^\s&]|javascript:|@import", re.I
)
"""What a page could do something with: none of ours has any."""


def papers(folder: Path) -> list[str]:
    """What a page, a print or a spreadsheet holds that it must not."""
    found = sorted(path for path in folder.rglob("*") if path.suffix in LOOKED_AT)
    return [f"{path.name}: {wrong}" for path in found for wrong in LOOKED_AT[path.suffix](path.read_bytes())]


def page_faults(data: bytes) -> list[str]:
    text = data.decode("utf-8")
    inside = [tag for tag in re.findall(r"<[^>]*>", text) if ACTIVE.search(tag)]
    return [f"a control sign in {line[:80]!r}" for line in text.split("\n") if CONTROL.search(line)] + inside


def print_faults(data: bytes) -> list[str]:
    import pypdf  # heavy, and only for a print

    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]
    pages = [page.replace("\x00", "") for page in pages]  # a sign no font has comes back so
    return [f"a control sign in {page[:80]!r}" for page in pages if CONTROL.search(page)]


def table_faults(data: bytes) -> list[str]:
    rows = csv.reader(io.StringIO(data.decode("utf-8-sig"), newline=""))
    cells = [cell for row in rows for cell in row]
    formulas = [cell for cell in cells if cell.startswith(FORMULA) and not re.fullmatch(r"-?[0-9.]+", cell)]
    return [f"a formula: {cell!r}" for cell in formulas] + [
        repr(cell) for cell in cells if CONTROL.search(cell)
    ]


LOOKED_AT: Mapping[str, Callable[[bytes], list[str]]] = {
    ".html": page_faults,
    ".pdf": print_faults,
    ".csv": table_faults,
}
