"""Written division by one digit, from the left, with what is left over.

The quotient has two digits at least: below that it is a fact. `3/1/shared` are the divisions where every
digit of the number can be shared by itself (693 ÷ 3); `exact` those that need an exchange and leave nothing;
`remainder` those that leave something; `zero` and `zero-remainder` those with a zero in the quotient, where
a digit of it gets lost.
"""

from collections.abc import Iterator
from functools import lru_cache
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Problem, Skill, Traits
from review.core.pictures import Lines
from review.core.skills.columns import helps
from review.core.skills.kinds import Kind, Option
from review.core.skills.layouts import blocks, labels, spaced, units, with_remainder
from review.core.skills.options import whole, words
from review.core.skills.walks import Counted, Letter, State, Walk, counted, digits_of, drawn, number
from review.core.skills.wording import DIVIDED, EQUALS, PLUS, TIMES, grouped, in_words, lines, several, spoken

DIVISORS = range(2, 10)
CLASSES = ("shared", "exact", "remainder", "zero", "zero-remainder")


class Class(NamedTuple):
    digits: int
    name: str


def _class(key: str) -> Class:
    digits, _, name = content_of(key).split("/")
    return Class(int(digits), name)


# --- which pairs belong -------------------------------------------------------------------------------

START: State = (0, 0, 0, 0)
"""Left over so far, whether any of it was exchanged, digits of the quotient (2: two or more), whether one of
them is zero."""


def _column(state: State, letter: Letter, divisor: int) -> State:
    left, exchanged, many, zero = state
    (digit,) = letter
    quotient, remainder = divmod(10 * left + digit, divisor)
    begun = many or quotient > 0
    return remainder, int(exchanged or left > 0), min(2, many + begun), int(zero or (many and quotient == 0))


def _ends(of: Class, state: State) -> bool:
    left, exchanged, many, zero = state
    if many < 2 or zero != of.name.startswith("zero") or (left > 0) != of.name.endswith("remainder"):
        return False
    return {"shared": not exchanged, "exact": exchanged == 1}.get(of.name, True)


def _walk(of: Class, divisor: int) -> Walk:
    first = tuple((digit,) for digit in range(1, 10))
    others = tuple((digit,) for digit in range(10))
    return Walk(
        (first, *[others] * (of.digits - 1)), START, lambda state, letter: _column(state, letter, divisor),
        lambda state: _ends(of, state),
    )  # fmt: skip


@lru_cache(maxsize=32)
def parts(key: str) -> tuple[Counted, ...]:
    """The class, counted divisor by divisor."""
    of = _class(key)
    return tuple(counted(_walk(of, divisor), divisor) for divisor in DIVISORS)


def asked_of(divisor: int, letters: list[Letter]) -> str:
    return f"{number([letter[0] for letter in reversed(letters)])}/{divisor}"


def belongs(of: Class, a: int, b: int) -> bool:
    if len(str(a)) != of.digits or b not in DIVISORS:
        return False
    state = START
    for digit in reversed(digits_of(a)):
        state = _column(state, (digit,), b)
    return _ends(of, state)


def draw(key: str, random: Random) -> str:
    return asked_of(*drawn(parts(key), random))


# --- problems -----------------------------------------------------------------------------------------


def steps(a: int, b: int) -> Iterator[str]:
    """From the left: what there is in a column, with what was exchanged into it, as so many times the
    divisor and what is left."""
    digits = digits_of(a)
    names, left = labels(len(digits)), 0
    for at in range(len(digits) - 1, -1, -1):
        here = 10 * left + digits[at]
        if left:
            both = f"{units(left, at + 1)} {PLUS} {units(digits[at], at)}"
            yield f"{both} {EQUALS} {units(here, at)}"
        if here < b and at == len(digits) - 1:
            left = here
            continue
        quotient, left = divmod(here, b)
        more = f" {PLUS} {left}" if left else ""
        yield f"{names[at]} {here} {EQUALS} {b} {TIMES} {quotient}{more}"


def _laid_out(a: int, b: int, answer: str = "") -> tuple[str, ...]:
    """The divisor before the number, the quotient above it, ones above ones."""
    below = f"{b} ) {spaced(a)}"
    digits, *remainder = answer.split(" ", 1)
    above = " ".join([spaced(digits).rjust(len(below)), *remainder])
    line = " " * 4 + "-" * (len(below) - 4)
    return ((above,) if answer else ()) + (line, below)


def _question(of: Class, a: int, b: int) -> str:
    if of.name.startswith("zero"):
        return "Which place gets a zero?"
    if int(str(a)[0]) < b:
        return "Is the first digit large enough?"
    return f"How many {several(b)} fit? Start left."


def _build(of: Class, a: int, b: int) -> str:
    swap = "" if of.name == "shared" else "What is left: open each for ten."
    return lines(
        [f"Build {grouped(a)} with {blocks(of.digits)}.", f"Share it into {in_words(b)} equal rows.", swap]
    )


def _told(a: int, b: int) -> str:
    quotient, left = divmod(a, b)
    remains = f", remainder {left}" if left else ""
    return f"{grouped(a)} {DIVIDED} {b} makes {grouped(quotient)}{remains}."


def problem(key: str, asked: str) -> Problem:
    a, b = map(int, asked.split("/"))
    of = _class(key)
    if not belongs(of, a, b):
        raise ValueError(f"{asked} does not belong to {key}")
    answer = with_remainder(*divmod(a, b))
    help = helps(_question(of, a, b), _build(of, a, b), steps(a, b), _laid_out(a, b, answer))
    prompt = f"{grouped(a)} {DIVIDED} {b} {EQUALS}"
    return Problem(
        key, "division-written", asked, prompt, spoken(a, DIVIDED, b), "remainder", answer, _told(a, b),
        help, picture=Lines(_laid_out(a, b)),
    )  # fmt: skip


def predict(key: str, asked: str) -> dict[str, str]:
    from review.core.skills.column_errors import quotient_errors  # only what names errors pays for it

    a, b = map(int, asked.split("/"))
    return quotient_errors(a, b)


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    return (f"division-written:{whole(skill, 'digits')}/1/{name}" for name in words(skill, "classes"))


TITLES = {
    "shared": "each digit can be shared",
    "exact": "nothing left over",
    "remainder": "a remainder",
    "zero": "a zero in the answer",
    "zero-remainder": "a zero and a remainder",
}


def traits(key: str) -> Traits:
    """Seconds are our judgement: 11 a digit, 4 for each exchange there may be, 6 to read and to type, 3 more
    for a remainder. Work of more than a minute is for paper."""
    of = _class(key)
    exchanges = 0 if of.name == "shared" else of.digits - 1
    seconds = 6.0 + 11.0 * of.digits + 4.0 * exchanges + 3.0 * of.name.endswith("remainder")
    groups = frozenset({f"procedure-{key}", "division-written"})
    return Traits(f"{of.digits}-digit ÷ 1-digit on paper, {TITLES[of.name]}", False, seconds, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "division-written",
        "division on paper by one digit",
        {
            "digits": Option(
                "whole", "how many digits the number to divide has", low=2, high=4, example="3"
            ),
            "classes": Option(
                "words", "what it asks for: exchanges, a remainder, a zero in the answer; a card each",
                choices=CLASSES, example='["shared", "exact", "remainder"]',
            ),
        },
        keys, traits, draw, problem, predict=predict,
    ),
)  # fmt: skip
