"""Signals during a sitting: heard only while it waits for a person, so that none ever cuts a save."""

import os
import signal
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType, TracebackType
from typing import Any

from review.errors import Interrupted

ENDING = ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK")
PAUSING = ("SIGTSTP", "SIGCONT")
SIGINT, SIGHUP = 2, 1  # the same numbers everywhere; SIGHUP has no name on Windows
SHELL = 128  # a program ended by signal n exits with 128 + n (a convention of POSIX shells)


def interrupted(number: int) -> Interrupted:
    return Interrupted("Stopped. Everything is kept.", SHELL + number)


def nothing() -> None:
    pass


def is_main_thread() -> bool:
    """Without what makes threads there is no other; to load it takes longer than to look (measured here)."""
    threading = sys.modules.get("threading")
    return threading is None or threading.current_thread() is threading.main_thread()


class Signals:
    """While it is entered, signals that end or pause the process wait for `waiting`.

    An ending one then raises `Interrupted` with the exit code of its signal; Ctrl-Z stops the process, and
    the showing is marked as suspended. `away` and `back` are called before and after such a stop.
    """

    def __init__(self, away: Callable[[], None] = nothing, back: Callable[[], None] = nothing) -> None:
        self.away, self.back = away, back
        self.suspended = False
        self.away_ns = 0  # spent stopped since `fresh`
        self._left_ns = 0
        self._open = False
        self._gone_on = False  # since it was stopped
        self._pending: list[int] = []
        self._before: dict[int, Any] = {}

    def __enter__(self) -> "Signals":
        if is_main_thread():
            for name in (*ENDING, *PAUSING):
                number = getattr(signal, name, None)
                if number is not None and signal.getsignal(number) != signal.SIG_IGN:
                    self._before[number] = signal.signal(number, self._heard)
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._open = False
        for number, handler in self._before.items():
            signal.signal(number, handler)
        ending = [number for number in self._pending if signal.Signals(number).name in ENDING]
        if ending and error is None:
            raise interrupted(ending[0])

    def fresh(self) -> None:
        """A new showing begins."""
        self.suspended, self.away_ns, self._left_ns = False, 0, time.monotonic_ns()

    @contextmanager
    def waiting(self) -> Iterator[None]:
        """Around every wait for a person: signals act here, those that came before it at once."""
        self._left_ns = time.monotonic_ns()
        self._open = True
        try:
            while self._pending:
                self._act(self._pending.pop(0))
            yield
        finally:
            self._open = False

    def _heard(self, number: int, frame: FrameType | None) -> None:
        if self._open:
            self._act(number)
        else:
            self._pending.append(number)

    def _act(self, number: int) -> None:
        name = signal.Signals(number).name
        if name in ENDING:
            self._open = False
            raise interrupted(number)
        if sys.platform != "win32":
            if name == "SIGTSTP":
                self._stop(number)
            else:
                self._go_on()

    def _stop(self, number: int) -> None:
        """Leave the terminal as it was, and stop as the shell expects."""
        self._left_ns = time.monotonic_ns()
        self._gone_on = False
        self.away()
        signal.signal(number, signal.SIG_DFL)
        os.kill(os.getpid(), number)
        signal.signal(number, self._heard)
        if not self._gone_on:  # where a process cannot be stopped, no signal says that it goes on
            self._go_on()

    def _go_on(self) -> None:
        now = time.monotonic_ns()
        self.suspended = self._gone_on = True
        self.away_ns += now - self._left_ns
        self._left_ns = now
        self.back()
