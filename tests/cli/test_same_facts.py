"""The same fact is told alike everywhere, on any day of a family's life."""

import re
import shutil
from datetime import date
from pathlib import Path

import pytest

from review.core import days
from tests.cli.conftest import DAY, Review
from tests.same_facts import DATELESS, Tell, amiss_at_the_table, amiss_in_squares, contradictions, things

BREAK = 42  # days
FIRST = date(2026, 1, 6).toordinal()


def told_on(review: Review, day: int) -> Tell:
    on = ("--on", days.date_of(day).isoformat())

    def tell(*words: str) -> str:
        done = review(*words, *(() if words[0] in DATELESS else on))
        assert done.code == 0, (words, done.err)
        return done.out

    return tell


@pytest.mark.parametrize("later", [0, 1, 4, BREAK])
def test_a_family_that_practised_five_weeks(desk: Review, later: int) -> None:
    assert [*contradictions(told_on(desk, DAY + later))] == []


def test_a_child_of_two_days(review: Review) -> None:
    """Nothing known, some of it set aside; a set of which nothing was taught, and one that waits for what is
    not known yet."""
    for words in (
        ("child", "add", "Mira", "--age", "7"),
        ("set", "add", "number-bonds-10", "Mira", "--taught"),
        ("set", "add", "times-2-5-10", "Mira"),
        ("taught", "table-of-10", "Mira"),
    ):
        assert review(*words, "--on", days.date_of(DAY).isoformat()).code == 0
    for day in (DAY, DAY + 1):
        on = ("--on", days.date_of(day).isoformat())
        assert review("warmup", "Mira", *on, typed="1\n" * 60).code == 0
    tell = told_on(review, DAY + 2)
    assert [*contradictions(tell)] == []
    assert "0 first tries" not in tell("stuck", "Mira")
    aside = {aside_on(review, DAY + later) for later in (2, 8)}  # also when it may come back as new
    assert len(aside) == 1
    assert min(aside) >= 1  # how many depends on what the book happened to draw


def aside_on(review: Review, day: int) -> int:
    """Cards set aside, as the brief counts them."""
    (found,) = re.findall(r"(\d+) set aside", told_on(review, day)("brief", "Mira"))
    return int(found)


@pytest.mark.parametrize("later", [0, 60])
def test_a_child_of_whom_much_is_known_already(family: Review, later: int) -> None:
    """Said to be known, and never met: such cards hold, or fade, like others."""
    assert family("known", "addition-facts-10", "Mira", "--on", "2026-01-05").code == 0
    assert family("known", "--card", "2+3", "--not", "Mira", "--on", "2026-01-05").code == 0
    assert [*contradictions(told_on(family, FIRST + later))] == []


SEVENS = "7\n" * 40
SITTINGS = (
    (("warmup", "Fenn", "--gentle"), SEVENS),
    (("extra", "table-of-5", "Fenn"), SEVENS),
    (("warmup", "Fenn"), ""),  # begun, and left before the first answer
    (("warmup", "Fenn"), "7\n7\n"),
    (("undo", "--sitting", "Fenn", "--yes"), ""),  # on the day of the last
    (("warmup", "Fenn"), "?\n"),  # help, and gone before an answer
    (("warmup", "Fenn"), "7\n7\n7\n"),
    (("warmup", "Fenn", "--gentle"), "7\n7\n"),
)
"""What a child did, a day after the other."""


def test_days_of_which_not_all_counts(
    review: Review, season: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A gentle warm-up, a few more of one kind, what was left at once, and what was taken back."""
    shutil.copy(season, tmp_path / "odd.book")
    monkeypatch.setenv("REVIEW_BOOK", str(tmp_path / "odd.book"))
    day = DAY
    for words, typed in SITTINGS:
        day += words[0] != "undo"
        assert review(*words, "--on", days.date_of(day).isoformat(), typed=typed).code == 0
        assert [*contradictions(told_on(review, day))] == [], words
    tell, last = told_on(review, day + 8), days.words(day)
    assert f"Last practised on {last}" in " ".join(tell("overdue", "Fenn").split())
    assert f"The last on {last}" in tell("brief", "Fenn")
    assert f"The last was on {last}" in tell("progress", "Fenn")
    assert [*contradictions(tell)] == []


def test_what_contradicts_is_found() -> None:
    """What the controls above are made of sees a difference where there is one."""
    assert [*amiss_at_the_table(["6 × 7"], "Faded: 6 × 8.")] == ["6 × 7 is in brief and not in overdue"]
    assert len([*amiss_at_the_table(list("abcdef"), "abcdef")]) == 1
    cells = [{"card": "product:2x3", "sign": "#"}, {"card": "product:2x4", "sign": "o"}]
    assert len([*amiss_in_squares(cells, {"product:2x3"})]) == 2
    assert things("Did not stick: a; b; 3 more.", "Did not stick") == 5
    assert things("Did not stick: nothing.", "Did not stick") == 0
