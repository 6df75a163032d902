"""What one would write of a product or quotient in the head under an error rule: rule -> number.

Only one part multiplied, and a zero that is dropped: Ashlock (from memory). A rounded factor that is never
adjusted, or adjusted once: Heirdsfield (from memory). The others are common practice, no source.
"""

from collections.abc import Mapping

from review.core.skills.mistakes import other_than
from review.core.skills.places import parts

NEAR_TEN = 8  # ones from which one rounds up


def of_head_product(a: int, b: int) -> Mapping[str, str]:
    """Of the larger number a and the multiplier b, each rule where it shows."""
    return other_than(a * b, {"added": a + b, **_of_parts(a, b), **_of_zeros(a, b), **_of_next_ten(a, b)})


def _of_parts(a: int, b: int) -> Mapping[str, int]:
    """23 × 4 as 83, 32 or 80."""
    first, *rest = parts(a)
    if not rest or b % 10 == 0:
        return {}
    return {
        "first_part_only": first * b + sum(rest),
        "last_part_only": a - rest[-1] + rest[-1] * b,
        "rest_left_out": first * b,
    }


def _of_zeros(a: int, b: int) -> Mapping[str, int]:
    """40 × 7 as 28 or 2,800."""
    if a % 10 and b % 10:
        return {}
    return {"zero_dropped": a * b // 10, "zero_extra": a * b * 10}


def _of_next_ten(a: int, b: int) -> Mapping[str, int]:
    """29 × 3 as 90 or 89."""
    up = -a % 10
    if a % 10 < NEAR_TEN or a < 10 or b % 10 == 0:
        return {}
    return {"not_adjusted": (a + up) * b, "adjusted_once": (a + up) * b - up}


def of_head_quotient(a: int, b: int) -> Mapping[str, str]:
    """Of the number a and the divisor b: 420 ÷ 7 as 6 or 600; 84 ÷ 7 as 77 or 7."""
    right = a // b
    zeros = {"zero_dropped": right // 10, "zero_extra": right * 10} if right % 10 == 0 else {}
    return other_than(right, {"took_away": a - b, "divisor": b, **zeros})
