"""Differences in the head: exact class counts, every two-digit difference, and what is shown of each."""

from collections import Counter
from itertools import product
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.model import Skill
from review.core.skills.mental_difference import DIGITS, FITS, KINDS
from review.core.skills.mental_difference_ways import METHODS, best, borrows
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses, value_of
from tests.tables import published, rows

(MENTAL,) = KINDS


def skill(**options: object) -> Skill:
    return Skill("s", "S", "mental-difference", "accuracy", options)


def members(key: str) -> list[str]:
    """Those of every pair of so many digits that the kind takes, the second the greater among them. Where
    round numbers are taken, of every pair whose second number is a multiple of 5."""
    sizes = key.partition(":")[2].split("/")[0].split("-")
    first, second = (range(10 ** (int(many) - 1), 10 ** int(many)) for many in sizes)
    every = [f"{a}-{b}" for a, b in product(first, second[:: 5 if "hundreds" in key else 1])]
    taken = set(refuses(MENTAL, key, every))
    return [asked for asked in every if asked in taken]


def possible(digits: str) -> list[str]:
    found = (f"mental-difference:{digits}/{name}" for name in FITS)
    return [
        key for key in found if not list(MENTAL.check(skill(digits=digits, classes=(key.partition("/")[2],))))
    ]


NON_EMPTY = [key for digits in DIGITS for key in possible(digits)]


# --- exact counts -------------------------------------------------------------------------------------


def of_all(name: str) -> int:
    return int(rows("counts.csv", **{"class": name})[0]["of"])


TWO, THREE = ("2-digit - 2-digit, a >= b, no leading zero", "3-digit - 3-digit, a >= b, no leading zero")


def test_two_digit_classes_have_the_published_number_of_differences() -> None:
    """counts.csv, by brute force: one borrow in 1620 of 4095, none in the others."""
    once = published(TWO, "1")
    assert len(members("mental-difference:2-2/regroup")) == once
    assert len(members("mental-difference:2-2/none")) == of_all(TWO) - once


def test_three_digit_borrows_are_as_many_as_published() -> None:
    """counts.csv, by brute force over every pair. A place that lends to two columns counts for both."""
    found = Counter(len(borrows(a, b)) for a in range(100, 1000) for b in range(100, a + 1))
    assert sum(found.values()) == of_all(THREE)
    assert found[0] == published(THREE, "0")
    assert found[2] == published(THREE, "2")


@pytest.mark.parametrize(
    ("key", "count"),
    [
        # ones 0-8 taken from by a greater one: 45 pairs, tens 1-9 that are left
        ("2-1/regroup", 45 * 9),
        ("2-1/none", 45 * 9),
        # ones 1-9, tens at least as many
        ("2-2/tens", 9 * 45),
        ("2-2/all-tens", 45),
        ("3-3/all-hundreds", 45),
        # ones 8 (from 0-7) and 9 (from 0-8): 17 pairs; tens that are more: 36
        ("2-2/near-ten", 17 * 36),
        # neighbouring tens (8), ones that fall short (45): less than ten apart
        ("2-2/close", 8 * 45),
        # ones 1-9, tens that fall short (45 with 1-9 taken), hundreds 1-9
        ("3-2/tens-across", 9 * 45 * 9),
        # any but whole hundreds, hundreds at least as many
        ("3-3/hundreds", 99 * 45),
    ],
)
def test_a_class_has_as_many_as_its_closed_form_says(key: str, count: int) -> None:
    assert len(members(f"mental-difference:{key}")) == count


@pytest.mark.parametrize("key", ["2-2/all-tens", "2-1/none", "2-2/close", "3-3/all-hundreds", "2-2/tens"])
def test_every_difference_is_equally_likely(key: str) -> None:
    """But those where all is taken: nothing is to work out."""
    some = [asked for asked in members(f"mental-difference:{key}") if len(set(asked.split("-"))) == 2]
    assert_uniform(MENTAL, f"mental-difference:{key}", some)


