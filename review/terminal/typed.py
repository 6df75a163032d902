"""A sitting on a real terminal: keys one by one, each answer timed, what was told hidden before a copy."""

import os
import sys
import time
from collections.abc import Callable, Sequence
from errno import EIO
from typing import TYPE_CHECKING, TextIO
from unicodedata import category, east_asian_width

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
from review.signs import fit
from review.terminal import (
    LONGEST,
    M_OR_W,
    ONE_OR_TWO,
    PRESS_ENTER,
    SILENCE,
    WIDTH,
    Played,
    Speaks,
    before_prompt,
    dots_rows,
    heard,
    liked_lines,
    picture_lines,
    prompt_lines,
    run,
    text_lines,
)
from review.terminal.keys import ARROWS, Key, Keys
from review.terminal.signals import Signals, interrupted, nothing

if TYPE_CHECKING:
    from review.core.pictures import Picture

SIGINT, SIGHUP = 2, 1  # the same numbers everywhere; SIGHUP has no name on Windows
NEW_PAGE = "\x1b[H\x1b[2J"  # to the first row, and clear the screen (ECMA-48)
LINE_START = "\r\x1b[K"  # to the first column, and clear to the end of the line (ECMA-48)
ROWS_UP = "\x1b[{}A"  # so many rows up (ECMA-48)
BELOW = "\r\x1b[J"  # to the first column, and clear to the end of the screen (ECMA-48)
UNKNOWN = os.terminal_size((WIDTH, 0))  # of a terminal that tells no size
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
        self._screen.text, self._interjected = "", NOTHING
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
        self._interject(again.text, again.picture)

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

    def _interject(self, text: str, picture: "Picture | None") -> None:
        lifted, again = self._screen.lift(), (text, picture) == self._interjected
        if not (lifted and again):  # one who leans on Enter reads it once
            lines = [*picture_lines(picture), *text_lines(text), *([""] if lifted else [])]
            self._keep_in_sight(len(lines))
            self._screen.add(lines)
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
