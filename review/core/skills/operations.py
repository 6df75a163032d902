"""Order of operations and brackets, and estimates from rounded numbers.

The sizes of a class of `operations` are the least and the greatest number in it, but what a product is taken
from may be as great as any product of them; of `estimate` the place the numbers are rounded to. No step of a
problem comes to zero or below, and every division comes out even.
"""

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from review.core.model import Help, Skill
from review.core.skills.decimal_rules import rounded
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import wholes, words
from review.core.skills.sign_errors import of_estimate, of_order
from review.core.skills.tasks import Numbers, Shown, Space, Task, Tasks, pattern
from review.core.skills.wording import (
    DIVIDED,
    EQUALS,
    MINUS,
    PLUS,
    TIMES,
    equation,
    grouped,
    in_words,
    spoken,
)
from review.core.skills.worked import worked

# --- order of operations ------------------------------------------------------------------------------

MOST = 1000  # of any step; our judgement

TIMES_FIRST = "Times comes before plus and minus."
DIVIDED_FIRST = "Divided comes before plus and minus."
BRACKETS_FIRST = "Brackets come first."
FROM_THE_LEFT = "Plus and minus: from the left."


class Shape(NamedTuple):
    """a, sign, b, sign, c."""

    signs: tuple[str, str]
    left_first: bool
    rule: str
    brackets: bool = False

    def written(self, *numbers: object) -> str:
        """Five parts with spaces, and brackets where there are any."""
        a, b, c = numbers
        one, two = self.signs
        if not self.brackets:
            return f"{a} {one} {b} {two} {c}"
        return f"({a} {one} {b}) {two} {c}" if self.left_first else f"{a} {one} ({b} {two} {c})"

    def pattern(self) -> str:
        """As it is logged."""
        text = self.written("#", "#", "#").replace(" ", "")
        return text.replace(MINUS, "-").replace(TIMES, "x").replace(DIVIDED, "/")

    def calculations(self, a: int, b: int, c: int) -> tuple[tuple[int, str, int], tuple[int, str, int]]:
        one, two = self.signs
        if self.left_first:
            return (a, one, b), (result(a, one, b), two, c)
        return (b, two, c), (a, one, result(b, two, c))


