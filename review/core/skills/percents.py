"""Percents of a number, and the same amount as a fraction, a decimal and a percent.

The sizes of a class of `of` are its percents; of `from-fraction` and `to-fraction` the denominators; of
`from-decimal` and `to-decimal` the decimal places.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import gcd

from review.core.model import BOX, Help, Skill, Traits
from review.core.skills.amounts import (
    listed,
    over,
    percent_parts,
    place_count,
    point,
    said,
    said_point,
    titled,
)
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import wholes, words
from review.core.skills.tasks import Numbers, Shown, Space, Task, Tasks, pattern, sizes_of, task_of
from review.core.skills.wording import DIVIDED, EQUALS, TIMES, equation, grouped, in_words
from review.core.skills.worked import worked

MOST = 1000  # of what a percent is taken; over 100 only tens


# --- of a number --------------------------------------------------------------------------------------


def _of_space(sizes: Numbers) -> Space:
    def fits(percent: int, number: int) -> bool:
        return percent * number % 100 == 0 and (number <= 100 or number % 10 == 0)

    return Space((sizes, range(2, MOST + 1)), fits)


def _one_part(number: int, parts: int) -> list[str]:
    """5% goes by 10%, of which it is half."""
    ways = {1: (), 20: (10, 2)}.get(parts, (parts,))
    found, left = [], number
    for by in ways:
        found.append(equation(grouped(left), DIVIDED, by, left // by))
        left //= by
    return found


def _of(sizes: Numbers, member: Numbers) -> Shown:
    percent, number = member
    parts, total = percent_parts(percent, number), percent * number // 100
    one, times = number // parts, percent * parts // 100
    steps = [
        *_one_part(number, parts),
        *([equation(grouped(one), TIMES, times, grouped(total))] if times > 1 or parts == 1 else []),
    ]
    helps = (
        Help("question", "Which part of it is that?"),
        Help("build", "Draw a bar with equal parts."),
        *worked(*steps),
    )
    prompt = f"{percent}% of {grouped(number)}"
    say = f"What is {in_words(percent)} percent of {in_words(number)}?"
    return Shown(f"{prompt} {EQUALS}", say, str(total), f"{prompt} makes {grouped(total)}.", helps)


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
        f"{percent}% as a fraction, in simplest form:",
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


# --- what one would write under an error rule ---------------------------------------------------------
# A percent taken as a number, and numbers divided by it: Parker & Leinhardt 1995 (from memory). The others
# are common practice, no source.


def _of_errors(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    percent, number = member
    divided = {} if number % percent else {"divided_by_percent": str(number // percent)}
    taken = {"number_off": str(number - percent)} if number > percent else {}
    rest = str(number - percent * number // 100)
    return {**taken, "percent_itself": str(percent), **divided, "rest": rest}


def _from_fraction_errors(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    top, under = member
    return {"bottom_itself": str(under), "digits_joined": f"{top}{under}", "one_part": str(100 // under)}


def _to_fraction_errors(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    (percent,) = member
    return {"percent_as_bottom": over(1, percent)}


def _from_decimal_errors(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    """0.5 as 5%; 0.35 as 3.5%."""
    (number,), (places,) = member, sizes
    return {"point_dropped": str(number), "by_ten": point(number, places - 1) if places > 1 else str(number)}


def _to_decimal_errors(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    """5% as 0.5; 35% as 3.5."""
    (percent,) = member
    return {"point_in_front": f"0.{percent}", "by_ten": point(percent, 1)}


# --- the kind -----------------------------------------------------------------------------------------

TABLE: Mapping[str, Task] = {
    "of": Task(
        lambda sizes: f"{listed([f'{size}%' for size in sizes])} of a number", 10.0, pattern("#,#"),
        _of_space, _of, "of", _of_errors,
    ),
    "from-fraction": Task(
        titled("fractions as percents"), 8.0, pattern("#/#"), _fraction_space, _from_fraction, "family",
        _from_fraction_errors,
    ),
    "to-fraction": Task(
        titled("percents as fractions"), 11.0, pattern("#"), _percent_space, _to_fraction, "family",
        _to_fraction_errors,
    ),
    "from-decimal": Task(
        lambda sizes: f"decimals as percents, {place_count(*sizes)}", 6.0,
        pattern("#", lambda sizes: sizes), _decimal_space, _from_decimal, "family",
        _from_decimal_errors,
    ),
    "to-decimal": Task(
        lambda sizes: f"percents as decimals, {place_count(*sizes)}", 6.0, pattern("#"),
        _tens_or_not, _to_decimal, "family", _to_decimal_errors,
    ),
}  # fmt: skip
TASKS = Tasks(TABLE)

# Seconds for the hardest percent of a class (our judgement): halves and tenths are one step, a quarter and a
# fifth one that is not in the tables, several parts two, fives and others a part of a part.
SECONDS_OF = {50: 6.0, 10: 6.0, 100: 5.0, 25: 9.0, 20: 9.0, 1: 7.0}
TENS, FIVES, OTHERS = 12.0, 17.0, 25.0
SECONDS_UNDER = {2: 5.0, 10: 6.0, 100: 5.0, 4: 7.0, 5: 8.0}  # of a fraction with that denominator
OTHER_UNDER = 10.0


def _seconds_of(percent: int) -> float:
    step = TENS if percent % 10 == 0 or percent == 75 else FIVES if percent % 5 == 0 else OTHERS
    return SECONDS_OF.get(percent, step)


def traits(key: str) -> Traits:
    """As of any task; the expected seconds follow from the percents or denominators."""
    found, task, sizes = TASKS.traits(key), task_of(key), sizes_of(key)
    if task == "of":
        return found._replace(seconds=max(map(_seconds_of, sizes)))
    if task not in LISTS:
        return found
    more = 3.0 if task == "to-fraction" else 0.0  # top and bottom are both found
    return found._replace(seconds=more + max(SECONDS_UNDER.get(under, OTHER_UNDER) for under in sizes))


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
        keys, traits, TASKS.draw, TASKS.problem, check, predict=TASKS.predict,
    ),
)  # fmt: skip
