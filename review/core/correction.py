"""What the forgetting curve misses for one child: recall, corrected by a handful of logistic weights.

They are learned from first tries by one Laplace step each (Bayesian logistic regression as in Spiegelhalter &
Lauritzen 1990, from memory) and kept among the child's habits, rounded to 6 decimals after each step. Recall
everywhere is the corrected one.
"""

from collections.abc import Sequence
from math import exp, log, sqrt
from operator import itemgetter
from typing import NamedTuple

from review.core import curve
from review.core.model import CardMemory, Habits

PRIOR_MEAN = (0.0, -0.5, -0.25, 0.84, -0.35)
PRIOR_SD = (0.6, 0.35, 0.45, 0.3, 0.55)
"""Of the correction's weights before anything was learned: for all cards alike, by how far recall has fallen,
by stability, by the days on which a card was recalled, by the share of misses. Mean and deviation are about
what fits the true recall of simulated children with four models of memory, each model fitted by itself; only
the first, which is how fast all is forgotten, is left to the child (measured here)."""

USUAL_DAYS = 3
"""Recalled on so many days, a card is as the curve says, but for what else is learned; what a parent says is
known counts as recalled on so many (our judgement)."""

SIZE = len(PRIOR_SD)
DRIFT = 1.001
"""The weights' covariance grows by so much an answer, so that what was learned long ago counts less; no
variance grows past its prior, or what no answer says anything of would become ever more uncertain, and one
miss in years would move every card (our judgement; a third of it and twice as much were no better on
simulated children)."""

LOWEST, HIGHEST = 0.02, 0.9995  # recall that can be reckoned with in logits
LEAST_SLOPE = 0.3  # whatever is learned, recall falls with the days (our judgement)


class Lens(NamedTuple):
    """The weights, made ready for many cards: logit(corrected) = slope · logit(curve) + the card's level."""

    slope: float
    turn: float  # keeps recall of .9 where it is, whatever the slope
    every: float
    stable: float
    days: float
    missed: float


# --- recall, corrected --------------------------------------------------------------------------------


def recall(habits: Habits, memory: CardMemory, day: int) -> float | None:
    """The chance of a right, unaided answer on a day, corrected; None while nothing was measured."""
    if memory.stability is None:
        return None
    by_curve = curve.recall(memory.stability, day - memory.last_day, decay(habits))
    seen = lens(habits)
    return straightened(seen, level(seen, memory), by_curve)


def straightened(lens: Lens, level: float, by_curve: float) -> float:
    """What the curve promises of a card, corrected."""
    return sigmoid(lens.slope * logit(by_curve) + level)


def bent(lens: Lens, level: float, target: float) -> float:
    """What the curve says where corrected recall has the logit `target`. The inverse of `straightened`."""
    return sigmoid((target - level) / lens.slope)


def decay(habits: Habits) -> float:
    """Of the child's forgetting curve."""
    return (habits.parameters or curve.PARAMETERS)[20]


def lens(habits: Habits) -> Lens:
    every, fallen, stable, days, missed = habits.weights or PRIOR_MEAN
    slope = max(LEAST_SLOPE, 1 + fallen)
    return Lens(slope, (slope - 1) * _NINE, every, stable, days, missed)


def level(lens: Lens, memory: CardMemory) -> float:
    _, turn, every, stable, days, missed = lens
    _, at, recalled, share = _steady(memory)
    return every + stable * at + days * recalled + missed * share - turn


def features(memory: CardMemory, promised: float) -> tuple[float, ...]:
    """What the weights weigh, in the order of `PRIOR_SD`."""
    first, *others = _steady(memory)
    return (first, logit(promised) - _NINE, *others)


def _steady(memory: CardMemory) -> tuple[float, float, float, float]:
    """What does not change with the days."""
    missed = (memory.tries - memory.right) / (memory.tries + 2)
    days = max(memory.right_days, USUAL_DAYS) if memory.known else memory.right_days
    recalled = log((days + 1) / (USUAL_DAYS + 1))
    return 1.0, log(max(0.1, memory.stability or 0.1) / 10) / 2, recalled, missed


# --- what a first try teaches -------------------------------------------------------------------------


def weighed(habits: Habits, x: tuple[float, ...], offset: float, sure: float) -> Habits:
    """One Laplace step: the mean moves along the gain, the covariance shrinks."""
    mean, spread = habits.weights or PRIOR_MEAN, habits.spread or _PRIOR_SPREAD
    chance = sigmoid(offset + _product(mean, x))
    steep = max(1e-4, chance * (1 - chance))
    along = [_product(row(spread), x) for row in _ROWS]
    scale = 1 + steep * _product(along, x)
    off = sure - chance
    less = [old - steep * along[i] * along[j] / scale for old, (i, j) in zip(spread, _LOWER, strict=True)]
    return habits._replace(
        weights=tuple([round(m + a * off / scale, 6) for m, a in zip(mean, along, strict=True)]),
        spread=_drifted(less),
    )


def _drifted(spread: Sequence[float]) -> tuple[float, ...]:
    """The covariance, less certain; a row and a column are scaled alike, so that it stays one."""
    by = [sqrt(min(DRIFT, _PRIOR_SPREAD[n] / spread[n])) for n in _DIAGONAL]
    return tuple([round(old * by[i] * by[j], 6) for old, (i, j) in zip(spread, _LOWER, strict=True)])


def _product(some: Sequence[float], others: Sequence[float]) -> float:
    """Of two vectors. Spelled out: `sum` adds otherwise from one version of Python to the next."""
    a, b, c, d, e = some
    p, q, r, s, t = others
    return a * p + b * q + c * r + d * s + e * t


_LOWER = tuple((i, j) for i in range(SIZE) for j in range(i + 1))
"""Row and column of each number in the lower half of a covariance."""

_DIAGONAL = tuple(_LOWER.index((i, i)) for i in range(SIZE))
"""Where the variances stand in it."""

_ROWS = tuple(itemgetter(*(_LOWER.index((max(i, j), min(i, j))) for j in range(SIZE))) for i in range(SIZE))
"""Each takes a whole row out of a lower half."""

_PRIOR_SPREAD = tuple(PRIOR_SD[i] ** 2 if i == j else 0.0 for i, j in _LOWER)


# --- log odds -----------------------------------------------------------------------------------------


def logit(chance: float) -> float:
    if chance >= HIGHEST:
        return _HIGHEST
    return log(chance / (1 - chance)) if chance > LOWEST else _LOWEST


def sigmoid(x: float) -> float:
    return 1 / (1 + exp(-x)) if x > -30 else 0.0


_NINE = log(9.0)  # the logit of 0.9, which recall is at after as many days as the stability says
_LOWEST, _HIGHEST = (log(chance / (1 - chance)) for chance in (LOWEST, HIGHEST))
