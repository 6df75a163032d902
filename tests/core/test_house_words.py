"""A family's own words: what is shown under each choice, and what is typed turned back.

Point or comma, with a space between thousands: the SI Brochure (9th edition, 2019), 5.4.4, whose example
43 279.168 29 stands below without its last two places, and ISO 80000-1, 7.3. What families say of ten for one
is common practice, no source.
"""

import re
from functools import cache
from itertools import product
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import house_words, miss_words, reports, skills
from review.core.answers import FORMS, asks_for, judge
from review.core.drawn import drawn
from review.core.house_words import APART, helped, named, problem, spoken, standard, told, written
from review.core.looks import traits_of
from review.core.model import CHOICES, STANDARD, Help, Problem, Words
from review.core.pictures import Area, Lines
from review.core.skills import draw, traits
from review.core.warmup import Typed
from tests.core.shown import COLUMNS
from tests.core.test_catalogue import all_cards, whole

EVERY = [Words(*chosen) for chosen in product(*CHOICES.values())]
COMMA = Words(decimals="comma")
ROOTS = ("carr", "borrow", "regroup", "exchang")
KEPT = {"carry": ("carr", "borrow"), "regroup": ("regroup",), "exchange": ("exchang",)}


@cache
def problems() -> tuple[Problem, ...]:
    """Of every card of the catalogue two, those first that ask another thing."""
    drawn_ = {(card.key, draw(card.key, Random(n))) for card in all_cards() for n in range(2)}
    return tuple(skills.problem(key, asked) for key, asked in sorted(drawn_))


def texts(noun: Any) -> list[str]:
    if isinstance(noun, str):
        return [noun]
    return [text for part in noun for text in texts(part)] if isinstance(noun, tuple) else []


def of(form: str, expected: str = "1", unit: str = "") -> Problem:
    return Problem("card", "kind", "asked", "?", "?", form, expected, "", unit=unit)


def foreign(text: str, choice: str) -> list[str]:
    """Words for ten for one that a family does not say."""
    others = [root for root in ROOTS if root not in KEPT[choice]]
    return re.findall(rf"\b(?:{'|'.join(others)})\w*", text, re.IGNORECASE)


# --- decimals and thousands ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("0.5", "0,5"),
        ("43,279.168", "43 279,168"),
        ("1,234,567", "1 234 567"),
        ("The 6 in 9.64 is worth 0.6.", "The 6 in 9,64 is worth 0,6."),
        ("Smallest first: 0.7, 0.98, 0.54:", "Smallest first: 0,7; 0,98; 0,54:"),
        ("60, 70, 80, □", "60, 70, 80, □"),
        ("1,300, 1,400, □", "1 300, 1 400, □"),
        ("48, 56, 64", "48, 56, 64"),
        ("1,250, 1,300", "1 250, 1 300"),
        ("How far from £12.76 to £12.80?", "How far from £12,76 to £12,80?"),
        ("Count in 1,000s: 19,000, □", "Count in 1 000s: 19 000, □"),
        ("It is 7:30.", "It is 7:30."),
        ("It is 7:30, 2.", "It is 7:30, 2."),
        ("1.2.3", "1.2.3"),
        ("2,5", "2,5"),
    ],
)
def test_numbers_with_a_comma_and_thousands_apart(before: str, after: str) -> None:
    assert written(before, COMMA).replace(APART, " ") == after
    assert len(written(before, COMMA)) == len(before)
    assert written(before, STANDARD) == before


def test_signs_are_written_as_the_family_chose() -> None:
    assert written("6 × 7 = 84 ÷ 2", Words(times="dot", divide="colon")) == "6 · 7 = 84 : 2"
    assert written("6 × 7 = 84 ÷ 2", Words(times="dot")) == "6 · 7 = 84 ÷ 2"
    assert written("6 × 7 = 84 ÷ 2", STANDARD) == "6 × 7 = 84 ÷ 2"


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("nine point six four", "nine comma six four"),
        ("two hundred point five", "two hundred comma five"),
        ("Around a point: one hundred degrees", "Around a point: one hundred degrees"),
        ("a point one cm away", "a point one cm away"),
        ("What is 0.25 × 1,000?", "What is 0 comma 2 5 × 1000?"),
    ],
)
def test_what_is_read_out(before: str, after: str) -> None:
    assert spoken(before, COMMA) == after
    assert spoken(before, Words(times="dot", carry="carry")) == before


