"""Pages as data: what stands where, in millimetres, so that a page on the screen and a PDF are the same.

Everything has its height before it is drawn, and text is wrapped here by the widths of a broad typeface: so
pages are filled here too, and nothing can run over whatever typeface a computer has.

Glossary
--------
block         what stands across a page, with its height
box           one problem: its number, its text, room to write
row           one box, or two side by side
story         sentences above a prompt, that it asks about
hole          the sign □ inside a prompt, as wide as a missing number is written: 7 + □ = 12
strip         a sitting of a week's sheet, to be cut off
"""

import re
from collections.abc import Callable, Iterable, Sequence
from itertools import chain, takewhile
from typing import Literal, NamedTuple

from review.core.pictures import Mat, Picture, TenFrames

WIDTH, HEIGHT = 178.0, 246.0
"""Of what is printed, in mm: it fits A4 (210 × 297) and Letter (215.9 × 279.4) with margins of 15 mm at least
(ISO 216 and ANSI/ASME Y14.1, both from memory), so that one page serves both."""
FOOT, FOOT_TEXT = 9.0, 3.4  # what stands at the foot of a page, and its letters
GAP = 6.0  # between two boxes
HALF = (WIDTH - GAP) / 2


class Size(NamedTuple):
    """Measures of one print size, in millimetres."""

    large: bool
    text: float  # height of letters, as a typeface is measured
    line: float  # a line with room to write on
    number: float  # room for a problem's number and its mark
    hand: float  # a handwritten numeral
    square: float  # of squared paper
    drawing: float  # letters in a picture
    least: float  # the same where a picture has to be smaller to stand beside another problem
    tallest: float  # a picture: two rows of them fit under the head of a page; one in large print


NORMAL = Size(False, 6.4, 13.0, 12.0, 6.5, 8.0, 5.0, 4.2, 77.0)
LARGE = Size(True, 9.2, 19.0, 17.0, 9.0, 10.0, 7.0, 6.35, 130.0)
"""18 and 26 point; 14 and 20 in a picture, 12 and 18 at least. Large print begins at 18 point for grown-ups
(American Printing House for the Blind, from memory); first readers are set in about as much (common practice,
no source)."""

ROOM_SHARE = 0.8
"""Of a line's height: a room to write in is 10 mm high, as a hand of six or seven years needs it (common
practice, no source), and rooms on two lines do not touch."""
NOTE = 0.7  # letters of a note and of a problem's number, in parts of a prompt's

Extent = Callable[[Picture], tuple[float, float]]
"""How wide and how high a picture is, in parts of the height of its letters."""

KEY_TEXT, KEY_LINE = 4.2, 5.8  # 12 point, for the grown-up

# --- how wide text is ---------------------------------------------------------------------------------

BROAD = {" ": 0.32, "M": 0.87, "W": 0.99, "m": 0.98, "w": 0.82, "@": 1.0, "%": 0.95}
"""Widths in parts of the letter height, of DejaVu Sans, one of the broadest text faces (measured here)."""
SORTS: tuple[tuple[str, float], ...] = (
    ("0123456789", 0.64), ("+−×÷=<>≈", 0.84), (".,:;'’|()", 0.4), ("ijltfrI-/", 0.42),
    ("abcdeghknopqsuvxyz", 0.64), ("ABCDEFGHJKLNOPQRSTUVXYZ", 0.79),
)  # fmt: skip
WIDTHS = BROAD | {letter: width for letters, width in SORTS for letter in letters}
UNKNOWN = 1.0  # another sign
AROUND = 1.0  # a hole, in mm
MONO = 0.61  # of every sign of a typeface for drawings (DejaVu Sans Mono: 0.602)


def width_of(text: str) -> float:
    """Of a line, in parts of the letter height."""
    return sum(WIDTHS.get(letter, UNKNOWN) for letter in text)


def wrapped(text: str, widest: float) -> tuple[str, ...]:
    """Broken between words, where it can be, to lines of at most that width in parts of the letter height."""
    lines = [""]
    for word in words_of(text, widest):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and width_of(longer) > widest:
            lines.append(word)
        else:
            lines[-1] = longer
    return tuple(lines)


def broken(text: str, widest: float) -> tuple[str, ...]:
    """Wrapped, and a word that is wider than a line goes on in the next one."""
    return tuple(chain.from_iterable(pieces(line, widest) for line in wrapped(text, widest)))


def pieces(word: str, widest: float) -> list[str]:
    found = [""]
    for letter in word:
        longer = found[-1] + letter
        found[-1:] = [longer] if not found[-1] or width_of(longer) <= widest else [found[-1], letter]
    return found


TIED = re.compile(r" (?!(?<=[\d□] )(?:°[CF]|[cdkm]?[glm])\b)")  # between words, but for 22 °C and 3 kg


def words_of(text: str, widest: float) -> list[str]:
    """A number and its unit are one word, where that fits a line."""
    pairs = ([word] if width_of(word) <= widest else word.split(" ") for word in TIED.split(text))
    return list(chain.from_iterable(pairs))


def fitted(text: str, width: float, height: float, largest: float) -> tuple[tuple[str, ...], float]:
    """Lines and letter height that fill a field of those millimetres."""
    size = largest
    while True:
        lines = wrapped(text, width / size)
        fits = max(map(width_of, lines)) * size <= width and len(lines) * size * 1.25 <= height
        if fits or size < 1:
            return lines, round(size, 2)
        size *= 0.95


def on_a_line(text: str, width: float, largest: float) -> float:
    """The letter height in which it fits a line of so many millimetres."""
    return round(min(largest, width / max(0.1, width_of(text))), 2)


