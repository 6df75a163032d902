"""Help for products, quotients and the rules for 0 and 1: the numbers of one fact, as asked -> its hints."""

from collections.abc import Callable

from review.core.skills.hints import Hints, added, first_that_holds, multiplied, taken, you_know
from review.core.skills.wording import counted

# --- products and quotients ---------------------------------------------------------------------------

# Which factor to work from, the most helpful first: 6 × 7 from five 7s, 8 × 12 from ten 8s (our judgement).
PIVOTS = (10, 2, 5, 11, 9, 12, 3, 4, 6, 8, 7, *range(13, 21))

# factor -> (an anchor, what is left to do). The anchor's product is called "known".
NEAR = {
    3: (2, "One more {other}."),
    4: (2, "Double it."),
    5: (10, "Take half of it."),
    6: (5, "One more {other}."),
    7: (5, "Two more {other}s."),
    8: (4, "Double it."),
    9: (10, "One {other} fewer."),
    11: (10, "One more {other}."),
    12: (10, "Two more {other}s."),
}


def product_hints(left: int, right: int) -> Hints:
    pivot = min(left, right, key=PIVOTS.index)
    other = right if pivot == left else left

    def times(anchor: int) -> str:
        """The anchor's product, written in the order asked."""
        return multiplied(anchor, other) if pivot == left else multiplied(other, anchor)

    large = left * right > 50  # more counters than a table top takes (our judgement)
    build = "Draw it on squared paper:" if large else "Build it with your counters:"
    return Hints(
        _product_question(pivot, other, times),
        f"{build}\n{left} rows of {right}.",
        _product_neighbour(pivot, other, times),
        _product_steps(pivot, other, times),
    )


def _product_question(pivot: int, other: int, times: Callable[[int], str]) -> str:
    if pivot == 2:
        return f"What is {other} and {other}?"
    if pivot == 10:
        return f"How much are {other} tens?"
    anchor, then = NEAR.get(pivot, (10, f"{pivot - 10} more {{other}}s."))
    return f"What is {times(anchor).partition(' =')[0]}?\n{then.format(other=other)}"


def _product_neighbour(pivot: int, other: int, times: Callable[[int], str]) -> str:
    if pivot == 2:
        return f"It is double {other}."
    if pivot == 10:
        return f"10, 20, 30, ...\nCount {other} tens."
    anchor, then = NEAR.get(pivot, (10, f"{pivot - 10} more {{other}}s."))
    return you_know(times(anchor), then.format(other=other))


def _product_steps(pivot: int, other: int, times: Callable[[int], str]) -> tuple[str, ...]:
    known = {anchor: anchor * other for anchor in (2, 4, 5, 10)}
    doubled = {4: (times(2), added(known[2], known[2]))}
    return first_that_holds((
        (pivot == 2, lambda: (added(other, other),)),
        (pivot == 10, lambda: (f"{other} tens: {10 * other}.",)),
        (pivot == 5, lambda: (times(10), f"{known[10]} ÷ 2 = {known[5]}")),
        (pivot == 4, lambda: doubled[4]),
        (pivot == 8, lambda: (*doubled[4], added(known[4], known[4]))),
        (pivot == 9, lambda: (times(10), taken(known[10], other))),
        (pivot in (3, 6, 11), lambda: (times(pivot - 1), added((pivot - 1) * other, other))),
        (pivot == 7, lambda: (times(5), times(2), added(known[5], known[2]))),
        (True, lambda: (times(10), times(pivot - 10), added(known[10], (pivot - 10) * other))),
    ))  # fmt: skip


def quotient_hints(dividend: int, divisor: int) -> Hints:
    question = f"What is half of {dividend}?" if divisor == 2 else f"{divisor} times what makes {dividend}?"
    large = dividend > 50  # more counters than a table top takes (our judgement)
    counters = f"Put out {counted(dividend, 'counter')}.\nMake rows of {divisor}. How many rows?"
    squares = f"Use squared paper. Mark rows of {divisor}.\nStop at {dividend} squares. How many rows?"
    return Hints(
        question,
        squares if large else counters,
        _quotient_neighbour(dividend, divisor),
        _quotient_steps(dividend, divisor),
    )


def _anchor(answer: int) -> int:
    """The multiple one knows that is nearest below."""
    return next(known for known in (10, 5, 2, 1) if known < answer)


