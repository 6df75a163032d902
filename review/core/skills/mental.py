"""Sums in the head, in classes that call for one way of doing them.

A class is every ordered pair of numbers with so many digits that fits its name, where the columns that pass
ten decide: `none`, `regroup-ones`, `regroup-tens`, `regroup-both`; `near-ten` those of `regroup-ones` with a
number that ends in 8 or 9; `near-hundred` those through a hundred with a number that lacks at most 5 to it;
`tens` and `hundreds` those where one number is a round ten or hundred, the other is not, and no column passes
ten; `tens-across` with a round ten through a hundred; `all-tens` and `all-hundreds` where both numbers are
round. Totals may be held to a range.
"""

from collections.abc import Callable, Iterator, Mapping
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Kind, Option, Problem, Skill, Traits
from review.core.skills.mistakes import other_than
from review.core.skills.options import wholes, word, words
from review.core.skills.places import digit_at, place_name, with_digits
from review.core.skills.wording import EQUALS, MINUS, PLUS, blocks_for, grouped, lines, spoken
from review.core.skills.worked import without_echo, worked

TRIES = 2000  # our judgement: then the class is small, and listing it whole costs no more than trying on
MOST = 1998  # the largest total: 999 + 999
DIGITS = ("2+1", "1+2", "2+2", "3+1", "3+2", "3+3")


class Class(NamedTuple):
    first: range
    second: range
    name: str
    low: int = 0  # of the total
    high: int = MOST


ROUND = {"all-tens": 10, "all-hundreds": 100}  # classes in which both numbers are multiples


def _class(key: str) -> Class:
    digits, name, *span = content_of(key).split("/")
    first, second = (with_digits(int(many))[:: ROUND.get(name, 1)] for many in digits.split("+"))
    low, high = map(int, span[0].split("..")) if span else (0, MOST)
    return Class(first, second, name, low, high)


# --- which pairs belong -------------------------------------------------------------------------------


def carries(a: int, b: int) -> tuple[int, ...]:
    """The places whose column passes into the next: 47 + 25 -> (1,), 67 + 55 -> (1, 10)."""
    return tuple(place for place in (1, 10, 100) if a % (place * 10) + b % (place * 10) >= place * 10)


def _one_is_round(a: int, b: int, unit: int) -> bool:
    """One is 10 to 90, or 100 to 900, and the other is no multiple of that unit."""
    return any(
        round_one in range(unit, unit * 10, unit) and other % unit for round_one, other in ((a, b), (b, a))
    )


NEAR_HUNDRED = 5  # what a number near a hundred lacks to it, at most; our judgement


def near_hundred(a: int, b: int) -> bool:
    """One number lacks little to its next hundred, and the other has more than that: 398 + 57."""
    return any(
        0 < -near % 100 <= NEAR_HUNDRED and other % 100 > -near % 100 for near, other in ((a, b), (b, a))
    )


FITS: Mapping[str, Callable[[int, int], bool]] = {
    "none": lambda a, b: not carries(a, b),
    "regroup-ones": lambda a, b: carries(a, b) == (1,),
    "regroup-tens": lambda a, b: carries(a, b) == (10,),
    "regroup-both": lambda a, b: carries(a, b) == (1, 10),
    "near-ten": lambda a, b: carries(a, b) == (1,) and max(a % 10, b % 10) >= 8,
    "tens": lambda a, b: _one_is_round(a, b, 10) and not carries(a, b),
    "hundreds": lambda a, b: _one_is_round(a, b, 100) and not carries(a, b),
    "tens-across": lambda a, b: _one_is_round(a, b, 10) and carries(a, b) == (10,),
    "near-hundred": lambda a, b: near_hundred(a, b) and 100 not in carries(a, b),
    "all-tens": lambda a, b: a % 10 == b % 10 == 0,
    "all-hundreds": lambda a, b: a % 100 == b % 100 == 0,
}


def belongs(of: Class, a: int, b: int) -> bool:
    return a in of.first and b in of.second and of.low <= a + b <= of.high and FITS[of.name](a, b)


