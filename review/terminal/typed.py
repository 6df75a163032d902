"""A sitting on a real terminal: keys one by one, each answer timed, what was told hidden before a copy."""

import sys
import time
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TextIO

from review.core.model import Answer, Help
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
    Stop,
    Summary,
)
from review.terminal import (
    LONGEST,
    M_OR_W,
    ONE_OR_TWO,
    PRESS_ENTER,
    SILENCE,
    Played,
    Speaks,
    before_prompt,
    dots_rows,
    heard,
    liked_lines,
    picture_lines,
    run,
    text_lines,
)
from review.terminal.keys import ARROWS, Key, Keys
from review.terminal.screen import Screen, width
from review.terminal.signals import SIGHUP, SIGINT, Signals, interrupted, nothing

if TYPE_CHECKING:
    from review.core.pictures import Picture

MS = 1_000_000  # nanoseconds
WITH_HELP = 2000 * MS  # within it an Enter behind `?` belongs to it, as where lines are read (our judgement)
NOTHING: tuple[str, "Picture | None"] = "", None


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
    """Play on the terminal that `source` and `out` are. However it ends, the terminal is as it was before.

    Raises `errors.Interrupted` on Ctrl-C (130), SIGTERM (143) and SIGHUP (129), and whatever `record` raises.
    """
    source, out = source or sys.stdin, out or sys.stdout
    keys = Keys(source.fileno(), out.fileno(), source.encoding or "utf-8")
    screen = Screen(out)

    def back() -> None:
        keys.raw()
        screen.again()

    signals = Signals(away=keys.restore, back=back)
    with signals, keys:
        screen.page()
        screen.lines(greet)
        return run(Typist(screen, keys, signals, voice), sitting, so_far, record, ready)


