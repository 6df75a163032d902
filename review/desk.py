"""What a parent looks at: one function a command. Reading only."""

from collections.abc import Callable, Iterable
from typing import TypeVar

from review import gather
from review.app import reading
from review.core import days, looks, squares, stuck
from review.core.model import Child, Pupil
from review.core.progress import Progress, held_by_week, progress
from review.errors import Mendable
from review.gather import Outside
from review.replies import SquaresOf, StuckOf
from review.store import Book

T = TypeVar("T")
FOLDED = ("answer", "known", "undo", "correct")  # kinds of events that say what a child recalls
USUAL_SPAN = 84  # days: twelve weeks, about a school term (common practice, no source)


def of_children(outside: Outside, name: str | None, tell: Callable[[Book, Child, int], T]) -> list[T]:
    """Told of one child, or of each where no name is given; Mendable where there is none. The day is the
    child's today."""
    with reading(outside) as book:
        return [tell(book, child, gather.today(outside, child)) for child in chosen(book, name)]


def chosen(book: Book, name: str | None) -> Iterable[Child]:
    known = gather.family_of(book)
    return known if known and name is None else [gather.child_named(known, name)]


def stuck_of(outside: Outside, name: str | None) -> list[StuckOf]:
    def tell(book: Book, child: Child, day: int) -> StuckOf:
        pupil = gather.pupil(book, child, day)
        return StuckOf(child, stuck.stuck(pupil, looks.looks(pupil)))

    return of_children(outside, name, tell)


def squares_of(outside: Outside, name: str | None) -> list[SquaresOf]:
    def tell(book: Book, child: Child, day: int) -> SquaresOf:
        return SquaresOf(child, squares.squares(looks.looks(gather.pupil(book, child, day))))

    return of_children(outside, name, tell)


# --- a span of days ------------------------------------------------------------------------------------


def span(since: int | None, until: int | None, today: int) -> tuple[int, int]:
    """The first and the last day that are meant; Mendable where they cannot be."""
    last = today if until is None else until
    first = last - USUAL_SPAN + 1 if since is None else since
    if last > today:
        raise Mendable(
            f"--until {days.date_of(last)} has not come yet; leave it out, or choose a day up to "
            f"{days.date_of(today)}."
        )
    if first > last:
        raise Mendable(
            f"--since {days.date_of(first)} comes after {days.date_of(last)}, the last day; turn them round."
        )
    return max(1, first), last


def progress_of(
    outside: Outside,
    name: str | None,
    since: int | None = None,
    until: int | None = None,
    by_week: bool = False,
) -> list[Progress]:
    """`by_week`: also what was held week by week, for which the whole log is folded."""

    def tell(book: Book, child: Child, today: int) -> Progress:
        first, last = span(since, until, today)
        rows = book.events(child.key, ("answer", "sitting"), since_day=first, until_day=last)
        amending = book.events(child.key, ("undo", "correct"))
        found = progress(pupil_on(book, child, last), [*rows, *amending], first, last)
        if not by_week:
            return found
        every = book.events(child.key, FOLDED)
        return found._replace(held=held_by_week(every, found.pupil, first, last))

    return of_children(outside, name, tell)


def pupil_on(book: Book, child: Child, day: int) -> Pupil:
    """The child as on the evening of that day: for a day that is past, its log is folded up to then."""
    pupil = gather.pupil(book, child, day)
    if day >= child.last_day:
        return pupil
    amending = [row for row in book.events(child.key, ("undo", "correct")) if row.day > day]
    known = gather.remember().fold([*book.events(child.key, until_day=day), *amending])
    return pupil._replace(memory=known.cards, settings=pupil.settings._replace(habits=known.habits))