def result(a: int, sign: str, b: int) -> int:
    return {PLUS: a + b, MINUS: a - b, TIMES: a * b, DIVIDED: a // b if b else -1}[sign]


def _fine(a: int, sign: str, b: int) -> bool:
    """Within what a child may be asked: above zero, even, nothing divided by one."""
    even = sign != DIVIDED or (b > 1 and a % b == 0)
    return even and 0 < result(a, sign, b) <= MOST


def _space_of(shape: Shape) -> Callable[[Numbers], Space]:
    def fits(a: int, b: int, c: int) -> bool:
        return all(_fine(*one) for one in shape.calculations(a, b, c))

    def space(sizes: Numbers) -> Space:
        low, high = sizes
        numbers, any_product = range(low, high + 1), range(low, high * high + 1)
        first = any_product if shape.signs == (MINUS, TIMES) else numbers
        return Space((first, numbers, numbers), fits)

    return space


def _said(shape: Shape, a: int, b: int, c: int) -> str:
    one, two = shape.signs
    if not shape.brackets:
        return spoken(a, one, b, two, c)
    if shape.left_first:
        return f"In brackets {spoken(a, one, b)}, then {spoken(two, c)}."
    return f"{spoken(a, one).capitalize()}, in brackets {spoken(b, two, c)}."


def _shown_of(shape: Shape) -> Callable[[Numbers, Numbers], Shown]:
    def shown(sizes: Numbers, member: Numbers) -> Shown:
        first, last = shape.calculations(*member)
        answer = result(*last)
        helps = (
            Help("question", "Which part comes first?"),
            Help("build", "Draw a ring around that part."),
            *worked(shape.rule, *(equation(*one, result(*one)) for one in (first, last))),
        )
        written = shape.written(*member)
        told = f"{written} makes {grouped(answer)}."
        return Shown(f"{written} {EQUALS}", _said(shape, *member), str(answer), told, helps)

    return shown


def _order_errors(shape: Shape) -> Callable[[Numbers, Numbers], Mapping[str, str]]:
    return lambda sizes, member: of_order((member[0], member[1], member[2]), shape.signs, shape.brackets)


SHAPES: Mapping[str, tuple[str, Shape]] = {
    "product-first": ("which first, like 3 × 4 + 2", Shape((TIMES, PLUS), True, TIMES_FIRST)),
    "product-last": ("which first, like 2 + 3 × 4", Shape((PLUS, TIMES), False, TIMES_FIRST)),
    "product-taken": ("which first, like 20 − 3 × 4", Shape((MINUS, TIMES), False, TIMES_FIRST)),
    "quotient-last": ("which first, like 5 + 12 ÷ 3", Shape((PLUS, DIVIDED), False, DIVIDED_FIRST)),
    "quotient-taken": ("which first, like 9 − 12 ÷ 3", Shape((MINUS, DIVIDED), False, DIVIDED_FIRST)),
    "from-the-left": ("which first, like 9 − 4 + 3", Shape((MINUS, PLUS), True, FROM_THE_LEFT)),
    "brackets-first": ("which first, like (2 + 3) × 4", Shape((PLUS, TIMES), True, BRACKETS_FIRST, True)),
    "brackets-last": ("which first, like 4 × (2 + 3)", Shape((TIMES, PLUS), False, BRACKETS_FIRST, True)),
    "brackets-less": ("which first, like 4 × (7 − 2)", Shape((TIMES, MINUS), False, BRACKETS_FIRST, True)),
    "brackets-taken": ("which first, like 12 − (3 + 4)", Shape((MINUS, PLUS), False, BRACKETS_FIRST, True)),
}


def _order_task(title: str, shape: Shape) -> Task:
    return Task(
        lambda sizes: f"{title}, numbers {sizes[0]} to {sizes[1]}",
        11.0,
        pattern(shape.pattern()),
        _space_of(shape),
        _shown_of(shape),
        "order",
        _order_errors(shape),
    )


ORDER = Tasks({name: _order_task(*one) for name, one in SHAPES.items()})


# --- estimates ----------------------------------------------------------------------------------------

PLACE_NAMES = {10: "ten", 100: "hundred", 1000: "thousand"}
MOST_TIMES = 9  # what a rounded number is multiplied by


def _estimate_space(sign: str) -> Callable[[Numbers], Space]:
    """Numbers that are not round; the second of a product stays as it is."""

    def space(sizes: Numbers) -> Space:
        (place,) = sizes
        numbers = range(place, 10 * place)

        def fits(a: int, b: int) -> bool:
            if sign == TIMES:
                return a % place != 0
            return (
                a % place != 0 and b % place != 0 and (sign == PLUS or rounded(a, place) > rounded(b, place))
            )

        return Space((numbers, range(2, MOST_TIMES + 1) if sign == TIMES else numbers), fits)

    return space


def _estimate(sign: str) -> Callable[[Numbers, Numbers], Shown]:
    def shown(sizes: Numbers, member: Numbers) -> Shown:
        (place,), (a, b) = sizes, member
        near, other = rounded(a, place), b if sign == TIMES else rounded(b, place)
        answer = result(near, sign, other)
        about = [f"{grouped(a)} ≈ {grouped(near)}"] + [f"{grouped(b)} ≈ {grouped(other)}"] * (other != b)
        helps = (
            Help("question", f"Which {PLACE_NAMES[place]} is near?"),
            Help("build", "Find it on a number line."),
            *worked(*about, f"{grouped(near)} {sign} {grouped(other)} {EQUALS} {grouped(answer)}"),
        )
        written = f"{grouped(a)} {sign} {grouped(b)}"
        to = in_words(place).removeprefix("one ")
        say = f"Round to {to}s first. About how much is {spoken(a, sign, b)}?"
        prompt = f"Round to {grouped(place)}s first: {written} ≈"
        return Shown(prompt, say, str(answer), f"{written} is about {grouped(answer)}.", helps)

    return shown


def _estimate_errors(sign: str) -> Callable[[Numbers, Numbers], Mapping[str, str]]:
    def predict(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
        (place,), (a, b) = sizes, member
        times = sign == TIMES
        down, near = (
            (a // place * place, b if times else b // place * place),
            (rounded(a, place), b if times else rounded(b, place)),
        )
        return of_estimate(result(a, sign, b), result(down[0], sign, down[1]), result(near[0], sign, near[1]))

    return predict


def _estimate_task(what: str, sign: str, letter: str) -> Task:
    return Task(
        lambda sizes: f"{what} by rounding to {grouped(sizes[0])}s",
        11.0,
        pattern(f"#{letter}#"),
        _estimate_space(sign),
        _estimate(sign),
        "estimate",
        _estimate_errors(sign),
    )


ESTIMATES = Tasks(
    {
        "sum": _estimate_task("sums", PLUS, "+"),
        "difference": _estimate_task("differences", MINUS, "-"),
        "product": _estimate_task("products", TIMES, "x"),
    }
)


# --- the kinds ----------------------------------------------------------------------------------------


def order_keys(skill: Skill) -> Iterator[str]:
    low, high = wholes(skill, "range")
    return (f"operations:{task}/{low}..{high}" for task in words(skill, "task"))


def check_order(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for task, key in zip(words(skill, "task"), order_keys(skill), strict=True):
        if not ORDER.possible(key):
            yield "range", f"no problem of {task} comes out with these", "widen the range, like [2, 20]"


def estimate_keys(skill: Skill) -> Iterator[str]:
    for task in words(skill, "task"):
        yield from (f"estimate:{task}/{place}" for place in wholes(skill, "places"))


def check_estimate(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for place in wholes(skill, "places"):
        if place not in PLACE_NAMES:
            yield "places", f"{place} is not 10, 100 or 1000", "take from 10, 100, 1000"


KINDS: tuple[Kind, ...] = (
    Kind(
        "operations",
        "which of two operations comes first, with and without brackets",
        {
            "task": Option(
                "words", "what is asked; a card each", choices=tuple(SHAPES),
                example='["product-last", "brackets-first"]',
            ),
            "range": Option(
                "range", "the least and the greatest number", low=1, high=50, example="[2, 10]"
            ),
        },
        order_keys, ORDER.traits, ORDER.draw, ORDER.problem, check_order, predict=ORDER.predict,
    ),
    Kind(
        "estimate",
        "about how much, from rounded numbers",
        {
            "task": Option(
                "words", "what is asked; a card each", choices=tuple(ESTIMATES.table),
                example='["sum", "difference"]',
            ),
            "places": Option(
                "wholes", "what is rounded to: 10, 100, 1000", low=10, high=1000, example="[10, 100]"
            ),
        },
        estimate_keys, ESTIMATES.traits, ESTIMATES.draw, ESTIMATES.problem, check_estimate,
        predict=ESTIMATES.predict,
    ),
)  # fmt: skip
