"""The weights that the correction of a child begins with, fitted to what simulated children truly recall.

  python -m tests.benchmarks.learning.beginning --children 6

Children play half a year by our own rule. Each tenth morning from day 40 every measured card tells what the
correction weighs, what the curve says by itself, and what is true. Weights are fitted by logistic regression
with the curve as offset, each season weighing alike. The table tells how well weights tell the cards of a
child apart: the correlation of logits, by card and morning, the mean over children. Where the weights come
from the three other models, nothing of the model that is tried is in them.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import product
from math import exp, log1p
from multiprocessing import Pool
from statistics import correlation, mean
from typing import NamedTuple

from review.core import correction, memory
from review.core.practice import Practice
from tests.benchmarks.learning.children import Pupil, child
from tests.benchmarks.learning.courses import course
from tests.benchmarks.learning.memories import MEMORIES
from tests.benchmarks.learning.options import parser
from tests.benchmarks.learning.season import HOLIDAY, LAST_DAY, sitting
from tests.benchmarks.learning.strategies import Setup, named

CELLS = ((400, 5.0), (100, 2.5))
MORNINGS = range(40, LAST_DAY + 1, 10)
LEAST, MOST = 0.02, 0.9995  # of true recall, so that no card's logit outweighs the others (our judgement)
RIDGE = 3.0  # pulls a weight to 0, as few answers with that weight would (our judgement)
SEASON = 1000.0  # what a season weighs, however many cards were met in it
STEPS = 25
HALVINGS = 12

Weights = Sequence[float]


class Seen(NamedTuple):
    """A card on a morning."""

    features: tuple[float, ...]
    curve: float  # log odds by the curve alone
    corrected: float  # and as the program said
    true: float  # the chance


class Played(NamedTuple):
    model: str
    number: int
    size: int
    minutes: float
    seen: tuple[Seen, ...]


def played(task: tuple[str, int, int, float]) -> Played:
    """Half a year of one child by our own rule."""
    model, number, size, minutes = task
    cards = course(size)
    pupil = Pupil(child(model, number), model, cards)
    rule = named("review")(Setup(cards, minutes, f"{model}|{number}", pupil))
    assert isinstance(rule, Practice)
    met: set[str] = set()
    seen: list[Seen] = []
    for day in range(1, LAST_DAY + 1):
        if day in MORNINGS:
            seen.extend(morning(rule, pupil, day))
        if day not in HOLIDAY and pupil.practises(day):
            sitting(pupil, rule, minutes, day, met)
    return Played(model, number, size, minutes, tuple(seen))


def morning(rule: Practice, pupil: Pupil, day: int) -> Iterator[Seen]:
    for place, card in enumerate(pupil.course.cards):
        known = rule.memory.get(card.key)
        curve = known and memory.recall(known, day, correction.decay(rule.habits))
        if known is None or curve is None:
            continue
        corrected = rule.recall(card.key, day)
        true = min(MOST, max(LEAST, pupil.memory.recall(place, day)))
        yield Seen(
            correction.features(known, curve),
            correction.logit(curve),
            correction.logit(corrected or curve),
            true,
        )


# --- the fit ------------------------------------------------------------------------------------------


def fitted(seasons: Sequence[Played]) -> list[float]:
    """Weights with the least weighed log loss against true recall and a ridge, by Newton's steps, each halved
    until it helps."""
    rows = [(seen, SEASON / len(one.seen)) for one in seasons for seen in one.seen]
    weights = [0.0] * len(rows[0][0].features)
    loss = _loss(rows, weights)
    for _ in range(STEPS):
        step = _step(rows, weights)
        tried = ([w + d / 2**n for w, d in zip(weights, step, strict=True)] for n in range(HALVINGS))
        found = next(((t, lower) for t in tried if (lower := _loss(rows, t)) < loss), None)
        if found is None or loss - found[1] < 1e-6 * loss:
            return found[0] if found else weights
        weights, loss = found
    return weights


Rows = Sequence[tuple[Seen, float]]


def said(seen: Seen, weights: Weights) -> float:
    """Log odds with these weights."""
    return seen.curve + sum([w * x for w, x in zip(weights, seen.features, strict=True)])


def _loss(rows: Rows, weights: Weights) -> float:
    """Of true chances, in nats: ln(1 + e^z) - chance times z, z the log odds that were said."""
    odds = ((said(seen, weights), seen.true, share) for seen, share in rows)
    losses = sum([share * (max(z, 0.0) + log1p(exp(-abs(z))) - true * z) for z, true, share in odds])
    return losses + RIDGE / 2 * sum([w * w for w in weights])


def _step(rows: Rows, weights: Weights) -> list[float]:
    size = range(len(weights))
    slope = [-RIDGE * w for w in weights]
    curving = [[RIDGE * (i == j) for j in size] for i in size]
    for seen, share in rows:
        chance = correction.sigmoid(said(seen, weights))
        off, steep = share * (seen.true - chance), share * chance * (1 - chance)
        for i in size:
            slope[i] += off * seen.features[i]
            for j in range(i + 1):
                curving[i][j] += steep * seen.features[i] * seen.features[j]
    return solved([[curving[max(i, j)][min(i, j)] for j in size] for i in size], slope)


def solved(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """x of matrix x = right, the matrix symmetric and positive (Gauss; no pivots are needed for one)."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    for n, pivot in enumerate(rows):
        rows[n] = [value / pivot[n] for value in pivot]
        for other in (m for m in range(len(rows)) if m != n):
            by = rows[other][n]
            rows[other] = [a - by * b for a, b in zip(rows[other], rows[n], strict=True)]
    return [row[-1] for row in rows]


