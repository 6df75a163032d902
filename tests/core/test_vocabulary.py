"""Words of arithmetic: each is asked both ways, and what children write for it is read."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import FORMS, judge
from review.core.forms_stories import KNOWN, one_slip
from review.core.keys import well_formed
from review.core.model import Problem, Skill
from review.core.skills.amounts import read_out
from review.core.skills.vocabulary import ASK, ASKED, KINDS, WORDS
from tests.core.shown import for_a_child, gives_away

(VOCABULARY,) = KINDS


def skill(words: tuple[str, ...], ask: tuple[str, ...] = ASK) -> Skill:
    return Skill("s", "S", "vocabulary", "accuracy", {"words": words, "ask": ask})


def problems(*words: str, ask: tuple[str, ...] = ASK) -> list[Problem]:
    return [VOCABULARY.problem(key, key.partition(":")[2]) for key in VOCABULARY.keys(skill(words, ask))]


EVERY = problems(*WORDS)


def test_every_word_is_asked_both_ways_and_no_clue_twice() -> None:
    assert len(ASKED) == len(EVERY) == sum(word.meaning is not None for word in WORDS.values()) + len(WORDS)
    assert len({one.expected for one in problems(*WORDS, ask=("term",))}) == len(WORDS)


@pytest.mark.parametrize("one", EVERY, ids=lambda one: str(one.prompt)[:25])
def test_every_card_is_sound(one: Problem) -> None:
    assert well_formed(one.card, one.asked)
    assert for_a_child(one)
    assert not gives_away(one)
    assert judge(one, one.expected) == "right"
    assert [help.step for help in one.helps] in (["question", "blank", "steps"], ["question", "steps"])
    assert VOCABULARY.traits(one.card).fact


@pytest.mark.parametrize("one", problems(*WORDS, ask=("term",)), ids=lambda one: str(one.expected))
def test_no_clue_or_hint_says_the_word(one: Problem) -> None:
    early = f"{one.prompt} {one.helps[0].text}".casefold()
    assert not re.search(rf"\b{one.expected}s?\b", early)


@pytest.mark.parametrize("one", EVERY, ids=lambda one: str(one.prompt)[:25])
def test_what_is_read_out_has_words_alone(one: Problem) -> None:
    assert re.fullmatch(r"[A-Za-z ,.:?-]+", one.say)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("The numerator of 2/3 is", "The numerator of two thirds is"),
        ("3 × 4 = 12, so 12 has 3 as a", "three times four equals twelve, so twelve has three as a"),
        ("Two equal parts of 10: 5 and", "Two equal parts of ten: five and"),
        ("1,000 and 12,345:", "one thousand and twelve thousand three hundred and forty-five:"),
        ("£2.05, 7:05, 0.5, 3/4/2027, B2, 2-3", "£2.05, 7:05, 0.5, 3/4/2027, B2, 2-3"),
    ],
)
def test_numbers_that_stand_alone_are_read_out_as_words(text: str, said: str) -> None:
    assert read_out(text) == said


# Meanings that are numbers, told again by arithmetic: an oracle of its own for each (common knowledge).
NUMBERS = {
    "The remainder of 7 ÷ 2 is": 7 % 2,
    "How many addends has 2 + 3 + 4?": len([2, 3, 4]),
    "The factors of 7 are 1 and": max(n for n in range(1, 8) if 7 % n == 0),
    "The multiple of 5 after 20 is": min(n for n in range(21, 99) if n % 5 == 0),
    "In 20 ÷ 4 the divisor is": 4,
    "In 20 ÷ 4 the dividend is": 20,
    "The double of 6 is": 6 + 6,
    "The half of 14 is": next(n for n in range(15) if n + n == 14),
    "How many digits has 305?": len(str(305)),
    "Even numbers end in 0, 2, 4, 6 or": ({n % 10 for n in range(0, 100, 2)} - {0, 2, 4, 6}).pop(),
    "Odd numbers end in 1, 3, 5, 7 or": ({n % 10 for n in range(1, 100, 2)} - {1, 3, 5, 7}).pop(),
    "Two equal parts of 10: 5 and": 10 - 5,
    "The prime after 5 is": min(n for n in range(6, 30) if all(n % d for d in range(2, n))),
    "The square of 5 is": sum(5 for _ in range(5)),
    "The numerator of 2/3 is": 2,
    "The denominator of 2/3 is": 3,
    "Perimeter of a square of side 2:": 2 + 2 + 2 + 2,
    "Area of a square of side 3:": len([(x, y) for x in range(3) for y in range(3)]),
}


def test_meanings_in_numbers_are_true() -> None:
    assert {one.prompt: int(one.expected) for one in EVERY if one.form == "whole"} == NUMBERS


# --- answers ------------------------------------------------------------------------------------------

(PRODUCT,) = problems("product", ask=("term",))
(SUM,) = problems("sum", ask=("term",))


@pytest.mark.parametrize(
    "text", ["product", " Product. ", "a product", "The product", "it is a product", "products", "produkt",
             "prodcut", "prduct", "producct", "ＰＲＯＤＵＣＴ"]
)  # fmt: skip
def test_what_counts_for_a_product(text: str) -> None:
    assert judge(PRODUCT, text) == "right"


@pytest.mark.parametrize("text", ["sum", "quotient", "multiply", "produce it", "pruduckt", "table", "p"])
def test_what_is_another_word(text: str) -> None:
    assert judge(PRODUCT, text) == "other"


@pytest.mark.parametrize("text", ["", "15", "?", "  ", "3 x 5".replace("x", "×"), "...", "\u200b"])
def test_what_is_no_word_is_asked_again(text: str) -> None:
    assert judge(PRODUCT, text) == "unreadable"


def test_words_for_the_same_thing_count_and_short_words_need_their_letters() -> None:
    assert judge(SUM, "total") == judge(SUM, "the total") == "right"
    assert judge(SUM, "som") == judge(SUM, "some") == "other"


def test_no_word_of_arithmetic_is_a_misspelling_of_another() -> None:
    """Multiple and multiply, dividend and divided: one letter apart, and not the same."""
    assert one_slip("multiple", "multiply")
    for one in problems(*WORDS):
        if one.form == "term":
            others = (KNOWN | WORDS.keys()) - set(one.unit.split(";"))
            taken = [word for word in others if judge(one, word) == "right"]
            assert taken == [], one.expected


@given(st.sampled_from([one for one in EVERY if one.form == "term"]), st.data())
def test_one_slip_in_a_long_word_counts(one: Problem, data: st.DataObject) -> None:
    word = one.expected
    place = data.draw(st.integers(0, len(word) - 1))
    slipped = data.draw(st.sampled_from([
        word[:place] + word[place + 1 :], word[:place] + "x" + word[place:],
        word[:place] + "x" + word[place + 1 :],
        word[:place] + word[place : place + 2][::-1] + word[place + 2 :],
    ]))  # fmt: skip
    assert slipped in KNOWN or judge(one, slipped) == (
        "right" if len(word) >= 6 or slipped == word else "other"
    )
    assert judge(one, f"{slipped[:2]}xyz{slipped[2:]}") == "other"


@given(st.text(max_size=40), st.sampled_from(["sum;total", "product", "", "prime;prime number"]))
def test_any_text_is_survived(text: str, unit: str) -> None:
    found = FORMS["term"].read(text, unit)
    assert found is None or isinstance(found, str)


def edits(a: str, b: str) -> int:
    """Damerau-Levenshtein distance with neighbours swapped, by its recurrence: an oracle for one slip."""
    rows = {(i, j): max(i, j) for i in range(len(a) + 1) for j in range(len(b) + 1) if not (i and j)}
    for i in range(1, len(a) + 1):
        for j in range(1, len(b) + 1):
            same = rows[i - 1, j - 1] + (a[i - 1] != b[j - 1])
            rows[i, j] = min(rows[i - 1, j] + 1, rows[i, j - 1] + 1, same)
            if i > 1 and j > 1 and a[i - 2 : i] == b[j - 2 : j][::-1]:
                rows[i, j] = min(rows[i, j], rows[i - 2, j - 2] + 1)
    return rows[len(a), len(b)]


@given(st.text("abc", max_size=6), st.text("abc", max_size=6))
def test_one_slip_is_a_distance_of_one(a: str, b: str) -> None:
    if a != b:
        assert one_slip(a, b) == (edits(a, b) == 1)


# --- the kind -----------------------------------------------------------------------------------------


def test_a_word_with_no_meaning_to_ask_is_refused_where_only_that_is_asked() -> None:
    assert [name for name, *_ in VOCABULARY.check(skill(("sum", "estimate"), ("meaning",)))] == ["words[2]"]
    assert not [*VOCABULARY.check(skill(("sum", "estimate")))]


def test_another_cards_words_are_refused() -> None:
    with pytest.raises(ValueError, match="does not belong"):
        VOCABULARY.problem("vocabulary:a=b", "a=c")


def test_a_card_whose_words_are_no_longer_here_can_be_asked_all_the_same() -> None:
    one = VOCABULARY.problem(
        "vocabulary:An%20old%20clue%3A=thing%3Bobject", "An%20old%20clue%3A=thing%3Bobject"
    )
    assert (one.prompt, judge(one, "an object"), [help.text for help in one.helps]) == (
        "An old clue:", "right", ["t□□□□", "The answer is thing."]
    )  # fmt: skip
