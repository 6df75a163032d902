"""The screen of a real terminal: lines one after the other, and at the end the line that is being typed."""

import os
from collections.abc import Sequence
from errno import EIO
from typing import TextIO
from unicodedata import category, east_asian_width

from review.signs import fit
from review.terminal import WIDTH, prompt_lines
from review.terminal.signals import SIGHUP, interrupted

NEW_PAGE = "\x1b[H\x1b[2J"  # to the first row, and clear the screen (ECMA-48)
LINE_START = "\r\x1b[K"  # to the first column, and clear to the end of the line (ECMA-48)
ROWS_UP = "\x1b[{}A"  # so many rows up (ECMA-48)
BELOW = "\r\x1b[J"  # to the first column, and clear to the end of the screen (ECMA-48)
UNKNOWN = os.terminal_size((WIDTH, 0))  # of a terminal that tells no size


def width(text: str) -> int:
    """Columns a text takes: two for a wide character, none for one that sits on the last."""
    return sum(
        0 if category(sign) in ("Mn", "Me") else 2 if east_asian_width(sign) in ("W", "F") else 1
        for sign in text
    )


class Screen:
    """Lines, one after the other, and at the end the line that is being typed."""

    def __init__(self, out: TextIO) -> None:
        self._out = out
        self._prompt: str | None = None  # of the line that is being typed
        self._above: Sequence[str] = ()  # lines of the prompt that stand above it
        self._about: Sequence[str] = ()  # lines that stand above those: what is asked about
        self._held: Sequence[str] = ()  # lines that wait for Enter
        self._asked_at = UNKNOWN  # the size of the terminal when they were written
        self._used = 0  # lines written since the page was new
        self.text = ""  # what was typed on it

    @property
    def size(self) -> os.terminal_size:
        try:
            return os.get_terminal_size(self._out.fileno())
        except OSError:
            return UNKNOWN

    @property
    def columns(self) -> int:
        return self.size.columns or WIDTH

    def write(self, text: str) -> None:
        try:
            self._out.write(fit(text, self._out.encoding))
            self._out.flush()
        except OSError as error:
            if error.errno == EIO:  # the terminal has gone
                raise interrupted(SIGHUP) from None
            raise

    def page(self) -> None:
        """A page with nothing on it: what was answered or told may be asked again soon."""
        self.write(NEW_PAGE)
        self._used = 0

    def holds(self, more: int) -> bool:
        """Whether so many lines, and the last prompt below them, fit on the page with what stands there."""
        rows = self.size.lines
        return not rows or self._used + more + len(self._above) < rows

    def lines(self, lines: Sequence[str]) -> None:
        self._used += len(lines)
        self.write("".join(f"{line}\n" for line in lines))

    def hold(self, lines: Sequence[str]) -> None:
        """Write what is to be read in one's own time: after a stop it is written again. No lines: it was."""
        self._held = lines
        self.lines(lines)

    def show(self, lines: Sequence[str]) -> None:
        """Write what the prompts from now on are about: after a stop it is written again with them."""
        self._about = lines
        self.lines(lines)

    def add(self, lines: Sequence[str]) -> None:
        """The same for what is said of it later."""
        self._about = [*self._about, *lines]
        self.lines(lines)

    def drop(self, lines: Sequence[str]) -> None:
        """Take lines away that were added last and stand right above, where each still has one row."""
        size = self.size
        if lines and size == self._asked_at and all(width(line) < size.columns for line in lines):
            self._about = self._about[: -len(lines)]
            self._used -= len(lines)
            self.write(ROWS_UP.format(len(lines)) + BELOW)

    def ask(self, prompt: str) -> None:
        """Open the line that is typed on."""
        *self._above, self._prompt = prompt_lines(prompt, min(WIDTH, self.columns - 1))
        self._open()

    def again(self) -> None:
        """What is asked about, and the line that is typed on, once more: whatever stands above now, it is not
        ours."""
        if self._prompt is None:
            self.lines(self._held)
            return
        self.lines(self._about)
        self._open()

    def _open(self) -> None:
        self._asked_at = self.size
        self.lines(self._above)
        self.draw()

    def draw(self) -> None:
        """The line as it stands; where it is too long, its end."""
        if self._prompt is None:
            return
        start = f"{self._prompt} " if self._prompt else ""
        shown = self.text
        while shown and width(start + shown) >= self.columns:
            shown = shown[1:]
        self.write(LINE_START + start + shown)

    def lift(self) -> bool:
        """Take the prompt and what was typed away, so that both stand below what comes: five steps of help
        would else leave the problem on the screen five times. Whether they could be taken."""
        if self._prompt is None or not self._in_reach:
            self.close()
            return False
        self._prompt = None
        self._used -= len(self._above)
        self.write(ROWS_UP.format(len(self._above)) + BELOW if self._above else LINE_START)
        return True

    @property
    def _in_reach(self) -> bool:
        """Whether each line of the prompt still has one row, and that row is on the screen."""
        size = self.size
        return not self._above or (
            size == self._asked_at
            and len(self._above) < size.lines
            and all(width(line) < size.columns for line in self._above)
        )

    def close(self) -> None:
        """Leave the line that is typed on."""
        if self._prompt is not None:
            self._prompt = None
            self._used += 1
            self.write("\n")
