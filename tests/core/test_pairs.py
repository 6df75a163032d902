"""Pairs of a parent's own: any text goes into a key and comes back."""

import re
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.keys import well_formed
from review.core.model import Skill
from review.core.skills.pairs import KINDS, pair_of
from review.core.text import clean

(PAIRS,) = KINDS
WORDS = st.text(st.characters(codec="utf-8"), min_size=1, max_size=30).map(clean).filter(bool)
CALENDAR = Path(__file__).parents[2] / "card_sets" / "calendar-words.toml"


def skill(*pairs: tuple[str, str]) -> Skill:
    return Skill("s", "S", "pairs", "accuracy", {"pairs": pairs})


@given(WORDS, WORDS)
def test_any_pair_is_a_card(prompt: str, answer: str) -> None:
    (key,) = PAIRS.keys(skill((prompt, answer)))
    asked = PAIRS.draw(key, Random(0))
    one = PAIRS.problem(key, asked)
    assert well_formed(key, asked)
    assert pair_of(key) == (prompt, answer) == (one.prompt, one.expected)
    assert all(len(line) <= 40 for help in one.helps for line in help.text.split("\n"))
    if not list(PAIRS.check(skill((prompt, answer)))):
        assert judge(one, answer) == "right"


def test_a_mended_answer_is_a_new_card() -> None:
    assert (
        set(PAIRS.keys(skill(("days in a week", "7")))) & set(PAIRS.keys(skill(("days in a week", "8"))))
        == set()
    )


def test_numbers_are_read_as_numbers_and_words_as_words() -> None:
    number, word = (
        PAIRS.problem(key, key.partition(":")[2])
        for key in PAIRS.keys(skill(("Metres in a kilometre:", "1,000"), ("After April:", "May")))
    )
    assert (number.form, judge(number, "1000"), judge(number, "ten")) == ("whole", "right", "unreadable")
    assert (word.form, judge(word, "may"), judge(word, "June")) == ("text", "right", "other")
    assert number.told == "Metres in a kilometre: 1,000"
    assert [help.text for help in word.helps] == ["M□□", "After April: May"]
    assert [help.text for help in number.helps] == [
        "It is more than 0.\nIt is less than 3,000.",
        "Metres in a kilometre: 1,000",
    ]


NUMBERS = st.integers(0, 10**6) | st.integers(-(10**15) + 1, 10**15 - 1)


@given(NUMBERS)
def test_the_first_help_of_a_number_says_where_it_lies_and_never_the_number(number: int) -> None:
    (key,) = PAIRS.keys(skill(("How many?", str(number))))
    first, whole = PAIRS.problem(key, PAIRS.draw(key, Random(0))).helps
    said = [int(text.replace(",", "").replace("−", "-")) for text in re.findall(r"−?\d[\d,]*", first.text)]
    assert (first.step, whole.step) == ("question", "steps")
    assert number not in said
    assert all(len(line) <= 40 for line in first.text.split("\n"))
    if abs(number) < 10:
        assert first.text == f"Is it more or less than {said[0]}?"
    else:
        assert said[0] < number < said[1]
        assert sum(said) != 2 * number or number % 10  # the middle of round numbers is known at once


@pytest.mark.parametrize("answer", ["pass", "Stop", " ? ", "PASS.", ""])
def test_what_a_child_could_not_answer_is_refused(answer: str) -> None:
    (found,) = PAIRS.check(skill(("fine", "fine"), ("a word", answer)))
    assert found[0] == "pairs[2]"


def test_overlong_texts_are_refused() -> None:
    places = [
        place for place, *_ in PAIRS.check(skill(("p" * 41, "a"), ("p", "a" * 31), ("p" * 40, "a" * 30)))
    ]
    assert places == ["pairs[1]", "pairs[2]"]


def test_another_cards_pair_is_refused() -> None:
    with pytest.raises(ValueError, match="does not belong"):
        PAIRS.problem("pairs:a=b", "a=c")