def _quotient_neighbour(dividend: int, divisor: int) -> str:
    answer = dividend // divisor
    ten = multiplied(10, divisor)
    start = multiplied(_anchor(answer), divisor)
    return first_that_holds((
        (divisor == 10, lambda: f"10, 20, 30, ...\nHow many tens make {dividend}?"),
        (divisor == 2, lambda: f"Think of doubles.\nWhich double makes {dividend}?"),
        (answer == 10, lambda: you_know(multiplied(divisor, 10), "Turn it round.")),
        (answer == 2, lambda: f"What is {divisor} and {divisor}?"),
        (answer == 5, lambda: you_know(ten, f"{dividend} is half of it.")),
        (answer == 9, lambda: you_know(ten, f"{dividend} is one {divisor} fewer.")),
        (True, lambda: you_know(start, f"How many more {divisor}s make {dividend}?")),
    ))  # fmt: skip


def _divided(dividend: int, divisor: int) -> str:
    return f"{dividend} ÷ {divisor} = {dividend // divisor}"


def _quotient_steps(dividend: int, divisor: int) -> tuple[str, ...]:
    answer = dividend // divisor
    anchor, ten = _anchor(answer), 10 * divisor
    more, whole = answer - anchor, _divided(dividend, divisor)
    return first_that_holds((
        (divisor == 10, lambda: (f"{dividend} is {counted(answer, 'ten')}.", whole)),
        (answer == 10, lambda: (multiplied(divisor, 10), multiplied(10, divisor), whole)),
        (answer == 2, lambda: (added(divisor, divisor), multiplied(2, divisor), whole)),
        (answer == 5 and divisor > 2, lambda: (multiplied(10, divisor), _divided(ten, 2), _divided(10, 2))),
        (answer == 9, lambda: (multiplied(10, divisor), taken(ten, divisor), taken(10, 1))),
        (answer == 4, lambda: (multiplied(2, divisor), added(2 * divisor, 2 * divisor), added(2, 2))),
        (True, lambda: (
            multiplied(anchor, divisor), taken(dividend, anchor * divisor), multiplied(more, divisor),
            added(anchor, more),
        )),
    ))  # fmt: skip


# --- rules --------------------------------------------------------------------------------------------


def rule_hints(rule: str, number: int) -> Hints:
    """Of one showing of a rule card; `rule` as it stands in the key, `number` the one that varies."""
    return RULES[rule](number)


RULES: dict[str, Callable[[int], Hints]] = {
    "n+0": lambda n: Hints(
        "What does adding nothing do?",
        f"Put out {counted(n, 'counter')}.\nPut out 0 more.",
        you_know(added(n, 1), "Now add one less."),
        ("Nothing is added.", added(n, 0)),
    ),
    "n-0": lambda n: Hints(
        "What does taking nothing do?",
        f"Put out {counted(n, 'counter')}.\nTake 0 away.",
        you_know(taken(n, 1), "Now take one less."),
        ("Nothing is taken.", taken(n, 0)),
    ),
    "n-n": lambda n: Hints(
        "How many are left when all go?",
        f"Put out {counted(n, 'counter')}.\nTake {n} away.",
        you_know(added(0, n), f"Now take the {n} away."),
        ("All are taken.", taken(n, n)),
    ),
    "nx0": lambda n: Hints(
        "How many are on empty plates?",
        f"Put out {counted(n, 'plate')}.\nPut 0 counters on each.",
        you_know(multiplied(n, 1), f"Now one {n} fewer."),
        ("Groups of nothing make nothing.", multiplied(n, 0)),
    ),
    "nx1": lambda n: Hints(
        "How many are in one group?",
        f"Build it with your counters:\none row of {n}.",
        you_know(multiplied(n, 2), f"Now one {n} fewer."),
        ("One group is all there is.", multiplied(n, 1)),
    ),
    "n/1": lambda n: Hints(
        "One child gets all. How many?",
        f"Put out {counted(n, 'counter')}.\nMake one row.",
        you_know(multiplied(n, 1), "Turn it round."),
        (multiplied(1, n), f"{n} ÷ 1 = {n}"),
    ),
    "n/n": lambda n: Hints(
        f"{counted(n, 'child shares', 'children share')} {n}. How many each?",
        f"Put out {counted(n, 'counter')}.\nMake rows of {n}.",
        you_know(multiplied(1, n), "Turn it round."),
        (multiplied(1, n), f"{n} ÷ {n} = 1"),
    ),
}
