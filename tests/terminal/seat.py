"""A child at a terminal, for tests: a pseudo-terminal with a screen that can be looked at."""

import json
import os
import select
import signal
import sys
import termios
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

import pexpect
import pyte

ROOT = Path(__file__).resolve().parents[2]
GOLDEN = Path(__file__).parent / "golden"
PATIENCE_S = 15.0  # a loaded machine may take long to start Python


def heed() -> None:
    """Signals as a shell at a terminal leaves them: tests that run in the background inherit deaf ears."""
    for number in (signal.SIGINT, signal.SIGHUP, signal.SIGTERM, signal.SIGTSTP):
        signal.signal(number, signal.SIG_DFL)


def as_new() -> list[object]:
    """The attributes every new terminal has: on a loaded machine the program may have changed those of its
    own before they can be looked at."""
    ends = os.openpty()
    found = termios.tcgetattr(ends[0])
    for end in ends:
        os.close(end)
    return found


class Seat:
    def __init__(
        self, command: str, args: list[str], columns: int, rows: int, env: Mapping[str, str]
    ) -> None:
        environment = {**os.environ, "TERM": "xterm-256color", "PYTHONIOENCODING": "", **env}
        environment = {name: value for name, value in environment.items() if value}
        self.child = pexpect.spawn(
            command,
            args,
            cwd=ROOT,
            env=environment,
            dimensions=(rows, columns),
            timeout=5,
            preexec_fn=heed,
        )
        self.before = as_new()
        self.screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self.screen)
        self.raw = b""
        self.seen_ns = 0  # when the last output was read

    def press(self, keys: str | bytes) -> int:
        """Returns the moment before the keys were sent, on the monotonic clock."""
        at_ns = time.monotonic_ns()
        os.write(self.child.child_fd, keys if isinstance(keys, bytes) else keys.encode())
        return at_ns

    def read(self, seconds: float = 0.02) -> bool:
        """Take in what has been written; whether there may be more."""
        try:
            data = self.child.read_nonblocking(65536, timeout=seconds)
        except pexpect.TIMEOUT:
            return True
        except pexpect.EOF:
            self._take(self._rest())
            return False
        self._take(data)
        return True

    def _take(self, data: bytes) -> None:
        if data:
            self.seen_ns = time.monotonic_ns()
            self.raw += data
            self._stream.feed(data)

    def _rest(self) -> bytes:
        """What was written last may still be on its way when the program has ended; `pexpect` looks once."""
        found, fd = b"", self.child.child_fd
        with suppress(OSError):
            while select.select([fd], [], [], 0.05)[0] and (data := os.read(fd, 65536)):
                found += data
        return found

    @property
    def lines(self) -> list[str]:
        return [line.rstrip() for line in self.screen.display]

    @property
    def text(self) -> str:
        """The screen without the empty rows below."""
        return "\n".join(self.lines).rstrip() + "\n"

    @property
    def line(self) -> str:
        """The line the cursor is on, up to the cursor."""
        row, cursor = self.screen.buffer[self.screen.cursor.y], self.screen.cursor
        return "".join(row[column].data for column in range(cursor.x))

    def see(self, text: str) -> "Seat":
        """Wait until the screen shows the text."""
        return self._until(lambda: text in self.text, f"{text!r} on the screen")

    def at(self, line: str) -> "Seat":
        """Wait until the cursor stands right after this."""
        return self._until(lambda: self.line == line, f"the cursor after {line!r}")

    def below(self, line: str, times: int = 1) -> "Seat":
        """Wait until the cursor stands on the row below this, which is there so many times."""

        def seen() -> bool:
            return self.lines[self.screen.cursor.y - 1] == line and self.text.count(line) == times

        return self._until(seen, f"the cursor below {line!r}")

    def changed(self, before: str) -> "Seat":
        """Wait until the screen shows something else, and a problem waits again."""
        self._until(lambda: self.text != before, "anything new on the screen")
        return self

    def waits(self) -> "Seat":
        """Wait until a problem of any form stands below the dots."""
        return self._until(lambda: "○" in self.text and self.line.strip(" ○●") != "", "a problem")

    def prompted(self) -> "Seat":
        """Wait until a problem waits for an answer."""
        return self._until(lambda: self.line.endswith(("= ", "is ")), "a problem that waits")

    def settle(self, quiet: float = 0.03) -> "Seat":
        """Read until nothing comes for so long, in seconds."""
        seen = 0
        while self.seen_ns != seen:
            seen = self.seen_ns
            self.read(quiet)
        return self

    def _until(self, seen: Callable[[], bool], what: str) -> "Seat":
        end = time.monotonic() + PATIENCE_S
        while not seen():
            more = self.read()
            if (not more and not seen()) or time.monotonic() > end:
                raise AssertionError(f"never {what}; the screen is:\n{self.text}")
        return self

    def finish(self) -> int:
        """Wait for the end; the exit code."""
        end = time.monotonic() + PATIENCE_S
        while self.read():
            assert time.monotonic() < end, f"it did not end; the screen is:\n{self.text}"
        self.child.wait()
        return (
            int(self.child.exitstatus) if self.child.exitstatus is not None else -int(self.child.signalstatus)
        )

    def attributes(self) -> list[object]:
        return termios.tcgetattr(self.child.child_fd)


@contextmanager
def seat(
    rows_file: Path,
    *options: str,
    front: str = "typed",
    columns: int = 80,
    rows: int = 24,
    env: Mapping[str, str] | None = None,
) -> Iterator[Seat]:
    """The driver's sitting on a terminal of its own."""
    args = ["-m", "tests.terminal.driver", front, str(rows_file), *options]
    with sat(Seat(sys.executable, args, columns, rows, env or {})) as taken:
        yield taken


@contextmanager
def sat(taken: Seat) -> Iterator[Seat]:
    try:
        yield taken
    finally:
        taken.child.close(force=True)


def rows_of(path: Path) -> list[dict[str, object]]:
    """What was kept; a row that was cut is an error."""
    return (
        [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()] if path.exists() else []
    )


def to_the_miss(taken: Seat) -> None:
    """Two sure cards, then 7 × 6 missed: the fact is told and held."""
    for line, text in (("Double 2 is ", "4"), ("2 + 5 = ", "7"), ("7 × 6 = ", "41")):
        taken.at(line).press(text + "\r")
    taken.see("Then press Enter.")


def golden(name: str, columns: int, taken: Seat) -> None:
    """The screen is the one that is kept; GOLDEN=write keeps it anew."""
    path = GOLDEN / f"{name}-{columns}.txt"
    if os.environ.get("GOLDEN") == "write":
        path.write_text(taken.text, encoding="utf-8")
    assert taken.text == path.read_text(encoding="utf-8")
