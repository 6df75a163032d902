"""The console of Windows: keys as `msvcrt` gives them, and the mode of its screen.

What it gives is from the documentation of the C runtime (learn.microsoft.com, `_getch`, `_kbhit`) and of the
console (`SetConsoleMode`): a key without a character comes as two, the first of them 0 or E0; characters are
halves of UTF-16; a screen obeys control sequences only with mode 4.
"""

import ctypes
import importlib.util
import sys
import time
from collections import deque
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest

Burst = str | float  # keys that come at once, or seconds in which none comes


class Console:
    """Bursts of keys, the next one only once time has passed; and a screen with a mode."""

    def __init__(self, bursts: Sequence[Burst], mode: int | None = 3) -> None:
        self._bursts, self._now = deque(bursts), deque[str]()
        self.passed_s = 0.0
        self.thrown_away = ""
        self.mode = mode  # None: it knows no such mode
        self.modes: list[int] = []  # as they were set

    def kbhit(self) -> bool:
        return bool(self._now)

    def getwch(self) -> str:
        assert self._now, "the real one would wait here until a key is pressed"
        return self._now.popleft()

    def sleep(self, seconds: float) -> None:
        self.passed_s += seconds
        if self._now:
            return
        assert self._bursts, "more keys are waited for than were recorded"
        burst = self._bursts.popleft()
        if isinstance(burst, str):
            units = burst.encode("utf-16-le", "surrogatepass")
            self._now.extend(
                units[n : n + 2].decode("utf-16-le", "surrogatepass") for n in range(0, len(units), 2)
            )
        elif burst > seconds:
            self._bursts.appendleft(burst - seconds)

    def monotonic(self) -> float:
        return time.monotonic() + self.passed_s

    def monotonic_ns(self) -> int:
        return time.monotonic_ns() + int(self.passed_s * 1e9)

    # --- the screen ---

    def get_osfhandle(self, fd: int) -> int:
        return fd + 1000

    def GetConsoleMode(self, handle: ctypes.c_void_p, mode: Any) -> int:
        if self.mode is None:
            return 0
        mode._obj.value = self.mode
        return 1

    def SetConsoleMode(self, handle: ctypes.c_void_p, mode: int) -> int:
        assert handle.value is not None
        assert handle.value > 1000
        self.mode = mode
        self.modes.append(mode)
        return 1


@contextmanager
def as_windows(console: Console) -> Iterator[tuple[ModuleType, ModuleType]]:
    """The rooms `keys` and `console` of the terminal, as they are where that console is."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "platform", "win32")
        patch.setitem(sys.modules, "msvcrt", console)
        patch.setattr(ctypes, "WinDLL", lambda name: console, raising=False)
        screen = loaded("review.terminal.console")
        patch.setattr("review.terminal.console", screen)
        patch.setitem(sys.modules, "review.terminal.console", screen)
        keys: Any = loaded("review.terminal.keys")
        keys.time = SimpleNamespace(
            sleep=console.sleep, monotonic=console.monotonic, monotonic_ns=console.monotonic_ns
        )
        yield keys, screen


def loaded(name: str) -> ModuleType:
    """A second time, apart from the room that is there already."""
    spec = importlib.util.find_spec(name)
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module
