"""Conversions as a child reads and hears them: units in words, that agree with their numbers."""

import re
from random import Random

import pytest

from review.core.answers import judge
from review.core.model import Problem
from review.core.skills.conversions import class_of, firsts
from review.core.skills.units import NAMES, bare
from tests.core.measure_space import CONVERT, SHIPPED

ONE, MANY = ({pair[place] for pair in NAMES.values()} for place in (0, 1))
METRIC_SIGNS = {"mm", "cm", "m", "km", "mg", "g", "kg", "ml", "cl", "L"}
LINES = r"\n|(?<=[.?]) "


def texts(problem: Problem) -> list[str]:
    whole = [problem.prompt, problem.say, problem.told, *(help.text for help in problem.helps)]
    return [line for text in whole for line in re.split(LINES, text)]


def unit_words(line: str) -> list[tuple[str, str]]:
    """Each number in digits, or "one" alone, and what stands beside it."""
    names = "|".join(sorted({*ONE, *MANY}, key=len, reverse=True))
    one = r"\d[\d,.]*" if "point" in line else r"\d[\d,.]*|one"
    return re.findall(rf"(?<![\w.,-])({one}) ({names}|[A-Za-z]+)\b", line)


@pytest.mark.parametrize("key", SHIPPED)
def test_units_are_words_or_metric_signs_and_agree_with_their_number(key: str) -> None:
    """One inch, two inches, 0.5 metres: every number of every line of forty showings, and the least one."""
    random = Random(key)
    for asked in {bare(firsts(class_of(key)).first() or 0), *(CONVERT.draw(key, random) for _ in range(40))}:
        if "+" in key.partition(">")[0] and "+" not in asked:
            continue
        for line in texts(CONVERT.problem(key, asked)):
            for number, name in unit_words(line):
                fits = ONE if number in ("1", "one") else MANY
                assert name in fits | METRIC_SIGNS | {"make", "are", "hundred", "point", "thousand"}, line


@pytest.mark.parametrize("key", SHIPPED)
def test_what_is_told_has_no_signs_of_units(key: str) -> None:
    problem = CONVERT.problem(key, CONVERT.draw(key, Random(key)))
    for text in (problem.say, problem.told, problem.helps[0].text):
        assert not set(re.findall(r"[A-Za-z]+", text)) & (set(NAMES) | {"L"} | {"pt", "qt", "gal", "fl"})


def test_as_it_is_read_aloud() -> None:
    cups = CONVERT.problem("convert:us-pt>us-cup/1..12", "9")
    assert (cups.prompt, cups.told) == ("9 pints = □ cups", "9 pints make 18 cups.")
    assert cups.helps[0].text == "How many cups make one pint?"
    feet = CONVERT.problem("convert:in>ft+in/13..72", "16")
    assert (feet.prompt, feet.expected) == ("16 inches = □ feet □ inches", "1 foot 4 inches")
    assert {judge(feet, text) for text in ("1 foot 4 inches", "1 ft 4 in", "1 4", "1 foot 4")} == {"right"}
    stone = CONVERT.problem("convert:st>lb/1..12", "1")
    assert (stone.prompt, stone.told) == ("1 stone = □ pounds", "1 stone makes 14 pounds.")


def test_where_words_have_no_room_signs_stand_in_the_equations() -> None:
    """A parent's own set may ask for 5,000 teaspoons."""
    long = CONVERT.problem("convert:us-tsp>us-tbsp+us-tsp/4..9999", "5000")
    assert (long.prompt, long.expected) == ("5,000 tsp = □ tbsp □ tsp", "1,666 tbsp 2 tsp")
    assert long.told == "5,000 teaspoons\nmake 1,666 tablespoons 2 teaspoons."
