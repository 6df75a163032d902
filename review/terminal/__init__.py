"""Fronts of a sitting: a real terminal, plain lines, JSON lines.

They show, ask, time and say, and decide nothing.
"""

import re
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, Protocol, TypeAlias

from review.core import session
from review.core.model import STANDARD, Answer, Help, Problem, Words
from review.core.text import clean, held, let_go
from review.core.warmup import (
    AskAgain,
    AskHelp,
    AskLiked,
    AskRecalled,
    Effect,
    End,
    Heard,
    Helped,
    Note,
    PassOn,
    Record,
    Say,
    Show,
    Sitting,
    Stop,
    Summary,
    TakeBack,
    Typed,
)
from review.errors import Interrupted

if TYPE_CHECKING:
    from review.core.copying import Copying
    from review.core.pictures import Picture
    from review.core.placement import Probing

WIDTH = 40  # columns at most: a line a young reader takes in at a look (common practice)
ROOM = 12  # columns kept for the answer beside its prompt (our judgement)
LONGEST = 200  # characters of an answer that are kept; a stuck key gives more
SHORT = 2  # lines of a prompt that are read again at a look (our judgement)
SENTENCE_END = re.compile(r"(?<=[.?!]) (?=[A-ZÀ-ÖØ-Þ])")  # where the next one begins; not in "2 p.m. on"
DOTS_A_GROUP, DOTS_A_ROW = 5, 20  # five and five, as counters lie in a ten-frame
DOTS = ("●", "○")  # a card that was answered, and one to come

MEETING = ("Do you know this one yet?", "If not, press Enter.")
YOUR_TURN = "Your turn."
PRESS_ENTER = "Then press Enter."
M_OR_W = "m / w, or Enter:"  # the line a child says on how an answer was found
ONE_OR_TWO = "1 / 2, or Enter:"  # the line a child says on which way it likes
TAKEN_BACK = "Taken back. Here it is again."
NOTHING_TO_TAKE_BACK = "Nothing of this sitting to take back."


class Front(Protocol):
    """Carries out what a sitting asks for."""

    person: bool  # whether somebody sits there who may be asked a small question between problems

    def show(self, show: Show) -> None: ...
    def ask_again(self, again: AskAgain) -> None: ...
    def ask_recalled(self, asked: AskRecalled) -> None: ...
    def ask_liked(self, asked: AskLiked) -> None: ...
    def help(self, help: Help) -> None: ...
    def say(self, said: Say) -> None: ...
    def note(self, note: Note) -> None: ...
    def end(self, end: End) -> None: ...
    def hear(self) -> Heard | TakeBack: ...


class Speaks(Protocol):
    """Reads problems out."""

    def speak(self, words: str) -> None: ...
    def hush(self) -> int: ...


class Silence:
    """Says nothing: where nobody asked for a voice, or there is none."""

    def speak(self, words: str) -> None:
        pass

    def hush(self) -> int:
        return 0


SILENCE = Silence()


class Rules(Protocol):
    """The core room that says what a sitting does: what is heard goes in, what is to be done comes out."""

    def start(self, sitting: Any, so_far: Sequence[Answer], /) -> tuple[Any, Sequence[Effect]]: ...
    def step(self, state: Any, heard: Heard, /) -> tuple[Any, Sequence[Effect]]: ...


Played: TypeAlias = "Sitting | Probing | Copying"


def rules_of(sitting: Played) -> Rules:
    if isinstance(sitting, Sitting):
        return session
    from review.core import copying, placement  # no child waits for them who does a warm-up

    return copying if isinstance(sitting, copying.Copying) else placement


class Plainly:
    """Shows and hears everything in its standard form."""

    def shown(self, effects: Sequence[Effect]) -> Sequence[Effect]:
        return effects

    def heard(self, said: Heard) -> Heard:
        return said


