"""Column sums: two numbers one below the other, by how many columns pass ten.

`3+3/2` are all sums of two three-digit numbers where exactly two columns pass ten, the first column among
them; `3+3/2-within` those whose total has no digit more; `zero` those where a ten is carried to a column with
a zero in it, which is where carried tens get lost.
"""

from collections.abc import Iterator
from functools import lru_cache, reduce
from random import Random
from typing import NamedTuple

from review.core.model import Problem, Skill, Traits
from review.core.skills.columns import class_of, empty, helps
from review.core.skills.kinds import Kind, Option
from review.core.skills.layouts import blocks, exchange, in_columns, labels, stacked
from review.core.skills.options import word, words, yes
from review.core.skills.walks import (
    Counted,
    Letter,
    State,
    Walk,
    counted,
    digits_of,
    drawn,
    letters_of,
    two_numbers,
    two_rows,
)
from review.core.skills.wording import EQUALS, PLUS, lines

DIGITS = ("2+1", "2+2", "3+1", "3+2", "3+3", "4+2", "4+3", "4+4")
CLASSES = ("0", "1", "2", "3", "4", "zero")


class Class(NamedTuple):
    upper: int  # how many digits
    lower: int
    name: str
    within: bool  # the total has as many digits as the longer number


def _class(key: str) -> Class:
    upper, lower, name = class_of(key, "+")
    return Class(upper, lower, name.removesuffix("-within"), name.endswith("-within"))


# --- which pairs belong -------------------------------------------------------------------------------

START: State = (0, 0, 0)  # carried to this column, columns that passed ten, a ten was carried to a zero


def _column(state: State, letter: Letter) -> State:
    carry, passed, zero = state
    out = int(sum(letter) + carry >= 10)
    return out, passed + out, int(zero or (carry and 0 in letter))


def _ends(of: Class, state: State) -> bool:
    carry, passed, zero = state
    fits = zero == 1 if of.name == "zero" else passed == int(of.name)
    return fits and not (of.within and carry)


def _walk(of: Class) -> Walk:
    return Walk(two_rows(of.upper, of.lower), START, _column, lambda state: _ends(of, state))


@lru_cache(maxsize=64)
def parts(key: str) -> tuple[Counted, ...]:
    """The class, counted."""
    return (counted(_walk(_class(key))),)


def asked_of(label: int, letters: list[Letter]) -> str:
    upper, lower = two_numbers(letters)
    return f"{upper}+{lower}"


def possible(of: Class) -> bool:
    """Whether any pair belongs."""
    if of.name == "zero":
        return of.upper > 2
    return int(of.name) <= of.upper - of.within


def belongs(of: Class, a: int, b: int) -> bool:
    if (len(str(a)), len(str(b))) != (of.upper, of.lower):
        return False
    return _ends(of, reduce(_column, letters_of(a, b), START))


def draw(key: str, random: Random) -> str:
    return asked_of(*drawn(parts(key), random))


# --- problems -----------------------------------------------------------------------------------------


def steps(a: int, b: int) -> Iterator[str]:
    """Each column, ones first, and each ten that moves on."""
    upper, lower = digits_of(a), digits_of(b)
    carry, names = 0, labels(len(upper))
    for at, digit in enumerate(upper):
        terms = [digit, *lower[at : at + 1], *([1] if carry else [])]
        total = sum(terms)
        shown = terms if len(terms) > 1 else [digit, 0]
        yield f"{names[at]} {f' {PLUS} '.join(map(str, shown))} {EQUALS} {total}"
        carry = total // 10
        if carry and at < len(upper) - 1:
            yield exchange(total, at)


def _question(a: int, b: int) -> str:
    return "Do the ones make a ten?" if a % 10 + b % 10 >= 10 else "Which column comes first?"


def _build(a: int, regroups: bool) -> str:
    return lines(
        [f"Build both with {blocks(len(str(a)))}.", "Ten of one kind: swap for one." if regroups else ""]
    )


def problem(key: str, asked: str) -> Problem:
    a, b = map(int, asked.split("+"))
    of = _class(key)
    if not belongs(of, a, b):
        raise ValueError(f"{asked} does not belong to {key}")
    total = a + b
    layout = stacked(("", a), (PLUS, b), None, ("", total))
    help = helps(_question(a, b), _build(a, of.name != "0"), steps(a, b), layout)
    return in_columns(key, asked, (a, PLUS, b), "makes", total, help)


def predict(key: str, asked: str) -> dict[str, str]:
    from review.core.skills.column_errors import sum_errors  # only what names errors pays for it

    a, b = map(int, asked.split("+"))
    return sum_errors(a, b)


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    within = "-within" if yes(skill, "within") else ""
    return (f"column-sum:{word(skill, 'digits')}/{name}{within}" for name in words(skill, "classes"))


TITLES = {
    "0": "without regrouping",
    "1": "regroup once",
    "2": "regroup twice",
    "3": "regroup three times",
    "4": "regroup four times",
    "zero": "regroup to a zero",
}


def _called(of: Class) -> str:
    return f"{of.upper}-digit + {of.lower}-digit in columns, {TITLES[of.name]}"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for key in keys(skill):
        of = _class(key)
        if not possible(of):
            why = " and keep the number of digits" if of.within else ""
            yield empty(_called(of), of.name, why)


def traits(key: str) -> Traits:
    """Seconds are our judgement: 5 a column, 4 for each ten that moves on, 6 to read and to type."""
    of = _class(key)
    regroups = 2 if of.name == "zero" else int(of.name)
    groups = frozenset({f"procedure-{key}", "column-sum"} | ({"column-regroup"} if regroups else set()))
    seconds = 6.0 + 5.0 * of.upper + 4.0 * regroups
    total = "" if of.within or of.name == str(of.upper) else ", any total"
    return Traits(_called(of) + total, False, seconds, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "column-sum",
        "sums on paper, ones below ones, by how many columns regroup",
        {
            "digits": Option(
                "word", "how many digits the two numbers have", choices=DIGITS, example='"3+3"'
            ),
            "classes": Option(
                "words", "how many columns pass ten, or that a ten goes to a zero; a card each",
                choices=CLASSES, example='["0", "1", "zero"]',
            ),
            "within": Option(
                "yes-no", "only totals with no more digits than the longer number", False, example="true"
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
