"""Number words in the place of digits: read where a fact or a count is asked for, asked again elsewhere."""

import pytest

from review.core import answers
from review.core.answers import is_in_words, judge
from review.core.skills import ROOMS as ROOMS_OF_KINDS
from review.core.skills.wording import in_words
from tests.core.test_answers import problem

TO_A_HUNDRED = [(number, in_words(number)) for number in range(101)]


@pytest.mark.parametrize("form", ["whole", "counted"])
def test_who_types_a_number_word_knows_the_fact(form: str) -> None:
    """The whole space: each word is that number and no other."""
    for number, word in TO_A_HUNDRED:
        spaced = word.upper().replace("-", " ")
        for typed in (word, f"{word}.", f" = {spaced} "):
            assert judge(problem(form, str(number)), typed) == "right"
            assert judge(problem(form, str(number + 1)), typed) == "other"
        assert is_in_words(problem(form, "7"), word)
        assert not is_in_words(problem(form, "7"), str(number))


@pytest.mark.parametrize("text", ["to", "for", "a", "an", "won", "ate", "n", "sixten", "twentyone", "one two",
    "fourty", "one hundred and one", "thousand", "no", "and", "minus four"])  # fmt: skip
def test_a_slip_in_a_number_word_is_asked_again(text: str) -> None:
    assert judge(problem("whole", "4"), text) == "unreadable"


@pytest.mark.parametrize("form", ["list", "parts", "quantity", "money", "decimal", "numbers", "remainder"])
def test_other_forms_read_no_number_words(form: str) -> None:
    assert judge(problem(form, "4"), "four") == "unreadable"


FACTS = (
    "sum:", "difference:", "product:", "quotient:", "bond:", "double:", "half:", "count-by:", "add-several:",
    "mental-sum:", "mental-difference:", "mental-product:", "mental-quotient:", "word-problem:",
    "quantity:dots/", "quantity:rows/",
)  # fmt: skip


@pytest.mark.parametrize("begun", FACTS)
def test_a_fact_or_a_count_takes_words(begun: str) -> None:
    one = problem("whole", "4")._replace(card=f"{begun}4", kind=begun.partition(":")[0])
    assert judge(one, "four") == "right"
    assert judge(one, "five") == "other"


def test_those_are_all() -> None:
    assert set(FACTS) == set(answers.IN_WORDS)


WRITTEN = (
    "number-name", "place-value", "roman", "rounding", "order", "compare", "sequence", "decimal",
    "column-sum", "column-difference", "column-product", "pairs", "template", "vocabulary",
)  # fmt: skip


@pytest.mark.parametrize("kind", WRITTEN)
def test_where_writing_digits_is_the_idea_words_are_asked_again(kind: str) -> None:
    one = problem("whole", "4")._replace(card=f"{kind}:4", kind=kind)
    assert {judge(one, word) for _, word in TO_A_HUNDRED} == {"unreadable"}


def test_teens_as_ten_and_some_are_written_in_digits() -> None:
    dots, teens, ten_and = (
        problem("whole", "14")._replace(card=f"quantity:{task}/11..19", kind="quantity")
        for task in ("dots", "teens", "ten-and")
    )
    assert judge(dots, "fourteen") == "right"
    assert judge(teens, "fourteen") == judge(ten_and, "fourteen") == "unreadable"


def test_every_card_that_takes_words_is_of_a_kind_there_is() -> None:
    assert {begun.partition(":")[0] for begun in answers.IN_WORDS} < set(ROOMS_OF_KINDS)
    assert not {begun.partition(":")[0] for begun in answers.IN_WORDS}.intersection(WRITTEN)
