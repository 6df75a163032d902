"""What one would write under each error rule of numbers: the table's examples, and what holds of every
prediction.

error_rules.csv names a source for each row: read where it says VERIFIED (Varelas & Becker; Fuson; Cox 1974;
Ashlock; Byrge 2014; Resnick 1989; Stacey & Steinle), from memory where it says MEMORY.
"""

import re
from collections.abc import Mapping
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.skills import (
    compare,
    counting,
    number_names,
    ordering,
    place_value,
    properties,
    rounding,
    sequence,
)
from review.core.skills.kinds import Kind
from tests import tables
from tests.core.shown import SOURCES

(COUNT_BY,), (NAMES,), (ROUNDING,), (ORDER,) = (
    room.KINDS for room in (counting, number_names, rounding, ordering)
)
(PLACE_VALUE,), (COMPARE,) = place_value.KINDS, compare.KINDS


def rows(*families: str) -> list[dict[str, str]]:
    return [row for row in tables.rows("error_rules.csv") if not families or row["family"] in families]


def names(*families: str) -> list[tuple[str, str]]:
    return [(row["family"], row["rule"]) for row in rows(*families)]


def numbers(text: str) -> list[int]:
    return [int(number) for number in re.findall(r"\d+", text)]


def predicted(row: Mapping[str, str]) -> tuple[str, Mapping[str, str]]:
    """A row's example asked of its kind: what is right, and what each rule predicts."""
    kind, key, asked = ASKED[row["family"]](row["example"])
    return kind.problem(key, asked).expected, kind.predict(key, asked)


def ask_skip(example: str) -> tuple[Kind, str, str]:
    """after 70, step -8: three numbers of the row stand before the blanks."""
    last, step = (int(number) for number in re.findall(r"-?\d+", example))
    way = "down" if step < 0 else "up"
    start = "/any" if last % step else ""
    shown = ",".join(str(last - step * at) for at in (2, 1, 0))
    return COUNT_BY, f"count-by:{abs(step)}/on/{way}/0..{abs(step) * 12}{start}", f"{shown},_,_,_"


def ask_write(example: str) -> tuple[Kind, str, str]:
    return NAMES, "number-name:read/1..9999", str(*numbers(example))


def ask_value(example: str) -> tuple[Kind, str, str]:
    digit, number = numbers(example)
    place = 10 ** (len(str(number)) - 1 - str(number).index(str(digit)))
    return PLACE_VALUE, f"place-value:value/{len(str(number))}/{place}", f"{number}@{place}"


def ask_more(example: str) -> tuple[Kind, str, str]:
    number, place = numbers(example)
    return PLACE_VALUE, f"place-value:more/{len(str(number))}/{place}/across", str(number)


def ask_round(example: str) -> tuple[Kind, str, str]:
    number, place = numbers(example)
    return ROUNDING, f"rounding:{place}/0..9999", str(number)


ASKED = {
    "skip": ask_skip,
    "write": ask_write,
    "value": ask_value,
    "more_less": ask_more,
    "round": ask_round,
}


@pytest.mark.parametrize(("family", "rule"), names(*ASKED))
def test_a_rule_predicts_its_example(family: str, rule: str) -> None:
    (row,) = [row for row in rows(family) if row["rule"] == rule]
    right, found = predicted(row)
    assert numbers(right) == numbers(row["right"])
    assert numbers(found[rule]) == numbers(row["predicted"])


@pytest.mark.parametrize(("family", "rule"), names("order"))
def test_a_rule_of_ordering_predicts_its_example(family: str, rule: str) -> None:
    """The examples are decimals: the rules are the same for numbers as they are written."""
    (row,) = [row for row in rows(family) if row["rule"] == rule]
    assert ordering.ordered_as(row["example"].split(" , "))[rule] == row["predicted"].split()


@pytest.mark.parametrize(("family", "rule"), names("compare"))
def test_a_rule_of_comparing_predicts_its_example(family: str, rule: str) -> None:
    (row,) = [row for row in rows(family) if row["rule"] == rule]
    first, second = row["example"].split(" , ")
    sign = compare.believed(first, second)[rule]
    assert {">": first, "<": second}[sign] == row["predicted"] != row["right"]


def test_no_rule_of_these_families_is_left_out() -> None:
    found = {rule for row in rows(*ASKED) for rule in predicted(row)[1]}
    assert found >= {row["rule"] for row in rows(*ASKED)}


SEQUENCE, PROPERTY = *sequence.KINDS, *properties.KINDS
KINDS = {
    kind.name: kind for kind in (COUNT_BY, NAMES, ROUNDING, ORDER, PLACE_VALUE, COMPARE, SEQUENCE, PROPERTY)
}
CARDS = [
    "count-by:7/on/up/0..84",
    "count-by:7/gaps/down/0..84",
    "count-by:9/next/up/0..108",
    "count-by:8/on/down/0..96/any",
    "number-name:read/1..99",
    "number-name:read/100..999/zero",
    "number-name:read/10000..999999",
    "number-name:write/1..99",
    "number-name:write/100..999",
    "rounding:10/0..99",
    "rounding:10/0..9999/half",
    "rounding:100/0..9999",
    "rounding:1000/1000..99999/roll",
    "order:3/2",
    "order:4/3",
    "order:3/3-shuffled",
    "order:4/4-mixed",
    "order:3/6",
    "place-value:value/4/100",
    "place-value:value/3/1",
    "place-value:more/3/10/across",
    "place-value:more/4/1",
    "place-value:less/3/100",
    "place-value:less/4/10/across",
    "place-value:compose/4/zero",
    "place-value:compose/3",
    "place-value:expand/3",
    "compare:2/first",
    "compare:3/length",
    "compare:4/tens",
    "compare:3/equal",
    "sequence:after/0..20",
    "sequence:before/20..100/across",
    "sequence:between/0..120",
    "number-property:square/7..7",
    "number-property:square/2..2",
    "number-property:cube/5..5",
    "number-property:odd-even/0..20",
    "number-property:prime/1..100",
]


@given(st.sampled_from(CARDS), SOURCES)
def test_a_prediction_is_another_answer_that_can_be_read(key: str, random: Random) -> None:
    kind = KINDS[key.partition(":")[0]]
    asked = kind.draw(key, random)
    problem = kind.problem(key, asked)
    known = {row["rule"] for row in rows()}
    for rule, text in kind.predict(key, asked).items():
        assert rule in known
        assert judge(problem, text) == "other", (asked, rule, text)


def test_zeros_at_the_end_are_kept_where_inner_ones_are_dropped() -> None:
    assert NAMES.predict("number-name:read/1..9999", "6050")["zero_dropped"] == "650"
    assert "zero_dropped" not in NAMES.predict("number-name:read/1..9999", "6500")
    assert NAMES.predict("number-name:write/1..99", "40") == {"teen_ty": "fourteen"}
    assert PLACE_VALUE.predict("place-value:compose/4/zero", "3406") == {"zero_dropped": "346"}


def test_a_gap_is_predicted_from_the_number_before_it() -> None:
    found = COUNT_BY.predict("count-by:7/gaps/up/0..84", "14,_,28,_,42,49")
    assert found["by_ones"] == "15, 29"
    assert found["wrong_way"] == "7, 21"
    assert "own_start" not in found  # multiples are where the table starts


def test_nothing_is_predicted_below_zero() -> None:
    assert "wrong_way" not in COUNT_BY.predict("count-by:7/on/up/0..84", "0,7,14,_,_,_")
    assert "repeated" in COUNT_BY.predict("count-by:7/on/down/0..84", "35,28,21,_,_,_")
