"""Products and quotients in the head beyond the tables, in classes that call for one way of doing them.

A class of products is every number of so many digits times a multiplier of 2 to 9 (or times 2, 10, 100 or
1,000 alone) that fits its name; a class of quotients every number of so many digits with a divisor likewise
that goes into it. Each class is listed whole once and drawn from evenly: none has more than some thousands.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Problem, Skill, Traits, Way
from review.core.skills import mental_times_ways as by
from review.core.skills import methods
from review.core.skills.kinds import Kind, Option
from review.core.skills.mental_times_ways import POWERS, each_goes, several_digits, unit_of
from review.core.skills.methods import Method
from review.core.skills.options import wholes, words
from review.core.skills.places import parts, with_digits
from review.core.skills.product_errors import of_head_product, of_head_quotient
from review.core.skills.wording import (
    DIVIDED,
    EQUALS,
    TIMES,
    blocks_for,
    grouped,
    in_words,
    lines,
    spoken,
)
from review.core.skills.worked import worked

ONE_DIGIT = range(2, 10)
LARGEST_FACT = 12  # quotients up to it belong to the tables


class Sort(NamedTuple):
    """A class: what fits it, and how it is done best."""

    title: str  # what a parent reads after the size
    seconds: float  # for two digits; our judgement
    others: range | tuple[int, ...]  # the multipliers or divisors
    fits: Callable[[int, int], bool]
    methods: Mapping[str, Method]
    best: str  # of the methods; "" where digits only move
    every: int = 1  # the first number is a multiple of this
    prompt: str = ""  # where it is not written with a sign


# --- products -----------------------------------------------------------------------------------------


def passes(a: int, b: int) -> tuple[int, ...]:
    """The places whose column passes into the next: 24 × 3 -> (1,), 52 × 3 -> (10,)."""
    return tuple(place for place in (1, 10, 100) if a % (place * 10) * b >= place * 10)


def _round(a: int) -> int:
    """10 for 40, 100 for 400, 0 for a number of several digits."""
    return 0 if several_digits(a) else unit_of(a)


DOUBLE = "Double {a}"
HALF = "Half of {a}"

PRODUCTS: Mapping[str, Sort] = {
    "none": Sort(
        "without regrouping", 8.0, ONE_DIGIT,
        lambda a, b: several_digits(a) and not passes(a, b), by.PRODUCTS, "partitioning",
    ),
    "regroup-ones": Sort(
        "regroup the ones", 11.0, ONE_DIGIT,
        lambda a, b: several_digits(a) and passes(a, b) == (1,), by.PRODUCTS, "partitioning",
    ),
    "regroup-tens": Sort(
        "regroup the tens", 11.0, ONE_DIGIT,
        lambda a, b: several_digits(a) and passes(a, b) == (10,), by.PRODUCTS, "partitioning",
    ),
    "regroup-both": Sort(
        "regroup ones and tens", 14.0, ONE_DIGIT,
        lambda a, b: several_digits(a) and passes(a, b) == (1, 10), by.PRODUCTS, "partitioning",
    ),
    "near-ten": Sort(
        "a number near a ten", 11.0, ONE_DIGIT,
        lambda a, b: a > 10 and a % 10 >= 8, by.PRODUCTS, "rounding",
    ),
    "tens": Sort(
        "whole tens", 5.0, ONE_DIGIT, lambda a, b: _round(a) == 10, by.PRODUCTS, "by-units", 10
    ),
    "hundreds": Sort(
        "whole hundreds", 3.0, ONE_DIGIT, lambda a, b: _round(a) == 100, by.PRODUCTS, "by-units", 100
    ),
    "double-none": Sort(
        "without regrouping", 6.0, (2,), lambda a, b: several_digits(a) and not passes(a, b), by.DOUBLES,
        "partitioning", prompt=DOUBLE,
    ),
    "double-regroup": Sort(
        "with regrouping", 9.0, (2,), lambda a, b: several_digits(a) and passes(a, b) != (), by.DOUBLES,
        "partitioning", prompt=DOUBLE,
    ),
    **{
        f"by-{power}": Sort(
            f"times {grouped(power)}", 4.0, (power,), lambda a, b: True, by.MOVING_UP, "",
        )
        for power in POWERS
    },
}  # fmt: skip


# --- quotients ----------------------------------------------------------------------------------------


def _is_place_fact(a: int, b: int) -> bool:
    """A quotient of 2 to 9 with zeros behind it: 420 ÷ 7 = 60, 600 ÷ 3 = 200."""
    return a % b == 0 and a // b >= 20 and len(parts(a // b)) == 1 and a // b != unit_of(a // b)


def _goes_beyond_tables(a: int, b: int) -> bool:
    """A quotient of two digits, neither in the tables nor round."""
    return a % b == 0 and LARGEST_FACT < a // b < 100 and several_digits(a // b)


QUOTIENTS: Mapping[str, Sort] = {
    "by-place": Sort(
        "a table fact with zeros", 6.0, ONE_DIGIT, _is_place_fact, by.QUOTIENTS, "by-units", 10,
    ),
    "none": Sort(
        "digit by digit", 8.0, ONE_DIGIT, each_goes, by.QUOTIENTS, "partitioning",
    ),
    "regroup": Sort(
        "taken in two parts", 13.0, ONE_DIGIT,
        lambda a, b: _goes_beyond_tables(a, b) and not each_goes(a, b),
        by.QUOTIENTS, "partitioning",
    ),
    "half-none": Sort(
        "even digits", 6.0, (2,), each_goes, by.HALVES, "partitioning", 2, HALF
    ),
    "half-regroup": Sort(
        "with an odd digit", 9.0, (2,), lambda a, b: several_digits(a) and not each_goes(a, b), by.HALVES,
        "partitioning", 2, HALF,
    ),
    **{
        f"by-{power}": Sort(
            f"divided by {grouped(power)}", 4.0, (power,), lambda a, b: a > b, by.MOVING_DOWN, "", power,
        )
        for power in POWERS
    },
}  # fmt: skip


# --- cards and draws ----------------------------------------------------------------------------------


class Family(NamedTuple):
    """What products and quotients differ in."""

    kind: str
    sign: str  # on screen
    mark: str  # in keys
    sorts: Mapping[str, Sort]
    result: Callable[[int, int], int]


PRODUCT = Family("mental-product", TIMES, "x", PRODUCTS, lambda a, b: a * b)
QUOTIENT = Family("mental-quotient", DIVIDED, "/", QUOTIENTS, lambda a, b: a // b)
FAMILIES = {family.kind: family for family in (PRODUCT, QUOTIENT)}


def _parsed(key: str) -> tuple[Family, int, Sort]:
    """The family of a card, the digits of its first number, its class."""
    family = FAMILIES[key.partition(":")[0]]
    size, _, name = content_of(key).rpartition("/")
    return family, int(size.partition(family.mark)[0]), family.sorts[name]


def _each(key: str) -> Iterator[str]:
    family, digits, sort = _parsed(key)
    numbers = with_digits(digits)
    multiples = range(-(-numbers.start // sort.every) * sort.every, numbers.stop, sort.every)
    pairs = ((a, b) for a in multiples for b in sort.others if sort.fits(a, b))
    return (f"{a}{family.mark}{b}" for a, b in pairs)


@lru_cache(maxsize=128)
def members(key: str) -> tuple[str, ...]:
    """Every `asked` of a class; none where the class is empty."""
    return tuple(_each(key))


@lru_cache(maxsize=128)
def _known(key: str) -> frozenset[str]:
    return frozenset(members(key))


def draw(key: str, random: Random) -> str:
    if not members(key):
        raise ValueError(f"nothing belongs to {key}")
    return random.choice(members(key))


def keys(family: Family, skill: Skill) -> Iterator[str]:
    for name in words(skill, "classes"):
        second = len(str(family.sorts[name].others[0]))
        for digits in wholes(skill, "digits"):
            yield f"{family.kind}:{digits}{family.mark}{second}/{name}"


# --- what is shown ------------------------------------------------------------------------------------


def _build(family: Family, a: int, b: int) -> str:
    """Blocks for small numbers, a mat of places for tens, hundreds and thousands."""
    if b in POWERS:
        return f"Write {grouped(a)} on a place-value mat.\nMove each digit."
    blocks = "thousands to ones" if a > 999 else blocks_for(a)
    return lines([f"Build {grouped(a)} with {blocks}.", _then(family, a, b)])


MOST_LAID = 100  # what is laid out to the last block; our judgement


def _then(family: Family, a: int, b: int) -> str:
    if b == 2:
        return "Build it once more." if family is PRODUCT else "Make two equal parts."
    if family is QUOTIENT:
        return f"Share it out between {b}."
    return f"Lay it out {b} times." if a * b <= MOST_LAID else f"Think of it {b} times."


def problem(key: str, asked: str) -> Problem:
    family, _, sort = _parsed(key)
    if asked not in _known(key):
        raise ValueError(f"{asked} does not belong to {key}")
    a, b = map(int, asked.split(family.mark))
    result, how = family.result(a, b), sort.methods[sort.best]
    written = sort.prompt.format(a=grouped(a)) or f"{grouped(a)} {family.sign} {grouped(b)}"
    said = sort.prompt.format(a=in_words(a)).lower() or spoken(a, family.sign, b)
    helps = (
        Help("question", how.question(a, b)),
        Help("build", _build(family, a, b)),
        *worked(*how.steps(a, b)),
    )
    return Problem(
        card=key,
        kind=family.kind,
        asked=asked,
        prompt=f"{written} {'is' if sort.prompt else EQUALS}",
        say=said,
        form="whole",
        expected=str(result),
        told=f"{written} {'is' if sort.prompt else 'makes'} {grouped(result)}.",
        helps=helps,
    )


def ways(key: str, asked: str) -> tuple[Way, ...]:
    """None where digits only move."""
    family, _, sort = _parsed(key)
    a, b = map(int, asked.split(family.mark))
    written = f"{grouped(a)} {family.sign} {grouped(b)}"
    return methods.ways(written, sort.methods, sort.best, lambda name: "", a, b) if sort.best else ()


def predict(key: str, asked: str) -> Mapping[str, str]:
    family = _parsed(key)[0]
    a, b = map(int, asked.split(family.mark))
    return (of_head_product if family is PRODUCT else of_head_quotient)(a, b)


# --- what a parent and the planner are told -----------------------------------------------------------


def title(key: str) -> str:
    family, digits, sort = _parsed(key)
    many = f"{digits}-digit"
    if sort.prompt:
        return f"{'doubles' if family is PRODUCT else 'halves'} of {many} numbers, {sort.title}"
    if sort.others[0] in POWERS:
        return f"{many} numbers {sort.title}"
    if family is QUOTIENT:
        return f"{many} ÷ 1-digit, {sort.title}"
    return f"{many} × 1-digit, {sort.title}"


def traits(key: str) -> Traits:
    family, digits, sort = _parsed(key)
    seconds = sort.seconds + 2.0 * (digits - 2)
    by_power = sort.others[0] in POWERS
    groups = {f"procedure-{key}", "times-power" if by_power else f"{family.kind}s"}
    return Traits(title(key), False, max(3.0, seconds), frozenset(groups))


def check(family: Family, skill: Skill) -> Iterator[tuple[str, str, str]]:
    for key in keys(family, skill):
        if next(_each(key), None) is None:
            name = content_of(key).rpartition("/")[2]
            yield "classes", f"no numbers fit “{title(key)}”", f'leave "{name}" or that many digits out'


def _options(family: Family, most: int, example: str) -> Mapping[str, Option]:
    about = "how many digits the number has; a card for each class and size"
    return {
        "digits": Option("wholes", about, None, 1, most, example="[2]"),
        "classes": Option(
            "words", "what the products ask for" if family is PRODUCT else "what the quotients ask for",
            choices=tuple(family.sorts), example=example,
        ),
    }  # fmt: skip


def _kind(family: Family, about: str, options: Mapping[str, Option]) -> Kind:
    return Kind(
        family.kind, about, options, lambda skill: keys(family, skill), traits, draw, problem,
        lambda skill: check(family, skill), predict=predict, ways=ways,
    )  # fmt: skip


KINDS: tuple[Kind, ...] = (
    _kind(PRODUCT, "products in the head beyond the tables", _options(PRODUCT, 3, '["none", "near-ten"]')),
    _kind(QUOTIENT, "quotients in the head beyond the tables", _options(QUOTIENT, 5, '["by-place"]')),
)
