"""Facts with a number missing before the equal sign, and what is written under the error rules of facts.

What is missing is found by the operation that undoes: help and error rules are those of that operation.
7 + □ = 12 is a difference worked as a bond, □ − 5 = 7 a sum, 6 × □ = 42 a quotient, □ ÷ 6 = 7 a product.
"""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from review.core.keys import content_of, kind_of
from review.core.model import Problem
from review.core.skills.fact_cards import filled, is_open, missing, numbers
from review.core.skills.fact_help import bond_hints, sum_hints
from review.core.skills.hints import Hints, helps
from review.core.skills.mistakes import (
    of_bond,
    of_difference,
    of_double,
    of_half,
    of_product,
    of_quotient,
    of_sum,
)
from review.core.skills.table_help import product_hints, quotient_hints
from review.core.skills.wording import BOX, DIVIDED, EQUALS, MINUS, PLUS, TIMES, spoken

Rules = Callable[[int, int], Mapping[str, str]]


class Operation(NamedTuple):
    mark: str  # in keys
    sign: str  # on screen
    verb: str
    result: Callable[[int, int], int]
    rules: Rules  # for the result missing


OPERATIONS: Mapping[str, Operation] = {
    "sum": Operation("+", PLUS, "makes", lambda a, b: a + b, of_sum),
    "difference": Operation("-", MINUS, "leaves", lambda a, b: a - b, of_difference),
    "product": Operation("x", TIMES, "makes", lambda a, b: a * b, of_product),
    "quotient": Operation("/", DIVIDED, "makes", lambda a, b: a // b, of_quotient),
}


def contents(kind: str, place: str, left: int, right: int) -> tuple[str, ...]:
    """What follows the kind in the key, for that place missing. Of a sum or product first and second are one
    card, shown in either order, and each of its two numbers may be the one that is known."""
    mark, result = OPERATIONS[kind].mark, OPERATIONS[kind].result(left, right)
    if place == "result":
        return (f"{left}{mark}{right}",)
    if kind in ("sum", "product"):
        return tuple(dict.fromkeys(f"_{mark}{known}={result}" for known in (left, right)))
    return (f"_{mark}{right}={result}" if place == "first" else f"{left}{mark}_={result}",)


# --- what is shown ------------------------------------------------------------------------------------


def _undone(kind: str, asked: str) -> tuple[str, int, int]:
    """The operation that finds the missing number, and what it is done with: "_-5=7" -> sum of 7 and 5."""
    known, result = numbers(asked)
    if kind in ("sum", "product"):
        return {"sum": "difference", "product": "quotient"}[kind], result, known
    if asked.startswith("_"):
        return {"difference": "sum", "quotient": "product"}[kind], result, known
    return kind, known, result


def _hints(kind: str, asked: str) -> Hints:
    operation, left, right = _undone(kind, asked)
    if kind == "sum":
        return bond_hints(left, right)
    if kind == "difference" and operation == "difference":
        until = "1 is" if right == 1 else f"{right} are"
        build = f"Put out {left} counters.\nTake some until {until} left."
        return bond_hints(left, right)._replace(build=build)
    if kind == "difference":
        build = f"Put out the {left} left.\nPut the {right} back."
        return sum_hints(left, right)._replace(question="How many were there before?", build=build)
    return (product_hints if operation == "product" else quotient_hints)(left, right)


def open_problem(key: str, asked: str) -> Problem:
    kind = kind_of(key)
    sign, verb, result = OPERATIONS[kind].sign, OPERATIONS[kind].verb, numbers(asked)[1]
    left, right = filled(kind, asked)
    shown: tuple[int | str, int | str] = (BOX, right) if asked.startswith("_") else (left, BOX)
    return Problem(
        card=key,
        kind=kind,
        asked=asked,
        prompt=f"{shown[0]} {sign} {shown[1]} {EQUALS} {result}",
        say=spoken(shown[0], sign, shown[1], EQUALS, result),
        form="whole",
        expected=str(missing(kind, asked)),
        told=f"{left} {sign} {right} {verb} {result}.",
        helps=helps(_hints(kind, asked)),
    )


# --- what one would write under an error rule ----------------------------------------------------------


def predict(key: str, asked: str) -> Mapping[str, str]:
    kind = kind_of(key)
    if kind not in OPERATIONS:
        return OTHERS[kind](*numbers(asked)[:2])
    if not is_open(content_of(key)):
        return OPERATIONS[kind].rules(*numbers(asked))
    operation, left, right = _undone(kind, asked)
    return OPERATIONS[operation].rules(left, right)


OTHERS: Mapping[str, Callable[..., Mapping[str, str]]] = {
    "bond": of_bond,
    "double": lambda number, *_: of_double(number),
    "half": lambda number, *_: of_half(number),
}
