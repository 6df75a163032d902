"""Units as they stand in a key, beside a number and in words; amounts of them.

Factors are exact and stand in `core/units.py`.
"""

from collections.abc import Callable, Mapping
from fractions import Fraction

from review.core.skills.wording import grouped
from review.core.units import SPELLED, Unit

# As they stand in a key: UCUM and SI symbols; customary ones as they are usually written, with the system
# in front where two share a name. -> (one, many)
NAMES: Mapping[str, tuple[str, str]] = {
    "mm": ("millimetre", "millimetres"),
    "cm": ("centimetre", "centimetres"),
    "m": ("metre", "metres"),
    "km": ("kilometre", "kilometres"),
    "mg": ("milligram", "milligrams"),
    "g": ("gram", "grams"),
    "kg": ("kilogram", "kilograms"),
    "t": ("tonne", "tonnes"),
    "ml": ("millilitre", "millilitres"),
    "cl": ("centilitre", "centilitres"),
    "l": ("litre", "litres"),
    "s": ("second", "seconds"),
    "min": ("minute", "minutes"),
    "h": ("hour", "hours"),
    "d": ("day", "days"),
    "wk": ("week", "weeks"),
    "mo": ("month", "months"),
    "yr": ("year", "years"),
    "in": ("inch", "inches"),
    "ft": ("foot", "feet"),
    "yd": ("yard", "yards"),
    "mi": ("mile", "miles"),
    "oz": ("ounce", "ounces"),
    "lb": ("pound", "pounds"),
    "st": ("stone", "stone"),
    "us-ton": ("ton", "tons"),
    "us-tsp": ("teaspoon", "teaspoons"),
    "us-tbsp": ("tablespoon", "tablespoons"),
    "us-floz": ("fluid ounce", "fluid ounces"),
    "us-cup": ("cup", "cups"),
    "us-pt": ("pint", "pints"),
    "us-qt": ("quart", "quarts"),
    "us-gal": ("gallon", "gallons"),
    "imperial-floz": ("fluid ounce", "fluid ounces"),
    "imperial-pt": ("pint", "pints"),
    "imperial-qt": ("quart", "quarts"),
    "imperial-gal": ("gallon", "gallons"),
}

# Beside a number a child reads these signs, which are part of what is learnt; other units are written out.
# A small l beside figures reads as a one. Both letters are signs of the litre (SI Brochure, table 8, from
# memory).
SIGNS: Mapping[str, str] = {
    **{symbol: symbol for symbol in ("mm", "cm", "m", "km", "mg", "g", "kg", "ml", "cl")}, "l": "L",
}  # fmt: skip


Name = Callable[[str, Fraction | int], str]  # of a unit, beside a number


def unit(symbol: str) -> Unit:
    """Its family and its size in the smallest unit of the family."""
    return SPELLED[symbol.replace("-", " ")][0]


def factor(source: str, target: str) -> Fraction:
    """How many of `target` one of `source` is; exact."""
    return Fraction(unit(source).size, unit(target).size)


def called(symbol: str, number: Fraction | int = 2) -> str:
    """In words, one or many: "inch", "inches"; half a metre is 0.5 metres."""
    return NAMES[symbol][number != 1]


def shown(symbol: str, number: Fraction | int = 2) -> str:
    """As it stands beside a number: "cm", "pint", "pints"."""
    return SIGNS.get(symbol) or called(symbol, number)


def short(symbol: str, number: Fraction | int = 2) -> str:
    """As it stands where words have no room: "cm", "pt", "fl oz"."""
    return SIGNS.get(symbol, symbol.rpartition("-")[2].replace("floz", "fl oz"))


def figure(number: Fraction | int) -> str:
    """As it is written: 1,200 or 0.05; six decimals where there would be more."""
    whole, point, part = f"{float(number):.6f}".rstrip("0").partition(".")
    return grouped(int(whole)) + (point + part if part else "")


def bare(number: Fraction | int) -> str:
    """As it stands in `asked` and in an answer: 1200 or 0.05."""
    return figure(number).replace(",", "")


def amount(number: Fraction | int, symbol: str, name: Name = shown) -> str:
    return f"{figure(number)} {name(symbol, number)}"