# --- how well cards are told apart --------------------------------------------------------------------


def apart(seasons: Sequence[Played], weights: Weights | None) -> float:
    """The mean over children of the correlation of log odds, said and true; None: as the program said."""
    return mean(
        correlation(
            [seen.corrected if weights is None else said(seen, weights) for seen in one.seen],
            [correction.logit(seen.true) for seen in one.seen],
        )
        for one in seasons
    )


Fits = Mapping[str, Weights | None]
"""Weights for each model."""


def table(seasons: Sequence[Played]) -> Iterator[str]:
    """Rows of text: weights of each model and of all, then how well each way tells cards apart."""
    mine: Fits = {model: fitted([one for one in seasons if one.model == model]) for model in MEMORIES}
    others: Fits = {model: fitted([one for one in seasons if one.model != model]) for model in MEMORIES}
    begins = dict.fromkeys(MEMORIES, correction.PRIOR_MEAN)
    yield "weights: for all alike, how far recall has fallen, stability, days of recall, share of misses"
    for name, weights in {**mine, "all": fitted(seasons), "a child begins": correction.PRIOR_MEAN}.items():
        yield f"  {name:16}" + "".join(f"{w:8.2f}" for w in weights or ())
    ways: Mapping[str, Fits] = {
        "as the program said": dict.fromkeys(MEMORIES, None),
        "as a child begins": begins,
        "of the three others": others,
        "its own": mine,
    }
    for size, minutes in CELLS:
        cell = [one for one in seasons if (one.size, one.minutes) == (size, minutes)]
        of = {model: [one for one in cell if one.model == model] for model in MEMORIES}
        yield f"\n{size:,} cards, {minutes:g} minutes: {', '.join(MEMORIES)}"
        for way, weights_of in ways.items():
            yield f"  {way:24}" + "".join(f"{apart(of[m], weights_of[m]):8.2f}" for m in MEMORIES)


def main() -> None:
    given = parser(".beginning", __doc__, 6).parse_args()
    tasks = [
        (model, number, *cell)
        for cell, model, number in product(CELLS, MEMORIES, range(1, given.children + 1))
    ]
    with Pool(given.workers) as pool:
        seasons = pool.map(played, tasks, chunksize=1)
    print("\n".join(table(seasons)))


if __name__ == "__main__":
    main()
