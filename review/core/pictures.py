"""Pictures as data: what is drawn, not how. All sizes are counts of objects, never of columns or pixels.

Glossary
--------
ten-frame     two rows of five places, filled row by row, five then five
mat           a place-value mat: columns of counters, the highest place first
array         equal rows of counters
number line   marks with names between two ends, and jumps along it
bar           parts side by side, and the whole they make
"""

from typing import NamedTuple


class TenFrames(NamedTuple):
    """Counters on as many ten-frames as they need."""

    counters: int
    others: int = 0  # counters of a second kind, laid after the first
    away: int = 0  # of all of them, how many are crossed out, the last ones first


class Mat(NamedTuple):
    """Counters by place; a row of the mat for each number."""

    places: tuple[str, ...]  # names of the columns, highest first: ("tens", "ones")
    rows: tuple[tuple[int, ...], ...]  # counters in each place, of each number
    ringed: int = -1  # the column whose ten counters are ringed, to go one place up; -1: none
    arrived: int = -1  # the column a counter came into by the exchange; -1: none


class Array(NamedTuple):
    rows: int
    columns: int
    split: int = 0  # columns before a gap: 7 columns as 5 and 2; 0: none
    split_rows: int = 0  # rows before a gap; 0: none


class Jump(NamedTuple):
    start: int
    end: int
    label: str  # "+2", "−10"


class NumberLine(NamedTuple):
    low: int
    high: int
    marks: tuple[int, ...]  # where a name stands
    jumps: tuple[Jump, ...] = ()
    arrow: int | None = None  # a place that is pointed at


class Bar(NamedTuple):
    """Part-whole: sizes draw it, labels are what is written; a label may be a box for what is asked."""

    parts: tuple[tuple[int, str], ...]
    whole: str


class ClockFace(NamedTuple):
    hour: int
    minute: int
    marked: bool = False  # a mark for each minute


class Coins(NamedTuple):
    labels: tuple[str, ...]  # "50p", "£1"; as they lie, left to right


class Shaded(NamedTuple):
    """A strip of equal parts, some of them shaded."""

    shaded: int
    parts: int


class PlaceTable(NamedTuple):
    """Digits under the names of their places."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


Picture = TenFrames | Mat | Array | NumberLine | Bar | ClockFace | Coins | Shaded | PlaceTable