TYPED = [
    ("decimal", "0,5", "0.5"),
    ("decimal", "0.5", "0.5"),
    ("decimal", ",5", ".5"),
    ("decimal", "1,250", "1.250"),
    ("decimal", "1 250,5", "1 250.5"),
    ("decimal", "1.250,5", "1.250,5"),  # both: it is asked again
    ("decimal", "0\uff0c5", "0.5"),
    ("decimals", "0,5 0,25", "0.5 0.25"),
    ("decimals", "0,5; 0,25", "0.5; 0.25"),
    ("decimals", "0,5, 0,25", "0.5, 0.25"),
    ("decimals", "0.5, 0.25", "0.5, 0.25"),
    ("percent", "12,5%", "12.5%"),
    ("quantity", "2,5 kg", "2.5 kg"),
    ("money", "£3,50", "£3.50"),
    ("square-cm", "2,5 sq. cm", "2.5 sq. cm"),
    ("cubic-cm", "2,5", "2.5"),
    ("degrees", "22,5", "22.5"),
    ("temperature", "-4,5 °C", "-4.5 °C"),
    ("whole", "1,000", "1,000"),
    ("whole", "0,5", "0,5"),
    ("list", "5,6,7", "5,6,7"),
    ("mixed-quantity", "1,200 g", "1,200 g"),
    ("clock-time", "7,30", "7,30"),
]


@pytest.mark.parametrize(("form", "typed", "meant"), TYPED)
def test_a_comma_is_a_point_where_an_answer_may_hold_decimals(form: str, typed: str, meant: str) -> None:
    assert standard(typed, of(form), COMMA) == meant
    assert standard(typed, of(form), Words(carry="carry")) == typed


def test_which_forms_hold_decimals() -> None:
    """Every form that reads a decimal is among them, and none that does not."""
    reads = {
        name
        for name, form in FORMS.items()
        for typed in ("2.5", "0.5 0.25")
        if form.read(typed, "cm" if name == "quantity" else "") is not None
    }
    spelled = {
        "text",
        "term",
        "spelt",
        "number-word",
        "clock-time",
        "clock-digits",
        "clock-24",
        "list",
        "numbers",
    }
    assert reads - spelled - {"coins", "fraction", "parts"} == house_words.WITH_DECIMALS


@given(st.integers(0, 9_999_999), st.integers(0, 999), st.integers(1, 3))
def test_any_decimal_comes_back(whole: int, part: int, places: int) -> None:
    number = f"{whole:,}.{part:03}"[: -(3 - places) or None]
    shown = written(number, COMMA).replace(APART, " ")
    assert "." not in shown
    asked = of("decimal", number)
    assert judge(asked, standard(shown, asked, COMMA)) == "right"
    assert judge(asked, standard(shown.replace(" ", ""), asked, COMMA)) == "right"


# --- all that is shown --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "words", [Words("carry"), Words("regroup"), Words("exchange", "math", "comma", "dot", "colon")]
)
def test_what_is_shown_as_the_answer_is_judged_right(words: Words) -> None:
    """Of every kind, as one types it: with plain spaces."""
    for one in problems():
        typed = problem(one, words).expected.replace(APART, " ")
        assert judge(one, standard(typed, one, words)) == "right", (one, typed)


def test_nothing_of_a_key_a_form_or_a_unit_is_changed() -> None:
    for one in problems():
        new = problem(one, EVERY[-1])
        assert new[:3] == one[:3]
        assert (new.form, new.unit) == (one.form, one.unit)
        assert problem(one, STANDARD) == one


