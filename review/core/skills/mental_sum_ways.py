"""Ways of adding in the head: which sums each suits, what is asked first, its steps.

What is nearly a ten or hundred is made one, what is small goes through the next ten, the rest part by part.
"""

from collections.abc import Mapping
from itertools import accumulate

from review.core.skills.methods import NEAR_HUNDRED, NEAR_TEN, Method, added
from review.core.skills.places import digit_at, first_place, parts, place_name
from review.core.skills.wording import EQUALS, MINUS, PLUS, grouped


def carries(a: int, b: int) -> tuple[int, ...]:
    """The places whose column passes into the next: 47 + 25 -> (1,), 67 + 55 -> (1, 10)."""
    return tuple(place for place in (1, 10, 100) if a % (place * 10) + b % (place * 10) >= place * 10)


def near_hundred(a: int, b: int) -> bool:
    """One number lacks little to its next hundred, and the other has more than that: 398 + 57."""
    return any(
        0 < -near % 100 <= NEAR_HUNDRED and other % 100 > -near % 100 for near, other in ((a, b), (b, a))
    )


def partitioning(a: int, b: int) -> tuple[str, ...]:
    """Tens and ones apart: 40 + 20 = 60, 7 + 5 = 12, 60 + 12 = 72."""
    places = [place for place in (100, 10, 1) if digit_at(a, place) or digit_at(b, place)]
    columns = [(digit_at(a, place) * place, digit_at(b, place) * place) for place in places]
    each = [added(x, y) for x, y in columns if x and y]
    together = f" {PLUS} ".join(grouped(x + y) for x, y in columns) + f" {EQUALS} {grouped(a + b)}"
    if len(columns) == 2 and not each:
        return _side_by_side(max(a, b), min(a, b)), together
    return (*each, together) if len(columns) > 1 else tuple(each)


def _side_by_side(a: int, b: int) -> str:
    """Nothing is added in any place: 7 tens and 6 ones."""
    return " and ".join(f"{n // first_place(n)} {_named(n)}" for n in (a, b)) + "."


def _named(number: int) -> str:
    name = place_name(first_place(number))
    return name.removesuffix("s") if number == first_place(number) else name


def counting_on(a: int, b: int) -> tuple[str, ...]:
    """From the greater number: the other's hundreds, then its tens, then its ones."""
    addends = parts(min(a, b))
    totals = accumulate(addends, initial=max(a, b))
    return tuple(added(total, part) for total, part in zip(totals, addends, strict=False))


def bridging(a: int, b: int) -> tuple[str, ...]:
    """Through the next ten: 47 + 3 = 50, 50 + 2 = 52. Just to it, by the bond of ten: 7 + 3 = 10. Whole tens
    through the next hundred: 345 + 60 = 405, 405 + 10 = 415."""
    start, other, up = max(a, b), min(a, b), to_the_next(a, b)
    if other == up:
        return added(start % 10, up), added(start - start % 10, 10)
    split = f"{other} {EQUALS} {up} {PLUS} {other - up}"
    return split, added(start, up), added(start + up, other - up)


def to_the_next(a: int, b: int) -> int:
    """From the greater number to its next ten, or hundred where whole tens are added."""
    start = max(a, b)
    return _tens_up(start) if _tens_pass(a, b) else -start % 10


def _tens_up(start: int) -> int:
    return 100 - start % 100 // 10 * 10


def _tens_pass(a: int, b: int) -> bool:
    """Whole tens past the next hundred."""
    start, other = max(a, b), min(a, b)
    return other % 10 == 0 and carries(a, b) == (10,) and other > _tens_up(start)


def nearest(a: int, b: int) -> tuple[int, int, int]:
    """The number nearer below its next ten or hundred, the other one, and what is missing to it."""
    unit = 100 if near_hundred(a, b) else 10
    near, other = (a, b) if a % unit >= b % unit else (b, a)
    return near, other, -near % unit


