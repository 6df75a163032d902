"""Several numbers on a line, rectangles in parts for products, bars for quotients; two numbers by ways."""

from itertools import pairwise

from review.core.model import BOX, Help, Problem
from review.core.pictures import Area, Jump, Mark, Mat, NumberLine
from review.core.skills.fact_pictures import halved, rows_of
from review.core.skills.mat_pictures import rectangle
from review.core.skills.picture_help import (
    Pictures,
    WayPictures,
    pictured,
    shared_bar,
    signed,
    stops,
    wholes,
)
from review.core.skills.place_counters import counters, first_exchange, place_table, places
from review.core.skills.place_pictures import exchanged
from review.core.skills.places import parts, place_name
from review.core.skills.way_pictures import of_difference, of_sum
from review.core.skills.wording import grouped


def _several(problem: Problem) -> tuple[Help, ...]:
    first, *others = wholes(problem.asked)
    at = stops(first, others)
    marks = (Mark(place, BOX if place != first else grouped(place)) for place in at)
    jumps = (Jump(a, b, signed(b - a)) for a, b in pairwise(at))
    return pictured(NumberLine(tuple(marks), tuple(jumps)), "Write where each jump ends.")


# --- products and quotients ---------------------------------------------------------------------------


def _is_power(number: int) -> bool:
    return number >= 10 and number == 10 ** (len(str(number)) - 1)


def _moves(number: int, by: int, up: bool) -> tuple[Help, ...]:
    """Said by the names of the places: where they are many, they stand one below the other."""
    heads, far = places(number * by if up else number), place_name(by)
    move = f"ones to {far}" if up else f"{far} to ones"
    return pictured(place_table(number, heads=heads), f"Move each digit: {move}.")


def _product(problem: Problem) -> tuple[Help, ...]:
    a, b = wholes(problem.asked)
    if _is_power(b):
        return _moves(a, b, up=True)
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
        return _moves(a, b, up=False)
    if b == 2:
        return halved(a)
    return pictured(shared_bar(grouped(a), b), f"{b} equal parts. How much is one?")


PICTURES: Pictures = {
    "mental-sum": of_sum,
    "mental-difference": of_difference,
    "mental-product": _product,
    "mental-quotient": _quotient,
    "add-several": _several,
}

BY_WAY: WayPictures = {"mental-sum": of_sum, "mental-difference": of_difference}
