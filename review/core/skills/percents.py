"""Percents of a number, and the same amount as a fraction, a decimal and a percent.

The sizes of a class of `of` are its percents; of `from-fraction` and `to-fraction` the denominators; of
`from-decimal` and `to-decimal` the decimal places.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import gcd

from review.core.model import Help, Kind, Option, Skill
from review.core.skills.amounts import listed, over, place_count, point, said, said_point, titled
from review.core.skills.options import wholes, words
from review.core.skills.tasks import Numbers, Shown, Space, Task, Tasks, pattern
from review.core.skills.wording import BOX, DIVIDED, EQUALS, TIMES, equation, in_words
from review.core.skills.worked import worked

MOST = 1000  # of what a percent is taken; over 100 only tens


# --- of a number --------------------------------------------------------------------------------------


def _of_space(sizes: Numbers) -> Space:
    def fits(percent: int, number: int) -> bool:
        return percent * number % 100 == 0 and (number <= 100 or number % 10 == 0)

    return Space((sizes, range(2, MOST + 1)), fits)


def _of(sizes: Numbers, member: Numbers) -> Shown:
    percent, number = member
    parts, times = 100 // gcd(percent, 100), percent // gcd(percent, 100)
    one, total = number // parts, percent * number // 100
    steps = [
        *([equation(number, DIVIDED, parts, one)] if parts > 1 else []),
        *([equation(one, TIMES, times, total)] if times > 1 or parts == 1 else []),
    ]
    helps = (
        Help("question", "Which part of it is that?"),
        Help("build", "Draw a bar with equal parts."),
        *worked(*steps),
    )
    prompt = f"{percent}% of {number}"
    say = f"What is {in_words(percent)} percent of {in_words(number)}?"
    return Shown(f"{prompt} {EQUALS}", say, str(total), f"{prompt} makes {total}.", helps)


# --- the same amount in another way -------------------------------------------------------------------


def _told(left: str, right: str) -> str:
    return f"{left} is the same as {right}."


def _hundredth_helps(*steps: str) -> tuple[Help, ...]:
    return (
        Help("question", "How many hundredths is it?"),
        Help("build", "Shade it on a square of hundredths."),
        *worked(*steps),
    )


def _fraction_space(sizes: Numbers) -> Space:
    return Space((range(1, max(sizes)), sizes), lambda top, under: top < under and 100 % under == 0)


def _from_fraction(sizes: Numbers, member: Numbers) -> Shown:
    top, under = member
    percent, written = top * 100 // under, over(top, under)
    steps = [equation(100, DIVIDED, under, 100 // under), equation(top, TIMES, 100 // under, percent)]
    say = f"{said(top, under)} is how many percent?"
    return Shown(
        f"{written} {EQUALS} {BOX}%",
        say,
        str(percent),
        _told(written, f"{percent}%"),
        _hundredth_helps(*steps),
        "percent",
    )


def _percent_space(sizes: Numbers) -> Space:
    """Those that come down to one of the denominators, and not to hundredths as they stand."""

    def fits(percent: int) -> bool:
        return gcd(percent, 100) > 1 and 100 // gcd(percent, 100) in sizes

    return Space((range(1, 100),), fits)


def _to_fraction(sizes: Numbers, member: Numbers) -> Shown:
    (percent,) = member
    by, value = gcd(percent, 100), Fraction(percent, 100)
    answer = over(value.numerator, value.denominator)
    steps = [equation(percent, DIVIDED, by, percent // by), equation(100, DIVIDED, by, 100 // by)]
    helps = _hundredth_helps(*steps, f"{over(percent, 100)} {EQUALS} {answer}")
    return Shown(
        f"{percent}% in simplest form is",
        f"Write {in_words(percent)} percent as a fraction in simplest form.",
        answer,
        _told(f"{percent}%", answer),
        helps,
        "fraction-lowest",
    )


def _decimal_space(sizes: Numbers) -> Space:
    (places,) = sizes
    return Space((range(1, 10**places),), lambda number: number % 10 != 0)


def _from_decimal(sizes: Numbers, member: Numbers) -> Shown:
    (number,), (places,) = member, sizes
    percent, written = number * 10 ** (2 - places), point(number, places)
    say = f"{said_point(number, places)} is how many percent?"
    helps = _hundredth_helps(f"{written} {TIMES} 100 {EQUALS} {percent}")
    told = _told(written, f"{percent}%")
    return Shown(f"{written} {EQUALS} {BOX}%", say, str(percent), told, helps, "percent")


def _tens_or_not(sizes: Numbers) -> Space:
    """One decimal place comes of whole tens, two of the others."""
    (places,) = sizes
    return Space((range(1, 100),), lambda percent: (percent % 10 == 0) == (places == 1))


def _to_decimal(sizes: Numbers, member: Numbers) -> Shown:
    (percent,), (places,) = member, sizes
    answer = point(percent // 10 ** (2 - places), places)
    say = f"What is {in_words(percent)} percent as a decimal?"
    helps = _hundredth_helps(f"{percent} {DIVIDED} 100 {EQUALS} {answer}")
    return Shown(f"{percent}% as a decimal is", say, answer, _told(f"{percent}%", answer), helps, "decimal")


# --- the kind -----------------------------------------------------------------------------------------

TABLE: Mapping[str, Task] = {
    "of": Task(
        lambda sizes: f"{listed([f'{size}%' for size in sizes])} of a number", 10.0, pattern("#,#"),
        _of_space, _of, "of",
    ),
    "from-fraction": Task(
        titled("fractions as percents"), 8.0, pattern("#/#"), _fraction_space, _from_fraction, "family"
    ),
    "to-fraction": Task(
        titled("percents as fractions"), 11.0, pattern("#"), _percent_space, _to_fraction, "family"
    ),
    "from-decimal": Task(
        lambda sizes: f"decimals as percents, {place_count(*sizes)}", 6.0,
        pattern("#", lambda sizes: sizes), _decimal_space, _from_decimal, "family",
    ),
    "to-decimal": Task(
        lambda sizes: f"percents as decimals, {place_count(*sizes)}", 6.0, pattern("#"),
        _tens_or_not, _to_decimal, "family",
    ),
}  # fmt: skip
TASKS = Tasks(TABLE)
MOST_PLACES = 2  # hundredths
LISTS = {"of": "percents", "from-fraction": "denominators", "to-fraction": "denominators"}


def _sizes(skill: Skill, task: str) -> Iterator[Numbers]:
    """The percents or denominators of a class together; decimal places each a class."""
    if task in LISTS:
        named = tuple(sorted(wholes(skill, LISTS[task])))
        yield from ([named] if named else [])
    else:
        yield from ((places,) for places in range(1, MOST_PLACES + 1))


def keys(skill: Skill) -> Iterator[str]:
    for task in words(skill, "task"):
        for sizes in _sizes(skill, task):
            yield f"percent:{task}/{'-'.join(map(str, sizes))}"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for name in ("percents", "denominators"):
        if not wholes(skill, name) and name in {LISTS.get(task) for task in words(skill, "task")}:
            example = "[10, 50]" if name == "percents" else "[2, 4, 5, 10]"
            yield name, f"the {name} are missing", f"add {name} = {example}"
    for under in wholes(skill, "denominators"):
        if 100 % under:
            yield "denominators", f"{under} does not divide 100", "take from 2, 4, 5, 10, 20, 25, 50, 100"
            return
    for key in keys(skill):
        if not TASKS.possible(key):
            yield "denominators", "no percent comes down to these", "take from 2, 4, 5, 10, 20, 25, 50"


KINDS: tuple[Kind, ...] = (
    Kind(
        "percent",
        "percents of a number, and as fractions and decimals",
        {
            "task": Option(
                "words", "what is asked; a card each", choices=tuple(TABLE), example='["of", "from-decimal"]'
            ),
            "percents": Option(
                "wholes", "for of: which percents there may be", default=(), low=1, high=100,
                example="[10, 50]",
            ),
            "denominators": Option(
                "wholes", "for fractions: which denominators there may be", default=(), low=2, high=100,
                example="[2, 4, 5, 10]",
            ),
        },
        keys, TASKS.traits, TASKS.draw, TASKS.problem, check, predict=TASKS.predict,
    ),
)  # fmt: skip
