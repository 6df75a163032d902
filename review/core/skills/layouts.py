"""Sums as they stand on paper: digits in columns, one below the other.

One space between digits and none to spare elsewhere but at the beginning of a line: a screen keeps those.
"""

from collections.abc import Sequence

from review.core.model import Help, Problem
from review.core.pictures import Lines
from review.core.skills.places import PLACES
from review.core.skills.wording import EQUALS, PLUS, grouped, spoken

ONE_OF = ("one", "ten", "hundred", "thousand")


def spaced(number: int | str) -> str:
    """478 -> "4 7 8"."""
    return " ".join(str(number))


def _aligned(rows: Sequence[str]) -> tuple[str, ...]:
    width = max(map(len, rows))
    return tuple(row.rjust(width) for row in rows)


def stacked(*parts: tuple[str, int] | None) -> tuple[str, ...]:
    """Rows of (sign, number), ones below ones; None draws a line."""
    rows = _aligned([f"{part[0]} {spaced(part[1])}".strip() for part in parts if part])
    left = iter(rows)
    return tuple(next(left) if part else "-" * len(rows[0]) for part in parts)


def in_columns(
    key: str, asked: str, of: tuple[int, str, int], verb: str, result: int, helps: tuple[Help, ...]
) -> Problem:
    """A problem of two numbers one below the other; `verb` as its fact is told: 38 + 27 makes 65."""
    a, sign, b = of
    prompt = f"{grouped(a)} {sign} {grouped(b)}"
    return Problem(
        key, key.partition(":")[0], asked, f"{prompt} {EQUALS}", spoken(a, sign, b), "whole", str(result),
        f"{prompt} {verb} {grouped(result)}.", helps, picture=Lines(stacked(("", a), (sign, b), None)),
    )  # fmt: skip


def labels(columns: int) -> list[str]:
    """The names of so many columns, ones first, of one width."""
    return list(_aligned([f"{name}:" for name in PLACES[:columns]]))


def units(count: int, at: int) -> str:
    """So many of a column: "1 ten", "14 ones"."""
    return f"{count} {ONE_OF[at] if count == 1 else PLACES[at]}"


def with_remainder(quotient: int, remainder: int) -> str:
    """As one writes it: "72 r 5", "72"."""
    return f"{quotient} r {remainder}" if remainder else str(quotient)


def exchange(count: int, at: int) -> str:
    """Ten of a column for one of the next: "14 ones = 1 ten + 4 ones"."""
    tens, left = divmod(count, 10)
    return f"{units(count, at)} {EQUALS} {units(tens, at + 1)}" + (
        f" {PLUS} {units(left, at)}" if left else ""
    )


def opened(at: int) -> str:
    """One of a column for ten of the column before: "1 ten = 10 ones"."""
    return f"{units(1, at)} {EQUALS} {units(10, at - 1)}"


def blocks(columns: int) -> str:
    return ("ones", "tens and ones", "hundreds, tens, ones", "place counters")[columns - 1]
