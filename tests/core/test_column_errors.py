"""What one would write under each error rule: the published examples, and what holds of every prediction.

error_rules.csv names a source for each row: read where it says VERIFIED (Cox 1974; Ashlock; Brown & Burton;
Brown & VanLehn 1980), from memory where it says MEMORY.
"""

import re
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import FORMS, judge
from review.core.skills import column_errors
from review.core.skills.column_difference import KINDS as DIFFERENCES
from review.core.skills.column_errors import (
    DIFFERENCE_RULES,
    PRODUCT_RULES,
    SUM_RULES,
    difference_errors,
    product_errors,
    quotient_errors,
    sum_errors,
)
from review.core.skills.column_product import KINDS as PRODUCTS
from review.core.skills.column_sum import KINDS as SUMS
from review.core.skills.written_division import KINDS as DIVISIONS
from tests.core.shown import SOURCES
from tests.tables import rows

FAMILIES = {
    "add_column": sum_errors,
    "sub_column": difference_errors,
    "mul_column": product_errors,
    "div_fact": quotient_errors,
}
COLUMN_RULES = {"add_column": SUM_RULES, "sub_column": DIFFERENCE_RULES, "mul_column": PRODUCT_RULES}
KEYS = {
    "add_column": (SUMS[0], ("3+3/2", "4+4/3", "4+2/1-within", "3+3/zero")),
    "sub_column": (DIFFERENCES[0], ("3-3/2", "3-3/zero", "4-3/zeros", "4-4/3")),
    "mul_column": (PRODUCTS[0], ("2x1/carry", "3x1/zero", "2x2/carry", "4x2/carry", "3x2/tens")),
    "div_fact": (DIVISIONS[0], ("3/1/remainder", "4/1/exact", "3/1/zero")),
}
CLASSES = [(family, f"{kind.name}:{name}") for family, (kind, names) in KEYS.items() for name in names]


def examples() -> list[dict[str, str]]:
    return [row for row in rows("error_rules.csv") if row["family"] in FAMILIES]


@pytest.mark.parametrize("row", examples(), ids=lambda row: f"{row['family']}-{row['rule']}")
def test_the_example_of_a_rule_comes_out(row: dict[str, str]) -> None:
    a, b = map(int, re.findall(r"\d+", row["example"]))
    assert FAMILIES[row["family"]](a, b)[row["rule"]] == row["predicted"]


def test_the_rules_are_those_of_the_table() -> None:
    for family, rules in COLUMN_RULES.items():
        assert set(rules) == {row["rule"] for row in examples() if row["family"] == family}


@given(st.sampled_from(CLASSES), SOURCES)
def test_a_prediction_can_be_read_and_is_another_answer(of: tuple[str, str], random: Random) -> None:
    family, key = of
    kind = KEYS[family][0]
    problem = kind.problem(key, kind.draw(key, random))
    known = {row["rule"] for row in examples() if row["family"] == family}
    found = kind.predict(key, problem.asked)
    assert found
    assert set(found) <= known
    assert {judge(problem, text) for text in found.values()} == {"other"}
    assert all(FORMS[problem.form].read(text) is not None for text in found.values())


@pytest.mark.parametrize(
    ("rule", "a", "b", "written"),
    [
        ("sums_whole", 478, 256, 61214),
        ("carry_always", 421, 356, 887),
        ("carry_far", 478, 256, 1724),
        ("carry_far", 87, 25, 1102),
        ("left_to_right", 87, 25, 13),
        ("ones_to_all", 38, 13, None),
    ],
)
def test_sums_by_hand(rule: str, a: int, b: int, written: int | None) -> None:
    assert SUM_RULES[rule](a, b) == written


@pytest.mark.parametrize(
    ("rule", "a", "b", "written"),
    [
        ("across_zero", 304, 237, None),  # the hundreds pay twice, and then lack themselves
        ("across_zero", 9004, 237, 6877),
        ("from_zero", 632, 358, 274),  # without a zero nothing differs
        ("stops_at_zero", 9004, 237, 8877),
        ("zero_takes_n", 470, 238, 248),
        ("borrow_always", 586, 242, 21314),
        ("borrow_always", 642, 417, 1125),
        ("leftmost", 4632, 1358, 1384),
        ("leftmost", 1632, 1358, None),
    ],
)
def test_differences_by_hand(rule: str, a: int, b: int, written: int | None) -> None:
    assert DIFFERENCE_RULES[rule](a, b) == written


@pytest.mark.parametrize(
    ("rule", "a", "b", "written"),
    [
        ("carry_dropped", 24, 37, 148 + 620),
        ("zero_n", 305, 50, 15750),
        ("ones_only", 324, 7, 348),
        ("ones_only", 24, 37, None),
        ("wrong_digit", 13, 2, 26),
    ],
)
def test_products_by_hand(rule: str, a: int, b: int, written: int | None) -> None:
    assert PRODUCT_RULES[rule](a, b) == written


@given(st.integers(10, 9999), st.integers(2, 99))
def test_columns_worked_as_taught_make_the_product(a: int, b: int) -> None:
    """The machine the rules are run on, without an error."""
    rule = column_errors._by_rows(lambda digit, carry, factor: digit * factor + carry)
    assert rule(a, b) == a * b


@given(st.integers(1, 9999), st.integers(1, 9999))
def test_columns_worked_as_taught_make_the_difference(a: int, b: int) -> None:
    rule = column_errors._borrowing(column_errors._as_taught)
    assert rule(max(a, b), min(a, b)) == abs(a - b)
