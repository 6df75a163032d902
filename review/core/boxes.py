"""A problem on paper: how much room its text, its picture and its answer take."""

from collections.abc import Mapping, Sequence
from math import ceil

from review.core.drawn import drawn
from review.core.model import Problem
from review.core.paper import AROUND, HALF, HOLE, MONO, WIDTH, Box, Row, Size, width_of, wrapped

MEETING = "Do you know this one yet?"
WORKED_ON_SQUARES: Mapping[str, int] = {
    "column-sum": 3, "column-difference": 3, "column-product": 5, "division-written": 6, "operations": 2,
    "add-several": 2,
}  # fmt: skip
"""Rows of squared paper by kind: numerals of one place stand below each other by themselves (common practice,
no source)."""

NARROWEST = 20.0  # a box to write in, in mm
PAD = 3.0  # before it
BAR = 1.2  # line height of a picture in text
SMALLEST = 3.2  # letters of a picture, in mm
TALLEST = 110.0  # a picture
ABOVE, BELOW = 2.0, 3.0  # a picture


def box(number: int, problem: Problem, size: Size, *, new: bool = False) -> Box:
    """The problem as narrow as it can stand: half the page, else all of it, else with its box below."""
    empty = Box(
        number,
        (problem.prompt,),
        False,
        0.0 if HOLE in problem.prompt else room(problem.expected, size),
        hole=hole(problem, size),
        note=MEETING if new else "",
        picture=drawn(problem.picture) if problem.picture else (),
        said=problem.say if problem.picture else "",
        squares=WORKED_ON_SQUARES.get(problem.kind, 0),
    )
    placed = standing_in(empty, size)
    return placed._replace(height=round(height(placed, size), 1))


def standing_in(empty: Box, size: Size) -> Box:
    """With its lines, its width and its picture's letters."""
    half, whole = HALF - size.number, WIDTH - size.number
    needs = prompt_width(empty, size) + (PAD + empty.room if empty.room else 0)
    wide = needs > half or (
        drawing_width(empty, size) > half and drawing_letters(empty, half, size) < SMALLEST
    )
    lines = wrapped_prompt(empty, whole, size) if needs > whole else empty.lines
    left = whole - PAD - line_width(lines[-1], empty.hole, size)
    return empty._replace(
        wide=wide,
        below=empty.room > max(0.0, left),
        lines=lines,
        room=min(empty.room, whole),
        letters=drawing_letters(empty, whole if wide else half, size),
    )


def room(expected: str, size: Size) -> float:
    """Room to write that answer by hand; words are written narrower than numerals."""
    each = size.hand * (0.7 if expected.isascii() and expected[:1].isalpha() else 1.0)
    return max(NARROWEST * size.hand / 6.5, round(each * (len(expected) + 1), 1))


def hole(problem: Problem, size: Size) -> float:
    """The width of a hole: that of the longest number that goes into one."""
    count = problem.prompt.count(HOLE)
    if not count:
        return 0.0
    words = problem.expected.replace(",", " ").split() if count > 1 else [problem.expected]
    parts = [word for word in words if any(map(str.isdigit, word))] or words
    return round(size.hand * (max(map(len, parts)) + 1), 1)


def prompt_width(empty: Box, size: Size) -> float:
    return max(line_width(line, empty.hole, size) for line in empty.lines)


def line_width(line: str, hole: float, size: Size) -> float:
    return width_of(line.replace(HOLE, "")) * size.text + line.count(HOLE) * (hole + AROUND)


def wrapped_prompt(empty: Box, whole: float, size: Size) -> tuple[str, ...]:
    """Wrapped as if each hole were a word of its width."""
    filler = "9" * max(1, ceil((empty.hole + AROUND) / size.text / 0.64))
    lines = wrapped(empty.lines[0].replace(HOLE, filler), whole / size.text)
    return tuple(line.replace(filler, HOLE) for line in lines) if empty.hole else lines


def drawing_width(empty: Box, size: Size) -> float:
    columns = max(map(len, empty.picture), default=0)
    return columns * MONO * drawing_letters(empty, WIDTH, size)


def drawing_letters(empty: Box, width: float, size: Size) -> float:
    """Numbers below each other are drawn as large as those of a prompt, pictures smaller."""
    columns = max(map(len, empty.picture), default=0)
    if not columns:
        return 0.0
    largest = size.text if empty.squares else size.drawing
    return round(min(largest, width / columns / MONO, TALLEST / len(empty.picture) / BAR), 2)


def drawing_height(placed: Box) -> float:
    return len(placed.picture) * placed.letters * BAR + ABOVE + BELOW if placed.picture else 0.0


def height(placed: Box, size: Size) -> float:
    lines = len(placed.lines) + placed.below
    note = size.text if placed.note else 0.0
    squares = placed.squares * size.square + 4 if placed.squares else 0.0
    return note + drawing_height(placed) + lines * size.line + squares


def rows(boxes: Sequence[Box]) -> list[Row]:
    """Two narrow ones side by side where they follow each other; the order stays."""
    found: list[Row] = []
    for one in boxes:
        last = found[-1].boxes if found else ()
        if len(last) == 1 and not last[0].wide and not one.wide:
            found[-1] = Row((last[0], one), max(last[0].height, one.height))
        else:
            found.append(Row((one,), one.height))
    return found
