"""The copying exercise: ten numbers of one digit and ten of two, typed as they are seen, a minute at most.

It gives a child's own time to type, which is taken off the time of every answer that is judged by time.
What a child copies in warm-ups keeps it current; without it, it goes by age. Pure, like every sitting: it
follows from the seeds and from what is heard.
"""

from collections.abc import Sequence
from typing import NamedTuple

from review.core import marking, sayings, seeds
from review.core.model import STANDARD, Answer, Mark, Problem, Words
from review.core.warmup import (
    AskAgain,
    AskHelp,
    Effects,
    End,
    Heard,
    PassOn,
    Record,
    Show,
    Stop,
    Summary,
    Typed,
)

YOUNGEST = 8  # under 8 a child hunts for keys, and time does not count (a teacher's judgement)
OF_EACH = 10  # numbers of one digit, and of two
MOST_MS = 60_000
RANGES = (("0..9", range(10)), ("10..99", range(10, 100)))

TYPE_IT = "Type the number you see."
DONE = "That is all of these."


class Copying(NamedTuple):
    """All the exercise needs to know; nothing in it changes while it runs."""

    book: str
    child: str
    name: str
    age: int
    day: int
    untimed: bool = False
    words: Words = STANDARD  # a number that is copied has one form


class State(NamedTuple):
    """The exercise between two answers."""

    copying: Copying
    left: tuple[tuple[str, str], ...]  # (card, asked)
    so_far: tuple[Answer, ...] = ()
    ended: bool = False


def start(copying: Copying, so_far: Sequence[Answer] = ()) -> tuple[State, Effects]:
    """The exercise with what is typed first. It is too short to go on with: `so_far` says nothing."""
    state = State(copying, numbers(copying))
    return state, (_showing(state),)


def numbers(copying: Copying) -> tuple[tuple[str, str], ...]:
    """Cards and what they ask, no number twice; those of one digit first."""
    source = seeds.source(copying.book, copying.child, copying.day, "copying")
    return tuple(
        (f"copying:{span}", str(number))
        for span, numbers in RANGES
        for number in source.sample(numbers, OF_EACH)
    )


def step(state: State, heard: Heard) -> tuple[State, Effects]:
    """What comes of one thing heard. Nothing is said of a number: the next one comes."""
    if state.ended:
        return state, (_showing(state),)
    match heard:
        case Typed():
            text = heard.text.strip()
            if not text:
                return state, (AskAgain(TYPE_IT),)
            return _answered(state, _row(state, heard._replace(text=text)))
        case AskHelp():
            return state, (AskAgain(TYPE_IT),)
        case PassOn():
            return _answered(state, _row(state, Typed("", heard.end_ms, heard.end_ms)))
        case Stop():
            return state._replace(ended=True), (End((sayings.GO_ON,), _summary(state, finished=False)),)
        case _:  # nobody reads it out
            return state, ()


def _row(state: State, heard: Typed) -> Answer:
    card, asked = state.left[0]
    mark: Mark = "right" if heard.text == asked else "not_yet"
    return Answer(
        card,
        asked,
        asked,
        heard.text,
        "void" if heard.suspended else mark,
        "copy",
        heard.first_ms,
        heard.end_ms,
        age=state.copying.age,
        rule=marking.RULE,
        untimed=int(state.copying.untimed),
        sitting="copying",
    )


def _answered(state: State, row: Answer) -> tuple[State, Effects]:
    so_far = (*state.so_far, row)
    over = len(state.left) == 1 or _used_ms(so_far) >= MOST_MS
    state = state._replace(left=state.left[1:], so_far=so_far, ended=over)
    return state, (Record(row), _showing(state))


def _used_ms(so_far: Sequence[Answer]) -> int:
    return sum(row.end_ms for row in so_far)


def _showing(state: State) -> Show | End:
    if state.ended:
        return End((DONE,), _summary(state, finished=True))
    of, n = len(RANGES) * OF_EACH, len(state.so_far)
    return Show(n + 1, problem(*state.left[0]), dots=(n, of))


def problem(card: str, asked: str) -> Problem:
    return Problem(card, "copying", asked, f"Type {asked}:", asked, "whole", asked, "")


def _summary(state: State, finished: bool) -> Summary:
    right = sum(row.mark == "right" for row in state.so_far)
    return Summary(_used_ms(state.so_far) / 1000, len(state.so_far), right, 0, finished)
