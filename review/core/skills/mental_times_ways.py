"""Ways of multiplying and dividing in the head: which numbers each suits, what is asked first, its steps.

Doubles and halves that are asked in words are worked without the signs for times and division.
"""

from collections.abc import Mapping

from review.core.skills.doubled_ways import near_even_ten, near_ten, rounded_double, rounded_half
from review.core.skills.methods import NEAR_TEN, Method
from review.core.skills.places import parts, place_name
from review.core.skills.wording import DIVIDED, EQUALS, MINUS, PLUS, TIMES, grouped

POWERS = (10, 100, 1000)
LEAST_ROUNDED = 10  # numbers over it are worth rounding


def _written(a: int, sign: str, b: int, result: int) -> str:
    return f"{grouped(a)} {sign} {grouped(b)} {EQUALS} {grouped(result)}"


def _times(a: int, b: int) -> str:
    return _written(a, TIMES, b, a * b)


def _shared(a: int, b: int) -> str:
    return _written(a, DIVIDED, b, a // b)


def _added(a: int, b: int) -> str:
    return _written(a, PLUS, b, a + b)


def _taken(a: int, b: int) -> str:
    return _written(a, MINUS, b, a - b)


def _together(values: list[int]) -> tuple[str, ...]:
    """The sum of several values, if they are several."""
    total = f" {PLUS} ".join(map(grouped, values)) + f" {EQUALS} {grouped(sum(values))}"
    return (total,) if len(values) > 1 else ()


def unit_of(a: int) -> int:
    return next(unit for unit in (1000, 100, 10, 1) if a % unit == 0)


def several_digits(a: int) -> bool:
    """Neither a number of one digit nor a round one like 40 or 400."""
    return len(parts(a)) > 1


# --- products -----------------------------------------------------------------------------------------


def by_parts(a: int, b: int) -> tuple[str, ...]:
    """Tens and ones apart: 20 × 3 = 60, 4 × 3 = 12, 60 + 12 = 72."""
    return (*(_times(part, b) for part in parts(a)), *_together([part * b for part in parts(a)]))


def from_next_ten(a: int, b: int) -> tuple[str, ...]:
    """29 × 3 is 30 × 3 less 1 × 3."""
    up = -a % 10
    return _times(a + up, b), _times(up, b), _taken((a + up) * b, up * b)


def by_units(a: int, b: int) -> tuple[str, ...]:
    """3 × 4 = 12, 30 × 4 = 120."""
    return _times(a // unit_of(a), b), _times(a, b)


def doubling_again(a: int, b: int) -> tuple[str, ...]:
    """24 × 4: 24 + 24 = 48, 48 + 48 = 96."""
    times = {4: (1, 2), 8: (1, 2, 4)}[b]
    return tuple(_added(a * so_far, a * so_far) for so_far in times)


def half_of_ten(a: int, b: int) -> tuple[str, ...]:
    """24 × 5: 24 × 10 = 240, 240 ÷ 2 = 120."""
    return _times(a, 10), _shared(10 * a, 2)


def ten_less_one(a: int, b: int) -> tuple[str, ...]:
    """24 × 9: 24 × 10 = 240, 240 − 24 = 216."""
    return _times(a, 10), _taken(10 * a, a)


def doubling(a: int, b: int) -> tuple[str, ...]:
    return (*(_added(part, part) for part in parts(a)), *_together([2 * part for part in parts(a)]))


def moving_up(a: int, b: int) -> tuple[str, ...]:
    return f"Each digit moves: ones become {place_name(b)}.", _times(a, b)


def _near_ten(a: int, b: int) -> bool:
    return a > LEAST_ROUNDED and a % 10 >= NEAR_TEN


PRODUCTS: Mapping[str, Method] = {
    "partitioning": Method(
        lambda a, b: several_digits(a), lambda a, b: f"What is {grouped(parts(a)[0])} {TIMES} {b}?", by_parts
    ),
    "rounding": Method(_near_ten, lambda a, b: f"Which ten is near {grouped(a)}?", from_next_ten),
    "by-units": Method(
        lambda a, b: not several_digits(a) and a > 9,
        lambda a, b: f"What is {a // unit_of(a)} {TIMES} {b}?",
        by_units,
    ),
    "doubles": Method(
        lambda a, b: several_digits(a) and b in (4, 8),
        lambda a, b: f"What is double {grouped(a)}?",
        doubling_again,
    ),
    "half-of-ten": Method(
        lambda a, b: several_digits(a) and b == 5,
        lambda a, b: f"What is {grouped(a)} {TIMES} 10?",
        half_of_ten,
    ),
    "ten-less-one": Method(
        lambda a, b: several_digits(a) and b == 9,
        lambda a, b: f"What is {grouped(a)} {TIMES} 10?",
        ten_less_one,
    ),
}
DOUBLES: Mapping[str, Method] = {
    "partitioning": Method(
        lambda a, b: several_digits(a), lambda a, b: f"What is double {grouped(parts(a)[0])}?", doubling
    ),
    "rounding": Method(
        lambda a, b: near_ten(a),
        lambda a, b: f"Which ten is near {grouped(a)}?",
        lambda a, b: rounded_double(a),
    ),
}
MOVING_UP: Mapping[str, Method] = {
    "": Method(lambda a, b: True, lambda a, b: "Where does each digit move?", moving_up)
}


# --- quotients ----------------------------------------------------------------------------------------


def each_goes(a: int, b: int) -> bool:
    return several_digits(a) and all(part // unit_of(part) % b == 0 for part in parts(a))


def shared_by_parts(a: int, b: int) -> tuple[str, ...]:
    """Each digit goes: 80 ÷ 4 = 20, 4 ÷ 4 = 1, 20 + 1 = 21. Else as many tens as go, then the rest:
    72 = 40 + 32, 40 ÷ 4 = 10, 32 ÷ 4 = 8, 10 + 8 = 18."""
    goes = each_goes(a, b)
    shares = parts(a) if goes else [part * b for part in parts(a // b)]
    split = f"{grouped(a)} {EQUALS} " + f" {PLUS} ".join(map(grouped, shares))
    each = (_shared(share, b) for share in shares)
    return (*(() if goes else (split,)), *each, *_together([share // b for share in shares]))


def _of_parts(a: int, b: int) -> str:
    if each_goes(a, b):
        return f"What is {grouped(parts(a)[0])} {DIVIDED} {b}?"
    return f"Which tens can you share between {b}?"


def shared_by_units(a: int, b: int) -> tuple[str, ...]:
    """42 ÷ 7 = 6, 420 ÷ 7 = 60."""
    unit = unit_of(a // b)
    return _shared(a // unit, b), _shared(a, b)


def shared_from_next_ten(a: int, b: int) -> tuple[str, ...]:
    """57 ÷ 3: 60 ÷ 3 = 20, 3 ÷ 3 = 1, 20 − 1 = 19."""
    up = -(a // b) % 10
    return _shared(a + up * b, b), _shared(up * b, b), _taken(a // b + up, up)


def halving_again(a: int, b: int) -> tuple[str, ...]:
    """72 ÷ 4: 72 ÷ 2 = 36, 36 ÷ 2 = 18."""
    so_far = {4: (1, 2), 8: (1, 2, 4)}[b]
    return tuple(_shared(a // parts_made, 2) for parts_made in so_far)


def halving(a: int, b: int) -> tuple[str, ...]:
    """Half of each part, the tens of odd digits among them: half of 50, half of 6, 25 + 3 = 28.

    In words: halves come before the sign for division.
    """
    each = (f"Half of {grouped(part)} is {grouped(part // 2)}." for part in parts(a))
    return (*each, *_together([part // 2 for part in parts(a)]))


def moving_down(a: int, b: int) -> tuple[str, ...]:
    return f"Each digit moves: {place_name(b)} become ones.", _shared(a, b)


def _is_place_fact(a: int, b: int) -> bool:
    return a // b >= 20 and not several_digits(a // b)


QUOTIENTS: Mapping[str, Method] = {
    "partitioning": Method(lambda a, b: several_digits(a // b), _of_parts, shared_by_parts),
    "by-units": Method(
        _is_place_fact,
        lambda a, b: f"What is {grouped(a // unit_of(a // b))} {DIVIDED} {b}?",
        shared_by_units,
    ),
    "rounding": Method(
        lambda a, b: _near_ten(a // b, b),
        lambda a, b: f"What is {grouped(a + -(a // b) % 10 * b)} {DIVIDED} {b}?",
        shared_from_next_ten,
    ),
    "halving": Method(
        lambda a, b: several_digits(a // b) and b in (4, 8),
        lambda a, b: f"What is half of {grouped(a)}?",
        halving_again,
    ),
}
HALVES: Mapping[str, Method] = {
    "partitioning": Method(
        lambda a, b: several_digits(a), lambda a, b: f"What is half of {grouped(parts(a)[0])}?", halving
    ),
    "rounding": Method(
        lambda a, b: near_even_ten(a),
        lambda a, b: f"Which ten is near {grouped(a)}?",
        lambda a, b: rounded_half(a),
    ),
}
MOVING_DOWN: Mapping[str, Method] = {
    "": Method(lambda a, b: True, lambda a, b: "Where does each digit move?", moving_down)
}
