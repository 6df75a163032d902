"""Whole numbers to the nearest 10, 100, 1,000, ...; halfway goes up.

A class is a place and every number of its range that is not round already; `half` those exactly halfway,
`roll` those whose rounding changes the next place too: 397 to the nearest 10, 3,962 to the nearest 100.
"""

from collections.abc import Iterator, Mapping
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Problem, Skill, Traits
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import wholes, words
from review.core.skills.places import PLACES, place_name
from review.core.skills.wording import EQUALS, MINUS, PLUS, grouped, in_words, on_lines
from review.core.skills.worked import worked

WHICH = ("all", "half", "roll")
LARGEST = 999_999  # our judgement


class Class(NamedTuple):
    place: int
    low: int
    high: int
    which: str

    @property
    def numbers(self) -> range:
        return range(self.low, self.high + 1)


def _class(key: str) -> Class:
    place, span, *which = content_of(key).split("/")
    low, _, high = span.partition("..")
    return Class(int(place), int(low), int(high), *(which or ["all"]))


def _key(of: Class) -> str:
    return f"rounding:{of.place}/{of.low}..{of.high}" + ("" if of.which == "all" else f"/{of.which}")


def rounded(number: int, place: int) -> int:
    """To the nearest multiple, halfway up."""
    return (2 * number + place) // (2 * place) * place


# --- which numbers belong -----------------------------------------------------------------------------


def _fits(of: Class, number: int) -> bool:
    """Of a number of the range."""
    rest = number % of.place
    if of.which == "half":
        return 2 * rest == of.place
    if of.which == "roll":
        return 2 * rest >= of.place and number // of.place % 10 == 9
    return rest > 0


def _candidates(of: Class) -> range:
    """The numbers a member is drawn from: halves come one to a place, so that they are not looked for."""
    if of.which != "half":
        return of.numbers
    return range(of.low + (of.place // 2 - of.low) % of.place, of.high + 1, of.place)


def _possible(of: Class) -> bool:
    """Whether the first number from the low end on that fits lies within the range."""
    low, ten = of.low, 10 * of.place
    first = {
        "all": low + (low % of.place == 0),
        "half": _candidates(of).start,
        "roll": max(low, low - low % ten + ten - of.place // 2),
    }
    return first[of.which] <= of.high


def draw(key: str, random: Random) -> str:
    of = _class(key)
    if not _possible(of):
        raise ValueError(f"no number belongs to {key}")
    number = random.choice(_candidates(of))
    while not _fits(of, number):
        number = random.choice(_candidates(of))
    return str(number)


# --- what is shown ------------------------------------------------------------------------------------


def _steps(number: int, place: int) -> tuple[str, ...]:
    low, result = number - number % place, rounded(number, place)
    middle = low + place // 2
    sign = "<" if number < middle else ">"
    change, to = (PLUS, result - number) if result > number else (MINUS, number - result)
    return (
        f"Halfway is {grouped(middle)}.",
        "Halfway goes up." if number == middle else f"{grouped(number)} {sign} {grouped(middle)}",
        f"{grouped(number)} {change} {grouped(to)} {EQUALS} {grouped(result)}",
    )


def _helps(number: int, place: int) -> tuple[Help, ...]:
    return (
        Help("question", f"Between which {place_name(place)} is it?"),
        Help("build", "Draw a line between them.\nMark the middle, then your number."),
        *worked(*_steps(number, place)),
    )


def problem(key: str, asked: str) -> Problem:
    of, number = _class(key), int(asked)
    if number not in of.numbers or str(number) != asked or not _fits(of, number):
        raise ValueError(f"{asked} does not belong to {key}")
    result = rounded(number, of.place)
    prompt = f"{grouped(number)} to the nearest {grouped(of.place)} is"
    return Problem(
        card=key,
        kind="rounding",
        asked=asked,
        prompt=prompt,
        say=f"What is {in_words(number)} to the nearest {in_words(of.place).removeprefix('one ')}?",
        form="whole",
        expected=str(result),
        told=on_lines(f"{prompt} {grouped(result)}."),
        helps=_helps(number, of.place),
    )


# --- what one would write -----------------------------------------------------------------------------


def predict(key: str, asked: str) -> Mapping[str, str]:
    place, number = _class(key).place, int(asked)
    down, result = number - number % place, rounded(number, place)
    slips = {
        "down": down,
        "up": down + place,
        "place_small": rounded(number, place // 10) if place > 10 else number,
        "place_large": rounded(number, place * 10),
        "rest_kept": result + number % place,
        "five_down": down if 2 * (number % place) == place else result,
        "digit_off": result // place,
    }
    return {rule: str(slip) for rule, slip in slips.items() if slip != result}


# --- the kind -----------------------------------------------------------------------------------------


def _classes(skill: Skill) -> Iterator[Class]:
    low, high = wholes(skill, "range")
    for place in wholes(skill, "places"):
        yield from (Class(place, low, high, which) for which in words(skill, "which"))


def keys(skill: Skill) -> Iterator[str]:
    return (_key(of) for of in _classes(skill) if _is_place(of.place) and _possible(of))


def _is_place(number: int) -> bool:
    return number in (10**at for at in range(1, len(PLACES)))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for of in _classes(skill):
        if not _is_place(of.place):
            yield "places", f"{of.place:,} is no place to round to", "take from 10, 100, 1000, 10000, 100000"
        elif not _possible(of):
            wrong = f"no number from {of.low:,} to {of.high:,} is {WHICH_ARE[of.which]}"
            yield "range", wrong, f"write [0, {of.place * 100 - 1}]"


TITLES = {"all": "", "half": ", exactly halfway", "roll": ", next place changes"}
WHICH_ARE = {
    "all": "in need of rounding",
    "half": "exactly halfway",
    "roll": "one that changes the next place",
}
SECONDS = {"all": 7.0, "half": 7.0, "roll": 9.0}  # our judgement


def traits(key: str) -> Traits:
    of = _class(key)
    numbers = f"{grouped(of.low)} to {grouped(of.high)}"
    title = f"to the nearest {grouped(of.place)}, {numbers}{TITLES[of.which]}"
    seconds = SECONDS[of.which] + len(str(of.high)) / 2
    return Traits(title, False, seconds, frozenset({f"procedure-{key}", "rounding"}))


KINDS: tuple[Kind, ...] = (
    Kind(
        "rounding",
        "whole numbers to the nearest 10, 100, 1,000, halfway up",
        {
            "places": Option(
                "wholes", "what is rounded to, a card each", low=10, high=100_000, example="[10, 100]"
            ),
            "range": Option("range", "which numbers are rounded", low=0, high=LARGEST, example="[0, 999]"),
            "which": Option(
                "words", "all, or those exactly halfway (half) and those that change the next place (roll)",
                default=("all",), choices=WHICH, example='["all", "half"]',
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
