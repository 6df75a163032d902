"""What numbers are like, which part of a calculation comes first, a number as ten and some."""

import re

from review.core.model import BOX, Help, Problem
from review.core.pictures import Array, Lines, Mark, NumberLine, Rectangle, TenFrames
from review.core.skills.picture_help import Pictures, pictured, task_of, wholes
from review.core.skills.wording import grouped

FIVE = 5


def multiples_near(number: int, of: int) -> NumberLine:
    """The multiples around a number, and an arrow at it."""
    low = max(0, number // of - 1) * of
    return NumberLine(tuple(Mark(at, grouped(at)) for at in range(low, low + 4 * of, of)), arrow=number)


def _property(problem: Problem) -> tuple[Help, ...]:
    task, (number, *_) = task_of(problem), wholes(problem.asked)
    if task == "odd-even":
        return pictured(multiples_near(number, 2), "All the marks are even.", "Is the arrow at one?")
    if task.startswith("multiple-"):
        of = int(task.removeprefix("multiple-"))
        return pictured(multiples_near(number, of), f"Count in {of}s along it.", "Is the arrow at a mark?")
    if task in ("factors", "prime"):
        sides = "Which sides can it have?" if task == "factors" else "Can it have more than one row?"
        return pictured(Rectangle(BOX, BOX, grouped(number)), f"{number} squares make a rectangle.", sides)
    layer = Array(number, number, FIVE if number > FIVE else 0, FIVE if number > FIVE else 0)
    if task == "cube":
        times = f"Think of it {number} times." if number > 1 else "There is no other."
        return pictured(layer, "This is one layer.", times)
    return pictured(layer, "Count row by row.")


def _quantity(problem: Problem) -> tuple[Help, ...]:
    return pictured(TenFrames(int(problem.asked)), "One frame is full.", "How many are in the other?")


# --- which part comes first ---------------------------------------------------------------------------

FIRST = (
    re.compile(r"\([^)]*\)"),
    re.compile(r"[\d,]+ [×÷] [\d,]+"),
    re.compile(r"[\d,]+ [+−] [\d,]+"),
)
"""Brackets, then times and divided, then from the left."""


def _operations(problem: Problem) -> tuple[Help, ...]:
    written = problem.prompt.removesuffix(" =")
    part = next(found for rule in FIRST if (found := rule.search(written)))
    under = " " * part.start() + "-" * len(part[0])
    return pictured(Lines((written, under)), f"{part[0].strip('()')} comes first.")


PICTURES: Pictures = {"number-property": _property, "quantity": _quantity, "operations": _operations}
