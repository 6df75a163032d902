"""The figures in the README, section by section; each row is printed as it comes.

    python -m tests.benchmarks.speed [--books DIR] [--answers N] [SECTION ...]

Sections: catalogue, start, size, peak, enter, fold, back, plan, year; all of them where none is named. Books
of the invented family with 0, a tenth of N and N answers (default 1,000,000: two minutes of processor time)
are made in DIR when a section first needs them, and kept there for the next time; without it they go when it
ends. Times are of the processor
(user and system), in turns, so that what else the machine does falls on all alike; the disk's are by the
clock.
"""

import argparse
import json
import os
import shutil
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from datetime import date
from functools import cache
from pathlib import Path
from random import Random
from typing import NamedTuple

from review import gather
from review.app import demo
from review.book.store import Book, Remember
from review.core import card_sets, days, plan
from review.core.ground import Basis
from review.core.model import Draft, Event, Remembered, Settings
from tests.benchmarks import long_book, terminal
from tests.benchmarks.learning.courses import course
from tests.benchmarks.learning.season import Task, season
from tests.core.stock import grown

RUNS = 15
BASELINE = "import click, sqlite3, rich.table"
CATALOGUE = """
import time
from review import catalogue
from review.core import card_sets
begun = time.perf_counter()
made = card_sets.cards(catalogue.whole())
print(time.perf_counter() - begun, len(catalogue.names()), len(made))
"""
PYTHON = [sys.executable, "-c"]
REVIEW = [sys.executable, "-m", "review"]


class Spent(NamedTuple):
    ms: float  # of the processor
    code: int


def spent(command: list[str], environment: Mapping[str, str], typed: bytes = b"") -> Spent:
    """What a process took until it ended."""
    reading, writing = os.pipe()
    os.write(writing, typed)
    os.close(writing)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    plumbing = [(os.POSIX_SPAWN_DUP2, reading, 0), *((os.POSIX_SPAWN_DUP2, nowhere, n) for n in (1, 2))]
    process = os.posix_spawn(command[0], command, environment, file_actions=plumbing)
    os.close(reading)
    os.close(nowhere)
    _, status, usage = os.wait4(process, 0)
    return Spent((usage.ru_utime + usage.ru_stime) * 1000, os.waitstatus_to_exitcode(status))


class Stand(NamedTuple):
    """A long book, and how a command finds it."""

    answers: int
    long: long_book.Long
    environment: Mapping[str, str]
    day: str  # two days after the last entry


def stand(books: Path, answers: int) -> Stand:
    long = long_book.made(books, answers)
    with long.open() as book:
        last = max(book.last_days().values())
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    place = {"REVIEW_BOOK": str(long.path), "XDG_STATE_HOME": str(long.state), "TERM": "xterm"}
    return Stand(answers, long, kept | place, str(days.date_of(last + 2)))


Stands = Callable[[int], Stand]
"""By how many tenths of the answers asked for: made when it is first asked for."""


def start_up(made: Stands) -> None:
    """Every command in turn with an empty Python and one that imports what ours stand on."""
    stands = [made(tenths) for tenths in (0, 1, 10)]
    for words in (["--help"], [], ["set", "list"], ["overdue"], ["warmup", "Fenn", "--try"]):
        dated = words and words[0] in ("overdue", "warmup")
        commands = [
            (one, [*REVIEW, *words, *(["--on", one.day] if dated else [])])
            for one in (stands[:1] if words == ["--help"] else stands)
        ]
        bare: list[float] = []
        libraries: list[float] = []
        ours: list[list[float]] = [[] for _ in commands]
        for _ in range(RUNS):
            bare.append(spent([*PYTHON, "pass"], os.environ).ms)
            libraries.append(spent([*PYTHON, BASELINE], os.environ).ms)
            for column, (one, command) in zip(ours, commands, strict=True):
                done = spent(command, one.environment, b"stop\n")
                assert done.code == 0, command
                column.append(done.ms)
        for column, (one, _) in zip(ours, commands, strict=True):
            took = statistics.median(column)
            print(
                f"review {' '.join(words)}, {one.answers:,} answers: {took:.0f} ms; "
                f"{took / statistics.median(bare):.1f} times an empty Python, "
                f"{took / statistics.median(libraries):.1f} times {BASELINE!r}",
                flush=True,
            )


