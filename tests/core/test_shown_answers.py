"""An answer that is shown has its numbers as the problem is told: 5,277; nothing else of it changes."""

import re
from random import Random

import pytest

from review import catalogue
from review.core import card_sets, judging, pages, skills
from review.core.findings import Evidence
from review.core.house_words import problem as in_words
from review.core.house_words import standard, written
from review.core.model import Card, Problem, Words
from review.render import miss_lines


@pytest.mark.parametrize("name", catalogue.names())
def test_no_long_number_is_shown_unlike_what_is_told(name: str) -> None:
    for card in card_sets.cards([catalogue.shipped(name)]):
        problem = skills.problem(card.key, skills.draw(card.key, Random(card.key)))
        shown = skills.shown_answer(problem)
        assert shown.replace(",", "").replace("−", "-") == problem.expected.replace(",", "")
        assert judging.judge(problem, shown) == "right"
        for number in re.findall(r"(?<![\d.,:/])\d{4,}", shown):
            assert f"{int(number):,}" not in problem.told


@pytest.mark.parametrize("name", catalogue.names())
@pytest.mark.parametrize("words", [Words(decimals="comma"), Words("any", "maths", "comma", "dot", "colon")])
def test_what_a_family_reads_as_the_answer_is_it_when_they_type_it(name: str, words: Words) -> None:
    """Of 3,219 km it said 3,219 m to a family that writes a decimal comma."""
    for card in card_sets.cards([catalogue.shipped(name)]):
        for seed in range(2):
            problem = skills.problem(card.key, skills.draw(card.key, Random(f"{card.key}{seed}")))
            shown = skills.shown_answer(in_words(problem, words))
            assert judging.judge(problem, standard(shown, problem, words)) == "right", (problem, shown)


@pytest.mark.parametrize(
    ("key", "asked", "shown"),
    [
        ("column-sum:4+4/1-within", "2581+2365", "4,946"),
        ("product:6x7", "6x7", "42"),
        ("negative:down/1..10", "3-8", "−5"),
    ],
)
def test_the_key_of_a_sheet_says_it_as_a_screen_does(key: str, asked: str, shown: str) -> None:
    problem = skills.problem(key, asked)
    assert skills.shown_answer(problem) == shown
    assert pages.entry(1, problem).lines[0] == (shown, problem.prompt)


def test_where_a_space_is_in_a_number_commas_part_the_list() -> None:
    """The key said “7 000 800 90”, which is one number as well as three."""
    problem = next(one for one in map(drawn, place_cards()) if "□ + □" in one.prompt)
    parted, words = skills.shown_answer(problem), Words(decimals="comma")
    assert (
        written(parted, words)
        == skills.shown_answer(in_words(problem, words))
        == parted.replace(",", "\u00a0").replace(" ", ", ")
    )
    assert judging.judge(problem, skills.shown_answer(in_words(problem, words))) == "right"


def place_cards() -> tuple[Card, ...]:
    return card_sets.cards([catalogue.shipped("place-value-to-9999")])


def drawn(card: Card) -> Problem:
    return skills.problem(card.key, skills.draw(card.key, Random(card.key)))


def test_a_year_stays_a_year() -> None:
    (card,) = (
        card for card in card_sets.cards([catalogue.shipped("calendar-words")]) if card.key.endswith("=2028")
    )
    problem = skills.problem(card.key, skills.draw(card.key, Random(0)))
    assert skills.shown_answer(problem) == "2028"


def test_a_minus_stays_as_it_is_told() -> None:
    """In a list of a family's own, whose answers are told as they were written."""
    own = Problem("k", "pairs", "", "The lake by night:", "", "quantity", "-5", "The lake by night: -5")
    assert skills.shown_answer(own) == "-5"
    assert skills.shown_answer(own._replace(told="1 \u2212 6 = \u22125")) == "\u22125"


def test_with_a_decimal_comma_thousands_are_set_apart_by_a_space() -> None:
    problem = skills.problem("column-sum:4+4/1-within", "2581+2365")
    assert skills.shown_answer(in_words(problem, Words(decimals="comma"))) == "4\u00a0946"


def test_a_miss_is_told_in_the_numbers_of_its_problem() -> None:
    one = Evidence(740_000, "column-difference:4-4/1", "7561-7428", "133", "1133")
    assert miss_lines.answer_line(one).startswith("7,561 − 7,428 = 1,133 (expected 133), ")


@pytest.mark.parametrize("given", ["-9", "−9"])
def test_a_minus_is_as_long_as_the_one_in_the_problem(given: str) -> None:
    """Beside “−7 + 2 =” the answer stood with the hyphen that is typed for it."""
    one = Evidence(740_000, "negative:up-below/1..10", "-7+2", "-5", given)
    assert miss_lines.answer_line(one).startswith("−7 + 2 = −9 (expected −5), ")
