"""Plain histories through the memory model: what a search for parameters needs thousands of times over.

The same rules as `memory`, which stays the only one whose numbers are kept: a test holds the two together.
The model's step is that of `strength`; the holds, halves and first gaps are our own. Nothing is rounded.
"""

from collections.abc import Iterator, Sequence
from math import exp, log
from typing import Literal, NamedTuple

from review.core import curve
from review.core.strength import HARDEST, LEAST, Parameters, Strength, first, moved

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


class Foretold(NamedTuple):
    """A first try, with the recall that was promised for it."""

    step: Step
    promised: float


def after(w: Parameters, old: Strength | None, step: Step) -> Strength:
    """The strength of a card after one step more."""
    if step.way == "try" or step.way == "look":
        return tried(w, old, step)
    if old is None:
        return at_least(first(w, step.way != "halve"), step.least)
    return halved(old, step) if step.way == "halve" else at_least(old, step.least)


def tried(w: Parameters, old: Strength | None, step: Step) -> Strength:
    """After a try; between the two it could be, in logarithms, where it is not sure which it was."""
    passed = at_least(moved(old, step.days, True, w), step.least) if step.retrieved > 0 else None
    failed = moved(old, step.days, False, w) if step.retrieved < 1 else None
    if passed is None or failed is None:
        return passed or failed or Strength(LEAST, HARDEST)
    sure = step.retrieved
    mean = exp(sure * log(passed.stability) + (1 - sure) * log(failed.stability))
    return Strength(mean, sure * passed.difficulty + (1 - sure) * failed.difficulty)


def at_least(strength: Strength, stability: float) -> Strength:
    return strength if strength.stability >= stability else strength._replace(stability=stability)


def halved(old: Strength, step: Step) -> Strength:
    return old._replace(stability=max(min(old.stability, step.longest) / 2, LEAST))


def foretold(w: Parameters, history: History) -> Iterator[Foretold]:
    """Every first try of a card that something was promised for."""
    strength: Strength | None = None
    for step in history:
        if step.way == "try" and strength is not None and step.days > 0:
            yield Foretold(step, curve.recall(strength.stability, step.days, w[20]))
        strength = after(w, strength, step)


def all_foretold(w: Parameters, histories: Sequence[History]) -> list[Foretold]:
    return [one for history in histories for one in foretold(w, history)]