@pytest.mark.parametrize("key", ["2-2/none", "3-2/none", "3-3/near-hundred"])
def test_to_take_whole_tens_is_left_to_its_own_cards(key: str) -> None:
    random, every = Random(1), members(f"mental-difference:{key}")
    assert any(asked.endswith("0") for asked in every) == (not key.endswith("near-hundred"))
    drawn = {MENTAL.draw(f"mental-difference:{key}", random) for _ in range(500)}
    assert drawn <= {asked for asked in every if not asked.endswith("0")}


def test_nothing_is_drawn_from_an_empty_class() -> None:
    with pytest.raises(ValueError, match="no difference"):
        MENTAL.draw("mental-difference:2-1/hundreds", Random(1))


# --- problems -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["none", "regroup", "near-ten", "close", "tens", "all-tens"])
def test_every_two_digit_difference_is_sound(name: str) -> None:
    for asked in members(f"mental-difference:2-2/{name}"):
        assert_sound(MENTAL.problem(f"mental-difference:2-2/{name}", asked))


@pytest.mark.parametrize(
    "key", ["2-1/none", "2-1/regroup", "2-1/close", "3-2/tens-across", "3-1/regroup-both"]
)
def test_every_difference_of_a_small_class_is_sound(key: str) -> None:
    for asked in members(f"mental-difference:{key}"):
        assert_sound(MENTAL.problem(f"mental-difference:{key}", asked))


@given(st.sampled_from(NON_EMPTY), SOURCES)
def test_what_is_drawn_is_sound_and_comes_out(key: str, random: Random) -> None:
    problem = MENTAL.problem(key, MENTAL.draw(key, random))
    assert_sound(problem)
    assert value_of(problem.prompt.removesuffix(" =")) == int(problem.expected)
    sizes = key.partition(":")[2].split("/")[0]
    assert "-".join(str(len(number)) for number in problem.asked.split("-")) == sizes


@given(st.sampled_from(NON_EMPTY), SOURCES)
def test_columns_fall_short_where_the_class_says(key: str, random: Random) -> None:
    """Told by adding back: a column fell short where answer and what was taken carry."""
    a, b = map(int, MENTAL.draw(key, random).split("-"))
    name, left = key.rpartition("/")[2], a - b
    short = [p for p in (1, 10, 100) if left % (p * 10) + b % (p * 10) >= p * 10]
    wanted = {
        "none": [], "tens": [], "hundreds": [], "regroup": [1], "near-ten": [1], "regroup-tens": [10],
        "tens-across": [10], "regroup-both": [1, 10],
    }  # fmt: skip
    assert short == wanted.get(name, short)
    if name == "close":
        assert left < 10
        assert 1 in short


@given(st.sampled_from(NON_EMPTY), SOURCES)
def test_nothing_that_regroups_is_split_into_its_columns(key: str, random: Random) -> None:
    a, b = map(int, MENTAL.draw(key, random).split("-"))
    assert not (borrows(a, b) and best(a, b) == "partitioning")


