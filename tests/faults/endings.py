"""A warm-up in a terminal, ended in every way there is: killed, told to end, stopped, its terminal closed.

    python -m tests.faults.endings [KILLS [OTHERS [SEED]]]      (default 1,000, 50 and 1)

A child types numbers that come only once; the end comes after so many of them were answered, right after
one was typed, or while the program starts. Then: is every number of which the screen showed that it was taken
in the book, and at most one more; did the program end with the code of its signal; is the terminal as it was;
was there no traceback; and does the next warm-up start by itself.
"""

import os
import random
import re
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from review import gather
from review.book import store
from review.book.store import Book
from review.core import days
from review.core.sayings import DONE
from review.terminal import PRESS_ENTER
from tests.terminal.seat import PATIENCE_S, Seat, sat

SHELL = 'trap : INT; set -m; "$@"; s=$?; echo; echo "stopped $s;"; read x; fg > /dev/null; echo "ended $?"'
PASTE_OFF, PASTE_ON = b"\x1b[?2004l", b"\x1b[?2004h"
START_S = 0.6  # a start on a loaded machine takes about as long
SOON_S = 0.015  # an answer is taken in within a few milliseconds
ANSWERS = 4  # at most, before the end
A_DAY = 4  # sittings
FIRST_DAY = 739_900
FIRST_TOKEN = 20_001  # no card of the sets used asks for so much
PROVED = 100  # sittings; then every proof of the book is asked for, and once more at the end


class Home(NamedTuple):
    """A family's book, for the program in a process of its own."""

    book: Path
    state: Path
    names: tuple[str, ...]
    set_id: str = "addition-facts-20"

    def environment(self) -> dict[str, str]:
        return {"REVIEW_BOOK": str(self.book), "XDG_STATE_HOME": str(self.state)}

    def open(self, write: bool = False) -> Book:
        return store.open_book(self.book, self.state / "review", write)

    def warmup(self, day: int, *more: str) -> list[str]:
        on, name = str(days.date_of(day)), self.names[day % len(self.names)]
        return [sys.executable, "-m", "review", "warmup", name, "--typed", "--on", on, *more]


class Sitting(NamedTuple):
    """What came of one sitting that was ended."""

    taken: frozenset[str]  # numbers of which the screen showed that they were
    wrong: str  # in words; "": nothing


def new_home(folder: Path) -> Home:
    """One child of nine, with sums to learn."""
    home = Home(folder / "family.book", folder / "s", ("Fenn",))
    on = str(days.date_of(FIRST_DAY))
    for command in (
        ["child", "add", "Fenn", "--age", "9", "--on", on],
        ["set", "add", home.set_id, "Fenn", "--taught", "--on", on],
    ):
        program = [sys.executable, "-m", "review", *command]
        environment = {**os.environ, **home.environment()}
        subprocess.run(program, env=environment, check=True, capture_output=True)
    return home


@contextmanager
def seated(home: Home, *command: str) -> Iterator[Seat]:
    program, *arguments = command
    with sat(Seat(program, arguments, 80, 30, home.environment())) as taken:
        yield taken


# --- one sitting ----------------------------------------------------------------------------------------


def one_sitting(home: Home, way: str, day: int, first: int, source: random.Random) -> Sitting:
    """Numbers from `first` are typed, then it is ended in that way."""
    command = home.warmup(day)
    shelled = ["/bin/sh", "-c", SHELL, "sh", *command] if way == "Ctrl-Z" else command
    with seated(home, *shelled) as seat:
        tokens = typed(seat, first, source)
        ended = by_itself(seat, way) if over(seat) else WAYS[way](seat)
        problems = [ended, *terminal_problems(seat, way)]
        taken = frozenset(token for token in tokens if tokens[token] or is_told(seat, token))
    there = stored(home, day, {str(first + n) for n in range(ANSWERS + 1)})
    problems += [
        "" if taken <= there else f"of {sorted(taken)} only {sorted(there)} are in the book",
        "" if len(there - taken) <= 1 else f"besides {sorted(taken)}, {sorted(there)} are in the book",
    ]
    return Sitting(taken, "; ".join(filter(None, problems)))


