"""Every class of conversions a set can ask for, and those that ship."""

import tomllib
from fractions import Fraction
from functools import partial
from itertools import permutations
from pathlib import Path
from typing import Any

import pint

from review.core.skills.measures import KINDS
from review.core.skills.units import NAMES, factor, unit
from tests.core.spaces import skill_of

(CONVERT,) = KINDS
TOP = Path(__file__).parents[2]
PINT: Any = pint.UnitRegistry(non_int_type=Fraction)

# The names of the two sources, where they are not the plain singular.
IN_TABLE = {
    "us-ton": "short ton", "us-tsp": "US teaspoon", "us-tbsp": "US tablespoon", "us-floz": "US fluid ounce",
    "us-cup": "US cup", "us-pt": "US pint", "us-qt": "US quart", "us-gal": "US gallon",
    "imperial-pt": "imperial pint",
}  # fmt: skip
IN_PINT = {
    "t": "metric_ton", "st": "stone", "us-ton": "short_ton", "us-floz": "fluid_ounce", "us-tsp": "teaspoon",
    "us-tbsp": "tablespoon", "us-cup": "cup", "us-pt": "pint", "us-qt": "quart", "us-gal": "gallon",
    "imperial-floz": "imperial_fluid_ounce", "imperial-pt": "imperial_pint", "imperial-qt": "imperial_quart",
    "imperial-gal": "imperial_gallon",
}  # fmt: skip
skill = partial(skill_of, CONVERT)


PAIRS = [pair for pair in permutations(NAMES, 2) if unit(pair[0]).family == unit(pair[1]).family]
WHOLE = [
    (a, b) for a, b in PAIRS if not list(CONVERT.check(skill(**{"from": a, "to": b}, range=(1, 999_999))))
]


def key_of(source: str, target: str, mixed: bool = False) -> str:
    """A class with twenty numbers of the greater unit, or as many as have words."""
    ratio = factor(source, target)
    top = min(20 * max(1, int(1 / ratio)), 999_999)
    (key,) = CONVERT.keys(skill(**{"from": source, "to": target}, range=(1, top), mixed=mixed))
    return key


KEYS = [key_of(a, b) for a, b in WHOLE]
MIXED = [key_of(a, b, True) for a, b in WHOLE if factor(a, b) > 1]
PARTED = [key_of(b, a, True) for a, b in WHOLE if 1 < factor(a, b) <= 5000]
WITH_DECIMALS = (
    ("m", "cm", "0.1"), ("m", "cm", "0.01"), ("kg", "g", "0.001"), ("l", "ml", "0.1"), ("km", "m", "0.25"),
    ("cm", "mm", "0.1"), ("h", "min", "0.5"),
)  # fmt: skip
DECIMAL = [
    f"convert:{a}>{b}/{span}/{step}"
    for great, small, step in WITH_DECIMALS
    for a, b, span in ((great, small, "0..9"), (small, great, f"1..{9 * int(factor(great, small))}"))
]  # fmt: skip


def in_catalogue() -> list[str]:
    """The keys of every conversion that ships."""
    kept = []
    for path in sorted((TOP / "card_sets").glob("*.toml")):
        found = tomllib.loads(path.read_text(encoding="utf-8"))["skill"]
        options = [{k: v for k, v in one.items() if k in CONVERT.options} for one in found
                   if one["kind"] == "convert"]  # fmt: skip
        kept += [key for one in options for key in CONVERT.keys(skill(**one))]
    return kept


SHIPPED = in_catalogue()
