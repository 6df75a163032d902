"""Runs seasons and prints a table for each model, course and budget.

Columns: rec60 is the sum of true recall over the course on the morning after day 60, at9_60 the number of
cards truly recalled at .9 or better; 210 is after 30 days without practice. met: cards met. min: minutes a
practised day. hard%: practised days with over 20% of first tries not right, of cards met before; miss%:
such tries. back: practised days after the holiday until as many cards are at .9 as before it. cal and loss:
forecasts after day 60 against what was truly retrieved, root mean square over ten bins and logarithmic;
calR and lossR: against right and unaided, which also counts what was worked out. A ± is one standard error
of paired differences.

recA, at9A, backA, calA and lossA are the same as each card's aim asks: of fluency what is retrieved, of
accuracy what would be right and unaided, worked out or not; keys that slip count against it. rec0 and at9_0,
recA0 and at9A_0 are what there would be on day 180 without any practice. By aim that is much, so that only
what is over it is held against the rules that see the truth: aim-90 and the like there, truth-90 and the like
for what is retrieved.

A long run goes into a file and may be stopped (Ctrl-C, a kill, a power cut); the same command goes on, and
leaves out what the code as it is now would not play the same. The whole grid of docs/learning.md, some hours:

  python -m tests.benchmarks.learning --full --fresh --children 200 --keep seasons.jsonl --summary
"""

import argparse
import signal
import sys
import time
from collections.abc import Iterator, Sequence
from itertools import groupby
from multiprocessing import Pool
from pathlib import Path

from tests.benchmarks.learning import keeping, scores
from tests.benchmarks.learning.courses import COURSES, course
from tests.benchmarks.learning.memories import MEMORIES
from tests.benchmarks.learning.options import FRESH
from tests.benchmarks.learning.options import parser as shared
from tests.benchmarks.learning.outsiders import ACCOUNTS, OUTSIDERS
from tests.benchmarks.learning.season import Season, Task, season, tasks
from tests.benchmarks.learning.strategies import named, names

MINUTES = (2.5, 5.0, 10.0)
GROUPS = {"all": MEMORIES, "outside": OUTSIDERS}


def options() -> argparse.ArgumentParser:
    parser = shared("", __doc__, 10)
    parser.add_argument(
        "--models",
        default="all",
        help=f"all, which is {','.join(MEMORIES)}; outside, which is {','.join(OUTSIDERS)}; or some of them",
    )
    parser.add_argument("--course", default="400", help=f"sizes of courses, of {','.join(map(str, COURSES))}")
    parser.add_argument("--minutes", default="5")
    parser.add_argument("--seed", type=int, default=1, help="the number of the first child")
    parser.add_argument("--strategies", default="all", help="as review,review:pace5,five-box")
    parser.add_argument("--fresh", action="store_true", help="children that no rule was tuned on")
    parser.add_argument("--full", action="store_true", help="every course and all minutes")
    parser.add_argument("--keep", type=Path, help="keep seasons in this file; go on from what it has")
    parser.add_argument(
        "--summary", action="store_true", help="only a table of all cells, of the first strategy"
    )
    return parser


def wanted(given: argparse.Namespace) -> list[Task]:
    models = [*GROUPS.get(given.models, given.models.split(","))]
    strategies = names() if given.strategies == "all" else given.strategies.split(",")
    sizes = list(COURSES) if given.full else [int(size) for size in given.course.split(",")]
    minutes = list(MINUTES) if given.full else [float(m) for m in given.minutes.split(",")]
    first = given.seed + (FRESH if given.fresh else 0)
    for name in strategies:
        named(name)
    unknown = [m for m in models if m not in ACCOUNTS] + [str(s) for s in sizes if s not in COURSES]
    if unknown:
        raise ValueError(f"There is no model or course {', '.join(unknown)}.")
    return list(tasks(models, strategies, sizes, minutes, range(first, first + given.children)))


def run(todo: Sequence[Task], workers: int, keep: Path | None) -> Iterator[list[Season]]:
    """Cell after cell, so that a long run shows early what it has; what the file has is not played again."""
    keeping.mend(keep)
    done = keeping.kept(keep)
    for size in {task.size for task in todo if task not in done}:
        course(size)  # once, before the workers split off
    with Pool(workers, initializer=signal.signal, initargs=(signal.SIGINT, signal.SIG_IGN)) as pool:
        for _, cell in groupby(todo, key=lambda task: (task.model, task.size, task.minutes)):
            tasks = list(cell)
            for one in pool.imap_unordered(season, [task for task in tasks if task not in done]):
                done[one.task] = one
                if keep:
                    with keep.open("a", encoding="utf-8") as file:
                        file.write(keeping.line(one))
            yield [done[task] for task in tasks]


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
    try:
        for seasons in run(todo, given.workers, given.keep):
            done += seasons
            if not given.summary:
                show(seasons, strategies)
    except KeyboardInterrupt:
        print("Stopped. The same command goes on." if given.keep else "Stopped.", file=sys.stderr)
        return 130
    if given.summary:
        print(scores.summaries(done, strategies[0]), end="\n\n")
    print(f"{len(done)} seasons in {time.perf_counter() - begun:.0f} s")
    return 0


if __name__ == "__main__":
    sys.exit(main())
