"""Whose school years the family reads, as the book keeps it: said once, for every child."""

from review import gather, writes
from review.core import family
from review.core.school_years import AGES
from review.errors import BookError, BookMissing
from review.gather import Outside


def chosen(outside: Outside) -> str:
    """Whose school years the family reads; ages where nobody chose, or where there is no book to tell: the
    catalogue can be looked at without one, or beside one in trouble."""
    try:
        with gather.reading(outside) as book:
            return family.years(gather.family_of(book)) or AGES
    except (BookError, BookMissing):
        return AGES


def choose(outside: Outside, choice: str) -> None:
    with writes.writing(outside) as book:
        writes.write_of_all(book, outside, {"years": choice})
