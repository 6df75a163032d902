"""Units and temperatures as they are typed: every spelling of every unit, whole ranges of degrees."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import FORMS, judge
from review.core.keys import encode
from review.core.model import Problem
from review.core.skills import problem
from review.core.skills.wording import in_words
from tests.core.shown import NEVER

TOP = Path(__file__).parents[2]


def sensible() -> dict[str, str]:
    found = tomllib.loads((TOP / "card_sets" / "sensible-units.toml").read_text(encoding="utf-8"))
    return {prompt: answer for skill in found["skill"] for prompt, answer in skill["pairs"]}


def card(prompt: str, answer: str) -> Problem:
    content = f"{encode(prompt)}={encode(answer)}"
    return problem(f"pairs:{content}", content)


# --- which unit fits ----------------------------------------------------------------------------------

# Spellings in use: the SI Brochure and NIST SP 811, which writes meter and liter (from memory); the rest is
# common practice.
WAYS = {
    "mm": ("mm", "MM", "millimetre", "millimetres", "millimeter", "millimeters", "mm."),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
    "m": ("m", "metre", "metres", "meter", "meters", "Metres"),
    "km": ("km", "kilometre", "kilometres", "kilometer", "kilometers"),
    "g": ("g", "gram", "grams", "gramme", "grammes"),
    "kg": ("kg", "Kg", "kilogram", "kilograms", "kilogrammes", "kilos"),
    "ml": ("ml", "mL", "millilitre", "millilitres", "milliliter", "milliliters"),
    "l": ("l", "L", "litre", "litres", "liter", "liters"),
    "s": ("s", "sec", "secs", "second", "seconds"),
    "min": ("min", "mins", "minute", "minutes"),
    "h": ("h", "hr", "hrs", "hour", "hours"),
    "days": ("d", "day", "days"),
}


@pytest.mark.parametrize("prompt", sensible())
def test_a_unit_is_taken_in_every_spelling(prompt: str) -> None:
    answer = sensible()[prompt]
    one, number = card(prompt, answer), prompt.rpartition(" ")[2]
    assert one.form == "unit"
    for way in WAYS[answer]:
        assert judge(one, way) == judge(one, f"{number} {way}") == judge(one, f"{number}{way}") == "right"
    offered = prompt.partition("?")[0].replace(" or ", ", ").split(", ")
    others = [way for unit in offered if unit != answer for way in WAYS[unit]]
    assert {judge(one, way) for way in others} == {"other"}
    assert {judge(one, way) for way in ("", "big", number, "inch")} == {"unreadable"}


def test_m_may_be_meant_for_minutes_and_is_asked_again() -> None:
    assert judge(card("s, min or h? Brushing teeth: 2", "min"), "m") == "unreadable"


@pytest.mark.parametrize(
    ("key", "asked", "given", "verdict"),
    [
        ("convert:h>min/1..12", "6", "360 m", "right"),
        ("convert:h+min>min/1..5/5", "1+15", "75m", "right"),
        ("duration:between-within/5", "08:20>08:40", "20m", "right"),
        ("duration:between-within/5", "08:20>08:40", "25m", "other"),
        ("convert:yr>mo/1..12", "10", "120 m", "right"),
        ("convert:m>cm/1..20", "13", "13 m", "unreadable"),
        ("convert:km>m/1..20", "5", "5000 m", "right"),
        ("convert:wk>d/1..12", "3", "21 m", "other"),
    ],
)
def test_beside_a_number_m_is_what_is_asked_for(key: str, asked: str, given: str, verdict: str) -> None:
    """Minutes and months are written m, as the time-span form reads them: 1 h 15 m (common practice)."""
    assert judge(problem(key, asked), given) == verdict


@pytest.mark.parametrize(
    ("prompt", "answer"),
    [
        ("The one after first:", "second"),
        ("A small rock:", "stone"),
        ("m or pencil? What you measure with:", "m"),
        ("g or kg? A cat: 4", "cat"),
        ("Days in a week:", "7"),
        ("l", "l"),
    ],
)
def test_only_a_prompt_that_offers_units_asks_for_one(prompt: str, answer: str) -> None:
    assert card(prompt, answer).form not in ("unit", "temperature")


def test_degrees_are_asked_for_where_the_prompt_names_their_scale() -> None:
    assert card("Water boils, in °C:", "100").form == "temperature"


# --- temperatures -------------------------------------------------------------------------------------


def shows(expected: int, unit: str = "°C") -> Problem:
    return Problem(
        "temperature:x", "temperature", "1", "?", "?", "temperature", str(expected), "?", unit=unit
    )


def ways(degrees: int, scale: str) -> list[str]:
    size, name = abs(degrees), {"C": "Celsius", "F": "Fahrenheit"}[scale]
    ends = ["", "°", f"°{scale}", f" °{scale}", f" {scale}", scale.lower(), " degrees", " degrees " + name]
    ends += [f" degree {scale.lower()}", f"º{scale}", f" deg {scale}", " degrees.", f" {name.lower()}"]
    signs = ["-", "\u2212", "\u2013", "- ", "minus ", "negative ", "Minus "] if degrees < 0 else ["", "+"]
    below = [
        f"{size} below zero",
        f"{size} degrees below zero",
        f"{size} °{scale} below zero",
        f"{size} below",
    ]
    words = [f"{'minus ' * (degrees < 0)}{in_words(size)} degrees"] if size < 60 else []
    return [f"{sign}{size}{end}" for sign in signs for end in ends] + below * (degrees < 0) + words


@given(st.integers(-60, 150), st.integers(-60, 150), st.sampled_from("CF"))
def test_every_way_of_writing_a_temperature_is_it(one: int, other: int, scale: str) -> None:
    asked = shows(one, f"°{scale}")
    assert {judge(asked, way) for way in ways(one, scale)} == {"right"}
    assert {judge(asked, way) for way in ways(other, scale)} == {"right" if one == other else "other"}


def test_another_scale_is_asked_again() -> None:
    assert judge(shows(20), "20 °F") == judge(shows(68, "°F"), "20 C") == "unreadable"
    assert judge(shows(20), "20 \u2103") == "right"


@pytest.mark.parametrize(
    "text", ["", "cold", "--4", "-4 below zero", "4 °K", "4 5", "minus", "four five", "°C"]
)
def test_what_is_no_temperature_is_asked_again(text: str) -> None:
    assert judge(shows(4), text) == "unreadable"


@given(st.text() | st.text(alphabet="0123456789.-°CFdegrsminu belowz", max_size=20))
def test_any_string_is_survived(text: str) -> None:
    for name in ("unit", "temperature"):
        FORMS[name].read(text, "°C")


@pytest.mark.parametrize("name", ["unit", "temperature"])
def test_what_is_said_to_a_child(name: str) -> None:
    form = FORMS[name]
    assert len(form.asks.split()) < 8
    assert not NEVER.search(form.asks)
    assert form.read(form.example) != form.read(form.another) is not None
