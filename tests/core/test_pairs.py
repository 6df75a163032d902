"""Pairs of a parent's own: any text goes into a key and comes back."""

import re
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.keys import content_of, well_formed
from review.core.model import Card, Problem, Skill
from review.core.session import start, step
from review.core.skills import among
from review.core.skills.pairs import KINDS, pair_of
from review.core.text import clean
from review.core.warmup import Plan, PlanItem, Record, Say, Sitting, Typed

(PAIRS,) = KINDS
WORDS = st.text(st.characters(codec="utf-8"), min_size=1, max_size=30).map(clean).filter(bool)


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
    assert (number.form, judge(number, "1000"), judge(number, "ten")) == ("counted", "right", "unreadable")
    assert (word.form, judge(word, "may"), judge(word, "June")) == ("spelt", "right", "other")
    assert number.told == "Metres in a kilometre: 1,000"
    assert [help.text for help in word.helps] == ["M□□", "After April: May"]
    assert [help.text for help in number.helps] == [
        "1,□□□",
        "Metres in a kilometre: 1,000",
    ]


NUMBERS = st.integers(0, 10**6) | st.integers(-(10**15) + 1, 10**15 - 1)


@given(NUMBERS)
def test_the_first_help_of_a_number_is_how_it_begins_and_never_the_number(number: int) -> None:
    (key,) = PAIRS.keys(skill(("How many?", str(number))))
    first, whole = PAIRS.problem(key, PAIRS.draw(key, Random(0))).helps
    said = [int(text.replace(",", "").replace("−", "-")) for text in re.findall(r"−?\d[\d,]*", first.text)]
    assert whole.step == "steps"
    assert number not in said
    assert all(len(line) <= 40 for line in first.text.split("\n"))
    if abs(number) < 10:
        assert first.text == f"Is it more or less than {said[0]}?"
    else:
        digits = str(abs(number))
        assert first.step == "blank"
        assert first.text.removeprefix("-") == digits[0] + "□" * (len(digits) - 1)


@pytest.mark.parametrize("answer", ["pass", "Stop", " ? ", "PASS.", ""])
def test_what_a_child_could_not_answer_is_refused(answer: str) -> None:
    (found,) = PAIRS.check(skill(("fine", "fine"), ("a word", answer)))
    assert found[0] == "pairs[2]"


def test_overlong_texts_are_refused() -> None:
    places = [
        place for place, *_ in PAIRS.check(skill(("p" * 41, "a"), ("p", "a" * 31), ("p" * 40, "a" * 30)))
    ]
    assert places == ["pairs[1]", "pairs[2]"]


# --- decimals, and slips of spelling ------------------------------------------------------------------


def one(prompt: str, answer: str) -> Problem:
    return PAIRS.problem(key_of(prompt, answer), key_of(prompt, answer).partition(":")[2])


def key_of(prompt: str, answer: str) -> str:
    (key,) = PAIRS.keys(skill((prompt, answer)))
    return key


@pytest.mark.parametrize(("answer", "first"), [
    ("2.5", "It is more than 2.\nIt is less than 4."), ("1.75", "It is more than 1.\nIt is less than 2."),
])  # fmt: skip
def test_a_decimal_is_read_as_the_number_it_is(answer: str, first: str) -> None:
    inch = one("An inch, in cm:", answer)
    ways = (answer, f"{answer}0", f" {answer}00", f"+{answer}", f"{answer[0]}{answer[1:]}.")
    assert {judge(inch, text) for text in ways} == {"right"}
    assert [judge(inch, text) for text in (answer.replace(".", ","), "inch", f"{answer}1", "25")] == [
        "unreadable", "unreadable", "other", "other",
    ]  # fmt: skip
    assert inch.helps[0].text == first


DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def slips(word: str) -> set[str]:
    """Every text one letter away: left out, put in, another, two swapped (Damerau 1964)."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    cuts = [(word[:at], word[at:]) for at in range(len(word) + 1)]
    left_out = {a + b[1:] for a, b in cuts if b}
    put_in = {a + letter + b for a, b in cuts for letter in letters}
    others = {a + letter + b[1:] for a, b in cuts if b for letter in letters}
    swapped = {a + b[1] + b[0] + b[2:] for a, b in cuts if len(b) > 1}
    return (left_out | put_in | others | swapped) - {word}


@pytest.mark.parametrize("day", DAYS)
def test_one_slip_in_a_long_word_counts_and_another_answer_never(day: str) -> None:
    problem = one("The day:", day)
    beside = among(problem, [key_of(f"Day {at}:", other) for at, other in enumerate(DAYS)])
    tried = {slip for slip in slips(day.casefold()) if slip.isalpha()}
    taken = {slip for slip in tried if judge(beside, slip) == "right"}
    between = {
        slip for slip in tried if any(slip in slips(other.casefold()) for other in DAYS if other != day)
    }
    assert tried - between <= taken
    assert {slip for slip in between if slip[0] != day[0].casefold()} & taken == set()
    assert {judge(beside, other) for other in DAYS if other != day} == {"other"}
    assert {judge(beside, day.casefold() + "xy"), judge(beside, day[::-1])} == {"other"}


def test_the_first_letter_settles_what_two_answers_are_near_to() -> None:
    beside = among(one("Day 1:", "Monday"), [key_of("Day 7:", "Sunday")])
    assert [judge(beside, text) for text in ("munday", "sonday", "unday")] == ["right", "other", "other"]


def test_what_lies_between_two_answers_is_neither() -> None:
    """Distances counted by hand: billion and million are one letter apart, and "ballet" lies between two."""
    word = among(one("Dancing on toes:", "ballet"), [key_of("A slip of paper to vote:", "ballot")])
    assert [judge(word, text) for text in ("balet", "ballot", "ballt", "ballet.")] == [
        "right", "other", "other", "right",
    ]  # fmt: skip
    assert [judge(one("1,000,000:", "million"), text) for text in ("milion", "billion", "trillion")] == [
        "right", "other", "other",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("answer", "text", "verdict"),
    [
        ("May", "Mai", "other"), ("July", "Juli", "other"),  # a short word is another word soon
        ("north pole", "north poel", "other"), ("square metre", "sqare metre", "right"),
        ("square metre", "sqare meter", "other"), ("H2SO4", "H2SO3", "other"), ("3/4", "3/5", "other"),
        ("January 6", "January 7", "other"), ("centre", "center", "right"),
    ],
)  # fmt: skip
def test_where_a_slip_is_no_slip(answer: str, text: str, verdict: str) -> None:
    assert judge(one("This:", answer), text) == verdict


def test_a_sitting_knows_the_other_answers_and_shows_the_spelling() -> None:
    words = (("Dancing on toes:", "ballet"), ("A slip of paper to vote:", "ballot"))
    dancing = key_of(*words[0])
    for text, mark, told in (("balet", "right", "Dancing on toes: ballet"), ("ballot", "not_yet", None)):
        keys = [key_of(*pair) for pair in words]
        cards = {key: Card(key, "pairs", "s", "s", "accuracy", at) for at, key in enumerate(keys)}
        plan = Plan(1, 5.0, (PlanItem(dancing, "due", 6.0, 0.9),))
        state, _ = start(Sitting("b", "c", "Ada", 9, plan, cards))
        _, effects = step(state, Typed(text, 900, 2000))
        assert [one.answer.mark for one in effects if isinstance(one, Record)] == [mark]
        assert told is None or [one.text for one in effects if isinstance(one, Say)] == [told]


def test_another_cards_pair_is_refused() -> None:
    with pytest.raises(ValueError, match="does not belong"):
        PAIRS.problem("pairs:a=b", "a=c")


@pytest.mark.parametrize(
    ("prompt", "answer", "say"),
    [
        ("ml or l? An egg cup: 50", "ml", "millilitres or litres? An egg cup: 50"),
        ("s, min or h? A night's sleep: 10", "h", "seconds, minutes or hours? A night's sleep: 10"),
        ("40 km, in miles, about:", "25", "40 kilometres, in miles, about:"),
        ("An inch, in cm, about:", "2.5", "An inch, in centimetres, about:"),
        ("1 kg, in pounds, about:", "2.2", "1 kilogram, in pounds, about:"),
        ("Water turns to ice, in °C:", "0", "Water turns to ice, in degrees Celsius:"),
        ("A or B?", "B", "A or B?"),
        ("Who is m?", "Mother", "Who is m?"),
        ("Die 7 Zwerge", "Schneewittchen", "Die 7 Zwerge"),
    ],
)
def test_units_are_read_out_by_their_names(prompt: str, answer: str, say: str) -> None:
    key = key_of(prompt, answer)
    assert PAIRS.problem(key, content_of(key)).say == say


@pytest.mark.parametrize(
    ("prompt", "answer", "right", "other"),
    [
        ("An inch, in cm, about:", "2.5", ("2.5", "2.54", "2.50"), ("3", "2.6", "25")),
        ("A foot, in cm, about:", "30", ("30", "30.48", "30.5"), ("31", "33", "3")),
        ("100 miles, in km, about:", "160", ("160", "161", "160.9"), ("150", "165")),
        ("A gallon, in litres, about:", "4.5", ("4.5", "4.55"), ("4", "5")),
        ("An inch, in cm:", "2.5", ("2.5",), ("2.54",)),
    ],
)
def test_who_knows_it_more_exactly_than_about_knows_it(
    prompt: str, answer: str, right: tuple[str, ...], other: tuple[str, ...]
) -> None:
    """What an inch, a foot, a mile and a gallon are by law: 2.54 cm, 30.48 cm, 1.609344 km, 4.54609 L."""
    known = one(prompt, answer)
    assert [judge(known, text) for text in right] == ["right"] * len(right)
    assert [judge(known, text) for text in other] == ["other"] * len(other)


def test_a_pound_is_not_told_by_how_its_pence_begin() -> None:
    assert one("Pence in a pound:", "100").helps[0].text == "How many 10p coins make a pound?"


@pytest.mark.parametrize(
    ("prompt", "answer", "right", "unreadable"),
    [
        ("Days in a week:", "7", ["7", "7 days", "7days", "7 day"], ["7 weeks", "7 hours"]),
        ("How many eggs are there in a dozen?", "12", ["12 eggs"], ["12 dozens"]),
        ("How many in a dozen?", "12", ["12"], ["12 eggs"]),
        ("Leap years, years apart:", "4", ["4"], ["4 years"]),
        ("Water boils, in °C:", "100", ["100", "100 degrees"], ["100 days"]),
    ],
)
def test_so_many_of_what_is_counted(
    prompt: str, answer: str, right: list[str], unreadable: list[str]
) -> None:
    asked = one(prompt, answer)
    assert {judge(asked, text) for text in right} == {"right"}
    assert {judge(asked, text) for text in unreadable} == {"unreadable"}
