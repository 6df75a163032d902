"""What each effect does to a card, by the rules DEVELOPERS.md states; the model's own step is held against
three libraries in `test_strength`."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import curve, memory
from review.core.marking import Effect
from review.core.model import CardMemory
from review.core.moves import MOVES, By
from tests.core.stock import DAY, grown, plain, told
from tests.core.test_strength import walk

KEY = "sum:1+1"
MOVING: tuple[Effect, ...] = ("retrieved", "weighed", "hold", "halve", "not retrieved")


def after(effect: Effect, card: CardMemory, days: int = 9, sure: float = 0.5) -> CardMemory:
    return MOVES[effect](card, By(card.last_day + days, (DAY, 1, 1, 1), sure, curve.PARAMETERS, plain))


@given(
    st.sampled_from(MOVING),
    st.integers(1_000, 14_000_000).map(lambda millionths: millionths / 1e6),
    st.integers(0, 60),
    st.floats(0, 1),
)
def test_what_is_kept_has_six_decimals_whatever_moved_it(
    effect: Effect, stability: float, days: int, sure: float
) -> None:
    """So that a rebuild gives the same bits on another processor."""
    new = after(effect, grown(KEY, stability, DAY), days, sure)
    assert (new.stability, new.difficulty) == (round(new.stability or 0, 6), round(new.difficulty or 0, 6))


def test_a_halved_gap_is_half_of_the_gap_it_had() -> None:
    """Which the longest gap may have kept shorter than the stability: 14 days, 60 after three rights at it;
    never under the least there is."""
    halves = [
        after("halve", grown(KEY, stability, DAY, capped=capped)).stability
        for stability, capped in ((9.0, 0), (200.0, 0), (200.0, 3), (0.001, 0))
    ]
    assert halves == [4.5, 7, 30, 0.001]


def test_only_answers_from_memory_go_on_with_rights_running_at_the_longest_gap() -> None:
    """Worked out with a hint it stays where it is, and so does its run; with a picture, or none, it ends."""
    card = grown(KEY, 400.0, DAY, capped=2)
    runs = {effect: after(effect, card, days=14).capped for effect in MOVING}
    assert runs == {"retrieved": 3, "weighed": 3, "hold": 2, "halve": 0, "not retrieved": 0}
    assert after("weighed", card, days=14, sure=0.49).capped == 0
    assert after("retrieved", card, days=13).capped == 2  # not yet at it


def test_what_first_comes_with_a_picture_begins_as_a_miss_does() -> None:
    first = memory.fold(
        [told(1, DAY, "not_yet", "intro"), told(2, DAY + 1, "right_helped", help="picture")], plain
    )[KEY]
    assert (first.stability, first.difficulty) == walk("1@0")
    assert (first.tries, first.right, first.miss_days) == (1, 0, 0)  # no miss all the same


@pytest.mark.parametrize("sure", [0.0, 0.25, 0.5, 0.8, 1.0])
def test_a_weighed_answer_lies_where_it_is_likely_to_have_come_from(sure: float) -> None:
    """In logarithms for the days, evenly for the difficulty, between from memory and missed."""
    (days, easy), (fewer, hard), (found, between) = (
        strength(after(of, grown(KEY, 9.0, DAY), sure=sure))
        for of in ("retrieved", "not retrieved", "weighed")
    )
    assert found == pytest.approx(days**sure * fewer ** (1 - sure), abs=2e-6)
    assert between == pytest.approx(sure * easy + (1 - sure) * hard, abs=2e-6)


def strength(card: CardMemory) -> tuple[float, float]:
    assert card.stability is not None
    assert card.difficulty is not None
    return card.stability, card.difficulty


@pytest.mark.parametrize(
    ("sure", "right_days", "placed"), [(0.8, 4, 2), (0.51, 4, 2), (0.49, 3, 0), (0.1, 3, 0)]
)
def test_a_weighed_answer_is_a_day_recalled_where_it_likely_came_from_memory(
    sure: float, right_days: int, placed: int
) -> None:
    """And never a miss: nothing was wrong."""
    found = after("weighed", grown(KEY, 9.0, DAY, placed=1, known=True), sure=sure)
    assert (found.right_days, found.placed, found.miss_days, found.known) == (right_days, placed, 0, True)
