"""Every command in every surroundings, as a process of its own and at a terminal.

python -m tests.benchmarks.surroundings [PLACE ...]

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

from tests.cli.surroundings import ALL, TYPED, Done, Surroundings, dated, examples, faults, prepare, within
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
        wide = 40 if name == "narrow" and "--json" not in words and done.code == 0 else 0
        yield from (f"{name}: review {' '.join(words)}: {fault}" for fault in faults(done, ALL[name], wide))
        if done.code not in (0, 1, 2):
            yield f"{name}: review {' '.join(words)}: exit code {done.code}"


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
        for name in names or [*ALL]:
            for fault in (*by_pipe(name, book, copy), *by_terminal(name, book, copy)):
                found += 1
                print(fault)
            print(f"{name}: {len([*examples()])} commands")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
