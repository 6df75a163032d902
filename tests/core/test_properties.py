"""Odd and even, factors, multiples, primes, squares, cubes: whole ranges, by another way."""

from collections import Counter
from functools import partial
from random import Random

import pytest

from review.core.answers import judge
from review.core.keys import well_formed
from review.core.skills import traits
from review.core.skills.properties import KINDS
from tests.core.shown import assert_sound, assert_uniform, refuses
from tests.core.spaces import skill_of

(PROPERTY,) = KINDS
skill = partial(skill_of, PROPERTY)


def members(key: str, top: int = 1001) -> list[str]:
    return refuses(PROPERTY, f"number-property:{key}", map(str, range(top)))


def expected(key: str, asked: object) -> str:
    return PROPERTY.problem(f"number-property:{key}", str(asked)).expected


KEYS = ["odd-even/0..1000", "factors/1..100", "prime/1..100", *(f"multiple-{n}/1..150" for n in range(2, 13)),
        *(f"square/{n}..{n}" for n in range(1, 13)), *(f"cube/{n}..{n}" for n in range(1, 11))]  # fmt: skip


@pytest.mark.parametrize("key", KEYS)
def test_every_problem_is_sound(key: str) -> None:
    for asked in members(key):
        assert_sound(PROPERTY.problem(f"number-property:{key}", asked))


def test_odd_and_even() -> None:
    """By the last digit in base two."""
    assert members("odd-even/0..1000") == [str(number) for number in range(1001)]
    for number in range(1001):
        assert expected("odd-even/0..1000", number) == ("odd" if bin(number)[-1] == "1" else "even")


# The primes to 100: OEIS A000040.
PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97]


def test_primes_to_100_are_the_published_ones() -> None:
    found = [number for number in range(1, 101) if expected("prime/1..100", number) == "yes"]
    assert found == PRIMES


def test_factors_are_as_many_as_published_and_come_in_pairs() -> None:
    """OEIS A000005, the number of divisors; its sum over 1 to 100 is 482 (OEIS A006218)."""
    found = {
        number: [int(factor) for factor in expected("factors/1..100", number).split()]
        for number in range(1, 101)
    }
    assert sum(map(len, found.values())) == 482
    assert [len(found[number]) for number in range(1, 13)] == [1, 2, 2, 3, 2, 4, 2, 4, 3, 4, 2, 6]
    for number, factors in found.items():
        assert all(a * b == number for a, b in zip(factors, factors[::-1], strict=True))
        assert factors == sorted(set(factors))


