"""Ways of finding the other part of a whole, the most helpful first: which numbers they suit, what they say.

The numbers are (whole, known part) of whole = known + □, neither part 0. Where one strategy stands twice, the
first that suits counts. Up from the part, down from the whole, or from a bond that is known as well.
"""

from collections.abc import Callable

from review.core.model import BOX
from review.core.skills.hints import (
    Idea,
    added,
    count,
    count_up,
    double_is,
    in_ones,
    in_tens,
    taken,
    you_know,
)
from review.core.skills.wording import grouped

ONE_BY_ONE = 3  # so many are counted on or back; our judgement, as common practice has it
STEPS_TO_TEN = 5  # the same within ten, where nothing shorter offers; our judgement
KNOWN_DOUBLE = 20  # doubles up to it are known: sums to 10 + 10
ROUND = (100, 1000)  # wholes whose halves are known as well
UNITS = {1: "one", 10: "ten", 100: "hundred"}

Suits = Callable[[int, int], bool]


def bond(whole: int, part: int) -> str:
    return f"{grouped(whole)} = {grouped(part)} + {grouped(whole - part)}"


def known_bond(whole: int, near: int, known: int) -> str:
    """One part changes, the other one changes the other way."""
    step = grouped(abs(known - near))
    more, less = ("more", "less") if known > near else ("less", "more")
    first = f"{grouped(known)} is {step} {more} than {grouped(near)}."
    return you_know(bond(whole, near), first, f"The other part is {step} {less}.")


def _turned(whole: int, known: int, near: int) -> bool:
    """Whether the near bond is this one turned round: as a fact that is known it would tell the answer."""
    return whole - near == known


def _from_bond(whole: int, near: int, known: int) -> tuple[str, ...]:
    """The known bond, how far the part is from it, the other part so far the other way."""
    step, other = abs(known - near), whole - near
    apart = taken(max(known, near), min(known, near))
    return bond(whole, near), apart, taken(other, step) if known > near else added(other, step)


# --- doubles and fives --------------------------------------------------------------------------------


def _which_double(whole: int, known: int) -> str:
    return "Which double is close?"


def _close_double(whole: int, known: int) -> bool:
    """Parts one or two apart."""
    return abs(whole - 2 * known) in (1, 2) and 1 < known < whole - 1


