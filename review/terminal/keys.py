"""Keys as they are pressed, one at a time, with the moment of each."""

import codecs
import errno
import os
import signal
import sys
import time
from contextlib import suppress
from types import TracebackType
from typing import Any, NamedTuple

from review.terminal.signals import is_main_thread

ESCAPE_S = 0.05  # silence after which an Escape was the key itself (our judgement; a terminal sends at once)
PASTE_S = 1.0  # silence after which a paste that never ended has ended (our judgement)
CHUNK = 4096
AHEAD = 64  # chunks thrown away at most: one who never stops sending must not keep the child waiting

NAMED = {
    "\r": "enter",
    "\n": "enter",
    "\x7f": "erase",
    "\x08": "erase",
    "\x15": "clear",
    "\t": "help",
    "?": "help",
    "\uff1f": "help",
    "\x03": "interrupt",
    "\x04": "stop",
}
ARROWS = {"D": "left", "B": "down", "C": "right"}  # the three side by side, by their final (ECMA-48)
STRINGS = frozenset(
    "]PX^_"
)  # after Escape: begin a string of the terminal's own (ECMA-48: OSC DCS SOS PM APC)


class Key(NamedTuple):
    name: str  # one character as it was typed, or a name of two letters and more
    at_ns: int  # on the monotonic clock


class Decoder:
    """Bytes to keys. Escape sequences (ECMA-48), cut anywhere, give none; a paste gives its characters."""

    def __init__(self, encoding: str = "utf-8") -> None:
        self._text = codecs.getincrementaldecoder(encoding)("ignore")
        self._state = "plain"
        self._held = ""
        self._pasting = False

    @property
    def patience(self) -> float | None:
        """Seconds of silence after which to call `settle`; None: wait as long as it takes."""
        if self._state != "plain":
            return ESCAPE_S
        return PASTE_S if self._pasting else None

    def settle(self) -> None:
        """Nothing followed: what was begun is dropped."""
        if self._state == "plain":
            self._pasting = False
        self._state, self._held = "plain", ""

    def feed(self, data: bytes) -> list[str]:
        return [name for character in self._text.decode(data) if (name := self._take(character))]

    def _take(self, character: str) -> str:
        if character == "\x1b" and self._state != "string":
            self._state, self._held = "escape", ""
            return ""
        if character == "\x9b" and self._state == "plain":
            self._state, self._held = "sequence", ""
            return ""
        return str(getattr(self, f"_{self._state}")(character))

    def _plain(self, character: str) -> str:
        if not self._pasting and character in NAMED:
            return NAMED[character]
        return character if character.isprintable() else ""

    def _escape(self, character: str) -> str:
        """After an Escape: a sequence, a string, one more character, or a key with Alt: nothing."""
        self._state = {"[": "sequence", "O": "one"}.get(
            character, "string" if character in STRINGS else "plain"
        )
        self._held = "O" if character == "O" else ""
        return ""

    def _one(self, character: str) -> str:
        self._state = "plain"
        return self._arrow(character) if self._held == "O" else ""

    def _arrow(self, final: str) -> str:
        return "" if self._pasting else ARROWS.get(final, "")

    def _sequence(self, character: str) -> str:
        """Parameters up to a final character of @ to ~."""
        if character == "[" and not self._held:  # the Linux console's function keys: one character follows
            self._state = "one"
        elif "@" <= character <= "~":
            self._state = "plain"
            self._pasting = {"200~": True, "201~": False}.get(self._held + character, self._pasting)
            return "" if self._held else self._arrow(character)
        else:
            self._held = (self._held + character)[-16:]
        return ""

    def _string(self, character: str) -> str:
        """Up to BEL or Escape and a backslash."""
        if character == "\x07" or (self._held == "\x1b" and character == "\\"):
            self._state = "plain"
        self._held = character
        return ""


if sys.platform == "win32":
    import msvcrt

    from review.terminal import console

    SCANNED = {"K": "left", "P": "down", "M": "right"}  # what follows the mark of a key without a character
    ENDS = {"\x1a": "\x04"}  # Ctrl-Z ends what is typed there, as Ctrl-D does elsewhere
    POLL_S = 0.005  # between two looks (our judgement: no answer is timed finer)
    UNITS = "utf-16-le"  # a character outside the first 65,536 comes in two halves

    class Keys:
        """The console's keys. Pasted text cannot be told from typed text here."""

        def __init__(self, fd: int, screen: int, encoding: str = UNITS) -> None:
            self._screen = screen
            self._decoder = Decoder(UNITS)
            self._before: int | None = None

        def __enter__(self) -> "Keys":
            self.raw()
            return self

        def __exit__(
            self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
        ) -> None:
            self.flush()
            self.restore()

        def raw(self) -> None:
            """Keys come at once and unseen whatever the mode; it is the screen that has to be told."""
            self._before = console.obey(self._screen)

        def restore(self) -> None:
            console.put_back(self._screen, self._before)

        def flush(self) -> None:
            """Throw away what was typed ahead."""
            self._decoder = Decoder(UNITS)
            while msvcrt.kbhit():
                msvcrt.getwch()

        def read(self) -> Key:
            """The next key."""
            while True:
                self._wait()
                for name in self._names(msvcrt.getwch()):
                    return Key(name, time.monotonic_ns())

        def _wait(self) -> None:
            patience = self._decoder.patience
            end = None if patience is None else time.monotonic() + patience
            while not msvcrt.kbhit():
                if end is not None and time.monotonic() > end:
                    self._decoder.settle()
                    end = None
                time.sleep(POLL_S)

        def _names(self, unit: str) -> list[str]:
            """The mark of a key without a character is 0, or the code of à, which then comes alone."""
            if unit == "\x00" or (unit == "\xe0" and msvcrt.kbhit()):
                return [SCANNED[code]] if (code := msvcrt.getwch()) in SCANNED else []
            return self._decoder.feed(ENDS.get(unit, unit).encode(UNITS, "surrogatepass"))