def test_no_sign_and_no_point_of_another_choice_is_left() -> None:
    """On any screen a child sees: prompt, answer, what is told, help, pictures."""
    words = Words("any", "maths", "comma", "dot", "colon")
    for one in problems():
        new = problem(one, words)
        pictures = [new.picture, *(help.picture for help in new.helps)]
        lines = [line for each in pictures if each is not None for line in drawn(each)]
        for text in [*texts(new._replace(card="", asked="", say="")), *lines, written(asks_for(one), words)]:
            assert not re.search(r"÷|×(?! ×)[^\n]*\w|\d\.\d", text), (one.card, text)
        assert not re.search(rf"\b(?:{house_words.NUMBER_WORDS}) point ", new.say), new.say


def test_pictures_and_lines_keep_their_width() -> None:
    for one in problems():
        for words in (Words("carry", "maths", "comma", "dot", "colon"), Words("exchange"), Words("regroup")):
            new = problem(one, words)
            pairs = [
                (one.picture, new.picture),
                *zip((h.picture for h in one.helps), (h.picture for h in new.helps), strict=True),
            ]
            for old, drawn_anew in pairs:
                if old is not None and drawn_anew is not None:
                    assert [*map(len, drawn(old))] == [*map(len, drawn(drawn_anew))]
            for help in new.helps:
                assert all(len(line) <= COLUMNS for line in help.text.split("\n")), help


def test_an_area_sets_thousands_apart() -> None:
    old = Help("picture", "x", Area((3000, 800), (5,)))
    new = helped(old, COMMA).picture
    assert isinstance(new, Area)
    assert any(f"3{APART}000" in line for line in drawn(new))
    assert helped(old, Words("carry")).picture == old.picture


# --- ten for one --------------------------------------------------------------------------------------


def sentences() -> list[str]:
    """Every text of the program's own that a parent can be shown: sets, skills, cards, why a child misses."""
    sets = [
        text for one in whole() for text in (one.title, one.about, *(skill.title for skill in one.skills))
    ]
    cards = [traits(card.key).title for card in all_cards()]
    misses = [text for words in miss_words.TABLE.values() for text in words]
    return [
        *dict.fromkeys([*sets, *cards, *misses, *miss_words.PLACES.values(), *reports.TABLE_WORK.values()])
    ]


@pytest.mark.parametrize("choice", KEPT)
def test_no_form_of_the_other_words_is_left(choice: str) -> None:
    words = Words(choice)
    left = [text for each in sentences() if foreign(text := named(each, words), choice)]
    assert not left
    for one in problems():
        for help in problem(one, words).helps:
            assert not foreign(help.text, choice), help


def test_the_point_is_called_a_comma() -> None:
    """Whatever is left of a point is in a line, an angle or a finger."""
    left = {text for each in sentences() if re.search(r"\bpoint\b", text := told(each, COMMA))}
    assert all(re.search(r"around a point|^Point the way", text) for text in left), left
    assert told("Angles around a point, whole tens", COMMA) == "Angles around a point, whole tens"
    lines = {
        line for one in problems() for help in problem(one, COMMA).helps for line in help.text.split("\n")
    }
    left = {line for line in lines if re.search(r"\bpoint\b", line, re.IGNORECASE)}
    assert left == {
        "Point to it on a number line.",
        "Point to them on a number line.",
        "Where does each hand point?",
    }
    assert "Write them, comma under comma." in lines


def test_where_nobody_chose_all_stays() -> None:
    assert [named(text, STANDARD) for text in sentences()] == sentences()


