"""The square of facts: sums or products of two numbers, to be filled, filled, or only what is overdue."""

from collections.abc import Callable, Collection, Mapping
from typing import Literal, NamedTuple

from review.core.looks import looks
from review.core.model import Pupil
from review.core.pages import NAME_WIDTH
from review.core.paper import WIDTH, Cell, Head, Page, Sheet, Square, Words, on_a_line

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
        "×", "Times square", 1, 10, lambda a, b: a * b, lambda a, b: (f"product:{min(a, b)}x{max(a, b)}",)
    ),
    "sums": Table(
        "+", "Adding square", 0, 10, lambda a, b: a + b, lambda a, b: (f"sum:{min(a, b)}+{max(a, b)}",)
    ),
}
LARGEST_SIDE = 16.0  # of a cell, in mm
HEAD = 20.0
EMPTY_SAID = ("Fill the ones you know.",)
OVERDUE_SAID = ("Fill the open boxes.",)


def overdue(pupil: Pupil, facts: Facts, high: int) -> frozenset[Pair]:
    """Cells whose fact is overdue, in either order: the one would tell the other."""
    table = TABLES[facts]
    late = {look.card.key for look in looks(pupil) if look.found.state == "overdue"}
    numbers = range(table.low, high + 1)
    return frozenset((a, b) for a in numbers for b in numbers if late.intersection(table.keys(a, b)))


def sheet(
    facts: Facts, fill: Fill, high: int, foot: str, name: str, open_cells: Collection[Pair], large: bool
) -> Sheet:
    """The square, and where something is to be filled, the full one on a page of its own."""
    table = TABLES[facts]
    numbers = range(table.low, high + 1)
    every = {(a, b) for a in numbers for b in numbers}
    asked = {"empty": every, "full": set[Pair](), "overdue": set(open_cells)}[fill]
    shown = every if fill == "full" else set[Pair]()
    said = {"empty": EMPTY_SAID, "full": (), "overdue": OVERDUE_SAID}[fill]
    named = on_a_line(name, NAME_WIDTH, 5.0)
    head = Head(table.title, name, True, 8.0, named, HEAD)
    front = Page((head, *([Words(said, 10.0)] if said else []), square(table, high, asked, shown)))
    key = Page((Words((f"Key. {foot}",), 10.0), square(table, high, (), every)), key=True)
    return Sheet(foot, foot, (front,) if fill == "full" else (front, key), large)


def square(table: Table, high: int, asked: Collection[Pair], shown: Collection[Pair]) -> Square:
    numbers = range(table.low, high + 1)
    side = round(min(LARGEST_SIDE, WIDTH / (len(numbers) + 1)), 2)

    def cell(a: int, b: int) -> tuple[Cell, str]:
        if (a, b) in asked:
            return ("blank" if len(asked) == len(numbers) ** 2 else "open"), ""
        return ("given", str(table.value(a, b))) if (a, b) in shown else ("rest", "")

    heads: tuple[tuple[Cell, str], ...] = (("name", table.sign), *(("name", str(n)) for n in numbers))
    body = tuple((("name", str(a)), *(cell(a, b) for b in numbers)) for a in numbers)
    return Square(table.sign, (heads, *body), side, round(side * (len(numbers) + 1), 1))
