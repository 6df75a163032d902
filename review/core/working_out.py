"""What it takes a child to work a fact out that it does not recall, by counting as young children do; and
whether this child does."""

import re

from review.core import marking
from review.core.model import Answer, CardMemory, Habits

STEP_S = 0.4  # a counting step (Groen & Parkman 1972, first-graders)
START_S = 1.2  # to look at a problem and begin (our judgement)
USUAL_STEPS = 4  # where no two numbers stand (our judgement)
MOST_STEPS = 10
"""With more to count there are shorter ways, as from a fact next to it (our judgement: a child of nine then
takes about five seconds)."""

MOSTLY, SELDOM = 0.7, 0.25
"""Share of what is not recalled that is worked out and right, at most and at least (our judgement). With 0.9
at most, which many who count deserve, 16 of 400 cards fewer were held on one model of memory and no more on
three (measured on simulated children: see docs/learning.md)."""

LITTLE = 8  # steps: who counts at all counts so far (our judgement)
KNOWN_AT_SIGHT, KNOWN_SOON = 0.25, 0.8
"""Of facts met for the first time, and of those asked again that were not yet recalled on two days, the share
that comes from memory (our judgement; of simulated children who do not count .2 to .6 and .45 to .9)."""

SOON_DAYS = 1  # days of recall up to which it is soon
SLIPS = 0.03  # missed, though recalled or counted (our judgement)
AS_IF, LATEST = 6.0, 80.0
"""As if so many had been seen already; so many count, older ones fade (our judgement)."""

_ENCODED = re.compile("%[0-9A-Fa-f]{2}")  # a space and the like in a problem as the log has it
_NUMBER = re.compile("[0-9]+")


# --- what it takes ------------------------------------------------------------------------------------


def steps(asked: str) -> int:
    """Steps to work a fact out: the smaller addend (Groen & Parkman 1972), the part taken away or counted
    up to, or the skip-counts of a product with a step for each."""
    numbers = sorted(map(int, _NUMBER.findall(_ENCODED.sub(" ", asked))))
    if len(numbers) < 2:
        return USUAL_STEPS
    small, large = numbers[0], numbers[-1]
    if "/" in asked or ("x" in asked and "_" in asked):
        return 4 * (large // small) if small else USUAL_STEPS
    if "x" in asked:
        return 2 * small if large <= 5 or large == 10 else 4 * small
    return min(small, large - small) if "-" in asked or "_" in asked else small


def share(asked: str) -> float:
    """Of the time that the longest working out takes, over 0 to 1."""
    return _seconds(steps(asked)) / _seconds(MOST_STEPS)


def _seconds(count: int) -> float:
    """Net of copying."""
    return START_S + STEP_S * min(count, MOST_STEPS)


# --- whether this child does --------------------------------------------------------------------------


def likely(habits: Habits) -> float:
    """The share, 0 to 1, of what this child does not recall that it works out, right and unaided.

    One who counts misses next to nothing of what has little to count; of one who does not, misses are what is
    not recalled. Either sort of facts may say that it counts: at first sight a child may leave what it could
    count, and what it is asked again it may recall.
    """
    at_sight, soon = _share(habits.at_sight, KNOWN_AT_SIGHT), _share(habits.soon, KNOWN_SOON)
    return min(MOSTLY, max(SELDOM, at_sight, soon))


def noticed(habits: Habits, old: CardMemory, new: CardMemory, answer: Answer) -> Habits:
    """The habits after an answer to a fact; `old` and `new`: what is remembered of it before and after."""
    if answer.aim != "fluency" or old.known:
        return habits
    if _is_at_sight(old, new, answer) and _has_little_to_count(answer):
        return habits._replace(at_sight=_with(habits.at_sight, marking.unaided(answer)))
    if _is_soon(old, new, answer) and _has_little_to_count(answer):
        return habits._replace(soon=_with(habits.soon, marking.unaided(answer)))
    return habits


def _is_at_sight(old: CardMemory, new: CardMemory, answer: Answer) -> bool:
    """Whether the fact was met for the first time, and the answer counts."""
    first = not old.met_day and old.seen_day != new.seen_day
    return first and answer.role in ("intro", "probe") and answer.mark != "void"


def _is_soon(old: CardMemory, new: CardMemory, answer: Answer) -> bool:
    """Whether it was asked again for the first time that day, soon after."""
    asked = old.met_day > 0 and answer.role == "ask" and new.tries > old.tries
    return asked and old.right_days <= SOON_DAYS


def _has_little_to_count(answer: Answer) -> bool:
    return 0 < steps(answer.asked or answer.card.rpartition(":")[2]) <= LITTLE


def _with(seen: tuple[float, float], passed: bool) -> tuple[float, float]:
    """Right and missed with one more, of the latest so many."""
    right, missed = seen
    kept = min(1.0, LATEST / (right + missed + 1))
    return round(right * kept + passed, 6), round(missed * kept + (not passed), 6)


def _share(seen: tuple[float, float], known: float) -> float:
    """misses = slips + (1 - known) · (1 - worked out), solved for what is worked out."""
    right, missed = seen
    usual = SLIPS + (1 - known) * (1 - MOSTLY)
    misses = (missed + AS_IF * usual) / (right + missed + AS_IF)
    return 1 - (misses - SLIPS) / (1 - known)
