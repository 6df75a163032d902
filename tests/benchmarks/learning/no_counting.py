"""Children who do not count: a fact that does not come from memory is missed, asked about or guessed.

  python -m tests.benchmarks.learning.no_counting --children 16
  python -m tests.benchmarks.learning.no_counting --children 16 --first

The children of the other tables work most facts out, and miss few. These miss more, so that new cards wait
more often. With `--first` they do not count at first sight only, as where not yet is fine: they miss every
fact they meet, and count like the others from then on. Everything else about them is the same.
"""

from functools import partial
from itertools import product
from multiprocessing import Pool
from random import Random
from typing import Any

from tests.benchmarks.learning import scores
from tests.benchmarks.learning.children import Given, Pupil
from tests.benchmarks.learning.courses import course
from tests.benchmarks.learning.memories import MEMORIES, How
from tests.benchmarks.learning.options import FRESH, parser
from tests.benchmarks.learning.season import season, tasks

CELLS = ((100, 2.5), (400, 5.0))
STRATEGIES = ("review", "five-box", "due-only")


class NoCounting(Pupil):
    def _can_count(self, steps: int) -> bool:
        return False


class NotAtFirst(Pupil):
    """Neither knows nor counts what it meets for the first time."""

    def __init__(self, *given: Any) -> None:
        super().__init__(*given)
        self._met = set[int]()

    def play(self, place: int, retrieved: bool, random: Random) -> tuple[Given, How]:
        if place in self._met:
            return super().play(place, retrieved, random)
        self._met.add(place)
        given, _ = super().play(place, False, random)
        return given._replace(right=False, help="", retrieved=False), "shown"


def main() -> None:
    options = parser(".no_counting", __doc__, 16)
    options.add_argument("--first", action="store_true", help="children who do not count at first sight only")
    given = options.parse_args()
    numbers = range(FRESH + 1, FRESH + 1 + given.children)
    todo = [
        task
        for (size, minutes), model in product(CELLS, MEMORIES)
        for task in tasks([model], list(STRATEGIES), [size], [minutes], numbers)
    ]
    for size, _ in CELLS:
        course(size)  # once, before the workers split off
    with Pool(given.workers) as pool:
        kind = NotAtFirst if given.first else NoCounting
        seasons = pool.map(partial(season, kind=kind), todo, chunksize=1)
    for cell, by in scores.cells(seasons).items():
        print(scores.table(cell, by), end="\n\n")


if __name__ == "__main__":
    main()
