"""Column products: a number of two to four digits times one digit, or times two.

`3x1/none` are the products where no column hands anything to the next (the last column writes its tens
down), `carry` those where one does, `zero` those with a zero inside the first number, as in 305 × 5. None
ends in zero: such products are done without the zero. `2x2/tens` are times a round ten.
"""

from collections.abc import Iterator
from functools import lru_cache
from random import Random

from review.core.model import Problem, Skill, Traits
from review.core.skills.columns import Class, class_of, empty, helps
from review.core.skills.kinds import Kind, Option
from review.core.skills.layouts import blocks, exchange, in_columns, labels, stacked
from review.core.skills.options import word, words
from review.core.skills.walks import Counted, Letter, State, Walk, counted, digits_of, drawn, number
from review.core.skills.wording import EQUALS, PLUS, TIMES, grouped, in_words, lines

DIGITS = ("2x1", "3x1", "4x1", "2x2", "3x2", "4x2")
CLASSES = ("none", "carry", "zero", "tens")


def _class(key: str) -> Class:
    return class_of(key, "x")


# --- which pairs belong -------------------------------------------------------------------------------

START: State = (0, 0)  # 1: something is handed to this column, 2: something was; zeros inside


def factors(of: Class) -> tuple[int, ...]:
    """The second numbers: not 0 or 1, no zero in them, or round tens."""
    if of.name == "tens":
        return tuple(range(20, 100, 10)) if of.lower == 2 else ()
    if of.lower == 1:
        return tuple(range(2, 10))
    return tuple(factor for factor in range(11, 100) if factor % 10)


def _column(state: State, letter: Letter, factor: int) -> State:
    """What is handed on need not be known: once something was, nothing can undo it, and before that a
    column makes its digit times the factor and no more."""
    handed, zero = state
    (digit,) = letter
    out = 2 if handed else int(any(digit * each >= 10 for each in digits_of(factor)))
    return out, int(zero or digit == 0)


def _ends(of: Class, state: State) -> bool:
    """The last column hands nothing on: 1 after it counts as none."""
    handed, zero = state
    if of.name in ("none", "carry"):
        return not zero and (handed == 2) == (of.name == "carry")
    return zero == (of.name == "zero")


def _columns(upper: int) -> tuple[tuple[Letter, ...], ...]:
    """Ones first; the first and the last digit are not zero."""
    ends = tuple((digit,) for digit in range(1, 10))
    inside = tuple((digit,) for digit in range(10))
    return (ends, *[inside] * (upper - 2), ends)


def _walk(of: Class, factor: int) -> Walk:
    return Walk(
        _columns(of.upper), START, lambda state, letter: _column(state, letter, factor),
        lambda state: _ends(of, state),
    )  # fmt: skip


@lru_cache(maxsize=32)
def parts(key: str) -> tuple[Counted, ...]:
    """The class, counted factor by factor."""
    of = _class(key)
    return tuple(counted(_walk(of, factor), factor) for factor in factors(of))


def asked_of(factor: int, letters: list[Letter]) -> str:
    return f"{number([letter[0] for letter in letters])}x{factor}"


def possible(of: Class) -> bool:
    """Whether any pair belongs."""
    return {"zero": of.upper > 2, "tens": of.lower == 2}.get(of.name, True)


def belongs(of: Class, a: int, b: int) -> bool:
    if len(str(a)) != of.upper or b not in factors(of) or a % 10 == 0:
        return False
    state = START
    for digit in digits_of(a):
        state = _column(state, (digit,), b)
    return _ends(of, state)


def draw(key: str, random: Random) -> str:
    return asked_of(*drawn(parts(key), random))


# --- problems -----------------------------------------------------------------------------------------


def _times(a: int, b: int) -> str:
    return f"{grouped(a)} {TIMES} {grouped(b)} {EQUALS} {grouped(a * b)}"


def by_one_digit(a: int, factor: int) -> Iterator[str]:
    """Each column, ones first, and what moves on."""
    digits = digits_of(a)
    carry, names = 0, labels(len(digits))
    for at, digit in enumerate(digits):
        total = digit * factor + carry
        more = f" {PLUS} {carry}" if carry else ""
        yield f"{names[at]} {digit} {TIMES} {factor}{more} {EQUALS} {total}"
        carry = total // 10
        if carry and at < len(digits) - 1:
            yield exchange(total, at)


