"""Problems that can be worked out in several ways, whole spaces of them, and each by each of its ways."""

from collections.abc import Iterator
from itertools import product

from review.core import skills
from review.core.model import Problem, Way
from review.core.skills import mental, mental_difference
from review.core.skills.fact_cards import RULES, is_open, showings
from tests.core.fact_space import ALL


def by_way(problem: Problem) -> Iterator[tuple[Way, Problem]]:
    """The problem by each of its ways, as a child who likes that one would get it."""
    for way in skills.ways(problem):
        yield way, problem._replace(helps=skills.helps(problem, liked=way.strategy))


def facts(kind: str, open_: bool = False) -> Iterator[Problem]:
    """Of bonds those with something in each part."""
    for key in ALL[kind]:
        if key not in RULES and is_open(key) is open_ and "=0+" not in key:
            yield from (skills.problem(key, asked) for asked in showings(key))


def missing_numbers(kind: str) -> Iterator[Problem]:
    return facts(kind, open_=True)


def two_digits(kind: str) -> Iterator[Problem]:
    """Every sum or difference of a number of two digits and one not greater. Sums the other way round are
    drawn below."""
    room = {"mental-sum": mental, "mental-difference": mental_difference}[kind]
    sign = {"mental-sum": "+", "mental-difference": "-"}[kind]
    for a, b in product(range(10, 100), range(1, 100)):
        if a >= b:
            name = next(name for name, fits in room.FITS.items() if fits(a, b) and not name.startswith("all"))
            of = f"{kind}:2{sign}{len(str(b))}/{name}"
            yield skills.problem(of, f"{a}{sign}{b}")
