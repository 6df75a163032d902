"""What a sitting does to a terminal, and how soon it answers: figures, not tests.

    python -m tests.benchmarks.terminal [SITTINGS] [SEED]         (default 1,000 and 1)

Plays real warm-ups in pseudo-terminals, on books of its own:

- as many sittings as SITTINGS, interrupted by SIGTERM, SIGHUP, Ctrl-C, or Ctrl-Z and then Ctrl-C: what
  `tests.faults.endings` asks of each, which knows more ways to end one;
- from the command to the first problem, against starting Python with nothing;
- from Enter to the next problem.
"""

import random
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from review import gather
from review.app import demo
from review.book import store
from review.core import days
from tests.faults import endings
from tests.terminal.seat import Seat, sat

TODAY = 739_900
RUNS = 30
INTERRUPTIONS = ("SIGTERM", "SIGHUP", "Ctrl-C", "Ctrl-Z")


def environment(folder: Path) -> dict[str, str]:
    return {"REVIEW_BOOK": str(folder / "demo.book"), "XDG_STATE_HOME": str(folder / "s")}


@contextmanager
def seated(folder: Path, *command: str) -> Iterator[Seat]:
    program, *arguments = command
    with sat(Seat(program, arguments, 80, 30, environment(folder))) as taken:
        yield taken


def warmup(day: int, *more: str) -> list[str]:
    on = str(days.date_of(day))
    return [sys.executable, "-m", "review", "warmup", demo.FAMILY[day % 2].name, "--typed", "--on", on, *more]


# --- interrupted ----------------------------------------------------------------------------------------


def interrupted(count: int, seed: int) -> None:
    """On a book of its own, in the ways one can interrupt it."""
    ways = {way: count // len(INTERRUPTIONS) for way in INTERRUPTIONS}
    with tempfile.TemporaryDirectory() as place:
        home = endings.new_home(Path(place))
        for way, found in endings.ended(home, ways, random.Random(seed), endings.FIRST_DAY + 1).items():
            print(endings.row(way, found))


# --- how soon -------------------------------------------------------------------------------------------


NOTHING = [sys.executable, "-c", ""]
WORD = [sys.executable, "-c", "import os; os.write(1, b'= ')"]


def first_problem(folder: Path) -> None:
    """In turns with a Python that does nothing, and one that says a word in the same terminal, so that what
    else the machine does falls on all."""
    rounds = [(started(NOTHING), spoke(folder), shown(folder)) for _ in range(RUNS)]
    bare, word, ours = (sorted(1000 * one for one in column) for column in zip(*rounds, strict=True))
    print(
        f"from the command to the first problem: median {statistics.median(ours):.0f} ms, fastest "
        f"{ours[0]:.0f} ms, slowest {ours[-1]:.0f} ms; Python alone, start to end: median "
        f"{statistics.median(bare):.1f} ms, to its first word in the same terminal: median "
        f"{statistics.median(word):.1f} ms"
    )


def started(command: list[str]) -> float:
    begun = time.perf_counter()
    subprocess.run(command, check=True)
    return time.perf_counter() - begun


def spoke(folder: Path) -> float:
    begun = time.monotonic_ns()
    with seated(folder, *WORD) as taken:
        taken.prompted()
        return (taken.seen_ns - begun) / 1e9


def shown(folder: Path) -> float:
    begun = time.monotonic_ns()
    with seated(folder, *warmup(TODAY + 40, "--try")) as taken:
        taken.waits()
        return (taken.seen_ns - begun) / 1e9


def next_problems(folder: Path, wanted: int, day: int) -> None:
    """From that day on. Every problem is answered with 1 and Enter; only what was kept is timed, as an answer
    that cannot be read is asked again at once."""
    waits: list[float] = []
    while len(waits) < wanted:
        waits += of_one(folder, day)
        day += 1
    waits.sort()
    p99 = waits[int(len(waits) * 0.99)]
    print(
        f"from Enter to the next problem: median {statistics.median(waits):.1f} ms, 99th percentile "
        f"{p99:.1f} ms, slowest {waits[-1]:.1f} ms over {len(waits)} answers"
    )


def of_one(folder: Path, day: int) -> list[float]:
    waits = []
    kept = numbers(folder)
    with seated(folder, *warmup(day, "--minutes", "10")) as taken:
        while more := settled(taken):
            taken.press("1")
            taken.read(0.05)
            at = taken.press("\r")
            more = settled(taken)
            before, kept = kept, numbers(folder)
            waits += [(taken.seen_ns - at) / 1e6] if kept > before else []
            if not more:
                break
    return waits


def numbers(folder: Path) -> int:
    """How many rows were ever written."""
    db = sqlite3.connect(f"{(folder / 'demo.book').as_uri()}?mode=ro", uri=True)
    try:
        return int(db.execute("SELECT sum(next) FROM device").fetchone()[0])
    finally:
        db.close()


def settled(taken: Seat, quiet: float = 0.08) -> bool:
    """Read until nothing comes for that long; whether the sitting goes on."""
    seen = 0
    while taken.seen_ns != seen:
        seen = taken.seen_ns
        if not taken.read(quiet):
            return False
    return True


def main(count: int, seed: int) -> None:
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        demo.play(folder, TODAY)
        first_problem(folder)
        interrupted(count, seed)
        next_problems(folder, 600, TODAY + 41)
        with store.open_book(folder / "demo.book", folder / "s" / "review", write=False) as book:
            problems = book.verify(gather.remember())
        print("the book is sound" if not problems else f"the book is not sound: {problems}")


if __name__ == "__main__":
    given = [int(one) for one in sys.argv[1:]]
    main(*given, *(1000, 1)[len(given) :])