class InWords:
    """Shows everything in a family's own words, and turns back what is typed for what was shown last."""

    def __init__(self, words: Words) -> None:
        from review.core import house_words  # no child waits for it whose family chose nothing

        self._rules, self._words = house_words, words
        self._asked: Problem | None = None

    def shown(self, effects: Sequence[Effect]) -> Sequence[Effect]:
        shows = (each.problem for each in reversed(effects) if isinstance(each, Show))
        self._asked = next(shows, self._asked)
        return [self._rules.shown(each, self._words) for each in effects]

    def heard(self, said: Heard) -> Heard:
        return self._rules.heard(said, self._asked, self._words)


def wording(sitting: Played) -> Plainly | InWords:
    """Between the rules and the front."""
    return Plainly() if sitting.words == STANDARD else InWords(sitting.words)


def run(
    front: Front,
    sitting: Played,
    so_far: Sequence[Answer],
    record: Callable[[Answer], None],
    ready: Callable[[], None],
    take_back: Callable[[], None] | None = None,
) -> Summary:
    """Play a sitting to its end. `record` is called before anything is said of an answer; if it raises,
    nothing is said. `ready` is called once, when the first problem is on the screen. `take_back` undoes what
    was recorded last; what was there before the sitting began is left. A sitting follows from its answers
    alone, so the rest of it is brought back by starting again."""
    rules, words = rules_of(sitting), wording(sitting)
    if isinstance(sitting, Sitting):
        sitting = sitting._replace(person=front.person)
    state, effects = rules.start(sitting, so_far)
    rows = list(so_far)

    def keep(answer: Answer) -> None:
        record(answer)
        rows.append(answer)

    def carry(effects: Sequence[Effect]) -> None:
        carry_out(front, words.shown(effects), keep)

    try:
        carry(effects)
        ready()
        while not state.ended:
            said = front.hear()
            if not isinstance(said, TakeBack):
                state, effects = rules.step(state, words.heard(said))
            elif take_back is None or len(rows) <= len(so_far):
                effects = (AskAgain(NOTHING_TO_TAKE_BACK),)
            else:
                take_back()
                rows.pop()
                state, effects = rules.start(sitting, rows)
                effects = (Note(TAKEN_BACK), *effects)
            carry(effects)
    except Interrupted as stopped:
        if not state.ended:
            carry(left_behind(stopped, rules.step(state, Stop())[1]))
        raise
    return next(effect.summary for effect in effects if isinstance(effect, End))


def left_behind(stopped: Interrupted, effects: Sequence[Effect]) -> Sequence[Effect]:
    """What is carried out for one who leaves: after Ctrl-C all of it; where the terminal has gone nothing can
    be said, but an answer that waited for a small question, and the help that was given, are kept."""
    if stopped.exit_code == Interrupted.exit_code:
        return effects
    return [effect for effect in effects if isinstance(effect, Record)]


def carry_out(front: Front, effects: Sequence[Effect], record: Callable[[Answer], None]) -> None:
    for effect in effects:
        match effect:
            case Record(answer):
                record(answer)
            case Show():
                front.show(effect)
            case AskAgain():
                front.ask_again(effect)
            case AskRecalled():
                front.ask_recalled(effect)
            case AskLiked():
                front.ask_liked(effect)
            case Helped(help):
                front.help(help)
            case Say():
                front.say(effect)
            case Note():
                front.note(effect)
            case End():
                front.end(effect)


# --- what fronts for people share ---------------------------------------------------------------------


def heard(text: str, first_ms: int, end_ms: int, suspended: bool) -> Heard:
    """A whole line as it was meant: one of the three words, or an answer."""
    text = tidy(text)
    word = text.casefold()
    if word == "stop":
        return Stop()
    if word == "pass":
        return PassOn(end_ms)
    if word in {"?", "\uff1f"}:
        return AskHelp(end_ms)
    return Typed(text, first_ms, end_ms, suspended)


def lenient(source: Any) -> None:
    """A stray byte is a character that cannot be read, no failure. A stream can be told so only before its
    first line."""
    if hasattr(source, "reconfigure") and source.errors != "replace":
        source.reconfigure(errors="replace")


