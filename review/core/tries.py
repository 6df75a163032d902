"""First tries and practised days of a span of the log, without folding all that came before it: what every
report counts by."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from review.core import marking
from review.core.answer_bodies import event_answer
from review.core.model import FOUND, Answer, Event

LONGEST_MS = 60_000  # one who left the table counts as a minute (our judgement)


class Try(NamedTuple):
    """The first answer to a card on a practice day."""

    day: int
    card: str
    answer: Answer
    right: bool  # and unaided
    timed: bool  # whether it counted if it came from memory
    from_memory: bool
    net_ms: int  # of a right, unaided and typed one, net of copying; -1: of any other


class Tally(NamedTuple):
    """First tries counted together."""

    tries: int
    right: int
    timed: int  # of them those where it counted if they came from memory
    from_memory: int
    net_ms: int  # of right, unaided and typed ones net of copying: the median (the upper of two); 0: none
    helped: int = 0  # besides those that were right: found with help


def first_tries(answers: Iterable[Event]) -> Iterator[Try]:
    """What the fold counts as first tries, from amended answers in the order of the log.

    Copies are none; a void one, or one beside the warm-up, blocks its card for the day; a first meeting that
    finds a card not known is no try, and what follows it that day is a second look.
    """
    had: set[tuple[int, str]] = set()
    for event in answers:
        answer, key = event_answer(event), (event.day, event.card)
        if key in had or marking.left_open(answer):
            continue
        if answer.sitting:
            had.add(key)
            continue
        if answer.role == "copy":
            continue
        unknown = marking.effect(answer) in ("halve", "not retrieved")
        if answer.role == "probe" and unknown:
            continue
        had.add(key)
        if answer.mark != "void" and not (answer.role == "intro" and unknown):
            yield tried(event.day, answer)


def tried(day: int, answer: Answer) -> Try:
    timed = is_said(answer) or (answer.slow_ms > 0 and not answer.untimed)
    right = marking.unaided(answer)
    from_memory = timed and right and marking.as_it_counts(answer) == "right"
    net = net_ms(answer) if right and is_clocked(answer) and not is_spelt_out(answer) else -1
    return Try(day, answer.card, answer, right, timed, from_memory, net)


def is_spelt_out(answer: Answer) -> bool:
    """A number word in the place of digits: its letters take a time that says nothing of the number."""
    return answer.expected.isdecimal() and not any(map(str.isdigit, answer.given))


def is_said(answer: Answer) -> bool:
    """Whether somebody said how it came: aloud and on paper a parent does, of a miss too."""
    return answer.aim == "fluency" and (bool(answer.recalled) or answer.taken != "typed")


def tally(tries: Iterable[Try]) -> Tally:
    some = list(tries)
    if not some:  # of most skills nothing was tried in a month
        return NOTHING
    nets = sorted([one.net_ms for one in some if one.net_ms >= 0])
    return Tally(
        len(some),
        sum([one.right for one in some]),
        sum([one.timed for one in some]),
        sum([one.from_memory for one in some]),
        nets[len(nets) // 2] if nets else 0,
        sum([one.answer.mark in FOUND and not one.right for one in some]),
    )


NOTHING = Tally(0, 0, 0, 0, 0)


def practised(answers: Iterable[Event]) -> set[int]:
    """Days of practice: with a problem answered, in whichever sitting. A hard day with a gentle warm-up, or a
    few more of one kind, was one, though nothing of it counts; to begin and to leave at once was none."""
    return {event.day for event in answers if is_problem(event)}


def is_problem(event: Event) -> bool:
    """Whether an answer is to a problem of its own: no copy, and not interrupted."""
    return event.body.get("role") != "copy" and event.body["mark"] != "void"


def is_clocked(answer: Answer) -> bool:
    return answer.taken == "typed" and marking.is_believable(answer.first_ms, answer.end_ms)


def net_ms(answer: Answer) -> int:
    return max(0, answer.end_ms - answer.copy_ms)


def taken(answers: Iterable[Event]) -> tuple[str, ...]:
    """How problems were answered: typed, aloud, on paper. Only what is typed is timed."""
    return tuple(sorted({str(event.body.get("taken", "typed")) for event in answers if is_problem(event)}))


def spent_ms(answers: Iterable[Event]) -> int:
    """The time of all answers, first tries or not; a time across a suspended process means nothing."""
    ends = (event.body.get("end_ms", 0) for event in answers if event.body["mark"] != "void")
    return sum(min(end, LONGEST_MS) for end in ends if isinstance(end, int))
