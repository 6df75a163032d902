"""The memory model in closed form, on plain histories: what fitting needs thousands of times over.

The same rules as `memory`, which stays the only one whose numbers are kept: a test holds the two together.
The formulas are those of FSRS-6 (free spaced repetition scheduler, version 6) for an answer that was
retrieved or not; the holds, halves and first gaps are our own.
"""

from collections.abc import Iterable, Iterator, Sequence
from math import exp, log
from typing import Literal, NamedTuple

Parameters = tuple[float, ...]

LEAST, MOST = 0.001, 10.0
"""The least stability in days and the greatest difficulty there are, as in the `fsrs` library 6.3.2."""

BOUNDS: tuple[tuple[float, float], ...] = (
    *[(0.001, 100.0)] * 4, (1.0, 10.0), (0.001, 4.0), (0.001, 4.0), (0.001, 0.75), (0.0, 4.5), (0.0, 0.8),
    (0.001, 3.5), (0.001, 5.0), (0.001, 0.25), (0.001, 0.9), (0.0, 4.0), (0.0, 1.0), (1.0, 6.0), (0.0, 2.0),
    (0.0, 2.0), (0.0, 0.8), (0.1, 0.8),
)  # fmt: skip
"""Least and most of every parameter, as the `fsrs` library 6.3.2 takes them; a test compares them."""

Way = Literal["try", "look", "hold", "halve", "known"]
"""try: a first try; look: a later one the same day, retrieved; hold, halve: what a mark does
that is neither; known: a parent said so."""


class Step(NamedTuple):
    """One thing that moved the memory of a card."""

    day: int
    days: int  # whole days since the last first try; 0: the first, or the same day
    way: Way
    retrieved: float = 1.0  # 1: yes, 0: no; between: how likely a right answer came from memory
    least: float = 0.0  # the stability it gets at least if retrieved: of what was known at first sight
    longest: float = 0.0  # for a half: the gap that is halved, where the stability is longer


History = tuple[Step, ...]
"""The steps of one card in the order of the log, from its first rating, or again from when it came back as
new."""


class Strength(NamedTuple):
    stability: float
    difficulty: float


class Foretold(NamedTuple):
    """A first try, with the recall that was promised for it."""

    step: Step
    promised: float


def clamped(parameters: Iterable[float]) -> Parameters:
    return tuple(
        min(max(value, least), most) for value, (least, most) in zip(parameters, BOUNDS, strict=True)
    )


def recall(stability: float, days: float, decay: float) -> float:
    """The chance of recall after so many days: 0.9 when they are as many as the stability, for any decay."""
    return float((1 + (0.9 ** (-1 / decay) - 1) * max(0.0, days) / stability) ** -decay)


def interval(stability: float, target: float, decay: float) -> float:
    """The days until recall has fallen to the target. The inverse of `recall`."""
    return float(stability / (0.9 ** (-1 / decay) - 1) * (target ** (-1 / decay) - 1))


# --- one step -----------------------------------------------------------------------------------------


def first(w: Parameters, retrieved: bool) -> Strength:
    return Strength(max(w[2 if retrieved else 0], LEAST), min(max(first_difficulty(w, retrieved), 1.0), MOST))


def first_difficulty(w: Parameters, retrieved: bool) -> float:
    return w[4] - exp(w[5] * (2 if retrieved else 0)) + 1


def later(w: Parameters, old: Strength, days: int, retrieved: bool) -> Strength:
    """After an answer on another day, or, at 0 days, on the same."""
    if days <= 0:
        stability = same_day(w, old.stability, retrieved)
    else:
        chance = recall(old.stability, days, w[20])
        stability = (grown if retrieved else fallen)(w, old, chance)
    return Strength(max(stability, LEAST), harder(w, old.difficulty, retrieved))


def same_day(w: Parameters, stability: float, retrieved: bool) -> float:
    change = exp(w[17] * ((0 if retrieved else -2) + w[18])) * stability ** -w[19]
    return float(stability * (max(change, 1.0) if retrieved else change))


def grown(w: Parameters, old: Strength, chance: float) -> float:
    room = (11 - old.difficulty) * old.stability ** -w[9] * (exp((1 - chance) * w[10]) - 1)
    return float(old.stability * (1 + exp(w[8]) * room))


def fallen(w: Parameters, old: Strength, chance: float) -> float:
    left = ((old.stability + 1) ** w[13] - 1) * exp((1 - chance) * w[14])
    return float(min(w[11] * old.difficulty ** -w[12] * left, old.stability / exp(w[17] * w[18])))


def harder(w: Parameters, difficulty: float, retrieved: bool) -> float:
    """A miss makes it harder; every answer draws it a little towards the easiest there is at first."""
    moved = difficulty if retrieved else difficulty + w[6] * 2 * (MOST - difficulty) / 9
    return min(max(w[7] * (w[4] - exp(w[5] * 3) + 1) + (1 - w[7]) * moved, 1.0), MOST)


# --- a history ----------------------------------------------------------------------------------------


def after(w: Parameters, old: Strength | None, step: Step) -> Strength:
    """The strength of a card after one step more."""
    if step.way == "try" or step.way == "look":
        return tried(w, old, step)
    if old is None:
        return at_least(first(w, step.way != "halve"), step.least)
    return halved(old, step) if step.way == "halve" else at_least(old, step.least)


def tried(w: Parameters, old: Strength | None, step: Step) -> Strength:
    """After a try; between the two it could be, in logarithms, where it is not sure which it was."""
    passed = at_least(moved(w, old, step.days, True), step.least) if step.retrieved > 0 else None
    failed = moved(w, old, step.days, False) if step.retrieved < 1 else None
    if passed is None or failed is None:
        return passed or failed or Strength(LEAST, MOST)
    sure = step.retrieved
    mean = exp(sure * log(passed.stability) + (1 - sure) * log(failed.stability))
    return Strength(mean, sure * passed.difficulty + (1 - sure) * failed.difficulty)


def moved(w: Parameters, old: Strength | None, days: int, retrieved: bool) -> Strength:
    return first(w, retrieved) if old is None else later(w, old, days, retrieved)


def at_least(strength: Strength, stability: float) -> Strength:
    return strength if strength.stability >= stability else strength._replace(stability=stability)


def halved(old: Strength, step: Step) -> Strength:
    return old._replace(stability=max(min(old.stability, step.longest) / 2, LEAST))


def foretold(w: Parameters, history: History) -> Iterator[Foretold]:
    """Every first try of a card that something was promised for."""
    strength: Strength | None = None
    for step in history:
        if step.way == "try" and strength is not None and step.days > 0:
            yield Foretold(step, recall(strength.stability, step.days, w[20]))
        strength = after(w, strength, step)


def all_foretold(w: Parameters, histories: Sequence[History]) -> list[Foretold]:
    return [one for history in histories for one in foretold(w, history)]
