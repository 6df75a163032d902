"""Children who do not count: a fact that does not come from memory is missed, asked about or guessed.

  python -m tests.benchmarks.learning.no_counting --children 16

The children of the other tables work most facts out, and miss few. These miss more at first, so that new
cards wait more often. Everything else about them is the same; no rule was tuned on them.
"""

from functools import partial
from itertools import product
from multiprocessing import Pool

from tests.benchmarks.learning import scores
from tests.benchmarks.learning.children import Pupil
from tests.benchmarks.learning.courses import course
from tests.benchmarks.learning.memories import MEMORIES
from tests.benchmarks.learning.options import FRESH, parser
from tests.benchmarks.learning.season import season, tasks

CELLS = ((100, 2.5), (400, 5.0))
STRATEGIES = ("review", "five-box", "due-only")


class NoCounting(Pupil):
    def _can_count(self, steps: int) -> bool:
        return False


def main() -> None:
    given = parser(".no_counting", __doc__, 16).parse_args()
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
