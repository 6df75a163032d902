"""How one child answers, over all cards: learned from the log as it grows, and thrown away with the rest.

How likely a right answer came from memory and was not worked out, from the child's own two-part mixture of
answer times, fitted answer by answer (incremental expectation-maximisation, after Neal & Hinton 1998, from
memory); how long copying takes; and when an answer is slow. What first tries teach of the forgetting curve is
`correction`. Values are rounded to 6 decimals after each step.
"""

from functools import lru_cache
from math import exp, log, pi, sqrt
from typing import NamedTuple

from review.core import correction, marking, working_out
from review.core.model import Answer, CardMemory, Habits

FAST_S, SLOW_S = 1.5, 5.0
"""Net seconds to retrieve and to work out, before the child's own are known, from 9 (our judgement: a
retrieved fact takes about a second, counting 0.4 s a step on top; Groen & Parkman 1972). The second is of
what takes longest to work out."""

SPREAD = 0.45  # of the logarithm of either time, before the child's own (our judgement)
PRIOR_N = 8.0  # as if so many answers of each sort had been seen (our judgement)
MEMORY_N = 80.0  # answers of each sort that count; older ones fade, as children grow (our judgement)
APART = 0.6  # the two means differ by at least this much of a logarithm, or they are one (our judgement)
SUREST = 0.995
"""More is not taken for granted. With less, quick right answers to a card that is asked every day would count
as a little unsure each time, and it would sink (measured here on a year of right answers)."""

DISTRACTED, DISTRACTED_S, DISTRACTED_SPREAD = 0.07, 9.0, 0.9
"""Share of answers of a child who looked away, and how long those take, whatever the way to the answer (our
judgement; 5 to 10 in a hundred is common at a kitchen table)."""

COPIED_LEAST = 5  # numbers copied before a child's own time is used (our judgement)
COPY_MEMORY_N = 20  # copies that count; children grow quicker (our judgement)
COPY_MOST = 1.1  # three times as long, or a third, is the most one copy says: some look away (our judgement)
MOST_DIGITS = 6
SLOW_TIMES = 1.5  # times the child's own usual time from memory (our judgement)


# --- from the log -------------------------------------------------------------------------------------


def sureness(habits: Habits, answer: Answer, recall: float | None) -> float:
    """The chance, 0 to 1, that a right answer was retrieved; `recall` is what was promised of the card.

    The child's own word decides, where there is one and the aim is fluency. Where time does not count or
    cannot be believed, every right answer is taken as retrieved.
    """
    if marking.as_it_counts(answer) not in ("right", "right_slow"):
        return 0.0
    if answer.recalled and answer.aim == "fluency":
        return float(answer.recalled == "yes")
    if not _counts(answer):
        return 1.0
    prior = min(SUREST, max(0.1, 0.7 if recall is None else recall))
    at, fast, slow = _times(habits, answer)
    known = prior * _density(at, fast)
    worked = (1 - prior) * working_out.likely(habits) * _density(at, slow)
    return known / (known + worked)


def learned(
    habits: Habits, memory: CardMemory, answer: Answer, sure: float, promised: float | None
) -> Habits:
    """The habits after a first try: `memory` and `promised` (by the curve alone) as they were before it."""
    if sure and _counts(answer) and not answer.recalled:
        habits = _timed(habits, answer, sure)
    if promised is None or not _says(answer):
        return habits
    return correction.weighed(habits, correction.features(memory, promised), correction.logit(promised), sure)


def copied(habits: Habits, answer: Answer) -> Habits:
    """The habits after an answer that was copied: how long it took, against what is usual at the age."""
    digits = sum(map(str.isdigit, answer.given))
    sure = answer.role == "copy" and answer.mark == "right" and digits == len(answer.given)
    if not (sure and answer.taken == "typed" and marking.is_believable(answer.first_ms, answer.end_ms)):
        return habits
    n, mean = habits.copying
    ratio = log(answer.end_ms / marking.copying_ms(answer.age, digits))
    held, total = max(-COPY_MOST, min(COPY_MOST, ratio)), min(n + 1, COPY_MEMORY_N)
    return habits._replace(copying=(total, round(mean + (held - mean) / total, 6)))


def copying_ms(habits: Habits, age: int) -> tuple[int, ...]:
    """The child's own time to copy a number of 1, 2, ... digits; () while too few were copied."""
    n, mean = habits.copying
    if n < COPIED_LEAST:
        return ()
    return tuple(round(marking.copying_ms(age, digits) * exp(mean)) for digits in range(1, MOST_DIGITS + 1))