# --- blocks -------------------------------------------------------------------------------------------


class Squares(NamedTuple):
    """Squared paper to work on, and what stands on it."""

    across: int
    rows: int
    signs: tuple[tuple[int, int, str], ...] = ()  # row, column and what stands in that square
    rules: tuple[tuple[int, int, int], ...] = ()  # a thick line above a row: from one column up to another


class Box(NamedTuple):
    number: int
    lines: tuple[str, ...]  # the prompt; a □ in it is a hole
    wide: bool  # across the page
    room: float  # width of the box to write in, after the prompt; 0: the holes are the room
    below: bool = False  # that box stands under the prompt
    hole: float = 0.0  # width of a hole
    note: tuple[str, ...] = ()  # above everything, in smaller letters
    story: tuple[str, ...] = ()
    columns: tuple[str, ...] = ()  # a timetable, line by line
    picture: Picture | None = None
    letters: float = 0.0  # their height in the picture, or in the columns
    across: float = 0.0  # the picture, in mm
    down: float = 0.0
    beside: bool = False  # the prompt stands beside the picture
    squares: Squares | None = None
    height: float = 0.0


class Row(NamedTuple):
    boxes: tuple[Box, ...]
    height: float


class Head(NamedTuple):
    """The top of a page a child writes on."""

    title: str
    name: str  # "": a line to write it on
    dated: bool  # a line for the day
    letters: float  # of the title
    named: float  # letters of the name
    height: float
    signed: bool = True  # a place for the name


class Start(NamedTuple):
    """The top of a sitting: a line for the day, dots to fill, and what is said of them."""

    words: tuple[str, ...]
    dots: int
    dated: bool
    tag: tuple[str, ...]  # what a strip is known by once it is cut off
    lines: int  # 2: the dots stand under the line for the day
    letters: float  # of the words
    height: float


class Cut(NamedTuple):
    """A line to cut along."""

    height: float = 8.0


class Words(NamedTuple):
    """Lines for the grown-up; the first is a heading."""

    lines: tuple[str, ...]
    height: float


class Entry(NamedTuple):
    """A line of the key."""

    number: int
    answer: str
    lines: tuple[tuple[str, str], ...]  # what stands on each: of the answer, and of the prompt


class Entries(NamedTuple):
    """Two columns of the key, side by side."""

    left: tuple[Entry, ...]
    right: tuple[Entry, ...]
    height: float


Cell = Literal["name", "blank", "open", "given", "rest"]
"""Of a square of facts. name: of a row or column; blank: to be filled, like all of them; open: to be filled,
among others that are not asked; given: filled; rest: not asked."""


class Square(NamedTuple):
    sign: str  # × or +
    rows: tuple[tuple[tuple[Cell, str], ...], ...]  # with the heads
    side: float  # of a cell
    height: float


class Side(NamedTuple):
    """One side of a slip."""

    lines: tuple[str, ...]
    letters: float


class Slips(NamedTuple):
    """Slips to cut out, row by row; None where a sheet is not full."""

    rows: tuple[tuple[Side | None, ...], ...]
    width: float
    each: float  # height of a slip
    height: float


class OpenLine(NamedTuple):
    """A number line to write on."""

    low: int
    high: int
    names: tuple[int, ...]  # places that have their number


class Drawing(NamedTuple):
    """A picture with nothing in it yet, to lay counters on or to draw in."""

    picture: TenFrames | Mat | OpenLine
    width: float
    height: float
    said: str
    letters: float = 5.0  # of numbers along a line


Block = Head | Start | Row | Cut | Words | Entries | Square | Slips | Drawing


class Page(NamedTuple):
    blocks: tuple[Block, ...]
    key: bool = False  # for the grown-up
    side: str = ""  # at the foot in the place of its number: which side of which sheet it is


class Sheet(NamedTuple):
    """What a printer gets."""

    name: str  # of the whole, in a word or two: "Sheet 4711"
    foot: str  # at the foot of every page
    pages: tuple[Page, ...]
    large: bool = False
    marks: str = ""  # at the foot of pages for a child: what a grown-up's marks mean


# --- filling pages ------------------------------------------------------------------------------------

ROOM = HEIGHT - FOOT


def paged(groups: Iterable[Sequence[Block]]) -> list[tuple[Block, ...]]:
    """Blocks on pages. A group stays on one page where it fits one, and what begins it with what follows."""
    pages: list[list[Block]] = [[]]
    for group in groups:
        if pages[-1] and taken(pages[-1]) + taken(group) > ROOM >= taken(group):
            pages.append([])
        for n, block in enumerate(group):
            if pages[-1] and taken(pages[-1]) + taken(kept_together(group, n)) > ROOM:
                pages.append([])
            pages[-1].append(block)
    return [trimmed(page) for page in pages if page]


def kept_together(group: Sequence[Block], n: int) -> Sequence[Block]:
    """A block, and where it is a heading all up to the first below it that is none, as far as a page has room
    for them."""
    below = takewhile(lambda block: isinstance(block, Head | Start | Words), group[n:])
    together = group[n : n + 1 + len([*below])]
    return together if taken(together) <= ROOM else group[n : n + 1]


def taken(blocks: Sequence[Block]) -> float:
    return sum(block.height for block in blocks)


def trimmed(page: Sequence[Block]) -> tuple[Block, ...]:
    """Without a line to cut along at its top or bottom."""
    cuts = [n for n in (0, len(page) - 1) if isinstance(page[n], Cut)]
    return tuple(block for n, block in enumerate(page) if n not in cuts)