def sizes(one: Stand) -> None:
    """Where the bytes of an answer go, by SQLite's own count of its pages."""
    with one.long.open() as book:
        _, answers, _ = book.counts()
    db = sqlite3.connect(one.long.path)
    print(f"{one.long.path.stat().st_size / answers:.0f} bytes an answer, {answers:,} answers", flush=True)
    pages = "SELECT name, sum(pgsize), sum(unused) FROM dbstat GROUP BY name ORDER BY 2 DESC LIMIT 4"
    for name, size, unused in db.execute(pages):
        print(f"  {name}: {size / answers:.1f}, of which empty {unused / answers:.1f}", flush=True)
    for kind, size in db.execute(
        "SELECT kind, sum(length(body)) FROM log GROUP BY kind ORDER BY 2 DESC LIMIT 2"
    ):
        print(f"  bodies of {kind}: {size / answers:.1f}", flush=True)
    db.close()


REBUILD = """
import sys
from pathlib import Path
from review import gather
from review.book import store
with store.open_book(Path(sys.argv[1]), Path(sys.argv[2]), False) as book:
    for key in book.child_keys():
        book.folded(key, gather.remember())
"""


PEAK = """
import resource, subprocess, sys
done = subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(used.ru_maxrss / 1024, used.ru_utime + used.ru_stime, done.returncode)
"""
"""The most memory in MB, processor time in seconds, exit code. By a small process of its own: Linux counts to
a process what the one that began it held at that moment, and this one holds whole books."""


def peaks(one: Stand) -> None:
    """The most memory, and the processor's time, of commands on the longest book."""
    dated = ["--on", one.day]
    commands = {
        "warmup": [*REVIEW, "warmup", "Fenn", "--try", *dated],
        "overdue": [*REVIEW, "overdue", *dated],
        "progress": [*REVIEW, "progress", *dated],
        "rebuild": [*PYTHON, REBUILD, str(one.long.path), str(one.long.state / "review")],
        "verify": [*REVIEW, "verify"],
    }
    for name, command in commands.items():
        done = subprocess.run(
            [*PYTHON, PEAK, *command], env=one.environment, input=b"stop\n", capture_output=True, check=True
        )
        held, took, code = done.stdout.split()
        print(f"{name}: {float(held):.0f} MB, {float(took):.1f} s of CPU, exit {int(code)}", flush=True)


def whole_catalogue() -> None:
    """In fresh interpreters, the rooms of all kinds imported on the way; the fastest, and the one between."""
    runs = [
        subprocess.run(
            [sys.executable, "-c", CATALOGUE], capture_output=True, text=True, check=True
        ).stdout.split()
        for _ in range(RUNS)
    ]
    times = sorted(float(seconds) * 1000 for seconds, _, _ in runs)
    print(
        f"all {runs[0][1]} shipped sets read and {runs[0][2]} cards made: median "
        f"{statistics.median(times):.0f} ms, fastest {times[0]:.0f} ms"
    )


# --- memory -------------------------------------------------------------------------------------------


def memory_rebuilt(book: Book, child: str) -> None:
    """Read, folded and written back, as after a change of rule; then the fold and a step alone."""
    remember, cpu = gather.remember(), time.process_time()
    events = list(book.events(child))
    read, cpu = time.process_time() - cpu, time.process_time()
    known = remember.fold(events, events)
    folded, cpu = time.process_time() - cpu, time.process_time()
    book.replace_memory(child, remember.version, known)
    wrote = time.process_time() - cpu
    answers = [event for event in events if event.kind == "answer"]
    print(
        f"memory of {len(answers):,} answers rebuilt in {read + folded + wrote:.1f} s of CPU: "
        f"read {read:.1f}, folded {folded:.1f} ({folded / len(answers) * 1e6:.0f} µs an answer), "
        f"written {wrote:.2f}"
    )
    steps = [step_us(remember, known, event) for event in answers[-2000:]]
    print(f"a step of memory alone: median {statistics.median(steps):.0f} µs")


def step_us(remember: Remember, known: Remembered, event: Event) -> float:
    begun = time.perf_counter()
    remember.step(known.habits, known.cards.get(event.card), event)
    return (time.perf_counter() - begun) * 1e6