def rounding(a: int, b: int) -> tuple[str, ...]:
    """Round and adjust: 59 + 27 = 60 + 27 − 1."""
    near, other, up = nearest(a, b)
    total = near + up + other
    together = added(near + up, other) if near == a else added(other, near + up)
    return added(near, up), together, f"{grouped(total)} {MINUS} {up} {EQUALS} {grouped(a + b)}"


def compensating(a: int, b: int) -> tuple[str, ...]:
    """One number gives the other what it lacks: 58 + 27 = 60 + 25."""
    near, other, up = nearest(a, b)
    given = f"{grouped(other)} {MINUS} {up} {EQUALS} {grouped(other - up)}"
    together = added(near + up, other - up) if near == a else added(other - up, near + up)
    return added(near, up), given, together


def by_units(a: int, b: int) -> tuple[str, ...]:
    """Tens or hundreds counted like ones: 3 + 4 = 7, 30 + 40 = 70."""
    unit = round_unit(a, b)
    return added(a // unit, b // unit), added(a, b)


def round_unit(a: int, b: int) -> int:
    """What both numbers are a few of: 100, 10 or 1."""
    return next(
        unit for unit in (100, 10, 1) if a % unit == b % unit == 0 and (unit == 1 or max(a, b) < unit * 10)
    )


def _near_ten(a: int, b: int, least: int) -> bool:
    """One number lacks 1 or 2 to a ten that the sum passes, and neither is too small to make it worth it."""
    return 1 in carries(a, b) and max(a % 10, b % 10) >= NEAR_TEN and min(a, b) >= least


def _largest_both(a: int, b: int) -> int:
    """The largest place where there are two digits to add; 0 where there is none."""
    return next((place for place in (100, 10, 1) if digit_at(a, place) and digit_at(b, place)), 0)


def _of_parts(a: int, b: int) -> str:
    place = _largest_both(a, b)
    if place:
        return f"What do the {place_name(place)} make?"
    return "How many hundreds, tens and ones?" if max(a, b) > 99 else "How many tens? How many ones?"


def _of_next(a: int, b: int) -> str:
    return "How many tens to the next hundred?" if _tens_pass(a, b) else "How far to the next ten?"


def _of_rounding(a: int, b: int) -> str:
    return f"Which number is near a {'hundred' if near_hundred(a, b) else 'ten'}?"


METHODS: Mapping[str, Method] = {
    "partitioning": Method(lambda a, b: round_unit(a, b) == 1, _of_parts, partitioning),
    "counting-on": Method(
        lambda a, b: round_unit(a, b) == 1,
        lambda a, b: f"Add the {place_name(first_place(min(a, b)))} first. Where are you?",
        counting_on,
    ),
    "bridging": Method(
        lambda a, b: _tens_pass(a, b) or (1 in carries(a, b) and min(a, b) < 100), _of_next, bridging
    ),
    "rounding": Method(lambda a, b: near_hundred(a, b) or _near_ten(a, b, 8), _of_rounding, rounding),
    "compensating": Method(
        lambda a, b: near_hundred(a, b) or _near_ten(a, b, 9),
        lambda a, b: "Can one number fill up the other?",
        compensating,
    ),
    "by-units": Method(
        lambda a, b: round_unit(a, b) > 1,
        lambda a, b: f"How many {place_name(_largest_both(a, b) or 1)} are there together?",
        by_units,
    ),
}


def best(a: int, b: int) -> str:
    """The way that suits the numbers best."""
    if round_unit(a, b) > 1:
        return "by-units"
    if near_hundred(a, b):
        return "compensating"
    if 1 not in carries(a, b):
        return "partitioning"
    smaller, nearest = min(a, b), max(a % 10, b % 10)
    if smaller < 9:
        return "bridging"
    if nearest >= NEAR_TEN:
        return "rounding" if nearest == 9 else "compensating"
    return "counting-on" if smaller < 30 else "partitioning"
