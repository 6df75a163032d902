"""Several programs write at once: everything that was acknowledged is stored once, in one sound chain.

python -m tests.faults.writers [ANSWERS]        (default 500 by each of four)
"""

import json
import os
import subprocess
import sys
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple

from review.book import recording, rows
from review.book.open_file import OpenFile
from review.book.recording import Remember
from review.book.store import Book
from review.core.model import Draft, Event
from review.errors import BookError
from tests.book.conftest import Place, new_place
from tests.book.processes import Tell, start
from tests.book.tiny import TINY, answer
from tests.faults.endings import FIRST_DAY, Home, new_home, proved
from tests.faults.power import scratch

WRITERS = 4
CARDS = 5  # few, so that all write to the same
Plant = Callable[[], None]


class Written(NamedTuple):
    """What came of it."""

    tried: int
    told: int  # that were acknowledged
    broken: tuple[str, ...]  # in words


# --- through the store ----------------------------------------------------------------------------------


def nothing() -> None:
    pass


def plain_begin() -> None:
    """A planted fault: the lock is only asked for once something is written."""

    def begin(self: OpenFile) -> None:
        self._db.execute("BEGIN")

    OpenFile._begin = begin  # type: ignore[method-assign]


def memory_before_the_lock() -> None:
    """A planted fault: what is remembered is read before the lock is held."""
    locked, cached, habits = Book.record, recording.cached, recording.habits

    def record(self: Book, drafts: Sequence[Draft], remember: Remember) -> list[Event]:
        card, child = drafts[0].card, rows.child_number(self._db, drafts[0].child)
        early, ways = cached(self._db, child, card), habits(self._db, child)
        recording.cached = lambda *_: early
        recording.habits = lambda *_: ways
        return locked(self, drafts, remember)

    Book.record = record  # type: ignore[method-assign]


PLANTED: dict[str, Plant] = {"a plain BEGIN": plain_begin, "memory before the lock": memory_before_the_lock}


def writer(place: Place, first: int, answers: int, plant: Plant) -> Callable[[Tell], None]:
    def work(tell: Tell) -> None:
        plant()
        with place.open() as book:
            tell("ready")
            for number in range(first, first + answers):
                try:
                    drafts = [answer(place.child, f"product:{number % CARDS + 2}x7", number)]
                    (written,) = book.record(drafts, TINY)
                    tell(f"{written.device}-{written.seq}")
                except BookError:
                    tell("refused")

    return work


def at_once(answers: int, plant: Plant = nothing, writers: int = WRITERS) -> Written:
    """All from the same place, as several terminals on one computer are."""
    with scratch() as folder:
        place = new_place(folder)
        children = [start(writer(place, n * 10_000, answers, plant)) for n in range(writers)]
        lines = [line for child in children for line in child.read() if line != "ready"]
        codes = [child.end() for child in children]
        told = [line for line in lines if line != "refused"]
        with place.open() as book:
            stored = [f"{row.device}-{row.seq}" for row in book.events(place.child)]
            broken = [
                *([f"ended with {codes}"] if any(codes) else []),
                *([f"{len(lines) - len(told)} were refused"] if len(told) < len(lines) else []),
                *([] if sorted(stored) == sorted(set(told)) else ["what is stored is not what was told"]),
                *book.verify(TINY),
            ]
    return Written(len(lines), len(told), tuple(broken))


# --- through the program itself -------------------------------------------------------------------------


def warmups(home: Home, day: int, answers: int) -> int:
    """One child's warm-up of one day, by another program line by line: the answers a mark came back for. What
    was told last comes again, where another terminal was stopped before it was copied."""
    command = [*home.warmup(day), "--jsonl"]
    command.remove("--typed")
    environment = {**os.environ, **home.environment()}
    pipe = subprocess.PIPE
    marks, waits = 0, False
    with subprocess.Popen(command, text=True, env=environment, stdin=pipe, stdout=pipe) as process:
        assert process.stdin
        assert process.stdout
        for line in process.stdout:
            told = json.loads(line)
            if told["type"] == "mark":
                marks, waits = marks + waits, False
            if told["type"] == "problem":
                waits = True
                heard = {"stop": True} if marks >= answers else {"answer": "7", "seconds": 2}
                process.stdin.write(json.dumps(heard) + "\n")
                process.stdin.flush()
    return marks


def terminals_at_once(answers: int, terminals: int = WRITERS) -> Written:
    """The same child's warm-up of the same day in several terminals."""
    with scratch() as folder:
        home = new_home(Path(folder))
        with ThreadPoolExecutor(terminals) as pool:
            told = list(pool.map(lambda _: warmups(home, FIRST_DAY + 1, answers), range(terminals)))
        with home.open() as book:
            stored = book.counts()[1]
            seqs = [row.seq for row in book.events()]
        broken = [
            *([] if stored == sum(told) else [f"{sum(told)} were told and {stored} are stored"]),
            *(
                []
                if sorted(seqs) == list(range(1, len(seqs) + 1))
                else ["a number is missing or twice there"]
            ),
            *proved(home),
        ]
    return Written(answers * terminals, sum(told), tuple(broken))


def main(answers: int = 500) -> None:
    print(row(f"{WRITERS} writers", at_once(answers)))
    print(row(f"{WRITERS} terminals", terminals_at_once(20)))
    for name, plant in PLANTED.items():
        print(row(f"{name}, planted", at_once(answers, plant)))


def row(name: str, found: Written) -> str:
    told = f"{name}: {found.tried:,} answers, {found.told:,} acknowledged, {len(found.broken)} problems"
    return "\n  ".join([told, *found.broken[:3]])


if __name__ == "__main__":
    main(*(int(one) for one in sys.argv[1:]))
