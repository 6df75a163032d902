"""Number lines: counting on and back, neighbours, rounding, below zero, degrees."""

import re
from itertools import pairwise

from review.core.keys import content_of
from review.core.model import BOX, Help, Problem
from review.core.pictures import Jump, Mark, NumberLine
from review.core.skills.picture_help import Pictures, pictured, reached, signed, task_of, wholes
from review.core.skills.wording import grouped

ROOM = 30  # columns for jumps with their sizes between numbers with their names (our judgement)
UNIT_MARKS = 19  # steps of one whose marks can be told apart


def _count_by(problem: Problem) -> tuple[Help, ...]:
    """All that is shown, a box for each that is asked, as many of the last as have room."""
    step, task, way, *_ = content_of(problem.card).split("/")
    by = int(step) * (1 if way == "up" else -1)
    shown = problem.asked.split(",")
    at = next(n for n, part in enumerate(shown) if part != "_")
    first = int(shown[at]) - at * by
    marks = [Mark(first + n * by, BOX if part == "_" else grouped(int(part))) for n, part in enumerate(shown)]
    if task == "next":
        before = (first - by * n for n in (2, 1))
        marks = [*(Mark(place, grouped(place)) for place in before if place >= 0), *marks]
    widest = max(len(signed(by)) + 2, *(len(mark.name) + 2 for mark in marks))
    marks = marks[-max(3, ROOM // widest + 1) :]
    jumps = (Jump(a.at, b.at, signed(by)) for a, b in pairwise(marks))
    return pictured(NumberLine(tuple(sorted(marks)), tuple(jumps)), f"Each jump is {grouped(abs(by))}.")


def _sequence(problem: Problem) -> tuple[Help, ...]:
    number = int(problem.expected)
    near = range(max(0, number - 2), number + 3)
    marks = (Mark(place, BOX if place == number else grouped(place)) for place in near)
    return pictured(NumberLine(tuple(marks)), "Which number is missing?")


# --- rounding -----------------------------------------------------------------------------------------


def between(number: int, place: int) -> NumberLine:
    """The two round numbers around it, halfway, and where it lies."""
    low = number // place * place
    marks = (Mark(at, grouped(at)) for at in (low, low + place // 2, low + place))
    return NumberLine(tuple(marks), arrow=number)


def _rounding(problem: Problem) -> tuple[Help, ...]:
    number, place = int(problem.asked), int(content_of(problem.card).partition("/")[0])
    half = number % place == place // 2
    return pictured(between(number, place), "The arrow is halfway." if half else "Which end is nearer?")


def _estimate(problem: Problem) -> tuple[Help, ...]:
    place = int(content_of(problem.card).partition("/")[2])
    first, second = wholes(problem.asked)
    again = f"Then draw {grouped(second)}." if second >= place else ""
    return pictured(between(first, place), "Which end is nearer?", again)


# --- below zero ---------------------------------------------------------------------------------------


def _pair(asked: str) -> tuple[int, str, int]:
    found = re.fullmatch(r"(-?\d+)([+?,-])(-?\d+)", asked)
    if found is None:
        raise ValueError(f"{asked} is no pair of numbers")
    return int(found[1]), found[2], int(found[3])


def _with_zero(places: dict[int, str], low: int, high: int) -> tuple[Mark, ...]:
    """Named places and zero; marks for the others where they can be told apart."""
    low, high = min(low, 0), max(high, 0)
    units = dict.fromkeys(range(low, high + 1), "") if high - low <= UNIT_MARKS else {}
    names = {**units, 0: "0", **places}
    return tuple(Mark(at, names[at]) for at in sorted(names))


def _moved(start: int, by: int) -> tuple[Help, ...]:
    end = start + by
    marks = _with_zero({start: grouped(start), end: BOX}, min(start, end), max(start, end))
    return pictured(NumberLine(marks, (Jump(start, end, signed(by)),)), "Where does the jump end?")


def _apart(low: int, high: int) -> tuple[Help, ...]:
    if low < 0 < high:
        return pictured(reached([low, 0, high]), "How long is each jump?")
    marks = _with_zero({low: grouped(low), high: grouped(high)}, low, high)
    return pictured(NumberLine(marks, (Jump(low, high),)), "How long is the jump?")


def _both(first: int, second: int, ask: str) -> tuple[Help, ...]:
    names = {first: grouped(first), second: grouped(second)}
    return pictured(NumberLine(_with_zero(names, min(names), max(names))), ask)


def _below_zero(problem: Problem) -> tuple[Help, ...]:
    first, sign, second = _pair(problem.asked)
    if sign == "?":
        warmer = {"which-warmer-c": "Which is further along?"}
        return _both(first, second, warmer.get(task_of(problem), "Which comes first on the line?"))
    if sign == ",":
        return _apart(first, second)
    return _moved(first, second if sign == "+" else -second)


PICTURES: Pictures = {
    "count-by": _count_by,
    "sequence": _sequence,
    "rounding": _rounding,
    "estimate": _estimate,
    "negative": _below_zero,
    "temperature": _below_zero,
}
