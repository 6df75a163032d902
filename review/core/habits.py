"""How one child answers, over all cards: learned from the log as it grows, and thrown away with the rest.

Two things. *Sureness*: how likely a right answer came from memory and was not worked out, from the child's
own two-part mixture of answer times; fitted answer by answer (incremental expectation-maximisation, after
Neal & Hinton 1998). *Correction*: what the forgetting curve misses for this child, a handful of logistic
weights updated at each first try by one Laplace step (Bayesian logistic regression as in Spiegelhalter &
Lauritzen 1990). Both formulas from memory. Values are rounded to 6 decimals after each step.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import exp, log, pi, sqrt
from operator import itemgetter
from typing import NamedTuple

from review.core import curve, marking
from review.core.model import Answer, CardMemory, Habits

FAST_S, SLOW_S = 1.5, 5.0
"""Net seconds to retrieve and to work out, before the child's own are known, from 9 (our judgement: a
retrieved fact takes about a second, counting 0.4 s a step on top; Groen & Parkman 1972)."""

SPREAD = 0.45  # of the logarithm of either time, before the child's own (our judgement)
PRIOR_N = 8.0  # as if so many answers of each sort had been seen (our judgement)
MEMORY_N = 80.0  # answers of each sort that count; older ones fade, as children grow (our judgement)
APART = 0.6  # the two means differ by at least this much of a logarithm, or they are one (our judgement)
WORKS_OUT = 0.7  # share of what is not retrieved that is worked out and right (our judgement)
DISTRACTED, DISTRACTED_S, DISTRACTED_SPREAD = 0.07, 9.0, 0.9
"""Share of answers of a child who looked away, and how long those take, whatever the way to the answer (our
judgement; 5 to 10 in a hundred is common at a kitchen table)."""

COPIED_LEAST = 5  # numbers copied before a child's own time is used (our judgement)
COPY_MEMORY_N = 20  # copies that count; children grow quicker (our judgement)
COPY_MOST = 1.1  # three times as long, or a third, is the most one copy says: some look away (our judgement)
MOST_DIGITS = 6
SLOW_TIMES = 1.5  # times the child's own usual time from memory (our judgement)

PRIOR_SD = (0.6, 0.35, 0.35, 0.5, 0.7)
"""Of the correction's weights: for all cards alike, by how far recall has fallen, by stability, for cards
recalled on at most one day, by the share of misses (our judgement)."""

SIZE = len(PRIOR_SD)
DRIFT = 1.001  # the weights' variance grows by so much an answer: what was learned long ago counts less
LOWEST, HIGHEST = 0.02, 0.9995  # recall that can be reckoned with in logits
LEAST_SLOPE = 0.3


class Lens(NamedTuple):
    """The weights, made ready for many cards: logit(corrected) = slope · logit(curve) + the card's level."""

    slope: float
    turn: float  # keeps recall of .9 where it is, whatever the slope
    every: float
    stable: float
    young: float
    missed: float


# --- from the log -------------------------------------------------------------------------------------


def sureness(habits: Habits, answer: Answer, recall: float | None) -> float:
    """The chance, 0 to 1, that a right answer was retrieved; `recall` is what was promised of the card.

    The child's own word decides, where there is one and the aim is fluency. Where time does not count or
    cannot be believed, every right answer is taken as retrieved.
    """
    if marking.told(answer) not in ("right", "right_slow"):
        return 0.0
    if answer.recalled and answer.aim == "fluency":
        return float(answer.recalled == "yes")
    if not _counts(answer):
        return 1.0
    at = _log_net(answer)
    prior = min(0.98, max(0.1, 0.7 if recall is None else recall))
    fast = prior * _density(at, *_sort(habits.fast, FAST_S, answer.age))
    slow = (1 - prior) * WORKS_OUT * _density(at, *_sort(habits.slow, SLOW_S, answer.age))
    return fast / (fast + slow)


