"""What a sitting does to a terminal, and how soon it answers: figures, not tests.

    python -m tests.benchmarks.terminal [SITTINGS] [SEED]         (default 1,000 and 1)

Plays real warm-ups of the demo's children in pseudo-terminals, on a book of its own:

- as many sittings as SITTINGS, each interrupted at a random moment by SIGTERM, SIGHUP, Ctrl-C, or Ctrl-Z and
  then Ctrl-C, with keys being typed meanwhile: is the terminal as it was, also while the process is stopped,
  did it end with the code of its signal, is every answer of which anything was said in the book, and is the
  book sound at the end;
- from the command to the first problem, against starting Python with nothing;
- from Enter to the next problem.
"""

import os
import random
import signal
import statistics
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from review import demo, gather, sittings, store
from review.core import days
from tests.terminal.seat import Seat, sat

TODAY = 739_900
LONGEST_S = 1.6  # after the command at which a signal comes: start-up takes about a quarter of a second
RUNS = 30
CODES = {"SIGTERM": 143, "SIGHUP": 129, "Ctrl-C": 130, "Ctrl-Z": 130}
SHELL = 'set -m; "$@"; echo; echo stopped; read x; fg > /dev/null; echo "ended $?"'
PASTE_OFF, PASTE_ON = b"\x1b[?2004l", b"\x1b[?2004h"


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


def interrupted(folder: Path, count: int, source: random.Random) -> None:
    good: Counter[str] = Counter()
    tried: Counter[str] = Counter()
    for n in range(count):
        way = [*CODES][n % len(CODES)]
        tried[way] += 1
        told = one_way(folder, way, TODAY + 1 + n // 40, source)
        good[way] += told == ""
        if told:
            print(f"  {way}, sitting {n}: {told}", flush=True)
    for way, number in tried.items():
        print(f"terminal as it was, code and book right after {way}: {good[way]} of {number}")


def one_way(folder: Path, way: str, day: int, source: random.Random) -> str:
    """Interrupt one sitting; what was not as it should be, "" for nothing."""
    command = warmup(day)
    shelled = ["/bin/sh", "-c", SHELL, "sh", *command] if way == "Ctrl-Z" else command
    before, again = answers(folder), told_again(folder, day)
    with seated(folder, *shelled) as taken:
        typing(taken, source, time.monotonic() + source.random() * LONGEST_S)
        told = stopped(taken) if way == "Ctrl-Z" else ended(taken, way)
        restored = taken.attributes() == taken.before
        pasted = taken.raw.rfind(PASTE_OFF) >= taken.raw.rfind(PASTE_ON)
        shown = taken.raw.count(b"Say it once.") - again
    kept = answers(folder) - before
    problems = (
        told,
        "" if restored else "the terminal was not as it was",
        "" if pasted else "bracketed paste was left on",
        "" if kept >= shown else f"of {shown} misses that were told, {kept} answers are in the book",
    )
    return "; ".join(filter(None, problems))


def typing(taken: Seat, source: random.Random, until: float) -> None:
    """A child's keys, as they come, until that moment."""
    while time.monotonic() < until:
        taken.read(0.01)
        if source.random() < 0.2:
            taken.press(source.choice(["4", "1", "7", "?", "\r", "\r", "\x1b[A"]))


def ended(taken: Seat, way: str) -> str:
    if way == "Ctrl-C":
        taken.press("\x03")
    else:
        os.kill(taken.child.pid, getattr(signal, way))
    code = taken.finish()
    early = -getattr(signal, way, 2)  # before Python has set up anything, the signal ends it by itself
    return "" if code in (CODES[way], early) else f"ended with {code}"


def stopped(taken: Seat) -> str:
    """Under a shell with job control: stopped, looked at, continued, then Ctrl-C."""
    taken.press("\x1a")
    taken.see("stopped")
    while_stopped = "" if taken.attributes() == taken.before else "not as it was while stopped"
    taken.press("\r")
    for _ in range(10):  # the shell may not have given the terminal back yet
        time.sleep(0.2)
        taken.press("\x03")
        if wait_for(taken, "ended"):
            break
    taken.finish()
    return while_stopped if "ended 130" in taken.text else f"{while_stopped} no end with 130"


def wait_for(taken: Seat, text: str, seconds: float = 3.0) -> bool:
    until = time.monotonic() + seconds
    while text not in taken.text and time.monotonic() < until:
        taken.read(0.05)
    return text in taken.text


def told_again(folder: Path, day: int) -> bool:
    """Whether the day's warm-up goes on with a fact that was told and is to be copied."""
    with store.open_book(folder / "demo.book", folder / "s" / "review", write=False) as book:
        child = gather.child_named(gather.family_of(book), demo.FAMILY[day % 2].name)
        sitting = sittings.sitting_of(book, child, day)
        if sitting is None:
            return False
        return sittings.as_it_stands(book, child, sittings.sitting_plan(sitting), day).copy is not None


def answers(folder: Path) -> int:
    with store.open_book(folder / "demo.book", folder / "s" / "review", write=False) as book:
        return book.counts()[1]


# --- how soon -------------------------------------------------------------------------------------------


def first_problem(folder: Path) -> None:
    """In turns with a Python that does nothing, so that what else the machine does falls on both."""
    pairs = [(started([sys.executable, "-c", ""]), shown(folder)) for _ in range(RUNS)]
    base, ours = (sorted(column) for column in zip(*pairs, strict=True))
    print(
        f"from the command to the first problem: median {statistics.median(ours) * 1000:.0f} ms, fastest "
        f"{ours[0] * 1000:.0f} ms, slowest {ours[-1] * 1000:.0f} ms; Python alone, start to end: median "
        f"{statistics.median(base) * 1000:.0f} ms"
    )


def started(command: list[str]) -> float:
    begun = time.perf_counter()
    subprocess.run(command, check=True)
    return time.perf_counter() - begun


def shown(folder: Path) -> float:
    begun = time.monotonic_ns()
    with seated(folder, *warmup(TODAY + 40, "--try")) as taken:
        taken.waits()
        return (taken.seen_ns - begun) / 1e9


def next_problems(folder: Path, wanted: int) -> None:
    """Every problem is answered with its first guess and Enter; only what needs no reading pause is timed."""
    waits: list[float] = []
    day = TODAY + 41
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
    with seated(folder, *warmup(day, "--minutes", "10")) as taken:
        while more := settled(taken):
            taken.press("1")
            taken.read(0.05)
            at = taken.press("\r")
            more = settled(taken)
            waits.append((taken.seen_ns - at) / 1e6)
            if not more:
                break
    return waits


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
        interrupted(folder, count, random.Random(seed))
        next_problems(folder, 600)
        with store.open_book(folder / "demo.book", folder / "s" / "review", write=False) as book:
            problems = book.verify(gather.remember())
        print("the book is sound" if not problems else f"the book is not sound: {problems}")


if __name__ == "__main__":
    given = [int(one) for one in sys.argv[1:]]
    main(*given, *(1000, 1)[len(given) :])
