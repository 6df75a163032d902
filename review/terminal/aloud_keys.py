"""A sitting read aloud, on a real terminal: a page a problem, one key an answer."""

import sys
from collections.abc import Callable, Sequence
from typing import TextIO

from review.core.model import Answer, Help
from review.core.placement import Probing
from review.core.warmup import (
    AskAgain,
    AskHelp,
    AskLiked,
    AskRecalled,
    End,
    Heard,
    Note,
    Say,
    Show,
    Sitting,
    Stop,
    Summary,
    TakeBack,
    Told,
)
from review.terminal import PRESS_ENTER, SILENCE, Speaks, dots_rows, liked_lines, run, text_lines
from review.terminal.aloud import (
    BACK_OR_STOP,
    KEYS,
    View,
    is_open,
    next_help,
    page,
)
from review.terminal.keys import Key, Keys
from review.terminal.screen import Screen
from review.terminal.signals import Signals, nothing
from review.terminal.typed import read_key

BACK, STOP = ("b", "erase"), ("s", "stop")

APART_NS = 400_000_000
"""Keys closer together than this are one press: a key held down, pressed twice, a small hand on the keyboard.
Nobody reads a problem out and hears its answer in that time (our judgement)."""


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
    """Play on the terminal that `source` and `out` are. However it ends, the terminal is as it was before.
    Raises as the front for one who types does."""
    source, out = source or sys.stdin, out or sys.stdout
    keys = Keys(source.fileno(), out.fileno(), source.encoding or "utf-8")
    signals = Signals(away=keys.restore)
    front = Reader(Screen(out), keys, signals, voice, helps=isinstance(sitting, Sitting), greet=greet)

    def back() -> None:
        keys.raw()
        front.draw()

    signals.back = back
    with signals, keys:
        return run(front, sitting, so_far, record, ready, take_back)


class Reader:
    """The front for a parent who reads out."""

    person = False  # the parent has said how it was found, and reads no small questions

    def __init__(
        self,
        screen: Screen,
        keys: Keys,
        signals: Signals,
        voice: Speaks,
        *,
        helps: bool,
        greet: Sequence[str],
    ) -> None:
        self._screen, self._keys, self._signals, self._voice = screen, keys, signals, voice
        self._helps = helps
        self._above = list(greet)  # what was said since the last page
        self._page: list[str] = []
        self._view: View | None = None
        self._dots = 0
        self._pressed_ns = 0
        self._told: Heard | TakeBack | None = None  # said while something else was to be read

    # --- what is shown ----------------------------------------------------------------------------------

    def draw(self) -> None:
        self._screen.page()
        self._screen.lines(self._page)

    def _turn_to(self, lines: Sequence[str]) -> None:
        self._page = list(lines)
        self.draw()

    def show(self, show: Show) -> None:
        self._dots, self._view = show.dots[1], View(show, self._helps)
        if self._told is not None:  # a record without fields is empty, and no less told
            return
        self._keys.flush()
        self._look(self._view)
        self._above = []
        self._voice.speak(show.problem.say)
        self._signals.fresh()

    def _look(self, view: View) -> None:
        """The same showing, with whatever was asked for since."""
        self._view = view
        self._turn_to(page(view, self._above, self._screen.size.lines))

    def help(self, help: Help) -> None:
        if self._view:
            self._look(self._view._replace(given=(*self._view.given, help)))

    def ask_again(self, again: AskAgain) -> None:
        """Above the page, which stays as it is."""
        self._above = text_lines(again.text)
        if self._view:
            self._look(self._view)
        self._above = []

    def ask_recalled(self, asked: AskRecalled) -> None:
        self._screen.lines(text_lines(asked.text))

    def ask_liked(self, asked: AskLiked) -> None:
        self._screen.lines(liked_lines(asked))

    def say(self, said: Say) -> None:
        lines = text_lines(said.text) if said.text else []
        if not said.hold:
            self._above += lines
            return
        self._keys.flush()
        self._turn_to([*self._above, *lines, PRESS_ENTER, "", BACK_OR_STOP])
        self._above = []
        self._told = self._await_enter()

    def note(self, note: Note) -> None:
        self._above += text_lines(note.text)

    def end(self, end: End) -> None:
        dots = ["", *dots_rows(self._dots, self._dots)] if end.summary.finished else []
        self._turn_to([*self._above, *dots, "", *end.lines])

    # --- what is pressed --------------------------------------------------------------------------------

    def hear(self) -> Heard | TakeBack:
        """The next key that says something."""
        heard, self._told = self._told, None
        while heard is None:
            heard = self._meant(self._read().name.casefold())
        return heard

    def _meant(self, name: str) -> Heard | TakeBack | None:
        if name in KEYS:
            return Told(KEYS[name])
        if name in BACK or name in STOP:
            return TakeBack() if name in BACK else Stop()
        view = self._view
        if name == "help" and view and next_help(view):
            return AskHelp()
        if name == "a" and view and not is_open(view):
            self._look(view._replace(answer=True))
        return None

    def _await_enter(self) -> Heard | TakeBack | None:
        """Until it has been said, and a key goes on; or what else was pressed."""
        while (name := self._read().name.casefold()) not in ("enter", " ", *KEYS, *BACK, *STOP):
            pass
        return self._meant(name) if name in BACK or name in STOP else None

    def _read(self) -> Key:
        """The next key that was meant: one that follows another too closely is none."""
        while True:
            key = read_key(self._keys, self._signals)
            self._voice.hush()
            before, self._pressed_ns = self._pressed_ns, key.at_ns
            if key.name == "stop" or key.at_ns - before >= APART_NS:
                return key