class Typist:
    """The front for one who types."""

    person = True

    def __init__(self, screen: Screen, keys: Keys, signals: Signals, voice: Speaks) -> None:
        self._screen, self._keys, self._signals, self._voice = screen, keys, signals, voice
        self._prompt = ""
        self._picture = list[str]()  # above it
        self._dots = 0
        self._shown_ns = 0
        self._first_ns = 0
        self._helped_ns = 0  # when help was asked for last
        self._stopped = False
        self._begun = True  # the page holds what belongs above the next problem
        self._passing = list[str]()  # of it what the next thing said takes the place of
        self._interjected = NOTHING  # what was said last of this problem, and its picture

    def show(self, show: Show) -> None:
        if self._stopped:
            return
        if show.copying:  # what was told is gone before it is asked
            self._begun = False
        self._turn_page()
        self._dots, self._prompt = show.dots[1], show.problem.prompt
        self._picture = picture_lines(show.problem.picture)
        dots = ["", *dots_rows(*show.dots)] if show.copying else []
        self._screen.show([*dots, *before_prompt(show)])
        self._keys.flush()
        self._screen.text, self._interjected, self._passing = "", NOTHING, []
        self._screen.ask(self._prompt)
        self._voice.speak(show.problem.say)
        self._signals.fresh()
        self._shown_ns, self._first_ns, self._helped_ns = time.monotonic_ns(), 0, 0

    def _turn_page(self) -> None:
        """A new page, once for each answer."""
        if not self._begun:
            self._screen.page()
        self._begun = False

    def ask_again(self, again: AskAgain) -> None:
        self._interject(again.text, again.picture, passing=not again.picture)

    def ask_recalled(self, asked: AskRecalled) -> None:
        self._ask_besides(text_lines(asked.text), M_OR_W)

    def ask_liked(self, asked: AskLiked) -> None:
        self._ask_besides(liked_lines(asked), ONE_OR_TWO)

    def _ask_besides(self, lines: Sequence[str], prompt: str) -> None:
        """Below the answer, on the same page; what was typed ahead is no answer to it."""
        self._screen.close()
        self._screen.show(lines)
        self._keys.flush()
        self._screen.ask(prompt)

    def help(self, help: Help) -> None:
        self._interject(help.text, help.picture)

    def _interject(self, text: str, picture: "Picture | None", passing: bool = False) -> None:
        """Below what was said of the problem so far; `passing`: what comes next takes its place, or a child
        who presses Enter between two helps has the same line four times on the page."""
        lifted, again = self._screen.lift(), (text, picture) == self._interjected
        if not (lifted and again):  # one who leans on Enter reads it once
            self._screen.drop(self._passing if lifted else [])
            lines = [*picture_lines(picture), *text_lines(text), *([""] if lifted else [])]
            self._keep_in_sight(len(lines))
            self._screen.add(lines)
            self._passing = lines if passing and lifted else []
        self._interjected = text, picture
        self._screen.ask(self._prompt)

    def _keep_in_sight(self, more: int) -> None:
        """Where the picture that is asked about would leave the screen, a new page has it, without the help
        so far."""
        if self._picture and not self._screen.holds(more):
            self._screen.page()
            self._screen.show(self._picture)
            self._screen.add([""] if self._screen.holds(more + 1) else [])

    def say(self, said: Say) -> None:
        self._screen.close()
        lines = text_lines(said.text) if said.text else []
        if not said.hold:
            self._tell(lines)
            return
        lines.append(PRESS_ENTER)
        self._keys.flush()
        self._screen.hold(lines)
        self._stopped = self._await_enter()
        self._screen.hold(())

    def _tell(self, lines: Sequence[str]) -> None:
        """What needs no pause stands at the top of the next page."""
        self._screen.close()
        self._turn_page()
        self._begun = True
        self._screen.lines(lines)

    def _await_enter(self) -> bool:
        """Read in one's own time, up to Enter; whether it was a stop."""
        typed = ""
        while (name := self._read().name) not in ("enter", "stop"):
            typed = (typed + name)[-LONGEST:] if len(name) == 1 else ""
        return name == "stop" or typed.casefold() == "stop"

    def note(self, note: Note) -> None:
        self._tell(text_lines(note.text))

    def end(self, end: End) -> None:
        self._screen.close()
        self._turn_page()
        if end.summary.finished:
            self._screen.lines(["", *dots_rows(self._dots, self._dots)])
        self._screen.lines(["", *end.lines])

    def hear(self) -> Heard:
        """Keys until Enter, or until one that acts at once."""
        while not self._stopped:
            key = self._read()
            if key.name == "enter":
                if self._ends_a_call_for_help(key.at_ns):
                    continue
                return self._entered(key.at_ns)
            if key.name == "help":
                self._helped_ns = key.at_ns
                return AskHelp(self._since_shown_ms(key.at_ns))
            if key.name == "stop":
                break
            self._edit(key)
        return Stop()

    def _ends_a_call_for_help(self, at_ns: int) -> bool:
        """Whether it is the one Enter behind `?`. It would else say of a new card that it is not known."""
        soon, self._helped_ns = at_ns - self._helped_ns < WITH_HELP, 0
        return soon and not self._screen.text

    def _entered(self, at_ns: int) -> Heard:
        text, self._screen.text = self._screen.text, ""
        if text:  # what was typed stays; a line with nothing on it may go
            self._screen.close()
        suspended, end_ms = self._signals.suspended, self._since_shown_ms(at_ns)
        first_ms = (self._first_ns - self._shown_ns) // MS if self._first_ns else end_ms
        answer = heard(text, min(first_ms, end_ms), end_ms, suspended)
        if isinstance(answer, AskHelp):  # a pasted question mark
            self._screen.ask(self._prompt)
        return answer

    def _since_shown_ms(self, at_ns: int) -> int:
        return max(0, at_ns - self._shown_ns - self._signals.away_ns) // MS

    def _edit(self, key: Key) -> None:
        if key.name in ARROWS.values():
            return
        text = self._screen.text
        self._first_ns, self._helped_ns = self._first_ns or key.at_ns, 0
        if key.name == "erase":
            text = erased(text)
        elif key.name == "clear":
            text = ""
        elif len(key.name) == 1 and len(text) < LONGEST:
            text += key.name
        if text != self._screen.text:
            self._screen.text = text
            self._screen.draw()

    def _read(self) -> Key:
        """The next key. It ends the voice; the time of the answer begins where the voice came to its end."""
        key = read_key(self._keys, self._signals)
        self._shown_ns = max(self._shown_ns, min(self._voice.hush(), key.at_ns))
        return key


def read_key(keys: Keys, signals: Signals) -> Key:
    with signals.waiting():
        try:
            key = keys.read()
        except EOFError:
            raise interrupted(SIGHUP) from None
        if key.name == "interrupt":
            raise interrupted(SIGINT)
        return key


def erased(text: str) -> str:
    """Without its last character, and what sits on that."""
    while text and width(text[-1]) == 0:
        text = text[:-1]
    return text[:-1]