def learned(
    habits: Habits, memory: CardMemory, answer: Answer, sure: float, promised: float | None
) -> Habits:
    """The habits after a first try: `memory` and `promised` (by the curve alone) as they were before it."""
    if sure and _counts(answer) and not answer.recalled:
        habits = _timed(habits, _log_net(answer), sure, answer.age)
    if promised is None or not _says(answer):
        return habits
    return _weighed(habits, features(memory, promised), logit(promised), sure)


def copied(habits: Habits, answer: Answer) -> Habits:
    """The habits after an answer that was copied: how long it took, against what is usual at the age."""
    digits = sum(map(str.isdigit, answer.given))
    sure = answer.role == "copy" and answer.mark == "right" and digits == len(answer.given)
    if not (sure and answer.taken == "typed" and marking.clocked(answer.first_ms, answer.end_ms)):
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
    """Whether it says that a promise held or did not: what only holds a gap says neither."""
    told = marking.unaided(answer) or answer.mark in ("not_yet", "shown")
    return told and marking.effect(answer) != "hold"


def _counts(answer: Answer) -> bool:
    return answer.slow_ms > 0 and not answer.untimed and marking.clocked(answer.first_ms, answer.end_ms)


def _log_net(answer: Answer) -> float:
    return log(max(300, answer.end_ms - answer.copy_ms) / 1000)


# --- two sorts of answer times ------------------------------------------------------------------------


def _sort(seen: tuple[float, float, float], seconds: float, age: int) -> tuple[float, float]:
    """Mean and spread of the logarithm of one sort's times: what was seen, with what one would expect."""
    n, mean, square = seen
    usual = _usual(seconds, age)
    total = n + PRIOR_N
    middle = (n * mean + PRIOR_N * usual) / total
    spread = (n * (square + (mean - middle) ** 2) + PRIOR_N * (SPREAD**2 + (usual - middle) ** 2)) / total
    return middle, sqrt(spread)


@lru_cache
def _usual(seconds: float, age: int) -> float:
    """The logarithm of such a time at that age."""
    return log(seconds * marking.slow_ms(age) / marking.slow_ms(9))


def _timed(habits: Habits, at: float, sure: float, age: int) -> Habits:
    fast = _moved(habits.fast, at, sure * (1 - _astray(habits.fast, FAST_S, at, age)))
    slow = _moved(habits.slow, at, (1 - sure) * (1 - _astray(habits.slow, SLOW_S, at, age)))
    apart = _sort(slow, SLOW_S, age)[0] - _sort(fast, FAST_S, age)[0] >= APART
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


def _density(at: float, mean: float, spread: float) -> float:
    astray = DISTRACTED * _normal(at, log(DISTRACTED_S), DISTRACTED_SPREAD)
    return (1 - DISTRACTED) * _normal(at, mean, spread) + astray


def _astray(seen: tuple[float, float, float], seconds: float, at: float, age: int) -> float:
    """The chance that a time of that sort is one of a child who looked away."""
    astray = DISTRACTED * _normal(at, log(DISTRACTED_S), DISTRACTED_SPREAD)
    return astray / _density(at, *_sort(seen, seconds, age))


def _normal(at: float, mean: float, spread: float) -> float:
    return exp(-(((at - mean) / spread) ** 2) / 2) / (spread * _ROOT)


# --- what the curve misses ----------------------------------------------------------------------------


def recall(habits: Habits, memory: CardMemory, day: int) -> float | None:
    """The chance of a right, unaided answer on a day, corrected; None while nothing was measured."""
    if memory.stability is None:
        return None
    by_curve = curve.recall(memory.stability, day - memory.last_day, decay(habits))
    seen = lens(habits)
    return straightened(seen, level(seen, memory), by_curve)


def straightened(lens: Lens, level: float, by_curve: float) -> float:
    """What the curve promises of a card, corrected."""
    if level == 0.0 and lens.slope == 1.0:
        return by_curve
    return sigmoid(lens.slope * logit(by_curve) + level)


