"""Whose school years the family reads, as the book keeps it: said once, for every child."""

from review import gather, writes
from review.core import family
from review.core.school_years import AGES
from review.errors import BookError, BookMissing
from review.gather import Outside


def chosen(outside: Outside) -> str:
    """By ages where nobody chose. The catalogue can be looked at without a book, or beside one in trouble."""
    try:
        with gather.reading(outside) as book:
            return family.years(gather.family_of(book)) or AGES
    except (BookError, BookMissing):
        return AGES


def choose(outside: Outside, choice: str) -> None:
    """For every child at once, so that it is forgotten and merged with them."""
    with writes.writing(outside) as book:
        known = gather.family_of(book)
        if not known:
            gather.child_named(known, None)
        told = {"years": choice}
        drafts = [
            writes.draft(outside, child, "profile", told, gather.writing_day(outside, child))
            for child in known
        ]
        book.record(drafts, gather.remember())
