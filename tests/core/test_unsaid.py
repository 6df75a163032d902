"""Misses with no answer tried, and answers with help. No outside source: what is often is our judgement."""

import pytest

from review.core.findings import Helped, Unsaid
from review.core.model import Answer, Mark
from review.core.unsaid import LAST, LEAST, helped, unsaid
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


@pytest.mark.parametrize(
    ("steps", "told"),
    [
        (("picture",) * 9, None),  # too few to tell
        (("picture",) * LEAST, Helped(10, 10)),
        (("picture", "question", "steps", "") * 5, Helped(15, 20)),
        (("picture",) * 11 + ("",) * 9, None),
        (("written",) * 20, None),  # shows no more than the problem did
        (("picture",) * 20 + ("",) * 20, None),  # it was so once
    ],
)
def test_help_before_most_answers(steps: tuple[str, ...], told: Helped | None) -> None:
    """Found or not: who looked first has not tried first."""
    rows = [
        (day, Answer("sum:2+3", "2+3", "5", "5", "right_helped" if step else "right", help=step))
        for day, step in enumerate(steps, 1)
    ]
    assert helped(logged(rows)) == told
    missed = [(day, one._replace(given="6", mark="not_yet")) for day, one in rows]
    assert helped(logged(missed)) == told
