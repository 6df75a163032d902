"""The figures in the README: one command prints them.

    python -m tests.benchmarks.speed [ANSWERS]         (default 100,000)

Makes a book of two children with that many answers in a temporary folder and measures on this machine:
the time to read all shipped sets and make their cards, the time of `review overdue` and `review set list`
against importing the libraries they stand on, the time from Enter to the next problem, the peak memory, the
size of an answer, what memory costs: a step, a whole rebuild, taking back; and a simulated child's year.
"""

import os
import pty
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from review import demo, gather, store
from review.core import days
from review.core.model import Draft, Event, Remembered
from review.store import Book, Remember
from tests.benchmarks.learning.courses import course
from tests.benchmarks.learning.season import Task, season

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
TODAY = 739_900


def fill(path: Path, state: Path, wanted: int) -> None:
    """Copy a season's answers over and over, earlier and earlier, until there are that many."""
    with store.open_book(path, state, write=True) as book:
        season = [event for event in book.events() if event.kind == "answer"]
        remember = gather.remember()
        first, last = min(e.day for e in season), max(e.day for e in season)
        for n in range(1, wanted // len(season) + 1):
            shift = n * (last - first + 1)
            rows = [
                Draft(e.child, e.kind, e.day + shift, e.raw_ms + shift * demo.DAY_MS, 0, e.card, e.body)
                for e in season
            ]
            book.record(rows, remember)


def timed(command: list[str], environment: dict[str, str]) -> float:
    begun = time.perf_counter()
    subprocess.run(command, env=environment, stdout=subprocess.DEVNULL, check=True)
    return time.perf_counter() - begun


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


def against_baseline(environment: dict[str, str], *arguments: str) -> None:
    """In pairs, turn about, so that what else the machine does falls on both."""
    command = [sys.executable, "-m", "review", *arguments]
    pairs = [
        (timed([sys.executable, "-c", BASELINE], environment), timed(command, environment))
        for _ in range(RUNS)
    ]
    base, ours = (statistics.median(column) for column in zip(*pairs, strict=True))
    print(
        f"review {' '.join(arguments)}: {ours * 1000:.0f} ms, {BASELINE!r}: {base * 1000:.0f} ms, "
        f"ratio {ours / base:.2f}"
    )


def peak_memory(environment: dict[str, str], day: str) -> None:
    code = "import resource, sys; from review.cli import run; run(sys.argv[1:]); "
    code += "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, file=sys.stderr)"
    done = subprocess.run(
        [sys.executable, "-c", code, "overdue", "--on", day], env=environment, capture_output=True, check=True
    )
    print(f"peak memory of review overdue: {int(done.stderr) / 1024:.0f} MB")


def next_problem(environment: dict[str, str], day: str, name: str) -> None:
    """From Enter to the first byte after it, in a pseudo-terminal, over one sitting of ten minutes."""
    child, master = pty.fork()
    if child == 0:
        command = ["-m", "review", "warmup", name, "--on", day, "--minutes", "10"]
        os.execve(sys.executable, [sys.executable, *command], environment)
    waits = answer_all(master)
    _, status, usage = os.wait4(child, 0)
    waits.sort()
    p99 = waits[min(len(waits) - 1, int(len(waits) * 0.99))]
    print(
        f"next problem after Enter: median {statistics.median(waits) * 1000:.1f} ms, "
        f"99th percentile {p99 * 1000:.1f} ms over {len(waits)} answers; "
        f"peak memory of review warmup {usage.ru_maxrss / 1024:.0f} MB; exit {status}"
    )


def answer_all(master: int) -> list[float]:
    """Answer every problem with 1 and Enter; returns the seconds from each Enter to a screen at rest."""
    waits = []
    read_until_quiet(master, 1.0)
    for _ in range(200):
        os.write(master, b"1")
        time.sleep(0.05)
        read_until_quiet(master, 0.05)
        begun = time.perf_counter()
        os.write(master, b"\r")
        last = read_until_quiet(master, 0.15)
        if last is None:
            break
        waits.append(last - begun)
    return waits


def read_until_quiet(master: int, quiet: float) -> float | None:
    """Read until nothing comes for that long; when the last byte came, or None at the end."""
    import select

    last = time.perf_counter()
    while select.select([master], [], [], quiet)[0]:
        try:
            if not os.read(master, 65536):
                return None
        except OSError:
            return None
        last = time.perf_counter()
    return last


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


def main(wanted: int) -> None:
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        path = demo.play(folder, TODAY)
        fill(path, folder / "state", wanted)
        with store.open_book(path, folder / "state", write=False) as book:
            last = max(book.last_days().values())
            children, answers, events = book.counts()
        size = path.stat().st_size
        with store.open_book(path, folder / "state", write=True) as book:
            first, *_ = book.child_keys()
            memory_rebuilt(book, first)
            taken_back(book, first)
        child_year()
        print(f"{answers:,} answers, {children} children, {events:,} entries, {size / events:.0f} bytes each")

        day = str(days.date_of(last + 1))
        environment = {
            **{name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"},
            "REVIEW_BOOK": str(path),
            "XDG_STATE_HOME": str(folder / "s"),
            "TERM": "xterm",
        }
        whole_catalogue()
        against_baseline(environment, "overdue", "--on", day)
        against_baseline(environment, "set", "list")
        peak_memory(environment, day)
        next_problem(environment, day, demo.FAMILY[0].name)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