else:
    import select
    import termios

    PASTE_ON, PASTE_OFF = b"\x1b[?2004h", b"\x1b[?2004l"  # bracketed paste, as terminals agree on it

    class Wakening:
        """A pipe that each signal writes to. One that comes in the moment before a wait begins does not cut
        it short, and would be heard with the next key only: the pipe ends the wait."""

        def __init__(self) -> None:
            self._ends: tuple[int, ...] = ()
            self._before = -1  # who was woken before; -1: nobody

        @property
        def watched(self) -> tuple[int, ...]:
            """What ends a wait beside the terminal."""
            return self._ends[:1]

        def begin(self) -> None:
            if is_main_thread():
                self._ends = os.pipe()
                for end in self._ends:
                    os.set_blocking(end, False)
                self._before = signal.set_wakeup_fd(self._ends[1], warn_on_full_buffer=False)

        def end(self) -> None:
            if self._ends:
                signal.set_wakeup_fd(self._before)
            for end in self._ends:
                os.close(end)
            self._ends = ()

        def drain(self) -> None:
            with suppress(BlockingIOError):
                os.read(self._ends[0], CHUNK)

    class Keys:
        """The terminal's keys, read raw while entered; afterwards the terminal is as it was."""

        def __init__(self, fd: int, screen: int, encoding: str = "utf-8") -> None:
            self._fd, self._screen = fd, screen
            self._encoding = encoding
            self._decoder = Decoder(encoding)
            self._waiting: list[Key] = []
            self._before = termios.tcgetattr(fd)
            self._signalled = Wakening()

        def __enter__(self) -> "Keys":
            self._signalled.begin()
            self.raw()
            return self

        def __exit__(
            self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
        ) -> None:
            self.restore()
            self._signalled.end()

        def raw(self) -> None:
            """Keys at once, no echo. Ctrl-C and Ctrl-Z stay signals; Ctrl-S and Ctrl-\\ do nothing."""
            mode = [*self._before[:6], [*self._before[6]]]
            mode[0] &= ~(termios.IXON | termios.ICRNL)
            mode[3] = mode[3] & ~(termios.ICANON | termios.ECHO | termios.IEXTEN) | termios.ISIG
            mode[6][termios.VMIN], mode[6][termios.VTIME] = 1, 0
            mode[6][termios.VQUIT] = os.fpathconf(self._fd, "PC_VDISABLE").to_bytes(1, "big")
            self._become(termios.TCSADRAIN, mode)
            self._tell(PASTE_ON)

        def restore(self) -> None:
            """Also when the terminal has gone: then there is nothing to restore."""
            self._tell(PASTE_OFF)
            with suppress(termios.error):
                self._become(termios.TCSAFLUSH, self._before)

        def _become(self, when: int, mode: list[Any]) -> None:
            """Python begins no call on a terminal again that a signal cut short (POSIX: EINTR)."""
            while True:
                try:
                    return termios.tcsetattr(self._fd, when, mode)
                except termios.error as error:
                    if error.args[0] != errno.EINTR:
                        raise

        def _tell(self, sequence: bytes) -> None:
            with suppress(OSError):
                os.write(self._screen, sequence)

        def flush(self) -> None:
            """Throw away what was typed ahead. It is read: what the terminal throws away by itself is, on
            Linux, also a Ctrl-C or Ctrl-Z that it has not acted upon yet."""
            self._waiting.clear()
            self._decoder = Decoder(self._encoding)
            with suppress(OSError):
                for _ in range(AHEAD):
                    ready, _, _ = select.select([self._fd], [], [], 0)
                    if not ready or not os.read(self._fd, CHUNK):
                        return

        def read(self) -> Key:
            """The next key; EOFError when the terminal has gone."""
            while not self._waiting:
                watched = [self._fd, *self._signalled.watched]
                ready, _, _ = select.select(watched, [], [], self._decoder.patience)
                if self._fd in ready:
                    at_ns = time.monotonic_ns()
                    self._waiting = [Key(name, at_ns) for name in self._decoder.feed(self._bytes())]
                elif ready:
                    self._signalled.drain()
                else:
                    self._decoder.settle()
            return self._waiting.pop(0)

        def _bytes(self) -> bytes:
            try:
                data = os.read(self._fd, CHUNK)
            except OSError:
                data = b""
            if not data:
                raise EOFError("the terminal has gone")
            return data
