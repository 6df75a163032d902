"""Column differences: exact class counts, exchanges across zeros, and what is shown.

The oracle for exchanges is Legendre's and Kummer's: a - b is added to b, so exchanges are the carries of that
sum, (s(b) + s(a - b) - s(a)) / 9 with s the sum of the digits.
"""

import re
from itertools import product
from math import comb
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.skills.column_difference import (
    CLASSES,
    DIGITS,
    KINDS,
    _class,
    asked_of,
    belongs,
    parts,
    possible,
)
from review.core.skills.places import with_digits
from review.core.skills.walks import pick, size
from tests.core.on_paper import assert_on_paper, digit_sum
from tests.core.shown import SOURCES, assert_uniform, refuses, seen
from tests.core.spaces import skill_of
from tests.tables import published

(COLUMN_DIFFERENCE,) = KINDS
EVERY = [f"column-difference:{digits}/{name}" for digits, name in product(DIGITS, CLASSES)]
POSSIBLE = [key for key in EVERY if possible(_class(key))]


def exchanges(a: int, b: int) -> int:
    many, left = divmod(digit_sum(b) + digit_sum(a - b) - digit_sum(a), 9)
    assert not left
    return many


def zeros_crossed(a: int, b: int) -> int:
    """The longest run of zeros of the upper number that the columns before them lack, told from endings."""
    crossed = "".join(
        "x" if str(a)[-1 - at] == "0" and a % 10**at < b % 10**at else " " for at in range(len(str(a)))
    )
    return max(map(len, crossed.split(" ")))


def told(key: str, a: int, b: int) -> bool:
    """Whether the pair belongs, from the name of the class alone."""
    if a <= b:
        return False
    name, crossed = key.rpartition("/")[2], zeros_crossed(a, b)
    if name in ("zero", "zeros"):
        return crossed >= 2 if name == "zeros" else crossed == 1
    return not crossed and exchanges(a, b) == int(name)


def every_pair(digits: str) -> list[tuple[int, int]]:
    upper, lower = map(int, digits.split("-"))
    return list(product(with_digits(upper), with_digits(lower)))


# --- exact counts -------------------------------------------------------------------------------------


@pytest.mark.parametrize("digits", ["2-1", "2-2", "3-1"])
def test_a_class_is_what_its_name_says(digits: str) -> None:
    """Each pair of so many digits against the oracle, its count, and each place against each pair."""
    pairs = every_pair(digits)
    for name in CLASSES:
        key = f"column-difference:{digits}/{name}"
        members = {f"{a}-{b}" for a, b in pairs if told(key, a, b)}
        assert members == {f"{a}-{b}" for a, b in pairs if belongs(_class(key), a, b)}
        assert {asked_of(*pick(parts(key), place)) for place in range(size(parts(key)))} == members
        assert size(parts(key)) == len(members)


def test_three_and_two_digits_are_counted() -> None:
    pairs = every_pair("3-2")
    for name in ("0", "2", "zero"):
        key = f"column-difference:3-2/{name}"
        assert size(parts(key)) == sum(told(key, a, b) for a, b in pairs)


def count(digits: str, name: str) -> int:
    return size(parts(f"column-difference:{digits}/{name}"))


def test_classes_have_the_published_number_of_differences() -> None:
    """counts.csv: brute force, a >= b; the pairs with a = b, one for each number, are no problem of ours."""
    two, three = (f"{n}-digit - {n}-digit, a >= b, no leading zero" for n in (2, 3))
    assert count("2-2", "1") == published(two, "1")
    assert count("3-3", "0") == published(three, "0") - 900
    across = published("3-digit - 3-digit, borrow across a zero in the tens", "")
    assert count("3-3", "zero") == across
    assert count("3-3", "2") == published(three, "2") - across


@pytest.mark.parametrize("digits", [2, 3, 4])
def test_every_difference_belongs_to_one_class(digits: int) -> None:
    """Together they are all pairs of two unlike numbers: n over 2."""
    assert sum(count(f"{digits}-{digits}", name) for name in CLASSES) == comb(9 * 10 ** (digits - 1), 2)


