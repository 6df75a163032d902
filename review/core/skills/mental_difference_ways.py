"""Ways of subtracting in the head: which differences each suits, what is asked first, its steps.

Where a column falls short, the two numbers are never split into tens and ones apart: that way invites the
smaller digit to be taken from the larger.
"""

from collections.abc import Mapping
from itertools import pairwise

from review.core.skills.methods import NEAR_HUNDRED, NEAR_TEN, Method, added
from review.core.skills.places import digit_at, first_place, parts, place_name
from review.core.skills.wording import EQUALS, MINUS, PLUS, grouped


def borrows(a: int, b: int) -> tuple[int, ...]:
    """The places whose column needs one of the next: 52 − 29 -> (1,), 304 − 7 -> (1, 10)."""
    return tuple(place for place in (1, 10, 100) if a % (place * 10) < b % (place * 10))


def near_hundred(a: int, b: int) -> bool:
    """A number is taken that lacks little to a hundred, through a hundred: 304 − 98."""
    return 10 in borrows(a, b) and b % 100 >= 100 - NEAR_HUNDRED


def _take(a: int, b: int) -> str:
    return f"{grouped(a)} {MINUS} {grouped(b)} {EQUALS} {grouped(a - b)}"


def partitioning(a: int, b: int) -> tuple[str, ...]:
    """Only where no column falls short: 50 − 20 = 30, 8 − 3 = 5, 30 + 5 = 35."""
    columns = [(digit_at(a, first_place(part)) * first_place(part), part) for part in parts(b)]
    rest = a - sum(whole for whole, _ in columns)
    left = [whole - part for whole, part in columns]
    left = [part for part in ([rest, *left] if rest > b else [*left, rest]) if part]
    together = f" {PLUS} ".join(map(grouped, left)) + f" {EQUALS} {grouped(a - b)}"
    return (*(_take(*column) for column in columns), together if len(left) > 1 else _take(a, b))


def taking_off(a: int, b: int) -> tuple[str, ...]:
    """What is taken goes place by place, each through the ten or hundred: 52 − 20 = 32, 32 − 2 = 30, ..."""
    steps: list[str] = []
    for taken in through(a, b):
        steps.append(_take(a, taken))
        a -= taken
    return tuple(steps)


def through(a: int, b: int) -> tuple[int, ...]:
    """What is taken bite by bite."""
    found: list[int] = []
    for part in parts(b):
        found += _bites(a - sum(found), part)
    return tuple(found)


def _bites(a: int, part: int) -> tuple[int, ...]:
    """Some tens or ones in two bites, down to the next hundred or ten and on, where they go past it."""
    place = first_place(part)
    down = digit_at(a, place) * place
    return (down, part - down) if 0 < down < part else (part,)


def opening(a: int, b: int) -> tuple[str, ...]:
    """From a ten or hundred that is opened: 50 − 7 is 10 − 7 = 3 and 40 + 3 = 43."""
    unit = _opened(b)
    return _take(unit, b), added(a - unit, unit - b)


def _opened(b: int) -> int:
    return 10 if b < 10 else 100


def counting_up(a: int, b: int) -> tuple[str, ...]:
    """From the smaller number to the greater, by way of the next ten and the next hundred."""
    stops = up_stops(a, b)
    jumps = [after - before for before, after in pairwise(stops)]
    together = f" {PLUS} ".join(map(grouped, jumps)) + f" {EQUALS} {grouped(a - b)}"
    steps = [added(at, jump) for at, jump in zip(stops, jumps, strict=False)]
    return (*steps, together) if len(jumps) > 1 else (*steps, _take(a, b))


def up_stops(a: int, b: int) -> list[int]:
    """The numbers one passes on the way up, both ends with them."""
    stops = [b]
    for unit in (10, 100):
        stop = stops[-1] + -stops[-1] % unit
        stops += [stop] if stops[-1] < stop <= a and a // unit > b // unit else []
    return [*stops, a] if stops[-1] < a else stops


