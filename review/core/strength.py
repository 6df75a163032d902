"""What one answer does to the strength of a memory: the memory model's step, in closed form.

FSRS-6 (free spaced repetition scheduler, version 6) for an answer that was retrieved or not. Every sum stands
in the order in which the `fsrs` library 6.3.2 reckons it, so that both give the same bits; a test holds them
together over a hundred thousand steps. The library takes more than ten times as long a step (measured here).
"""

from collections.abc import Iterable
from math import e
from typing import NamedTuple

from review.core import curve

Parameters = tuple[float, ...]

LEAST, EASIEST, HARDEST = 0.001, 1.0, 10.0
"""The least stability in days, the least and the greatest difficulty there are, as in the library."""

BOUNDS: tuple[tuple[float, float], ...] = (
    *[(0.001, 100.0)] * 4, (1.0, 10.0), (0.001, 4.0), (0.001, 4.0), (0.001, 0.75), (0.0, 4.5), (0.0, 0.8),
    (0.001, 3.5), (0.001, 5.0), (0.001, 0.25), (0.001, 0.9), (0.0, 4.0), (0.0, 1.0), (1.0, 6.0), (0.0, 2.0),
    (0.0, 2.0), (0.0, 0.8), (0.1, 0.8),
)  # fmt: skip
"""Least and most of every parameter, as the library takes them; a test compares them."""


class Strength(NamedTuple):
    """What the model keeps of a card from its first answer on."""

    stability: float  # days until recall has fallen to 0.9
    difficulty: float  # 1 to 10


def clamped(parameters: Iterable[float]) -> Parameters:
    return tuple(
        min(max(value, least), most) for value, (least, most) in zip(parameters, BOUNDS, strict=True)
    )


def rounded(stability: float, difficulty: float) -> Strength:
    """As memory keeps it: to 6 decimals, so that a rebuild gives the same bits on another processor."""
    return Strength(round(stability, 6), round(difficulty, 6))


def moved(old: Strength | None, days: int, retrieved: bool, w: Parameters = curve.PARAMETERS) -> Strength:
    """After an answer, so many whole days after the last one; at 0 days by the same-day step. None: the
    first."""
    return first(w, retrieved) if old is None else later(w, old, days, retrieved)


def first(w: Parameters, retrieved: bool) -> Strength:
    difficulty = w[4] - e ** (w[5] * (2 if retrieved else 0)) + 1
    return Strength(max(w[2 if retrieved else 0], LEAST), min(max(difficulty, EASIEST), HARDEST))


def later(w: Parameters, old: Strength, days: int, retrieved: bool) -> Strength:
    if days <= 0:
        stability = same_day(w, old.stability, retrieved)
    else:
        chance = curve.recall(old.stability, days, w[20])
        stability = (grown if retrieved else fallen)(w, old, chance)
    return Strength(max(stability, LEAST), harder(w, old.difficulty, retrieved))


def same_day(w: Parameters, stability: float, retrieved: bool) -> float:
    change: float = e ** (w[17] * ((0 if retrieved else -2) + w[18])) * stability ** -w[19]
    return stability * (max(change, 1.0) if retrieved else change)


def grown(w: Parameters, old: Strength, chance: float) -> float:
    d, s = old.difficulty, old.stability
    room: float = e ** w[8] * (11 - d) * s ** -w[9] * (e ** ((1 - chance) * w[10]) - 1)
    return s * (1 + room)


def fallen(w: Parameters, old: Strength, chance: float) -> float:
    d, s = old.difficulty, old.stability
    left: float = w[11] * d ** -w[12] * ((s + 1) ** w[13] - 1) * e ** ((1 - chance) * w[14])
    most: float = s / e ** (w[17] * w[18])
    return min(left, most)


def harder(w: Parameters, difficulty: float, retrieved: bool) -> float:
    """A miss makes it harder; every answer draws it a little towards the easiest there is at first."""
    moved = difficulty if retrieved else difficulty + (HARDEST - difficulty) * (w[6] * 2) / 9
    drawn: float = w[7] * (w[4] - e ** (w[5] * 3) + 1) + (1 - w[7]) * moved
    return min(max(drawn, EASIEST), HARDEST)