def by_two_digits(a: int, b: int) -> Iterator[str]:
    """A row for the ones, a row for the tens, and both together."""
    tens, ones = b // 10 * a * 10, b % 10 * a
    yield from (_times(a, b % 10), _times(a, b // 10 * 10))
    yield f"{grouped(ones)} {PLUS} {grouped(tens)} {EQUALS} {grouped(a * b)}"


def by_tens(a: int, b: int) -> Iterator[str]:
    """By the digit of the tens, then ten times that."""
    yield from by_one_digit(a, b // 10)
    yield _times(a, b // 10)
    yield _times(a * (b // 10), 10)


def steps(of: Class, a: int, b: int) -> Iterator[str]:
    if of.lower == 1:
        return by_one_digit(a, b)
    return by_tens(a, b) if of.name == "tens" else by_two_digits(a, b)


def _laid_out(of: Class, a: int, b: int) -> tuple[str, ...]:
    """With a row for each digit of the second number, but where that is whole tens."""
    rows = (("", a * (b % 10)), (PLUS, a * (b // 10) * 10), None)
    both = of.lower == 2 and of.name != "tens"
    return stacked(("", a), (TIMES, b), None, *(rows if both else ()), ("", a * b))


QUESTIONS = {1: "Which column comes first?", 2: "Which two products do you need?"}


def _question(of: Class) -> str:
    if of.name == "tens":
        return "What is it times the tens digit?"
    return "What does zero times a number make?" if of.name == "zero" else QUESTIONS[of.lower]


def _build(of: Class, a: int, b: int) -> str:
    if of.lower == 1:
        often = f"Lay it out {in_words(b)} times."
        return lines(
            [f"Build {grouped(a)} with {blocks(of.upper)}.", often, "Ten of one kind: swap for one."]
        )
    table = "Draw a rectangle, split in parts." if of.name != "tens" else "Draw a rectangle of rows of ten."
    return lines([table, "Each part is one product."])


def problem(key: str, asked: str) -> Problem:
    a, b = map(int, asked.split("x"))
    of = _class(key)
    if not belongs(of, a, b):
        raise ValueError(f"{asked} does not belong to {key}")
    help = helps(_question(of), _build(of, a, b), steps(of, a, b), _laid_out(of, a, b))
    return in_columns(key, asked, (a, TIMES, b), "makes", a * b, help)


def predict(key: str, asked: str) -> dict[str, str]:
    from review.core.skills.column_errors import product_errors  # only what names errors pays for it

    a, b = map(int, asked.split("x"))
    return product_errors(a, b)


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    return (f"column-product:{word(skill, 'digits')}/{name}" for name in words(skill, "classes"))


TITLES = {
    "none": "without carrying",
    "carry": "with carrying",
    "zero": "with a zero inside",
    "tens": "by whole tens",
}


def _called(of: Class) -> str:
    return f"{of.upper}-digit × {of.lower}-digit in columns, {TITLES[of.name]}"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for key in keys(skill):
        of = _class(key)
        if not possible(of):
            yield empty(_called(of), of.name)


def traits(key: str) -> Traits:
    """Seconds are our judgement: 8 for each product of two digits, 4 for each carry there may be, 6 a column
    to add the rows, 6 to read and to type. Work of more than a minute is for paper."""
    of = _class(key)
    rows = 1 if of.name == "tens" else of.lower
    carries = 0 if of.name == "none" else rows * (of.upper - 1)
    adding = 6.0 * (of.upper + 1) if rows == 2 else 0.0
    seconds = 6.0 + 8.0 * rows * of.upper + 4.0 * carries + adding
    groups = frozenset({f"procedure-{key}", "column-product"})
    return Traits(_called(of), False, seconds, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "column-product",
        "products on paper, by one digit or by two",
        {
            "digits": Option(
                "word", "how many digits the two numbers have", choices=DIGITS, example='"3x1"'
            ),
            "classes": Option(
                "words", "whether columns carry, a zero is inside, or the second is whole tens; a card each",
                choices=CLASSES, example='["none", "carry"]',
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
