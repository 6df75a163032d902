"""What help says: as a teacher would say it, in numbers a child of that set knows.

Common practice, no source, but for what each line says holds in arithmetic: that is worked out again here.
"""

import re
from random import Random

import pytest

from review import catalogue
from review.core import card_sets
from review.core.answers import asks_for, judge
from review.core.keys import encode
from review.core.pictures import Array, TenFrames
from review.core.skills import draw, problem, traits
from tests.core.fact_space import text

# --- answers ------------------------------------------------------------------------------------------


def test_another_number_of_totals_is_asked_again() -> None:
    one = problem("add-several:4x1/within-50", "7+5+9+3")
    for given in ("24", "7 12 21 24", "12 21"):
        assert judge(one, given) == "unreadable", given
    assert judge(one, "12 21 25") == "other"
    assert judge(one, "12, 21, 24") == "right"
    assert asks_for(one) == "Type 3 numbers, like 5 6 7."
    assert asks_for(problem("add-several:3x1/within-20", "2+3+1")) == "Type 2 numbers, like 8 9."


def test_thousands_apart_are_no_list_of_another_length() -> None:
    one = problem("count-by:1000/on/up/0..20000", "1000,2000,3000,_,_,_")
    assert judge(one, "4,000, 5,000, 7,000") == "other"
    assert judge(one, "4 000, 5 000, 6 000") == "right"
    assert judge(one, "4,000") == "unreadable"


@pytest.mark.parametrize("given", ["-7", "minus 7", "Minus 7", "negative 7", "− 7", "NEGATIVE 7."])
def test_a_number_below_zero_may_be_in_words(given: str) -> None:
    one = problem("negative:down/1..10", "1-8")
    assert (one.expected, judge(one, given)) == ("-7", "right")
    assert judge(one, given.replace("7", "6")) == "other"
    assert judge(problem("negative:up/1..10", "-3+9"), "minus") == "unreadable"


# --- the head -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("asked", ["1+409", "409+1"])
def test_just_to_the_next_ten_goes_by_the_bond_of_ten(asked: str) -> None:
    sizes = "+".join(str(len(part)) for part in asked.split("+"))
    one = problem(f"mental-sum:{sizes}/regroup-ones", asked)
    assert text(one, "blank") == "9 + 1 = 10\n400 + 10 = □"


# --- Roman numerals -----------------------------------------------------------------------------------


def test_longer_numerals_take_longer() -> None:
    """1 to 12 have 2.2 letters in the middle, 13 to 20 have 3.3 (counted by hand)."""
    for way in ("read", "write"):
        small, teens, all_of_them = (
            traits(f"roman:subtractive/{way}/{span}").seconds for span in ("1..12", "13..20", "1..3999")
        )
        assert small < teens < all_of_them
    assert traits("roman:subtractive/read/1..12").seconds < traits("roman:subtractive/write/1..12").seconds


@pytest.mark.parametrize(
    ("key", "asked", "question"),
    [
        ("roman:subtractive/read/1..12", "9", "Is a letter taken away from another?"),
        ("roman:subtractive/read/1..12", "11", "What is each letter worth?"),
        ("roman:subtractive/write/1..12", "4", "Which letter is 1 more?"),
        ("roman:subtractive/write/21..50", "40", "Which letter is 10 more?"),
        ("roman:subtractive/write/1..12", "8", "Which letters add up to it?"),
        ("roman:subtractive/write/1..12", "5", "Is there a letter for it?"),
        ("roman:subtractive/write/13..20", "14", "What is each digit worth?"),
    ],
)
def test_what_is_asked_first_of_a_numeral(key: str, asked: str, question: str) -> None:
    """No "small letter": a child would look for i and v."""
    assert text(problem(key, asked), "question") == question


def test_a_question_asks() -> None:
    """What comes first of help is a question, but for words that are shown at work, and for ranges."""
    for card in card_sets.cards(catalogue.whole()):
        if card.kind not in ("vocabulary", "pairs", "template"):
            one = problem(card.key, draw(card.key, Random(card.key)))
            asked = [help.text for help in one.helps if help.step == "question"]
            assert all("?" in question for question in asked), (card.key, asked)


def test_what_is_one_is_said_of_one() -> None:
    """'1 are crossed out', 'Are there 1?' would teach a child so."""
    one = problem("bond:5=1+4", "5=1+_")
    assert "1 is crossed out." in text(one, "picture")
    assert "Is there 1?" in text(problem("true-false:difference/2..10", "4-3=1"), "picture")


def test_a_story_read_out_begins_each_sentence_as_written() -> None:
    stories = (card.key for card in card_sets.cards(catalogue.whole()) if card.kind == "word-problem")
    for key in stories:
        say = problem(key, draw(key, Random(key))).say
        assert all(part[:1].isupper() for part in re.split(r"(?<=[.?]) ", say)), say