@pytest.mark.parametrize(
    ("before", "carry", "regroup", "exchange"),
    [
        ("Sums that regroup the ones, like 47 + 25", "Sums that carry the ones, like 47 + 25",
         "Sums that regroup the ones, like 47 + 25", "Sums that exchange the ones, like 47 + 25"),
        ("two-digit differences that regroup the tens", "two-digit differences that borrow from the tens",
         "two-digit differences that regroup the tens", "two-digit differences that exchange the tens"),
        ("Regrouping twice, like 478 + 256", "Carrying twice, like 478 + 256",
         "Regrouping twice, like 478 + 256", "Exchanging twice, like 478 + 256"),
        ("One exchange, like 672 − 358", "One borrow, like 672 − 358",
         "One regrouping, like 672 − 358", "One exchange, like 672 − 358"),
        ("An exchange across a zero, like 904 − 237", "A borrow across a zero, like 904 − 237",
         "A regrouping across a zero, like 904 − 237", "An exchange across a zero, like 904 − 237"),
        ("Digits without an exchange, like 678 − 352", "Digits without borrowing, like 678 − 352",
         "Digits without regrouping, like 678 − 352", "Digits without an exchange, like 678 − 352"),
        ("Two digits with an exchange, like 96 ÷ 4", "Two digits with a carry, like 96 ÷ 4",
         "Two digits with a regrouping, like 96 ÷ 4", "Two digits with an exchange, like 96 ÷ 4"),
        ("Two digits with carrying, like 24 × 7", "Two digits with carrying, like 24 × 7",
         "Two digits with regrouping, like 24 × 7", "Two digits with exchanging, like 24 × 7"),
        ("leave out what is carried", "leave out what is carried",
         "leave out what is regrouped", "leave out what is exchanged"),
        ("borrow in every column, needed or not", "borrow in every column, needed or not",
         "regroup in every column, needed or not", "exchange in every column, needed or not"),
    ],
)  # fmt: skip
def test_the_words_bend(before: str, carry: str, regroup: str, exchange: str) -> None:
    assert [named(before, Words(choice)) for choice in KEPT] == [carry, regroup, exchange]


@pytest.mark.parametrize("choice", KEPT)
def test_the_picture_of_an_exchange_is_called_by_the_familys_word(choice: str) -> None:
    heads = {"carry": ("Carry", "Borrow"), "regroup": ("Regroup",) * 2, "exchange": ("Exchange",) * 2}[choice]
    seen = set()
    for one in problems():
        for old, new in zip(one.helps, problem(one, Words(choice)).helps, strict=True):
            if old.step == "exchange":
                head = heads[0] if old.text.startswith("10 ") else heads[1]
                assert new.text.startswith(f"{head}: {old.text}"[:30])
                seen.add(head)
    assert seen == {*heads}


def test_every_line_of_the_table_is_one_that_a_kind_can_say() -> None:
    said = {line for one in problems() for help in one.helps for line in help.text.split("\n")}
    by_a_way = {
        line
        for one in problems()
        for way in skills.ways(one)
        for help in way.helps
        for line in help.text.split("\n")
    }
    assert not house_words.LINES.keys() - said - by_a_way


def test_cards_are_called_by_the_familys_words_but_not_those_of_a_parents_own_set() -> None:
    sums, own = "mental-sum:2+2/regroup-ones", "pairs:To%20exchange%20is=to%20swap"
    assert traits_of(sums, Words("carry")).title == "2-digit + 2-digit, carry the ones"
    assert traits_of(sums, STANDARD) == traits(sums)
    assert "exchange" in traits_of(own, Words("carry")).title


def test_a_parents_own_words_stay() -> None:
    """Only whole lines of our own are said otherwise, and only in help."""
    own = of("text", "regroup")._replace(prompt="We say exchange or", told="We say exchange or regroup.")
    assert problem(own, Words("carry")) == own
    assert standard("1,5", own, COMMA) == "1,5"
    assert house_words.heard(Typed("regroup"), own, Words("carry")) == Typed("regroup")


def test_a_story_in_a_picture_keeps_its_words() -> None:
    story = Help("picture", "", Lines(("They exchange 1.5 kg for 3 apples.",)))
    assert helped(story, Words("carry", decimals="comma")).picture == Lines(
        ("They exchange 1,5 kg for 3 apples.",)
    )
