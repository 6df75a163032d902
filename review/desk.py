"""What a parent looks at: one function a command. Reading only."""

from review import gather
from review.core import looks, squares, stuck
from review.core.model import Child
from review.gather import Outside, of_children
from review.replies import SquaresOf, StuckOf
from review.store import Book


def stuck_of(outside: Outside, name: str | None) -> list[StuckOf]:
    def tell(book: Book, child: Child, day: int) -> StuckOf:
        pupil = gather.pupil(book, child, day)
        return StuckOf(child, stuck.stuck(pupil, looks.looks(pupil)))

    return of_children(outside, name, tell)


def squares_of(outside: Outside, name: str | None) -> list[SquaresOf]:
    def tell(book: Book, child: Child, day: int) -> SquaresOf:
        return SquaresOf(child, squares.squares(looks.looks(gather.pupil(book, child, day))))

    return of_children(outside, name, tell)
