"""Column products: what belongs to a class, told by Python's whole numbers; and what is shown."""

from collections import Counter
from itertools import product
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.skills.column_product import (
    CLASSES,
    DIGITS,
    KINDS,
    _class,
    asked_of,
    belongs,
    factors,
    parts,
    possible,
)
from review.core.skills.places import with_digits
from review.core.skills.walks import pick, size
from tests.core.on_paper import assert_on_paper
from tests.core.shown import SOURCES, assert_uniform, refuses
from tests.core.spaces import skill_of

(COLUMN_PRODUCT,) = KINDS
EVERY = [f"column-product:{digits}/{name}" for digits, name in product(DIGITS, CLASSES)]
POSSIBLE = [key for key in EVERY if possible(_class(key))]


def hands_on(a: int, factor: int) -> bool:
    """Whether an ending of the number, times the factor, grows a digit before the last column."""
    return any(a % 10**at * factor >= 10**at for at in range(1, len(str(a))))


def name_of(a: int, b: int) -> set[str]:
    """The classes a pair belongs to, from the numbers alone."""
    if a % 10 == 0 or str(b) in ("1", "10"):
        return set()
    zero, round_tens = "0" in str(a), b > 9 and b % 10 == 0
    if round_tens:
        return set() if zero else {"tens"}
    carry = any(hands_on(a, int(digit)) for digit in str(b))
    return {"zero"} if zero else {"carry" if carry else "none"}


def every_pair(digits: str) -> list[tuple[int, int]]:
    upper, lower = map(int, digits.split("x"))
    return list(product(with_digits(upper), with_digits(lower)))


def told(key: str, a: int, b: int) -> bool:
    return key.rpartition("/")[2] in name_of(a, b)


# --- exact counts -------------------------------------------------------------------------------------


@pytest.mark.parametrize("digits", ["2x1", "3x1", "2x2"])
def test_a_class_is_what_its_name_says(digits: str) -> None:
    """Each pair of so many digits, the count, and each place against each pair."""
    pairs = every_pair(digits)
    for name in CLASSES:
        key = f"column-product:{digits}/{name}"
        members = {f"{a}x{b}" for a, b in pairs if told(key, a, b)}
        assert members == {f"{a}x{b}" for a, b in pairs if belongs(_class(key), a, b)}
        assert {asked_of(*pick(parts(key), place)) for place in range(size(parts(key)))} == members
        assert size(parts(key)) == len(members)


@pytest.mark.parametrize("digits", ["4x1", "3x2"])
def test_larger_classes_are_counted(digits: str) -> None:
    counts = Counter(name for a, b in every_pair(digits) for name in name_of(a, b))
    assert {name: size(parts(f"column-product:{digits}/{name}")) for name in CLASSES} == {
        name: counts[name] for name in CLASSES
    }


def test_four_digits_times_two_are_counted() -> None:
    """Without a zero 9 ** 4 numbers by 81 factors; with one inside 9 * (100 - 81) * 9."""
    sizes = {name: size(parts(f"column-product:4x2/{name}")) for name in CLASSES}
    assert sizes["none"] + sizes["carry"] == 9**4 * 81
    assert sizes["zero"] == 9 * 19 * 9 * 81
    assert sizes["tens"] == 9**4 * 8


def test_a_class_is_empty_only_where_the_check_says_so() -> None:
    for key in EVERY:
        assert bool(size(parts(key))) == possible(_class(key)), key
    of = skill_of(COLUMN_PRODUCT, digits="2x1", classes=("none", "zero", "tens"))
    troubles = list(COLUMN_PRODUCT.check(of))
    assert [(name, instead) for name, _, instead in troubles] == [
        ("classes", 'leave "zero" out'),
        ("classes", 'leave "tens" out'),
    ]


# --- draws --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", ["column-product:2x1/none", "column-product:2x1/carry"])
def test_every_product_is_equally_likely(key: str) -> None:
    digits = key.partition(":")[2].partition("/")[0]
    assert_uniform(COLUMN_PRODUCT, key, [f"{a}x{b}" for a, b in every_pair(digits) if told(key, a, b)])


@given(st.sampled_from(POSSIBLE), SOURCES)
def test_what_is_drawn_is_of_its_class_and_sound(key: str, random: Random) -> None:
    asked = COLUMN_PRODUCT.draw(key, random)
    a, b = map(int, asked.split("x"))
    assert told(key, a, b)
    assert b in factors(_class(key))
    assert_on_paper(COLUMN_PRODUCT.problem(key, asked))


def test_strangers_are_refused() -> None:
    strangers = ["24x2", "24x1", "24x0", "20x7", "124x7", "24x17"]
    assert refuses(COLUMN_PRODUCT, "column-product:2x1/carry", strangers) == []
    assert refuses(COLUMN_PRODUCT, "column-product:2x2/tens", ["24x37", "24x10", "20x30"]) == []


# --- what is shown ------------------------------------------------------------------------------------


def test_every_two_digit_number_times_one_is_sound() -> None:
    for a, b in every_pair("2x1"):
        for name in name_of(a, b):
            assert_on_paper(COLUMN_PRODUCT.problem(f"column-product:2x1/{name}", f"{a}x{b}"))


def steps(key: str, asked: str) -> list[str]:
    return COLUMN_PRODUCT.problem(key, asked).helps[-1].text.split("\n")


def test_as_a_teacher_would_write_it() -> None:
    assert steps("column-product:2x1/carry", "24x7") == [
        "ones: 4 × 7 = 28",
        "28 ones = 2 tens + 8 ones",
        "tens: 2 × 7 + 2 = 16",
        "  2 4",
        "  × 7",
        "-----",
        "1 6 8",
    ]
    assert steps("column-product:2x2/carry", "24x37") == [
        "24 × 7 = 168",
        "24 × 30 = 720",
        "168 + 720 = 888",
        "    2 4",
        "  × 3 7",
        "-------",
        "  1 6 8",
        "+ 7 2 0",
        "-------",
        "  8 8 8",
    ]
    assert steps("column-product:2x2/tens", "24x30")[3:5] == ["24 × 3 = 72", "72 × 10 = 720"]


def test_what_the_planner_is_told() -> None:
    titles = [COLUMN_PRODUCT.traits(key).title for key in POSSIBLE]
    assert len(set(titles)) == len(titles)
    seconds = {key.partition(":")[2]: COLUMN_PRODUCT.traits(key).seconds for key in POSSIBLE}
    assert all(seconds[f"{digits}x1/carry"] <= 60 for digits in (2, 3, 4))
    assert all(seconds[f"{digits}x2/carry"] > 60 for digits in (2, 3, 4))  # for paper
