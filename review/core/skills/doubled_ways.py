"""Ways of working out a double or a half, the most helpful first.

In words, never with the signs for times and division: doubles and halves are learned before them.
"""

from review.core.model import BOX
from review.core.skills.fact_ways import doubled
from review.core.skills.hints import Idea, added, halved, in_tens, taken, you_know
from review.core.skills.wording import grouped

# --- doubles ------------------------------------------------------------------------------------------


def near_ten(number: int) -> bool:
    """1 or 2 under a ten past the first."""
    return number > 10 and number % 10 in (8, 9)


def rounded_double(number: int) -> tuple[str, ...]:
    """Double 38 is double 40 less 4."""
    up = -number % 10
    return added(number + up, number + up), taken(2 * (number + up), 2 * up)


def _tens_of(number: int) -> int:
    return number - number % 10


def _round_neighbour(number: int) -> str:
    return f"{in_tens(number)} and {in_tens(number)}."


DOUBLE: tuple[Idea, ...] = (
    Idea(
        "by-units", lambda number: number % 10 == 0,
        lambda number: f"How many tens is {number} and {number}?", _round_neighbour, doubled,
    ),
    Idea(
        "counting-on", lambda number: number <= 5,
        lambda number: f"What is {number} and {number}?",
        lambda number: (
            "Put 1 finger up.\nPut up one more." if number == 1
            else you_know(added(number - 1, number - 1), "Two more.")
        ),
        doubled,
    ),
    Idea(
        "five-as-anchor", lambda number: 5 < number < 10,
        lambda number: "What is 5 and 5?",
        lambda number: you_know(added(5, 5), f"Then double {number - 5}."), doubled,
    ),
    Idea(
        "near-doubles", lambda number: 2 < number < 10,
        lambda number: f"What is {number - 1} and {number - 1}?",
        lambda number: you_know(added(number - 1, number - 1), "Two more."),
        lambda number: (added(number - 1, number - 1), added(2 * number - 2, 2)),
    ),
    Idea(
        "partitioning", lambda number: number > 10 and number % 10 > 0,
        lambda number: f"What is {_tens_of(number)} and {_tens_of(number)}?",
        lambda number: you_know(
            added(_tens_of(number), _tens_of(number)), f"Then double {number % 10}."
        ),
        doubled,
    ),
    Idea(
        "rounding", near_ten,
        lambda number: f"Which ten is near {number}?",
        lambda number: you_know(
            added(number + -number % 10, number + -number % 10), f"Take {2 * (-number % 10)} away."
        ),
        rounded_double,
    ),
)  # fmt: skip

# --- halves -------------------------------------------------------------------------------------------

KNOWN_DOUBLE = 20  # doubles up to it are known: sums to 10 + 10


def _first(number: int) -> int:
    """The tens, or an even number of them."""
    return number - (number % 10 or number % 20)


def shared(number: int) -> tuple[str, ...]:
    row = ", ".join(map(str, range(2, number + 1, 2)))
    return "Share 2 at a time.", f"{row}.", f"Each gets {number // 2}."


def _is_half_apart(number: int) -> bool:
    return 0 < _first(number) < number


def _apart(number: int) -> tuple[str, ...]:
    first = _first(number)
    rest = number - first
    return halved(first), halved(rest), added(first // 2, rest // 2)


def near_even_ten(number: int) -> bool:
    """2 under 20, 40, 60 and so on."""
    return number % 20 == 18


def rounded_half(number: int) -> tuple[str, ...]:
    """Half of 38 is half of 40 less 1."""
    return halved(number + 2), halved(2), taken(number // 2 + 1, 1)


def _double_neighbour(number: int) -> str:
    half = number // 2
    if number == 2:
        return "Share 2 between two."
    if number == 4:  # one and one make the two that is asked for
        return you_know(added(3, 3), "4 is two less.")
    return you_know(added(half - 1, half - 1), f"{number} is two more.")


HALF: tuple[Idea, ...] = (
    Idea(
        "by-units", lambda number: number % 20 == 0,
        lambda number: f"How many tens is {number}?",
        lambda number: f"{number} is {in_tens(number)}.\nWhat is half of {in_tens(number)}?",
        lambda number: (halved(number // 10), halved(number)),
    ),
    Idea(
        "sharing", lambda number: number <= 10,
        lambda number: f"What number doubled makes {number}?", _double_neighbour, shared,
    ),
    Idea(
        "partitioning", _is_half_apart,
        lambda number: f"What is half of {grouped(_first(number))}?",
        lambda number: f"{number} is {_first(number)} and {number - _first(number)}.\nTake half of each.",
        _apart,
    ),
    Idea(
        "doubles", lambda number: number <= KNOWN_DOUBLE,
        lambda number: f"What number doubled makes {number}?", _double_neighbour,
        lambda number: (f"{number} = {number // 2} + {number // 2}", halved(number)),
        lambda number: (f"{number} = {BOX} + {BOX}",),
    ),
    Idea(
        "rounding", near_even_ten,
        lambda number: f"Which ten is near {number}?",
        lambda number: f"{halved(number + 2)}\n{number} is two less.",
        rounded_half,
    ),
)  # fmt: skip
