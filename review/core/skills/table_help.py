"""Help for products, quotients and the rules for 0 and 1: the numbers of one fact, as asked -> its hints."""

from collections.abc import Callable

from review.core.model import BOX
from review.core.skills.hints import Hints, added, multiplied, suiting, taken
from review.core.skills.table_ways import QUOTIENT, product_ideas
from review.core.skills.wording import counted

# --- products and quotients ---------------------------------------------------------------------------


def product_hints(left: int, right: int) -> Hints:
    large = left * right > 50  # more counters than a table top takes (our judgement)
    build = "Draw it on squared paper:" if large else "Build it with your counters:"
    idea, of = next(product_ideas(left, right))
    return idea.hints(f"{build}\n{left} rows of {right}.", of)


def quotient_hints(dividend: int, divisor: int) -> Hints:
    large = dividend > 50  # more counters than a table top takes (our judgement)
    counters = f"Put out {counted(dividend, 'counter')}.\nMake rows of {divisor}. How many rows?"
    squares = f"Use squared paper. Mark rows of {divisor}.\nStop at {dividend} squares. How many rows?"
    build = squares if large else counters
    return suiting(QUOTIENT, dividend, divisor)[0].hints(build, dividend, divisor)


# --- rules --------------------------------------------------------------------------------------------


def rule_hints(rule: str, number: int) -> Hints:
    """Of one showing of a rule card; `rule` as it stands in the key, `number` the one that varies."""
    return RULES[rule](number)


RULES: dict[str, Callable[[int], Hints]] = {
    "n+0": lambda n: Hints(
        "What does adding nothing do?",
        f"Put out {counted(n, 'counter')}.\nThen put out no more.",
        "",
        ("Nothing is added.", added(n, 0)),
    ),
    "n-0": lambda n: Hints(
        "What does taking nothing do?",
        f"Put out {counted(n, 'counter')}.\nTake 0 away.",
        "",
        ("Nothing is taken.", taken(n, 0)),
    ),
    "n-n": lambda n: Hints(
        "How many are left when all go?",
        f"Put out {counted(n, 'counter')}.\nTake {n} away.",
        "",
        ("All are taken.", taken(n, n)),
    ),
    "nx0": lambda n: Hints(
        "How many are on empty plates?",
        f"Put out {counted(n, 'plate')}.\nPut 0 counters on each.",
        "",
        ("Groups of nothing make nothing.", multiplied(n, 0)),
    ),
    "nx1": lambda n: Hints(
        "How many are in one group?",
        f"Build it with your counters:\none row of {n}.",
        "",
        ("One group is all there is.", multiplied(n, 1)),
    ),
    "n/1": lambda n: Hints(
        "One child gets all. How many?",
        f"Put out {counted(n, 'counter')}.\nMake one row.",
        "",
        ("One share is all there is.", f"{n} ÷ 1 = {n}"),
    ),
    "n/n": lambda n: Hints(
        f"{counted(n, 'child shares', 'children share')} {n}. How many each?",
        f"Put out {counted(n, 'counter')}.\nMake rows of {n}.",
        "",
        (multiplied(1, n), f"{n} ÷ {n} = 1"),
        (f"{BOX} × {n} = {n}",),
    ),
}
