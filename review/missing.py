"""What `review misses` does: why a child misses, as far as the answers tell."""

from typing import NamedTuple

from review import gather
from review.core import confusions, counted, family, misses, readings
from review.core.amendments import as_they_count
from review.core.confusions import Confused
from review.core.counted import Counting
from review.core.misses import Found
from review.core.model import Child
from review.gather import Outside
from review.store import Book

SPAN = 182  # days that are read: half a year, half as long again as the longest gap (our judgement)
KINDS = ("answer", "undo", "correct")


class Misses(NamedTuple):
    """One child's report; what is empty was not found."""

    child: Child
    day: int
    age: int
    answers: int  # that were given so far, as far as they were counted
    rules: tuple[Found, ...]
    confused: tuple[Confused, ...]
    counting: Counting | None


def of_family(outside: Outside, child_name: str | None, most: int | None = None) -> list[Misses]:
    """For one child, or for all when no name is given. `most`: answers that are counted."""
    return gather.of_children(outside, child_name, lambda book, child, day: _of(book, child, day, most))


def last_answered(book: Book, child: Child, day: int) -> int:
    """The day of the last answer up to that day; 0: there is none."""
    newest = book.answers(child.key, last=1)
    if newest and newest[-1].day > day:
        newest = [*book.events(child.key, ("answer",), until_day=day)][-1:]
    return newest[-1].day if newest else 0


def _of(book: Book, child: Child, day: int, most: int | None) -> Misses:
    """As things stood on that day, from the half year up to it, or to the last answer before it."""
    since = max(1, min(day, last_answered(book, child, day) or day) - SPAN)
    rows = [*book.events(child.key, KINDS, since_day=since, until_day=day)]
    told = [*as_they_count((row for row in rows if row.kind != "answer"), rows)]
    families = readings.by_family(told)
    return Misses(
        child,
        day,
        family.age_on(child, day),
        book.answered(child.key, day, most),
        misses.found(families),
        confusions.of_answers([*readings.astray(families.get("product", ())).values()]),
        counted.counting(told),
    )
