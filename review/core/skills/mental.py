"""Sums in the head, in classes that call for one way of doing them.

A class is every ordered pair of numbers with so many digits that fits its name, where the columns that pass
ten decide: `none`, `regroup-ones`, `regroup-tens`, `regroup-both`; `near-ten` those of `regroup-ones` with a
number that ends in 8 or 9; `near-hundred` those through a hundred with a number that lacks at most 5 to it;
`tens` and `hundreds` those where one number is a round ten or hundred, the other is not, and no column passes
ten; `tens-across` with a round ten through a hundred; `all-tens` and `all-hundreds` where both numbers are
round. Totals may be held to a range.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Problem, Skill, Traits, Way
from review.core.skills import methods
from review.core.skills.kinds import Kind, Option
from review.core.skills.mental_sum_ways import METHODS, best, carries, near_hundred
from review.core.skills.mistakes import other_than
from review.core.skills.options import wholes, word, words
from review.core.skills.places import digit_at, with_digits
from review.core.skills.wording import EQUALS, PLUS, blocks_for, grouped, lines, spoken

TRIES = 2000  # our judgement: then the class is small, and listing it whole costs no more than trying on
MOST = 1998  # the largest total: 999 + 999
BELOW_THOUSAND = 999  # the largest where the hundreds do not pass ten
DIGITS = ("2+1", "1+2", "2+2", "3+1", "3+2", "3+3")


class Class(NamedTuple):
    first: range
    second: range
    name: str
    low: int = 0  # of the total
    high: int = MOST


ROUND = {"all-tens": 10, "all-hundreds": 100}  # classes in which both numbers are multiples
MAY_BE_TENS = frozenset({"none", "regroup-tens", "near-hundred"})  # classes not of whole tens that have some


def _class(key: str) -> Class:
    digits, name, *span = content_of(key).split("/")
    first, second = (with_digits(int(many))[:: ROUND.get(name, 1)] for many in digits.split("+"))
    low, high = map(int, span[0].split("..")) if span else (0, MOST)
    return Class(first, second, name, low, high)


# --- which pairs belong -------------------------------------------------------------------------------


ONE_ROUND = {"tens": 10, "tens-across": 10, "hundreds": 100}  # classes in which one number is round


def _round_ones(unit: int) -> range:
    """10 to 90, or 100 to 900."""
    return range(unit, unit * 10, unit)


def _one_is_round(a: int, b: int, unit: int) -> bool:
    """One is round, and the other is no multiple of that unit."""
    return any(one in _round_ones(unit) and other % unit for one, other in ((a, b), (b, a)))


def _may_be_round(of: Class) -> bool:
    """Whether numbers of that size can be round where one has to be: of 810,000 pairs none need be tried."""
    unit = ONE_ROUND.get(of.name)
    return unit is None or any(one in of.first or one in of.second for one in _round_ones(unit))


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


def _bounds(of: Class) -> tuple[int, int]:
    """Between what totals its sums lie, by arithmetic: only where both are round may hundreds pass ten."""
    most = MOST if of.name in ROUND else BELOW_THOUSAND
    return max(of.low, of.first[0] + of.second[0]), min(of.high, of.first[-1] + of.second[-1], most)


def pairs(of: Class) -> Iterator[tuple[int, int]]:
    """Every member; the class is empty where there is none."""
    low, high = _bounds(of)
    for a in _between(of.first, low - of.second[-1], high - of.second[0]) if _may_be_round(of) else ():
        for b in _between(of.second, low - a, high - a):
            if FITS[of.name](a, b):
                yield a, b


def ends(of: Class) -> tuple[int, int] | None:
    """The least and the largest total of its sums: looked for from both ends, for few totals have none."""
    low, high = _bounds(of)
    least = next(_totals(of, range(low, high + 1)), None)
    return None if least is None else (least, next(_totals(of, range(high, low - 1, -1))))


def _totals(of: Class, among: range) -> Iterator[int]:
    return (total for total in among if any(pairs(of._replace(low=total, high=total))))


@lru_cache
def _but_whole_tens(numbers: range) -> tuple[int, ...]:
    return tuple(number for number in numbers if number % 10)


def _drawn_from(of: Class) -> tuple[Sequence[int], Sequence[int]]:
    """Whole tens are easier, and have cards of their own: 20 + 38 is no practice for 32 + 45."""
    if of.name in MAY_BE_TENS:
        return _but_whole_tens(of.first), _but_whole_tens(of.second)
    return of.first, of.second


def draw(key: str, random: Random) -> str:
    """A member; one with whole tens, in a class that is not of them, only where there is no other."""
    of = _class(key)
    first, second = _drawn_from(of)
    for _ in range(TRIES):
        a, b = random.choice(first), random.choice(second)
        if belongs(of, a, b):
            return f"{a}+{b}"
    members = list(pairs(of))
    if not members:
        raise ValueError(f"no sum belongs to {key}")
    a, b = random.choice([(a, b) for a, b in members if a in first and b in second] or members)
    return f"{a}+{b}"


# --- what is shown ------------------------------------------------------------------------------------


def _build(a: int, b: int) -> str:
    return lines(
        [f"Build both with {blocks_for(a, b)}.", "Is there a new ten?" if 1 in carries(a, b) else ""]
    )


def problem(key: str, asked: str) -> Problem:
    a, b = map(int, asked.split("+"))
    if not belongs(_class(key), a, b):
        raise ValueError(f"{asked} does not belong to {key}")
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
        methods.helps(f"{prompt} {EQUALS}", METHODS[best(a, b)], _build(a, b), a, b),
    )


def ways(key: str, asked: str) -> tuple[Way, ...]:
    a, b = map(int, asked.split("+"))
    return methods.ways(f"{grouped(a)} {PLUS} {grouped(b)}", METHODS, best(a, b), lambda name: "", a, b)


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
    "regroup-ones": "regroup the ones",
    "regroup-tens": "regroup the tens",
    "regroup-both": "regroup ones and tens",
    "near-ten": "a number near a ten",
    "tens": "add whole tens",
    "hundreds": "add whole hundreds",
    "tens-across": "whole tens past a hundred",
    "near-hundred": "a number near a hundred",
    "all-tens": "both whole tens",
    "all-hundreds": "both whole hundreds",
}
SECONDS = {  # our judgement
    "none": 6.0, "regroup-ones": 9.0, "regroup-tens": 9.0, "regroup-both": 12.0,
    "near-ten": 9.0, "tens": 5.0, "hundreds": 5.0, "tens-across": 8.0, "near-hundred": 9.0,
    "all-tens": 4.0, "all-hundreds": 3.0,
}  # fmt: skip


def _size(digits: str) -> str:
    first, second = digits.split("+")
    return f"{first}-digit + {second}-digit"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    digits = word(skill, "digits")
    for key in keys(skill):
        of = _class(key)
        if next(pairs(of), None):
            continue
        sums, anywhere = f"“{_size(digits)}, {TITLES[of.name]}”", of._replace(low=0, high=MOST)
        totals = ends(anywhere) if of != anywhere else None
        if totals:
            yield "total", f"{sums} has no such total", f"write {totals[0]} to {totals[1]}"
        else:
            yield "classes", f"no numbers fit {sums}", f'leave "{of.name}" out'


def traits(key: str) -> Traits:
    digits, name, *span = content_of(key).split("/")
    low, _, high = span[0].partition("..") if span else ("", "", "")
    within = f", totals {grouped(int(low))} to {grouped(int(high))}" if span else ""
    regroups = name.startswith(("regroup", "near")) or name.endswith("across")
    groups = frozenset({f"procedure-{key}"} | ({"mental-regroup"} if regroups else set()))
    longer = 2.0 * digits.count("3")
    return Traits(f"{_size(digits)}, {TITLES[name]}{within}", False, SECONDS[name] + longer, groups)


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
        keys, traits, draw, problem, check, predict=predict, ways=ways,
    ),
)  # fmt: skip
