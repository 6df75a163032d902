"""What one would write where signs, not numbers, are misread: the equal sign, which operation comes first,
numbers below zero, estimates.

The equal sign as "write the result here": 8 + 4 = □ + 5 as 12 or 17 (Falkner, Levi & Carpenter 1999, from
memory). From the left, and brackets passed over: Blando, Kelly, Schneider & Sleeman 1989 (from memory).
Below zero: Gallardo 2002 (from memory). Estimates: common practice, no source.
"""

from collections.abc import Mapping, Sequence

from review.core.skills.wording import DIVIDED, MINUS, PLUS, TIMES

STRONG = (TIMES, DIVIDED)  # they come before plus and minus


def _others(right: int, written: Mapping[str, int | None]) -> Mapping[str, str]:
    return {rule: str(answer) for rule, answer in written.items() if answer not in (None, right)}


def of_balance(before: Sequence[int | None], after: Sequence[int | None]) -> Mapping[str, str]:
    """Of two sums, one number left out: what stands next to the equal sign is taken for the result."""
    numbers = [number for number in (*before, *after) if number is not None]
    full, gapped = (after, before) if None in before else (before, after)
    total, known = sum(number or 0 for number in full), sum(number or 0 for number in gapped)
    nearest = after[0] if None in before else total
    result = total if after[0] is None else (nearest or 0) - known if None in before else None
    written = {"result_next": result if result and result > 0 else None, "added": sum(numbers)}
    return _others(total - known, written)


def of_truth(true: bool, usual: bool) -> Mapping[str, str]:
    """Whether it is a sum with its result behind it; only such a statement would be true."""
    return {"result_next": "false"} if true and not usual else {}


def reckoned(a: int, sign: str, b: int) -> int | None:
    """None where it does not come out."""
    if sign == DIVIDED:
        return a // b if b and a % b == 0 else None
    return {PLUS: a + b, MINUS: a - b, TIMES: a * b}[sign]


def of_order(numbers: tuple[int, int, int], signs: tuple[str, str], brackets: bool) -> Mapping[str, str]:
    """Of a, sign, b, sign, c: worked from the left, from the right, or as if the brackets were not there."""
    (a, b, c), (one, two) = numbers, signs
    first, last = reckoned(a, one, b), reckoned(b, two, c)
    left = None if first is None else reckoned(first, two, c)
    right = None if last is None else reckoned(a, one, last)
    bare = right if two in STRONG and one not in STRONG else left
    written = {"brackets_ignored": bare} if brackets else {"from_the_left": left, "from_the_right": right}
    return {rule: str(answer) for rule, answer in written.items() if answer is not None and answer >= 0}


def of_move(start: int, by: int) -> Mapping[str, str]:
    """Of start + by, either of them below zero; by is negative where one goes down."""
    end = start + by
    written = {
        "sign_lost": abs(end),
        "wrong_way": start - by,
        "sign_ignored": abs(start) + by if abs(start) + by >= 0 else None,
    }
    return _others(end, written)


def of_apart(low: int, high: int) -> Mapping[str, str]:
    """From below zero to above it."""
    return _others(high - low, {"sign_ignored": abs(high + low), "one_over": high - low + 1})


def of_estimate(exact: int, down: int, about: int) -> Mapping[str, str]:
    """Not rounded, or always rounded down."""
    return _others(about, {"not_rounded": exact, "down": down})
