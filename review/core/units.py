"""Units: what they measure, how large they are, every way to write them.

Apart from the reading of answers, so that the kinds which make cards of units do not pay for it.
"""

from typing import NamedTuple


class Unit(NamedTuple):
    family: str  # units of one family measure the same thing in one system
    size: int  # in the smallest unit of the family
    names: tuple[str, ...]


# Sizes: the SI prefixes; NIST Handbook 44, appendix C; the UK Weights and Measures Act for stone and pint.
# A table of exact factors from those sources is held against it by a test.
UNITS: tuple[Unit, ...] = (
    Unit("length", 1, ("mm", "millimetre", "millimeter")),
    Unit("length", 10, ("cm", "centimetre", "centimeter")),
    Unit("length", 100, ("dm", "decimetre", "decimeter")),
    Unit("length", 1000, ("m", "metre", "meter")),
    Unit("length", 1_000_000, ("km", "kilometre", "kilometer")),
    Unit("mass", 1, ("mg", "milligram", "milligramme")),
    Unit("mass", 1000, ("g", "gram", "gramme")),
    Unit("mass", 1_000_000, ("kg", "kilogram", "kilogramme", "kilo")),
    Unit("mass", 1_000_000_000, ("t", "tonne", "metric ton")),
    Unit("capacity", 1, ("ml", "millilitre", "milliliter")),
    Unit("capacity", 10, ("cl", "centilitre", "centiliter")),
    Unit("capacity", 100, ("dl", "decilitre", "deciliter")),
    Unit("capacity", 1000, ("l", "litre", "liter")),
    Unit("customary length", 1, ("in", "inch")),
    Unit("customary length", 12, ("ft", "foot")),
    Unit("customary length", 36, ("yd", "yard")),
    Unit("customary length", 63_360, ("mi", "mile")),
    Unit("customary weight", 1, ("oz", "ounce")),
    Unit("customary weight", 16, ("lb", "pound")),
    Unit("customary weight", 224, ("st", "stone")),
    Unit("customary weight", 32_000, ("us ton", "short ton", "ton")),
    Unit("customary weight", 35_840, ("imperial ton", "long ton")),
    Unit("US capacity", 1, ("us teaspoon", "us tsp", "teaspoon", "tsp")),
    Unit("US capacity", 3, ("us tablespoon", "us tbsp", "tablespoon", "tbsp")),
    Unit("US capacity", 6, ("us fluid ounce", "us fl oz", "us floz", "fluid ounce", "fl oz", "floz")),
    Unit("US capacity", 48, ("us cup", "cup")),
    Unit("US capacity", 96, ("us pint", "us pt", "pint", "pt")),
    Unit("US capacity", 192, ("us quart", "us qt", "quart", "qt")),
    Unit("US capacity", 768, ("us gallon", "us gal", "gallon", "gal")),
    Unit("imperial capacity", 1, ("imperial fluid ounce", "imperial fl oz", "imperial floz", "fluid ounce",
                                  "fl oz", "floz")),
    Unit("imperial capacity", 20, ("imperial pint", "imperial pt", "pint", "pt")),
    Unit("imperial capacity", 40, ("imperial quart", "imperial qt", "quart", "qt")),
    Unit("imperial capacity", 160, ("imperial gallon", "imperial gal", "gallon", "gal")),
    Unit("time", 1, ("s", "second", "sec")),
    Unit("time", 60, ("min", "minute", "m")),  # m for minutes, and for months, where those are asked for
    Unit("time", 3600, ("h", "hour", "hr")),
    Unit("time", 86_400, ("d", "day")),
    Unit("time", 604_800, ("wk", "week")),
    Unit("calendar", 1, ("mo", "month", "m")),
    Unit("calendar", 12, ("yr", "year")),
    Unit("calendar", 1200, ("century",)),
)  # fmt: skip

PLURALS = {"foot": "feet", "inch": "inches", "stone": "stone", "century": "centuries"}


def spellings(name: str) -> tuple[str, str]:
    head, _, last = name.rpartition(" ")
    return name, f"{head} {PLURALS.get(last, last + 's')}".strip()


SPELLED: dict[str, tuple[Unit, ...]] = {}
for _unit in UNITS:
    for _spelling in sorted({_spelling for _name in _unit.names for _spelling in spellings(_name)}):
        SPELLED[_spelling] = (*SPELLED.get(_spelling, ()), _unit)
