"""Numbers as counters by place, on a mat or in a table."""

from collections.abc import Sequence

from review.core.pictures import Exchange, Table
from review.core.skills.places import PLACES

ON_A_MAT = 4  # digits; columns of counters have no more room


def places(*numbers: int) -> tuple[str, ...]:
    """The names that the longest of them needs, highest first."""
    return PLACES[: max(len(str(number)) for number in numbers)][::-1]


def counters(number: int, columns: int = 0) -> tuple[int, ...]:
    return tuple(map(int, str(number).zfill(columns)))


def together(*numbers: int) -> tuple[int, ...]:
    """The counters of all of them in each place, before any exchange."""
    columns = max(len(str(number)) for number in numbers)
    return tuple(map(sum, zip(*(counters(number, columns) for number in numbers), strict=True)))


def first_exchange(*numbers: int) -> Exchange | None:
    """Of the lowest place that has ten or more; at the highest a place is added for it."""
    found, names = together(*numbers), places(*numbers)
    column = next((at for at in reversed(range(len(found))) if found[at] >= 10), None)
    if column is None:
        return None
    if column:
        return Exchange(names, found, column)
    if len(names) >= len(PLACES) or len(names) >= ON_A_MAT:
        return None
    return Exchange((PLACES[len(names)], *names), (0, *found), 1)


def first_opening(number: int, taken: int) -> Exchange | None:
    """For the lowest place with too few to take from, one of the nearest place above that has any."""
    columns = len(str(number))
    have, take = counters(number), counters(taken, columns)
    short = next((at for at in reversed(range(columns)) if have[at] < take[at]), None)
    if short is None:
        return None
    above = next(at for at in reversed(range(short)) if have[at])
    return Exchange(places(number), have, above, opened=True)


def place_table(*numbers: int | str, heads: Sequence[str] = ()) -> Table:
    """Digits below their places, one number a row; a place a number does not have is left empty."""
    names = tuple(heads) or places(*map(int, numbers))
    rows = (str(number).rjust(len(names)) for number in numbers)
    return Table(names, tuple(tuple(cell.strip() for cell in row) for row in rows))