def taken_back(book: Book, child: str) -> None:
    """An answer given and taken back on the same day, and one of an earlier day."""
    remember = gather.remember()
    rows = [event for event in book.events(child) if event.kind == "answer"]
    last = rows[-1]
    new = [
        Draft(child, "answer", last.day + 1, last.raw_ms + demo.DAY_MS + n, 0, e.card, e.body)
        for n, e in enumerate(rows[-20:])
    ]
    written = book.record(new, remember)
    for what, row in (("of today", written[-1]), ("of an earlier day", rows[-40])):
        body = {"device": row.device, "seq": row.seq}
        undo = Draft(child, "undo", last.day + 1, last.raw_ms + demo.DAY_MS + 99, 0, "", body)
        begun = time.perf_counter()
        book.record([undo], remember)
        print(f"an answer {what} taken back: {(time.perf_counter() - begun) * 1000:.0f} ms")


def child_year() -> None:
    """A simulated child of the bench, 400 cards and five minutes a day: the fastest of five, in CPU."""
    course(400)
    runs = []
    for _ in range(5):
        cpu = time.process_time()
        done = season(Task("scales", 1, "review", 400, 5.0), 365)
        runs.append(time.process_time() - cpu)
    print(f"a simulated year, 400 cards, {done.answers:,} answers, child included: {min(runs):.2f} s of CPU")


PAIRS = """
[set]
id = "five-thousand"
title = "Five thousand"
aim = "accuracy"
ages = [8, 11]
[[skill]]
id = "words"
title = "Words"
kind = "pairs"
pairs = {pairs}
"""


def planned() -> None:
    """The largest set there may be, 1,500 of its cards met, in all strengths and days; the fastest of 15."""
    text = PAIRS.format(pairs=json.dumps([[f"Word {n}?", f"answer {n}"] for n in range(5000)]))
    found, mistakes = card_sets.read_set(text, "five-thousand.toml")
    assert found, mistakes
    cards, today = card_sets.cards([found]), 739_900
    memory = {
        card.key: grown(card.key, 1.0 + n % 40, today - n % 50, 1 + n % 21)
        for n, card in enumerate(cards[:1500])
    }
    runs = []
    for _ in range(RUNS):
        cpu = time.process_time()
        made = plan.plan(Basis(cards, memory, Settings(9), today, 5, [True] * 10), Random(1))
        runs.append(time.process_time() - cpu)
    print(
        f"a plan of {len(made.items)} cards out of {len(cards):,}: fastest {min(runs) * 1000:.0f} ms, median "
        f"{statistics.median(runs) * 1000:.0f} ms"
    )


def enter(one: Stand) -> None:
    """On a copy, since it is written to."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        shutil.copy(one.long.path, folder / "demo.book")
        shutil.copytree(one.long.state, folder / "s")
        terminal.next_problems(folder, 300, date.fromisoformat(one.day).toordinal())


def folded(one: Stand, what: Callable[[Book, str], None]) -> None:
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / one.long.path.name
        shutil.copy(one.long.path, path)
        with long_book.Long(path, Path(place)).open(write=True) as book:
            what(book, book.child_keys()[0])


SECTIONS: dict[str, Callable[[Stands], None]] = {
    "catalogue": lambda made: whole_catalogue(),
    "start": start_up,
    "size": lambda made: sizes(made(10)),
    "peak": lambda made: peaks(made(10)),
    "enter": lambda made: enter(made(10)),
    "fold": lambda made: folded(made(1), memory_rebuilt),
    "back": lambda made: folded(made(1), taken_back),
    "plan": lambda made: planned(),
    "year": lambda made: child_year(),
}


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("sections", nargs="*", metavar="SECTION", choices=[*SECTIONS, []])
    asked.add_argument("--books", type=Path)
    asked.add_argument("--answers", type=int, default=1_000_000)
    told = asked.parse_args()
    with tempfile.TemporaryDirectory() as place:
        books = told.books or Path(place)
        made = cache(lambda tenths: stand(books, told.answers * tenths // 10))
        for name in told.sections or SECTIONS:
            SECTIONS[name](made)


if __name__ == "__main__":
    main()
