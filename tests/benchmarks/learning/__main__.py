"""Runs seasons and prints a table for each model, course and budget.

Columns: rec60 is the sum of true recall over the course on the morning after day 60, at9_60 the number of
cards truly recalled at .9 or better; 210 is after 30 days without practice. met: cards met. min: minutes a
practised day. hard%: practised days with over 20% of first tries not right, of cards met before; miss%:
such tries. back: practised days after the holiday until as many cards are at .9 as before it. cal and loss:
forecasts after day 60 against what was truly retrieved, root mean square over ten bins and logarithmic;
calR and lossR: against right and unaided, which also counts what was worked out. A ± is one standard error
of paired differences.
"""

import argparse
import json
import sys
import time
from collections.abc import Iterator, Sequence
from itertools import groupby
from multiprocessing import Pool
from pathlib import Path

from tests.benchmarks.learning import scores
from tests.benchmarks.learning.courses import COURSES, course
from tests.benchmarks.learning.memories import MEMORIES
from tests.benchmarks.learning.season import Season, Task, season, tasks
from tests.benchmarks.learning.strategies import named, names

MINUTES = (2.5, 5.0, 10.0)
FRESH = 100_000  # children from here on are for the last check only, never for tuning


def options() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmarks.learning",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--models", default="all", help=f"all, or some of {','.join(MEMORIES)}")
    parser.add_argument("--course", default="400", help=f"sizes of courses, of {','.join(map(str, COURSES))}")
    parser.add_argument("--minutes", default="5")
    parser.add_argument("--children", type=int, default=10)
    parser.add_argument("--seed", type=int, default=1, help="the number of the first child")
    parser.add_argument("--strategies", default="all", help="as review,review:pace5,five-box")
    parser.add_argument("--fresh", action="store_true", help="children that no rule was tuned on")
    parser.add_argument("--full", action="store_true", help="every course and all minutes")
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--json", type=Path, help="keep the results in this file")
    return parser


def wanted(given: argparse.Namespace) -> list[Task]:
    models = list(MEMORIES) if given.models == "all" else given.models.split(",")
    strategies = names() if given.strategies == "all" else given.strategies.split(",")
    sizes = list(COURSES) if given.full else [int(size) for size in given.course.split(",")]
    minutes = list(MINUTES) if given.full else [float(m) for m in given.minutes.split(",")]
    first = given.seed + (FRESH if given.fresh else 0)
    for name in strategies:
        named(name)
    unknown = [m for m in models if m not in MEMORIES] + [str(s) for s in sizes if s not in COURSES]
    if unknown:
        raise ValueError(f"There is no model or course {', '.join(unknown)}.")
    return list(tasks(models, strategies, sizes, minutes, range(first, first + given.children)))


def run(todo: Sequence[Task], workers: int) -> Iterator[list[Season]]:
    """Cell after cell, so that a long run shows early what it has."""
    for size in {task.size for task in todo}:
        course(size)  # once, before the workers split off
    with Pool(workers) as pool:
        for _, cell in groupby(todo, key=lambda task: (task.model, task.size, task.minutes)):
            yield pool.map(season, cell, chunksize=1)


def show(seasons: Sequence[Season], strategies: Sequence[str]) -> None:
    for cell, by in scores.cells(seasons).items():
        print(scores.table(cell, {name: by[name] for name in strategies}), end="\n\n", flush=True)


def main() -> int:
    given = options().parse_args()
    try:
        todo = wanted(given)
    except ValueError as mistake:
        print(mistake, file=sys.stderr)
        return 2
    begun, strategies, done = time.perf_counter(), list(dict.fromkeys(t.strategy for t in todo)), []
    for seasons in run(todo, given.workers):
        show(seasons, strategies)
        done += [{**one._asdict(), "task": one.task._asdict()} for one in seasons]
        if given.json:
            given.json.write_text(json.dumps(done), encoding="utf-8")
    print(f"{len(done)} seasons in {time.perf_counter() - begun:.0f} s")
    return 0


if __name__ == "__main__":
    sys.exit(main())
