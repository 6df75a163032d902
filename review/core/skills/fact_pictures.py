"""Pictures for facts: ten-frames for sums and differences, arrays with five as an anchor for tables, a number
line for a missing number.
"""

import re

from review.core.model import BOX, Help, Problem
from review.core.pictures import Array, Mat, TenFrames
from review.core.skills.fact_cards import filled, is_open, missing
from review.core.skills.picture_help import (
    Pictures,
    how_long,
    pictured,
    reached,
    shared_bar,
    split_bar,
    task_of,
    wholes,
)
from review.core.skills.place_counters import counters, places
from review.core.skills.wording import grouped

FIVE, TEN = 5, 10
ON_FRAMES = 30  # counters; three frames side by side
COUNT_THEM = "Count the counters."


def _sum(problem: Problem) -> tuple[Help, ...]:
    asked = problem.asked
    if is_open(asked):
        known, total = filled("sum", asked)[asked.startswith("_")], sum(filled("sum", asked))
        return _how_far(known, total)
    a, b = wholes(asked)
    if a + b > ON_FRAMES:
        return pictured(split_bar(BOX, a, b), "Both parts make the whole.")
    many, few = max(a, b), min(a, b)  # as the steps go: from the greater number on
    over = many < TEN < many + few
    ask = "Fill the first frame." if over else f"Count on from {many}." if few else COUNT_THEM
    return pictured(TenFrames(many, few), ask)


def _how_far(low: int, high: int) -> tuple[Help, ...]:
    """The steps between two numbers, by the ten between them."""
    if high - low < 1:
        return pictured(TenFrames(high), f"Here are {high}. How many more?")
    if high - low > TEN + TEN:
        return pictured(split_bar(grouped(high), low, high - low, asked=1), "Which part is missing?")
    by_ten = [low // TEN * TEN + TEN] if low // TEN * TEN + TEN < high else []
    return pictured(reached([low, *by_ten, high], each=1), "How many steps is it?")


def _difference(problem: Problem) -> tuple[Help, ...]:
    whole, part = filled("difference", problem.asked) if is_open(problem.asked) else wholes(problem.asked)
    if problem.asked.startswith("_"):
        return pictured(split_bar(BOX, part, whole - part), "Both parts make the whole.")
    if is_open(problem.asked):
        return _how_far(whole - part, whole)
    if whole > ON_FRAMES:
        return pictured(split_bar(grouped(whole), part, whole - part, asked=1), "Which part is left?")
    return pictured(TenFrames(whole, 0, part), "Count what is not crossed out.")


def _bond(problem: Problem) -> tuple[Help, ...]:
    whole, part = wholes(problem.asked)
    if whole <= ON_FRAMES:
        gone = "1 is crossed out." if part == 1 else f"{part} are crossed out."
        return pictured(TenFrames(whole, 0, part), gone, "Count the others.")
    ten = 100 if whole > 100 else 10
    if part % ten == 0:
        return pictured(reached([part, whole], each=ten), how_long([part, whole]), f"Each step is {ten}.")
    up = part // ten * ten + ten
    at = [part, *([up] if up < whole else []), whole]
    return pictured(reached(at), how_long(at))


def _double(problem: Problem) -> tuple[Help, ...]:
    (number,) = wholes(problem.asked)
    if number <= TEN:
        return pictured(Array(2, number, FIVE if number > FIVE else 0), COUNT_THEM)
    return pictured(Mat(places(number), (counters(number),) * 2), "Count each column.")


def _half(problem: Problem) -> tuple[Help, ...]:
    (number,) = wholes(problem.asked)
    return halved(number)


def halved(number: int) -> tuple[Help, ...]:
    """Two rows to twenty; above, counters by place where each place can be shared, else a bar."""
    if number <= TEN + TEN:
        row = number // 2
        return pictured(Array(2, row, FIVE if row > FIVE else 0, asked="columns"), "How many are in a row?")
    if all(count % 2 == 0 for count in counters(number)):
        return pictured(Mat(places(number), (counters(number),)), "Take half of each column.")
    return pictured(shared_bar(grouped(number), 2), "Both parts are as long.")


# --- tables -------------------------------------------------------------------------------------------


def rows_of(rows: int, each: int) -> Array:
    """Equal rows, apart after five, each cut after five: five is an anchor."""
    return Array(rows, each, FIVE if each > FIVE else 0, FIVE if rows > FIVE else 0)


def _product(problem: Problem) -> tuple[Help, ...]:
    if problem.card == "product:nx1":  # one group, in either order
        return pictured(rows_of(1, max(wholes(problem.asked))), COUNT_THEM)
    if is_open(problem.asked):  # rows of the number that is known, as the counters and the steps go
        known, result = wholes(problem.asked)
        return pictured(rows_of(result // known, known)._replace(asked="rows"), "How many rows are there?")
    rows, each = wholes(problem.asked)
    upper = "Count the upper five rows first." if rows > FIVE else "Count row by row."
    return pictured(rows_of(rows, each), "Count the fives first." if each > FIVE else upper)


def _quotient(problem: Problem) -> tuple[Help, ...]:
    text = problem.asked
    if problem.card == "quotient:n/1":  # one child gets all
        return pictured(rows_of(1, wholes(text)[0])._replace(asked="columns"), "How many are in the row?")
    whole, by = filled("quotient", text) if is_open(text) else wholes(text)
    if text.startswith("_"):
        return pictured(rows_of(missing("quotient", text) // by, by), "Count row by row.")
    if is_open(text):
        whole, by = wholes(text)  # 42 ÷ □ = 6: rows of 6
    return pictured(rows_of(whole // by, by)._replace(asked="rows"), "How many rows are there?")


# --- true or false ------------------------------------------------------------------------------------


def _are_there(number: str, noun: str = "") -> str:
    one = number == "1"
    things = f" {noun}{'' if one else 's'}" if noun else ""
    return f"{'Is' if one else 'Are'} there {number}{things}?"


def _true_false(problem: Problem) -> tuple[Help, ...]:
    task = task_of(problem)
    left, right = problem.asked.split("=")
    side = right if task == "turned" or "_" in left else left
    other = left if side == right else right
    a, b = wholes(side)
    if task == "difference":
        return pictured(TenFrames(a, 0, b), "Count what is not crossed out.", _are_there(other))
    if task == "product":
        return pictured(rows_of(a, b), "Count row by row.", _are_there(other))
    if task == "quotient":
        return pictured(rows_of(a // b, b)._replace(asked="rows", rest=a % b), _are_there(other, "row"))
    compared = re.sub(r"\+", " + ", other).replace("_", BOX)
    ask = f"Does {compared} make as many?" if "+" in other else _are_there(other)
    if task == "balance":
        ask = f"{compared} makes as many."
    return pictured(TenFrames(a, b), COUNT_THEM, ask)


PICTURES: Pictures = {
    "sum": _sum,
    "difference": _difference,
    "bond": _bond,
    "double": _double,
    "half": _half,
    "product": _product,
    "quotient": _quotient,
    "true-false": _true_false,
}