def constant_difference(a: int, b: int) -> tuple[str, ...]:
    """Both numbers go up alike, until a round one is taken: 52 − 29 = 53 − 30."""
    up = -b % near_unit(a, b)
    return added(b, up), added(a, up), _take(a + up, b + up)


def rounding(a: int, b: int) -> tuple[str, ...]:
    """A round number is taken, and what was too much is put back: 52 − 29 = 52 − 30 + 1."""
    up = -b % near_unit(a, b)
    return added(b, up), _take(a, b + up), added(a - b - up, up)


def by_units(a: int, b: int) -> tuple[str, ...]:
    """Tens or hundreds counted like ones: 7 − 4 = 3, 70 − 40 = 30."""
    unit = 100 if a % 100 == b % 100 == 0 else 10
    return _take(a // unit, b // unit), _take(a, b)


def near_unit(a: int, b: int) -> int:
    return 100 if near_hundred(a, b) else 10


def _all_round(a: int, b: int) -> bool:
    return a % 10 == b % 10 == 0 and (a % 100 == b % 100 == 0 or b < 100)


def _in_one_place(b: int) -> bool:
    """Ones alone, or tens alone."""
    return b < 10 or (b < 100 and b % 10 == 0)


def _near(a: int, b: int) -> bool:
    return near_hundred(a, b) or (1 in borrows(a, b) and b % 10 >= NEAR_TEN)


def _largest(b: int) -> str:
    return place_name(first_place(b))


def _opens(a: int, b: int) -> bool:
    unit = _opened(b)
    return _in_one_place(b) and unit // 10 in borrows(a, b) and a > unit


UNITS = {10: "ten", 100: "hundred"}
METHODS: Mapping[str, Method] = {
    "by-units": Method(_all_round, lambda a, b: f"How many {_largest(b)} are left?", by_units),
    "partitioning": Method(
        lambda a, b: not borrows(a, b) and not _all_round(a, b),
        lambda a, b: f"What is left of the {_largest(b)}?",
        partitioning,
    ),
    "taking-off": Method(
        lambda a, b: not _in_one_place(b) and not _all_round(a, b),
        lambda a, b: f"How many {_largest(b)} come off first?",
        taking_off,
    ),
    "bridging": Method(
        lambda a, b: _in_one_place(b) and borrows(a, b) != (),
        lambda a, b: f"How far down to the next {UNITS[_opened(b)]}?",
        taking_off,
    ),
    "opening": Method(_opens, lambda a, b: f"Which {UNITS[_opened(b)]} can you open?", opening),
    "counting-up": Method(
        lambda a, b: borrows(a, b) != () and (b >= 10 or a - b < 10),
        lambda a, b: f"How far from {grouped(b)} to {grouped(up_stops(a, b)[1])}?",
        counting_up,
    ),
    "constant-difference": Method(
        _near, lambda a, b: f"What would make {grouped(b)} a round number?", constant_difference
    ),
    "rounding": Method(
        lambda a, b: _near(a, b) and a > b + -b % near_unit(a, b),
        lambda a, b: f"Which {UNITS[near_unit(a, b)]} is near {grouped(b)}?",
        rounding,
    ),
}

SMALL_GAP = 30  # so far apart and less, counting up has the shortest way; our judgement


def best(a: int, b: int) -> str:
    """The way that suits the numbers best; partitioning never where a column falls short."""
    short = borrows(a, b)
    rules = (
        ("by-units", _all_round(a, b)),
        ("partitioning", not short),
        ("counting-up", a - b < 10 <= b or a == 10),
        ("constant-difference", near_unit(a, b) == 100),
        ("opening", b < 10 and a % 10 == 0),
        ("opening", b < 100 and b % 10 == 0 == digit_at(a, 10)),
        ("bridging", _in_one_place(b)),
        ("constant-difference", 1 in short and b % 10 >= NEAR_TEN),
        ("counting-up", a - b <= SMALL_GAP or a % 100 == 0),
    )
    return next((name for name, suits in rules if suits), "taking-off")
