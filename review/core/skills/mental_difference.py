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
from itertools import pairwise, takewhile
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Kind, Option, Problem, Skill, Traits
from review.core.skills.mistakes import other_than
from review.core.skills.options import word, words
from review.core.skills.places import digit_at, parts, place_name, with_digits
from review.core.skills.wording import EQUALS, MINUS, PLUS, blocks_for, grouped, lines, spoken
from review.core.skills.worked import without_echo, worked

TRIES = 2000  # our judgement: then the class is small, and listing it whole costs no more than trying on
DIGITS = ("2-1", "2-2", "3-1", "3-2", "3-3")
NEAR_HUNDRED = 5  # what a number near a hundred lacks to it, at most; our judgement

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


def borrows(a: int, b: int) -> tuple[int, ...]:
    """The places whose column needs one of the next: 52 − 29 -> (1,), 304 − 7 -> (1, 10)."""
    return tuple(place for place in (1, 10, 100) if a % (place * 10) < b % (place * 10))


FITS: Mapping[str, Callable[[int, int], bool]] = {
    "none": lambda a, b: not borrows(a, b),
    "regroup": lambda a, b: borrows(a, b) == (1,),
    "regroup-tens": lambda a, b: borrows(a, b) == (10,),
    "regroup-both": lambda a, b: borrows(a, b) == (1, 10),
    "near-ten": lambda a, b: borrows(a, b) == (1,) and b % 10 >= 8,
    "near-hundred": lambda a, b: 10 in borrows(a, b) and b % 100 >= 100 - NEAR_HUNDRED,
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


def draw(key: str, random: Random) -> str:
    of = _class(key)
    for _ in range(TRIES if of.second else 0):
        a, b = random.choice(of.first), random.choice(of.second)
        if belongs(of, a, b):
            return f"{a}-{b}"
    members = list(pairs(of))
    if not members:
        raise ValueError(f"no difference belongs to {key}")
    a, b = random.choice(members)
    return f"{a}-{b}"


# --- ways of doing it ---------------------------------------------------------------------------------


def _add(a: int, b: int) -> str:
    return f"{grouped(a)} {PLUS} {grouped(b)} {EQUALS} {grouped(a + b)}"


def _take(a: int, b: int) -> str:
    return f"{grouped(a)} {MINUS} {grouped(b)} {EQUALS} {grouped(a - b)}"


def partitioning(a: int, b: int) -> tuple[str, ...]:
    """Only where no column falls short: 50 − 20 = 30, 8 − 3 = 5, 30 + 5 = 35."""
    columns = [(digit_at(a, _place_of(part)) * _place_of(part), part) for part in parts(b)]
    rest = a - sum(whole for whole, _ in columns)
    left = [whole - part for whole, part in columns]
    left = [part for part in ([rest, *left] if rest > b else [*left, rest]) if part]
    together = f" {PLUS} ".join(map(grouped, left)) + f" {EQUALS} {grouped(a - b)}"
    return (*(_take(*column) for column in columns), together if len(left) > 1 else _take(a, b))


def _place_of(part: int) -> int:
    return int(10 ** (len(str(part)) - 1))


def taking_off(a: int, b: int) -> tuple[str, ...]:
    """What is taken goes place by place, each through the ten or hundred: 52 − 20 = 32, 32 − 2 = 30, ..."""
    steps: list[str] = []
    for part in parts(b):
        for taken in _through(a, part):
            steps.append(_take(a, taken))
            a -= taken
    return tuple(steps)


def _through(a: int, part: int) -> tuple[int, ...]:
    """Some tens or ones in two bites, down to the next hundred or ten and on, where they go past it."""
    place = _place_of(part)
    down = digit_at(a, place) * place
    return (down, part - down) if 0 < down < part else (part,)


def opening(a: int, b: int) -> tuple[str, ...]:
    """From a ten or hundred that is opened: 50 − 7 is 10 − 7 = 3 and 40 + 3 = 43."""
    unit = _opened(b)
    return _take(unit, b), _add(a - unit, unit - b)


def _opened(b: int) -> int:
    return 10 if b < 10 else 100


def counting_up(a: int, b: int) -> tuple[str, ...]:
    """From the smaller number to the greater, by way of the next ten and the next hundred."""
    stops = [b]
    for unit in (10, 100):
        stop = stops[-1] + -stops[-1] % unit
        stops += [stop] if stops[-1] < stop <= a and a // unit > b // unit else []
    stops += [a] if stops[-1] < a else []
    jumps = [after - before for before, after in pairwise(stops)]
    together = f" {PLUS} ".join(map(grouped, jumps)) + f" {EQUALS} {grouped(a - b)}"
    steps = [_add(at, jump) for at, jump in zip(stops, jumps, strict=False)]
    return (*steps, together) if len(jumps) > 1 else (*steps, _take(a, b))


def constant_difference(a: int, b: int) -> tuple[str, ...]:
    """Both numbers go up alike, until a round one is taken: 52 − 29 = 53 − 30."""
    up = -b % near_unit(a, b)
    return _add(b, up), _add(a, up), _take(a + up, b + up)


def by_units(a: int, b: int) -> tuple[str, ...]:
    """Tens or hundreds counted like ones: 7 − 4 = 3, 70 − 40 = 30."""
    unit = 100 if a % 100 == b % 100 == 0 else 10
    return _take(a // unit, b // unit), _take(a, b)


def near_unit(a: int, b: int) -> int:
    return 100 if FITS["near-hundred"](a, b) else 10


class Way(NamedTuple):
    steps: Callable[[int, int], tuple[str, ...]]
    question: Callable[[int, int], str]


def _largest(b: int) -> str:
    return place_name(_place_of(b))


UNITS = {10: "ten", 100: "hundred"}
WAYS: Mapping[str, Way] = {
    "by-units": Way(by_units, lambda a, b: f"How many {_largest(b)} are left?"),
    "partitioning": Way(partitioning, lambda a, b: f"What is left of the {_largest(b)}?"),
    "taking-off": Way(taking_off, lambda a, b: f"Take off the {_largest(b)} first."),
    "bridging": Way(taking_off, lambda a, b: f"How far down to the next {UNITS[_opened(b)]}?"),
    "opening": Way(opening, lambda a, b: f"Which {UNITS[_opened(b)]} can you open?"),
    "counting-up": Way(
        counting_up, lambda a, b: f"How far is the next {UNITS[10 if b % 10 else 100]}?"
    ),
    "constant-difference": Way(
        constant_difference, lambda a, b: f"What would make {grouped(b)} a round number?"
    ),
}  # fmt: skip

SMALL_GAP = 30  # so far apart and less, counting up has the shortest way; our judgement


def way(a: int, b: int) -> str:
    """The way that suits the numbers; partitioning never where a column falls short."""
    short = borrows(a, b)
    rules = (
        ("by-units", a % 10 == b % 10 == 0 and (a % 100 == b % 100 == 0 or b < 100)),
        ("partitioning", not short),
        ("counting-up", a - b < 10 <= b or a == 10),
        ("constant-difference", near_unit(a, b) == 100),
        ("opening", b < 10 and a % 10 == 0),
        ("opening", b < 100 and b % 10 == 0 == digit_at(a, 10)),
        ("bridging", b < 10 or (b < 100 and b % 10 == 0)),
        ("constant-difference", 1 in short and b % 10 >= 8),
        ("counting-up", a - b <= SMALL_GAP or a % 100 == 0),
    )
    return next((name for name, suits in rules if suits), "taking-off")


def _build(a: int, b: int) -> str:
    """Numbers close together are laid beside each other; otherwise the second is taken off."""
    if way(a, b) == "counting-up":
        return "Draw a line. Mark both numbers.\nJump from one to the other."
    exchange = "Do you need to open a ten?" if 1 in borrows(a, b) else ""
    return lines([f"Build {a} with {blocks_for(a, b)}.", exchange, f"Take {b} away."])


def problem(key: str, asked: str) -> Problem:
    a, b = map(int, asked.split("-"))
    if not belongs(_class(key), a, b):
        raise ValueError(f"{asked} does not belong to {key}")
    how = WAYS[way(a, b)]
    helps = (
        Help("question", how.question(a, b)),
        Help("build", _build(a, b)),
        *worked(*how.steps(a, b)),
    )
    prompt = f"{grouped(a)} {MINUS} {grouped(b)}"
    told = f"{prompt} leaves {grouped(a - b)}."
    return Problem(
        key, "mental-difference", asked, f"{prompt} {EQUALS}", spoken(a, MINUS, b), "whole", str(a - b), told,
        without_echo(prompt, helps),
    )  # fmt: skip


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
    "regroup": "that regroup the tens",
    "regroup-tens": "that regroup the hundreds",
    "regroup-both": "that regroup tens and hundreds",
    "near-ten": "that take a number near a ten",
    "near-hundred": "that take a number near a hundred",
    "close": "of numbers close together",
    "tens": "that take whole tens",
    "tens-across": "that take whole tens through a hundred",
    "hundreds": "that take whole hundreds",
    "all-tens": "of whole tens",
    "all-hundreds": "of whole hundreds",
}
SECONDS = {  # our judgement
    "none": 7.0, "regroup": 11.0, "regroup-tens": 11.0, "regroup-both": 13.0, "near-ten": 10.0,
    "near-hundred": 11.0, "close": 8.0, "tens": 6.0, "tens-across": 9.0, "hundreds": 5.0, "all-tens": 5.0,
    "all-hundreds": 4.0,
}  # fmt: skip
NAMES = {"1": "one", "2": "two", "3": "three"}


def _size(digits: str) -> str:
    first, second = digits.split("-")
    one = f"{NAMES[first]}-digit"
    return f"{one} differences" if first == second else f"{one} minus {NAMES[second]}-digit differences"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for key in keys(skill):
        of = _class(key)
        if next(pairs(of), None) is None:
            size = _size(word(skill, "digits"))
            yield "classes", f"there are no {size} {TITLES[of.name]}", f'leave "{of.name}" out'


def traits(key: str) -> Traits:
    digits, name = content_of(key).split("/")
    regroups = name.startswith(("regroup", "near", "close")) or name.endswith("across")
    groups = frozenset({f"procedure-{key}"} | ({"mental-regroup"} if regroups else set()))
    longer = 2.0 * digits.count("3")
    return Traits(f"{_size(digits)} {TITLES[name]}", False, SECONDS[name] + longer, groups)


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
        keys, traits, draw, problem, check, mental=True, predict=predict,
    ),
)  # fmt: skip
