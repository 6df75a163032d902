"""What commands reply with: data for the rendering, one noun a command."""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from review.core.amendments import What
from review.core.model import STANDARD, Answer, Card, Child, Event, Skill, SkillSet, Words

if TYPE_CHECKING:  # whoever has no such reply does not pay for what makes it
    from review.core.edited_sets import Edited
    from review.core.reports import Decision, Faded
    from review.core.squares import Square
    from review.core.stuck import Stuck
    from review.core.teaching import Lesson


class Given(NamedTuple):
    """What came of giving a set to a child."""

    child: Child
    found: SkillSet
    cards: int
    taught: tuple[str, ...]  # of its skills, now or before
    guessed: tuple[Skill, ...] = ()  # that keep their aim, though fluency was asked for
    edited: "Edited | None" = None  # since it was given before
    aim_before: str = ""  # which the family had chosen then, and has not now
    others: tuple[str, ...] = ()  # names of children who have it otherwise
    name: str = ""  # by which it was given: of the set, or of a file


class Taught(NamedTuple):
    child: Child  # as the child was before
    skills: tuple[Skill, ...]
    timed: bool | None
    back: bool = False  # the word was taken back
    from_memory: bool = True  # some of it is to be known from memory, so that time may count


class Overdue(NamedTuple):
    """One child's report: what to do, and every card that has faded, lowest recall first."""

    child: Child
    day: int
    decision: "Decision"
    overdue: tuple["Faded", ...]
    fading: tuple["Faded", ...]
    skills: Mapping[str, Skill]


class Today(NamedTuple):
    """A line of the front door."""

    child: Child
    done: bool
    sets: int
    taught: int
    scribbled: bool = False  # answers running that could not be read: perhaps not the child's own
    away_until: int = 0  # the last day off, where today is one; 0: it is none


class TakenBack(NamedTuple):
    """What `undo` takes back or puts right: answers in order, the first of them what it is about."""

    child: Child
    what: What
    about: Event  # the first answer, or the taking back that is itself taken back
    answers: tuple[Answer, ...]
    day: int  # today


class Known(NamedTuple):
    """What a parent says is known already, or is not after all."""

    child: Child
    cards: tuple[Card, ...]
    untaught: tuple[Skill, ...]  # skills of those cards that are not marked as taught
    taught: tuple[Skill, ...]  # skills marked as taught by it
    measured: int  # cards of a named skill left as they are: answers say more
    known: bool  # False: not after all
    named: tuple[Skill, ...] = ()  # skills that were named; (): cards were


class Away(NamedTuple):
    """Days off, from today on."""

    child: Child
    spans: tuple[tuple[int, int], ...]
    back: bool = False  # they were just taken back


class Focus(NamedTuple):
    """The skill that comes first this week."""

    child: Child
    skill: Skill | None  # None: none
    stands_on: tuple[Skill, ...]
    untaught: tuple[Skill, ...]  # of those, what does not come yet
    until: int


class Lessons(NamedTuple):
    """What to teach one child next."""

    child: Child
    found: tuple["Lesson", ...]
    too_much: bool  # new cards wait until more holds


class Proof(NamedTuple):
    path: Path
    problems: tuple[str, ...]
    children: int
    answers: int
    others: int
    words: Words = STANDARD


class StuckOf(NamedTuple):
    """What did not stick with one child."""

    child: Child
    stuck: tuple["Stuck", ...]


class SquaresOf(NamedTuple):
    """One child's squares of facts."""

    child: Child
    squares: tuple["Square", ...]