def typed(seat: Seat, first: int, source: random.Random) -> dict[str, bool]:
    """What a child types up to the end: each number, and whether it was seen to be taken. The last one is
    typed and nothing is waited for."""
    if source.random() < 0.2:
        wait(seat, source.uniform(0.0, START_S))
        return {}
    if not comes(seat):
        return {}
    tokens = {}
    for number in range(first, first + source.randint(0, ANSWERS)):
        tokens[str(number)] = answered(seat, str(number))
        if over(seat):
            return tokens
    seat.press(f"{first + len(tokens)}\r")
    tokens[str(first + len(tokens))] = False
    wait(seat, source.uniform(0.0, SOON_S))
    return tokens


def comes(seat: Seat) -> bool:
    """Whether a problem came; there is none where the day is done. What was told last is read first."""
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        more = seat.read()
        if {*"○●"} & {*seat.text} and seat.line.strip(" ○●"):
            return True
        if PRESS_ENTER in seat.text:
            seat.press("\r")
            seat.settle()
        if not more or over(seat):
            return False
    raise AssertionError(f"never a problem; the screen is:\n{seat.text}")


def answered(seat: Seat, token: str) -> bool:
    """Type a number; whether it was seen to be taken: it was told what is right, or a new page came. Else it
    is asked again, or besides."""
    seat.press(token)
    seat.see(token)
    before = seat.text
    seat.press("\r")
    seat.changed(before)
    seat.settle()
    if is_told(seat, token):
        before = seat.text
        seat.press("\r")
        seat.changed(before)
        seat.settle()
        return True
    return token not in seat.text


def over(seat: Seat) -> bool:
    """Whether the sitting came to its own end, or there was none: the day was done."""
    left = seat.raw.rfind(PASTE_OFF) > seat.raw.rfind(PASTE_ON)
    return left or "stopped" in seat.text or not seat.child.isalive()


def is_told(seat: Seat, token: str) -> bool:
    return 0 <= seat.raw.rfind(token.encode()) < seat.raw.rfind(PRESS_ENTER.encode())


def wait(seat: Seat, seconds: float) -> None:
    until = time.monotonic() + seconds
    while (left := until - time.monotonic()) > 0:
        seat.read(min(left, 0.01))


def stored(home: Home, day: int, wanted: set[str]) -> set[str]:
    """Which of the numbers are in the book, which must open without help."""
    with home.open(write=True) as book:
        return wanted & {str(row.body.get("given")) for row in book.events(kinds=("answer",), since_day=day)}


# --- how it is ended ------------------------------------------------------------------------------------


def by_itself(seat: Seat, way: str) -> str:
    """Only once it has ended is the terminal what it left: the last it says comes before that."""
    if way == "Ctrl-Z":
        seat.see(";").press("\r")  # to the shell around it
    code = seat.finish()
    return "" if code == 0 or way == "Ctrl-Z" else f"ended by itself with {code}"


def by_signal(number: signal.Signals) -> Callable[[Seat], str]:
    def end(seat: Seat) -> str:
        os.kill(seat.child.pid, number)
        code = -number if number == signal.SIGKILL else 128 + number
        return is_code(seat.finish(), code, number)

    return end


def by_key(seat: Seat) -> str:
    """Python ends with 1 where it is cut short while it looks for its own modules."""
    seat.press("\x03")
    code = seat.finish()
    early = code == 1 and b"Traceback" in seat.raw and not TRACEBACK.search(seat.raw)
    return "" if early else is_code(code, 130, signal.SIGINT)


def by_closing(seat: Seat) -> str:
    """The window is closed: whoever holds the other side of the terminal lets go of it."""
    seat.child.ptyproc.fileobj.close()
    deadline = time.monotonic() + 15
    while seat.child.isalive():
        if time.monotonic() > deadline:
            return "it lives on without a terminal"
        time.sleep(0.01)
    code = seat.child.exitstatus
    return is_code(-seat.child.signalstatus if code is None else code, 129, signal.SIGHUP)


