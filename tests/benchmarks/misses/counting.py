"""Children who count on, children who recall, and some who do both: who is told?

Times to the first key: a start of a second, so much a step, and what children's answers scatter (a gamma
distribution of two parts; our judgement). Recalled sums also take a little longer the larger they are.
"""

from random import Random
from statistics import fmean

from review.core import counted
from review.core.counted import Timed

CHOSEN = ((2, 9), (3, 9), (3, 8), (6, 7), (6, 8), (7, 8), (6, 9), (7, 9), (8, 9))
START, STEP, SIZE = 1.0, 0.4, 0.04  # seconds; a step, Groen & Parkman 1972; size, from memory
CHILDREN = 400


def times(counts: float, answers: int, scatter: float, seed: int) -> list[Timed]:
    """`counts`: the share of sums that are counted."""
    random = Random(seed)
    sums = [random.choice(CHOSEN) for _ in range(answers)]
    steps = ((STEP if random.random() < counts else SIZE) * small for small, _ in sums)
    return [
        (small, START + step + random.gammavariate(2, scatter / 2))
        for (small, _), step in zip(sums, steps, strict=True)
    ]


def told(counts: float, answers: int, scatter: float) -> float:
    return fmean(counted.slope(times(counts, answers, scatter, seed)) is not None for seed in range(CHILDREN))