@pytest.mark.parametrize("step", range(2, 13))
def test_multiples_are_told_from_the_numbers_next_to_them(step: int) -> None:
    table = {step * times for times in range(1, 150 // step + 1)}
    near = {number + way for number in table | {0, 151 // step * step + step} for way in (1, -1)} - table
    found = {
        int(asked): expected(f"multiple-{step}/1..150", asked) for asked in members(f"multiple-{step}/1..150")
    }
    assert {number for number, said in found.items() if said == "yes"} == table
    assert {number for number, said in found.items() if said == "no"} == {n for n in near if 1 <= n <= 150}


def test_squares_and_cubes_are_the_published_ones() -> None:
    """OEIS A000290 and A000578."""
    squares = [1, 4, 9, 16, 25, 36, 49, 64, 81, 100, 121, 144]
    cubes = [1, 8, 27, 64, 125, 216, 343, 512, 729, 1000]
    assert [int(expected(f"square/{n}..{n}", n)) for n in range(1, 13)] == squares
    assert [int(expected(f"cube/{n}..{n}", n)) for n in range(1, 11)] == cubes


@pytest.mark.parametrize("key", ["odd-even/0..20", "factors/2..30"])
def test_every_member_is_equally_likely(key: str) -> None:
    assert_uniform(PROPERTY, f"number-property:{key}", members(key))


@pytest.mark.parametrize("key", ["prime/1..100", "multiple-7/1..84"])
def test_yes_and_no_are_drawn_alike_and_each_number_of_a_half_too(key: str) -> None:
    """Within five standard deviations of a fair coin, and of the share of a number in its half."""
    random, many = Random(key), 20_000
    drawn = Counter(PROPERTY.draw(f"number-property:{key}", random) for _ in range(many))
    assert set(drawn) == set(members(key))
    for said in ("yes", "no"):
        half = [asked for asked in drawn if expected(key, asked) == said]
        assert abs(sum(drawn[asked] for asked in half) - many / 2) < 5 * (many / 4) ** 0.5
        each = many / 2 / len(half)
        assert all(abs(drawn[asked] - each) < 5 * each**0.5 for asked in half)


def test_as_a_teacher_would_write_it() -> None:
    problem = PROPERTY.problem("number-property:factors/1..100", "12")
    assert (problem.prompt, problem.expected) == ("Factors of 12:", "1 2 3 4 6 12")
    assert problem.helps[-1].text.split("\n") == ["1 × 12 = 12", "2 × 6 = 12", "3 × 4 = 12"]
    assert judge(problem, "12, 1, 6, 2, 4 and 3") == "right"
    assert judge(problem, "1 2 3 4 12") == "other"
    problem = PROPERTY.problem("number-property:prime/1..100", "91")
    assert (problem.prompt, problem.told) == ("Is 91 a prime number?", "91 is not prime: 7 × 13 = 91.")
    assert PROPERTY.problem("number-property:prime/1..100", "1").told == "1 is not prime: it has one factor."
    problem = PROPERTY.problem("number-property:multiple-7/1..84", "57")
    assert (problem.prompt, problem.told) == ("Is 57 a multiple of 7?", "No: 57 = 8 × 7 + 1.")
    assert PROPERTY.problem("number-property:odd-even/0..20", "14").prompt == "14: odd or even?"


def test_squares_and_cubes_are_facts_that_wait_for_their_partner() -> None:
    square, cube = (PROPERTY.traits(f"number-property:{what}/7..7") for what in ("square", "cube"))
    product = traits("product:7x7")
    assert square.fact
    assert cube.fact
    assert (square.partner, square.family) == ("product:7x7", product.family)
    assert cube.partner == "number-property:square/7..7"
    assert square.groups & product.groups  # 49 is not asked twice running
    assert PROPERTY.traits("number-property:square/1..1").partner == ""
    for what in ("odd-even/0..20", "prime/1..100", "multiple-7/1..84"):
        assert PROPERTY.traits(f"number-property:{what}").choices == 2
    titles = [PROPERTY.traits(f"number-property:{key}").title for key in KEYS]
    assert len(set(titles)) == len(titles)
    assert all(well_formed(f"number-property:{key}") for key in KEYS)


def test_keys_and_conditions() -> None:
    assert list(PROPERTY.keys(skill(what="square", range=(2, 3)))) == [
        "number-property:square/2..2", "number-property:square/3..3",
    ]  # fmt: skip
    assert list(PROPERTY.keys(skill(what="multiple", of=(3, 4), range=(1, 50)))) == [
        "number-property:multiple-3/1..50", "number-property:multiple-4/1..50",
    ]  # fmt: skip
    assert [*PROPERTY.check(skill(what="prime", range=(1, 20)))] == []
    impossible: list[tuple[dict[str, object], str]] = [
        ({"what": "square", "range": (1, 13)}, "range"),
        ({"what": "factors", "range": (0, 10)}, "range"),
        ({"what": "multiple", "range": (1, 50)}, "of"),
        ({"what": "multiple", "of": (60,), "range": (1, 50)}, "range"),
        ({"what": "prime", "range": (24, 28)}, "range"),
    ]
    for options, name in impossible:
        (told,) = PROPERTY.check(skill(**options))
        assert told[0] == name


def test_strangers_are_refused() -> None:
    assert refuses(PROPERTY, "number-property:multiple-7/1..84", ["10", "85", "007", "-7"]) == []
    assert refuses(PROPERTY, "number-property:square/7..7", ["8"]) == []


def test_the_ones_alone_tell_odd_from_even() -> None:
    told = [
        PROPERTY.problem("number-property:odd-even/101..1000", asked).helps[-1].text
        for asked in ("168", "897")
    ]
    assert told == ["ones: 8 = 4 + 4\nSo it is even.", "ones: 7 = 3 + 3 + 1\nSo it is odd."]


@pytest.mark.parametrize("key", ["number-property:multiple-7/1..100", "number-property:prime/1..20"])
def test_the_steps_end_in_what_follows_from_them(key: str) -> None:
    for asked in {PROPERTY.draw(key, Random(n)) for n in range(20)}:
        one = PROPERTY.problem(key, asked)
        assert one.helps[-1].text.split("\n")[-1] == f"So: {one.expected}."
