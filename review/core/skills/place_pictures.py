"""Whole numbers by their places: counters on a mat to four digits, digits in a table above; Roman letters."""

from review.core.keys import content_of
from review.core.model import BOX, Help, Problem
from review.core.pictures import Exchange, Mat, Picture, Table, TenFrames
from review.core.skills.picture_help import Pictures, pictured, task_of, wholes
from review.core.skills.place_counters import (
    ON_A_MAT,
    counters,
    first_exchange,
    first_opening,
    place_table,
    places,
)
from review.core.skills.places import place_name

TEN = 10
AGAIN = "Do the same where it is needed."  # after an exchange, where more will come


def laid(*numbers: int) -> Picture:
    """A row for each number."""
    names = places(*numbers)
    if len(names) > ON_A_MAT:
        return place_table(*numbers)
    return Mat(names, tuple(counters(number, len(names)) for number in numbers))


def exchanged(exchange: Exchange | None, *text: str) -> tuple[Help, ...]:
    """The exchange as a step of its own, on a mat."""
    if exchange is None or len(exchange.places) > ON_A_MAT:
        return ()
    gone = exchange.places[exchange.column]
    to = exchange.places[exchange.column + (1 if exchange.opened else -1)]
    told = f"1 {gone[:-1]} makes 10 {to}." if exchange.opened else f"10 {gone} make 1 {to[:-1]}."
    return (Help("exchange", "\n".join((told, *text)), exchange),)


# --- place value --------------------------------------------------------------------------------------


def _place_value(problem: Problem) -> tuple[Help, ...]:
    task, (number, *_) = task_of(problem), wholes(problem.asked)
    parts = content_of(problem.card).split("/")
    place = int(parts[2]) if len(parts) > 2 and parts[2].isdigit() else 1
    if task == "more":
        return (
            *pictured(laid(number, place), "Put the new one in its column."),
            *exchanged(first_exchange(number, place)),
        )
    if task == "less":
        return (*_taken(number, place), *exchanged(first_opening(number, place)))
    texts = {
        "value": "What is one there worth?",
        "expand": "What is each column worth?",
        "compose": "Write a digit for each column.",
    }
    if task == "compose" and len(str(number)) > ON_A_MAT:
        boxes = tuple(BOX for _ in str(number))
        return pictured(Table(places(number), (boxes,)), texts[task])
    return pictured(laid(number), texts[task])


def _taken(number: int, place: int) -> tuple[Help, ...]:
    """The counter that goes has a ring, where there is one in its column."""
    at = len(str(number)) - len(str(place))
    picture = laid(number)
    if isinstance(picture, Mat) and picture.rows[0][at]:
        return pictured(picture._replace(ringed=(at, 1)), "Take away the one with the ring.")
    return pictured(picture, f"Look at the {place_name(place)}.")


# --- comparing, ordering, names -----------------------------------------------------------------------


def _compare(problem: Problem) -> tuple[Help, ...]:
    first, second = wholes(problem.asked)
    return pictured(laid(first, second), "Look at the first column first.")


def _order(problem: Problem) -> tuple[Help, ...]:
    return pictured(place_table(*wholes(problem.asked)), "Look at the first place first.")


def _number_name(problem: Problem) -> tuple[Help, ...]:
    number = int(problem.asked)
    if number <= TEN:
        return pictured(TenFrames(number), "Count them.")
    if len(str(number)) <= ON_A_MAT:
        return pictured(laid(number), "Count each column.")
    if task_of(problem) == "write":
        return pictured(place_table(number), "Read the thousands first.")
    return pictured(Table(places(number), (tuple(BOX for _ in str(number)),)), "One digit in each box.")


PICTURES: Pictures = {
    "place-value": _place_value,
    "compare": _compare,
    "order": _order,
    "number-name": _number_name,
}