def _close_neighbour(whole: int, known: int) -> str:
    """9 = 4 + □ from 8 = 4 + 4, 8 = 3 + □ from 8 = 4 + 4."""
    if whole % 2 == 0:
        return known_bond(whole, whole // 2, known)
    return you_know(bond(2 * known, known), f"{whole} is 1 {'more' if whole > 2 * known else 'less'}.")


def _close_steps(whole: int, known: int) -> tuple[str, ...]:
    half = whole // 2 if whole % 2 == 0 else known
    more = whole > 2 * known
    return added(half, half), added(half, 1) if more else taken(half, 1)


def _by_half(whole: int, known: int) -> bool:
    """A part of 100 or 1,000 so round that half the whole is near: 30 and 35 of 100, 350 of 1,000."""
    return whole in ROUND and known % (whole // 20) == 0 and 2 * known != whole


def _five(whole: int, known: int) -> int:
    """The part that is known best: five, or what five leaves."""
    return 5 if known > 5 else whole - 5


# --- tens, ones, the next ten -------------------------------------------------------------------------


def _unit(whole: int, known: int) -> int:
    """What both are round in."""
    return next(unit for unit in (100, 10, 1) if unit < whole and known % unit == whole % unit == 0)


def _in_units(whole: int, known: int) -> str:
    """100 = 30 + □ from 10 = 3 + 7."""
    unit = _unit(whole, known)
    return you_know(bond(whole // unit, known // unit), f"Now in {UNITS[unit]}s.")


def _by_units(whole: int, known: int) -> tuple[str, ...]:
    unit = _unit(whole, known)
    return taken(whole // unit, known // unit), taken(whole, known)


def _tens_of(number: int) -> int:
    return number - number % 10


def _tens_alike(whole: int, known: int) -> bool:
    """37 and 31, 20 and 14: without the tens of the part a bond within ten is left."""
    return 10 < known < whole <= 100 and known % 10 > 0 and whole - _tens_of(known) <= 10


def _bond_of_ones(whole: int, known: int) -> str:
    tens = _tens_of(known)
    return f"What makes {whole - tens} with {known - tens}?\n{whole} and {known} have {in_tens(tens)} more."


def _without_tens(whole: int, known: int) -> tuple[str, ...]:
    if _tens_of(whole) == known:
        return f"{grouped(whole)} is {in_tens(known)} and {in_ones(whole - known)}.", taken(whole, known)
    tens = _tens_of(whole) - known
    return taken(_tens_of(whole), known), added(tens, whole % 10)


def _without_all_tens(whole: int, known: int) -> tuple[str, ...]:
    if _tens_of(whole) != known:
        return ()
    return (f"{grouped(whole)} is {in_tens(known)} and {BOX} {'one' if whole - known == 1 else 'ones'}.",)


def _gap(known: int) -> int:
    """To the next ten, of a round number to the next hundred."""
    return -known % 10 or -known % 100


def _passes(whole: int, known: int) -> bool:
    return 0 < _gap(known) < whole - known


def _next_neighbour(whole: int, known: int) -> str:
    to = known + _gap(known)
    if known < 10 or _turned(whole, known, to):
        return you_know(bond(to, known), f"{grouped(whole)} is {grouped(whole - to)} more than {to}.")
    return known_bond(whole, to, known)


def _by_next(whole: int, known: int) -> tuple[str, ...]:
    """Up to the next ten or hundred, then on; the two jumps together."""
    first, then = _gap(known), whole - known - _gap(known)
    return added(known, first), added(known + first, then), added(first, then)


def _biggest(known: int) -> int:
    """300 of 350, 30 of 37."""
    place = next(place for place in (100, 10, 1) if known >= place)
    return known - known % place


def _rest(known: int) -> int:
    return known - _biggest(known)


def _near_round(whole: int, known: int) -> bool:
    """A part 1 or 2 under a ten, of a round whole."""
    return known > 10 and known % 10 in (8, 9) and whole % 10 == 0 and _passes(whole, known)


# --- the table ----------------------------------------------------------------------------------------


def _far(whole: int, known: int) -> str:
    return f"How far from {grouped(known)} to {grouped(whole)}?"


def _up_neighbour(whole: int, known: int) -> str:
    if whole - known == 1:
        return f"Say the number after {grouped(known)}.\nHow many more is it?"
    if known == 1 < whole < 4:
        return f"Say 1.\nCount on to {whole}."
    if _turned(whole, known, known + 1):
        return _close_neighbour(whole, known)
    return known_bond(whole, known + 1, known)


def _back_neighbour(whole: int, known: int) -> str:
    if known == 1:
        return f"Say the number before {grouped(whole)}."
    if _turned(whole, known, known - 1):
        return _close_neighbour(whole, known)
    return known_bond(whole, known - 1, known)


def _up(suits: Suits) -> Idea:
    return Idea("counting-up", suits, _far, _up_neighbour, lambda whole, known: count_up(known, whole))


def _back(suits: Suits) -> Idea:
    return Idea(
        "counting-back", suits,
        lambda whole, known: "Which number will you start from?", _back_neighbour,
        lambda whole, known: count(whole, range(whole - 1, whole - known - 1, -1)),
    )  # fmt: skip


def _near(suits: Suits) -> Idea:
    return Idea("near-doubles", suits, _which_double, _close_neighbour, _close_steps)


def _in_bigger_units(suits: Suits) -> Idea:
    return Idea(
        "by-units", lambda whole, known: whole > 10 and _unit(whole, known) > 1 and suits(whole, known),
        lambda whole, known: f"How many {UNITS[_unit(whole, known)]}s is {grouped(whole)}?",
        _in_units, _by_units,
    )  # fmt: skip


BOND: tuple[Idea, ...] = (
    Idea(
        "doubles", lambda whole, known: whole == 2 * known and (whole <= KNOWN_DOUBLE or whole in ROUND),
        lambda whole, known: f"What double makes {grouped(whole)}?",
        lambda whole, known: f"Think of doubles.\nWhich double makes {grouped(whole)}?",
        lambda whole, known: (double_is(known), taken(whole, known)),
    ),
    Idea(
        "tens-and-ones", lambda whole, known: known == whole % 10 and 10 < whole < 100,
        lambda whole, known: "How many tens? How many ones?",
        lambda whole, known: f"{whole} is {in_tens(whole - known)} and {in_ones(known)}.\nCover the ones.",
        lambda whole, known: (f"{whole} is {whole - known} and {known}.", taken(whole, known)),
        lambda whole, known: (f"{whole} is {BOX} and {known}.",),
    ),
    Idea(
        "tens-and-ones", lambda whole, known: known % 10 == 0 < whole % 10,
        lambda whole, known: "How many tens? How many ones?",
        lambda whole, known: f"Take {in_tens(known)} from {grouped(whole)}.", _without_tens,
        _without_all_tens,
    ),
    _in_bigger_units(lambda whole, known: whole <= 100 or _unit(whole, known) == 100),
    _back(lambda whole, known: known == 1 < whole - known <= ONE_BY_ONE),  # the number before
    _up(lambda whole, known: whole - known <= ONE_BY_ONE),
    _back(lambda whole, known: known <= ONE_BY_ONE),
    _near(lambda whole, known: whole <= 10 and _close_double(whole, known)),
    Idea(
        "five-as-anchor", lambda whole, known: 5 < whole <= 10 and known not in (5, whole - 5),
        lambda whole, known: f"What goes with 5 to make {whole}?",
        lambda whole, known: known_bond(whole, _five(whole, known), known),
        lambda whole, known: _from_bond(whole, _five(whole, known), known),
    ),
    Idea(
        "tens-and-ones", _tens_alike,
        lambda whole, known: "How many ones are in each?" if whole % 10 else "How far to the next ten?",
        _bond_of_ones,
        lambda whole, known: (taken(whole - _tens_of(known), known % 10), taken(whole, known)),
        lambda whole, known: (f"{whole - _tens_of(known)} − {known % 10} = {BOX}",),
    ),
    Idea(
        "tens-and-ones", lambda whole, known: 10 < whole < 100 and known < whole % 10,
        lambda whole, known: "What is left of the ones?",
        lambda whole, known: you_know(bond(whole % 10, known), f"Then {in_tens(_tens_of(whole))} more."),
        lambda whole, known: (taken(whole % 10, known), added(_tens_of(whole), whole % 10 - known)),
    ),
    Idea(
        "bridging", lambda whole, known: _passes(whole, known) and whole - known != known + _gap(known),
        lambda whole, known: f"Which {'hundred' if known % 10 == 0 else 'ten'} comes next?",
        _next_neighbour, _by_next,
    ),
    _in_bigger_units(lambda whole, known: True),
    Idea(
        "opening", lambda whole, known: whole % 10 < known < 10 < whole <= 100,
        lambda whole, known: "What is left of one ten?",
        lambda whole, known: you_know(bond(10, known), f"{whole} is {whole - 10} more than 10."),
        lambda whole, known: (taken(10, known), added(10 - known, whole - 10)),
    ),
    Idea(
        "taking-off",
        lambda whole, known: known > 10 and _biggest(known) not in (known, whole - known),
        lambda whole, known: f"What is left without the {'hundreds' if known > 100 else 'tens'}?",
        lambda whole, known: you_know(taken(whole, _biggest(known)), f"Take {_rest(known)} more."),
        lambda whole, known: (
            taken(whole, _biggest(known)), taken(whole - _biggest(known), _rest(known))
        ),
    ),
    Idea(
        "rounding", _near_round,
        lambda whole, known: f"Which ten is near {grouped(known)}?",
        lambda whole, known: known_bond(whole, known + _gap(known), known),
        lambda whole, known: (
            taken(whole, known + _gap(known)), added(whole - known - _gap(known), _gap(known))
        ),
    ),
    _near(lambda whole, known: whole <= KNOWN_DOUBLE and _close_double(whole, known)),
    Idea(
        "near-doubles", _by_half, _which_double,
        lambda whole, known: known_bond(whole, whole // 2, known),
        lambda whole, known: _from_bond(whole, whole // 2, known),
    ),
    _up(lambda whole, known: whole - known <= STEPS_TO_TEN),
    _back(lambda whole, known: whole <= 10 and known <= STEPS_TO_TEN),
)  # fmt: skip
