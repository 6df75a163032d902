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


def of_bond(whole: int, known: int) -> Mapping[str, str]:
    """Of whole = known + □. Each place made up to ten: 63 and 47 for 100 (common practice, no source)."""
    right = whole - known
    written = {
        "counted_first": right + 1,
        "one_short": right - 1,
        "same_again": known,
        "added": whole + known,
        "places_to_ten": _each_to_ten(whole, known),
    }
    return other_than(right, written)


def _each_to_ten(whole: int, known: int) -> int:
    """The right answer where the whole is no 100 or 1,000, or a digit is 0 or left out."""
    digits = str(known)
    if whole not in (100, 1000) or "0" in digits or len(digits) != len(str(whole)) - 1:
        return whole - known
    return int("".join(str(10 - int(digit) % 10) for digit in digits if digit != "0"))


def of_double(number: int) -> Mapping[str, str]:
    """Doubled digit by digit, two added, or the number written twice (common practice, no source)."""
    tens, ones = divmod(number, 10)
    passes = tens > 0 and ones > 4
    written = {
        "ten_dropped": 2 * number - 10 if passes else 2 * number,
        "two_added": number + 2,
        "joined": int(f"{number}{number}"),
    }
    return other_than(2 * number, written)


def of_half(number: int) -> Mapping[str, str]:
    """Half of an odd number of tens without its five, two taken, or doubled (common practice, no source)."""
    odd = number // 10 % 2 == 1
    written = {
        "five_dropped": number // 2 - 5 if odd and number > 10 else number // 2,
        "two_taken": number - 2,
        "doubled": 2 * number,
    }
    return other_than(number // 2, written)
