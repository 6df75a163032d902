"""A sitting in plain lines, each written once: for a pipe, a screen reader, a terminal that does no more."""

import sys
import time
from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING, TextIO

from review.core.model import Answer, Help
from review.core.warmup import (
    AskAgain,
    AskLiked,
    AskRecalled,
    End,
    Heard,
    Note,
    Say,
    Show,
    Stop,
    Summary,
    TakeBack,
)
from review.signs import fit
from review.terminal import (
    M_OR_W,
    ONE_OR_TWO,
    PRESS_ENTER,
    SILENCE,
    WIDTH,
    Played,
    Speaks,
    before_prompt,
    dots_words,
    heard,
    lenient,
    liked_lines,
    picture_lines,
    prompt_lines,
    reminder,
    run,
    text_lines,
)
from review.terminal.signals import Signals, nothing

if TYPE_CHECKING:
    from review.core.pictures import Picture

MS = 1_000_000  # nanoseconds


def play(
    sitting: Played,
    so_far: Sequence[Answer],
    record: Callable[[Answer], None],
    *,
    source: TextIO | None = None,
    out: TextIO | None = None,
    greet: Sequence[str] = (),
    ready: Callable[[], None] = nothing,
    voice: Speaks = SILENCE,
) -> Summary:
    """Play line by line. Input that ends early is a stop. Raises as the front for a terminal does."""
    source, out = source or sys.stdin, out or sys.stdout
    lenient(source)
    with Signals() as signals:
        front = Lines(source, out, signals, voice)
        signals.back = front.again
        front.write(*greet)
        return run(front, sitting, so_far, record, ready)


class Lines:
    """The front that only ever adds lines."""

    def __init__(self, source: TextIO, out: TextIO, signals: Signals, voice: Speaks = SILENCE) -> None:
        self._source, self._out, self._signals, self._voice = source, out, signals, voice
        self.person = self._reads = source.isatty()  # the terminal echoes, and somebody reads
        self._prompt = ""
        self._waiting = nothing  # writes the line once more that is typed on
        self._dots = 0
        self._shown_ns = self._spoken_ns = 0
        self._stopped = False

    def write(self, *lines: str, end: str = "\n") -> None:
        text = "".join(f"{line}{end}" for line in lines)
        self._out.write(fit(text, self._out.encoding))
        self._out.flush()

    def again(self) -> None:
        """After a stop: all else stands above, but nobody sees that it waits."""
        self._waiting()

    def show(self, show: Show) -> None:
        if self._stopped:
            return
        self._dots, self._prompt = show.dots[1], show.problem.prompt
        self.write(*before_prompt(show, in_words=True))
        self._ask()
        self._voice.speak(show.problem.say)
        self._signals.fresh()
        self._shown_ns = time.monotonic_ns()

    def _ask(self) -> None:
        self._waiting = self._ask
        *above, last = prompt_lines(self._prompt, WIDTH)
        self.write(*above)
        self.write(last, end=" " if last else "")

    def ask_again(self, again: AskAgain) -> None:
        self._interject(again.text, again.picture)

    def ask_recalled(self, asked: AskRecalled) -> None:
        self.write(*text_lines(asked.text))
        self._ask_besides(M_OR_W)

    def ask_liked(self, asked: AskLiked) -> None:
        self.write(*liked_lines(asked))
        self._ask_besides(ONE_OR_TWO)

    def _ask_besides(self, prompt: str) -> None:
        self._waiting = partial(self.write, prompt, end=" ")
        self._waiting()

    def help(self, help: Help) -> None:
        self._interject(help.text, help.picture)

    def _interject(self, text: str, picture: "Picture | None") -> None:
        self.write(*picture_lines(picture, in_words=True), *text_lines(text))
        self._prompt = reminder(self._prompt)
        self._ask()

    def say(self, said: Say) -> None:
        if said.text:
            self.write(*text_lines(said.text))
        if said.hold and self._reads:
            self._waiting = partial(self.write, PRESS_ENTER)
            self._waiting()
            self._went_on(self._line())

    def _went_on(self, line: str) -> None:
        self._stopped = not line or line.strip().casefold() == "stop"

    def note(self, note: Note) -> None:
        self.write(*text_lines(note.text))

    def end(self, end: End) -> None:
        if end.summary.finished:
            self.write("", dots_words(self._dots, self._dots))
        self.write("", *end.lines)

    def hear(self) -> Heard | TakeBack:
        line = "" if self._stopped else self._line()
        if not line:
            return Stop()
        away_ns, shown_ns = self._signals.away_ns, max(self._shown_ns, self._spoken_ns)
        end_ms = max(0, time.monotonic_ns() - shown_ns - away_ns) // MS
        return heard(line, 0, end_ms, self._signals.suspended)

    def _line(self) -> str:
        """One line with its end; "" when there is no more."""
        with self._signals.waiting():
            line = self._source.readline()
        self._spoken_ns = self._voice.hush()
        if not (self._reads and line.endswith("\n")):
            self.write("")
        return line
