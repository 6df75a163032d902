"""A full or failing disk: refused in words, what is stored is known, and afterwards all works again."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.book.tiny import TINY
from tests.faults import power
from tests.faults.scenes import a_book, there

pytestmark = pytest.mark.skipif(
    (power.COMPILER is None or os.uname().sysname != "Linux") and not os.environ.get("CI"),
    reason="needs a C compiler on Linux",
)


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[list[str]]]:
    """The folder; of each refused call the error, whether it stayed, the answer's number, what was said."""
    folder = tmp_path_factory.mktemp("refusals")
    watcher = power.build(folder)
    book = folder / "disk"
    book.mkdir()
    a_book(book)
    environment = {
        **os.environ,
        "LD_PRELOAD": str(watcher),
        "WATCH_FOLDER": str(book),
        "WATCH_RECORD": "/dev/null",
        "PYTHONPATH": str(power.TOP),
    }
    command = [sys.executable, "-m", "tests.faults.refusals", str(book)]
    done = subprocess.run(command, env=environment, cwd=power.TOP, capture_output=True, text=True, check=True)
    return book, [line.split() for line in done.stderr.splitlines()]


def stored(folder: Path) -> set[str]:
    with there(folder).open() as book:
        assert book.verify(TINY) == []
        return {row.card.removeprefix("product:") for row in book.events(kinds=("answer",))}


def test_every_call_was_refused_once_and_for_good(told: tuple[Path, list[list[str]]]) -> None:
    _, rows = told
    assert all(len(row) == 4 for row in rows), rows
    for error in ("ENOSPC", "EIO"):
        for sticky in "01":
            assert len([row for row in rows if row[:2] == [error, sticky]]) > 10


def untrue(rows: list[list[str]], found: set[str]) -> list[list[str]]:
    """The rows of which something else was said than is so."""
    return [row for row in rows if row[3] != "unknown" and (f"{row[2]}x7" in found) != (row[3] == "stored")]


def test_what_was_said_of_an_answer_is_so(told: tuple[Path, list[list[str]]]) -> None:
    folder, rows = told
    assert untrue(rows, stored(folder)) == []
    assert {row[3] for row in rows} >= {"stored", "refused"}, "some calls spoil nothing, some all"


def test_a_planted_lie_is_found(told: tuple[Path, list[list[str]]]) -> None:
    folder, rows = told
    lies = [[*row[:3], "stored"] for row in rows if row[3] == "refused"]
    assert untrue(lies, stored(folder)) == lies


def test_afterwards_all_works_again(told: tuple[Path, list[list[str]]]) -> None:
    folder, rows = told
    assert {f"{number}x8" for _, _, number, _ in rows} <= stored(folder)
