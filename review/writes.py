"""How a command writes: the book open for it, and an event of now."""

from collections.abc import Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager

from review import clock, gather, store
from review.core.model import Child, Draft, Event, EventKind
from review.gather import Outside
from review.store import Book


@contextmanager
def writing(outside: Outside) -> Iterator[Book]:
    with store.open_book(outside.book, outside.state, write=True) as book:
        yield book


def opened(outside: Outside, keep: bool) -> AbstractContextManager[Book]:
    """For a sitting: a trial keeps nothing, and goes where nobody may write."""
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


def draft(
    outside: Outside, child: Child, kind: EventKind, body: Mapping[str, object], day: int, card: str = ""
) -> Draft:
    """An event of now, in the child's zone."""
    offset = clock.offset_min(child.zone, outside.now_ms)
    return Draft(child.key, kind, day, outside.now_ms, offset, card, body)
