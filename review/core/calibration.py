"""Promised against actual recall: of what was given a chance of 80%, were 80% right?"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import fsum, log, sqrt
from typing import NamedTuple

from review.core import correction, curve, habits, marking, memory
from review.core.amendments import amended
from review.core.answer_bodies import event_answer
from review.core.model import Answer, CardMemory, Event, Habits, TraitsOf

_SURE = 1e-7
"""Chances are kept this far from 0 and 1, so that one surprise is dear and not infinite (common practice)."""

EDGES = (0.0, 0.5, 0.7, 0.8, 0.85, 0.9, 0.95, 1.0)
"""Where the table of calibration is cut: finer where the plan works (our judgement)."""

_Z95 = 1.959964
"""Of the normal distribution: 95% lie within so many standard deviations (any handbook's table)."""


_NONE = Habits()


class Promise(NamedTuple):
    """One first try: what was promised, and what came."""

    day: int
    promised: float
    right: float  # 1 or 0; between: how likely a right answer came from memory, where that is asked


class Band(NamedTuple):
    """A line of the calibration table: the tries with a promise from `low` to under `high`."""

    low: float
    high: float
    n: int
    promised: float  # mean
    right: float  # share
    within: tuple[float, float]  # where the true share lies, 95%


# --- scores -------------------------------------------------------------------------------------------


def surprise(promised: float, right: float) -> float:
    """What one answer costs: the negative logarithm of the chance that was given to what came."""
    chance = min(max(promised, _SURE), 1 - _SURE)
    return -right * log(chance) - (1 - right) * log(1 - chance)


# --- the table ----------------------------------------------------------------------------------------


def bands(promises: Iterable[Promise], edges: Sequence[float] = EDGES) -> tuple[Band, ...]:
    """The calibration table, lowest promise first; lines without a try are left out."""
    kept = list(promises)
    cut = [
        (low, high, [one for one in kept if low <= one.promised < high or high == one.promised == edges[-1]])
        for low, high in pairwise(edges)
    ]
    return tuple(_band(low, high, within) for low, high, within in cut if within)


def _band(low: float, high: float, within: Sequence[Promise]) -> Band:
    n, right = len(within), fsum(one.right for one in within)
    return Band(low, high, n, fsum(one.promised for one in within) / n, right / n, wilson(right, n))


def wilson(right: float, n: int, z: float = _Z95) -> tuple[float, float]:
    """Where the true share lies when `right` of n came: the score interval of Wilson (1927)."""
    share, spread = right / n, z * z / n
    middle = (share + spread / 2) / (1 + spread)
    half = z / (1 + spread) * sqrt(share * (1 - share) / n + spread / (4 * n))
    return max(0.0, middle - half), min(1.0, middle + half)


# --- from the log -------------------------------------------------------------------------------------


class Moved(NamedTuple):
    """One event of a card, with what was remembered before it and after."""

    before: CardMemory  # as new, where the card came back after it was set aside
    event: Event
    after: CardMemory
    promised: float | None  # as the plan would have promised it; None: never measured
    sure: float  # the chance that a right answer came from memory


def moves(events: Iterable[Event], traits: TraitsOf | None = None, ways: Habits = _NONE) -> Iterator[Moved]:
    """All of one child's events, as the fold takes them, one card's step after the other."""
    known: dict[str, CardMemory] = {}
    for event in amended(events):
        if event.kind in ("answer", "known"):
            old = known.get(event.card) or CardMemory(event.card)
            promised, sure = _looked_up(ways, old, event)
            ways, known[event.card] = memory.follow(ways, old, event, traits)
            before = _back(old, known[event.card])
            new = before.stability is None
            yield Moved(before, event, known[event.card], None if new else promised, sure)


def _looked_up(ways: Habits, old: CardMemory, event: Event) -> tuple[float | None, float]:
    day = max(event.day, old.seen_day, old.last_day)
    promised = correction.recall(ways, memory.returned(old, day), day)
    return promised, habits.sureness(ways, event_answer(event), promised)


def _back(before: CardMemory, after: CardMemory) -> CardMemory:
    """A card that comes back as new has no measured memory any more, nor what it was placed by."""
    again = before.aside_day and not after.aside_day and after.seen_day - before.aside_day >= curve.ASIDE_DAYS
    return memory.returned(before, after.seen_day) if again else before


def is_first_try(moved: Moved) -> bool:
    return moved.event.kind == "answer" and moved.after.tries > moved.before.tries


def outcome(moved: Moved) -> float | None:
    return came(event_answer(moved.event), moved.sure)


def came(answer: Answer, sure: float) -> float | None:
    """Whether a first try was right and unaided, 1 or 0, or how likely; None where its mark says neither.
    `sure`: the chance that a right answer came from memory.

    Slow answers whose gap was held or halved, and a procedure after a guiding question, say neither. An
    answer that took a picture was not unaided.
    """
    effect = marking.effect(answer)
    if effect == "halve" and not marking.unaided(answer):
        return 0.0
    return {"retrieved": 1.0, "weighed": sure, "not retrieved": 0.0}.get(effect)


def promises(events: Iterable[Event], traits: TraitsOf | None = None, ways: Habits = _NONE) -> list[Promise]:
    """Every first try of a child that something was promised for, in the order of the log."""
    made = (_promise(moved) for moved in moves(events, traits, ways) if is_first_try(moved))
    return [promise for promise in made if promise]


def _promise(moved: Moved) -> Promise | None:
    days, right = moved.after.last_day - moved.before.last_day, outcome(moved)
    if moved.promised is None or right is None or days <= 0:
        return None
    return Promise(moved.after.last_day, moved.promised, right)
