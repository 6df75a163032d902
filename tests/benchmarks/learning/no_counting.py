"""Children who do not count: a fact that does not come from memory is missed, asked about or guessed.

  python -m tests.benchmarks.learning.no_counting --children 16

The children of the other tables work most facts out, and miss few. These miss more at first, so that new
cards wait more often. Everything else about them is the same; no rule was tuned on them.
"""

import argparse
from functools import partial
from itertools import product
from multiprocessing import Pool

from tests.benchmarks.learning import scores
from tests.benchmarks.learning.__main__ import FRESH
from tests.benchmarks.learning.children import Pupil
from tests.benchmarks.learning.courses import course
from tests.benchmarks.learning.memories import MEMORIES
from tests.benchmarks.learning.season import season, tasks

CELLS = ((100, 2.5), (400, 5.0))
STRATEGIES = ("review", "five-box", "due-only")


class NoCounting(Pupil):
    def _can_count(self, steps: int) -> bool:
        return False


def main() -> None:
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmarks.learning.no_counting",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--children", type=int, default=16, help="of each model")
    parser.add_argument("--workers", type=int, default=2)
    given = parser.parse_args()
    numbers = range(FRESH + 1, FRESH + 1 + given.children)
    todo = [
        task
        for (size, minutes), model in product(CELLS, MEMORIES)
        for task in tasks([model], list(STRATEGIES), [size], [minutes], numbers)
    ]
    for size, _ in CELLS:
        course(size)  # once, before the workers split off
    with Pool(given.workers) as pool:
        seasons = pool.map(partial(season, kind=NoCounting), todo, chunksize=1)
    for cell, by in scores.cells(seasons).items():
        print(scores.table(cell, by), end="\n\n")


if __name__ == "__main__":
    main()
