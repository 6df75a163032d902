"""The square of facts: sums or products of two numbers, to be filled, filled, or only what is overdue."""

from collections.abc import Callable, Collection, Mapping
from math import ceil
from typing import Literal, NamedTuple

from review.core.looks import looks
from review.core.model import Pupil
from review.core.pages import NAME_WIDTH
from review.core.paper import (
    LARGE,
    NORMAL,
    WIDTH,
    Block,
    Cell,
    Head,
    Page,
    Sheet,
    Square,
    Start,
    Words,
    on_a_line,
)

Facts = Literal["products", "sums"]
Fill = Literal["empty", "full", "overdue"]
FILLS: tuple[Fill, ...] = ("empty", "full", "overdue")

Pair = tuple[int, int]


class Table(NamedTuple):
    sign: str
    title: str
    low: int
    high: int
    value: Callable[[int, int], int]
    keys: Callable[[int, int], tuple[str, ...]]  # of the cards that hold the fact


TABLES: Mapping[Facts, Table] = {
    "products": Table(
        "×",
        "Multiplication square",
        1,
        10,
        lambda a, b: a * b,
        lambda a, b: (f"product:{min(a, b)}x{max(a, b)}",),
    ),
    "sums": Table(
        "+", "Addition square", 0, 10, lambda a, b: a + b, lambda a, b: (f"sum:{min(a, b)}+{max(a, b)}",)
    ),
}
LARGEST_SIDE = 22.0  # of a cell, in mm
LEAST_SIDES = {False: 12.5, True: 16.0}
"""Of a cell to write in, by large print: two numerals of a child's hand (our judgement)."""
SAID = {"empty": "Fill the ones you know.", "overdue": "Fill the open boxes."}


def overdue(pupil: Pupil, facts: Facts, high: int) -> frozenset[Pair]:
    """Cells whose fact is overdue, in either order: the one would tell the other."""
    table = TABLES[facts]
    late = {look.card.key for look in looks(pupil) if look.standing.state == "overdue"}
    numbers = range(table.low, high + 1)
    return frozenset((a, b) for a in numbers for b in numbers if late.intersection(table.keys(a, b)))


def sheet(
    facts: Facts, fill: Fill, high: int, foot: str, name: str, open_cells: Collection[Pair], large: bool
) -> Sheet:
    """The square, on as many pages as a child's hand needs; and where something is to be filled, the full one
    on a page of its own."""
    table = TABLES[facts]
    numbers = range(table.low, high + 1)
    every = {(a, b) for a in numbers for b in numbers}
    asked = {"empty": every, "full": set[Pair](), "overdue": set(open_cells)}[fill]
    shown = every if fill == "full" else set[Pair]()
    parts = in_parts(numbers, large, written=fill != "full")
    squares = [
        square(table, down, across, asked, shown)
        for down in parts
        for across in parts
        if fill == "full" or not asked.isdisjoint((a, b) for a in down for b in across)
    ]
    fronts = [Page((*top(table, fill, name, large), one)) for one in squares]
    if fill == "full":
        return Sheet(foot, foot, tuple(fronts), large)
    key = Page((Words((f"Key. {foot}",), 8.0), square(table, numbers, numbers, (), every)), key=True)
    return Sheet(foot, foot, (*fronts, key), large)


def in_parts(numbers: range, large: bool, *, written: bool) -> list[range]:
    """All at once where the cells are large enough, else in equal parts."""
    side = LEAST_SIDES[large] if written or large else 0.0
    most = int(WIDTH / side) - 1 if side else len(numbers)
    count = ceil(len(numbers) / most)
    each = ceil(len(numbers) / count)
    return [numbers[n : n + each] for n in range(0, len(numbers), each)]


def top(table: Table, fill: Fill, name: str, large: bool) -> list[Block]:
    size = LARGE if large else NORMAL
    if fill == "full":
        return [Head(table.title, "", False, size.text * 1.3, 0.0, 14.0, signed=False)]
    named = on_a_line(name, NAME_WIDTH, size.text * 0.8)
    return [
        Head(table.title, name, True, size.text * 1.3, named, 3.5 * size.text),
        Start((SAID[fill],), 0, False, (), 1, size.text * 0.8, 2 * size.text),
    ]


def square(
    table: Table, down: range, across: range, asked: Collection[Pair], shown: Collection[Pair]
) -> Square:
    most = max(len(down), len(across)) + 1
    side = round(min(LARGEST_SIDE, WIDTH / most), 2)
    all_asked = len(asked) == len({n for pair in asked for n in pair}) ** 2

    def cell(a: int, b: int) -> tuple[Cell, str]:
        if (a, b) in asked:
            return ("blank" if all_asked else "open"), ""
        return ("given", str(table.value(a, b))) if (a, b) in shown else ("rest", "")

    heads: tuple[tuple[Cell, str], ...] = (("name", table.sign), *(("name", str(n)) for n in across))
    body = tuple((("name", str(a)), *(cell(a, b) for b in across)) for a in down)
    return Square(table.sign, (heads, *body), side, round(side * (len(down) + 1) + 3, 1))
