"""What the cards of the catalogue are called, as a parent reads them in a list."""

import re

from review import catalogue
from review.core import card_sets, looks, skills
from review.core.model import Card, Words

TITLE_MOST = 65  # columns: one line of a report at a usual width, with its indent and a few words behind
USUAL = 50  # most titles have no more


def every() -> tuple[Card, ...]:
    return card_sets.cards(catalogue.whole())


def titles() -> list[str]:
    return [skills.traits(card.key).title for card in every()]


def test_titles_fit_on_a_line_and_nearly_all_are_short() -> None:
    found = titles()
    assert [title for title in found if len(title) > TITLE_MOST] == []
    assert sum(len(title) > USUAL for title in found) < 0.03 * len(found)


def test_no_title_says_what_a_parent_would_have_to_look_up() -> None:
    hard = re.compile(
        r"\bnoughts?\b|\bdenominators?\b|\blike (coins|parts)\b|\bput together\b", re.IGNORECASE
    )
    own = ("vocabulary:", "pairs:")
    cards = [card.key for card in every() if not card.key.startswith(own)]
    assert [key for key in cards if hard.search(skills.traits(key).title)] == []


def test_an_example_of_parts_has_as_many_digits_as_the_numbers() -> None:
    assert skills.traits("place-value:expand/2").title == "2-digit numbers split up, like 30 + 4"
    assert skills.traits("place-value:compose/3/zero").title == "3-digit numbers from parts, like 300 + 5"
    assert skills.traits("place-value:compose/4").title.endswith("like 3,000 + 400 + …")


def test_parts_of_a_number_are_named_as_one_says_them() -> None:
    assert skills.traits("fraction:unit-of/2").title == "half of a number"
    assert skills.traits("fraction:unit-of/5-8-10").title == "a fifth, an eighth or a tenth of a number"
    assert skills.traits("fraction:compare/3-6-12").title == "comparing fractions, up to twelfths"


def test_a_family_that_carries_borrows_where_something_is_taken() -> None:
    def told(key: str) -> str:
        return looks.traits_of(key, Words("carry")).title

    assert told("column-sum:3+3/2-within") == "3-digit + 3-digit in columns, carry twice"
    assert told("column-difference:3-3/1") == "3-digit − 3-digit in columns, one borrow"
    assert told("mental-difference:3-1/regroup-both") == "3-digit − 1-digit, borrow from tens and hundreds"
