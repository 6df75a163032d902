"""What reports say alike, whichever they are: a mark, a day, an answer in its place, the harder order of a
fact, the caution below."""

from collections.abc import Iterable, Mapping, Sequence

from review.core import days, family, skills
from review.core.model import BOX, STANDARD, Words
from review.core.orders import Harder
from review.core.text import clean, kept_apart

CAUTION = "Hints for teaching, not a diagnosis."
MARK_WORDS: Mapping[str, str] = {
    "right": "right",
    "right_slow": "right, worked out",
    "right_helped": "right with help",
    "not_yet": "not yet",
    "shown": "asked to see it",
    "void": "interrupted",
    "": "none",
}
SLIP = "a slip of the keys, taken as right"
NAMED = 4  # things named in one sentence; of more, how many (our judgement)
OPEN = ("=", "≈", "?", ":", " is")  # ends of a prompt that an answer goes on from


def answered(problem: str, given: str) -> str:
    """The problem with what was given where its answer goes."""
    if problem.count(BOX) == 1:
        return problem.replace(BOX, given)
    return f"{problem} {given}" if problem.endswith(OPEN) else f"{problem.removesuffix('.')}: {given}"


def missed_more(card: str, found: Harder, words: Words = STANDARD) -> str:
    """Which order of a fact is the harder one: "7 × 6 is missed more often than 6 × 7"."""
    return (
        f"{in_order(card, found.asked, words)} is missed more often than {in_order(card, found.than, words)}"
    )


def in_order(card: str, asked: str, words: Words = STANDARD) -> str:
    """A fact as it stands on the page that way round, without the equal sign before its answer."""
    return clean(family.as_written(skills.undrawn(card, asked).prompt.removesuffix(" ="), words))


def missed_more_often(card: str, found: Harder | None) -> str | None:
    """For another program: the order that is missed more often, where one is."""
    return in_order(card, found.asked) if found else None


def date(day: int) -> str | None:
    return days.date_of(day).isoformat() if day else None


def named(things: Sequence[str], most: int = NAMED) -> str:
    """The first few in words, and how many more."""
    left = len(things) - most
    return kept_apart([*map(clean, things[:most]), *([f"{left} more"] if left > 0 else [])])


def blank_between(parts: Iterable[Sequence[str]]) -> list[str]:
    """The lines of several parts, an empty one between two."""
    return [line for part in parts for line in (*part, "")][:-1]
