"""What a parent looks at: one function a command. Reading only."""

from collections.abc import Callable, Iterable
from typing import TypeVar

from review import gather
from review.app import reading
from review.core import looks, squares, stuck
from review.core.model import Child
from review.gather import Outside
from review.replies import SquaresOf, StuckOf
from review.store import Book

T = TypeVar("T")


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
