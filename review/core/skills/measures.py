"""Amounts in another unit: 7 m = □ cm, 700 cm = □ m, 3 m 20 cm = □ cm.

A class is two units and the numbers from one to another that are asked; where the answer would not be whole,
the multiples for which it is; where a step is given, its multiples. With two units on the left, the second
the one that is asked for, the first takes the range and the second what is short of one of the first, in
steps of one or as given.
Factors are exact and stand in `answers`, where units are read.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import lcm
from random import Random
from typing import NamedTuple

from review.core.answers import SPELLED, Unit
from review.core.keys import content_of
from review.core.model import Help, Kind, Option, Problem, Skill, Traits
from review.core.skills.options import whole, wholes, word, yes
from review.core.skills.wording import BOX, DIVIDED, EQUALS, PLUS, TIMES, grouped, in_words
from review.core.skills.worked import worked

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

MOST = 1_000_000  # of one unit in another, and less than it asked: numbers have words up to there

TOOLS = {  # what a family has at hand that shows both units
    "Find both on a tape measure.": {"mm", "cm", "m", "in", "ft", "yd"},
    "Find both on the kitchen scales.": {"g", "kg", "oz", "lb"},
    "Find both on a measuring jug.": {"ml", "cl", "l"},
    "Find both on a clock.": {"s", "min", "h"},
    "Find both on a calendar.": {"d", "wk", "mo", "yr"},
}


def unit(symbol: str) -> Unit:
    """Its family and its size in the smallest unit of the family."""
    return SPELLED[symbol.replace("-", " ")][0]


def factor(source: str, target: str) -> Fraction:
    """How many of `target` one of `source` is; exact."""
    return Fraction(unit(source).size, unit(target).size)


def shown(symbol: str) -> str:
    """As it stands beside a number: "cm", "pt", "fl oz"."""
    return symbol.rpartition("-")[2].replace("floz", "fl oz")


def amount(number: int, symbol: str) -> str:
    return f"{grouped(number)} {shown(symbol)}"


# --- classes ------------------------------------------------------------------------------------------


class Class(NamedTuple):
    source: str
    target: str
    mixed: bool  # some of the target stands beside the source: 3 m 20 cm
    low: int
    high: int
    step: int  # 0: every number that has a whole answer


def _class(key: str) -> Class:
    units, span, *step = content_of(key).split("/")
    left, _, target = units.partition(">")
    source, mixed, _ = left.partition("+")
    low, high = map(int, span.split(".."))
    return Class(source, target, bool(mixed), low, high, int(step[0]) if step else 0)


def firsts(of: Class) -> range:
    """The numbers of the unit that is given."""
    step = lcm(factor(of.source, of.target).denominator, 1 if of.mixed else of.step or 1)
    return range(-(-of.low // step) * step, of.high + 1, step)


def seconds(of: Class) -> range:
    """The numbers beside it: more than none, less than one of the unit given. Without a second unit, 0."""
    step = of.step or 1
    return range(step, int(factor(of.source, of.target)), step) if of.mixed else range(1)


def draw(key: str, random: Random) -> str:
    of = _class(key)
    first, second = random.choice(firsts(of)), random.choice(seconds(of))
    return f"{first}+{second}" if of.mixed else str(first)


# --- problems -----------------------------------------------------------------------------------------


def _in_words(number: int, symbol: str) -> str:
    one, many = NAMES[symbol]
    return f"{in_words(number)} {one if number == 1 else many}"


def known(source: str, target: str) -> str:
    """The fact to start from, the greater unit first: 1 m = 100 cm."""
    ratio = factor(source, target)
    if ratio < 1:
        source, target, ratio = target, source, 1 / ratio
    return f"{amount(1, source)} {EQUALS} {amount(int(ratio), target)}"


def _calculation(number: int, source: str, target: str) -> str:
    ratio = factor(source, target)
    sign, by = (TIMES, int(ratio)) if ratio >= 1 else (DIVIDED, int(1 / ratio))
    return f"{grouped(number)} {sign} {grouped(by)} {EQUALS} {grouped(int(number * ratio))}"


def _question(source: str, target: str) -> str:
    small, great = sorted((source, target), key=lambda symbol: unit(symbol).size)
    return f"How many {shown(small)} make one {shown(great)}?"


def _left(of: Class, first: int, second: int) -> str:
    return amount(first, of.source) + (f" {amount(second, of.target)}" if of.mixed else "")


def _say(of: Class, first: int, second: int) -> str:
    left = _in_words(first, of.source) + (f" and {_in_words(second, of.target)}" if of.mixed else "")
    verb = "is" if first == 1 and not of.mixed else "are"
    return f"How many {NAMES[of.target][1]} {verb} {left}?"


def _helps(of: Class, first: int, second: int) -> tuple[Help, ...]:
    changed = int(first * factor(of.source, of.target))
    total = f"{grouped(changed)} {PLUS} {grouped(second)} {EQUALS} {grouped(changed + second)}"
    start = known(of.source, of.target)
    steps = [start, _calculation(first, of.source, of.target), *([total] if of.mixed else [])]
    closing = f"{_left(of, first, second)} {EQUALS} {amount(changed + second, of.target)}"
    tools = [Help("build", tool) for tool, units in TOOLS.items() if {of.source, of.target} <= units]
    return (
        Help("question", _question(of.source, of.target)),
        *tools,
        Help("neighbour", start),
        *worked(*steps, closing, at=-2),
    )


def problem(key: str, asked: str) -> Problem:
    of = _class(key)
    written, _, rest = asked.partition("+")
    first, second = int(written), int(rest or 0)
    if first not in firsts(of) or second not in seconds(of) or bool(rest) != of.mixed:
        raise ValueError(f"{asked} does not belong to {key}")
    left, total = _left(of, first, second), int(first * factor(of.source, of.target)) + second
    return Problem(
        key,
        "convert",
        asked,
        f"{left} {EQUALS} {BOX} {shown(of.target)}",
        _say(of, first, second),
        "quantity",
        str(total),
        f"{left} makes {amount(total, of.target)}.",
        _helps(of, first, second),
        of.target,
    )


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    low, high = wholes(skill, "range")
    source, target, step = word(skill, "from"), word(skill, "to"), whole(skill, "step")
    left = f"{source}+{target}" if yes(skill, "mixed") else source
    yield f"convert:{left}>{target}/{low}..{high}" + (f"/{step}" if step else "")


def _go_together(one: str, other: str) -> bool:
    ratio = factor(one, other)
    return unit(one).family == unit(other).family and 1 in (ratio.numerator, ratio.denominator)


def _unfit(of: Class) -> tuple[str, str, str] | None:
    """What is impossible about the units of a class, if anything."""
    partners = [name for name in NAMES if name != of.source and _go_together(of.source, name)]
    great, small = sorted((of.source, of.target), key=lambda symbol: -unit(symbol).size)
    if of.target not in partners:
        wrong = f"{of.source} and {of.target} are no two units of one system, one a multiple of the other"
        return "to", wrong, f"take from {', '.join(partners)}"
    if factor(great, small) > MOST:
        return "to", f"one {great} is more {small} than there are words for", "take a unit nearer to it"
    if of.mixed and of.target != small:
        return "mixed", f"{of.target} is not smaller than {of.source}", "exchange the units, or leave it out"
    return None


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    of = _class(next(keys(skill)))
    unfit = _unfit(of)
    if unfit:
        yield unfit
    elif not firsts(of):
        least = firsts(of._replace(low=1, high=10**9))[0]
        wrong = f"no number from {of.low} to {of.high} makes whole {NAMES[of.target][1]}"
        yield "range", wrong, f"take in {least} or a multiple of it"
    elif not seconds(of):
        most = int(factor(of.source, of.target)) - 1
        yield "step", f"{of.step} is more than {most} {of.target}", "write a smaller step"


def traits(key: str) -> Traits:
    of = _class(key)
    left = NAMES[of.source][1] + (f" and {NAMES[of.target][1]}" if of.mixed else "")
    pair = "-".join(sorted((of.source, of.target)))
    groups = frozenset({f"procedure-{key}", f"convert-{pair}"})  # m to cm gives away cm to m
    return Traits(f"{left} to {NAMES[of.target][1]}", False, 10.0 if of.mixed else 7.0, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "convert",
        "amounts in another unit",
        {
            "from": Option("word", "the unit that is given", choices=tuple(NAMES), example='"m"'),
            "to": Option("word", "the unit that is asked for", choices=tuple(NAMES), example='"cm"'),
            "range": Option(
                "range", "from which number to which is given", low=1, high=MOST - 1, example="[1, 20]"
            ),
            "mixed": Option(
                "yes-no",
                "with some of the smaller unit beside it, as in 3 m 20 cm",
                default=False,
                example="true",
            ),
            "step": Option(
                "whole",
                "only multiples of it, of the smaller unit where there are two; 0 for any",
                default=0,
                high=MOST - 1,
                example="10",
            ),
        },
        keys,
        traits,
        draw,
        problem,
        check,
    ),
)