def test_two_zeros_in_a_row_are_counted() -> None:
    """Ones that lack in 45 of 100 pairs, two zeros above anything, and a first digit that can spare one."""
    assert count("4-4", "zeros") == 45 * 10 * 10 * comb(9, 2)


def test_a_class_is_empty_only_where_the_check_says_so() -> None:
    for key in EVERY:
        assert bool(size(parts(key))) == possible(_class(key)), key
    of = skill_of(COLUMN_DIFFERENCE, digits="2-2", classes=("1", "2", "zero"))
    troubles = list(COLUMN_DIFFERENCE.check(of))
    assert [(name, instead) for name, _, instead in troubles] == [
        ("classes", 'leave "2" out'),
        ("classes", 'leave "zero" out'),
    ]


# --- draws --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", ["column-difference:2-1/1", "column-difference:3-1/zero"])
def test_every_difference_is_equally_likely(key: str) -> None:
    digits = key.partition(":")[2].partition("/")[0]
    assert_uniform(COLUMN_DIFFERENCE, key, [f"{a}-{b}" for a, b in every_pair(digits) if told(key, a, b)])


@given(st.sampled_from(POSSIBLE), SOURCES)
def test_what_is_drawn_is_of_its_class_and_sound(key: str, random: Random) -> None:
    asked = COLUMN_DIFFERENCE.draw(key, random)
    a, b = map(int, asked.split("-"))
    assert told(key, a, b)
    assert_on_paper(COLUMN_DIFFERENCE.problem(key, asked))


def test_strangers_are_refused() -> None:
    strangers = ["52-31", "29-52", "52-52", "152-29", "52-9"]
    assert refuses(COLUMN_DIFFERENCE, "column-difference:2-2/1", strangers) == []
    assert refuses(COLUMN_DIFFERENCE, "column-difference:3-3/2", ["904-237"]) == []


# --- what is shown ------------------------------------------------------------------------------------


def test_every_two_digit_difference_is_sound() -> None:
    for a, b in every_pair("2-2")[::3]:
        if a > b:
            assert_on_paper(COLUMN_DIFFERENCE.problem(f"column-difference:2-2/{exchanges(a, b)}", f"{a}-{b}"))


@given(st.sampled_from(POSSIBLE), SOURCES)
def test_every_exchange_has_its_line(key: str, random: Random) -> None:
    """Exactly one a column that lacks, counting those that only pass a ten on."""
    problem = COLUMN_DIFFERENCE.problem(key, COLUMN_DIFFERENCE.draw(key, random))
    a, b = map(int, problem.asked.split("-"))
    lines = problem.helps[-1].text.split("\n")
    assert sum(bool(re.match(r"1 \w+ = 10 \w+$", line)) for line in lines) == exchanges(a, b)
    columns = [re.fullmatch(r" *\w+: (\d+) − (\d) = (\d)", line) for line in lines]
    digits = [found[3] for found in columns if found]
    assert int("".join(reversed(digits))) == a - b


def test_as_a_teacher_would_write_it() -> None:
    problem = COLUMN_DIFFERENCE.problem("column-difference:3-3/zero", "904-237")
    assert problem.prompt == "904 − 237 ="
    assert problem.told == "904 − 237 leaves 667."
    assert seen(problem) == ("  9 0 4", "− 2 3 7", "-------")
    assert problem.helps[0].text == "Where can the next ten come from?"
    assert problem.helps[2].text.endswith("hundreds: 8 − 2 = □")
    assert problem.helps[3].text.split("\n") == [
        "4 ones are not enough.",
        "1 hundred = 10 tens",
        "1 ten = 10 ones",
        "    ones: 14 − 7 = 7",
        "    tens: 9 − 3 = 6",
        "hundreds: 8 − 2 = 6",
        "  9 0 4",
        "− 2 3 7",
        "-------",
        "  6 6 7",
    ]


def test_what_the_planner_is_told() -> None:
    titles = [COLUMN_DIFFERENCE.traits(key).title for key in POSSIBLE]
    assert len(set(titles)) == len(titles)
    assert COLUMN_DIFFERENCE.traits("column-difference:3-3/1").seconds <= 60
    assert COLUMN_DIFFERENCE.traits("column-difference:4-4/zeros").seconds > 60  # for paper
