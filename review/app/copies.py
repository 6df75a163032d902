"""The copying exercise before a placement: whether it is worth a minute, and its answers kept."""

from collections.abc import Callable, Sequence

from review.app import sittings
from review.book.store import Book
from review.core import habits
from review.core.copying import YOUNGEST, Copying
from review.core.model import Answer, Pupil
from review.core.warmup import Summary
from review.errors import Interrupted, Mendable
from review.gather import Outside

Front = Callable[
    [Copying, Sequence[Answer], Callable[[Answer], None], Callable[[], int], Callable[[], None] | None],
    Summary,
]


def is_wanted(pupil: Pupil) -> bool:
    """From 8 on, where time may count and too little was copied so far to know the child's own."""
    able = pupil.settings.age >= YOUNGEST and not pupil.settings.untimed
    return able and not habits.copying_ms(pupil.settings.habits, pupil.settings.age)


def check_age(pupil: Pupil) -> None:
    if pupil.settings.age < YOUNGEST:
        raise Mendable(
            f"The copying exercise is for children from {YOUNGEST} on; until then the time to type goes by "
            "age. Leave out --copying."
        )


def play(book: Book, outside: Outside, pupil: Pupil, front: Front) -> Summary:
    """A minute of copying, each number kept."""
    child, settings = pupil.child, pupil.settings
    copying = Copying(book.id, child.key, child.name, settings.age, pupil.day, settings.untimed)
    kept = sittings.Kept(book, outside, child, pupil.day)
    try:
        return front(copying, (), kept.add, lambda: 0, None)
    except Interrupted as stopped:
        if stopped.exit_code == Interrupted.exit_code:
            sittings.after_sitting(book, child, pupil.day)
        raise
