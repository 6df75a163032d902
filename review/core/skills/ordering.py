"""Three or four numbers, smallest first.

A class is every list of different numbers in any order but the asked one: `any` those of so many digits,
`mixed` those where at least one number has a digit fewer, `shuffled` those of the same
digits, all different and none zero, in another order: 345, 435, 354.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal
from itertools import pairwise
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Problem, Skill, Traits
from review.core.pictures import Lines
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import whole, words
from review.core.skills.places import with_digits
from review.core.skills.wording import grouped, in_words, lines
from review.core.skills.worked import worked

WHICH = ("any", "mixed", "shuffled")
APART = "   "
MOST_DIGITS = 6  # four longer numbers do not fit a line of 40 columns


class Class(NamedTuple):
    many: int
    digits: int
    which: str


def _class(key: str) -> Class:
    count, word = content_of(key).split("/")
    digits, _, which = word.partition("-")
    return Class(int(count), int(digits), which or "any")


def _key(of: Class) -> str:
    return f"order:{of.many}/{of.digits}" + ("" if of.which == "any" else f"-{of.which}")


# --- which lists belong -------------------------------------------------------------------------------


def _belongs(of: Class, numbers: Sequence[int]) -> bool:
    if len(numbers) != of.many or len(set(numbers)) < of.many or list(numbers) == sorted(numbers):
        return False
    lengths = {len(str(number)) for number in numbers}
    if of.which == "mixed":
        return lengths == {of.digits, of.digits - 1} and min(numbers) > 0
    if lengths != {of.digits}:
        return False
    return of.which == "any" or (len({*map(_digits, numbers)}) == 1 and _are_different(numbers[0]))


def _digits(number: int) -> str:
    return "".join(sorted(str(number)))


def _are_different(number: int) -> bool:
    return "0" not in str(number) and len(set(str(number))) == len(str(number))


def _draw_near(of: Class, random: Random) -> list[int]:
    """Nearly a member: each of the class equally likely, with some others among them."""
    if of.which == "shuffled":
        digits = random.sample("123456789", of.digits)
        return [int("".join(random.sample(digits, of.digits))) for _ in range(of.many)]
    low = of.digits - 1 if of.which == "mixed" else of.digits
    return random.choices(range(with_digits(low).start, with_digits(of.digits).stop), k=of.many)


def _possible(of: Class) -> bool:
    """Two digits have but two orders."""
    return of.which != "shuffled" or of.digits > 2


def draw(key: str, random: Random) -> str:
    of = _class(key)
    if not _possible(of):
        raise ValueError(f"no numbers belong to {key}")
    numbers = _draw_near(of, random)
    while not _belongs(of, numbers):
        numbers = _draw_near(of, random)
    return ",".join(map(str, numbers))


# --- what is shown ------------------------------------------------------------------------------------


def _question(of: Class) -> str:
    mixed = "Which has the fewest digits?" if of.which == "mixed" else ""
    return lines([mixed, "Which first digit is smallest?"])


def _helps(of: Class, right: Sequence[int]) -> tuple[Help, ...]:
    steps = [f"{grouped(less)} < {grouped(more)}" for less, more in pairwise(right)]
    return (
        Help("question", _question(of)),
        Help("build", "Write each on a slip of paper.\nLay the smallest down first."),
        *worked(*steps),
    )


def problem(key: str, asked: str) -> Problem:
    of, numbers = _class(key), [int(part) for part in asked.split(",")]
    right = sorted(numbers)
    if ",".join(map(str, numbers)) != asked or not _belongs(of, numbers):
        raise ValueError(f"{asked} does not belong to {key}")
    return Problem(
        card=key,
        kind="order",
        asked=asked,
        prompt="Smallest first:",
        say=f"Smallest first: {', '.join(map(in_words, numbers))}.",
        form="list",
        expected=" ".join(map(str, right)),
        told=" < ".join(map(grouped, right)),
        helps=_helps(of, right),
        picture=Lines((APART.join(map(grouped, numbers)),)),
    )


# --- what one would write -----------------------------------------------------------------------------


def _whole_digits(number: str) -> str:
    return number.replace(".", "").lstrip("0")


def _after(number: str) -> str:
    return number.partition(".")[2]


def _whole(number: str) -> int:
    return int(number.partition(".")[0])


BELIEFS: Mapping[str, Callable[[str], object]] = {
    "longer": lambda number: (len(number.replace(".", "")), Decimal(number)),
    "shorter": lambda number: (_whole(number), -len(_after(number)), Decimal(number)),
    "after_point": lambda number: (_whole(number), int(_after(number) or 0)),
    "point_ignored": lambda number: int(number.replace(".", "")),
    "first_digit": _whole_digits,
    "last_digit": lambda number: number[-1],
}
"""What one would sort by under each rule, for numbers as they are written, also decimals."""


def ordered_as(numbers: Sequence[str]) -> dict[str, list[str]]:
    """The numbers in the order each error rule gives them, smallest first; ties stay as they were asked."""
    sorts = {rule: sorted(numbers, key=by) for rule, by in BELIEFS.items()}  # type: ignore[arg-type]
    return {**sorts, "reversed": sorted(numbers, key=Decimal, reverse=True)}


def predict(key: str, asked: str) -> Mapping[str, str]:
    numbers = asked.split(",")
    right = sorted(numbers, key=int)
    return {rule: " ".join(found) for rule, found in ordered_as(numbers).items() if found != right}


# --- the kind -----------------------------------------------------------------------------------------


def _classes(skill: Skill) -> Iterator[Class]:
    return (Class(whole(skill, "count"), whole(skill, "digits"), which) for which in words(skill, "which"))


def keys(skill: Skill) -> Iterator[str]:
    return (_key(of) for of in _classes(skill) if _possible(of))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for of in _classes(skill):
        if not _possible(of):
            yield "which", "two digits have only two orders", 'leave "shuffled" out, or write digits = 3'


TITLES = {"any": "", "mixed": ", some shorter", "shuffled": ", same digits"}


def traits(key: str) -> Traits:
    of = _class(key)
    title = f"{in_words(of.many)} {of.digits}-digit numbers in order{TITLES[of.which]}"
    seconds = of.many * (2.0 + of.digits)  # our judgement: two seconds to find each, one a key
    return Traits(title, False, seconds, frozenset({f"procedure-{key}", "order"}))


KINDS: tuple[Kind, ...] = (
    Kind(
        "order",
        "three or four numbers, smallest first",
        {
            "count": Option("whole", "how many numbers", default=3, low=3, high=4, example="3"),
            "digits": Option(
                "whole", "how many digits the numbers have", low=2, high=MOST_DIGITS, example="3"
            ),
            "which": Option(
                "words", "any, some a digit shorter (mixed), or of the same digits (shuffled); a card each",
                default=("any",), choices=WHICH, example='["any", "mixed"]',
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
