"""Fractions, order of operations and percents over whole classes, against sympy (1.14 when written)."""

import re

import pytest
from sympy import Rational, sympify

from review.core.model import Problem
from review.core.skills.fractions import KINDS, TASKS
from review.core.skills.operations import KINDS as OPERATIONS
from review.core.skills.operations import ORDER, SHAPES
from review.core.skills.percents import KINDS as PERCENTS
from review.core.skills.percents import TASKS as PERCENT_TASKS
from tests.core.spaces import every

(FRACTION,), (PERCENT,) = KINDS, PERCENTS
PARTS = "2-3-4-5-6-8-10-12"
SIGNS = str.maketrans({"×": "*", "÷": "/", "−": "-"})


def exact(text: str) -> object:
    """The value of what is written, mixed numbers with them, without a decimal in between."""
    joined = re.sub(r"(\d+) (\d+/\d+)", r"(\1+\2)", text.replace(",", "").translate(SIGNS))
    return sympify(joined, rational=True)


@pytest.mark.parametrize(
    "task", ["add-like", "add-like-over", "add-multiple", "add-unlike", "subtract-like", "subtract-multiple",
             "subtract-unlike", "times"],
)  # fmt: skip
def test_sums_and_products(task: str) -> None:
    key = f"fraction:{task}/2-3-4-6-8-10"
    for asked in every(TASKS, key):
        problem = FRACTION.problem(key, asked)
        assert exact(problem.prompt.removesuffix(" =")) == exact(problem.expected)


@pytest.mark.parametrize("name", ["add", "subtract"])
@pytest.mark.parametrize("tail", ["", "-over", "-unlike", "-unlike-over"])
def test_mixed_numbers(name: str, tail: str) -> None:
    key = f"fraction:{name}-mixed{tail}/2-3-4"
    for asked in every(TASKS, key)[::3]:
        problem = FRACTION.problem(key, asked)
        assert exact(problem.prompt.removesuffix(" =")) == exact(problem.expected)


def lowest(problem: Problem) -> bool:
    value = Rational(problem.expected)
    return value == Rational(problem.asked) and problem.expected == f"{value.p}/{value.q}"


def test_simplest_form() -> None:
    key = f"fraction:simplest/{PARTS}"
    assert all(lowest(FRACTION.problem(key, asked)) for asked in every(TASKS, key))


@pytest.mark.parametrize("name", SHAPES)
def test_order_of_operations(name: str) -> None:
    key = f"operations:{name}/2..7"
    for asked in every(ORDER, key):
        problem = OPERATIONS[0].problem(key, asked)
        assert exact(problem.prompt.removesuffix(" =")) == exact(problem.expected)


def test_percents_are_what_sympy_makes_of_them() -> None:
    key = "percent:of/5-10-25-30-75"
    for asked in every(PERCENT_TASKS, key):
        percent, number = map(int, asked.split(","))
        assert Rational(percent, 100) * number == exact(PERCENT.problem(key, asked).expected)
