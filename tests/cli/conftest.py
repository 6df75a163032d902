"""Running the command line inside the test's own process."""

import io
import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from review.app import demo
from review.cli import run


class Done(NamedTuple):
    code: int
    out: str
    err: str


Review = Callable[..., Done]


def sentence(done: Done, code: int, *words: str) -> None:
    """One short message, on the error stream, with the exit code and the words that help."""
    assert done.code == code, done
    assert done.out == ""
    assert "Traceback" not in done.err
    for word in words:
        assert word in done.err, done.err


def answers(review: Review) -> int:
    """How many the book holds, each proved."""
    return int(json.loads(review("verify", "--json").out)["answers"])


@pytest.fixture
def review(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Review:
    """`review("overdue", "--all", typed="...")` on a book of the test's own."""
    monkeypatch.setenv("REVIEW_BOOK", str(tmp_path / "family.book"))
    monkeypatch.setattr(sys, "argv", ["review"])

    def call(*arguments: str, typed: str = "") -> Done:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(typed.encode()), encoding="utf-8"))
        code = run(list(arguments))
        out, err = capsys.readouterr()
        return Done(code, out, err)

    return call


@pytest.fixture
def family(review: Review) -> Review:
    """Two children, one with sets and something taught."""
    for arguments in (
        ("child", "add", "Mira", "--age", "7", "--on", "2026-01-05"),
        ("child", "add", "Jonah", "--age", "9", "--on", "2026-01-05"),
        ("set", "add", "addition-facts-10", "Mira", "--taught", "--on", "2026-01-05"),
        ("set", "add", "roman-early", "Mira", "--on", "2026-01-05"),
    ):
        assert review(*arguments).code == 0
    return review


@pytest.fixture
def practised(family: Review) -> Review:
    """Mira has answered a few problems, one of them in a way a spreadsheet would take for a formula."""
    done = family("warmup", "Mira", "--on", "2026-01-05", typed="3\n=1+1\n5\n-4\n7\npass\n9\nstop\n")
    assert done.code == 0, done.err
    return family


DAY = 740_000


@pytest.fixture(scope="session")
def season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book in which the invented family has practised for five weeks."""
    return demo.play(tmp_path_factory.mktemp("season"), DAY, days=35)


@pytest.fixture
def desk(review: Review, season: Path, monkeypatch: pytest.MonkeyPatch) -> Review:
    monkeypatch.setenv("REVIEW_BOOK", str(season))
    return review


ALL_POWERS = os.name == "posix" and os.geteuid() == 0
NO_POWERS = "-dac_override,-dac_read_search"  # root without the right to pass over permissions


def shell(command: str, book: Path, powers: bool = True) -> subprocess.CompletedProcess[str]:
    """A line for the shell; without `powers` permissions hold, also for root."""
    drop = ["setpriv", f"--bounding-set={NO_POWERS}", f"--inh-caps={NO_POWERS}"]
    prefix = drop if ALL_POWERS and not powers else []
    line = command.replace("review", f"{sys.executable} -m review", 1)
    environment = {**os.environ, "REVIEW_BOOK": str(book)}
    return subprocess.run(
        [*prefix, "bash", "-c", line], env=environment, capture_output=True, text=True, input=""
    )


@pytest.fixture
def tables(family: Review) -> Review:
    """Mira has three tables, none of them taught."""
    assert family("set", "add", "times-2-5-10", "Mira", "--on", "2026-01-05").code == 0
    return family
