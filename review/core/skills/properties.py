"""What kind of number it is: odd or even, its factors, multiples, primes, squares and cubes.

A class of `odd-even` or `factors` is every number of its range. Of `prime` and `multiple-7` there are two
halves, yes and no, each drawn half of the time, because a class with nine noes out of ten would be guessed:
`no` for a multiple are the numbers next to one, for a prime every other number. Squares and cubes are facts,
a card each.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from math import isqrt
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import BOX, Help, Problem, Skill, Traits
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import wholes, word
from review.core.skills.tasks import Shown
from review.core.skills.wording import EQUALS, PLUS, TIMES, grouped, in_words, lines
from review.core.skills.worked import worked

LARGEST = 1000  # of odd-even and multiple (our judgement)
# Primes and factors as far as the standards go; squares and cubes as far as they are learned by heart
# (common practice, no source).
BOUNDS = {
    "odd-even": (0, LARGEST),
    "multiple": (1, LARGEST),
    "factors": (1, 100),
    "prime": (1, 100),
    "square": (1, 12),
    "cube": (1, 10),
}
FACTS = ("square", "cube")
ONE_OF_TWO = ("odd-even", "multiple", "prime")


class Class(NamedTuple):
    what: str
    of: int  # the 7 of multiple-7; 0 elsewhere
    low: int
    high: int

    @property
    def numbers(self) -> range:
        return range(self.low, self.high + 1)


def _class(key: str) -> Class:
    what, span = content_of(key).split("/")
    name, _, step = what.rpartition("-") if what.startswith("multiple-") else (what, "", "0")
    low, _, high = span.partition("..")
    return Class(name, int(step), int(low), int(high))


def _key(of: Class) -> str:
    return f"number-property:{of.what}{f'-{of.of}' if of.of else ''}/{of.low}..{of.high}"


# --- numbers ------------------------------------------------------------------------------------------


def factors(number: int) -> list[int]:
    return [factor for factor in range(1, number + 1) if number % factor == 0]


def is_prime(number: int) -> bool:
    return number > 1 and all(number % factor for factor in range(2, isqrt(number) + 1))


def _pairs(number: int) -> list[tuple[int, int]]:
    """The factor pairs, each once: 12 -> 1 × 12, 2 × 6, 3 × 4."""
    return [(factor, number // factor) for factor in range(1, isqrt(number) + 1) if number % factor == 0]


# --- which numbers belong -----------------------------------------------------------------------------


@lru_cache(maxsize=256)
def halves(key: str) -> tuple[tuple[int, ...], ...]:
    """The members of a class: all together, or those of yes and those of no."""
    of = _class(key)
    if of.what == "prime":
        primes = tuple(filter(is_prime, of.numbers))
        return primes, tuple(number for number in of.numbers if number not in primes)
    if of.what == "multiple":
        near = (number for number in of.numbers if {number % of.of} & {1, of.of - 1})
        return tuple(number for number in of.numbers if number % of.of == 0), tuple(near)
    return (tuple(of.numbers),)


def draw(key: str, random: Random) -> str:
    return str(random.choice(random.choice([half for half in halves(key) if half])))


# --- what is shown ------------------------------------------------------------------------------------


def _odd_even(of: Class, number: int) -> Shown:
    name = "odd" if number % 2 else "even"
    return Shown(
        f"{grouped(number)}: odd or even?",
        f"Is {in_words(number)} odd or even?",
        name,
        f"{grouped(number)} is {name}.",
        (
            Help("question", "Look at the ones.\nCan they be shared in pairs?"),
            Help("build", "Lay the ones out in pairs."),
            *_blank_then_steps(*_pairs_of_ones(number % 10), so=f"So it is {name}."),
        ),
        form="odd-even",
    )


def _pairs_of_ones(ones: int) -> tuple[str, str]:
    """The ones as two equal parts, one over or not; the last text is what is held back."""
    half, rest = divmod(ones, 2)
    return f"ones: {ones} {EQUALS} {half} {PLUS} {half}" + (f" {PLUS} {rest}" if rest else ""), str(half)


def _blank_then_steps(*steps: str, so: str) -> tuple[Help, Help]:
    """The last text is what is held back in the line before it; `so` is what follows from the steps."""
    *before, last, held = steps
    left, _, right = f"{last} ".rpartition(f" {held} ")
    blank = f"{left} {BOX} {right}".rstrip()
    return Help("blank", lines([*before, blank])), Help("steps", lines([*before, last, so]))


def _factors(of: Class, number: int) -> Shown:
    pairs = _pairs(number)
    found = " ".join(map(str, factors(number)))
    told = f"Factors of {number}:\n{found}." if number > 1 else "1 has one factor: 1."
    steps = [f"{a} {TIMES} {b} {EQUALS} {number}" for a, b in pairs]
    first, last = f"{pairs[-1][0]} {TIMES} {BOX} {EQUALS} {number}", steps[-1]
    return Shown(
        f"Factors of {number}:",
        f"What are all the factors of {in_words(number)}?",
        found,
        told,
        (
            Help("question", "Which pairs multiply to make it?"),
            Help("build", "Lay rectangles with that many counters."),
            Help("blank", lines([*steps[:-1], first])),
            Help("steps", lines([*steps[:-1], last])),
        ),
        form="numbers",
    )


def _rest_line(number: int, divisor: int) -> str:
    """How often the divisor goes in, and what is over: 50 = 7 × 7 + 1."""
    times, rest = divmod(number, divisor)
    return f"{grouped(number)} {EQUALS} {grouped(times)} {TIMES} {divisor}" + (
        f" {PLUS} {rest}" if rest else ""
    )


def _multiple(of: Class, number: int) -> Shown:
    times, rest = divmod(number, of.of)
    line = _rest_line(number, of.of)
    return Shown(
        f"Is {grouped(number)} a multiple of {of.of}?",
        f"Is {in_words(number)} a multiple of {in_words(of.of)}?",
        "no" if rest else "yes",
        f"{'No' if rest else 'Yes'}: {line}.",
        (
            Help("question", "Which multiples are near it?"),
            Help("build", "Lay rows of counters.\nIs the last row full?"),
            *_blank_then_steps(line, grouped(times), so=f"So: {'no' if rest else 'yes'}."),
        ),
        form="yes-no",
    )


def _prime_steps(number: int) -> tuple[str, ...]:
    """A prime leaves something over for each small prime; another number has a pair of factors. The last
    text is what is held back in the line before it."""
    if number > 3 and is_prime(number):
        small = [prime for prime in (2, 3, 5, 7) if prime * prime < number]
        return (*(_rest_line(number, prime) for prime in small), str(number // small[-1]))
    smallest = next((factor for factor in factors(number)[1:-1]), 1)
    return f"{smallest} {TIMES} {number // smallest} {EQUALS} {number}", str(number // smallest)


def _prime(of: Class, number: int) -> Shown:
    yes = is_prime(number)
    *steps, _ = _prime_steps(number)
    why = steps[0] if number > 1 else "it has one factor"
    return Shown(
        f"Is {number} a prime number?",
        f"Is {in_words(number)} a prime number?",
        "yes" if yes else "no",
        f"{number} is prime." if yes else f"{number} is not prime: {why}.",
        (
            Help("question", "How many factors does it have?\nA prime has exactly two."),
            Help("build", "Lay that many counters.\nTry to make a rectangle of rows."),
            *_blank_then_steps(*_prime_steps(number), so=f"So: {'yes' if yes else 'no'}."),
        ),
        form="yes-no",
    )


def _product_steps(number: int, other: int) -> tuple[str, ...]:
    """Five or ten groups of the other number first, then the rest."""
    known = 10 if number > 10 else 5
    line = f"{number} {TIMES} {other} {EQUALS} {number * other}"
    if number in (*range(6), 10):
        return (line,)
    rest = number - known
    return (
        f"{known} {TIMES} {other} {EQUALS} {known * other}",
        f"{rest} {TIMES} {other} {EQUALS} {rest * other}",
        f"{known * other} {PLUS} {rest * other} {EQUALS} {number * other}",
    )


def _square(of: Class, number: int) -> Shown:
    question = f"What do {number} rows of {number} make?" if number > 1 else "What does one row of one make?"
    return Shown(
        f"{number} squared is",
        f"What is {in_words(number)} squared?",
        str(number**2),
        f"{number} squared is {number**2}.",
        (
            Help("question", question),
            Help("build", "Lay a square of counters."),
            *worked(*_product_steps(number, number)),
        ),
    )


def _cube(of: Class, number: int) -> Shown:
    square = number**2
    steps: tuple[str, ...] = (
        f"{number} {TIMES} {number} {EQUALS} {square}",
        f"{square} {TIMES} {number} {EQUALS} {grouped(number**3)}",
    )
    if number == 1:  # both lines would be the same
        steps = (f"1 {TIMES} 1 {TIMES} 1 {EQUALS} 1",)
    return Shown(
        f"{number} cubed is",
        f"What is {in_words(number)} cubed?",
        str(number**3),
        f"{number} cubed is {grouped(number**3)}.",
        (
            Help("question", f"What is {number} squared?\nHow many layers are there?"),
            Help("build", "Build a cube of blocks.\nCount one layer, then the layers."),
            *worked(*steps),
        ),
    )


SHOWN: Mapping[str, Callable[[Class, int], Shown]] = {
    "odd-even": _odd_even,
    "multiple": _multiple,
    "factors": _factors,
    "prime": _prime,
    "square": _square,
    "cube": _cube,
}


def problem(key: str, asked: str) -> Problem:
    number = int(asked)
    if str(number) != asked or not any(number in half for half in halves(key)):
        raise ValueError(f"{asked} does not belong to {key}")
    of = _class(key)
    return SHOWN[of.what](of, number).problem(key, asked)


def predict(key: str, asked: str) -> Mapping[str, str]:
    """Of squares and cubes, whose slips are those of products: added instead. From memory."""
    what, number = _class(key).what, int(asked)
    times = {"square": 2, "cube": 3}.get(what, 0)
    return {"added": str(times * number)} if times and number**times != times * number else {}


# --- the kind -----------------------------------------------------------------------------------------


def _classes(skill: Skill) -> Iterator[Class]:
    what, (low, high) = word(skill, "what"), wholes(skill, "range")
    if what in FACTS:
        yield from (Class(what, 0, number, number) for number in range(low, high + 1))
    elif what == "multiple":
        yield from (Class(what, step, low, high) for step in wholes(skill, "of"))
    else:
        yield Class(what, 0, low, high)


def keys(skill: Skill) -> Iterator[str]:
    return map(_key, _classes(skill))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    what, (low, high) = word(skill, "what"), wholes(skill, "range")
    least, most = BOUNDS[what]
    if low < least or high > most:
        yield "range", f"{low:,} to {high:,} is outside what fits here", f"write from {least} to {most:,}"
    elif what == "multiple":
        if not wholes(skill, "of"):
            yield "of", "it does not say whose multiples", "write of = [3, 4]"
        for of in _classes(skill):
            if not all(halves(_key(of))):
                wrong = f"{low:,} to {high:,} has no multiple of {of.of}, or no other number"
                yield "range", wrong, f"write [1, {of.of * 12}]"
    elif what == "prime" and not all(halves(_key(Class(what, 0, low, high)))):
        yield "range", f"{low} to {high} has no prime, or no other number", "write [1, 20]"


TITLES = {
    "odd-even": "odd or even, {low} to {high}",
    "multiple": "multiples of {of}, {low} to {high}",
    "factors": "all factors of a number, {low} to {high}",
    "prime": "prime or not, {low} to {high}",
    "square": "{low} squared",
    "cube": "{low} cubed",
}
SECONDS = {"odd-even": 4.0, "multiple": 7.0, "prime": 10.0, "square": 4.0, "cube": 10.0}  # our judgement


def _seconds(of: Class) -> float:
    """Our judgement: finding all factors takes longer, the more there are."""
    return SECONDS.get(of.what, 12.0 if of.high <= 30 else 28.0)


def traits(key: str) -> Traits:
    of = _class(key)
    title = TITLES[of.what].format(of=of.of, low=grouped(of.low), high=grouped(of.high))
    groups = {f"procedure-{key}", f"property-{of.what}"}
    if of.what not in FACTS:
        choices = 2 if of.what in ONE_OF_TWO else 0
        return Traits(title, False, _seconds(of), frozenset(groups), choices=choices)
    answer = of.low ** (2 if of.what == "square" else 3)
    return Traits(title, True, _seconds(of), frozenset(groups | {f"answer-{answer}"}), *_partner(of))


def _partner(of: Class) -> tuple[str, str]:
    """Family and partner: a square waits for its product, a cube for its square."""
    number = of.low
    if number == 1:
        return "", ""
    if of.what == "square":
        return f"{number}x{number}={number**2}", f"product:{number}x{number}"
    return f"cube-{number}", f"number-property:square/{number}..{number}"


KINDS: tuple[Kind, ...] = (
    Kind(
        "number-property",
        "odd or even, factors, multiples, primes, squares and cubes",
        {
            "what": Option("word", "what is asked", choices=tuple(SHOWN), example='"odd-even"'),
            "range": Option("range", "which numbers are asked about", low=0, high=LARGEST, example="[1, 20]"),
            "of": Option(
                "wholes", "whose multiples, a card each; only for multiple", default=(), low=2, high=100,
                example="[3, 4, 6]",
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
