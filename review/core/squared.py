"""Squared paper with a sum written on it: a numeral a square, those of one place below each other.

A sum as the screen shows it has its numerals two signs apart, so that every other sign is a square.
"""

from collections.abc import Mapping, Sequence

from review.core.model import Problem
from review.core.paper import Squares

EMPTY: Mapping[str, int] = {"operations": 2, "add-several": 2}
"""Rows to work on by kind, where nothing is written for the child."""
BELOW: Mapping[str, int] = {
    "column-sum": 2, "column-difference": 2, "column-product": 4, "division-written": 6
}  # fmt: skip
"""Rows below a sum that is written there: its answer, and a row to spare; a product of each digit and what
they make; a row to take away and one for what is left, for each digit (common practice, no source)."""
ABOVE = 1  # for what is carried or exchanged; of a division, for its answer
RULE = "-"


def squares(problem: Problem, lines: Sequence[str], across: int) -> Squares | None:
    """With the sum of those lines on it; None for a kind that needs none."""
    kind = problem.kind
    if kind in EMPTY:
        return Squares(across, EMPTY[kind])
    if kind not in BELOW:
        return None
    left = columns(problem, lines) - widest(lines)
    numerals = [line for line in lines if RULE not in line]
    rules = [line for line in lines if RULE in line]
    signs = [
        (row, left + at // 2, sign)
        for row, line in enumerate(numerals, ABOVE)
        for at, sign in enumerate(line)
        if sign != " "
    ]
    above = ABOVE if lines[0] in rules else ABOVE + len(numerals)
    ends = [(above, left + line.index(RULE) // 2, left + len(line) // 2 + 1) for line in rules]
    return Squares(across, ABOVE + len(numerals) + below(kind, numerals), tuple(signs), tuple(ends))


def below(kind: str, numerals: Sequence[str]) -> int:
    """Few rows where the last number has few digits."""
    digits = sum(map(str.isdigit, numerals[-1].rpartition(")")[2]))
    needed = 2 * digits if kind in ("column-product", "division-written") else BELOW[kind]
    return min(needed, BELOW[kind])


def columns(problem: Problem, lines: Sequence[str]) -> int:
    """How many squares side by side a sum takes, with room to its left for any answer of such numbers."""
    digits = [sum(map(str.isdigit, line)) for line in lines if RULE not in line]
    answers = {"column-sum": max(digits, default=0) + 1, "column-product": sum(digits)}
    return max(widest(lines), answers.get(problem.kind, 0))


def widest(lines: Sequence[str]) -> int:
    return max((len(line) // 2 + 1 for line in lines), default=0)
