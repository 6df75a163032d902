"""The parent's ticks before a placement, and the moment in which the child sits down."""

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from review.core import sayings
from tests.cli.conftest import Review
from tests.terminal.seat import Seat, sat

SET, ON = "times-2-5-10", ("--on", "2026-01-06")
HERE, BACK = "Enter when Jonah sits here: ", "To change the answer before, type back."
TICKS = ("  The table of 2: ", "  The table of 10: ", "  The table of 5: ")


@pytest.fixture
def with_tables(family: Review) -> Review:
    assert family("set", "add", SET, "Jonah", "--on", "2026-01-05").code == 0
    return family


@contextmanager
def placed(tmp_path: Path, *options: str) -> Iterator[Seat]:
    arguments = ["-m", "review", "placement", SET, "Jonah", *ON, *options]
    with sat(
        Seat(sys.executable, arguments, 80, 30, {"REVIEW_BOOK": str(tmp_path / "family.book")})
    ) as taken:
        yield taken


def said(review: Review) -> dict[str, str]:
    told = json.loads(review("placement", SET, "Jonah", "--json", *ON).out)
    return {one["skill"]: one["said"] for one in told["skills"]}


def test_the_last_tick_is_taken_back_also_behind_the_last_question(
    with_tables: Review, tmp_path: Path
) -> None:
    with placed(tmp_path, "--no-copying") as taken:
        taken.see(BACK).at(TICKS[0]).press("s\r")
        taken.at(TICKS[1]).press("n\r")
        taken.at(TICKS[2]).press("Back\r")
        taken.at(TICKS[1]).press("s\r")
        taken.at(TICKS[2]).press("\r")
        taken.see("Now Jonah types.").at(HERE).press("back\r")
        taken.at(TICKS[2]).press("n\r")
        taken.at("Enter takes it as it is: ").press("back\r")
        taken.at(TICKS[2]).press("\r")
        taken.at(HERE).press("\r")
        taken.see("Hello, Jonah.").settle().press("stop\r")
        taken.see(sayings.GO_ON).see("may type show").press("\r")
        assert taken.finish() == 0
    assert said(with_tables) == {"table-of-2": "known", "table-of-10": "known", "table-of-5": "ask"}


def test_who_reads_out_is_not_told_that_the_child_types(with_tables: Review, tmp_path: Path) -> None:
    with placed(tmp_path, "--no-copying", "--aloud") as taken:
        for tick in TICKS:
            taken.at(tick).press("\r")
        taken.see("Now you read out to Jonah.").at(HERE).press("\r")
        taken.see("You read out, Jonah answers.").press("s")
        taken.see("may type show").press("\r")
        assert taken.finish() == 0


def test_nothing_is_kept_of_ticks_that_were_left(with_tables: Review, tmp_path: Path) -> None:
    with placed(tmp_path, "--no-copying") as taken:
        for tick in TICKS:
            taken.at(tick).press("s\r")
        taken.at("Enter takes it as it is: ").settle(0.1).press("\x03")
        assert taken.finish() == 130
        assert taken.text.splitlines()[-1] == "Stopped. Nothing was changed."
    assert {*said(with_tables).values()} == {"ask"}
