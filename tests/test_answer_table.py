"""The README's table of what a child may type: every example in it is read, and as the same answer."""

import re
from pathlib import Path

import pytest

from review.core.answers import judge
from review.core.model import Problem

README = (Path(__file__).parent.parent / "README.md").read_text(encoding="utf-8")
ROWS = re.search(r"\| answer \| read as the same \|\n\| --- \| --- \|\n((?:\|.*\n)+)", README)

# Row -> (form, unit, the expected answer, ways to write it that stand in the row)
EXAMPLES = {
    "a whole number": ("whole", "", "1000", ("1000", "1,000", "1 000")),
    "several numbers": ("list", "", "21 28 35", ("21 28 35", "21, 28, 35")),
    "a sign": ("sign", "", "<", ("<", "less")),
    "a quantity": ("quantity", "cm", "300", ("300", "300 cm", "300 centimetres")),
    "two units": ("mixed-quantity", "m+cm", "3 m 20 cm", ("3 m 20 cm", "3m 20")),
    "a number below zero": ("whole", "", "-4", ("-4", "- 4", "minus 4", "negative 4")),
    "a temperature": (
        "temperature", "°C", "-4", ("-4", "minus 4", "-4 °C", "-4 C", "-4 degrees", "4 below zero"),
    ),
    "a unit": ("unit", "150", "g", ("g", "gram", "grams", "150 g")),
    "euros": ("money", "EUR", "2.35", ("2.35", "2,35", "€2.35", "2,35 €", "2.35 euros", "235 cents")),
    "a mixed number": ("fraction-mixed", "", "2 5/8", ("2 5/8", "2 and 5/8", "2 + 5/8", "2 10/16")),
    "money": ("money", "GBP", "2.35", ("2.35", "£2.35", "2.35 pounds", "235p")),
    "a time": ("clock-time", "", "3:25", ("3:25", "3.25", "3 25", "03:25")),
    "a time in words": ("clock-words", "", "quarter past three", ("quarter past three",)),
    "a fraction": ("fraction", "", "3/4", ("3/4", "6/8")),
    "a decimal": ("decimal", "", "0.5", ("0.5", ".5", "0.50")),
    "a percent": ("percent", "", "25", ("25", "25%")),
    "a quotient": ("remainder", "", "72 r 5", ("72 r 5", "72r5", "72 remainder 5")),
    "a thing counted": ("counted", "goats", "7", ("7", "7 goats")),
}  # fmt: skip


ASKED_AGAIN = {
    "a temperature": ("temperature", "°C", "-4", "-4 °F"),
    "a mixed number": ("fraction-mixed", "", "2 5/8", "21/8"),
    "a decimal": ("decimal", "", "0.5", "0,5"),
    "a quantity": ("quantity", "cm", "300", "3 m"),
}


@pytest.mark.parametrize("row", ASKED_AGAIN)
def test_what_the_table_says_is_asked_again_is(row: str) -> None:
    assert ROWS
    form, unit, expected, way = ASKED_AGAIN[row]
    line = next(line for line in ROWS[1].splitlines() if line.startswith(f"| {row} |"))
    assert "asked again" in line
    assert judge(Problem("k", "k", "", "?", "?", form, expected, "", unit=unit), way) == "unreadable"


@pytest.mark.parametrize(("way", "expected"), [("seven", "7"), ("twenty-one", "21")])
def test_a_number_word_goes_by_what_the_card_is_about(way: str, expected: str) -> None:
    assert ROWS
    line = next(line for line in ROWS[1].splitlines() if line.startswith("| a number word in place of"))
    assert f"`{way}`" in line
    fact = Problem("sum:1+6", "sum", "", "?", "?", "whole", expected, "")
    assert judge(fact, way) == "right"
    assert judge(fact._replace(card="place-value:1", kind="place-value"), way) == "unreadable"


def test_the_readme_has_the_table() -> None:
    assert ROWS
    named = {line.split("|")[1].strip() for line in ROWS[1].splitlines()}
    assert set(EXAMPLES) < named


@pytest.mark.parametrize("row", EXAMPLES)
def test_every_example_is_read_as_the_same_answer(row: str) -> None:
    assert ROWS
    form, unit, expected, ways = EXAMPLES[row]
    line = next(line for line in ROWS[1].splitlines() if line.startswith(f"| {row} |"))
    problem = Problem("k", "k", "", "?", "?", form, expected, "", unit=unit)
    for way in ways:
        assert f"`{way}`" in line
        assert judge(problem, way) == "right", way
