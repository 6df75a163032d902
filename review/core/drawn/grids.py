"""Cells in columns with a rule below their heads; a cell may have several lines."""

from collections.abc import Sequence
from itertools import zip_longest

from review.core.pictures import Table

COLUMNS = 40  # a line a young reader takes in at a look (common practice)
APART = " | "
TIGHT = "|"

Cell = Sequence[str]


def grid(
    heads: Sequence[str], rows: Sequence[Sequence[Cell]], widths: Sequence[int], apart: str = APART
) -> tuple[str, ...]:
    """The heads, then each row below a rule."""
    rule = apart.replace(" ", "-").replace("|", "+").join("-" * width for width in widths)
    body = (line for row in rows for line in (rule, *row_lines(row, widths, apart)))
    return apart.join(map(str.ljust, heads, widths)), *body


def row_lines(row: Sequence[Cell], widths: Sequence[int], apart: str = APART) -> list[str]:
    return [apart.join(map(str.ljust, line, widths)) for line in zip_longest(*row, fillvalue="")]


def table(of: Table) -> tuple[str, ...]:
    """Heads in a row, close together where they must; where they are too long for that, in a column."""
    widths = [max(map(len, column)) for column in zip(of.heads, *of.rows, strict=True)]
    left = COLUMNS - sum(widths)
    fitting = (apart for apart in (APART, TIGHT) if len(apart) * (len(widths) - 1) <= left)
    apart = next(fitting, "")
    return _flat(of, widths, apart) if apart else _upright(of)


def _flat(of: Table, widths: Sequence[int], apart: str) -> tuple[str, ...]:
    heads = list(map(str.rjust, of.heads, widths))
    rows = ([(cell.rjust(width),) for cell, width in zip(row, widths, strict=True)] for row in of.rows)
    head, rule, *below = grid(heads, list(rows), widths, apart)
    return head, rule, *(line for line in below if line != rule)


def _upright(of: Table) -> tuple[str, ...]:
    wide = max(map(len, of.heads))
    columns = [[cell.rjust(max(map(len, row))) for cell in row] for row in of.rows]
    return tuple(
        "  ".join([head.ljust(wide), *cells]) for head, *cells in zip(of.heads, *columns, strict=True)
    )
