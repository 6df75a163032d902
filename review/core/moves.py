"""What each effect of an answer does to what is remembered of its card: the model's step and our rules.

No effect knows the log, nor what else the answer said; `core/memory.py` says which one it is.
"""

from collections.abc import Callable, Mapping
from math import exp, log
from typing import NamedTuple

from review.core import curve, marking
from review.core.model import CardMemory, Place, TraitsOf
from review.core.strength import LEAST, Parameters, Strength, first, moved, rounded

PLACED_FIRST = 7.0
PLACED_AGAIN = 28.0
"""Stability, in days, of a card right and quick at first sight, and when it is right again (our
judgement)."""


class By(NamedTuple):
    """What an answer is folded by, besides itself."""

    day: int  # never before what the card has seen
    at: Place
    sure: float  # the chance that a right answer came from memory
    parameters: Parameters
    traits: TraitsOf


def _retrieved(memory: CardMemory, by: By) -> CardMemory:
    return _passed(memory, by, _if_retrieved(memory, by))


def _if_retrieved(memory: CardMemory, by: By) -> Strength:
    new = rated(memory, by.day - memory.last_day, True, by)
    return new._replace(stability=max(PLACED_AGAIN, new.stability)) if memory.placed == 1 else new


def _passed(memory: CardMemory, by: By, strength: Strength) -> CardMemory:
    at_cap = memory.last_day > 0 and by.day - memory.last_day >= curve.longest(memory.capped)
    return memory._replace(
        stability=strength.stability,
        difficulty=strength.difficulty,
        placed=2 if memory.placed == 1 else memory.placed,
        right_days=memory.right_days + 1,
        capped=memory.capped + at_cap,
        aside_day=0,
        looked=False,
    )


def _held(memory: CardMemory, by: By) -> CardMemory:
    """Stays as it is. With nothing to stay at, it begins as after a right answer, which it was."""
    return memory if memory.stability else with_strength(memory, _begun(by, True))


def _halved(memory: CardMemory, by: By) -> CardMemory:
    """Half the gap it had, which the longest gap may have kept shorter than its stability."""
    if memory.stability is None:
        return with_strength(memory, _begun(by, False))
    half = min(memory.stability, float(curve.longest(memory.capped))) / 2
    return memory._replace(stability=round(max(half, LEAST), 6), capped=0)


def _weighed(memory: CardMemory, by: By) -> CardMemory:
    """Between what it would be after an answer from memory and after none, by how likely it was one."""
    passed, failed, sure = _if_retrieved(memory, by), _if_fallen(memory, by), by.sure
    mean = exp(sure * log(passed.stability) + (1 - sure) * log(failed.stability))
    between = rounded(mean, sure * passed.difficulty + (1 - sure) * failed.difficulty)
    if sure >= 0.5:
        return _passed(memory, by, between)
    return with_strength(memory._replace(capped=0, placed=0), between)


def _fallen(memory: CardMemory, by: By) -> CardMemory:
    moved = with_strength(memory, _if_fallen(memory, by))
    return moved._replace(miss_days=memory.miss_days + 1, capped=0, placed=0, known=False)


def _if_fallen(memory: CardMemory, by: By) -> Strength:
    return rated(memory, by.day - memory.last_day, False, by)


MOVES: Mapping[marking.Effect, Callable[[CardMemory, By], CardMemory]] = {
    "retrieved": _retrieved,
    "weighed": _weighed,
    "hold": _held,
    "halve": _halved,
    "not retrieved": _fallen,
    "": lambda memory, by: memory,
}


def rated(memory: CardMemory, days: int, retrieved: bool, by: By) -> Strength:
    """The model's step from where the card is."""
    return rounded(*moved(strength_of(memory), days, retrieved, by.parameters))


def _begun(by: By, retrieved: bool) -> Strength:
    return rounded(*first(by.parameters, retrieved))


def strength_of(memory: CardMemory) -> Strength | None:
    if memory.stability is None or memory.difficulty is None:
        return None
    return Strength(memory.stability, memory.difficulty)


def with_strength(memory: CardMemory, strength: Strength) -> CardMemory:
    return memory._replace(stability=strength.stability, difficulty=strength.difficulty)
