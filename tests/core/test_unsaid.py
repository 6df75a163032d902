"""Misses with no answer tried. No outside source: what counts as often is our judgement."""

import pytest

from review.core.findings import Unsaid
from review.core.model import Answer, Mark
from review.core.unsaid import LAST, LEAST, unsaid
from tests.core.logged import logged

LATER: tuple[Mark, ...] = ("shown", "shown", "shown")


def answers(*marks: Mark) -> list[tuple[int, Answer]]:
    """A card a day, met long ago, so that each is a first try."""
    return [
        (day, Answer("sum:2+3", "2+3", "5", "5" if mark == "right" else "", mark))
        for day, mark in enumerate(marks, 1)
    ]


@pytest.mark.parametrize(
    ("marks", "told"),
    [
        (("shown",) * 9, None),  # too few to tell
        (("shown",) * LEAST, Unsaid(10, 10)),
        (("shown",) * 6 + ("not_yet",) * 4, Unsaid(6, 10)),
        (("shown",) * 5 + ("not_yet",) * 5, None),
        (("shown", "right") * 10, Unsaid(10, 10)),  # what was right is no miss
        (("shown",) * 20 + ("not_yet",) * 20, None),  # it was so once
        (("not_yet",) * 20 + ("shown",) * 30, Unsaid(LAST, LAST)),
    ],
)
def test_most_of_the_last_misses(marks: tuple[Mark, ...], told: Unsaid | None) -> None:
    assert unsaid(logged(answers(*marks))) == told


def test_later_looks_on_a_day_count_for_nothing() -> None:
    missed: tuple[Mark, ...] = ("not_yet",) * 12
    rows = [(day, one._replace(mark=mark)) for day, one in answers(*missed) for mark in ("not_yet", *LATER)]
    assert unsaid(logged(rows)) is None
