"""Answers in words: every way to write one is read, another is not, and any string is survived."""

from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.forms_words import FORMS, VALUES, read_number_words, spelt
from review.core.model import Problem
from review.core.skills.wording import in_words
from tests.tables import rows

NUMBERS = st.integers(0, 999_999)


def problem(form: str, expected: str) -> Problem:
    return Problem("sum:1+1", "sum", "1+1", "?", "?", form, expected, "?")


def test_published_names_are_read_with_and_without_and() -> None:
    """number_names_en.csv: three libraries agree on each (Unicode's ICU, num2words, inflect)."""
    for row in rows("number_names_en.csv"):
        for column in ("with_and", "without_and"):
            assert read_number_words(row[column]) == int(row["n"]), row


def test_every_number_to_ten_thousand_is_read_from_its_words_and_no_two_are_alike() -> None:
    for number in range(10_001):
        assert read_number_words(in_words(number)) == number
        assert read_number_words(" ".join(spelt(number))) == number


@given(NUMBERS)
def test_the_words_of_this_room_are_those_of_the_prompts(number: int) -> None:
    assert list(spelt(number)) == in_words(number).replace("-", " ").replace(" and ", " ").split()


def ways(number: int) -> Iterator[str]:
    """How one and the same number may be written."""
    name = in_words(number)
    yield from (name, name.upper(), f"  {name}. ", name.replace("-", " "), name.replace("-", ""))
    yield from (name.replace(" and ", " "), name.replace(" hundred", "hundred"), name.replace("one ", "a "))
    yield name.replace("thousand ", "thousand, ")


@given(NUMBERS, NUMBERS)
def test_every_way_of_writing_a_number_counts_and_another_number_does_not(number: int, other: int) -> None:
    for way in ways(number):
        assert judge(problem("number-word", in_words(number)), way) == "right", way
        if other != number:
            assert judge(problem("number-word", in_words(other)), way) == "other", way


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("fourty two", 42),
        ("ninty-nine", 99),
        ("eigth", 8),
        ("sevnteen", 17),
        ("sixten", 16),
        ("six teen", 16),
        ("fiveteen", 15),
        ("twoty one", 21),
        ("too hundred and for", 204),
        ("fourhundredandtwelve", 412),
        ("a thousend and one", 1001),
        ("nintey", 90),
        ("tweleve", 12),
        ("hundered and one", None),
        ("forten", None),  # fourteen or forty
        ("none", None),  # nine or one
        ("six seven", None),
        ("twenty eleven", None),
        ("twelve hundred", None),
        ("thousand", None),
        ("and", None),
        ("42", None),
        ("one million", None),
        ("purple", None),
        ("", None),
    ],
)
def test_misspelt_words_count_where_one_word_only_is_meant(text: str, number: int | None) -> None:
    """What children write is common practice, no source."""
    assert read_number_words(text) == number


WORDS = [word for word in VALUES if len(word) > 3]


@pytest.mark.parametrize("word", WORDS)
def test_one_slip_in_a_word_never_makes_another_number_of_it(word: str) -> None:
    """A letter left out or two swapped: the same word, or nothing that can be read; but eighty without its
    last letter is eight."""
    for at in range(len(word)):
        slips = (word[:at] + word[at + 1 :], word[:at] + word[at : at + 2][::-1] + word[at + 2 :])
        for slip in {*slips} - {*VALUES}:
            read = read_number_words(f"one {slip}" if word in ("hundred", "thousand") else slip)
            assert read in (VALUES[word], None), slip


@given(st.sampled_from([*FORMS]), st.text(max_size=250))
def test_any_string_is_survived(form: str, text: str) -> None:
    expected = {"number-word": "six", "odd-even": "odd", "yes-no": "no", "numbers": "1 2"}[form]
    assert judge(problem(form, expected), text) in ("right", "other", "unreadable")


@given(st.text(st.sampled_from([*"abeghnortuvwy -"]), max_size=40))
def test_any_letters_are_survived(text: str) -> None:
    value = read_number_words(text)
    assert value is None or 0 <= value < 1_000_000


@pytest.mark.parametrize(
    ("form", "text", "verdict"),
    [
        ("odd-even", "odd", "right"),
        ("odd-even", " ODD. ", "right"),
        ("odd-even", "o", "right"),
        ("odd-even", "even", "other"),
        ("odd-even", "e", "other"),
        ("odd-even", "yes", "unreadable"),
        ("odd-even", "7", "unreadable"),
        ("yes-no", "odd", "unreadable"),
        ("yes-no", "Yes!", "right"),
        ("yes-no", "y", "right"),
        ("yes-no", "no", "other"),
        ("yes-no", "", "unreadable"),
    ],
)
def test_one_of_two_words(form: str, text: str, verdict: str) -> None:
    expected = {"odd-even": "odd", "yes-no": "yes"}[form]
    assert judge(problem(form, expected), text) == verdict


@given(st.sets(st.integers(1, 100), min_size=1, max_size=12))
def test_numbers_count_in_any_order_and_however_they_are_parted(found: set[int]) -> None:
    expected = problem("numbers", " ".join(map(str, sorted(found))))
    downward = [str(number) for number in sorted(found, reverse=True)]
    for apart in (" ", ",", ", ", "; ", " and "):
        assert judge(expected, apart.join(downward)) == "right"
        assert judge(expected, apart.join([*downward, downward[0]])) == "right"  # twice is once
    assert judge(expected, " ".join([*downward, "101"])) == "other"
    if len(downward) > 1:
        assert judge(expected, " ".join(downward[1:])) == "other"


@pytest.mark.parametrize("text", ["", "1 x 12", "1 2 3.", "1,2,,3", "-1 2", "1000", "1.5", "one two"])
def test_numbers_that_are_read_and_those_that_are_not(text: str) -> None:
    wanted = {1, 2, 3} if text in ("1 2 3.", "1,2,,3") else None
    assert FORMS["numbers"].read(text) == wanted
