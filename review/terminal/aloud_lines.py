"""A sitting read aloud, in plain lines: a letter and Enter an answer."""

import sys
from collections.abc import Callable, Sequence
from typing import TextIO

from review.core.model import Answer, Help
from review.core.placement import Probing
from review.core.warmup import AskAgain, AskHelp, Heard, Show, Sitting, Stop, Summary, TakeBack, Told
from review.terminal import SILENCE, Speaks, lenient, picture_lines, run, text_lines
from review.terminal.aloud import (
    ALL_HELPED,
    HIDDEN,
    KEYS,
    View,
    answer_lines,
    hanging,
    is_open,
    next_help,
    offer,
    problem_lines,
)
from review.terminal.lines import Lines
from review.terminal.signals import Signals, nothing

BACK, STOP = ("b", "back"), ("s", "stop")
MEANT = "Type m, w or n, then Enter."
M_W_N = "m / w / n:"


def play(
    sitting: Sitting | Probing,
    so_far: Sequence[Answer],
    record: Callable[[Answer], None],
    *,
    source: TextIO | None = None,
    out: TextIO | None = None,
    greet: Sequence[str] = (),
    ready: Callable[[], None] = nothing,
    voice: Speaks = SILENCE,
    take_back: Callable[[], None] | None = None,
) -> Summary:
    """Play line by line. Input that ends early is a stop. Raises as the front for a terminal does."""
    source, out = source or sys.stdin, out or sys.stdout
    lenient(source)
    with Signals() as signals:
        front = ReaderLines(source, out, signals, voice, helps=isinstance(sitting, Sitting))
        signals.back = front.again
        front.write(*greet)
        return run(front, sitting, so_far, record, ready, take_back)


class ReaderLines(Lines):
    """The front for a parent who reads out, and only ever adds lines."""

    def __init__(self, source: TextIO, out: TextIO, signals: Signals, voice: Speaks, *, helps: bool) -> None:
        super().__init__(source, out, signals, voice)
        self.person = False  # the parent has said how it was found, and reads no small questions
        self._helps = helps
        self._view: View | None = None
        self._told: Heard | TakeBack | None = None  # said while something else was to be read
        self._unseen: Show | None = None  # what was not shown for it

    def show(self, show: Show) -> None:
        told = self._told is not None  # a record without fields is empty, and no less told
        self._unseen = show if told else None
        if told:
            return
        self._dots = show.dots[1]
        self._view = View(show, self._helps)
        self.write(*problem_lines(self._view, in_words=True), *([] if is_open(self._view) else [HIDDEN]))
        self._ask()
        self._voice.speak(show.problem.say)

    def _ask(self) -> None:
        self._waiting = self._ask
        offered = offer(self._view) if self._view else ""
        self.write(*(hanging("? helps: ", offered) if offered else []))
        self.write(M_W_N, end=" ")

    def ask_again(self, again: AskAgain) -> None:
        self.write(*text_lines(again.text))
        if self._unseen:
            self.show(self._unseen)
        else:
            self._ask()

    def help(self, help: Help) -> None:
        if self._view:
            self._view = self._view._replace(given=(*self._view.given, help))
        self.write(*picture_lines(help.picture, in_words=True), *text_lines(help.text))
        self._ask()

    def hear(self) -> Heard | TakeBack:
        heard, self._told = self._told, None
        while heard is None:
            line = self._line()
            heard = self._meant(line.strip().casefold()) if line else Stop()
            if heard is None:
                self._ask()
        return heard

    def _went_on(self, line: str) -> None:
        word = line.strip().casefold()
        self._told = self._meant(word) if word in (*BACK, *STOP) else None if line else Stop()

    def _meant(self, word: str) -> Heard | TakeBack | None:
        """What a line says; None where it was answered at once, or says nothing."""
        if word in KEYS:
            return Told(KEYS[word])
        if word in BACK or word in STOP:
            return TakeBack() if word in BACK else Stop()
        if word in ("?", "\uff1f") and self._helps:
            if self._view and next_help(self._view):
                return AskHelp()
            self.write(ALL_HELPED)
        elif word == "a" and self._view:
            self.write(*answer_lines(self._view._replace(answer=True)))
        else:
            self.write(MEANT)
        return None
