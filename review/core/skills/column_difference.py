"""Column differences: by how many columns need an exchange, and whether it has to cross a zero.

`3-3/1` are all differences of two three-digit numbers, the second smaller, with one exchange and none across
a zero; `zero` those where an exchange has to reach past a zero, as in 904 − 237; `zeros` past two zeros in a
row, as in 9,004 − 237.
"""

from collections.abc import Iterator
from functools import lru_cache, reduce
from random import Random

from review.core.model import Problem, Skill, Traits
from review.core.skills.columns import Class, class_of, empty, helps
from review.core.skills.kinds import Kind, Option
from review.core.skills.layouts import blocks, in_columns, labels, opened, stacked, units
from review.core.skills.options import word, words
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
from review.core.skills.wording import EQUALS, MINUS, grouped, lines

DIGITS = ("2-1", "2-2", "3-1", "3-2", "3-3", "4-2", "4-3", "4-4")
CLASSES = ("0", "1", "2", "3", "zero", "zeros")


def _class(key: str) -> Class:
    return class_of(key, "-")


# --- which pairs belong -------------------------------------------------------------------------------

START: State = (0, 0, 0, 0, 0)
"""Lent from this column, exchanges, zeros crossed one after another up to here, the most of them anywhere,
whether the two numbers differ."""


def _column(state: State, letter: Letter) -> State:
    lent, exchanges, run, longest, differs = state
    upper, lower = letter if len(letter) == 2 else (letter[0], 0)
    short = int(upper - lent < lower)
    run = run + 1 if lent and upper == 0 else 0
    return short, exchanges + short, run, max(longest, run), int(differs or upper != lower)


def _ends(of: Class, state: State) -> bool:
    lent, exchanges, _, longest, differs = state
    crossed = {"zero": longest == 1, "zeros": longest >= 2}
    fits = crossed[of.name] if of.name in crossed else longest == 0 and exchanges == int(of.name)
    return bool(fits and differs and not lent)


def _walk(of: Class) -> Walk:
    return Walk(two_rows(of.upper, of.lower), START, _column, lambda state: _ends(of, state))


@lru_cache(maxsize=64)
def parts(key: str) -> tuple[Counted, ...]:
    """The class, counted."""
    return (counted(_walk(_class(key))),)


def asked_of(label: int, letters: list[Letter]) -> str:
    upper, lower = two_numbers(letters)
    return f"{upper}-{lower}"


def possible(of: Class) -> bool:
    """Whether any pair belongs. Without a zero to cross, a column lacks only where there is a digit below."""
    if of.name in ("zero", "zeros"):
        return of.upper > (2 if of.name == "zero" else 3)
    return int(of.name) <= min(of.lower, of.upper - 1)


def belongs(of: Class, a: int, b: int) -> bool:
    if (len(str(a)), len(str(b))) != (of.upper, of.lower):
        return False
    return _ends(of, reduce(_column, letters_of(a, b), START))


def draw(key: str, random: Random) -> str:
    return asked_of(*drawn(parts(key), random))


# --- problems -----------------------------------------------------------------------------------------


def _lend(upper: list[int], at: int) -> Iterator[str]:
    """Ten for a column that lacks, from the nearest that has any; each exchange is a line."""
    source = next(place for place in range(at + 1, len(upper)) if upper[place])
    for place in range(source, at, -1):
        upper[place] -= 1
        upper[place - 1] += 10
        yield opened(place)


def steps(a: int, b: int) -> Iterator[str]:
    """Each column, ones first, and each exchange before the column that needs it."""
    upper = digits_of(a)
    lower = digits_of(b, len(upper))
    names = labels(len(upper))
    for at, taken in enumerate(lower):
        if upper[at] < taken:
            yield f"{units(upper[at], at)} {'is' if upper[at] == 1 else 'are'} not enough."
            yield from _lend(upper, at)
        yield f"{names[at]} {upper[at]} {MINUS} {taken} {EQUALS} {upper[at] - taken}"


def _question(of: Class, a: int, b: int) -> str:
    if of.name in ("zero", "zeros"):
        return "Where can the next ten come from?"
    return "Are there enough ones?" if a % 10 < b % 10 else "Which column comes first?"


def _build(a: int, exchanges: bool) -> str:
    return lines(
        [
            f"Build {grouped(a)} with {blocks(len(str(a)))}.",
            "Too few? Open one for ten." if exchanges else "Take from the ones first.",
        ]
    )


def problem(key: str, asked: str) -> Problem:
    a, b = map(int, asked.split("-"))
    of = _class(key)
    if not belongs(of, a, b):
        raise ValueError(f"{asked} does not belong to {key}")
    left = a - b
    layout = stacked(("", a), (MINUS, b), None, ("", left))
    help = helps(_question(of, a, b), _build(a, of.name != "0"), steps(a, b), layout)
    return in_columns(key, asked, (a, MINUS, b), "leaves", left, help)


def predict(key: str, asked: str) -> dict[str, str]:
    from review.core.skills.column_errors import difference_errors  # only what names errors pays for it

    a, b = map(int, asked.split("-"))
    return difference_errors(a, b)


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    return (f"column-difference:{word(skill, 'digits')}/{name}" for name in words(skill, "classes"))


TITLES = {
    "0": "without an exchange",
    "1": "one exchange",
    "2": "two exchanges",
    "3": "three exchanges",
    "zero": "exchange across a zero",
    "zeros": "exchange across two zeros",
}
EXCHANGES = {"zero": 2, "zeros": 3}  # at least
ACROSS = 8.0  # seconds more for each zero crossed; our judgement


def _called(of: Class) -> str:
    return f"{of.upper}-digit − {of.lower}-digit in columns, {TITLES[of.name]}"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for key in keys(skill):
        of = _class(key)
        if not possible(of):
            yield empty(_called(of), of.name)


def traits(key: str) -> Traits:
    """Seconds are our judgement: 6 a column, 7 for each exchange, 6 to read and to type."""
    of = _class(key)
    exchanges = EXCHANGES[of.name] if of.name in EXCHANGES else int(of.name)
    crossed = {"zero": 1, "zeros": 2}.get(of.name, 0)
    groups = frozenset(
        {f"procedure-{key}", "column-difference"} | ({"column-regroup"} if exchanges else set())
    )
    seconds = 6.0 + 6.0 * of.upper + 7.0 * exchanges + ACROSS * crossed
    return Traits(_called(of), False, seconds, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "column-difference",
        "differences on paper, ones below ones, by how many columns need an exchange",
        {
            "digits": Option(
                "word", "how many digits the two numbers have", choices=DIGITS, example='"3-3"'
            ),
            "classes": Option(
                "words", "how many exchanges, or that one crosses a zero, or two zeros; a card each",
                choices=CLASSES, example='["0", "1", "zero"]',
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
