"""Plain arithmetic within bounds: the same values as Python's own fractions, and nothing else let through."""

import ast
import time
from contextlib import suppress
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.expressions import (
    DEEPEST,
    LIMIT,
    LONGEST,
    MOST_NODES,
    Condition,
    Expression,
    Refusal,
    condition,
    expression,
    joined,
)


def sum_of(text: str) -> Expression:
    found = expression(text)
    assert isinstance(found, Expression), found
    return found


def condition_of(text: str) -> Condition:
    found = condition(text)
    assert isinstance(found, Condition), found
    return found


# --- an oracle: a tree made at random, its text, and its value by fractions ---------------------------


def tree(random: Random, depth: int, values: dict[str, int]) -> tuple[str, Fraction]:
    """A fully bracketed sum and its value; ZeroDivisionError where it has none."""
    if depth == 0 or random.random() < 0.2:
        name = random.choice([*values])
        number = random.randint(0, 20)
        return random.choice([(name, Fraction(values[name])), (str(number), Fraction(number))])
    left, a = tree(random, depth - 1, values)
    right, b = tree(random, depth - 1, values)
    sign = random.choice(["+", "-", "*", "/", "//", "%"])
    made = {"+": lambda: a + b, "-": lambda: a - b, "*": lambda: a * b, "/": lambda: a / b}
    made |= {"//": lambda: Fraction(a // b), "%": lambda: a % b}
    return f"({left} {sign} {right})", made[sign]()


@given(st.randoms(use_true_random=False), st.integers(-20, 20), st.integers(-20, 20))
def test_a_sum_has_the_value_fractions_give_it(random: Random, a: int, b: int) -> None:
    """Oracle: Python's `fractions`, over a tree that was built, not read."""
    try:
        text, value = tree(random, 3, {"a": a, "b": b})
    except ZeroDivisionError:
        return
    if len(text) <= LONGEST:
        assert sum_of(text).reckon({"a": a, "b": b}) == value


@given(st.integers(-9, 9), st.integers(-9, 9), st.integers(-9, 9))
def test_signs_bind_as_in_school(a: int, b: int, c: int) -> None:
    values = {"a": a, "b": b, "c": c}
    assert sum_of("a + b × c").reckon(values) == a + (b * c)
    assert sum_of("a − b - c").reckon(values) == (a - b) - c
    assert sum_of("-a * (b + c)").reckon(values) == (-a) * (b + c)
    assert condition_of("a < b and not b = c or a ≠ c").holds(values) == ((a < b and b != c) or a != c)
    assert condition_of("a <= b < c").holds(values) == (a <= b < c)


def test_decimals_are_exact() -> None:
    assert sum_of("0.1 + 0.2").reckon({}) == Fraction(3, 10)
    assert sum_of("0.000001 * 1").reckon({}) == Fraction(1, 10**6)
    assert sum_of("7 ÷ 2").reckon({}) == Fraction(7, 2)
    assert (sum_of("a / 2").whole, sum_of("a + 0.5").whole, sum_of("a // 2").whole) == (False, False, True)


def test_spacing_makes_no_other_sum() -> None:
    assert joined(sum_of("a*b +  1").tokens) == joined(sum_of(" a × b+1").tokens) == "a*b+1"
    again = joined(condition_of("a>b and not b=c").tokens)
    assert again == "a>b and not b==c"
    assert joined(condition_of(again).tokens) == again


# --- what is refused ----------------------------------------------------------------------------------

REFUSED = [
    "", " ", "a +", "a b", "2a", "(a", "a)", "()", "a(b)", "2(a)", "a ** b", "a ^ b", "a & b", "a | b",
    "~a", "a << 2", "a := 2", "a if b else c", "lambda: a", "[a]", "{a}", "(a, b)", "a.b", "a[0]", "'a'",
    '"a"', "f'a'", "1e9", "0x10", "1_000", "007", "1j", "open", "__import__('os')", "A", "and", "a and b",
    "not a", "a < b", "True", "None", "a = b", "a; b", "a\\b", "a$", "a\n+\n(", "é", "٣", "9" * 10,
    "1." * 3, "a" * 200, "1+" * 59 + "1", "-" * 60 + "a", "-" * (DEEPEST + 1) + "a", "\x00", "\x1b[2J",
    "a@b", "a!b", "a ≈ b",
]  # fmt: skip


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_no_plain_sum_is_refused(text: str) -> None:
    found = expression(text)
    assert isinstance(found, Refusal), text
    assert found.wrong
    assert found.instead


@pytest.mark.parametrize(
    "text", ["a", "a + b", "1", "a <> b", "a in b", "a is b", "a < (b < 2)", "a and b", ""]
)
def test_what_is_no_condition_is_refused(text: str) -> None:
    assert isinstance(condition(text), Refusal)


def test_every_kind_of_node_there_is_is_refused_but_those_in_the_tables() -> None:
    """Against the list of Python's own expression nodes: a new one would have to be let in here."""
    kept = {"BinOp", "UnaryOp", "Constant", "Name", "BoolOp", "Compare"}
    assert kept < {kind.__name__ for kind in ast.expr.__subclasses__()}
    for text in ("a + b", "-a", "1", "a"):
        assert type(ast.parse(text, mode="eval").body).__name__ in kept


@given(st.text(max_size=150) | st.text("ab1290.+-*/%()<>=! and or not", max_size=150))
def test_any_text_is_read_or_refused(text: str) -> None:
    number, test = expression(text), condition(text)
    for found in (number, test):
        assert not isinstance(found, Refusal) or (found.wrong and "\n" not in found.wrong)
    with suppress(ArithmeticError, KeyError):
        if isinstance(number, Expression):
            assert -LIMIT <= number.reckon({"a": 3, "b": 7}) <= LIMIT
    with suppress(ArithmeticError, KeyError):
        if isinstance(test, Condition):
            assert test.holds({"a": 3, "b": 7}) in (True, False)


def test_a_value_too_large_is_none() -> None:
    for text in ("999999999 * 999999999", "1 / 999999999 / 999999999", "a * a * a"):
        with pytest.raises(ArithmeticError):
            sum_of(text).reckon({"a": 999_999})
    for text in ("1 / (a - a)", "1 // 0", "1 % 0"):
        with pytest.raises(ArithmeticError):
            sum_of(text).reckon({"a": 1})


def test_the_largest_sum_there_may_be_is_soon_reckoned() -> None:
    text = "a"
    while len(text) < LONGEST // 2 - 3:
        text = f"({text})/({text})" if len(text) > 1 else "a/a"
    assert text.count("a") + text.count("/") <= MOST_NODES
    begun = time.process_time()
    for number in range(1, 300):
        try:
            sum_of(text).reckon({"a": number})
        except ArithmeticError:
            continue
    assert time.process_time() - begun < 20  # seconds, against a blow-up; a tenth here
