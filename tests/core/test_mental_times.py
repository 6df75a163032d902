"""Products and quotients in the head: whole classes against plain integers, and what is shown of each."""

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.model import Skill
from review.core.skills.kinds import Kind
from review.core.skills.mental_times import FAMILIES, KINDS, members, passes
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses

BY_NAME = {kind.name: kind for kind in KINDS}


def skill(kind: str, **options: object) -> Skill:
    return Skill("s", "S", kind, "accuracy", options)


def kind_of(key: str) -> Kind:
    return BY_NAME[key.partition(":")[0]]


def possible(kind: str, most: int) -> list[str]:
    names = tuple(FAMILIES[kind].sorts)
    found = BY_NAME[kind].keys(skill(kind, digits=tuple(range(1, most + 1)), classes=names))
    return [key for key in found if members(key)]


NON_EMPTY = [*possible("mental-product", 3), *possible("mental-quotient", 4)]
SMALL = [key for key in NON_EMPTY if len(members(key)) <= 1000]


# --- exact counts -------------------------------------------------------------------------------------


def digits_of(number: int) -> list[int]:
    return [int(digit) for digit in str(number)]


def carried(a: int, b: int) -> list[int]:
    """The places that pass into the next, column by column as on paper, by the digits alone."""
    found, carry = [], 0
    for at, digit in enumerate(reversed(digits_of(a))):
        carry = (digit * b + carry) // 10
        found += [10**at] if carry else []
    return found


def test_columns_pass_as_on_paper() -> None:
    for a in range(1, 1000):
        for b in range(2, 10):
            assert list(passes(a, b)) == carried(a, b), (a, b)


PRODUCTS = [(a, b) for a in range(10, 100) for b in range(2, 10) if a % 10]


@pytest.mark.parametrize(
    ("name", "found"),
    [
        ("none", [pair for pair in PRODUCTS if not carried(*pair)]),
        ("regroup-ones", [pair for pair in PRODUCTS if carried(*pair) == [1]]),
        ("regroup-tens", [pair for pair in PRODUCTS if carried(*pair) == [10]]),
        ("regroup-both", [pair for pair in PRODUCTS if carried(*pair) == [1, 10]]),
        ("near-ten", [(a, b) for a in range(18, 100) for b in range(2, 10) if str(a)[-1] in "89"]),
        ("tens", [(a, b) for a in range(10, 100, 10) for b in range(2, 10)]),
    ],
)
def test_a_class_of_products_holds_what_it_says(name: str, found: list[tuple[int, int]]) -> None:
    assert set(members(f"mental-product:2x1/{name}")) == {f"{a}x{b}" for a, b in found}


def test_classes_of_products_are_the_whole_space_once() -> None:
    """90 numbers times 8 multipliers: those that end in 0 are a class of their own."""
    names = ("none", "regroup-ones", "regroup-tens", "regroup-both", "tens")
    every = [asked for name in names for asked in members(f"mental-product:2x1/{name}")]
    assert len(every) == len(set(every)) == 90 * 8
    assert len(members("mental-product:2x1/near-ten")) == 18 * 8


def test_tens_are_those_of_the_standard() -> None:
    """CCSS-M 2010, 3.NBT.A.3: one-digit numbers times multiples of 10 in 10 to 90; times 1 is no product
    to work out."""
    assert set(members("mental-product:2x1/tens")) == {
        f"{a}x{b}" for a in range(10, 91, 10) for b in range(2, 10)
    }


@pytest.mark.parametrize(
    ("key", "found"),
    [
        # 2 to 9 tens, or hundreds, shared: the product has that many digits
        ("2/1/by-place", [(q * b, b) for q in range(20, 100, 10) for b in range(2, 10) if q * b < 100]),
        (
            "3/1/by-place",
            [
                (q * b, b)
                for unit in (10, 100)
                for q in range(2 * unit, 10 * unit, unit)
                for b in range(2, 10)
                if 100 <= q * b < 1000
            ],
        ),
        (
            "2/1/none",
            [(a, b) for a in range(10, 100) for b in range(2, 10)
             if a % 10 and all(digit % b == 0 for digit in digits_of(a))],
        ),
        (
            "2/1/regroup",
            [(q * b, b) for q in range(13, 50) for b in range(2, 10)
             if q * b < 100 and q % 10 and any(digit % b for digit in digits_of(q * b))],
        ),
        ("2/1/half-none", [(a, 2) for a in range(10, 100) if a % 10 and not {*str(a)} - {*"02468"}]),
        ("2/1/half-regroup", [(a, 2) for a in range(10, 100, 2) if a % 10 and str(a)[0] in "13579"]),
        ("3/2/by-10", [(a, 10) for a in range(100, 1000, 10)]),
        ("4/3/by-100", [(a, 100) for a in range(1000, 10_000, 100)]),
        ("4/4/by-1000", [(a, 1000) for a in range(2000, 10_000, 1000)]),
    ],
)  # fmt: skip
def test_a_class_of_quotients_holds_what_it_says(key: str, found: list[tuple[int, int]]) -> None:
    assert set(members(f"mental-quotient:{key}")) == {f"{a}/{b}" for a, b in found}
    assert len(members(f"mental-quotient:{key}")) == len(set(found))


@pytest.mark.parametrize("key", [key for key in NON_EMPTY if len(members(key)) <= 100])
def test_every_member_is_equally_likely(key: str) -> None:
    assert_uniform(kind_of(key), key, members(key))