def _between(numbers: range, low: int, high: int) -> range:
    """Those of the numbers from low to high."""
    first, last = -((numbers.start - low) // numbers.step), (high - numbers.start) // numbers.step
    return numbers[max(0, first) : max(0, last + 1)]


def pairs(of: Class) -> Iterator[tuple[int, int]]:
    """Every member; the class is empty where there is none."""
    for a in of.first:
        for b in _between(of.second, of.low - a, of.high - a):
            if FITS[of.name](a, b):
                yield a, b


def draw(key: str, random: Random) -> str:
    of = _class(key)
    for _ in range(TRIES):
        a, b = random.choice(of.first), random.choice(of.second)
        if belongs(of, a, b):
            return f"{a}+{b}"
    members = list(pairs(of))
    if not members:
        raise ValueError(f"no sum belongs to {key}")
    a, b = random.choice(members)
    return f"{a}+{b}"


# --- ways of doing it ---------------------------------------------------------------------------------


def _add(a: int, b: int) -> str:
    return f"{grouped(a)} {PLUS} {grouped(b)} {EQUALS} {grouped(a + b)}"


def partitioning(a: int, b: int) -> tuple[str, ...]:
    """Tens and ones apart: 40 + 20 = 60, 7 + 5 = 12, 60 + 12 = 72."""
    places = [place for place in (100, 10, 1) if digit_at(a, place) or digit_at(b, place)]
    columns = [(digit_at(a, place) * place, digit_at(b, place) * place) for place in places]
    each = [_add(x, y) for x, y in columns if x and y]
    together = f" {PLUS} ".join(grouped(x + y) for x, y in columns) + f" {EQUALS} {grouped(a + b)}"
    if len(columns) == 2 and not each:
        return _side_by_side(max(a, b), min(a, b)), together
    return (*each, together) if len(columns) > 1 else tuple(each)


def _side_by_side(a: int, b: int) -> str:
    """Nothing is added in any place: 7 tens and 6 ones."""
    return " and ".join(f"{n // _place(n)} {_named(n)}" for n in (a, b)) + "."


def _place(number: int) -> int:
    """Of its first digit."""
    return int(10 ** (len(str(number)) - 1))


def _named(number: int) -> str:
    name = place_name(_place(number))
    return name.removesuffix("s") if number == _place(number) else name


def counting_on(a: int, b: int) -> tuple[str, ...]:
    """From the greater number: first the other's tens, then its ones."""
    start, other = max(a, b), min(a, b)
    tens = other - other % 10
    return _add(start, tens), _add(start + tens, other % 10)


def bridging(a: int, b: int) -> tuple[str, ...]:
    """Through the next ten: 47 + 3 = 50, 50 + 2 = 52. Just to it, by the bond of ten: 7 + 3 = 10."""
    start, other = max(a, b), min(a, b)
    up = -start % 10
    if other == up:
        return _add(start % 10, up), _add(start - start % 10, 10)
    split = f"{other} {EQUALS} {up} {PLUS} {other - up}"
    return split, _add(start, up), _add(start + up, other - up)


def _nearest(a: int, b: int) -> tuple[int, int, int]:
    """The number nearer below its next ten or hundred, the other one, and what is missing to it."""
    unit = 100 if near_hundred(a, b) else 10
    near, other = (a, b) if a % unit >= b % unit else (b, a)
    return near, other, -near % unit


def rounding(a: int, b: int) -> tuple[str, ...]:
    """Round and adjust: 59 + 27 = 60 + 27 − 1."""
    near, other, up = _nearest(a, b)
    total = near + up + other
    together = _add(near + up, other) if near == a else _add(other, near + up)
    return _add(near, up), together, f"{grouped(total)} {MINUS} {up} {EQUALS} {grouped(a + b)}"


def compensating(a: int, b: int) -> tuple[str, ...]:
    """One number gives the other what it lacks: 58 + 27 = 60 + 25."""
    near, other, up = _nearest(a, b)
    given = f"{grouped(other)} {MINUS} {up} {EQUALS} {grouped(other - up)}"
    together = _add(near + up, other - up) if near == a else _add(other - up, near + up)
    return _add(near, up), given, together


def by_units(a: int, b: int) -> tuple[str, ...]:
    """Tens or hundreds counted like ones: 3 + 4 = 7, 30 + 40 = 70."""
    unit = round_unit(a, b)
    return _add(a // unit, b // unit), _add(a, b)


def round_unit(a: int, b: int) -> int:
    """What both numbers are a few of: 100, 10 or 1."""
    return next(
        unit for unit in (100, 10, 1) if a % unit == b % unit == 0 and (unit == 1 or max(a, b) < unit * 10)
    )


class Way(NamedTuple):
    steps: Callable[[int, int], tuple[str, ...]]
    question: str


WAYS: Mapping[str, Way] = {
    "partitioning": Way(partitioning, "What do the {place} make?"),
    "counting-on": Way(counting_on, "Add the tens first. Where are you?"),
    "bridging": Way(bridging, "How far to the next ten?"),
    "rounding": Way(rounding, "Which number is near a {unit}?"),
    "compensating": Way(compensating, "Can one number fill up the other?"),
    "by-units": Way(by_units, "How many {place} are there together?"),
}


def way(a: int, b: int) -> str:
    """The way that suits the numbers: what is nearly a ten is made one, what is small is counted on."""
    if round_unit(a, b) > 1:
        return "by-units"
    if near_hundred(a, b):
        return "compensating"
    if 1 not in carries(a, b):
        return "partitioning"
    smaller, nearest = min(a, b), max(a % 10, b % 10)
    if smaller < 9:
        return "bridging"
    if nearest >= 8:
        return "rounding" if nearest == 9 else "compensating"
    return "counting-on" if smaller < 30 else "partitioning"


def _question(a: int, b: int) -> str:
    """For partitioning, the largest place where there are two digits to add."""
    place = next((place for place in (100, 10, 1) if digit_at(a, place) and digit_at(b, place)), 0)
    if not place:
        hundreds = max(a, b) > 99
        return "How many hundreds, tens and ones?" if hundreds else "How many tens? How many ones?"
    unit = "hundred" if near_hundred(a, b) else "ten"
    return WAYS[way(a, b)].question.format(place=place_name(place), unit=unit)


def _build(a: int, b: int) -> str:
    return lines(
        [f"Build both with {blocks_for(a, b)}.", "Is there a new ten?" if 1 in carries(a, b) else ""]
    )


def problem(key: str, asked: str) -> Problem:
    a, b = map(int, asked.split("+"))
    if not belongs(_class(key), a, b):
        raise ValueError(f"{asked} does not belong to {key}")
    helps = (
        Help("question", _question(a, b)),
        Help("build", _build(a, b)),
        *worked(*WAYS[way(a, b)].steps(a, b)),
    )
    prompt = f"{grouped(a)} {PLUS} {grouped(b)}"
    told = f"{prompt} makes {grouped(a + b)}."
    return Problem(
        key,
        "mental-sum",
        asked,
        f"{prompt} {EQUALS}",
        spoken(a, PLUS, b),
        "whole",
        str(a + b),
        told,
        without_echo(f"{prompt} {EQUALS}", helps),
    )


# --- what one would write under an error rule ----------------------------------------------------------


def predict(key: str, asked: str) -> Mapping[str, str]:
    """The rules of mental sums; adjusting the second number begins at 5 ones (our judgement)."""
    a, b = map(int, asked.split("+"))
    right, up = a + b, -b % 10
    adjusts = b % 10 >= 5
    written = {
        "ten_dropped": right - 10 if 1 in carries(a, b) else right,
        "ten_extra": right + 10,
        "wrong_way": right + 2 * up if adjusts else right,
        "not_adjusted": right + up if adjusts else right,
        "ones_left_out": right - b % 10,
        "tens_left_out": right - digit_at(b, 10) * 10,
        "one_short": right - 1,
        "one_over": right + 1,
        "took_away": abs(a - b),
    }
    return other_than(right, written)


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    total = wholes(skill, "total")
    span = f"/{total[0]}..{total[1]}" if total else ""
    return (f"mental-sum:{word(skill, 'digits')}/{name}{span}" for name in words(skill, "classes"))


TITLES = {
    "none": "without regrouping",
    "regroup-ones": "that regroup the ones",
    "regroup-tens": "that regroup the tens",
    "regroup-both": "that regroup ones and tens",
    "near-ten": "with a number near a ten",
    "tens": "with whole tens",
    "hundreds": "with whole hundreds",
    "tens-across": "with whole tens through a hundred",
    "near-hundred": "with a number near a hundred",
    "all-tens": "of whole tens",
    "all-hundreds": "of whole hundreds",
}
SECONDS = {  # our judgement
    "none": 6.0, "regroup-ones": 9.0, "regroup-tens": 9.0, "regroup-both": 12.0,
    "near-ten": 9.0, "tens": 5.0, "hundreds": 5.0, "tens-across": 8.0, "near-hundred": 9.0,
    "all-tens": 4.0, "all-hundreds": 3.0,
}  # fmt: skip


def _size(digits: str) -> str:
    first, second = digits.split("+")
    names = {"1": "one", "2": "two", "3": "three"}
    one = f"{names[first]}-digit"
    return f"{one} sums" if first == second else f"{one} plus {names[second]}-digit sums"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    digits = word(skill, "digits")
    for key in keys(skill):
        of = _class(key)
        if next(pairs(of), None):
            continue
        sums, anywhere = f"{_size(digits)} {TITLES[of.name]}", of._replace(low=0, high=MOST)
        totals = {a + b for a, b in pairs(anywhere)} if of != anywhere else set()
        if totals:
            yield "total", f"{sums} have no such total", f"write {min(totals)} to {max(totals)}"
        else:
            yield "classes", f"there are no {sums}", f'leave "{of.name}" out'


def traits(key: str) -> Traits:
    digits, name, *span = content_of(key).split("/")
    within = f", totals {span[0].replace('..', ' to ')}" if span else ""
    regroups = name.startswith(("regroup", "near")) or name.endswith("across")
    groups = frozenset({f"procedure-{key}"} | ({"mental-regroup"} if regroups else set()))
    longer = 2.0 * digits.count("3")
    return Traits(f"{_size(digits)} {TITLES[name]}{within}", False, SECONDS[name] + longer, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "mental-sum",
        "sums in the head, by what they ask for",
        {
            "digits": Option(
                "word", "how many digits the two numbers have", choices=DIGITS, example='"2+2"'
            ),
            "classes": Option(
                "words", "which columns pass ten, or what makes the sum special; a card each",
                choices=tuple(FITS), example='["none", "regroup-ones"]',
            ),
            "total": Option(
                "range", "the smallest and the largest total; any if left out", default=(), high=MOST,
                example="[20, 50]",
            ),
        },
        keys, traits, draw, problem, check, mental=True, predict=predict,
    ),
)  # fmt: skip
