"""What the picture step of help is made of. A picture lets one count or see; the answer is not in it."""

import re
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise

from review.core.model import BOX, Help, Problem
from review.core.pictures import Bar, Jump, Mark, NumberLine, Part, Picture
from review.core.skills.wording import MINUS, PLUS, grouped, lines

Pictures = Mapping[str, Callable[[Problem], tuple[Help, ...]]]
"""Kind -> what draws the picture steps of a problem of it."""


WayPictures = Mapping[str, Callable[[Problem, str], tuple[Help, ...]]]
"""Kind -> what draws them by a strategy, where each way has pictures of its own."""


def pictured(picture: Picture, *text: str) -> tuple[Help, ...]:
    """One picture, and below it what to do with it, a line each."""
    return (Help("picture", lines(text), picture),)


def wholes(text: str) -> list[int]:
    """The whole numbers in an `asked`, without signs."""
    return [int(found) for found in re.findall(r"\d+", text)]


def task_of(problem: Problem) -> str:
    return problem.card.partition(":")[2].partition("/")[0]


# --- number lines -------------------------------------------------------------------------------------


def signed(step: int) -> str:
    return f"{PLUS if step > 0 else MINUS}{grouped(abs(step))}"


def stops(start: int, steps: Sequence[int]) -> list[int]:
    """Where each step leads, the start first."""
    found = [start]
    for step in steps:
        found.append(found[-1] + step)
    return found


def walked(start: int, steps: Sequence[int], each: int = 0) -> NumberLine:
    """Jumps with their size, from a number to what is asked; round numbers on the way have names. With a mark
    at every `each`, the jump can be counted out."""
    at = stops(start, steps)
    names = {place: grouped(place) for place in at[1:-1] if place % 10 == 0}
    units = dict.fromkeys(range(min(at), max(at) + 1, each), "") if each else {}
    marks = {**units, **names, at[0]: grouped(at[0]), at[-1]: BOX}
    jumps = (Jump(a, b, signed(b - a)) for a, b in pairwise(at))
    return NumberLine(tuple(Mark(place, marks[place]) for place in sorted(marks)), tuple(jumps))


def reached(at: Sequence[int], name: Callable[[int], str] = grouped, each: int = 0) -> NumberLine:
    """Jumps without their size, from a known number to a known one, by the numbers between; with a mark at
    every `each`, so that the steps can be counted."""
    low, high = min(at), max(at)
    names = {place: name(place) for place in at}
    marks = {**(dict.fromkeys(range(low, high + 1, each), "") if each else {}), **names}
    jumps = (Jump(a, b) for a, b in pairwise(at))
    return NumberLine(tuple(Mark(place, marks[place]) for place in sorted(marks)), tuple(jumps))


def how_long(at: Sequence[object]) -> str:
    return "How long is each jump?" if len(at) > 2 else "How long is the jump?"


# --- bars ---------------------------------------------------------------------------------------------


def split_bar(whole: str, *sizes: int, asked: int = -1) -> Bar:
    """Parts by their size, one of them asked for."""
    parts = (Part(size, BOX if at == asked else grouped(size)) for at, size in enumerate(sizes))
    return Bar(tuple(parts), whole)


def shared_bar(whole: str, many: int, marked: int | None = None) -> Bar:
    """Equal parts, some or all of them asked for."""
    boxes = many if marked is None else marked
    return Bar(tuple(Part(1, BOX if at < boxes else "") for at in range(many)), whole)
