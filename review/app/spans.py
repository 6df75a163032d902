"""What a parent looks at over a span of days: one function a command. Reading only."""

from typing import TYPE_CHECKING

from review import gather
from review.book.store import Book
from review.core import days
from review.core.amendments import as_they_count
from review.core.model import Child, Event, Habits, Remembered
from review.errors import Mendable
from review.gather import Outside, of_children

if TYPE_CHECKING:  # either command pays for its own
    from review.core.diary import Diary
    from review.core.progress import Progress

FOLDED = ("answer", "known", "undo", "correct")  # kinds of events that say what a child recalls
DIARY = ("answer", "taught", "set_add", "set_drop", "away", "known")
USUAL_SPAN, PAGE_SPAN = 28, 84  # days: a month of work, and about a school term (our judgement)


def span(since: int | None, until: int | None, today: int, usual: int = USUAL_SPAN) -> tuple[int, int]:
    """The first and the last day that are meant; Mendable where they cannot be."""
    last = today if until is None else until
    first = last - usual + 1 if since is None else since
    if last > today:
        raise Mendable(
            f"--until {days.date_of(last)} has not come yet; leave it out, or choose a day up to "
            f"{days.date_of(today)}."
        )
    if until is None and first > last:
        raise Mendable(
            f"--since {days.date_of(first)} has not come yet; choose a day up to {days.date_of(today)}."
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
) -> list["Progress"]:
    """`by_week`: also what was held week by week, for which the whole log is folded."""
    from review.core.progress import held_by_week, progress

    def tell(book: Book, child: Child, today: int) -> "Progress":
        first, last = span(since, until, today, PAGE_SPAN if by_week else USUAL_SPAN)
        child = gather.child_on(book, child, last)
        answers = [*book.events(child.key, ("answer",), since_day=first, until_day=last)]
        sittings = gather.sittings_up_to(book, child, last, first)
        amending = [*book.events(child.key, gather.NAMING)]
        pupil = gather.pupil(book, child, last, sittings, [*as_they_count(amending, answers)])
        found = progress(pupil, [*answers, *sittings, *amending], first, last)
        if not by_week:
            return found
        start, rest = from_season(book, child, found.pupil.settings.habits, first)
        return found._replace(held=held_by_week(start, rest, found.pupil, first, last))

    return of_children(outside, name, tell)


def from_season(book: Book, child: Child, ways: Habits, day: int) -> tuple[Remembered, list[Event]]:
    """What was remembered before a day, as far back as it has to be, and what the log says from there on."""
    kept = gather.remembered_before(book, child.key, day)
    if kept is None:
        return Remembered({}, Habits(parameters=ways.parameters)), [*book.events(child.key, FOLDED)]
    since = kept.habits.at[0]
    amending = (row for row in book.events(child.key, gather.NAMING) if row.day < since)
    return kept, [*amending, *book.events(child.key, FOLDED, since_day=since)]


def diary_of(
    outside: Outside, name: str | None, since: int | None = None, until: int | None = None
) -> list["Diary"]:
    from review.core.diary import diary

    def tell(book: Book, child: Child, today: int) -> "Diary":
        first, last = span(since, until, today)
        child = gather.child_on(book, child, last)
        rows = book.events(child.key, DIARY, since_day=first, until_day=last)
        amending = book.events(child.key, gather.NAMING)
        return diary(gather.course(child, last), [*rows, *amending], first, last)

    return of_children(outside, name, tell)
