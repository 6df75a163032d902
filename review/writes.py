"""How a command writes: the book open for it, and an event of now."""

from collections.abc import Mapping

from review import clock, gather
from review.book import store
from review.book.store import Book
from review.core.model import Child, Draft, Event, EventKind
from review.gather import Outside


def writing(outside: Outside) -> Book:
    return store.open_book(outside.book, outside.state, write=True)


def opened(outside: Outside, keep: bool) -> Book:
    """The book for a sitting: a trial keeps nothing, and goes where nobody may write."""
    return writing(outside) if keep else gather.reading(outside)


def write(
    book: Book,
    outside: Outside,
    child: Child,
    kind: EventKind,
    body: Mapping[str, object],
    day: int,
    card: str = "",
) -> Event:
    """One event into the log, with what it does to memory, in one transaction."""
    return book.record([draft(outside, child, kind, body, day, card)], gather.remember())[0]


def write_of_all(book: Book, outside: Outside, body: Mapping[str, object]) -> None:
    """The same `profile` event for every child, so that what it says is forgotten and merged with them;
    Mendable where there is none."""
    known = gather.family_of(book)
    if not known:
        gather.child_named(known, None)
    days = [gather.writing_day(outside, child) for child in known]
    drafts = [draft(outside, child, "profile", body, day) for child, day in zip(known, days, strict=True)]
    book.record(drafts, gather.remember())


def draft(
    outside: Outside, child: Child, kind: EventKind, body: Mapping[str, object], day: int, card: str = ""
) -> Draft:
    """An event of now, in the child's zone."""
    offset = clock.offset_min(child.zone, outside.now_ms)
    return Draft(child.key, kind, day, outside.now_ms, offset, card, body)
