"""Decimals in a place table, and on a number line to the next whole."""

import re
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from math import lcm

from review.core.model import Help, Problem
from review.core.pictures import Jump, Mark, NumberLine, Table
from review.core.skills.picture_help import Pictures, how_long, pictured, task_of
from review.core.skills.places import PLACES

PARTS = ("tenths", "hundredths", "thousandths")


def decimal_table(*numbers: str, room: str = "") -> Table:
    """Digits below their places, the points in line; a place that is not written is left empty. `room`: a
    number that has its places too, and no row."""
    split = [number.replace(",", "").partition(".")[::2] for number in (*numbers, room)]
    before, after = (max(map(len, column)) for column in zip(*split, strict=True))
    rows = (tuple(whole.rjust(before) + part.ljust(after)) for whole, part in split[:-1])
    heads = PLACES[:before][::-1] + PARTS[:after]
    return Table(heads, tuple(tuple(cell.strip() for cell in row) for row in rows))


def _numbers(asked: str) -> list[str]:
    return re.findall(r"\d+(?:\.\d+)?", asked)


def decimal_line(at: Sequence[Fraction], names: Sequence[str], arrow: Fraction | None = None) -> NumberLine:
    """Places in the smallest part that any of them needs."""
    whole = lcm(*(place.denominator for place in (*at, *([arrow] if arrow is not None else []))))
    marks = (Mark(int(place * whole), name) for place, name in zip(at, names, strict=True))
    return NumberLine(tuple(marks), arrow=None if arrow is None else int(arrow * whole))


def written(number: Fraction) -> str:
    return f"{float(number):.3f}".rstrip("0").rstrip(".")


def _rounded(problem: Problem) -> tuple[Help, ...]:
    (text,) = _numbers(problem.asked)
    number, to = Fraction(text), int(problem.card.rpartition("-")[2])
    step = Fraction(1, 10**to)
    low = number // step * step
    at = (low, low + step / 2, low + step)
    half = number == at[1]
    return pictured(
        decimal_line(at, [*map(written, at)], number),
        "The arrow is halfway." if half else "Which end is nearer?",
    )


def _to_whole(problem: Problem) -> tuple[Help, ...]:
    """To the next tenth and the next whole, as far as they lie on the way."""
    known, end = Fraction(_numbers(problem.asked)[0]), Fraction(1 if "one" in problem.card else 10)
    at = [known]
    for step in (Fraction(1, 10), Fraction(1)):
        following = (at[-1] // step + 1) * step
        if at[-1] % step and following < end:
            at.append(following)
    at.append(end)
    line = decimal_line(at, [*map(written, at)])
    places = [mark.at for mark in line.marks]
    jumps = tuple(Jump(a, b) for a, b in pairwise(places))
    return pictured(line._replace(jumps=jumps), how_long(at))


def _moved(problem: Problem, number: str, far: int) -> tuple[Help, ...]:
    """With a place for every digit to go to. Said by the names of the places: where they are many, they stand
    one below the other."""
    if task_of(problem) == "times":
        room, goal = problem.expected, PLACES[far]
    else:
        room, goal = "0." + "0" * (len(number.partition(".")[2]) + far), PARTS[far - 1]
    return pictured(decimal_table(number, room=room), f"Move each digit: ones to {goal}.")


def _decimal(problem: Problem) -> tuple[Help, ...]:
    task, numbers = task_of(problem), _numbers(problem.asked)
    match task.partition("-")[0]:
        case "round":
            return _rounded(problem)
        case "bond":
            return _to_whole(problem)
        case "value":
            return pictured(decimal_table(numbers[0]), "Which column is it in?")
        case "times" | "divide":
            return _moved(problem, numbers[0], len(numbers[1]) - 1)
        case "compare" | "order":
            return pictured(decimal_table(*numbers), "Look at the first column first.")
        case _:
            return pictured(
                decimal_table(*numbers), "An empty place is a zero.", "Start with the last column."
            )


PICTURES: Pictures = {"decimal": _decimal}
