"""Differences in the head, in classes that call for one way of doing them.

A class is every ordered pair, the first number not the smaller, that fits its name by the columns that need
one of the next place: `none`, `regroup` (only the ones), `regroup-tens`, `regroup-both`; `near-ten` those of
`regroup` where a number ending in 8 or 9 is taken; `near-hundred` those through a hundred where a number is
taken that lacks at most 5 to a hundred; `close` numbers less than ten apart with a ten between them; `tens`
and `hundreds` round ones taken from a number that is not; `tens-across` round tens through a hundred;
`all-tens` and `all-hundreds` where both are round.

Where a column falls short, the two numbers are never split into tens and ones apart: that way invites the
smaller digit to be taken from the larger.
"""

from collections.abc import Callable, Iterator, Mapping
from itertools import takewhile
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Problem, Skill, Traits, Way
from review.core.skills import methods
from review.core.skills.kinds import Kind, Option
from review.core.skills.mental_difference_ways import METHODS, best, borrows, near_hundred
from review.core.skills.mistakes import other_than
from review.core.skills.options import word, words
from review.core.skills.places import digit_at, with_digits
from review.core.skills.wording import EQUALS, MINUS, blocks_for, grouped, lines, spoken

TRIES = 2000  # our judgement: then the class is small, and listing it whole costs no more than trying on
DIGITS = ("2-1", "2-2", "3-1", "3-2", "3-3")

BOTH_ROUND = {"all-tens": 10, "all-hundreds": 100}
ROUND_TAKEN = {"tens": 10, "tens-across": 10, "hundreds": 100}  # 10 to 90, or 100 to 900


class Class(NamedTuple):
    first: range
    second: range
    name: str


def _class(key: str) -> Class:
    digits, name = content_of(key).split("/")
    first, second = (with_digits(int(many))[:: BOTH_ROUND.get(name, 1)] for many in digits.split("-"))
    unit = ROUND_TAKEN.get(name, 0)
    taken = range(unit, 10 * unit, unit) if unit == second.start else range(0)
    return Class(first, taken if unit else second, name)


# --- which pairs belong -------------------------------------------------------------------------------


FITS: Mapping[str, Callable[[int, int], bool]] = {
    "none": lambda a, b: not borrows(a, b),
    "regroup": lambda a, b: borrows(a, b) == (1,),
    "regroup-tens": lambda a, b: borrows(a, b) == (10,),
    "regroup-both": lambda a, b: borrows(a, b) == (1, 10),
    "near-ten": lambda a, b: borrows(a, b) == (1,) and b % 10 >= 8,
    "near-hundred": near_hundred,
    "close": lambda a, b: a - b < 10 and 1 in borrows(a, b),
    "tens": lambda a, b: a % 10 > 0 and not borrows(a, b),
    "tens-across": lambda a, b: a % 10 > 0 and borrows(a, b) == (10,),
    "hundreds": lambda a, b: a % 100 > 0,
    "all-tens": lambda a, b: a % 10 == b % 10 == 0,
    "all-hundreds": lambda a, b: a % 100 == b % 100 == 0,
}


def belongs(of: Class, a: int, b: int) -> bool:
    return a in of.first and b in of.second and a >= b and FITS[of.name](a, b)


def pairs(of: Class) -> Iterator[tuple[int, int]]:
    """Every member; the class is empty where there is none."""
    return ((a, b) for a in of.first for b in takewhile(a.__ge__, of.second) if FITS[of.name](a, b))


def _is_drawn(of: Class, a: int, b: int) -> bool:
    """To take whole tens is easier, and has cards of its own: 76 − 40 is no practice for 76 − 42. Nothing is
    to work out where all is taken."""
    of_round = of.name in ROUND_TAKEN or of.name in BOTH_ROUND
    return belongs(of, a, b) and a > b and (of_round or b % 10 > 0)


def draw(key: str, random: Random) -> str:
    """A member; one that takes all, or whole tens in a class that is not of them, only where there is no
    other."""
    of = _class(key)
    for _ in range(TRIES if of.second else 0):
        a, b = random.choice(of.first), random.choice(of.second)
        if _is_drawn(of, a, b):
            return f"{a}-{b}"
    members = list(pairs(of))
    if not members:
        raise ValueError(f"no difference belongs to {key}")
    a, b = random.choice([pair for pair in members if _is_drawn(of, *pair)] or members)
    return f"{a}-{b}"


