"""What one would write under each known error in written sums.

Each rule is a way of working told in words beside it; where it comes to a stand (a digit under zero, nothing
left to lend) it predicts nothing. Only answers that differ from the expected one are kept.
"""

from collections.abc import Callable, Iterable, Mapping
from itertools import zip_longest

from review.core.skills.layouts import with_remainder
from review.core.skills.walks import digits_of, number

Rule = Callable[[int, int], int | None]


def _told(rules: Mapping[str, Rule], a: int, b: int, expected: int) -> dict[str, str]:
    found = {name: rule(a, b) for name, rule in rules.items()}
    return {name: str(value) for name, value in found.items() if value is not None and value != expected}


def _side_by_side(columns: Iterable[int]) -> int:
    """Results of columns, ones first, written whole beside one another."""
    return int("".join(map(str, reversed(list(columns)))))


def _pairs(a: int, b: int) -> list[tuple[int, int]]:
    """Digits above each other, ones first; 0 where the shorter number has none."""
    return list(zip_longest(digits_of(a), digits_of(b), fillvalue=0))


# --- sums ---------------------------------------------------------------------------------------------


def _sums_whole(a: int, b: int) -> int:
    """Every column sum side by side."""
    return _side_by_side(x + y for x, y in _pairs(a, b))


def _digits_added(a: int, b: int) -> int:
    return sum(digits_of(a)) + sum(digits_of(b))


def _carry_always(a: int, b: int) -> int:
    """One more in every column after the first, needed or not."""
    totals = [x + y + (1 if at else 0) for at, (x, y) in enumerate(_pairs(a, b))]
    return _side_by_side([*(total % 10 for total in totals[:-1]), totals[-1]])


def _ones_to_all(a: int, b: int) -> int | None:
    """A one-digit number added to each digit, written whole."""
    return _side_by_side(digit + b for digit in digits_of(a)) if b < 10 <= a else None


def _carry_far(a: int, b: int) -> int:
    """Each ten put two columns to the left."""
    carries = dict[int, int]()
    written = list[int]()
    pairs = _pairs(a, b)
    at = 0
    while at < len(pairs) or any(place >= at for place in carries):
        total = (sum(pairs[at]) if at < len(pairs) else 0) + carries.get(at, 0)
        written.append(total % 10)
        if total >= 10:
            carries[at + 2] = 1
        at += 1
    return _side_by_side(written)


def _left_to_right(a: int, b: int) -> int:
    """From the left, each ten carried to the column on the right; the last column written whole."""
    written, carry = list[int](), 0
    pairs = _pairs(a, b)
    for at, (x, y) in reversed(list(enumerate(pairs))):
        total = x + y + carry
        written.append(total % 10 if at else total)
        carry = total // 10
    return _side_by_side(reversed(written))


def _carry_dropped(a: int, b: int) -> int:
    """Each ten forgotten; the last column written whole."""
    totals = [x + y for x, y in _pairs(a, b)]
    return _side_by_side([*(total % 10 for total in totals[:-1]), totals[-1]])


def _wrong_digit_carried(a: int, b: int) -> int:
    """The ten written and the ones carried; the last column written whole."""
    written, carry = list[int](), 0
    *others, (x, y) = _pairs(a, b)
    for one, other in others:
        tens, ones = divmod(one + other + carry, 10)
        written.append(tens or ones)
        carry = ones if tens else 0
    return _side_by_side([*written, x + y + carry])


SUM_RULES: Mapping[str, Rule] = {
    "sums_whole": _sums_whole,
    "digits_added": _digits_added,
    "carry_always": _carry_always,
    "ones_to_all": _ones_to_all,
    "carry_far": _carry_far,
    "left_to_right": _left_to_right,
    "carry_dropped": _carry_dropped,
    "wrong_digit": _wrong_digit_carried,
    "took_away": lambda a, b: _smaller_from_larger(max(a, b), min(a, b)),
}


def sum_errors(a: int, b: int) -> dict[str, str]:
    return _told(SUM_RULES, a, b, a + b)


# --- differences --------------------------------------------------------------------------------------

Lend = Callable[[list[int], int], None]  # digits of the upper number, and the column that lacks


def _borrowing(lend: Lend) -> Rule:
    """Column by column, ten for a column that lacks, and what the others then pay."""

    def rule(a: int, b: int) -> int | None:
        upper = digits_of(a)
        written = []
        for at, taken in enumerate(digits_of(b, len(upper))):
            if upper[at] < taken:
                if at == len(upper) - 1:
                    return None
                lend(upper, at)
                upper[at] += 10
            written.append(upper[at] - taken)
        return _side_by_side(written) if min(written) >= 0 else None

    return rule


def _nobody(upper: list[int], at: int) -> None:
    """No column is reduced."""


def _next_but_zeros(upper: list[int], at: int) -> None:
    """Zeros are skipped and stay, the column beyond pays."""
    for place in range(at + 1, len(upper)):
        if upper[place]:
            upper[place] -= 1
            return


def _zeros_only(upper: list[int], at: int) -> None:
    """A zero becomes nine and nobody pays for it; another digit pays."""
    if upper[at + 1]:
        upper[at + 1] -= 1
    for place in range(at + 1, len(upper)):
        if upper[place]:
            return
        upper[place] = 9


