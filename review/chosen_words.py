"""A family's own words, as the book keeps them: said once, for every child."""

from collections.abc import Mapping

from review import gather, writes
from review.core import family
from review.core.model import STANDARD, Words
from review.errors import BookError, BookMissing
from review.gather import Outside


def chosen(outside: Outside) -> Words:
    """The program's own where nobody chose, or where there is no book to tell."""
    try:
        with gather.reading(outside) as book:
            return family.words_of_all(gather.family_of(book))
    except (BookError, BookMissing):
        return STANDARD


def choose(outside: Outside, told: Mapping[str, str]) -> Words:
    """For every child at once, so that it is forgotten and merged with them."""
    with writes.writing(outside) as book:
        known = gather.family_of(book)
        if not known:
            gather.child_named(known, None)
        whole = {**known[0].words, **told}
        drafts = [
            writes.draft(outside, child, "profile", {"words": whole}, gather.writing_day(outside, child))
            for child in known
        ]
        book.record(drafts, gather.remember())
        return family.words_of_all(gather.family_of(book))
