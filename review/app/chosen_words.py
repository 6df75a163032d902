"""A family's own words, as the book keeps them: said once, for every child."""

from collections.abc import Mapping

from review import gather, writes
from review.core import family
from review.core.model import STANDARD, Words
from review.errors import BookError, BookMissing
from review.gather import Outside


def chosen(outside: Outside) -> Words:
    """The family's words; the program's own where nobody chose, or where there is no book to tell."""
    try:
        with gather.reading(outside) as book:
            return family.words_of_all(gather.family_of(book))
    except (BookError, BookMissing):
        return STANDARD


def choose(outside: Outside, told: Mapping[str, str]) -> Words:
    with writes.writing(outside) as book:
        before = next((child.words for child in gather.family_of(book)), {})
        writes.write_of_all(book, outside, {"words": {**before, **told}})
        return family.words_of_all(gather.family_of(book))