def by_stopping(seat: Seat) -> str:
    """Under a shell with job control: stopped, looked at, continued, then Ctrl-C."""
    seat.press("\x1a")
    if not wait_for(seat, "stopped") and was_before_us(seat):
        seat.press("\x1a")
    seat.see("stopped").see(";")
    if "stopped 0;" in seat.text:  # the last number ended the warm-up before the key was read
        seat.press("\r")
        return is_code(seat.finish(), 0, signal.SIGTSTP)  # of the shell
    while_stopped = "" if seat.attributes() == seat.before else "not as it was while stopped"
    seat.press("\r")
    for _ in range(10):  # the shell may not have given the terminal back yet
        wait(seat, 0.2)  # it reads: the key has the terminal throw away what nobody has read yet
        seat.press("\x03")
        if wait_for(seat, "ended"):
            break
    seat.finish()
    done = "ended 0" in seat.text and DONE in seat.text  # stopped on its last few lines
    return (
        while_stopped
        if done or "ended 130" in seat.text
        else f"{while_stopped} no end with 130:\n{seat.text}"
    )


def was_before_us(seat: Seat) -> bool:
    """Whether Ctrl-Z came while the shell still held the terminal, which does not heed it: it was echoed."""
    return b"^Z" in seat.raw.partition(PASTE_ON)[0]


def wait_for(seat: Seat, text: str, seconds: float = 3.0) -> bool:
    until = time.monotonic() + seconds
    while text not in seat.text and time.monotonic() < until:
        seat.read(0.05)
    return text in seat.text


def is_code(found: int, wanted: int, number: signal.Signals) -> str:
    """Before Python has set anything up, the signal ends it by itself."""
    return "" if found in (wanted, -number) else f"ended with {found}"


TRACEBACK = re.compile(rb'Traceback.*File "[^"]*/review/[^"]*[.]py"', re.DOTALL)
"""One in which something of ours stands: Ctrl-C before our first line is Python's own to tell."""


WAYS: Mapping[str, Callable[[Seat], str]] = {
    "SIGKILL": by_signal(signal.SIGKILL),
    "SIGTERM": by_signal(signal.SIGTERM),
    "SIGHUP": by_signal(signal.SIGHUP),
    "Ctrl-C": by_key,
    "Ctrl-Z": by_stopping,
    "a closed terminal": by_closing,
}
GONE = ("SIGKILL", "a closed terminal")  # nobody is left to put the terminal back, or there is none


def terminal_problems(seat: Seat, way: str) -> list[str]:
    told = ["a traceback was shown"] if TRACEBACK.search(seat.raw) else []
    if way in GONE:
        return told
    as_it_was = seat.attributes() == seat.before
    pasted = seat.raw.rfind(PASTE_OFF) >= seat.raw.rfind(PASTE_ON)
    return [
        *told,
        *([] if as_it_was else ["the terminal was not as it was"]),
        *([] if pasted else ["bracketed paste was left on"]),
    ]


# --- many -----------------------------------------------------------------------------------------------


class Ended(NamedTuple):
    """What came of all sittings that were ended in one way."""

    sittings: int
    taken: int
    broken: tuple[str, ...]  # in words


def ended(home: Home, ways: Mapping[str, int], source: random.Random, day: int) -> dict[str, Ended]:
    """So many sittings for each way, in turns; the book is proved now and then, and at the end."""
    sittings = [way for turn in range(max(ways.values())) for way, count in ways.items() if turn < count]
    counts, taken = Counter(sittings), Counter[str]()
    broken: dict[str, list[str]] = {way: [] for way in ways}
    for n, way in enumerate(sittings):
        found = one_sitting(home, way, day + n // A_DAY, FIRST_TOKEN + n * (ANSWERS + 1), source)
        taken[way] += len(found.taken)
        broken[way] += [f"sitting {n}: {found.wrong}"] if found.wrong else []
        if (n + 1) % PROVED == 0 or n + 1 == len(sittings):
            broken[way] += proved(home)
    return {way: Ended(counts[way], taken[way], tuple(broken[way])) for way in ways}


def proved(home: Home) -> list[str]:
    with home.open() as book:
        return book.verify(gather.remember())


def main(kills: int = 1000, others: int = 50, seed: int = 1) -> None:
    ways = {way: kills if way == "SIGKILL" else others for way in WAYS}
    with tempfile.TemporaryDirectory() as folder:
        home = new_home(Path(folder))
        for way, found in ended(home, ways, random.Random(seed), FIRST_DAY + 1).items():
            print(row(way, found))


def row(way: str, found: Ended) -> str:
    told = f"{way}: {found.sittings:,} sittings, {found.taken:,} answers, {len(found.broken):,} broken"
    return "\n  ".join([told, *found.broken[:5]])


if __name__ == "__main__":
    main(*(int(one) for one in sys.argv[1:]))
