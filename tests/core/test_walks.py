"""Counting and drawing from classes that are too large to list."""

import tomllib
from collections import Counter
from fractions import Fraction
from itertools import product
from random import Random

import pytest

from review.core.skills.column_sum import START, _column
from review.core.skills.walks import (
    Letter,
    State,
    Walk,
    counted,
    digits_of,
    drawn,
    member,
    number,
    pick,
    size,
    two_rows,
)
from tests.tables import DATA

LETTERS = tuple((digit,) for digit in range(4))


def odd_sums(columns: int) -> Walk:
    """Words of the digits 0 to 3 whose sum is odd."""

    def step(state: State, letter: Letter) -> State:
        return ((state[0] + letter[0]) % 2,)

    return Walk((LETTERS,) * columns, (0,), step, lambda state: state[0] == 1)


@pytest.mark.parametrize("columns", range(1, 5))
def test_every_member_has_one_place(columns: int) -> None:
    walk = counted(odd_sums(columns))
    words = [tuple(letter[0] for letter in member(walk, place)) for place in range(walk.size)]
    assert len(words) == 4**columns // 2
    assert set(words) == {word for word in product(range(4), repeat=columns) if sum(word) % 2}


def test_places_run_on_through_the_parts_of_a_class() -> None:
    parts = (counted(odd_sums(1), 7), counted(odd_sums(2), 8))
    assert size(parts) == 2 + 8
    assert Counter(pick(parts, place)[0] for place in range(10)) == {7: 2, 8: 8}
    with pytest.raises(ValueError, match="no place 10"):
        pick(parts, 10)


def test_an_empty_class_says_so() -> None:
    nothing = counted(odd_sums(2)._replace(accepts=lambda state: False))
    with pytest.raises(ValueError, match="empty"):
        drawn((nothing,), Random(1))


def test_digits_and_numbers_are_each_other() -> None:
    assert digits_of(904) == [4, 0, 9]
    assert digits_of(37, 4) == [7, 3, 0, 0]
    assert all(number(digits_of(value)) == value for value in range(1000))


def test_two_rows_begin_with_no_zero() -> None:
    columns = two_rows(3, 2)
    assert [len(column) for column in columns] == [100, 90, 9]
    assert all(len(letter) == 1 and letter[0] for letter in columns[-1])


# --- the carries process ------------------------------------------------------------------------------

COLUMN: tuple[Letter, ...] = tuple(product(range(10), range(10)))


def carries(columns: int, accepts: int, of: int) -> Fraction:
    """The share of pairs, leading zeros allowed, whose state ends with that value in that part."""

    def ends(state: State) -> bool:
        return state[of] == accepts

    return Fraction(counted(Walk((COLUMN,) * columns, START, _column, ends)).size, 100**columns)


@pytest.mark.parametrize("columns", range(1, 7))
def test_carries_are_distributed_as_published(columns: int) -> None:
    """carries.toml: Holte, Carries, combinatorics and an amazing matrix, Amer. Math. Monthly 104 (1997)."""
    table = tomllib.loads((DATA / "carries.toml").read_text(encoding="utf-8"))
    wanted = table[f"two_addends_{columns}_columns"]
    found = [carries(columns, many, of=1) for many in range(columns + 1)]
    assert found == list(map(Fraction, wanted["carries_distribution"]))
    assert carries(columns, 1, of=0) == Fraction(wanted["p_carry_out_of_column"][-1])
    assert carries(columns, 1, of=0) == (1 - Fraction(1, 10**columns)) / 2  # its closed form


def test_a_column_carries_as_the_amazing_matrix_says() -> None:
    """Holte (1997), the matrix for two addends in base ten."""
    table = tomllib.loads((DATA / "carries.toml").read_text(encoding="utf-8"))
    wanted = [list(map(Fraction, row)) for row in table["addends_2"]["transition"]]
    outs = [Counter(_column((carry, 0, 0), letter)[0] for letter in COLUMN) for carry in (0, 1)]
    assert [[Fraction(out[carry], 100) for carry in (0, 1)] for out in outs] == wanted
