"""Open number lines for sums in the head, rectangles in parts for products, bars for quotients."""

from collections.abc import Iterator
from itertools import pairwise

from review.core.model import Help, Problem
from review.core.pictures import Area, Jump, Mark, Mat, NumberLine
from review.core.skills.fact_pictures import halved, rows_of
from review.core.skills.mat_pictures import rectangle
from review.core.skills.picture_help import (
    Pictures,
    pictured,
    reached,
    shared_bar,
    signed,
    stops,
    walked,
    wholes,
)
from review.core.skills.place_counters import counters, first_exchange, place_table, places
from review.core.skills.place_pictures import exchanged
from review.core.skills.places import parts
from review.core.skills.wording import BOX, grouped

NEAR = {100: 9, 10: 2}  # so little under a hundred or a ten, one goes over it and back (our judgement)
CLOSE = 12  # so little apart, one counts up (our judgement)


def steps(start: int, by: int, sign: int) -> list[int]:
    """Jumps by places, the largest first: over a round number in two, almost a round number as that and
    back."""
    for unit, near in NEAR.items():
        short = -by % unit
        crosses = start % unit + by % unit > unit if sign > 0 else start % unit < by % unit
        if 0 < short <= near < by and by > 10 and crosses:
            return [sign * (by + short), -sign * short]
    found: list[int] = []
    for part in parts(by):
        found += _by_the_next(start + sum(found), part, sign)
    return found


def _by_the_next(at: int, part: int, sign: int) -> Iterator[int]:
    """30 + 40 in one jump; 80 + 40 by 100; 47 + 5 by 50."""
    unit = 10 ** (len(str(part)) - 1)
    to_round = -sign * at % (10 * unit)
    if at % unit == 0 and 0 < to_round < part:
        yield from (sign * to_round, sign * (part - to_round))
    else:
        yield sign * part


def _sum(problem: Problem) -> tuple[Help, ...]:
    a, b = wholes(problem.asked)
    return _walk(a, steps(a, b, 1))


def _walk(start: int, by: list[int]) -> tuple[Help, ...]:
    """Steps to count along where one jump is all."""
    if len(by) > 1:
        return pictured(walked(start, by), "Where does the last jump end?")
    unit = 10 ** (len(str(abs(by[0]))) - 1)
    each = "" if unit == 1 else f"Each step is {unit}."
    return pictured(walked(start, by, unit), "Count along the steps.", each)


def _difference(problem: Problem) -> tuple[Help, ...]:
    a, b = wholes(problem.asked)
    if a - b <= CLOSE < b:
        by_ten = [at for at in (b - b % 10 + 10,) if b < at < a]
        return pictured(reached([b, *by_ten, a], each=1), "How many steps is it?")
    return _walk(a, steps(a, b, -1))


def _several(problem: Problem) -> tuple[Help, ...]:
    first, *others = wholes(problem.asked)
    at = stops(first, others)
    marks = (Mark(place, BOX if place != first else grouped(place)) for place in at)
    jumps = (Jump(a, b, signed(b - a)) for a, b in pairwise(at))
    return pictured(NumberLine(tuple(marks), tuple(jumps)), "Write where each jump ends.")


# --- products and quotients ---------------------------------------------------------------------------


def _is_power(number: int) -> bool:
    return number >= 10 and number == 10 ** (len(str(number)) - 1)


def _moves(number: int, by: int, way: str) -> tuple[Help, ...]:
    far = len(str(by)) - 1
    heads = places(number * by if way == "up" else number)
    return pictured(place_table(number, heads=heads), f"Move each digit {far} place{'s' * (far > 1)} {way}.")


def _product(problem: Problem) -> tuple[Help, ...]:
    a, b = wholes(problem.asked)
    if _is_power(b):
        return _moves(a, b, "up")
    if "double" in problem.card:
        mat = Mat(places(a), (counters(a),) * 2)
        return (*pictured(mat, "Put each column together."), *exchanged(first_exchange(a, a)))
    if "near-ten" in problem.card:
        over = a - a % -10
        area = Area((a, over - a), (b,))
        return pictured(area, f"The whole is {over} × {b}.", "Take the small part away.")
    if len(parts(a)) == 1:
        worth = 10 ** (len(str(a)) - 1)
        return pictured(rows_of(b, a // worth), f"Each counter is worth {worth}.")
    return pictured(rectangle(a, b), "Each part is one product.")


def _quotient(problem: Problem) -> tuple[Help, ...]:
    a, b = wholes(problem.asked)
    if _is_power(b):
        return _moves(a, b, "down")
    if b == 2:
        return halved(a)
    return pictured(shared_bar(grouped(a), b), f"{b} equal parts. How much is one?")


PICTURES: Pictures = {
    "mental-sum": _sum,
    "mental-difference": _difference,
    "mental-product": _product,
    "mental-quotient": _quotient,
    "add-several": _several,
}
