"""What a parent looks at: one function a command. Reading only."""

from collections.abc import Iterable
from random import Random

from review import gather
from review.book.store import Book
from review.core import brief, family, looks, plan, reports, squares, stuck, teaching
from review.core.brief import Brief
from review.core.model import STANDARD, Child, Pupil
from review.core.standing import Look
from review.gather import Outside, of_children, reading
from review.replies import Lessons, Overdue, Proof, SquaresOf, StuckOf


def overdue(outside: Outside, child_name: str | None) -> list[Overdue]:
    """For one child, or for all when no name is given."""
    return of_children(outside, child_name, lambda *of: overdue_of(gather.pupil(*of)))


def overdue_of(pupil: Pupil) -> Overdue:
    found = reports.report(pupil)
    return Overdue(pupil.child, pupil.day, found.decision, found.overdue, found.fading, pupil.skills)


def teach(outside: Outside, child_name: str | None) -> list[Lessons]:
    """What to teach next, for one child, or for all when no name is given."""
    return of_children(outside, child_name, lambda *of: lessons_of(gather.pupil(*of)))


def lessons_of(pupil: Pupil) -> Lessons:
    every = looks.looks(pupil)
    ready = teaching.lessons(pupil, every, stuck.stuck(pupil, every))
    return Lessons(pupil.child, ready, too_much(pupil, every))


def too_much(pupil: Pupil, every: Iterable[Look]) -> bool:
    """Whether new cards wait today until more of what is in play holds."""
    return plan.choice(pupil, every, pupil.child.minutes, Random(0)).too_much


def briefs(outside: Outside, child_name: str | None, weeks: int = brief.WEEKS) -> list[Brief]:
    """So many weeks in short, for one child, or for all when no name is given."""
    return of_children(outside, child_name, lambda book, child, day: brief_of(book, child, day, weeks))


def brief_of(book: Book, child: Child, day: int, weeks: int) -> Brief:
    planned = gather.sittings_up_to(book, child, day)
    counted = gather.answers(
        book, child.key, since_day=brief.first_day(day, max(weeks, brief.WEEKS)), until_day=day
    )
    pupil = gather.pupil(book, child, day, planned, counted)
    return brief.brief(pupil, counted, weeks)


def stuck_of(outside: Outside, name: str | None) -> list[StuckOf]:
    def tell(book: Book, child: Child, day: int) -> StuckOf:
        pupil = gather.pupil(book, child, day)
        return StuckOf(child, stuck.stuck(pupil, looks.looks(pupil)))

    return of_children(outside, name, tell)


def squares_of(outside: Outside, name: str | None) -> list[SquaresOf]:
    def tell(book: Book, child: Child, day: int) -> SquaresOf:
        return SquaresOf(child, squares.squares(looks.looks(gather.pupil(book, child, day))))

    return of_children(outside, name, tell)


def verify(outside: Outside) -> Proof:
    """Whether the book is sound and memory rebuilds to the same bits."""
    from review.app import missing  # no other command here asks why a child misses

    with reading(outside) as book:
        problems = tuple(book.verify(gather.remember()) or missing.problems(book))
        children, answers, events = book.counts()
        words = STANDARD if problems else family.words_of_all(gather.family_of(book))
        return Proof(outside.book, problems, children, answers, events - answers, words)