@pytest.mark.parametrize(
    ("asked", "name", "steps"),
    [
        ("58-23", "partitioning", ["50 − 20 = 30", "8 − 3 = 5", "30 + 5 = 35"]),
        ("72-40", "partitioning", ["70 − 40 = 30", "30 + 2 = 32"]),
        ("347-20", "partitioning", ["40 − 20 = 20", "307 + 20 = 327"]),
        ("52-7", "bridging", ["52 − 2 = 50", "50 − 5 = 45"]),
        ("345-70", "bridging", ["345 − 40 = 305", "305 − 30 = 275"]),
        ("50-7", "opening", ["10 − 7 = 3", "40 + 3 = 43"]),
        ("305-20", "opening", ["100 − 20 = 80", "205 + 80 = 285"]),
        ("71-68", "counting-up", ["68 + 2 = 70", "70 + 1 = 71", "2 + 1 = 3"]),
        ("402-397", "counting-up", ["397 + 3 = 400", "400 + 2 = 402", "3 + 2 = 5"]),
        ("400-71", "counting-up", ["71 + 9 = 80", "80 + 20 = 100", "100 + 300 = 400", "9 + 20 + 300 = 329"]),
        ("52-29", "constant-difference", ["29 + 1 = 30", "52 + 1 = 53", "53 − 30 = 23"]),
        ("452-198", "constant-difference", ["198 + 2 = 200", "452 + 2 = 454", "454 − 200 = 254"]),
        ("83-26", "taking-off", ["83 − 20 = 63", "63 − 3 = 60", "60 − 3 = 57"]),
        ("70-40", "by-units", ["7 − 4 = 3", "70 − 40 = 30"]),
    ],
)
def test_a_way_suits_its_numbers(asked: str, name: str, steps: list[str]) -> None:
    """The ways by their names in research on mental differences (common practice, from memory: Beishuizen;
    Heirdsfield; Selter)."""
    a, b = map(int, asked.split("-"))
    assert (best(a, b), list(METHODS[name].steps(a, b))) == (name, steps)


def test_ways_lead_to_the_answer_also_where_they_would_not_be_chosen() -> None:
    for a, b in product(range(12, 1000, 31), range(11, 1000, 23)):
        if a > b and borrows(a, b):
            for name in ("taking-off", "counting-up", "constant-difference"):
                steps = METHODS[name].steps(a, b)
                assert steps[-1].split()[-1].replace(",", "") == str(a - b), (name, a, b)


def test_as_a_teacher_would_write_it() -> None:
    problem = MENTAL.problem("mental-difference:2-2/regroup", "52-29")
    assert (problem.prompt, problem.expected, problem.say) == (
        "52 − 29 =",
        "23",
        "fifty-two minus twenty-nine",
    )
    assert problem.told == "52 − 29 leaves 23."


def test_a_difference_of_another_class_is_refused() -> None:
    strangers = ["52-23", "29-52", "152-29", "9-2", "50-20"]
    assert refuses(MENTAL, "mental-difference:2-2/regroup", [*strangers[1:4], "58-23"]) == []
    assert refuses(MENTAL, "mental-difference:2-2/near-ten", strangers) == []


# --- what one would write under an error rule ----------------------------------------------------------


def test_an_error_rule_gives_what_its_example_says() -> None:
    """error_rules.csv, sub_mental: all from memory (Beishuizen; Fuson)."""
    table = rows("error_rules.csv", family="sub_mental")
    assert len(table) == 6
    for row in table:
        found = MENTAL.predict("mental-difference:2-2/regroup", row["example"].replace(" ", ""))
        assert found[row["rule"]] == row["predicted"], row
    assert set(found) == {row["rule"] for row in table}


@given(st.sampled_from(NON_EMPTY), SOURCES)
def test_error_rules_never_say_the_answer(key: str, random: Random) -> None:
    one = MENTAL.problem(key, MENTAL.draw(key, random))
    for text in MENTAL.predict(key, one.asked).values():
        assert text != one.expected
        assert text.isdecimal()


# --- the kind -----------------------------------------------------------------------------------------


def test_keys_titles_and_impossible_conditions() -> None:
    assert list(MENTAL.keys(skill(digits="2-2", classes=("none", "close")))) == [
        "mental-difference:2-2/none",
        "mental-difference:2-2/close",
    ]
    (empty,) = MENTAL.check(skill(digits="2-1", classes=("none", "tens")))
    assert empty == (
        "classes",
        "no numbers fit “2-digit − 1-digit, take whole tens”",
        'leave "tens" out',
    )
    titles = [MENTAL.traits(key).title for key in NON_EMPTY]
    assert len(set(titles)) == len(titles)
    one, near, none = (
        MENTAL.traits(f"mental-difference:2-2/{name}") for name in ("regroup", "near-ten", "none")
    )
    assert one.groups & near.groups
    assert not one.groups & none.groups