def interval(habits: Habits, memory: CardMemory, target: float) -> float:
    """Days from the last first try until corrected recall has fallen to `target`; inverse of `recall`."""
    seen = lens(habits)
    by_curve = bent(seen, level(seen, memory), logit(target))
    return curve.interval(memory.stability or 0.0, by_curve, decay(habits))


def bent(lens: Lens, level: float, target: float) -> float:
    """What the curve says where corrected recall has the logit `target`. The inverse of `straightened`."""
    return sigmoid((target - level) / lens.slope)


def decay(habits: Habits) -> float:
    """Of the child's forgetting curve."""
    return (habits.parameters or curve.PARAMETERS)[20]


def lens(habits: Habits) -> Lens:
    if not habits.weights:
        return _CLEAR
    every, fallen, stable, young, missed = habits.weights
    slope = max(LEAST_SLOPE, 1 + fallen)
    return Lens(slope, (slope - 1) * _NINE, every, stable, young, missed)


def level(lens: Lens, memory: CardMemory) -> float:
    _, turn, every, stable, young, missed = lens
    _, at, is_young, share = _steady(memory)
    return every + stable * at + young * is_young + missed * share - turn


def features(memory: CardMemory, promised: float) -> tuple[float, ...]:
    """What the weights weigh, in the order of `PRIOR_SD`."""
    first, *others = _steady(memory)
    return (first, logit(promised) - _NINE, *others)


def _steady(memory: CardMemory) -> tuple[float, float, float, float]:
    """What does not change with the days."""
    missed = (memory.tries - memory.right) / (memory.tries + 2)
    return 1.0, log(max(0.1, memory.stability or 0.1) / 10) / 2, float(memory.right_days <= 1), missed


def _weighed(habits: Habits, x: tuple[float, ...], offset: float, sure: float) -> Habits:
    """One Laplace step: the mean moves along the gain, the covariance shrinks."""
    mean, spread = habits.weights or (0.0,) * SIZE, habits.spread or _PRIOR
    chance = sigmoid(offset + _product(mean, x))
    steep = max(1e-4, chance * (1 - chance))
    along = [_product(row(spread), x) for row in _ROWS]
    scale = 1 + steep * _product(along, x)
    off = sure - chance
    return habits._replace(
        weights=tuple([round(m + a * off / scale, 6) for m, a in zip(mean, along, strict=True)]),
        spread=tuple(
            [
                round(DRIFT * (old - steep * along[i] * along[j] / scale), 6)
                for old, (i, j) in zip(spread, _LOWER, strict=True)
            ]
        ),
    )


def _product(some: Sequence[float], others: Sequence[float]) -> float:
    """Of two vectors. Spelled out: `sum` adds otherwise from one version of Python to the next."""
    a, b, c, d, e = some
    p, q, r, s, t = others
    return a * p + b * q + c * r + d * s + e * t


_LOWER = tuple((i, j) for i in range(SIZE) for j in range(i + 1))
"""Row and column of each number in the lower half of a covariance."""

_ROWS = tuple(itemgetter(*(_LOWER.index((max(i, j), min(i, j))) for j in range(SIZE))) for i in range(SIZE))
"""Each takes a whole row out of a lower half."""

_PRIOR = tuple(PRIOR_SD[i] ** 2 if i == j else 0.0 for i, j in _LOWER)


def logit(chance: float) -> float:
    if chance >= HIGHEST:
        return _HIGHEST
    return log(chance / (1 - chance)) if chance > LOWEST else _LOWEST


def sigmoid(x: float) -> float:
    return 1 / (1 + exp(-x)) if x > -30 else 0.0


_ROOT = sqrt(2 * pi)
_NINE = log(9.0)  # the logit of 0.9, which recall is at after as many days as the stability says
_CLEAR = Lens(1.0, *(0.0,) * SIZE)
_LOWEST, _HIGHEST = (log(chance / (1 - chance)) for chance in (LOWEST, HIGHEST))
