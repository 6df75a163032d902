"""Percents against the standard library's fractions, over whole classes, reading what a child sees."""

import re
from fractions import Fraction

import pytest

from review.core import skills
from review.core.model import Problem
from review.core.pictures import Bar
from review.core.skills.percents import KINDS, TABLE, TASKS
from tests.core.shown import assert_uniform, refuses
from tests.core.spaces import amount, disagreements, every, shows_soundly, skill_of

(PERCENT,) = KINDS
HUNDRED = "2-4-5-10-20-25-50"
KEYS = [
    *(f"percent:of/{percents}" for percents in ("1", "10", "50", "25-75", "5-15-35", "20-30-40-60-70-80-90")),
    f"percent:from-fraction/{HUNDRED}-100",
    f"percent:to-fraction/{HUNDRED}",
    *(f"percent:{task}/{places}" for task in ("from-decimal", "to-decimal") for places in (1, 2)),
]


def agrees(problem: Problem) -> bool:
    """Both sides are the same amount."""
    of = re.fullmatch(r"(\d+%) of ([\d,]+) =", problem.prompt)
    if of:
        return amount(of[1]) * amount(of[2]) == int(problem.expected)
    left = amount(re.split(r" = | in | as ", problem.prompt)[0])
    return left == amount(problem.expected + ("%" if problem.prompt.endswith("□%") else ""))


def test_every_task_is_looked_at() -> None:
    assert {key.partition(":")[2].split("/")[0] for key in KEYS} == set(TABLE)


@pytest.mark.parametrize("key", KEYS)
def test_every_problem_of_a_class_has_the_answer_of_the_standard_library(key: str) -> None:
    found = every(TASKS, key)
    assert len(found) >= 9
    assert disagreements(PERCENT, key, found, agrees) == []


@pytest.mark.parametrize("key", KEYS)
def test_what_is_shown_is_sound(key: str) -> None:
    shows_soundly(PERCENT, key)


def test_classes_are_what_their_names_say() -> None:
    """Built again from `Fraction`s."""
    assert set(every(TASKS, "percent:to-fraction/2-4-5")) == {
        str(percent) for percent in range(1, 100) if Fraction(percent, 100).denominator in (2, 4, 5)
    }
    assert set(every(TASKS, "percent:to-decimal/1")) == {str(ten) for ten in range(10, 100, 10)}
    assert len(every(TASKS, "percent:to-decimal/2")) == 90
    assert every(TASKS, "percent:of/1") == [f"1,{number}" for number in range(100, 1001, 100)]


@pytest.mark.parametrize("key", ["percent:of/1", "percent:from-decimal/1", "percent:from-fraction/4-5-10"])
def test_every_problem_is_equally_likely(key: str) -> None:
    assert_uniform(PERCENT, key, every(TASKS, key))


def test_a_problem_of_another_class_is_refused() -> None:
    assert refuses(PERCENT, "percent:of/10", ["20,50", "10,55", "10,1010", "10,0", "10"]) == []
    assert refuses(PERCENT, "percent:from-decimal/1", ["0.35", "0.0", "1.5", "5"]) == []


def test_as_a_teacher_would_write_it() -> None:
    problem = PERCENT.problem("percent:of/30", "30,50")
    assert (problem.prompt, problem.expected, problem.form) == ("30% of 50 =", "15", "whole")
    assert problem.helps[-1].text == "50 ÷ 10 = 5\n5 × 3 = 15"
    assert PERCENT.problem("percent:to-fraction/4", "75").form == "fraction-lowest"


@pytest.mark.parametrize(
    ("asked", "steps", "parts"),
    [
        ("60,640", "640 ÷ 10 = 64|64 × 6 = 384", 10),
        ("20,900", "900 ÷ 10 = 90|90 × 2 = 180", 10),
        ("40,55", "55 ÷ 5 = 11|11 × 2 = 22", 5),  # no whole tenth
    ],
)
def test_tens_of_percent_go_by_ten_percent_where_it_is_a_whole_number(
    asked: str, steps: str, parts: int
) -> None:
    """As the skill of 10% stands before that of 20%, 30% and more (common practice, no source)."""
    problem = skills.problem("percent:of/20-30-40-60-70-80-90", asked)
    assert problem.helps[-1].text == steps.replace("|", "\n")
    (bar,) = (help.picture for help in problem.helps if help.picture)
    assert isinstance(bar, Bar)
    assert len(bar.parts) == parts


def test_half_of_it_is_no_five_tenths() -> None:
    problem = skills.problem("percent:of/50", "50,640")
    assert problem.helps[-1].text == "640 ÷ 2 = 320"
    (bar,) = (help.picture for help in problem.helps if help.picture)
    assert isinstance(bar, Bar)
    assert len(bar.parts) == 2


def test_keys_name_what_they_need() -> None:
    asked = skill_of(PERCENT, task=("of", "from-decimal"), percents=(50, 10))
    assert list(PERCENT.keys(asked)) == [
        "percent:of/10-50",
        "percent:from-decimal/1",
        "percent:from-decimal/2",
    ]


@pytest.mark.parametrize(
    ("options", "told"),
    [
        ({"task": ("of",)}, ("percents", "the percents are missing", "add percents = [10, 50]")),
        ({"task": ("to-fraction",)},
         ("denominators", "the denominators are missing", "add denominators = [2, 4, 5, 10]")),
        ({"task": ("from-fraction",), "denominators": (3,)},
         ("denominators", "3 does not divide 100", "take from 2, 4, 5, 10, 20, 25, 50, 100")),
        ({"task": ("to-fraction",), "denominators": (100,)},
         ("denominators", "no percent comes down to these", "take from 2, 4, 5, 10, 20, 25, 50")),
    ],
)  # fmt: skip
def test_impossible_conditions_are_told_in_words(options: dict[str, object], told: tuple[str, ...]) -> None:
    assert list(PERCENT.check(skill_of(PERCENT, **options))) == [told]


def test_titles_tell_classes_apart() -> None:
    assert len({PERCENT.traits(key).title for key in KEYS}) == len(KEYS)


def test_seconds_follow_from_the_percents() -> None:
    """More for a class with a harder percent in it, and less for 10% than for 35%: our judgement, as are
    the seconds."""
    seconds = {
        key: PERCENT.traits(f"percent:of/{key}").seconds for key in ("10", "10-25", "10-25-35", "35", "7")
    }
    assert seconds["10"] < seconds["10-25"] < seconds["10-25-35"] == seconds["35"] < seconds["7"] <= 30
    under = [PERCENT.traits(f"percent:from-fraction/{sizes}").seconds for sizes in ("2", "2-4", "2-4-25")]
    assert under == sorted(set(under))
