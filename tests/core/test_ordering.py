"""Numbers in order: answers by another way, exact counts, uniform draws."""

from functools import partial
from itertools import pairwise, product
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.skills.ordering import KINDS
from tests.core.shown import COLUMNS, SOURCES, assert_sound, refuses, seen
from tests.core.spaces import skill_of

(ORDER,) = KINDS
skill = partial(skill_of, ORDER)


KEYS = [
    f"order:{many}/{digits}{which}"
    for many in (3, 4)
    for digits in range(2, 7)
    for which in ("", "-mixed", "-shuffled")
    if (digits, which) != (2, "-shuffled")
]


@given(st.sampled_from(KEYS), SOURCES)
def test_each_number_is_smaller_than_the_next(key: str, random: Random) -> None:
    asked = ORDER.draw(key, random)
    problem = ORDER.problem(key, asked)
    assert_sound(problem)
    found = [int(number) for number in problem.expected.split()]
    assert all(less < more for less, more in pairwise(found))
    assert sorted(problem.expected.split()) == sorted(asked.split(","))  # the same numbers, as texts
    assert seen(problem) == ("   ".join(f"{int(number):,}" for number in asked.split(",")),)
    assert len(seen(problem)[0]) <= COLUMNS
    assert judge(problem, ", ".join(f"{number:,}" for number in found)) == "right"
    assert judge(problem, " ".join(map(str, found[::-1]))) == "other"


@given(st.sampled_from(KEYS), SOURCES)
def test_a_list_is_of_its_class(key: str, random: Random) -> None:
    asked = ORDER.draw(key, random).split(",")
    many, _, word = key.removeprefix("order:").partition("/")
    digits, _, which = word.partition("-")
    lengths = {len(number) for number in asked}
    assert len(asked) == len(set(asked)) == int(many)
    assert lengths == ({int(digits), int(digits) - 1} if which == "mixed" else {int(digits)})
    if which == "shuffled":
        assert len({frozenset(number) for number in asked}) == 1
        assert all(len(set(number)) == len(number) and "0" not in number for number in asked)


def test_classes_have_as_many_members_as_can_be_counted() -> None:
    """Of 20 numbers every ordered choice of three; one order in six is the asked one and left out."""
    every = [",".join(map(str, found)) for found in product(range(50, 70), repeat=3)]
    assert len(refuses(ORDER, "order:3/2", every)) == 20 * 19 * 18 * 5 // 6
    alike = [",".join(found) for found in product(("123", "132", "213", "231", "312", "321"), repeat=3)]
    assert len(refuses(ORDER, "order:3/3-shuffled", alike)) == 6 * 5 * 4 * 5 // 6


def _first_of_order(number: int) -> float:
    """The chance that two more numbers follow it in order: both greater, and the smaller of them first."""
    greater = 99 - number
    return greater * (greater - 1) / 2 / (89 * 88)


def test_every_list_is_equally_likely() -> None:
    """Too many to hit each: by tens, how often a number comes first and last, against the closed form. One
    order in six is left out, and small numbers begin it more often."""
    random = Random("order")
    drawn = [ORDER.draw("order:3/2", random).split(",") for _ in range(20_000)]
    for low in range(10, 100, 10):
        tens = range(low, low + 10)
        first = sum(1 - _first_of_order(number) for number in tens) / 75 * len(drawn)
        last = sum(1 - _first_of_order(109 - number) for number in tens) / 75 * len(drawn)
        for place, expected in ((0, first), (2, last)):
            found = sum(int(numbers[place]) in tens for numbers in drawn)
            assert abs(found - expected) < 5 * expected**0.5


def test_strangers_are_refused() -> None:
    assert (
        refuses(ORDER, "order:3/3", ["345,354", "345,354,435", "354,354,345", "35,354,345", "0354,345,435"])
        == []
    )
    assert refuses(ORDER, "order:3/3-shuffled", ["345,354,346", "405,450,540", "355,535,553"]) == []
    with pytest.raises(ValueError, match="no numbers"):
        ORDER.draw("order:3/2-shuffled", Random(1))


def test_as_a_teacher_would_write_it() -> None:
    problem = ORDER.problem("order:3/4", "3456,3465,3345")
    assert seen(problem) == ("3,456   3,465   3,345",)
    assert (problem.prompt, problem.expected) == ("Smallest first:", "3345 3456 3465")
    assert problem.told == "3,345 < 3,456 < 3,465"


def test_keys_and_conditions() -> None:
    assert list(ORDER.keys(skill(digits=3, which=("any", "mixed")))) == ["order:3/3", "order:3/3-mixed"]
    (told,) = ORDER.check(skill(digits=2, which=("shuffled",)))
    assert told[0] == "which"
    titles = [ORDER.traits(key).title for key in KEYS]
    assert len(set(titles)) == len(titles)
