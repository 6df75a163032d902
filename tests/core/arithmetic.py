"""What lines say in numbers, signs and words, worked out again: sums by the language itself."""

import ast
import operator
import re
from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

SIGNS = str.maketrans({"×": "*", "x": "*", "÷": "/", "−": "-"})
DOES: dict[type[ast.operator], Callable[[Fraction, Fraction], Fraction]] = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv,
}  # fmt: skip


def ungrouped(text: str) -> str:
    """1,000 as 1000; a list like "9, 10, 11" stays as it is."""
    return re.sub(r"(?<=\d),(?=\d{3})", "", text)


@lru_cache(50_000)  # the same sums stand in help after help
def value(line: str) -> Fraction:
    """Python ranks the signs as mathematics does. Only whole numbers stand in a line."""
    return _worth(ast.parse(ungrouped(line).translate(SIGNS).strip(), mode="eval").body)


def _worth(node: ast.expr) -> Fraction:
    match node:
        case ast.BinOp():
            return DOES[type(node.op)](_worth(node.left), _worth(node.right))
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return -_worth(operand)
        case ast.Constant(value=int(number)):
            return Fraction(number)
        case _:
            raise ValueError(ast.dump(node))


EQUATION = re.compile(r"[0-9][0-9 +−×÷]*(?: = [0-9 +−×÷]*[0-9])+")


def equations(text: str) -> list[list[Fraction]]:
    return [[value(side) for side in found.split("=")] for found in EQUATION.findall(ungrouped(text))]


def counted_rightly(text: str) -> bool | None:
    """Start at 8. 9, 10, 11. That is 3 steps. / 3 tens: 30. / Share 2 at a time. 2, 4, 6. Each gets 3."""
    shared = re.fullmatch(r"Share 2 at a time\.\n([\d, ]+)\.\nEach gets (\d+)\.", text)
    if shared:
        return [int(n) for n in shared[1].split(", ")] == [2 * n for n in range(1, int(shared[2]) + 1)]
    halves = re.fullmatch(r"Half of (\d+) is (\d+)\.\nHalf of (\d+) is (\d+)\.", text)
    if halves:  # of ones and of as many tens
        few, half, tens, answer = map(int, halves.groups())
        return (2 * half, tens, answer) == (few, 10 * few, 10 * half)
    if re.fullmatch(r"You have all \d+\.\nNothing is missing: 0\.", text):
        return True
    start = re.fullmatch(r"Start at (\d+)\.\n([\d, ]+)\.(?:\nThat is (\d+) steps?\.)?", text)
    if start:
        row = [int(start[1]), *map(int, start[2].split(", "))]
        even = {after - before for before, after in pairwise(row)} in ({1}, {-1})
        return even and (start[3] is None or int(start[3]) == len(row) - 1)
    units = re.fullmatch(r"(\d+ (?:tens?|ones?)(?: and \d+ (?:tens?|ones?))*): (\d+)\.", text)
    if units:
        sizes = re.findall(r"(\d+) (ten|one)", units[1])
        return sum(int(count) * (10 if unit == "ten" else 1) for count, unit in sizes) == int(units[2])
    return None
