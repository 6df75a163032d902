"""Classes too large to list, counted and drawn from exactly: numbers written one column after another.

A walk says what may stand in each column and what is remembered from column to column (a carry, how many
there were). Counting the ways to end well from each state gives every member of a class a place from 0 on,
so that a place drawn at random is a member drawn at random, each equally likely.
"""

from collections.abc import Callable, Mapping, Sequence
from itertools import accumulate
from random import Random
from typing import NamedTuple

State = tuple[int, ...]
Letter = tuple[int, ...]  # what stands in one column: one digit or several
Ways = tuple[Mapping[State, int], ...]


class Walk(NamedTuple):
    """Columns in the order they are worked."""

    columns: tuple[tuple[Letter, ...], ...]
    start: State
    step: Callable[[State, Letter], State]
    accepts: Callable[[State], bool]  # of the state after the last column


def ways(walk: Walk) -> Ways:
    """Before each column and after the last: from each state there is, how many members follow."""
    reached = [{walk.start}]
    for letters in walk.columns:
        reached.append({walk.step(state, letter) for state in reached[-1] for letter in letters})
    counts = [{state: int(walk.accepts(state)) for state in reached.pop()}]
    for letters, states in zip(reversed(walk.columns), reversed(reached), strict=True):
        later = counts[-1]
        counts.append({state: sum(later[walk.step(state, letter)] for letter in letters) for state in states})
    return tuple(reversed(counts))


class Counted(NamedTuple):
    """A part of a class with its count; `label` is what its members share."""

    label: int
    walk: Walk
    ways: Ways

    @property
    def size(self) -> int:
        return self.ways[0][self.walk.start]


def counted(walk: Walk, label: int = 0) -> Counted:
    return Counted(label, walk, ways(walk))


def member(of: Counted, place: int) -> list[Letter]:
    """The letters of the member at a place, 0 <= place < size."""
    state, found = of.walk.start, list[Letter]()
    for letters, later in zip(of.walk.columns, of.ways[1:], strict=True):
        for letter in letters:
            after = of.walk.step(state, letter)
            if place < later[after]:
                break
            place -= later[after]
        state = after
        found.append(letter)
    return found


def size(parts: Sequence[Counted]) -> int:
    return sum(part.size for part in parts)


def pick(parts: Sequence[Counted], place: int) -> tuple[int, list[Letter]]:
    """The label and the letters of the member at a place among all parts."""
    for part, end in zip(parts, accumulate(part.size for part in parts), strict=True):
        if place < end:
            return part.label, member(part, place - (end - part.size))
    raise ValueError(f"there is no place {place}")


def drawn(parts: Sequence[Counted], random: Random) -> tuple[int, list[Letter]]:
    """A member of a class, every one equally likely; ValueError where it has none."""
    many = size(parts)
    if not many:
        raise ValueError("nothing belongs to an empty class")
    return pick(parts, random.randrange(many))


# --- columns and numbers ------------------------------------------------------------------------------

DIGITS = range(10)


def two_rows(upper: int, lower: int) -> tuple[tuple[Letter, ...], ...]:
    """The columns of two numbers of so many digits, ones first: (upper digit, lower digit), and the upper
    digit alone where the lower number has none. Neither number begins with zero."""
    columns = list[tuple[Letter, ...]]()
    for at in range(upper):
        above = DIGITS[1:] if at == upper - 1 else DIGITS
        if at < lower:
            below = DIGITS[1:] if at == lower - 1 else DIGITS
            columns.append(tuple((x, y) for x in above for y in below))
        else:
            columns.append(tuple((x,) for x in above))
    return tuple(columns)


def two_numbers(letters: Sequence[Letter]) -> tuple[int, int]:
    """The upper and the lower number of such columns."""
    return number([letter[0] for letter in letters]), number([one[1] for one in letters if len(one) == 2])


def letters_of(upper: int, lower: int) -> list[Letter]:
    """The columns of two numbers, ones first."""
    below = digits_of(lower)
    return [(digit, *below[at : at + 1]) for at, digit in enumerate(digits_of(upper))]


def number(digits: Sequence[int]) -> int:
    """What digits are worth together, ones first; also of rows, each one place further."""
    return sum(int(10**at) * digit for at, digit in enumerate(digits))


def digits_of(value: int, least: int = 1) -> list[int]:
    """Its digits, ones first; zeros are added up to `least` digits."""
    return [int(digit) for digit in reversed(str(value).rjust(least, "0"))]
