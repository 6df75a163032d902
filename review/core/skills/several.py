"""Several numbers added in the head, each new total said: 7 + 5 + 9 + 3 -> 12, 21, 24.

A class is every row of so many numbers of so many digits whose total stays within a bound, each equally
likely: drawn number by number, a number as often as there are rows that go on from it.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import accumulate, pairwise
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Problem, Skill, Traits
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import whole
from review.core.skills.places import with_digits
from review.core.skills.wording import EQUALS, PLUS, grouped, in_words, lines
from review.core.skills.worked import worked

MOST_ADDENDS = 5  # our judgement: a longer row is a test of patience
MOST_TOTAL = 500  # 5 × 99, rounded up


class Row(NamedTuple):
    """What a card key says."""

    many: int
    digits: int
    total: int  # the largest


def _row(key: str) -> Row:
    size, _, bound = content_of(key).partition("/within-")
    many, digits = map(int, size.split("x"))
    return Row(many, digits, int(bound))


def numbers(digits: int) -> range:
    """Those of so many digits; zero adds nothing and is left out."""
    return with_digits(digits)


@lru_cache(maxsize=4096)
def rows(many: int, digits: int, total: int) -> int:
    """How many rows there are of so many numbers with at most that total."""
    if many == 1:
        return len(range(numbers(digits).start, min(numbers(digits).stop, total + 1)))
    return sum(rows(many - 1, digits, total - first) for first in numbers(digits) if first < total)


def draw(key: str, random: Random) -> str:
    many, digits, left = _row(key)
    if not rows(many, digits, left):
        raise ValueError(f"no row of numbers belongs to {key}")
    drawn: list[int] = []
    for still in range(many - 1, -1, -1):
        drawn += random.choices(
            numbers(digits), [_going_on(still, digits, left - n) for n in numbers(digits)]
        )
        left -= drawn[-1]
    return "+".join(map(str, drawn))


def _going_on(many: int, digits: int, total: int) -> int:
    return rows(many, digits, total) if many else int(total >= 0)


# --- what is shown ------------------------------------------------------------------------------------


def _belongs(key: str, asked: str) -> list[int]:
    many, digits, total = _row(key)
    addends = [int(part) for part in asked.split("+") if part.isdecimal()]
    fits = len(addends) == many and all(n in numbers(digits) for n in addends) and sum(addends) <= total
    if not fits or asked != "+".join(map(str, addends)):
        raise ValueError(f"{asked} does not belong to {key}")
    return addends


def _steps(addends: list[int]) -> list[str]:
    totals = list(accumulate(addends))
    return [
        f"{grouped(before)} {PLUS} {added} {EQUALS} {grouped(after)}"
        for added, (before, after) in zip(addends[1:], pairwise(totals), strict=True)
    ]


def problem(key: str, asked: str) -> Problem:
    addends = _belongs(key, asked)
    first, second, *_ = addends
    totals = list(accumulate(addends))[1:]
    written = f" {PLUS} ".join(map(str, addends))
    with_what = "counters" if totals[-1] <= 50 else "tens and ones"
    helps = (
        Help("question", f"What do {first} and {second} make?\nThen add the next number."),
        Help("build", lines([f"Build {first} with {with_what}.", "Add each number in turn."])),
        *worked(*_steps(addends)),
    )
    say = f"{in_words(first)} " + ", ".join(f"plus {in_words(n)}" for n in addends[1:])
    return Problem(
        card=key,
        kind="add-several",
        asked=asked,
        prompt=f"{written}. Each new total:",
        say=f"{say}: each new total",
        form="list",
        expected=" ".join(map(str, totals)),
        told=f"{written} makes {grouped(totals[-1])}.",
        helps=helps,
    )


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    many, digits, total = (whole(skill, name) for name in ("addends", "digits", "total"))
    yield f"add-several:{many}x{digits}/within-{total}"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    many, digits, total = (whole(skill, name) for name in ("addends", "digits", "total"))
    least = many * numbers(digits).start
    if total < least:
        yield "total", f"{_title(many, digits)} make at least {least}", f"write {least} or more"


COUNTS = {2: "two", 3: "three", 4: "four", 5: "five"}


def _title(many: int, digits: int) -> str:
    return f"{COUNTS[many]} {'one' if digits == 1 else 'two'}-digit numbers"


def traits(key: str) -> Traits:
    many, digits, total = _row(key)
    seconds = (many - 1) * (4.0 if digits == 1 else 9.0)  # our judgement: a sum each, and typing it
    title = f"{_title(many, digits)} added, totals to {total}"
    return Traits(title, False, seconds, frozenset({"add-several", f"procedure-{key}"}))


KINDS: tuple[Kind, ...] = (
    Kind(
        "add-several",
        "several numbers added in the head, each new total said",
        {
            "addends": Option("whole", "how many numbers", 3, 3, MOST_ADDENDS, example="4"),
            "digits": Option("whole", "how many digits each number has", 1, 1, 2, example="1"),
            "total": Option("whole", "the largest total", None, 3, MOST_TOTAL, example="20"),
        },
        keys, traits, draw, problem, check,
    ),
)  # fmt: skip