def test_nothing_is_drawn_from_an_empty_class() -> None:
    with pytest.raises(ValueError, match="nothing belongs"):
        BY_NAME["mental-product"].draw("mental-product:1x1/none", Random(1))


# --- problems -----------------------------------------------------------------------------------------


def assert_comes_out(key: str, asked: str) -> None:
    """Against exact fractions, from the numbers in `asked` alone."""
    one = kind_of(key).problem(key, asked)
    assert_sound(one)
    if "x" in asked:
        a, b = map(int, asked.split("x"))
        assert int(one.expected) == a * b
    else:
        a, b = map(int, asked.split("/"))
        assert Fraction(a, b) == int(one.expected)


@pytest.mark.parametrize("key", SMALL)
def test_every_member_of_a_small_class_is_sound_and_comes_out(key: str) -> None:
    for asked in members(key):
        assert_comes_out(key, asked)


@given(st.sampled_from(NON_EMPTY), SOURCES)
def test_what_is_drawn_is_sound_and_comes_out(key: str, random: Random) -> None:
    assert_comes_out(key, kind_of(key).draw(key, random))


@pytest.mark.parametrize(
    ("key", "asked", "steps"),
    [
        ("mental-product:2x1/regroup-ones", "24x3", ["20 × 3 = 60", "4 × 3 = 12", "60 + 12 = 72"]),
        ("mental-product:2x1/near-ten", "29x3", ["30 × 3 = 90", "1 × 3 = 3", "90 − 3 = 87"]),
        ("mental-product:2x1/tens", "30x4", ["3 × 4 = 12", "30 × 4 = 120"]),
        ("mental-product:2x1/double-regroup", "37x2", ["30 + 30 = 60", "7 + 7 = 14", "60 + 14 = 74"]),
        ("mental-product:2x2/by-10", "34x10", ["Each digit moves: ones become tens.", "34 × 10 = 340"]),
        ("mental-quotient:3/1/by-place", "420/7", ["42 ÷ 7 = 6", "420 ÷ 7 = 60"]),
        ("mental-quotient:2/1/none", "84/4", ["80 ÷ 4 = 20", "4 ÷ 4 = 1", "20 + 1 = 21"]),
        ("mental-quotient:2/1/regroup", "72/4", ["72 = 40 + 32", "40 ÷ 4 = 10", "32 ÷ 4 = 8", "10 + 8 = 18"]),
        ("mental-quotient:2/1/half-regroup", "56/2", ["Half of 50 is 25.", "Half of 6 is 3.", "25 + 3 = 28"]),
        (
            "mental-quotient:4/3/by-100",
            "4200/100",
            ["Each digit moves: hundreds become ones.", "4,200 ÷ 100 = 42"],
        ),
    ],
)
def test_a_way_suits_its_class(key: str, asked: str, steps: list[str]) -> None:
    """Common practice, no source."""
    assert kind_of(key).problem(key, asked).helps[-1].text.split("\n") == steps


def test_as_a_teacher_would_write_it() -> None:
    product = BY_NAME["mental-product"].problem("mental-product:2x4/by-1000", "34x1000")
    assert (product.prompt, product.expected, product.told) == (
        "34 × 1,000 =",
        "34000",
        "34 × 1,000 makes 34,000.",
    )
    assert product.say == "thirty-four times one thousand"
    half = BY_NAME["mental-quotient"].problem("mental-quotient:2/1/half-none", "68/2")
    assert (half.prompt, half.say, half.told) == ("Half of 68 is", "half of sixty-eight", "Half of 68 is 34.")


def test_what_belongs_to_another_class_is_refused() -> None:
    product, quotient = BY_NAME["mental-product"], BY_NAME["mental-quotient"]
    assert refuses(product, "mental-product:2x1/none", ["24x3", "2x3", "40x2", "23x1", "23"]) == []
    assert refuses(quotient, "mental-quotient:2/1/regroup", ["84/4", "73/4", "24/4", "72/0"]) == []


# --- the kinds ----------------------------------------------------------------------------------------


def test_keys_say_size_and_class() -> None:
    product, quotient = BY_NAME["mental-product"], BY_NAME["mental-quotient"]
    assert list(product.keys(skill("mental-product", digits=(1, 2), classes=("near-ten", "by-100")))) == [
        "mental-product:1x1/near-ten",
        "mental-product:2x1/near-ten",
        "mental-product:1x3/by-100",
        "mental-product:2x3/by-100",
    ]
    assert list(quotient.keys(skill("mental-quotient", digits=(3,), classes=("by-place",)))) == [
        "mental-quotient:3/1/by-place"
    ]


def test_an_empty_class_is_told_in_words() -> None:
    product = BY_NAME["mental-product"]
    (told,) = product.check(skill("mental-product", digits=(1, 2), classes=("tens",)))
    assert told == (
        "classes",
        "no numbers fit “1-digit × 1-digit, whole tens”",
        'leave "tens" or that many digits out',
    )


def test_titles_tell_the_cards_apart() -> None:
    titles = [kind_of(key).traits(key).title for key in NON_EMPTY]
    assert len(set(titles)) == len(titles)
    seconds = [kind_of(key).traits(key).seconds for key in NON_EMPTY]
    assert min(seconds) >= 3
    assert max(seconds) <= 30