def slow_ms(habits: Habits, age: int) -> int:
    """The net time over which an answer is slow for this child: by age, or half as much again as it usually
    takes to recall a fact, whichever is more."""
    own = SLOW_TIMES * exp(_sort(habits.fast, FAST_S, age)[0]) * 1000
    return max(marking.slow_ms(age), round(own)) if habits.fast[0] >= PRIOR_N else marking.slow_ms(age)


def _says(answer: Answer) -> bool:
    """Whether it says that a promise held or did not, the promise being right and unaided: what only holds a
    gap says neither."""
    return marking.effect(answer) not in ("", "hold")


def _counts(answer: Answer) -> bool:
    return answer.slow_ms > 0 and not answer.untimed and marking.is_believable(answer.first_ms, answer.end_ms)


def _log_net(answer: Answer) -> float:
    return log(max(300, answer.end_ms - answer.copy_ms) / 1000)


# --- two sorts of answer times ------------------------------------------------------------------------


class Sort(NamedTuple):
    """One of the two sorts of answer times: mean and spread of their logarithm."""

    mean: float
    spread: float


def _times(habits: Habits, answer: Answer) -> tuple[float, Sort, Sort]:
    """The logarithm of the answer's net time, and what it would be from memory and worked out.

    What has little to count is worked out sooner than what takes longest, by which the second sort is kept;
    never so soon that the two were one.
    """
    age = answer.age
    fast, slow = _sort(habits.fast, FAST_S, age), _sort(habits.slow, SLOW_S, age)
    soonest = min(slow.mean, fast.mean + APART)
    return _log_net(answer), fast, Sort(max(soonest, slow.mean + _sooner(answer)), slow.spread)


def _sooner(answer: Answer) -> float:
    """The logarithm, 0 or less, by which it is worked out sooner than what takes longest; where it is not
    known which problem it was, by its card."""
    return _share(answer.asked or answer.card.rpartition(":")[2])


@lru_cache(maxsize=4096)
def _share(asked: str) -> float:
    return log(working_out.share(asked))


def _sort(seen: tuple[float, float, float], seconds: float, age: int) -> Sort:
    """What was seen of one sort, with what one would expect."""
    n, mean, square = seen
    usual = _usual(seconds, age)
    total = n + PRIOR_N
    middle = (n * mean + PRIOR_N * usual) / total
    spread = (n * (square + (mean - middle) ** 2) + PRIOR_N * (SPREAD**2 + (usual - middle) ** 2)) / total
    return Sort(middle, sqrt(spread))


@lru_cache
def _usual(seconds: float, age: int) -> float:
    """The logarithm of such a time at that age."""
    return log(seconds * marking.slow_ms(age) / marking.slow_ms(9))


def _timed(habits: Habits, answer: Answer, sure: float) -> Habits:
    at, known, worked = _times(habits, answer)
    usual = _sort(habits.slow, SLOW_S, answer.age).mean  # the second sort is kept as of what takes longest
    fast = _moved(habits.fast, at, sure * (1 - _astray(at, known)))
    slow = _moved(habits.slow, at + usual - worked.mean, (1 - sure) * (1 - _astray(at, worked)))
    apart = _sort(slow, SLOW_S, answer.age).mean - _sort(fast, FAST_S, answer.age).mean >= APART
    return habits._replace(fast=fast, slow=slow) if apart else habits


def _moved(seen: tuple[float, float, float], at: float, weight: float) -> tuple[float, float, float]:
    """Count, mean and variance with one more value of that weight."""
    n, mean, square = seen
    kept = min(n, MEMORY_N)
    total = kept + weight
    if total <= 0:
        return seen
    middle = mean + weight / total * (at - mean)
    spread = (kept * (square + (mean - middle) ** 2) + weight * (at - middle) ** 2) / total
    return round(total, 6), round(middle, 6), round(spread, 6)


def _density(at: float, sort: Sort) -> float:
    return (1 - DISTRACTED) * _normal(at, *sort) + _away(at)


def _astray(at: float, sort: Sort) -> float:
    """The chance that a time of that sort is one of a child who looked away."""
    return _away(at) / _density(at, sort)


def _away(at: float) -> float:
    return DISTRACTED * _normal(at, log(DISTRACTED_S), DISTRACTED_SPREAD)


def _normal(at: float, mean: float, spread: float) -> float:
    return exp(-(((at - mean) / spread) ** 2) / 2) / (spread * _ROOT)


_ROOT = sqrt(2 * pi)
