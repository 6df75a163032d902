"""A family that has practised for years: the book the parent's desk is measured on.

    python -m tests.benchmarks.family FOLDER [YEARS]         (default 5: four children, some 150,000 answers)

Simulated children of the demo's kind, through the real plan, the real sitting and the real way of writing: a
transaction a day. The same FOLDER twice gives the same book, row by row. Five years take a quarter of an hour
on one processor; a book that is there already is left as it is.
"""

import sys
import time
from pathlib import Path
from typing import NamedTuple

from review import catalogue, gather
from review.app import demo, missing
from review.app.demo import Role
from review.book import store
from review.book.store import Book
from review.core import seeds
from review.core.learner import Learner

LAST_DAY = 739_943  # Sunday 29 November 2026
YEAR = 365
SET_EVERY = 50  # days: some seven sets a year of lessons, 800 cards in five (our judgement)
HOLIDAYS = (range(52, 60), range(150, 164), range(220, 262))  # days of a year (our judgement: a family's)
WEEK = 5 / 7  # share of other days with a warm-up (our judgement: five days a week)
ELSEWHERE = ("dollars", "euros", "customary", "fahrenheit", "without-and", "early")
"""In the names of sets this family has no use for."""


class Grown(NamedTuple):
    """One child of the family on the first day."""

    name: str
    age: int
    minutes: float
    speed: float
    ability: float


FAMILY = (
    Grown("Orla", 6, 5, 0.9, -0.5),
    Grown("Fenn", 8, 6, 1.2, 0.2),
    Grown("Mira", 7, 5, 1.0, 0.0),
    Grown("Tam", 6, 5, 0.8, -0.8),
)


def lessons(age: int, days: int) -> dict[int, str]:
    """A set every few weeks, the youngest that was not given yet, no younger than the child: day -> set."""
    left = [head for head in catalogue.heads() if not any(word in head.id for word in ELSEWHERE)]
    given = dict[int, str]()
    for day in range(0, days, SET_EVERY):
        now = age + day / YEAR
        fits = [head for head in left if head.ages[0] <= now <= head.ages[1] + 1]
        if fits:
            given[day] = fits[0].id
            left.remove(fits[0])
    return given


def play(folder: Path, years: float = 5) -> Path:
    """The family's book in that folder. Returns the book's path."""
    path = folder / "family.book"
    if path.exists():
        return path
    folder.mkdir(parents=True, exist_ok=True)
    store.make(path, seeds.source("book", "years").randbytes(16))
    with store.open_book(path, folder / "state", write=True) as book:
        for number, grown in enumerate(FAMILY):
            grow_up(book, grown, round(years * YEAR), number)
    return path


def grow_up(book: Book, grown: Grown, days: int, seed: int) -> None:
    """One child's years."""
    first = LAST_DAY - days
    role = Role(grown.name, grown.age, grown.minutes, grown.speed, grown.ability, ())
    child = demo.join(book, role, first, 1000 + seed)
    learner = Learner(1000 + seed, grown.age, ability=grown.ability, speed=grown.speed)
    attends, given = seeds.source("attendance of years", seed), lessons(grown.age, days)
    for n in range(days):
        if n in given:
            child = demo.teach(book, child, given[n], first + n)
        if attends.random() < WEEK and not any(n % YEAR in some for some in HOLIDAYS):
            demo.practise(book, child, learner, first + n, role)
    missing.keep(book, child.key)


def main(folder: Path, years: float) -> None:
    begun = time.process_time()
    path = play(folder, years)
    with store.open_book(path, folder / "state", write=False) as book:
        children, answers, events = book.counts()
        cards = [len(gather.pupil(book, child, LAST_DAY).cards) for child in gather.family_of(book)]
    print(
        f"{path}: {children} children with {cards} cards, {answers:,} answers, {events:,} entries, "
        f"{path.stat().st_size / 1e6:.0f} MB, made in {time.process_time() - begun:.0f} s of CPU"
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]), float(sys.argv[2]) if len(sys.argv) > 2 else 5)
