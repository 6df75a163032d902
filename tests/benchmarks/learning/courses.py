"""Which cards a child of 8 to 9 works through: shipped sets in teaching order, all taught from the start."""

from functools import lru_cache
from math import log
from random import Random
from typing import NamedTuple

from review import catalogue
from review.core import skills, working_out
from review.core.card_sets import cards
from review.core.model import Card, Traits

COURSES: dict[int, tuple[str, ...]] = {
    100: (
        "times-2-5-10", "times-3-4-8", "times-6-7-9",
        "mental-sums-to-99", "mental-differences-to-99", "column-sums-to-999", "column-differences-to-999",
        "times-11-12",
    ),
    400: (
        "addition-facts-20", "subtraction-facts-20", "times-2-5-10", "division-2-5-10", "mental-sums-to-99",
        "mental-differences-to-99", "times-3-4-8", "division-3-4-8", "number-bonds-100", "column-sums-to-999",
        "column-differences-to-999", "times-6-7-9", "division-6-7-9", "adding-several-numbers",
        "rounding-to-1000", "ordering-to-9999", "times-11-12", "division-11-12", "place-value-to-999",
    ),
    1000: (
        "addition-facts-20", "subtraction-facts-20", "number-bonds-20", "missing-numbers-20", "times-2-5-10",
        "division-2-5-10", "missing-numbers-2-5-10", "mental-sums-to-99", "mental-differences-to-99",
        "times-3-4-8", "division-3-4-8", "missing-numbers-3-4-8", "number-bonds-100", "column-sums-to-999",
        "column-differences-to-999", "doubles-halves-100", "times-6-7-9", "division-6-7-9",
        "adding-several-numbers", "rounding-to-1000", "place-value-to-999", "ordering-to-9999",
        "times-11-12", "division-11-12", "number-bonds-1000", "time-units", "fractions-parts",
        "missing-numbers-6-7-9", "calendar-words",
    ),
}  # fmt: skip
"""Fluency and accuracy sets for 8 and 9 by the size of the course; what is over the size is cut off."""

HARDER: dict[str, float] = {
    "sum": -0.4, "bond": -0.2, "double": -0.6, "half": -0.3, "difference": 0.1, "product": 0.0,
    "quotient": 0.3, "mental-sum": 0.0, "mental-difference": 0.3, "column-sum": 0.2, "column-difference": 0.6,
}  # fmt: skip
"""How hard a kind is, in standard deviations of cards; others 0.2. Our judgement, in the order in which the
kinds are taught."""

OTHER_KINDS = 0.2
BY_SIZE = 0.45  # a standard deviation harder for each e-fold of the answer above 20 (our judgement)
USUAL_SIZE = 20
NOISE = 0.5  # of a card, alike for all children (our judgement)
HARDEST = 2.5


class Course(NamedTuple):
    """Cards with all the bench needs to know of them, by place."""

    cards: tuple[Card, ...]
    places: dict[str, int]
    traits: dict[str, Traits]
    hard: tuple[float, ...]  # in standard deviations
    steps: tuple[int, ...]  # counting steps to work a fact out; 0: a procedure
    digits: tuple[int, ...]  # of a usual answer
    kin: tuple[tuple[int, ...], ...]  # partner facts


@lru_cache
def course(size: int) -> Course:
    chosen = cards([catalogue.shipped(name) for name in COURSES[size]])[:size]
    traits = {card.key: skills.traits(card.key) for card in chosen}
    drawn = [_drawn(card) for card in chosen]
    return Course(
        chosen,
        {card.key: place for place, card in enumerate(chosen)},
        traits,
        tuple(_hard(card, answer) for card, (_, answer) in zip(chosen, drawn, strict=True)),
        tuple(working_out.steps(asked) if traits[c.key].fact else 0
              for c, (asked, _) in zip(chosen, drawn, strict=True)),
        tuple(max(1, len(answer)) for _, answer in drawn),
        _kin([traits[card.key].family for card in chosen]),
    )  # fmt: skip


def fluent(course: Course) -> frozenset[str]:
    """The cards that are to come from memory; the others may be worked out."""
    return frozenset(card.key for card in course.cards if card.aim == "fluency")


def _drawn(card: Card) -> tuple[str, str]:
    kind, random = skills.KINDS[card.kind], Random(card.key)
    asked = kind.draw(card.key, random)
    return asked, kind.problem(card.key, asked).expected


def _hard(card: Card, answer: str) -> float:
    """Larger answers are harder (the problem-size effect; Ashcraft & Guillaume 2009 review it)."""
    size = int(answer) if answer.isdecimal() and card.kind in ("sum", "product") else USUAL_SIZE
    by_size = BY_SIZE * log((size + 5) / (USUAL_SIZE + 5))
    noise = Random(f"hard|{card.key}").gauss(0, NOISE)
    return min(HARDEST, HARDER.get(card.kind, OTHER_KINDS) + by_size + noise)


def _kin(families: list[str]) -> tuple[tuple[int, ...], ...]:
    of: dict[str, list[int]] = {}
    for place, family in enumerate(families):
        of.setdefault(family, []).append(place)
    return tuple(
        tuple(other for other in of[family] if family and other != place)
        for place, family in enumerate(families)
    )
