"""The last weeks of one child, for a call with somebody who advises the family."""

from collections import Counter
from collections.abc import Iterable
from typing import NamedTuple

from review.core import reports, teaching, tries
from review.core.model import Event, Pupil
from review.core.standing import Look, State, last_before_pause
from review.core.teaching import Lesson

WEEKS = 4  # where no other number of them is asked for
MOST_WEEKS = 12  # a term, about (our judgement)


class Brief(NamedTuple):
    """What there is to say, before it is put into words."""

    pupil: Pupil
    days: int  # with practice, of the last weeks
    tries: int  # first tries in them
    right: int  # right and unaided
    met: int  # cards met in them for the first time
    states: Counter[State]  # cards by how they stand
    taught: int  # skills
    lessons: tuple[Lesson, ...]
    faded: tuple[str, ...]  # prompts of what has faded, the most faded first
    table: tuple[str, ...]  # of it, what is to be practised at the table this week
    too_much: bool  # new cards wait until more holds
    last: int = 0  # the day of the last practice, where it lies a week or more back
    weeks: int = WEEKS


def first_day(day: int, weeks: int) -> int:
    """The practice day those weeks began on, of which `day` is the last."""
    return day - 7 * weeks + 1


def brief(pupil: Pupil, answers: Iterable[Event], weeks: int = WEEKS) -> Brief:
    """`answers`: those of the last weeks, as they count."""
    since, report = first_day(pupil.day, weeks), reports.report(pupil)
    told = [row for row in answers if row.day >= since]
    tally = tries.tally(tries.first_tries(told))
    return Brief(
        pupil,
        len(tries.practised(told)),
        tally.tries,
        tally.right,
        sum(one.met_day >= since for one in pupil.memory.values()),
        Counter(map(state, report.looks)),
        len(pupil.skills.keys() & set(pupil.child.taught)),
        teaching.lessons(pupil, report.looks, report.again),
        tuple(row.prompt for row in (*report.overdue, *report.fading)),
        tuple(name for one in report.decision.table if one.reason == "faded" for name in one.what),
        report.too_much,
        last_before_pause(pupil.memory.values(), pupil.day),
        weeks,
    )


def state(look: Look) -> State:
    """How a card stands. One set aside stays so until it is met again, also when it may come back."""
    return "aside" if look.memory and look.memory.aside_day else look.standing.state