# --- what is shown ------------------------------------------------------------------------------------


def _build(way: str, a: int, b: int) -> str:
    """Numbers close together are laid beside each other; otherwise the second is taken off."""
    if way == "counting-up":
        return "Draw a line. Mark both numbers.\nJump from one to the other."
    exchange = "Do you need to open a ten?" if 1 in borrows(a, b) else ""
    return lines([f"Build {a} with {blocks_for(a, b)}.", exchange, f"Take {b} away."])


def problem(key: str, asked: str) -> Problem:
    a, b = map(int, asked.split("-"))
    if not belongs(_class(key), a, b):
        raise ValueError(f"{asked} does not belong to {key}")
    prompt, way = f"{grouped(a)} {MINUS} {grouped(b)}", best(a, b)
    told = f"{prompt} leaves {grouped(a - b)}."
    return Problem(
        key, "mental-difference", asked, f"{prompt} {EQUALS}", spoken(a, MINUS, b), "whole", str(a - b), told,
        methods.helps(prompt, METHODS[way], _build(way, a, b), a, b),
    )  # fmt: skip


def ways(key: str, asked: str) -> tuple[Way, ...]:
    a, b = map(int, asked.split("-"))
    prompt = f"{grouped(a)} {MINUS} {grouped(b)}"
    return methods.ways(prompt, METHODS, best(a, b), lambda name: _build(name, a, b), a, b)


# --- what one would write under an error rule ----------------------------------------------------------


def predict(key: str, asked: str) -> Mapping[str, str]:
    """The rules of differences in the head; adjusting begins at 5 ones (our judgement)."""
    a, b = map(int, asked.split("-"))
    right = a - b
    written = {
        "ten_kept": right + 10 if 1 in borrows(a, b) else right,
        "wrong_way": right - 2 * (-b % 10) if b % 10 >= 5 else right,
        "ones_left_out": right + b % 10,
        "tens_left_out": right + digit_at(b, 10) * 10,
        "one_short": right - 1,
        "added": a + b,
    }
    return other_than(right, written)


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    return (f"mental-difference:{word(skill, 'digits')}/{name}" for name in words(skill, "classes"))


TITLES = {
    "none": "without regrouping",
    "regroup": "regroup the tens",
    "regroup-tens": "regroup the hundreds",
    "regroup-both": "regroup tens and hundreds",
    "near-ten": "take a number near a ten",
    "near-hundred": "take a number near a hundred",
    "close": "numbers close together",
    "tens": "take whole tens",
    "tens-across": "take whole tens past a hundred",
    "hundreds": "take whole hundreds",
    "all-tens": "both whole tens",
    "all-hundreds": "both whole hundreds",
}
SECONDS = {  # our judgement
    "none": 7.0, "regroup": 11.0, "regroup-tens": 11.0, "regroup-both": 13.0, "near-ten": 10.0,
    "near-hundred": 11.0, "close": 8.0, "tens": 6.0, "tens-across": 9.0, "hundreds": 5.0, "all-tens": 5.0,
    "all-hundreds": 4.0,
}  # fmt: skip


def _size(digits: str) -> str:
    first, second = digits.split("-")
    return f"{first}-digit − {second}-digit"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for key in keys(skill):
        of = _class(key)
        if next(pairs(of), None) is None:
            size = _size(word(skill, "digits"))
            yield "classes", f"no numbers fit “{size}, {TITLES[of.name]}”", f'leave "{of.name}" out'


def traits(key: str) -> Traits:
    digits, name = content_of(key).split("/")
    regroups = name.startswith(("regroup", "near", "close")) or name.endswith("across")
    groups = frozenset({f"procedure-{key}"} | ({"mental-regroup"} if regroups else set()))
    longer = 2.0 * digits.count("3")
    return Traits(f"{_size(digits)}, {TITLES[name]}", False, SECONDS[name] + longer, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "mental-difference",
        "differences in the head, by what they ask for",
        {
            "digits": Option(
                "word", "how many digits the two numbers have", choices=DIGITS, example='"2-2"'
            ),
            "classes": Option(
                "words", "which columns fall short, or what makes it special; a card each",
                choices=tuple(FITS), example='["none", "regroup"]',
            ),
        },
        keys, traits, draw, problem, check, predict=predict, ways=ways,
    ),
)  # fmt: skip
