"""Written division: every division of two to four digits by one, told by Python's whole numbers."""

import re
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.skills.places import with_digits
from review.core.skills.walks import pick, size
from review.core.skills.written_division import CLASSES, DIVISORS, KINDS, _class, asked_of, belongs, parts
from tests.core.on_paper import in_columns, term
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses, seen

(DIVISION,) = KINDS
EVERY = [f"division-written:{digits}/1/{name}" for digits in (2, 3, 4) for name in CLASSES]


def name_of(a: int, b: int) -> str:
    """The class of a division, from quotients alone; "" where the quotient is one digit."""
    quotient, left = divmod(a, b)
    if quotient < 10:
        return ""
    if "0" in str(quotient):
        return "zero-remainder" if left else "zero"
    if left:
        return "remainder"
    return "exact" if any(int(str(a)[:end]) % b for end in range(1, len(str(a)))) else "shared"


def every_division(digits: int) -> list[tuple[int, int]]:
    return [(a, b) for a in with_digits(digits) for b in DIVISORS]


def members(key: str) -> list[str]:
    digits, _, name = key.partition(":")[2].split("/")
    return [f"{a}/{b}" for a, b in every_division(int(digits)) if name_of(a, b) == name]


# --- exact counts -------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", EVERY)
def test_a_class_is_what_its_name_says(key: str) -> None:
    """The whole space; and each place is one member."""
    named = set(members(key))
    of = _class(key)
    assert named == {f"{a}/{b}" for a, b in every_division(of.digits) if belongs(of, a, b)}
    assert {asked_of(*pick(parts(key), place)) for place in range(size(parts(key)))} == named
    assert size(parts(key)) == len(named)


def test_each_digit_shared_by_itself_has_its_closed_form() -> None:
    """As many numbers as there are multiples of the divisor among 1 to 9, for each digit."""
    for digits in (2, 3, 4):
        assert size(parts(f"division-written:{digits}/1/shared")) == sum((9 // b) ** digits for b in DIVISORS)


@pytest.mark.parametrize("name", ["2/1/shared", "2/1/remainder", "3/1/zero"])
def test_every_division_is_equally_likely(name: str) -> None:
    key = f"division-written:{name}"
    assert_uniform(DIVISION, key, members(key), each=20)


def test_strangers_are_refused() -> None:
    strangers = ["43/6", "96/4", "60/3", "97/1", "97/0", "197/4", "97/10"]
    assert refuses(DIVISION, "division-written:2/1/remainder", strangers) == []


# --- what is shown ------------------------------------------------------------------------------------


def assert_divided(key: str, asked: str) -> None:
    problem = DIVISION.problem(key, asked)
    a, b = map(int, asked.split("/"))
    quotient, left = divmod(a, b)
    assert_sound(problem, term)
    assert problem.expected == (f"{quotient} r {left}" if left else str(quotient))
    above, line, below = problem.helps[-1].text.split("\n")[-3:]
    assert (line, below) == seen(problem)
    assert below == f"{b} ) " + " ".join(str(a))
    answer = above[: len(below)]
    assert in_columns([answer, below.replace(f"{b} )", "   ")])
    assert int(answer.replace(" ", "")) == quotient
    assert above[len(below) :] == (f" r {left}" if left else "")
    digits = re.findall(r": \d+ = \d × (\d)", problem.helps[-1].text)
    assert int("".join(digits)) == quotient


@pytest.mark.parametrize("key", [key for key in EVERY if ":2/" in key])
def test_every_division_of_two_digits_is_sound(key: str) -> None:
    for asked in members(key):
        assert_divided(key, asked)


@given(st.sampled_from(EVERY), SOURCES)
def test_what_is_drawn_is_of_its_class_and_sound(key: str, random: Random) -> None:
    asked = DIVISION.draw(key, random)
    assert name_of(*map(int, asked.split("/"))) == key.rpartition("/")[2]
    assert_divided(key, asked)


def test_as_a_teacher_would_write_it() -> None:
    problem = DIVISION.problem("division-written:3/1/remainder", "437/6")
    assert problem.prompt == "437 ÷ 6 ="
    assert problem.expected == "72 r 5"
    assert problem.told == "437 ÷ 6 makes 72, remainder 5."
    assert seen(problem) == ("    -----", "6 ) 4 3 7")
    assert problem.helps[-2].text.endswith("    ones: 17 = 6 × 2 + □")
    assert problem.helps[-1].text.split("\n") == [
        "4 hundreds + 3 tens = 43 tens",
        "    tens: 43 = 6 × 7 + 1",
        "1 ten + 7 ones = 17 ones",
        "    ones: 17 = 6 × 2 + 5",
        "      7 2 r 5",
        "    -----",
        "6 ) 4 3 7",
    ]
    question = DIVISION.problem("division-written:3/1/zero", "612/6").helps[0].text
    assert question == "Which place gets a zero?"


def test_what_the_planner_is_told() -> None:
    titles = [DIVISION.traits(key).title for key in EVERY]
    assert len(set(titles)) == len(titles)
    assert DIVISION.traits("division-written:3/1/remainder").seconds <= 60
    assert DIVISION.traits("division-written:4/1/remainder").seconds > 60  # for paper
