"""Facts with a number missing before the equal sign, and what is written under the error rules of facts.

What is missing is found by the operation that undoes: help and error rules are those of that operation.
7 + □ = 12 is a difference worked as a bond, □ − 5 = 7 a sum, 6 × □ = 42 a quotient, □ ÷ 6 = 7 a product.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from review.core.keys import content_of, kind_of
from review.core.model import BOX, Problem, Way
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
from review.core.skills.strategies import UNDONE
from review.core.skills.table_help import product_hints, quotient_hints
from review.core.skills.wording import DIVIDED, EQUALS, MINUS, PLUS, TIMES, spoken

BEFORE = "How many were there before?"

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


def undone(kind: str, asked: str) -> tuple[str, int, int]:
    """What a fact is worked out as, and its numbers: "_-5=7" is the sum of 7 and 5, "5+_=12" the bond of 12
    and 5. A fact with its result missing is its own."""
    known, result = numbers(asked)
    if kind not in UNDONE or not is_open(asked):
        return kind, known, result
    first = asked.startswith("_")
    second_of = kind in ("difference", "quotient") and not first
    return UNDONE[kind][not first], *((known, result) if second_of else (result, known))


HINTS: Mapping[str, Callable[[int, int], Hints]] = {
    "bond": bond_hints,
    "sum": sum_hints,
    "product": product_hints,
    "quotient": quotient_hints,
}


def _hints(kind: str, asked: str) -> Hints:
    worked, left, right = undone(kind, asked)
    found = HINTS[worked](left, right)
    if kind != "difference":
        return found
    if worked == "sum":
        build = f"Put out the {left} left.\nPut the {right} back."
        return found._replace(question=BEFORE, build=build)
    until = "1 is" if right == 1 else f"{right} are"
    return found._replace(build=f"Put out {left} counters.\nTake some until {until} left.")


def asked_before(ways: Iterable[Way]) -> tuple[Way, ...]:
    """The ways of a sum where it undoes a difference: what is asked for is how it was before."""
    return tuple(
        way._replace(helps=tuple(
            help._replace(text=BEFORE) if help.step == "question" else help for help in way.helps
        ))
        for way in ways
    )  # fmt: skip


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
    worked, left, right = undone(kind, asked)
    return OPERATIONS["difference" if worked == "bond" else worked].rules(left, right)


OTHERS: Mapping[str, Callable[..., Mapping[str, str]]] = {
    "bond": of_bond,
    "double": lambda number, *_: of_double(number),
    "half": lambda number, *_: of_half(number),
}
