"""The catalogue's measures: both ways, by the published standards, and near the exact factors."""

import re
import tomllib
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from review.core.skills.units import called, factor, unit
from tests.tables import rows

TOP = Path(__file__).parents[2]


def catalogue() -> Iterator[dict[str, Any]]:
    """Sets of conversions."""
    for path in sorted((TOP / "card_sets").glob("*.toml")):
        found = tomllib.loads(path.read_text(encoding="utf-8"))
        if any(skill["kind"] == "convert" for skill in found["skill"]):
            yield found


def test_the_sets_go_both_ways_between_all_the_units_of_the_standard() -> None:
    """standards.csv: England 2013, Y5 measurement, metric to metric: km-m, cm-m, cm-mm, g-kg, l-ml."""
    (row,) = rows("standards.csv", skill="unit conversion", code="Y5 measurement")
    ranges = row["numeric_range"]
    wanted = {frozenset(pair) for pair in re.findall(r"\b(k?m|cm|g|l)-(k?m|mm|kg|ml)\b", ranges)}
    assert len(wanted) == 5
    found = {(skill["from"], skill["to"]) for each in catalogue() for skill in each["skill"]}
    assert {(a, b) for a, b in map(sorted, wanted)} | {(b, a) for a, b in map(sorted, wanted)} <= found


def test_a_set_goes_from_the_greater_unit_before_it_comes_back() -> None:
    for each in catalogue():
        greater_first = [
            factor(skill["from"], skill["to"]) > 1
            for skill in each["skill"]
            if not {"mixed", "places"} & set(skill)
        ]
        assert greater_first == sorted(greater_first, reverse=True)


def test_a_set_of_mass_or_capacity_says_what_it_is_not_for() -> None:
    measured = [
        each["set"]["about"]
        for each in catalogue()
        if any(unit(skill["from"]).family not in ("time", "calendar") for skill in each["skill"])
    ]
    assert len(measured) >= 6
    assert all(about.count("never for measuring out a medicine") == 1 for about in measured)


PREFIXES = {"kilo": 1000, "centi": Fraction(1, 100), "milli": Fraction(1, 1000)}
PARTS = {"a thousand": 1000, "a hundredth": Fraction(1, 100), "a thousandth": Fraction(1, 1000)}
"""The SI Brochure (BIPM, 9th edition 2019), table 7."""


def test_the_notes_of_metric_units_say_what_the_prefix_means() -> None:
    noted = [skill for found in catalogue() for skill in found["skill"] if "note" in skill]
    assert len(noted) == 8
    for skill in noted:
        prefix, part = re.fullmatch(r"(\w+) means (a \w+)\.", skill["note"]).groups()  # type: ignore[union-attr]
        assert PREFIXES[prefix.lower()] == PARTS[part]
        names = (called(skill["from"]), called(skill["to"]))
        (named,) = [name for name in names if name.startswith(prefix.lower())]
        other = next(name for name in names if name != named)
        assert named.removeprefix(prefix.lower()) == other
        ratio = Fraction(factor(skill["from"], skill["to"]))
        assert PARTS[part] in (ratio, 1 / ratio)


def test_no_set_has_us_and_imperial_units_of_one_name() -> None:
    """A US pint has 16 US fluid ounces, an imperial pint 20 imperial ones."""
    for each in catalogue():
        named = " ".join(f"{skill['from']} {skill['to']}" for skill in each["skill"])
        assert not ("us-" in named and ("imperial-" in named or "st" in named.split()))


ROUGH: dict[
    str, tuple[str, str, int | Fraction]
] = {  # the words of the prompt -> the exact factor of units.csv they are near
    "An inch, in cm, about:": ("inch", "centimetre", 1),
    "A foot, in cm, about:": ("inch", "centimetre", 12),
    "A kilogram, in pounds, about:": ("ounce", "gram", Fraction(16, 1000)),
    "An ounce, in grams, about:": ("ounce", "gram", 1),
    "A metre, in inches, about:": ("yard", "metre", Fraction(1, 36)),
    "A gallon, in litres, about:": ("imperial pint", "millilitre", Fraction(8, 1000)),
    "A litre, in pints, about:": ("imperial pint", "millilitre", Fraction(1, 1000)),
}
TURNED = {"A kilogram, in pounds, about:", "A metre, in inches, about:", "A litre, in pints, about:"}


def rough() -> dict[str, Fraction]:
    found = tomllib.loads((TOP / "card_sets" / "metric-and-imperial.toml").read_text(encoding="utf-8"))
    return {prompt: Fraction(str(answer)) for skill in found["skill"] for prompt, answer in skill["pairs"]}


@pytest.mark.parametrize("prompt", rough())
def test_rough_measures_are_near_the_exact_ones(prompt: str) -> None:
    """units.csv: exact factors of NIST SP 811, appendix B, and the imperial gallon; within 7 in 100."""
    exact = {
        (row["from"], row["to"]): Fraction(int(row["numerator"]), int(row["denominator"]))
        for row in rows("units.csv")
    }
    if prompt in ROUGH:
        source, target, times = ROUGH[prompt]
        value = exact[source, target] * times
        value = 1 / value if prompt in TURNED else value
    else:
        given, wanted = re.search(r"\d+|Five|Eight", prompt), re.search("in (km|miles)", prompt)
        assert given
        assert wanted
        number = {"Five": 5, "Eight": 8}.get(given[0]) or int(given[0])
        mile = exact["mile", "kilometre"]
        value = number * mile if wanted[1] == "km" else number / mile
    assert rough()[prompt] == pytest.approx(value, rel=0.07)
