"""Products taken for another fact's: which fact's answer was given in the place of which.

Most wrong products are the answer of a neighbour in a table; no rule of thinking follows from that, but to
hold the two facts side by side helps.
"""

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from itertools import combinations_with_replacement, starmap

from review.core import slips
from review.core.findings import Confused, Evidence, Fact
from review.core.model import RIGHT, Answer

TIMES, DAYS = 2, 2
"""That often, on so many days, two facts must be confused before it is told (our judgement): once proves
nothing."""
TABLES = range(2, 13)
FIRST_TABLES = 10
PRODUCT = re.compile(r"product:(\d+)x(\d+)", re.ASCII)


def of_answers(rows: Sequence[tuple[int, Answer]]) -> tuple[Confused, ...]:
    """Of one child's answers with their days, oldest first; the latest first."""
    taken: dict[frozenset[object], list[tuple[int, Answer]]] = defaultdict(list)
    for day, answer in rows:
        pair = _pair(answer)
        if pair is not None:
            taken[pair].append((day, answer))
    found = (_confused(answers) for answers in taken.values() if _is_told(answers))
    return tuple(sorted(found, key=lambda one: -one.evidence[-1].day))


def _is_told(answers: Sequence[tuple[int, Answer]]) -> bool:
    return len(answers) >= TIMES and len({day for day, _ in answers}) >= DAYS


def _confused(answers: Sequence[tuple[int, Answer]]) -> Confused:
    fact, given = _read(answers[-1][1]) or ((0, 0), 0)
    return Confused(fact, others(fact, given), tuple(starmap(_evidence, answers)))


def _evidence(day: int, answer: Answer) -> Evidence:
    return Evidence(day, answer.card, answer.asked, answer.expected, slips.first_given(answer))


def _pair(answer: Answer) -> frozenset[object] | None:
    """The two products that were taken for each other, told apart by the facts; None: none were."""
    found = None if answer.mark in RIGHT and not answer.slipped else _read(answer)
    if found is None:
        return None
    fact, given = found
    near = others(fact, given)
    return frozenset({fact, near}) if len(near) > 1 else frozenset({fact, *near}) if near else None


def _read(answer: Answer) -> tuple[Fact, int] | None:
    """The fact, and the other number that was given."""
    key, given = PRODUCT.fullmatch(answer.card), slips.first_given(answer).strip()
    if key is None or not (given.isascii() and given.isdecimal() and len(given) <= 4):
        return None
    a, b = sorted((int(key[1]), int(key[2])))
    return ((a, b), int(given)) if a * b != int(given) else None


def others(fact: Fact, given: int) -> tuple[Fact, ...]:
    """The facts whose answer it is: those that share a factor with the one asked, else for one of the first
    ten tables those of them, which come before the others (our judgement), else all there are."""
    found = FACTS.get(given, ())
    shared = tuple(other for other in found if set(other) & set(fact))
    first = tuple(other for other in found if max(*other, *fact) <= FIRST_TABLES)
    return shared or first or found


def _facts() -> Mapping[int, tuple[Fact, ...]]:
    by_product: dict[int, list[Fact]] = defaultdict(list)
    for a, b in combinations_with_replacement(TABLES, 2):
        by_product[a * b].append((a, b))
    return {product: tuple(facts) for product, facts in by_product.items()}


FACTS = _facts()
