"""Plain arithmetic as a parent writes it, reckoned exactly and within bounds. Nothing in it is run as code.

A text is cut into signs that are known, read by Python's parser (`ast`, which runs nothing), and kept only if
every node stands in a table here: numbers, single letters, + - * / // %, comparisons, and, or, not. There are
no names, calls, powers, texts or lists to misuse. Length, nodes, depth and digits are bounded before anything
is reckoned, and every value on the way is bounded too, so that one reckoning costs at most `MOST_NODES` steps
on numbers of at most `LIMIT`. Values are whole numbers and fractions: 0.1 + 0.2 is 0.3.

No library is used for it: those for safe expressions reckon with floats and allow names, calls and powers
that would have to be forbidden one by one; what is allowed here is shorter than that list.
"""

import ast
import operator
import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import NamedTuple

LONGEST = 120  # characters; our judgement: a line and a half
MOST_NODES = 40  # numbers, letters and signs; our judgement
DEEPEST = 12  # our judgement: of sums in sums; a + a + a is two deep
MOST_DIGITS = 9  # of a number as written; our judgement
LIMIT = 10**12  # of a value on the way, and of its denominator; our judgement

Number = int | Fraction
Values = Mapping[str, int]
Reckon = Callable[[Values], Number]
Test = Callable[[Values], bool]


class Refusal(NamedTuple):
    wrong: str
    instead: str


class Expression(NamedTuple):
    """`reckon` raises ArithmeticError where there is no value: a division by zero, a number too large."""

    tokens: tuple[str, ...]
    letters: frozenset[str]
    reckon: Reckon
    whole: bool  # always a whole number: nothing is divided, no decimal stands in it


class Condition(NamedTuple):
    """`holds` raises ArithmeticError where a side has no value."""

    tokens: tuple[str, ...]
    letters: frozenset[str]
    holds: Test


# --- text -> tokens -----------------------------------------------------------------------------------

STANDS_FOR = str.maketrans(
    {"×": "*", "·": "*", "÷": "/", "−": "-", "–": "-", "≤": "<=", "≥": ">=", "≠": "!="}
)
TOKEN = re.compile(r"\d+(?:\.\d+)?|[A-Za-z]+|<=|>=|==|!=|//|[-+*/%()<>=]", re.ASCII)
WORDS = frozenset({"and", "or", "not"})


def tokens_of(text: str) -> tuple[str, ...] | Refusal:
    """The signs of a text, = as ==; or the first thing in it that cannot stand there."""
    if len(text) > LONGEST:
        return Refusal(f"it has {len(text):,} characters", f"write {LONGEST} at most")
    text = text.translate(STANDS_FOR)
    rest = TOKEN.sub(" ", text).split()
    if rest:
        return Refusal(f"“{rest[0][:20]}” cannot stand in it", "write numbers, letters and + - * / ( )")
    found = tuple("==" if token == "=" else token for token in TOKEN.findall(text))
    return next(filter(None, map(_refused_token, found)), found)


def _refused_token(token: str) -> Refusal | None:
    if token[0].isdigit() and len(token) > MOST_DIGITS:
        return Refusal(f"a number of {len(token)} digits", f"write {MOST_DIGITS} digits at most")
    if token.isalpha() and token not in WORDS and (len(token) > 1 or token.isupper()):
        return Refusal(f"“{token[:20]}” is no letter", "write single small letters, like a and b")
    return None


def joined(tokens: tuple[str, ...]) -> str:
    """As short as it can be read again: two ways of spacing are one."""
    return " ".join("".join(f" {token} " if token in WORDS else token for token in tokens).split())


# --- tokens -> something to reckon --------------------------------------------------------------------


class _Strange(Exception):
    """A node that is not in the tables."""


