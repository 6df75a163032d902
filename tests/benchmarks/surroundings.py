"""Every command in every surroundings, as a process of its own and at a terminal.

python -m tests.benchmarks.surroundings [PLACE ... | streams]

The commands are the examples of each `--help`, on a book of hostile names. It says what a screen, or one who
listens, would stumble over, and exits with 1 where there is anything. Nine minutes on two busy processors.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from tests.cli.surroundings import (
    ALL,
    TYPED,
    Done,
    Surroundings,
    amiss,
    dated,
    examples,
    faults,
    prepare,
    within,
)
from tests.conftest import TOP
from tests.terminal.seat import Seat, sat

DAY = "2026-01-06"
COLOUR = re.compile(rb"\x1b\[[0-9;]*(?:3[0-9]|4[0-9]|9[0-7])m")  # SGR foregrounds and backgrounds (ECMA-48)
AT_A_TERMINAL: Mapping[str, tuple[str, ...]] = {
    "overdue": ("overdue", "--all"),
    "sets": ("set", "list"),
    "front door": (),
    "help": ("--help",),
}


def environment(place: Surroundings, folder: Path) -> dict[str, str]:
    return {
        **os.environ,
        **place.env,
        "PYTHONPATH": str(TOP),
        "REVIEW_BOOK": "family.book",
        "HOME": str(folder),
        "XDG_STATE_HOME": str(folder / "state"),
        "XDG_DATA_HOME": str(folder / "data"),
    }


def process(place: Surroundings, folder: Path, words: Sequence[str]) -> Done:
    command = [sys.executable, "-m", "review", *place.options, *words]
    env = environment(place, folder)
    done = subprocess.run(command, cwd=folder, env=env, capture_output=True, input=TYPED.encode())
    return Done(done.returncode, done.stdout, done.stderr)


def by_pipe(name: str, book: Path, folder: Path) -> Iterator[str]:
    """What is found with each command."""
    for words in (*examples(), ("demo", "--folder", "season", "--on", "2026-11-25")):
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(book, folder)
        done = process(ALL[name], folder, dated(words, DAY))
        wide = 40 if name == "narrow" else 0
        yield from (
            f"{name}: review {' '.join(words)}: {fault}" for fault in amiss(words, done, ALL[name], wide)
        )
        if done.code not in (0, 1, 2):
            yield f"{name}: review {' '.join(words)}: exit code {done.code}"


STREAMS = {"full": ">/dev/full", "closed": ">&-", "all closed": "<&- >&- 2>&-"}


def by_streams(book: Path, folder: Path) -> Iterator[str]:
    """Every command where nothing can be written: in silence or a sentence, and the book stays sound."""
    place = ALL["usual"]
    for how, after in STREAMS.items():
        for words in examples():
            shutil.rmtree(folder, ignore_errors=True)
            shutil.copytree(book, folder)
            line = ["sh", "-c", f'exec "$0" -m review "$@" {after}', sys.executable, *dated(words, DAY)]
            env = environment(place, folder)
            done = subprocess.run(line, cwd=folder, env=env, capture_output=True, input=TYPED.encode())
            said = Done(done.returncode, done.stdout, done.stderr)
            named = f"{how}: review {' '.join(words)[:60]}"
            yield from (f"{named}: {fault}" for fault in faults(said, place))
            if said.code not in (0, 1, 2) or (how == "full" and said.code == 0 and words[:1] != ("warmup",)):
                yield f"{named}: exit code {said.code}"
            if process(place, folder, ["verify"]).code:
                yield f"{named}: the book is not sound"


def by_terminal(name: str, book: Path, folder: Path) -> Iterator[str]:
    """No escape code on a terminal that knows none, and no colour where none is wanted."""
    for what, words in AT_A_TERMINAL.items():
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(book, folder)
        env = {**environment(ALL[name], folder), "REVIEW_BOOK": str(folder / "family.book"), "LINES": ""}
        with sat(Seat(sys.executable, ["-m", "review", *ALL[name].options, *words], 80, 24, env)) as taken:
            code = taken.finish()
        if code:
            yield f"{name}, at a terminal, {what}: exit code {code}"
        if name in ("dumb", "plain") and b"\x1b" in taken.raw:
            yield f"{name}, at a terminal, {what}: an escape code"
        if name == "no colour" and COLOUR.search(taken.raw):
            yield f"{name}, at a terminal, {what}: colour"


def main(names: Sequence[str]) -> int:
    with tempfile.TemporaryDirectory() as made:
        book, copy = Path(made) / "book", Path(made) / "copy"
        book.mkdir()
        with within(Surroundings(env={"XDG_STATE_HOME": str(book / "state")}), book) as call:
            prepare(book, call)
        found = 0
        for fault in by_streams(book, copy) if not names or "streams" in names else ():
            found += 1
            print(fault)
        for name in [name for name in names if name in ALL] if names else [*ALL]:
            for fault in (*by_pipe(name, book, copy), *by_terminal(name, book, copy)):
                found += 1
                print(fault)
            print(f"{name}: {len([*examples()])} commands")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
