"""Pictures for sums and differences in the head, way by way: counters by place where tens and ones are looked
at apart, an open number line where one walks.
"""

from collections.abc import Callable, Mapping, Sequence

from review.core.model import Help, Problem
from review.core.skills import mental_difference_ways, mental_sum_ways
from review.core.skills.mental_difference_ways import near_unit, through, up_stops
from review.core.skills.mental_sum_ways import carries, nearest, to_the_next
from review.core.skills.picture_help import how_long, pictured, reached, walked, wholes
from review.core.skills.place_counters import first_exchange, first_opening
from review.core.skills.place_pictures import AGAIN, exchanged, laid
from review.core.skills.places import parts
from review.core.skills.wording import grouped

Drawn = Callable[[int, int], tuple[Help, ...]]

CLOSE = 12  # so little apart, each step has a mark (our judgement)


def walk(start: int, by: Sequence[int]) -> tuple[Help, ...]:
    """Steps to count along where one jump is all."""
    if len(by) > 1:
        return pictured(walked(start, by), "Where does the last jump end?")
    unit = 10 ** (len(str(abs(by[0]))) - 1)
    each = "" if unit == 1 else f"Each step is {unit}."
    return pictured(walked(start, by, unit), "Count along the steps.", each)


# --- sums ---------------------------------------------------------------------------------------------


def _together(a: int, b: int) -> tuple[Help, ...]:
    again = (AGAIN,) if len(carries(a, b)) > 1 else ()
    return (*pictured(laid(a, b), "Put each column together."), *exchanged(first_exchange(a, b), *again))


def _by_the_next(a: int, b: int) -> tuple[Help, ...]:
    start, other, up = max(a, b), min(a, b), to_the_next(a, b)
    return walk(start, [up, other - up] if other > up else [other])


def _over_and_back(a: int, b: int) -> tuple[Help, ...]:
    near, other, up = nearest(a, b)
    return walk(other, [near + up, -up])


def _filled_up(a: int, b: int) -> tuple[Help, ...]:
    near, other, up = nearest(a, b)
    return walk(near, [up, other - up])


SUMS: Mapping[str, Drawn] = {
    "partitioning": _together,
    "by-units": _together,
    "counting-on": lambda a, b: walk(max(a, b), parts(min(a, b))),
    "bridging": _by_the_next,
    "rounding": _over_and_back,
    "compensating": _filled_up,
}


# --- differences --------------------------------------------------------------------------------------


def _from_these(a: int, b: int) -> tuple[Help, ...]:
    return (*pictured(laid(a), f"Take {grouped(b)} away from this."), *exchanged(first_opening(a, b)))


def _down(a: int, b: int) -> tuple[Help, ...]:
    return walk(a, [-part for part in through(a, b)])


def _up(a: int, b: int) -> tuple[Help, ...]:
    if a - b <= CLOSE:
        return pictured(reached(up_stops(a, b), each=1), "How many steps is it?")
    return pictured(reached(up_stops(a, b)), how_long(up_stops(a, b)))


def _moved(a: int, b: int) -> tuple[Help, ...]:
    up = -b % near_unit(a, b)
    at = up_stops(a + up, b + up)
    return pictured(reached(at), f"Both numbers moved {up} up.", how_long(at))


def _too_far_and_back(a: int, b: int) -> tuple[Help, ...]:
    up = -b % near_unit(a, b)
    return walk(a, [-b - up, up])


DIFFERENCES: Mapping[str, Drawn] = {
    "partitioning": _from_these,
    "by-units": _from_these,
    "opening": _from_these,
    "taking-off": _down,
    "bridging": _down,
    "counting-up": _up,
    "constant-difference": _moved,
    "rounding": _too_far_and_back,
}


# --- of a problem -------------------------------------------------------------------------------------


def of_sum(problem: Problem, way: str = "") -> tuple[Help, ...]:
    """By that way, or the one that suits the numbers best."""
    a, b = wholes(problem.asked)
    return SUMS[way or mental_sum_ways.best(a, b)](a, b)


def of_difference(problem: Problem, way: str = "") -> tuple[Help, ...]:
    a, b = wholes(problem.asked)
    return DIFFERENCES[way or mental_difference_ways.best(a, b)](a, b)
