"""Simulated children and their error rules: share named rightly and falsely, by answers of the family.

Each rule of each family of the catalogue is held by some children, who slip besides; two rules at once; none,
only slips. A child has up to four classes of the family and three answers a day, 36 in all. "by 12": a rule
that is held was named, alone or as one of two that write the same, within 12 answers; "12 misses": by the
twelfth wrong one; "falsely": one that is not held. "Shows on a fifth": of the child's problems, the rule on
so many at least. A ± is one standard error over children.
"""

import argparse
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations, islice
from multiprocessing import Pool
from pathlib import Path
from random import Random
from statistics import fmean, median
from typing import NamedTuple

from tests.benchmarks.misses import adults, counting
from tests.benchmarks.misses.children import Child
from tests.benchmarks.misses.classes import families
from tests.benchmarks.misses.naming import Named, played

ENOUGH = 0.2  # of the problems on which a rule shows
PAIRS = 3  # of rules a family, of children with two
WITHIN = (12, 24, 36)
MISSES = 12  # wrong answers


class Task(NamedTuple):
    family: str
    child: Child
    seed: str
    telling: bool


def sit(task: Task) -> Named:
    return played(task.child, families()[task.family], task.seed, telling=task.telling)


# --- the children -------------------------------------------------------------------------------------


def single(holds: float, slips: float, children: int, telling: bool = True) -> Iterator[Task]:
    for name, family in families().items():
        for rule in family.rules:
            child = Child((rule,), holds, slips)
            yield from (Task(name, child, f"{name}|{rule}|{n}", telling) for n in range(children))


def two(slips: float, children: int) -> Iterator[Task]:
    for name, family in families().items():
        every = list(combinations(family.rules, 2))
        for pair in Random(name).sample(every, min(PAIRS, len(every))):
            yield from (
                Task(name, Child(pair, 1.0, slips), f"{name}|{pair}|{n}", True) for n in range(children)
            )


def none(slips: float, children: int) -> Iterator[Task]:
    for name in families():
        yield from (Task(name, Child((), 1.0, slips), f"{name}|none|{n}", True) for n in range(4 * children))


def groups(children: int) -> Iterator[tuple[str, Callable[[], Iterator[Task]]]]:
    yield "always held, 10% slips", lambda: single(1.0, 0.1, children)
    yield "held 8 times in 10, 10% slips", lambda: single(0.8, 0.1, children)
    yield "the same, problems not chosen", lambda: single(0.8, 0.1, children, telling=False)
    yield "held 8 times in 10, 20% slips", lambda: single(0.8, 0.2, children)
    yield "two at once, 10% slips", lambda: two(0.1, children)
    yield "no rule, 5% slips", lambda: none(0.05, children)
    yield "no rule, 10% slips", lambda: none(0.1, children)
    yield "no rule, 20% slips", lambda: none(0.2, children)


# --- the table ----------------------------------------------------------------------------------------


def share(hits: Sequence[bool]) -> str:
    if not hits:
        return f"{'':>13}"
    part = fmean(hits)
    return f"{part:6.1%} ±{(part * (1 - part) / len(hits)) ** 0.5:5.1%}"


def row(title: str, seen: Sequence[Named], held: bool) -> str:
    within = [share([0 < one.rightly <= most for one in seen] if held else []) for most in WITHIN]
    after = [one.rightly for one in seen if one.rightly]
    middle = f"{median(after):4.0f}" if after else "    "
    soon = share([0 < one.misses <= MISSES for one in seen] if held else [])
    falsely = share([one.wrongly > 0 for one in seen])
    return f"{title:32} {len(seen):6,} {' '.join(within)} {soon} {middle} {falsely}"


def heads() -> str:
    named = " ".join(f"{f'by {most}':>13}" for most in WITHIN)
    return f"{'':32} {'childr.':>6} {named} {f'{MISSES} misses':>13} {'med.':>4} {'falsely':>13}"


def print_table(children: int, workers: int, only: int) -> None:
    print(heads())
    with Pool(workers) as pool:
        for title, tasks in islice(groups(children), only or None):
            wanted = list(tasks())
            seen = pool.map(sit, wanted, chunksize=16)
            held = bool(wanted[0].child.rules)
            print(row(title, seen, held), flush=True)
            if len(wanted[0].child.rules) > 1:
                both = [one._replace(rightly=one.every, misses=one.every_misses) for one in seen]
                print(row("  both of them", both, held))
            if held:
                print(row("  shows on a fifth", [one for one in seen if one.shows >= ENOUGH], held))


def print_counting() -> None:
    print("\nprobably counting: share told, by the share of sums that are counted (scatter .6 s, 1 s)")
    for counts in (1.0, 0.8, 0.5, 0.2, 0.0):
        shares = [counting.told(counts, answers, scatter) for scatter in (0.6, 1.0) for answers in (40, 64)]
        told = "  ".join(f"{one:6.1%}" for one in shares)
        print(f"  {counts:4.0%} counted, of 40 and 64 answers: {told}")


def options() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmarks.misses",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--children", type=int, default=4, help="of each rule")
    parser.add_argument("--groups", type=int, default=0, help="only the first so many; 0: all")
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--adults", type=Path, metavar="DIR", help="where the open data of adults lie")
    parser.add_argument("--write", type=Path, metavar="DIR", help="the tests' small tables of them")
    return parser


def main() -> None:
    given = options().parse_args()
    if given.adults:
        print("\n".join(adults.report(given.adults)))
        if given.write:
            adults.write(given.adults, given.write)
        return
    print_table(given.children, given.workers, given.groups)
    print_counting()


if __name__ == "__main__":
    main()
