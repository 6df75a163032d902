"""What a row of the table of words is."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple


class Words(NamedTuple):
    """Of one error rule, for a parent."""

    seems: str  # what seems to happen, after "seems to"
    table: str  # how to teach it away from the screen, with things to hold


Row = tuple[str, str, str, str]  # families or kinds (several with spaces between), rule, seems, table


def by_place(rows: Iterable[Row]) -> Mapping[tuple[str, str], Words]:
    return {
        (place, rule): Words(seems, table) for places, rule, seems, table in rows for place in places.split()
    }
