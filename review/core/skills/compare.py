"""Comparing two whole numbers, place by place from the left.

A class is the ordered pairs of numbers with so many digits that first differ in one place; `length` those
where one number has a digit fewer, `equal` those that are the same.
"""

from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal
from random import Random

from review.core.keys import content_of
from review.core.model import BOX, Help, Problem, Skill, Traits
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import whole, words
from review.core.skills.places import MOST_DIGITS, PLACES, digit_at, with_digits
from review.core.skills.wording import grouped, in_words, lines, sign_between

SIGN_SENTENCES = {"<": "is less than", "=": "equals", ">": "is greater than"}
WHERE = ("length", "first", *PLACES[-2::-1], "equal")


def _where(key: str) -> tuple[int, str]:
    digits, where = content_of(key).split("/")
    return int(digits), where


def _place_at(digits: int, where: str) -> int:
    """The place at which two numbers first differ: 1, 10, 100, ..."""
    return int(10 ** (digits - 1 if where == "first" else PLACES.index(where)))


def _fits(digits: int, where: str) -> bool:
    """The leading place is always called `first`, so that a class has one name."""
    return where not in PLACES or PLACES.index(where) < digits - 1


def pair_belongs(key: str, first: int, second: int) -> bool:
    digits, where = _where(key)
    lengths = {len(str(first)), len(str(second))}
    if where == "length":
        return lengths == {digits, digits - 1} and min(first, second) > 0
    if where == "equal":
        return first == second and lengths == {digits}
    place = _place_at(digits, where)
    alike = first // (place * 10) == second // (place * 10)
    return lengths == {digits} and alike and digit_at(first, place) != digit_at(second, place)


def _draw_near(digits: int, where: str, random: Random) -> tuple[int, int]:
    """Nearly a member: each of the class equally likely, with some others among them."""
    first = random.choice(with_digits(digits))
    if where == "equal":
        return first, first
    if where == "length":
        shorter = random.choice(with_digits(digits - 1))
        return (first, shorter) if random.random() < 0.5 else (shorter, first)
    below = _place_at(digits, where) * 10
    return first, first // below * below + random.randrange(below)


def draw(key: str, random: Random) -> str:
    digits, where = _where(key)
    if not _fits(digits, where):
        raise ValueError(f"no pair belongs to {key}")
    first, second = _draw_near(digits, where, random)
    while not pair_belongs(key, first, second):
        first, second = _draw_near(digits, where, random)
    return f"{first}?{second}"


def _steps(first: int, second: int) -> tuple[str, ...]:
    one, other = str(first), str(second)
    if len(one) != len(other):
        counts = (f"{grouped(number)} has {len(str(number))} digits." for number in (first, second))
        return (*counts, "More digits, greater number.", _whole_line(first, second))
    names = PLACES[: len(one)][::-1]
    rows = [
        f"{name}: {a} {sign_between(int(a), int(b))} {b}"
        for name, a, b in zip(names, one, other, strict=True)
    ]
    differing = (at for at, (a, b) in enumerate(zip(one, other, strict=True)) if a != b)
    return tuple(rows[: next(differing, len(rows)) + 1])


def _whole_line(first: int, second: int) -> str:
    return f"{grouped(first)} {sign_between(first, second)} {grouped(second)}"


def _helps(first: int, second: int) -> tuple[Help, ...]:
    *before, last = _steps(first, second)
    left, _, right = last.rsplit(" ", 2)
    whole_line = _whole_line(first, second)
    small = max(first, second) < 1000
    return (
        Help("question", "Has one of them more digits?\nDoes any place differ?"),
        Help("build", "Build both, side by side." if small else "Write one under the other."),
        Help("blank", lines([*before, f"{left} {BOX} {right}"])),
        Help("steps", lines(dict.fromkeys([*before, last, whole_line]))),
    )


def problem(key: str, asked: str) -> Problem:
    first, second = map(int, asked.split("?"))
    if not pair_belongs(key, first, second):
        raise ValueError(f"{asked} does not belong to {key}")
    sign = sign_between(first, second)
    return Problem(
        key,
        "compare",
        asked,
        f"{grouped(first)} {BOX} {grouped(second)}",
        f"Which sign goes between {in_words(first)} and {in_words(second)}?",
        "sign",
        sign,
        f"{grouped(first)} {SIGN_SENTENCES[sign]} {grouped(second)}.",
        _helps(first, second),
    )


# --- what one would write -----------------------------------------------------------------------------


def _after_point(number: str) -> tuple[int, int]:
    whole_part, _, after = number.partition(".")
    return int(whole_part), int(after or 0)


BELIEFS: Mapping[str, Callable[[str], object]] = {
    "after_point": _after_point,
    "first_digit": lambda number: number.replace(".", "").lstrip("0")[:1],
    "last_digit": lambda number: number[-1],
}
"""What decides under each rule, for numbers as they are written, also decimals."""


def believed(first: str, second: str) -> dict[str, str]:
    """The sign each error rule puts between two numbers."""
    beliefs = {rule: (by(first), by(second)) for rule, by in BELIEFS.items()}
    signs = {rule: sign_between(*pair) for rule, pair in beliefs.items()}
    return {**signs, "reversed": sign_between(Decimal(second), Decimal(first))}


def predict(key: str, asked: str) -> Mapping[str, str]:
    first, second = asked.split("?")
    right = sign_between(int(first), int(second))
    return {rule: sign for rule, sign in believed(first, second).items() if sign != right}


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    digits = whole(skill, "digits")
    chosen = words(skill, "where") or tuple(where for where in WHERE if digits > 2 or where != "length")
    return (f"compare:{digits}/{where}" for where in WHERE if where in chosen and _fits(digits, where))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    digits = whole(skill, "digits")
    fitting = ", ".join(where for where in WHERE if _fits(digits, where))
    for where in words(skill, "where"):
        if not _fits(digits, where):
            wrong = f"numbers of {digits} digits have no {where} after their first digit"
            yield "where", wrong, f"take from {fitting}"


def traits(key: str) -> Traits:
    digits, where = _where(key)
    differ = {"length": "one is shorter", "first": "first digits differ", "equal": "both the same"}
    title = f"comparing {digits}-digit numbers, {differ.get(where, f'{where} differ')}"
    return Traits(title, False, 4.0 + digits, frozenset({f"procedure-{key}", "compare"}), choices=3)


KINDS: tuple[Kind, ...] = (
    Kind(
        "compare",
        "which of two numbers is greater",
        {
            "digits": Option(
                "whole", "how many digits the numbers have", low=2, high=MOST_DIGITS, example="3"
            ),
            "where": Option(
                "words", "where the two numbers first differ; all if left out",
                default=(), choices=WHERE, example='["tens", "ones"]',
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
