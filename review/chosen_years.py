"""Whose school years the family reads, as the book keeps it: said once, for every child."""

from review import app, clock, gather
from review.core import family
from review.core.model import Child, Draft
from review.core.school_years import AGES
from review.errors import BookError, BookMissing
from review.gather import Outside


def chosen(outside: Outside) -> str:
    """By ages where nobody chose. The catalogue can be looked at without a book, or beside one in trouble."""
    try:
        with app.reading(outside) as book:
            return family.years(gather.family_of(book)) or AGES
    except (BookError, BookMissing):
        return AGES


def choose(outside: Outside, choice: str) -> None:
    """For every child at once, so that it is forgotten and merged with them."""
    with app.writing(outside) as book:
        known = gather.family_of(book)
        if not known:
            gather.child_named(known, None)
        drafts = [draft(outside, child, choice) for child in known]
        book.record(drafts, gather.remember())


def draft(outside: Outside, child: Child, choice: str) -> Draft:
    day, offset = gather.writing_day(outside, child), clock.offset_min(child.zone, outside.now_ms)
    return Draft(child.key, "profile", day, outside.now_ms, offset, "", {"years": choice})
