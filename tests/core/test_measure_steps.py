"""Help for conversions: it goes straight, and gives nothing away before its steps."""

import re
from random import Random

import pytest

from review.core.skills.units import NAMES, factor
from tests.core.measure_space import (
    CONVERT,
    SHIPPED,
    WHOLE,
)


@pytest.mark.parametrize("pair", [pair for pair in WHOLE if factor(*pair) > 1], ids="-".join)
def test_the_fact_itself_is_not_given_away_before_the_steps(pair: tuple[str, str]) -> None:
    """1 foot = □ inches: no earlier step says 12; 12 inches = □ feet: none says that they make one foot."""
    great, small = pair
    ratio = int(factor(great, small))
    up = CONVERT.problem(f"convert:{great}>{small}/1..9", "1")
    down = CONVERT.problem(f"convert:{small}>{great}/{ratio}..{ratio}", str(ratio))
    early = [[help.text for help in problem.helps[:-1]] for problem in (up, down)]
    assert not any(re.search(rf"(?<![\d,]){ratio:,}(?![\d,])", text) for text in early[0])
    assert not any(re.search(rf"\b(1|one) {NAMES[great][0]}\b", text) for text in early[1])
    assert (up.expected, down.expected) == (str(ratio), "1")
    assert up.helps[-1].text.split("\n")[-1].split(" = ")[1].split(" ")[0] == f"{ratio:,}"


def test_one_foot_is_half_of_two() -> None:
    one = CONVERT.problem("convert:ft>in/1..12", "1")
    assert [help.text for help in one.helps] == [
        "How many inches are two feet?\nTake half of that.",
        "Find both on a tape measure.",
        "2 feet = 24 inches",
        "2 feet = 24 inches\n24 ÷ 2 = □",
        "2 feet = 24 inches\n24 ÷ 2 = 12\n1 foot = 12 inches",
    ]


def steps(key: str, asked: str) -> list[str]:
    return CONVERT.problem(key, asked).helps[-1].text.split("\n")


def test_where_two_make_one_the_half_is_as_near() -> None:
    """By a third of three times as much it was a long way round."""
    up, down = (
        CONVERT.problem("convert:us-pt>us-cup/1..12", "1"),
        CONVERT.problem("convert:us-cup>us-pt/2..24", "2"),
    )
    assert [help.text for help in up.helps] == [
        "How many cups are half a pint?\nTake that twice.",
        "half a pint = 1 cup",
        "half a pint = 1 cup\n1 + 1 = □",
        "half a pint = 1 cup\n1 + 1 = 2\n1 pint = 2 cups",
    ]
    assert [help.text for help in down.helps] == [
        "How many pints are 4 cups?\nTake half of that.",
        "2 pints = 4 cups",
        "2 pints = 4 cups\n2 ÷ 2 = □",
        "2 pints = 4 cups\n2 ÷ 2 = 1\n2 cups = 1 pint",
    ]


def test_half_of_two_leads_to_one_unit_alone() -> None:
    """Not to a tenth of one: half of two centimetres is no millimetre."""
    assert steps("convert:cm>mm/0..20/0.1", "0.1") == ["1 cm = 10 mm", "0.1 × 10 = 1", "0.1 cm = 1 mm"]
    assert steps("convert:mm>cm/1..200/0.1", "1") == ["1 cm = 10 mm", "1 ÷ 10 = 0.1", "1 mm = 0.1 cm"]


def test_steps_say_nothing_twice_and_go_as_a_head_goes() -> None:
    assert steps("convert:ft+in>in/1..6", "1+5") == [
        "1 foot = 12 inches", "12 + 5 = 17", "1 foot 5 inches = 17 inches"
    ]  # fmt: skip
    assert steps("convert:d>h/1..7", "7") == [
        "1 day = 24 hours", "7 × 20 = 140", "7 × 4 = 28", "140 + 28 = 168", "7 days = 168 hours"
    ]  # fmt: skip
    assert steps("convert:lb>oz/1..10", "10") == [
        "1 pound = 16 ounces",
        "10 × 16 = 160",
        "10 pounds = 160 ounces",
    ]


@pytest.mark.parametrize("key", SHIPPED)
def test_the_steps_of_every_conversion_lead_to_its_answer(key: str) -> None:
    random = Random(key)
    for asked in sorted({CONVERT.draw(key, random) for _ in range(60)}):
        problem = CONVERT.problem(key, asked)
        *before, last, closing = problem.helps[-1].text.split("\n")
        answer = problem.prompt.partition(" = ")[2].replace("□", "{}")
        numbers = re.findall(r"[\d.]+", problem.expected)
        written = [number if "." in number else f"{int(number):,}" for number in numbers]
        assert closing.partition(" = ")[0] == problem.prompt.partition(" = ")[0]
        assert re.findall(r"[\d.,]+", closing.partition(" = ")[2]) == written
        assert last.rpartition(" ")[2] == written[-1]
        assert answer.count("{}") == len(written)
        assert not any(re.match(r"1 ×|\d+ ÷ 1 ", line) for line in before)
