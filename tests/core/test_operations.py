"""Order of operations against the rules of the language itself; estimates against `Decimal`; below zero."""

import re
from decimal import ROUND_HALF_UP, Decimal
from itertools import product

import pytest

from review.core.model import Problem
from review.core.skills import negatives, operations
from review.core.skills.operations import ESTIMATES, ORDER, SHAPES
from tests.core.arithmetic import value
from tests.core.shown import assert_uniform, refuses
from tests.core.spaces import disagreements, every, shows_soundly, skill_of, tried

OPERATIONS, ESTIMATE = operations.KINDS
(NEGATIVE,) = negatives.KINDS


def calculated(problem: Problem) -> bool:
    return value(problem.prompt.removesuffix(" =")) == int(problem.expected)


# --- order of operations ------------------------------------------------------------------------------

ORDER_KEYS = [f"operations:{task}/2..12" for task in SHAPES]


@pytest.mark.parametrize("key", ORDER_KEYS)
def test_every_line_has_the_value_mathematics_gives_it(key: str) -> None:
    found = every(ORDER, key)
    assert len(found) > 60
    assert disagreements(OPERATIONS, key, found, calculated) == []


@pytest.mark.parametrize("key", ORDER_KEYS)
def test_what_is_shown_of_operations_is_sound(key: str) -> None:
    shows_soundly(OPERATIONS, key, 30)


def test_what_comes_first_matters() -> None:
    """From left to right would mostly come out with another number, except where that is the rule."""
    for name, (_, shape) in SHAPES.items():
        if not shape.left_first:
            for asked in tried(OPERATIONS, f"operations:{name}/2..12", 50):
                a, b, c = map(int, re.findall(r"\d+", asked))
                one, two = shape.signs
                left = value(f"({a} {one} {b}) {two} {c}")
                assert left != int(OPERATIONS.problem(f"operations:{name}/2..12", asked).expected)


def test_no_step_comes_to_zero_or_below() -> None:
    """`a − b × c` again, from its name."""
    numbers = range(2, 13)
    expected = {f"{a}-{b}x{c}" for a, b, c in product(range(2, 145), numbers, numbers) if a > b * c}
    assert set(every(ORDER, "operations:product-taken/2..12")) == expected
    divided = {f"{a}+{b}/{c}" for a, b, c in product(numbers, repeat=3) if b % c == 0}
    assert set(every(ORDER, "operations:quotient-last/2..12")) == divided


def test_lines_are_equally_likely_and_strangers_refused() -> None:
    key = "operations:brackets-less/2..6"
    assert_uniform(OPERATIONS, key, every(ORDER, key))
    assert refuses(OPERATIONS, key, ["3x(4-4)", "3x4-2", "3x(2-4)", "7x(4-2)", "(3x4)-2"]) == []


def test_impossible_ranges_are_told_in_words() -> None:
    (told,) = OPERATIONS.check(skill_of(OPERATIONS, task=("brackets-taken",), range=(5, 8)))
    assert told == (
        "range",
        "no problem of brackets-taken comes out with these",
        "widen the range, like [2, 20]",
    )


# --- estimates ----------------------------------------------------------------------------------------

ESTIMATE_KEYS = [f"estimate:{task}/{place}" for task in ESTIMATES.table for place in (10, 100, 1000)]


def near(number: int, place: int) -> int:
    return int((Decimal(number) / place).quantize(Decimal(1), ROUND_HALF_UP) * place)


def estimated(problem: Problem) -> bool:
    place = int(problem.card.split("/")[1])
    left, sign, right = problem.prompt.split(": ")[1].removesuffix(" ≈").replace(",", "").split(" ")
    a, b = near(int(left), place), int(right) if sign == "×" else near(int(right), place)
    return {"+": a + b, "−": a - b, "×": a * b}[sign] == int(problem.expected)


@pytest.mark.parametrize("key", ESTIMATE_KEYS)
def test_estimates_come_of_numbers_rounded_half_up(key: str) -> None:
    """`decimal.ROUND_HALF_UP`."""
    askeds = every(ESTIMATES, key) if key.endswith("/10") else tried(ESTIMATE, key, 300)
    assert disagreements(ESTIMATE, key, askeds, estimated) == []
    shows_soundly(ESTIMATE, key, 30)


def test_an_estimate_is_near() -> None:
    for asked in every(ESTIMATES, "estimate:sum/10"):
        total = sum(map(int, asked.split("+")))
        assert abs(int(ESTIMATE.problem("estimate:sum/10", asked).expected) - total) <= 10


def test_places_are_powers_of_ten() -> None:
    (told,) = ESTIMATE.check(skill_of(ESTIMATE, task=("sum",), places=(50,)))
    assert told == ("places", "50 is not 10, 100 or 1000", "take from 10, 100, 1000")
    assert refuses(ESTIMATE, "estimate:sum/10", ["30+25", "98", "5+7", "98-25"]) == []


# --- below zero ---------------------------------------------------------------------------------------

NEGATIVE_KEYS = [f"negative:{task}/1..10" for task in negatives.TABLE]


def below_zero(problem: Problem) -> bool:
    if problem.form == "sign":
        first, second = (int(text.replace("−", "-")) for text in problem.prompt.split(" □ "))
        return problem.expected == ("<" if first < second else ">")
    if problem.form == "degrees":
        low, high = (int(text.replace("−", "-")) for text in re.findall(r"−?\d+", problem.prompt))
        return len(range(low, high)) == int(problem.expected)
    return calculated(problem)


@pytest.mark.parametrize("key", NEGATIVE_KEYS)
def test_every_problem_below_zero(key: str) -> None:
    found = every(negatives.TASKS, key)
    assert len(found) >= 45
    assert disagreements(NEGATIVE, key, found, below_zero) == []
    shows_soundly(NEGATIVE, key)


def test_moves_cross_zero_or_stay_below_it_as_their_names_say() -> None:
    ends = {
        task: [int(NEGATIVE.problem(key, asked).expected) for asked in every(negatives.TASKS, key)]
        for task in ("down", "up", "down-below", "up-below")
        for key in [f"negative:{task}/1..10"]
    }
    assert max(ends["down"]) < 0 < min(ends["up"])
    assert max(ends["down-below"] + ends["up-below"]) < 0
    assert len(ends["down"]) == len(ends["up"]) == 45
    assert len(ends["down-below"]) == 100


def test_below_zero_each_is_equally_likely_and_strangers_refused() -> None:
    assert_uniform(NEGATIVE, "negative:up/1..10", every(negatives.TASKS, "negative:up/1..10"))
    assert refuses(NEGATIVE, "negative:down/1..10", ["8-3", "3-3", "-3-8", "0-3", "3-11"]) == []
    (told,) = NEGATIVE.check(skill_of(NEGATIVE, task=("down",), range=(5, 5)))
    assert told == ("range", "no numbers of down are in it", "widen the range, like [1, 10]")


def test_the_other_way_round_is_predicted() -> None:
    """error_rules.csv, family compare: `reversed`, from memory, as the table says."""
    assert NEGATIVE.predict("negative:compare/1..10", "-7?-1") == {"reversed": ">"}
