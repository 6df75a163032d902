"""Scores of promises as they are published, to hold what is promised here against other libraries.

The metrics of the benchmark of the memory model FSRS (`log_loss`, `rmse_bins`, weights by recency), with its
constants; checked against the library fsrs-rs-python in `test_calibration`.
"""

from collections.abc import Sequence
from math import floor, fsum, log, sqrt
from typing import NamedTuple, Protocol

from review.core.calibration import surprise


class Foretold(Protocol):
    """Whatever says what was promised, and what came."""

    @property
    def promised(self) -> float: ...

    @property
    def right(self) -> float: ...


class Scored(NamedTuple):
    """A first try, with what the score puts alike."""

    promised: float
    right: float
    days: int  # since the last first try
    nth: int  # which first try of the card it is
    lapses: int  # misses on earlier days, the very first try left out


def log_loss(promises: Sequence[Foretold], weights: Sequence[float] | None = None) -> float:
    """The mean surprise; 0 for one who knew everything. ValueError where there is nothing to score."""
    counts = weights_of(promises, weights)
    costs = (surprise(one.promised, one.right) for one in promises)
    return fsum(w * cost for w, cost in zip(counts, costs, strict=True)) / fsum(counts)


def rmse_bins(promises: Sequence[Scored], weights: Sequence[float] | None = None) -> float:
    """How far promises lie from what came, among tries alike in gap, count and misses: the root of the mean
    square over such bins, a bin as heavy as its tries. Within a bin all tries are worth the same."""
    bins: dict[tuple[float, float, float], list[tuple[float, float]]] = {}
    for one, w in zip(promises, weights_of(promises, weights), strict=True):
        bins.setdefault(alike(one), []).append((w, one.promised - one.right))
    heavy = [
        (fsum(w for w, _ in pairs), fsum(off for _, off in pairs) / len(pairs)) for pairs in bins.values()
    ]
    return sqrt(fsum(w * off * off for w, off in heavy) / fsum(w for w, _ in heavy))


def recency(n: int) -> list[float]:
    """Weights that rise from a quarter for the oldest of n rows to 1 for the newest."""
    return [0.25 + 0.75 * (i / (n - 1)) ** 3 if n > 1 else 1.0 for i in range(n)]


def weights_of(promises: Sequence[object], weights: Sequence[float] | None) -> Sequence[float]:
    if not promises:
        raise ValueError("there is no answer to score")
    return weights if weights is not None else [1.0] * len(promises)


def alike(one: Scored) -> tuple[float, float, float]:
    """The bin: gap, count and misses on growing scales, with the constants by which the score is known."""
    return (
        rung(one.days, 2.48, 3.62, 100),
        rung(one.nth, 1.99, 1.89),
        rung(one.lapses, 1.65, 1.73) if one.lapses else 0.0,
    )


def rung(value: int, scale: float, base: float, grain: int = 1) -> float:
    return round(grain * scale * base ** floor(log(value, base)))