def expression(text: str) -> Expression | Refusal:
    """A sum that has a value, like a * b + 1."""
    read = _parsed(text)
    if isinstance(read, Refusal):
        return read
    tokens, tree, letters = read
    try:
        reckon = _number(tree)
    except _Strange:
        return Refusal("it is no sum", "write a sum, like a + b")
    return Expression(tokens, letters, reckon, not any(token == "/" or "." in token for token in tokens))


def condition(text: str) -> Condition | Refusal:
    """Something that holds or does not, like a > b and a % b == 0."""
    read = _parsed(text)
    if isinstance(read, Refusal):
        return read
    tokens, tree, letters = read
    try:
        return Condition(tokens, letters, _test(tree))
    except _Strange:
        return Refusal("it is no condition", "compare two things, like a > b")


def _parsed(text: str) -> tuple[tuple[str, ...], ast.expr, frozenset[str]] | Refusal:
    tokens = tokens_of(text)
    if isinstance(tokens, Refusal):
        return tokens
    try:
        tree = ast.parse(" ".join(tokens), mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        return Refusal("it cannot be read", "write every sign, like 2 * (a + b)")
    if _too_much(tree):
        return Refusal("it is too long", "write fewer numbers and signs")
    return tokens, tree, frozenset(token for token in tokens if token.isalpha()) - WORDS


def _too_much(tree: ast.expr) -> bool:
    """More nodes, or deeper ones, than are ever reckoned. Walked without recursion."""
    level: list[ast.AST] = [tree]
    count = 0
    for _ in range(DEEPEST):
        count += len(level)
        level = [
            child
            for node in level
            for child in ast.iter_child_nodes(node)
            if not isinstance(child, ast.operator | ast.cmpop | ast.boolop | ast.unaryop | ast.expr_context)
        ]
    return bool(level) or count > MOST_NODES


def _divided(left: Number, right: Number) -> Number:
    return _bounded(Fraction(left) / right)


def _bounded(value: Number) -> Number:
    if not -LIMIT <= value <= LIMIT or value.denominator > LIMIT:
        raise OverflowError("too large a number")
    return value.numerator if value.denominator == 1 else value


SIGNS: Mapping[type[ast.operator], Callable[..., Number]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: _divided,
    ast.FloorDiv: operator.floordiv,
    ast.Mod: operator.mod,
}
COMPARED: Mapping[type[ast.cmpop], Callable[..., bool]] = {
    ast.Lt: operator.lt,
    ast.LtE: operator.le,
    ast.Gt: operator.gt,
    ast.GtE: operator.ge,
    ast.Eq: operator.eq,
    ast.NotEq: operator.ne,
}


def _number(node: ast.expr) -> Reckon:
    match node:
        case ast.Constant(value=bool()):
            raise _Strange
        case ast.Constant(value=int() | float() as value):
            number = _bounded(Fraction(str(value)))
            return lambda values: number
        case ast.Name(id=name):
            return lambda values: values[name]
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            positive = _number(inner)
            return lambda values: -positive(values)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in SIGNS:
            return _combined(SIGNS[type(op)], _number(left), _number(right))
    raise _Strange


def _combined(sign: Callable[..., Number], left: Reckon, right: Reckon) -> Reckon:
    return lambda values: _bounded(sign(left(values), right(values)))


def _test(node: ast.expr) -> Test:
    match node:
        case ast.UnaryOp(op=ast.Not(), operand=inner):
            held = _test(inner)
            return lambda values: not held(values)
        case ast.BoolOp(op=op, values=parts):
            tests = [_test(part) for part in parts]
            every = all if isinstance(op, ast.And) else any
            return lambda values: every(test(values) for test in tests)
        case ast.Compare(left=first, ops=ops, comparators=others) if all(type(op) in COMPARED for op in ops):
            sides = [_number(side) for side in (first, *others)]
            signs = [COMPARED[type(op)] for op in ops]
            return lambda values: all(
                sign(left(values), right(values))
                for sign, left, right in zip(signs, sides[:-1], sides[1:], strict=True)
            )
    raise _Strange
