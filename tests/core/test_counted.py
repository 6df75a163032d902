"""Whether sums are counted: from the times of simulated answers.

0.4 s a unit of the smaller addend in first-graders, 0.02 s in adults: Groen & Parkman 1972 (from memory).
"""

from random import Random
from typing import Any

import pytest

from review.core import counted
from review.core.counted import Timed
from review.core.model import Answer

SUMS = ((2, 9), (3, 9), (3, 8), (6, 7), (6, 8), (7, 8), (6, 9), (7, 9), (8, 9))


def times(step: float, seed: int, many: int = 60, spread: float = 0.6) -> list[Timed]:
    """A second to begin, then so much a step; the spread is that of children's answers (our judgement)."""
    random = Random(seed)
    smalls = [SUMS[n % len(SUMS)][0] if n % 2 else SUMS[n % 3][0] for n in range(many)]
    return [(small, 1.0 + step * small + random.gammavariate(2, spread / 2)) for small in smalls]


def test_who_counts_as_first_graders_do_is_found_out() -> None:
    assert sum(counted.slope(times(0.4, seed)) is not None for seed in range(100)) >= 98


def test_who_recalls_as_adults_do_is_not() -> None:
    assert sum(counted.slope(times(0.02, seed)) is not None for seed in range(100)) == 0


def test_too_few_answers_tell_nothing() -> None:
    assert counted.slope(times(0.4, 1, counted.LEAST - 1)) is None
    assert counted.slope([(8, 4.0)] * 60) is None


@pytest.mark.parametrize(("spread", "told"), [(0.9, True), (1.6, False)])
def test_half_a_step_must_be_sure(spread: float, told: bool) -> None:
    """A step of 0.3 s with an error of 0.066 or 0.117 s: 1.64 errors below it are 0.19 and 0.11, and half the
    step from which it is told is 0.125."""
    times = [(small, 2 + 0.3 * small + spread * way) for small in (2, 7) for way in (1, -1) * 10]
    assert (counted.slope(times) is not None) is told


def test_looking_away_once_or_twice_changes_nothing() -> None:
    away = [(small, 40.0 if n in (7, 31) else seconds) for n, (small, seconds) in enumerate(times(0.02, 3))]
    assert counted.slope(away) is None


def answer(key: str, **more: Any) -> Answer:
    one = Answer(key, key.partition(":")[2], "11", "11", "right", first_ms=2200, end_ms=3000)
    return one._replace(**more)


@pytest.mark.parametrize("key", ["sum:2+9", "sum:3+8", "sum:6+7", "sum:8+9"])
def test_the_chosen_sums_are_timed_to_the_first_key(key: str) -> None:
    assert counted.timed_sum(answer(key)) == (int(key[4]), 2.2)


@pytest.mark.parametrize(
    "one",
    [
        answer("sum:4+5"),
        answer("sum:7+7"),
        answer("sum:_+2=11"),
        answer("product:2x9"),
        answer("difference:11-2"),
        answer("sum:2+9", mark="not_yet"),
        answer("sum:2+9", help="question"),
        answer("sum:2+9", taken="aloud"),
        answer("sum:2+9", first_ms=0),
        answer("sum:2+9", first_ms=100),
        answer("sum:2+9", showing=1),
        answer("sum:2+9", role="intro"),
        answer("sum:2+9", slipped="21"),
        answer("sum:2+9", sitting="gentle"),
    ],
)
def test_other_answers_tell_nothing(one: Answer) -> None:
    """Products least of all: they are not counted one by one."""
    assert counted.timed_sum(one) is None