def _unless_zero(upper: list[int], at: int) -> None:
    if upper[at + 1]:
        upper[at + 1] -= 1


def _far_left(upper: list[int], at: int) -> None:
    upper[-1] -= 1


def _as_taught(upper: list[int], at: int) -> None:
    """Zeros become nine, the column beyond pays."""
    for place in range(at + 1, len(upper)):
        if upper[place]:
            upper[place] -= 1
            return
        upper[place] = 9


def _zero_takes(a: int, b: int) -> int | None:
    """Where the upper digit was printed as 0, the lower one is written."""
    upper, written = digits_of(a), list[int]()
    for at, (printed, taken) in enumerate(_pairs(a, b)):
        if printed and upper[at] < taken:
            if at == len(upper) - 1:
                return None
            _as_taught(upper, at)
            upper[at] += 10
        written.append(upper[at] - taken if printed else taken)
    return _side_by_side(written)


def _smaller_from_larger(a: int, b: int) -> int:
    return _side_by_side(abs(x - y) for x, y in _pairs(a, b))


def _zero_for_short(a: int, b: int) -> int:
    return _side_by_side(max(0, x - y) for x, y in _pairs(a, b))


def _borrow_always(a: int, b: int) -> int | None:
    """Ten to every column but the last and one from the next, needed or not, written whole."""
    pairs = _pairs(a, b)
    last = len(pairs) - 1
    written = [x - y + (10 if at < last else 0) - (1 if at else 0) for at, (x, y) in enumerate(pairs)]
    return _side_by_side(written) if min(written) >= 0 else None


DIFFERENCE_RULES: Mapping[str, Rule] = {
    "smaller_from_larger": _smaller_from_larger,
    "not_reduced": _borrowing(_nobody),
    "across_zero": _borrowing(_next_but_zeros),
    "from_zero": _borrowing(_zeros_only),
    "stops_at_zero": _borrowing(_unless_zero),
    "zero_takes_n": _zero_takes,
    "zero_for_short": _zero_for_short,
    "borrow_always": _borrow_always,
    "leftmost": _borrowing(_far_left),
    "added": lambda a, b: a + b,
}


def difference_errors(a: int, b: int) -> dict[str, str]:
    return _told(DIFFERENCE_RULES, a, b, a - b)


# --- products -----------------------------------------------------------------------------------------

Column = Callable[[int, int, int], int]  # digit, carried here, one-digit factor -> what the column makes


def _row(column: Column, factor: int, a: int, swap: bool = False) -> int:
    """A number times one digit, the columns worked as told; with `swap` the tens are written and the ones
    carried."""
    written, carry = list[int](), 0
    digits = digits_of(a)
    for at, digit in enumerate(digits):
        total = column(digit, carry, factor)
        if at == len(digits) - 1:
            written.append(total)
            break
        tens, ones = divmod(total, 10)
        written.append(tens if swap and tens else ones)
        carry = (ones if tens else 0) if swap else tens
    return _side_by_side(written)


def _by_rows(column: Column, swap: bool = False) -> Rule:
    """Each digit of the second number makes a row; the rows are then added as taught."""
    return lambda a, b: number([_row(column, factor, a, swap) for factor in digits_of(b)])


def _products_whole(a: int, b: int) -> int:
    """Digit products side by side, in each row."""
    return number([_side_by_side(digit * factor for digit in digits_of(a)) for factor in digits_of(b)])


def _ones_only(a: int, b: int) -> int | None:
    """Only the ones are multiplied; the other digits are copied, with what was carried added."""
    if b >= 10:
        return None
    ones, *others = digits_of(a)
    return ones * b + 10 * number(others)


def _same_place(a: int, b: int) -> int:
    return sum(digits_of(a)) * sum(digits_of(b))


def _zero_n(digit: int, carry: int, factor: int) -> int:
    return (digit * factor or factor) + carry


PRODUCT_RULES: Mapping[str, Rule] = {
    "carry_dropped": _by_rows(lambda digit, carry, factor: digit * factor),
    "whole": _products_whole,
    "carry_first": _by_rows(lambda digit, carry, factor: (digit + carry) * factor),
    "ones_only": _ones_only,
    "wrong_digit": _by_rows(lambda digit, carry, factor: digit * factor + carry, swap=True),
    "same_place": _same_place,
    "zero_n": _by_rows(_zero_n),
    "added": lambda a, b: a + b,
}


def product_errors(a: int, b: int) -> dict[str, str]:
    return _told(PRODUCT_RULES, a, b, a * b)


# --- quotients ----------------------------------------------------------------------------------------


def quotient_errors(a: int, b: int) -> dict[str, str]:
    """A step short or over is told of exact divisions only; elsewhere it would change the remainder too."""
    quotient, left = divmod(a, b)
    steps = {"step_short": str(quotient - 1), "step_over": str(quotient + 1)}
    remains = {"remainder_dropped": str(quotient), "to_next": with_remainder(quotient, b - left)}
    told = {**(remains if left else steps), "took_away": str(a - b), "divisor": str(b)}
    return {rule: text for rule, text in told.items() if text != with_remainder(quotient, left)}
