"""What one answer does to the strength of a memory: the one wall around the library that models it.

Pure: every time is noon UTC, since the library counts whole 24-hour spans, and 08:00 after 09:00 of the day
before would be the same day to it. Values are rounded to 6 decimals, so that a rebuild gives the same bits on
another processor.
"""

from datetime import UTC, datetime, timedelta
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from review.core import curve
from review.core.trace import Parameters

if TYPE_CHECKING:
    from fsrs import Scheduler

NOT_RETRIEVED, RETRIEVED = 1, 3
NOON = datetime(2000, 1, 1, 12, tzinfo=UTC)  # any day's


class Strength(NamedTuple):
    """What the library keeps of a card: stability in days, difficulty 1 to 10; None before the first
    rating."""

    stability: float | None = None
    difficulty: float | None = None


def wake() -> None:
    """Load the library now rather than at the first answer: it takes longer than a child should wait."""
    _scheduler(curve.PARAMETERS)


@lru_cache(maxsize=4)
def _scheduler(parameters: Parameters) -> "Scheduler":
    from fsrs import Scheduler

    return Scheduler(parameters, learning_steps=(), relearning_steps=(), enable_fuzzing=False)


def rated(old: Strength, days: int, rating: int, parameters: Parameters = curve.PARAMETERS) -> Strength:
    """The strength after an answer, `days` whole days after the last one; rating 1 not retrieved, 3
    retrieved.

    FSRS-6 as the library computes it: its first state, its long-term step, or at 0 days its same-day step.
    """
    from fsrs import Card, Rating, State

    start, met = NOON, old.stability is not None
    card = Card(
        card_id=1,
        state=State.Review if met else State.Learning,
        step=None if met else 0,
        stability=old.stability,
        difficulty=old.difficulty,
        due=start,
        last_review=start if met else None,
    )
    new, _ = _scheduler(parameters).review_card(card, Rating(rating), start + timedelta(days=max(0, days)))
    return Strength(round(new.stability or 0.0, 6), round(new.difficulty or 0.0, 6))
