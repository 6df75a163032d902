"""What one would write under the error rules of facts; other kinds keep theirs beside their problems.

A rule that leaves two answers open has a row for each, its name before a slash: `ten_off/less` and
`ten_off/more`.
"""

from collections.abc import Mapping


def other_than(right: int, written: Mapping[str, int]) -> Mapping[str, str]:
    """Only what differs from the right answer, and could be written without a minus sign."""
    return {rule: str(answer) for rule, answer in written.items() if answer != right and answer >= 0}


def of_sum(a: int, b: int) -> Mapping[str, str]:
    """Of a + b, in the order asked."""
    written = {
        "counted_first": a + b - 1,
        "one_over": a + b + 1,
        "next_number": b + 1,
        "took_away": abs(a - b),
        "multiplied": a * b,
        "joined": int(f"{a}{b}"),
        "doubled": 2 * max(a, b),
    }
    return other_than(a + b, written)


def of_difference(a: int, b: int) -> Mapping[str, str]:
    """Of a − b: those rules of differences in the head that a fact can show."""
    right = a - b
    short_of_ones = a % 10 < b % 10
    written = {"ten_kept": right + 10 if short_of_ones else right, "one_short": right - 1, "added": a + b}
    return other_than(right, written)


def of_product(a: int, b: int) -> Mapping[str, str]:
    """Of a × b. Neighbours in a table are left out: one step off explains a third of real misses, and names
    nothing. Doubling once is meant where one should double and go on, at 3 and 4 (our judgement)."""
    right, large = a * b, max(a, b)
    one, zero = 1 in (a, b), 0 in (a, b)
    written = {
        "added": a + b,
        "swapped": _swapped(right),
        "ten_off/less": right - 10,
        "ten_off/more": right + 10,
        "times_zero": large if zero else right,
        "times_one/more": large + 1 if one else right,
        "times_one/one": 1 if one else right,
        "doubled_only": 2 * large if min(a, b) in (3, 4) else right,
        "joined": int(f"{a}{b}"),
    }
    return other_than(right, written)


def _swapped(number: int) -> int:
    """The two digits turned round; a number that would begin with 0 stays."""
    tens, ones = divmod(number, 10)
    return ones * 10 + tens if 0 < tens < 10 and ones else number


def of_quotient(a: int, b: int) -> Mapping[str, str]:
    right = a // b
    written = {"step_short": right - 1, "step_over": right + 1, "took_away": a - b, "divisor": b}
    return other_than(right, written)
