"""Rounding, halfway up: the whole space to 9,999 against the decimal library, exact counts, uniform draws."""

import re
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from functools import partial
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import skills
from review.core.drawn import drawn
from review.core.skills.rounding import KINDS
from tests.core.shown import COLUMNS, SOURCES, assert_sound, assert_uniform, refuses
from tests.core.spaces import skill_of
from tests.tables import rows

(ROUNDING,) = KINDS
skill = partial(skill_of, ROUNDING)


def by_decimal(number: int, place: int, way: str = ROUND_HALF_UP) -> int:
    return int((Decimal(number) / place).quantize(Decimal(1), way) * place)


def members(key: str, top: int = 10_000) -> list[str]:
    return refuses(ROUNDING, key, map(str, range(top)))


@pytest.mark.parametrize("place", [10, 100, 1000])
def test_every_number_to_9999_is_rounded_as_the_decimal_library_does(place: int) -> None:
    """General Decimal Arithmetic, round-half-up. Round numbers are not asked."""
    key = f"rounding:{place}/0..9999"
    assert members(key) == [str(number) for number in range(10_000) if number % place]
    for asked in members(key):
        assert int(ROUNDING.problem(key, asked).expected) == by_decimal(int(asked), place)


@pytest.mark.parametrize("place", [100, 1000])
def test_rounding_half_to_even_would_differ_as_often_as_published(place: int) -> None:
    """counts.csv: decimal ROUND_HALF_UP against ROUND_HALF_EVEN; round numbers differ in neither."""
    name = f"round 0..9999 to nearest {place}: half-up differs from Python round() (half-even)"
    (row,) = rows("counts.csv", **{"class": name})
    key = f"rounding:{place}/0..9999"
    differ = [
        asked
        for asked in members(key)
        if int(ROUNDING.problem(key, asked).expected) != by_decimal(int(asked), place, ROUND_HALF_EVEN)
    ]
    assert len(differ) == int(row["count"])
    assert set(differ) < set(members(f"{key}/half"))


@pytest.mark.parametrize(
    ("key", "count"),
    [
        ("10/0..99", 90),
        ("10/0..99/half", 10),
        ("10/0..999/roll", 5 * 10),  # 95 to 99 behind each hundred
        ("100/0..9999/half", 100),
        ("100/1000..9999/roll", 50 * 9),
        ("1000/0..9999/half", 10),
        ("1000/5..1499/half", 1),
    ],
)
def test_a_class_has_as_many_members_as_its_closed_form_says(key: str, count: int) -> None:
    assert len(members(f"rounding:{key}")) == count


@pytest.mark.parametrize("key", ["10/0..99", "10/20..99/half", "100/0..999/roll", "1000/0..9999/half"])
def test_every_member_is_equally_likely(key: str) -> None:
    assert_uniform(ROUNDING, f"rounding:{key}", members(f"rounding:{key}"))


PLACES = (10, 100, 1000, 10_000, 100_000)
KEYS = [
    f"rounding:{place}/0..999999{which}" for place in PLACES for which in ("", "/half", "/roll")
]  # fmt: skip


@given(st.sampled_from(KEYS), SOURCES)
def test_what_is_drawn_is_sound_and_nearest(key: str, random: Random) -> None:
    asked = ROUNDING.draw(key, random)
    problem = ROUNDING.problem(key, asked)
    assert_sound(problem)
    place, number = int(key.split(":")[1].split("/")[0]), int(asked)
    assert int(problem.expected) == by_decimal(number, place)
    changed = number // (place * 10) != int(problem.expected) // (place * 10)
    assert not key.endswith("roll") or changed
    assert not key.endswith("half") or Decimal(number) / place % 1 == Decimal("0.5")


def test_every_number_to_999_is_sound() -> None:
    for place in (10, 100, 1000):
        for asked in members(f"rounding:{place}/0..999", 1000):
            assert_sound(ROUNDING.problem(f"rounding:{place}/0..999", asked))


def rounding_line(key: str, asked: str) -> tuple[str, ...]:
    """The picture of its help, line by line."""
    (picture,) = [help.picture for help in skills.problem(key, asked).helps if help.step == "picture"]
    assert picture
    return drawn(picture)


def test_as_a_teacher_would_write_it() -> None:
    problem = ROUNDING.problem("rounding:100/0..9999", "3450")
    assert (problem.prompt, problem.expected) == ("3,450 to the nearest 100 is", "3500")
    assert problem.told == "3,450 to the nearest 100 is 3,500."
    assert problem.helps[-1].text.split("\n") == [
        "Halfway is 3,450.", "Halfway goes up.", "3,450 + 50 = 3,500",
    ]  # fmt: skip
    arrow, line, ends = rounding_line("rounding:100/0..9999", "3450")
    assert ends.split() == ["3,400", "3,450", "3,500"]
    middle = line.index("|", line.index("|") + 1)
    assert arrow.index("v") == middle
    assert ends[middle - 3 : middle + 3].strip() == "3,450"[-6:]
    assert max(len(ends), len(line)) <= COLUMNS


def test_strangers_are_refused() -> None:
    assert refuses(ROUNDING, "rounding:100/0..9999", ["300", "10001", "0345"]) == []
    assert refuses(ROUNDING, "rounding:100/0..9999/half", ["345", "351"]) == []


def test_a_class_is_empty_where_none_of_its_numbers_belongs() -> None:
    for place in (10, 100):
        for which in ("all", "half", "roll"):
            for low in range(0, 1200, 7):
                for high in (low, low + 3, low + 51):
                    key = f"rounding:{place}/{low}..{high}/{which}".removesuffix("/all")
                    keys = list(ROUNDING.keys(skill(places=(place,), range=(low, high), which=(which,))))
                    assert keys == [key] * bool(refuses(ROUNDING, key, map(str, range(low, high + 1))))


def test_keys_and_conditions() -> None:
    assert list(ROUNDING.keys(skill(places=(10, 100), range=(0, 999), which=("all", "half")))) == [
        "rounding:10/0..999", "rounding:10/0..999/half", "rounding:100/0..999", "rounding:100/0..999/half",
    ]  # fmt: skip
    (place,) = ROUNDING.check(skill(places=(25,), range=(0, 999)))
    assert place == ("places", "25 is no place to round to", "take from 10, 100, 1000, 10000, 100000")
    (empty,) = ROUNDING.check(skill(places=(100,), range=(0, 40), which=("half",)))
    assert empty == ("range", "no number from 0 to 40 is exactly halfway", "write [0, 9999]")
    titles = [ROUNDING.traits(key).title for key in KEYS]
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize(
    "key", ["10/0..99", "10/100..999", "100/900..999", "1000/1000..9999", "100000/100000..999999"]
)
def test_round_numbers_and_their_middle_stand_over_their_marks(key: str) -> None:
    """The middle of a name, or where it has none the column right of it, is over the mark."""
    _, line, names = rounding_line(f"rounding:{key}", ROUNDING.draw(f"rounding:{key}", Random(key)))
    marks = [at for at, sign in enumerate(line) if sign == "|"]
    found = [(match.start(), len(match[0])) for match in re.finditer(r"[\d,]+", names)]
    assert [start + length // 2 for start, length in found] == marks
