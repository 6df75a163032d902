"""The equal sign: whether a statement is true, and what makes both sides equal.

A statement is a sum, difference, product or quotient with its result; `turned` has the result in front
(12 = 7 + 5), `sides` a sum on each side (7 + 5 = 8 + 4), `balance` leaves one number of `sides` out. Every
true statement has one false partner, off by what is really mistaken: a step or a ten, in a table one row.
So half of each class is true, and every member of a class is equally likely.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import BOX, Help, Problem, Skill, Traits
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import wholes, words
from review.core.skills.sign_errors import of_balance, of_truth
from review.core.skills.wording import DIVIDED, EQUALS, MINUS, PLUS, TIMES, lines, spoken
from review.core.skills.worked import worked

SIGNS = {"+": PLUS, "-": MINUS, "x": TIMES, "/": DIVIDED}
WORKED_OUT: Mapping[str, Callable[[int, int], int]] = {
    "+": lambda a, b: a + b,
    "-": lambda a, b: a - b,
    "x": lambda a, b: a * b,
    "/": lambda a, b: a // b if b and a % b == 0 else -1,
}
LARGEST = 100  # total; our judgement: the sign is what is asked, not the arithmetic
LARGEST_FACTOR = 12


class Side(NamedTuple):
    """An expression of one or two numbers; None is the one left out."""

    numbers: tuple[int | None, ...]
    sign: str = ""

    def value(self) -> int:
        """Of a side that is whole; -1 for a quotient that does not go."""
        first, *rest = [number for number in self.numbers if number is not None]
        return WORKED_OUT[self.sign](first, rest[0]) if rest else first

    def asked(self) -> str:
        return self.sign.join("_" if number is None else str(number) for number in self.numbers)

    def written(self) -> str:
        return f" {SIGNS.get(self.sign, '')} ".join(
            BOX if number is None else str(number) for number in self.numbers
        )

    def parts(self) -> list[int | str]:
        """As it is read aloud."""
        said: list[int | str] = [BOX if number is None else number for number in self.numbers]
        return [said[0], SIGNS[self.sign], said[1]] if len(said) == 2 else said


Statement = tuple[Side, Side]
SIDE = re.compile(r"(\d+|_)(?:([+x/-])(\d+|_))?", re.ASCII)


def _statement(asked: str) -> Statement | None:
    sides = [SIDE.fullmatch(side) for side in asked.split("=")]
    if len(sides) != 2 or not all(sides):
        return None
    left, right = (
        Side(tuple(None if n == "_" else int(n) for n in (found[1], found[3]) if n), found[2] or "")
        for found in sides
        if found
    )
    return left, right


def _asked(statement: Statement) -> str:
    return "=".join(side.asked() for side in statement)


# --- the classes --------------------------------------------------------------------------------------


class Sort(NamedTuple):
    title: str
    seconds: float  # our judgement
    sign: str
    two_sums: bool = False
    turned: bool = False
    open: bool = False  # a number is left out, rather than true or false asked


SORTS: Mapping[str, Sort] = {
    "sum": Sort("sums, true or false", 6.0, "+"),
    "difference": Sort("differences, true or false", 7.0, "-"),
    "product": Sort("products, true or false", 6.0, "x"),
    "quotient": Sort("quotients, true or false", 7.0, "/"),
    "turned": Sort("sums with the total first, true or false", 7.0, "+", turned=True),
    "sides": Sort("sums on both sides, true or false", 10.0, "+", two_sums=True),
    "balance": Sort("a number that makes both sides equal", 12.0, "+", two_sums=True, open=True),
}
PLACES = 4  # of the number left out


class Class(NamedTuple):
    sort: Sort
    low: int
    high: int


def _class(key: str) -> Class:
    name, span = content_of(key).split("/")
    low, high = map(int, span.split(".."))
    return Class(SORTS[name], low, high)


def _slip(sign: str, a: int, b: int, *more: int) -> int:
    """By how much the false partner of a statement is off: always the same for the same numbers."""
    value = more[-1] if more else WORKED_OUT[sign](a, b)
    steps = (1, -1, 2, -2, 10, -10) if value > 10 else (1, -1, 2, -2)  # no ten is mistaken where none is
    slips = (a, -a, b, -b) if sign == "x" else (1, -1) if sign == "/" else steps
    possible = [slip for slip in slips if value + slip > 0]
    return possible[(3 * a + 5 * b + 7 * sum(more)) % len(possible)]


def _first_side(of: Class, random: Random) -> Side:
    """A fact within the numbers of the class. Totals are weighed by how many statements have them."""
    if of.sort.sign in "x/":
        a, b = (random.randint(of.low, of.high) for _ in range(2))
        return Side((a * b, b) if of.sort.sign == "/" else (a, b), of.sort.sign)
    totals = range(of.low, of.high + 1)
    (total,) = random.choices(totals, [(t - 1) ** (2 if of.sort.two_sums else 1) for t in totals])
    a = random.randint(1, total - 1)
    return Side((total, a) if of.sort.sign == "-" else (a, total - a), of.sort.sign)


def draw(key: str, random: Random) -> str:
    of = _class(key)
    left = _first_side(of, random)
    total = left.value()
    if not of.sort.two_sums:
        value = total if random.random() < 0.5 else total + _slip(left.sign, *_pair(left))
        right = Side((value,))
        return _asked((right, left) if of.sort.turned else (left, right))
    c = random.randint(1, total - 1)
    if of.sort.open:
        numbers: list[int | None] = [*left.numbers, c, total - c]
        numbers[random.randrange(PLACES)] = None
        return _asked((Side(tuple(numbers[:2]), "+"), Side(tuple(numbers[2:]), "+")))
    d = total - c if random.random() < 0.5 else total - c + _slip("+", *_pair(left), c, total - c)
    return _asked((left, Side((c, d), "+")))


def _pair(side: Side) -> tuple[int, int]:
    a, b = (number or 0 for number in side.numbers)
    return a, b


# --- whether a statement belongs ----------------------------------------------------------------------


def _within(of: Class, side: Side) -> bool:
    """Whether the full side is a fact of the class."""
    if side.sign != of.sort.sign or len(side.numbers) != 2:
        return False
    a, b = _pair(side)
    if side.sign in "x/":
        pair = (a, b) if side.sign == "x" else (side.value(), b)
        return all(of.low <= number <= of.high for number in pair)
    total = a if side.sign == "-" else a + b
    return of.low <= total <= of.high and a > 0 < b and (side.sign == "+" or b < a)


def _is_member(of: Class, statement: Statement) -> bool:
    left, right = reversed(statement) if of.sort.turned else statement
    if of.sort.open:
        return _is_open_member(of, left, right)
    if None in (*left.numbers, *right.numbers) or not _within(of, left):
        return False
    if not of.sort.two_sums:
        return len(right.numbers) == 1 and right.value() - left.value() in (
            0, _slip(left.sign, *_pair(left)),
        )  # fmt: skip
    if right.sign != "+":
        return False
    c, d = _pair(right)
    due = left.value() - c
    return c > 0 < due and d - due in (0, _slip("+", *_pair(left), c, due))


def _is_open_member(of: Class, left: Side, right: Side) -> bool:
    full, gapped = _full_and_gapped(left, right)
    if not (_within(of, full) and gapped.sign == "+" and gapped.numbers.count(None) == 1):
        return False
    known = sum(number or 0 for number in gapped.numbers)
    return 0 < known < full.value()


def _full_and_gapped(left: Side, right: Side) -> Statement:
    return (right, left) if None in left.numbers else (left, right)


# --- what is shown ------------------------------------------------------------------------------------


def problem(key: str, asked: str) -> Problem:
    of, statement = _class(key), _statement(asked)
    if statement is None or _asked(statement) != asked or not _is_member(of, statement):
        raise ValueError(f"{asked} does not belong to {key}")
    return _balance(key, asked, statement) if of.sort.open else _truth(key, asked, statement)


def _equation(side: Side) -> str:
    return f"{side.written()} {EQUALS} {side.value()}"


def _fact(side: Side) -> str:
    return f"{side.written()} {'leaves' if side.sign == '-' else 'makes'} {side.value()}."


BUILDS = {
    "+": "Lay counters for each side.\nAre there as many?",
    "-": "Lay counters. Take some away.\nAre as many left as it says?",
    "x": "Build the rows. Count them all.",
    "/": "Share out counters in equal rows.",
}


def _truth(key: str, asked: str, statement: Statement) -> Problem:
    left, right = statement
    sums = [side for side in statement if side.sign]
    true = left.value() == right.value()
    sign = EQUALS if true else "<" if left.value() < right.value() else ">"
    steps = [
        *map(_equation, sums),
        f"{left.value()} {sign} {right.value()}",
        "So it is true." if true else "So it is false.",
    ]
    question = "What does each side make?" if len(sums) == 2 else f"What is {sums[0].written()}?"
    helps = (
        Help("question", question),
        Help("build", BUILDS[sums[0].sign]),
        *worked(*steps, at=len(sums) - 1),
    )
    told = [_fact(side) for side in sums]
    if len(sums) == 1 and not true:
        told.append(f"That is not {(right if left.sign else left).value()}.")
    return Problem(
        card=key,
        kind="true-false",
        asked=asked,
        prompt=f"{left.written()} {EQUALS} {right.written()}. True or false?",
        say=f"{spoken(*left.parts(), EQUALS, *right.parts())}: true or false",
        form="truth",
        expected="true" if true else "false",
        told=lines(told),
        helps=helps,
    )


def _balance(key: str, asked: str, statement: Statement) -> Problem:
    left, right = statement
    full, gapped = _full_and_gapped(left, right)
    total, known = full.value(), sum(number or 0 for number in gapped.numbers)
    missing = total - known
    filled = Side(tuple(missing if number is None else number for number in gapped.numbers), "+")
    helps = (
        Help("question", "Which side can you work out?"),
        Help("build", "Lay counters for the full side.\nMake the other side as many."),
        *worked(_equation(full), f"{total} {MINUS} {known} {EQUALS} {missing}"),
    )
    return Problem(
        card=key,
        kind="true-false",
        asked=asked,
        prompt=f"{left.written()} {EQUALS} {right.written()}",
        say=spoken(*left.parts(), EQUALS, *right.parts()),
        form="whole",
        expected=str(missing),
        told=lines([_fact(full), _fact(filled)]),
        helps=helps,
    )


def predict(key: str, asked: str) -> Mapping[str, str]:
    """The equal sign read as "here comes the result"."""
    of, statement = _class(key), _statement(asked)
    if statement is None:
        return {}
    left, right = statement
    if of.sort.open:
        return of_balance(left.numbers, right.numbers)
    usual = not (of.sort.turned or of.sort.two_sums)
    return of_truth(left.value() == right.value(), usual)


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    low, high = wholes(skill, "numbers")
    return (f"true-false:{name}/{low}..{high}" for name in words(skill, "forms"))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    _, high = wholes(skill, "numbers")
    if high > LARGEST_FACTOR and {"product", "quotient"} & set(words(skill, "forms")):
        most = f"factors of products and quotients go to {LARGEST_FACTOR}"
        yield "numbers", most, f"write {LARGEST_FACTOR} at most, or leave those forms out"


def traits(key: str) -> Traits:
    of = _class(key)
    span = f"{of.low} to {of.high}"
    what = f"factors {span}" if of.sort.sign in "x/" else f"from {span}" if of.sort.sign == "-" else span
    groups = frozenset({"balance" if of.sort.open else "true-false"})
    return Traits(
        f"{of.sort.title}, {what}", False, of.sort.seconds, groups, choices=0 if of.sort.open else 2
    )


KINDS: tuple[Kind, ...] = (
    Kind(
        "true-false",
        "the equal sign: is it true, and what makes both sides equal",
        {
            "forms": Option(
                "words", "what the statement looks like; a card each", choices=tuple(SORTS),
                example='["sum", "turned"]',
            ),
            "numbers": Option(
                "range", "the totals of sums, the numbers taken from, the factors of products", None, 2,
                LARGEST, example="[2, 20]",
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
