"""Pictures as data: what is drawn, not how. All sizes are counts of objects, never of columns or pixels.

Glossary
--------
ten-frame     two rows of five places, filled row by row, five then five
mat           a place-value mat: columns of counters, the highest place first; a row of it for each number
exchange      ten counters of a column for one in the next higher place, or one for ten in the next lower
array         equal rows of counters
number line   marks with names between two ends, jumps along it, a place that is pointed at; an open one is
              not to scale where its names need room
bar           parts side by side, and the whole they make
strips        strips of equal parts, of one length, one below the other, some of their parts shaded
area          a rectangle cut in parts: each part is one product
table         figures below heads: digits below the names of their places, amounts below their units
"""

from typing import Literal, NamedTuple


class TenFrames(NamedTuple):
    """Counters on as many ten-frames as they need."""

    counters: int
    others: int = 0  # counters of a second kind, laid after the first
    away: int = 0  # of all of them, how many are crossed out, the last ones first


class Mat(NamedTuple):
    places: tuple[str, ...]  # names of the columns, highest first: ("tens", "ones")
    rows: tuple[tuple[int, ...], ...]  # counters in each place, of each number
    ringed: tuple[int, int] = (-1, 0)  # column and how many of its counters have a ring, in the last row
    arrived: tuple[int, int] = (-1, 0)  # column and how many of its counters have come by an exchange


class Exchange(NamedTuple):
    """Two mats, one after the other: counters with a ring, then what they became."""

    places: tuple[str, ...]
    counters: tuple[int, ...]
    column: int  # whose counters are exchanged
    opened: bool = False  # one for ten of the next lower place; else ten for one of the next higher


class Array(NamedTuple):
    rows: int
    columns: int
    split: int = 0  # columns before a gap: 7 columns as 5 and 2; 0: none
    split_rows: int = 0  # rows before a gap; 0: none
    rest: int = 0  # counters of a last row that is not full
    asked: Literal["", "rows", "columns"] = ""  # what is to be counted, and so is not said


class Mark(NamedTuple):
    at: int
    name: str = ""  # a box for what is asked


class Jump(NamedTuple):
    start: int
    end: int
    label: str = ""  # "+2", "−10"


class NumberLine(NamedTuple):
    """Places are whole numbers of whatever is counted along it: ones, hundredths, minutes, parts."""

    marks: tuple[Mark, ...]  # from the lowest up
    jumps: tuple[Jump, ...] = ()
    arrow: int | None = None  # a place that is pointed at


class Part(NamedTuple):
    size: int
    label: str = ""  # a box for what is asked


class Bar(NamedTuple):
    """Part-whole: sizes draw it, labels are what is written."""

    parts: tuple[Part, ...]
    whole: str


class Bars(NamedTuple):
    """Two amounts below each other from one edge, to see which is more and by how much."""

    bars: tuple[Part, Part]
    apart: str  # what the difference is called; a box where it is asked


class ClockFace(NamedTuple):
    hour: int
    minute: int
    marked: bool = False  # a mark for each minute


class Coins(NamedTuple):
    """As they lie, left to right; coins are round, notes are square."""

    coins: tuple[tuple[str, bool], ...]  # what stands on it, and whether it is a note


class Strip(NamedTuple):
    shaded: int
    parts: int
    label: str = ""


class Strips(NamedTuple):
    strips: tuple[Strip, ...]


class Area(NamedTuple):
    """Not to scale."""

    across: tuple[int, ...]
    down: tuple[int, ...]
    apart: str = ","  # between thousands

    def name(self, size: int) -> str:
        return f"{size:,}".replace(",", self.apart)


class Table(NamedTuple):
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class Thermometer(NamedTuple):
    low: int
    high: int
    step: int  # degrees from mark to mark
    named: int  # degrees from number to number
    at: int
    scale: str  # "C", "F"


class Rectangle(NamedTuple):
    """Not to scale; its upper side is called `above`, its right side `beside`: a square has no other."""

    above: str
    beside: str
    inside: str = ""


class Box(NamedTuple):
    """Seen from the front and above; not to scale."""

    long: str
    deep: str
    high: str


class Lines(NamedTuple):
    """What is text by nature: a story, a sum in columns, a timetable."""

    lines: tuple[str, ...]


Picture = (
    TenFrames | Mat | Exchange | Array | NumberLine | Bar | Bars | ClockFace | Coins | Strips
    | Area | Table | Thermometer | Rectangle | Box | Lines
)  # fmt: skip


def mats(exchange: Exchange) -> tuple[Mat, Mat]:
    """Before and after."""
    places, counters, column, opened = exchange
    gone, came = (1, 10) if opened else (10, 1)
    to = column + 1 if opened else column - 1
    after = tuple(n - gone * (at == column) + came * (at == to) for at, n in enumerate(counters))
    return Mat(places, (counters,), ringed=(column, gone)), Mat(places, (after,), arrived=(to, came))
