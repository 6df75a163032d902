"""What commands reply with: data for the rendering, one noun a command."""

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from review.core.model import Child, Decision, Faded, Skill, SkillSet, Summary
from review.core.squares import Square
from review.core.stuck import Stuck


class Given(NamedTuple):
    """What came of giving a set to a child."""

    child: Child
    found: SkillSet
    cards: int
    taught: tuple[str, ...]


class Taught(NamedTuple):
    child: Child
    skills: tuple[Skill, ...]
    timed: bool | None


class Overdue(NamedTuple):
    """One child's report: what to do, and every card that has faded, lowest recall first."""

    child: Child
    day: int
    decision: Decision
    overdue: tuple[Faded, ...]
    fading: tuple[Faded, ...]
    skills: Mapping[str, Skill]


class Today(NamedTuple):
    """A line of the front door."""

    child: Child
    done: bool
    sets: int
    taught: int


class Played(NamedTuple):
    """A warm-up that came to its end, or was stopped."""

    summary: Summary
    warning: str  # for the parent; "" when all is well


class Proof(NamedTuple):
    path: Path
    problems: tuple[str, ...]
    children: int
    answers: int
    others: int


class StuckOf(NamedTuple):
    """What did not stick with one child."""

    child: Child
    stuck: tuple[Stuck, ...]


class SquaresOf(NamedTuple):
    """One child's squares of facts."""

    child: Child
    squares: tuple[Square, ...]