@pytest.mark.parametrize(
    ("key", "asked"),
    [("product:_x4=28", "4x_=28"), ("product:_x4=28", "_x4=28"), ("quotient:28/_=4", "28/_=4")],
)
def test_counters_and_picture_lie_in_the_same_rows(key: str, asked: str) -> None:
    """Rows of the number that is known, as the steps go."""
    one = problem(key, asked)
    (picture,) = [help.picture for help in one.helps if help.step == "picture"]
    assert "Make rows of 4." in text(one, "build")
    assert isinstance(picture, Array)
    assert (picture.rows, picture.columns, picture.asked) == (7, 4, "rows")


def test_five_percent_goes_by_ten_percent() -> None:
    assert text(problem("percent:of/5-15-35", "15,800"), "steps").splitlines() == [
        "800 ÷ 10 = 80", "80 ÷ 2 = 40", "40 × 3 = 120",
    ]  # fmt: skip


def test_the_greater_number_lies_in_the_frame_first() -> None:
    """9 + 1 = 10, 10 + 3 = 13 are its steps: the picture shows the same (4 + 9)."""
    for asked in ("4+9", "9+4"):
        (picture,) = [help.picture for help in problem("sum:4+9", asked).helps if help.step == "picture"]
        assert picture == TenFrames(9, 4)


@pytest.mark.parametrize(
    ("prompt", "answer", "question"),
    [
        ("The day after Monday:", "Tuesday", "Can you say the days in order?"),
        ("The month before May:", "April", "Can you say the months in order?"),
        ("Days in June:", "30", "Can you find it on your knuckles?"),
        ("Days in a week:", "7", "Is it more or less than 5?"),  # no month
        ("The leap year after 2024:", "2028", "How many years apart are leap years?"),
        ("The capital after Monday:", "Rome", ""),  # a parent's own list
    ],
)
def test_of_the_calendar_a_grown_up_would_ask_more_than_how_a_word_begins(
    prompt: str, answer: str, question: str
) -> None:
    content = f"{encode(prompt)}={encode(answer)}"
    helps = problem(f"pairs:{content}", content).helps
    assert [help.text for help in helps if help.step == "question"] == ([question] if question else [])


@pytest.mark.parametrize(
    ("number", "steps"),
    [
        (2, "1 + 1 = 2"),
        (3, "2 + 1 = 3"),
        (4, "A full row has 5.\n5 − 1 = 4"),
        (5, "4 + 1 = 5"),
        (7, "A full row has 5.\n5 + 2 = 7"),
        (9, "A full frame has 10.\n10 − 1 = 9"),
    ],
)
def test_two_dots_are_one_more_than_one_and_not_five_less_three(number: int, steps: str) -> None:
    one = problem(f"quantity:dots/{'1..5' if number <= 5 else '6..10'}", str(number))
    assert text(one, "steps") == steps
    assert text(one, "blank") == re.sub(r"\d+(?=\D*$)", "□", steps)


@pytest.mark.parametrize(
    ("card", "asked", "said"),
    [
        ("money:change/GBP/0.05..1", "1-0.35", "Type a number, like 25."),  # "Change in pence:"
        ("money:change/GBP/0.05..1", "1-0.75", "Type a number, like 40."),
        ("money:change/GBP/0.05..5", "5-1.5", "Type money, like 2.35."),
        ("convert:min>h+min/65..300/5", "85", "Type both numbers, like 2 5."),
        ("convert:min>h+min/65..300/5", "125", "Type both numbers, like 4 10."),
    ],
)
def test_the_form_that_is_meant_is_told_in_what_is_asked_for(card: str, asked: str, said: str) -> None:
    """An example in pounds, where pence are asked for, would lead astray; so would metres among hours."""
    assert asks_for(problem(card, asked)) == said


def test_an_order_may_be_typed_as_it_is_told() -> None:
    one = problem("order:3/2", "86,65,57")
    assert judge(one, one.told) == judge(one, "57<65<86") == "right"
    assert judge(one, "57 < 86 < 65") == "other"


def test_long_numbers_have_their_thousands_apart_wherever_a_child_reads_them() -> None:
    """But for years, which are written as one says them."""
    for card in card_sets.cards(catalogue.whole()):
        for seed in range(1 if traits(card.key).fact else 8):
            one = problem(card.key, draw(card.key, Random(f"{card.key}{seed}")))
            read = " ".join((one.prompt, one.told, *(help.text for help in one.helps)))
            assert "year" in read or not re.search(r"(?<![\d.,:/])\d{4,}", read), (card.key, one.asked)


def test_the_question_of_a_story_speaks_of_the_story() -> None:
    """Rows and counters come with the next step: nobody has laid any yet."""
    for card in card_sets.cards(catalogue.whole()):
        if card.kind == "word-problem":
            question = text(problem(card.key, draw(card.key, Random(card.key))), "question")
            assert not re.search(r"\b(row|counter|bar)s?\b", question), (card.key, question)
