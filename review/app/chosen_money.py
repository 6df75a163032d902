"""Whose money and measures the lists show, as the book keeps it: said once, for every child."""

from typing import NamedTuple

from review import gather
from review.app import chosen_words
from review.core import homes
from review.errors import BookError, BookMissing
from review.gather import Outside


class Fitting(NamedTuple):
    """What a list of sets shows."""

    money: str = homes.EVERY
    had: frozenset[str] = frozenset()  # sets that a child has: these are always shown

    def shows(self, set_id: str) -> bool:
        return set_id in self.had or homes.fits(set_id, self.money)


def fitting(outside: Outside) -> Fitting:
    """Which sets a family is shown: all of them where nobody chose, or where there is no book to tell."""
    try:
        with gather.reading(outside) as book:
            children = gather.family_of(book)
    except (BookError, BookMissing):
        return Fitting()
    had = frozenset(chosen.set_id for child in children for chosen in child.sets)
    return Fitting(homes.money_of(children), had)


def choose(outside: Outside, money: str) -> None:
    """Kept among the family's words, so that it is forgotten and merged as they are."""
    chosen_words.choose(outside, {"money": money})
