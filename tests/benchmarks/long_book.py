"""Books of many years, for measuring: one season of the invented family, over and over.

Written through the book itself, a season a transaction, so that hashes, triggers, indexes and memory are what
a real book of that length has. The same length makes the same answers, and a book that was made once is kept
in the folder for the next time.
"""

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from review import gather
from review.app import demo, missing
from review.book import store
from review.book.store import Book
from review.core.model import Draft, Event

FIRST_DAY = 722_000  # the practice day the first season ends with, in 1977: a million answers end in 2023


class Long(NamedTuple):
    """A book on the disk, and where the user's state of the one who wrote it is."""

    path: Path
    state: Path  # what XDG_STATE_HOME is set to

    def open(self, write: bool = False) -> Book:
        return store.open_book(self.path, self.state / "review", write)


def made(folder: Path, answers: int) -> Long:
    """A book of two children with at least so many answers; with 0, of children who have not begun."""
    place = folder / f"answers-{answers}"
    long = Long(place / "demo.book", place / "xdg")
    if not long.state.exists():
        place.mkdir(parents=True)
        if answers:
            lengthen(demo.play(place, FIRST_DAY), place / "state", answers)
        else:
            begin(long.path, place / "state")
        long.state.mkdir()
        (place / "state").rename(long.state / "review")  # the last step: now it is finished
    return long


def begin(path: Path, state: Path) -> None:
    """The children with all their sets, before the first warm-up."""
    store.make(path, bytes(16))
    with store.open_book(path, state, write=True) as book:
        for number, role in enumerate(demo.FAMILY):
            child = demo.join(book, role, FIRST_DAY - demo.DAYS, 100 + number)
            for _, set_id in role.lessons:
                child = demo.teach(book, child, set_id, FIRST_DAY - demo.DAYS)


def lengthen(path: Path, state: Path, wanted: int) -> None:
    """The first season's plans and answers again, later and later."""
    with store.open_book(path, state, write=True) as book:
        first = list(book.events(kinds=("answer", "sitting")))
        of_season = sum(event.kind == "answer" for event in first)
        for number in range(1, -(-wanted // of_season)):
            book.record(list(shifted(first, number * demo.DAYS)), gather.remember())
        for key in book.child_keys():
            missing.keep(book, key)  # as the last sitting does


def shifted(season: Iterable[Event], days: int) -> Iterator[Draft]:
    for event in season:
        at_ms = event.raw_ms + days * demo.DAY_MS
        yield Draft(event.child, event.kind, event.day + days, at_ms, 0, event.card, event.body)