def tidy(text: str) -> str:
    """One line without control characters, of a length an answer may have."""
    return clean(text[: 4 * LONGEST])[:LONGEST]


def before_prompt(show: Show, in_words: bool = False) -> list[str]:
    """The lines above a problem."""
    picture = picture_lines(show.problem.picture, in_words)
    if show.copying:
        return [YOUR_TURN, *picture]
    dots = dots_lines(*show.dots, in_words)
    return ["", *dots, *(MEETING if show.first_meeting else ()), *apart(picture)]


def apart(picture: Sequence[str]) -> list[str]:
    """A picture that begins with a row of dots below an empty line: they are to be counted, those above are
    not. Others stay close, since a clock face leaves no row to spare."""
    return ["", *picture] if picture and picture[0].lstrip().startswith(DOTS) else [*picture]


def picture_lines(picture: "Picture | None", in_words: bool = False) -> list[str]:
    """A picture as it is printed; `in_words`, one sentence above it says the same to who cannot see it."""
    if picture is None:
        return []
    from review.core.drawn import drawn  # no child waits for it who is shown no picture
    from review.core.pictures import Lines

    if isinstance(picture, Lines):
        return [line.rstrip() for line in picture.lines]
    return [*(wrap(picture_sentence(picture), WIDTH) if in_words else ()), *drawn(picture)]


def picture_sentence(picture: "Picture | None") -> str:
    if picture is None:
        return ""
    from review.core.picture_words import sentence  # likewise

    return sentence(picture)


def dots_lines(filled: int, of: int, in_words: bool) -> list[str]:
    return [dots_words(filled, of)] if in_words else dots_rows(filled, of)


def dots_rows(filled: int, of: int) -> list[str]:
    """A row of dots, one a card, by fives."""
    full, empty = DOTS
    marks = full * filled + empty * (of - filled)
    groups = [marks[n : n + DOTS_A_GROUP] for n in range(0, of, DOTS_A_GROUP)]
    a_row = DOTS_A_ROW // DOTS_A_GROUP
    return [" ".join(groups[n : n + a_row]) for n in range(0, len(groups), a_row)]


def dots_words(filled: int, of: int) -> str:
    """The same for who listens: a voice reads each dot of a row by its name, before every problem."""
    left = of - filled
    return f"{left} {'dot' if left == 1 else 'dots'} to fill." if left else "All dots are full."


def wrap(text: str, width: int) -> list[str]:
    """In lines of that width. Most problems need one, and then not what breaks lines."""
    if 0 < len(text) <= width and text.isprintable() and not text.endswith(" "):
        return [text]
    from textwrap import wrap

    return let_go(wrap(held(text, width), width))


def prompt_lines(prompt: str, width: int) -> list[str]:
    """The prompt in lines; the last one is where the answer goes."""
    found = wrap(clean(prompt), max(width, 1)) or [""]
    return found if len(found[-1]) + ROOM <= width else [*found, ""]


def reminder(prompt: str) -> str:
    """What stands below help, where lines are only added: a short prompt as it is, with its numbers; of a
    long one its last sentence, since the rest was read a moment ago."""
    return prompt if len(wrap(prompt, WIDTH)) <= SHORT else SENTENCE_END.split(prompt)[-1]


def text_lines(text: str) -> list[str]:
    """A text for the screen, line by line. Columns of a table or a worked sum keep their spaces."""
    return [" ".join(map(clean, line.split(" "))).rstrip() for line in text.split("\n")]


def liked_lines(asked: AskLiked) -> list[str]:
    """The question, and each way by its number: in words, then its steps below them; a gap between them."""
    ways = (
        ["", f"{number}  {words}", *(f"   {line}" for line in text_lines(steps))]
        for number, (words, steps) in enumerate(asked.ways, 1)
    )
    return ["", *text_lines(asked.text), *(line for way in ways for line in way), ""]
