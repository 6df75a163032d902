"""A problem on paper: how much room its text, its picture and its answer take."""

from collections.abc import Sequence
from itertools import chain
from math import ceil

from review.core import squared
from review.core.model import BOX, Problem
from review.core.paper import (
    AROUND,
    GAP,
    HALF,
    MONO,
    NOTE,
    WIDTH,
    Box,
    Extent,
    Row,
    Size,
    width_of,
    wrapped,
)
from review.core.pictures import Lines

MEETING = "Do you know this one yet?"
ROOMS, HOLES = (4, 3), (3, 2)
"""Numerals that go into the narrowest box after a prompt, and how many more into each wider one; the same of
a hole. Boxes come in few widths, or they would tell how long the answer is, and `true` from `false`."""
LEAST = {"fraction": 5, "fraction-lowest": 5, "numbers": 19}
"""Numerals there is room for in any case, by the form of the answer: 1/2 is as wide as 7/10, and the factors
of a prime are as wide as those of 48 (our judgement)."""
REMAINDER = " r 1"
PAD = 3.0  # before a box, in mm
BAR = 1.2  # line height of columns, in parts of their letters
TOLD = 1.45  # of a story
ABOVE, BELOW = 2.0, 3.0  # a picture, a story
ENDS = (".", "?", "!", ":")  # of a sentence
SNUG = 0.9  # of a box may be all there is, so that it stands after its prompt
FEW = 2  # lines of a prompt under a picture that stands beside another problem, or beside the picture


def box(number: int, problem: Problem, size: Size, extent: Extent, *, new: bool = False) -> Box:
    """The problem as narrow as it can stand: half the page, else all of it."""
    empty = Box(
        number,
        (problem.prompt,),
        False,
        0.0 if BOX in problem.prompt else room(problem.expected, size, problem.form),
        hole=hole(problem, size),
        note=(MEETING,) if new else (),
    )
    narrow = laid(empty, problem, HALF - size.number, size, extent)
    if not fits_half(narrow, problem, HALF - size.number, size):
        narrow = laid(empty._replace(wide=True), problem, WIDTH - size.number, size, extent)
    return narrow._replace(height=round(height(narrow, size), 1))


def laid(empty: Box, problem: Problem, width: float, size: Size, extent: Extent) -> Box:
    """With everything in that width: its lines, its picture, its squared paper. What is asked of a picture
    across the page stands beside it, where there is room."""
    noted = empty._replace(note=note_lines(empty, width, size))
    shown = pictured(noted, problem, width, size, extent)
    return (aside(shown, width, size) if shown.wide else None) or asked(shown, width, size)


def aside(shown: Box, width: float, size: Size) -> Box | None:
    """With its prompt beside the picture; None where that is too long, or has too little room to write."""
    column = width - shown.across - GAP
    if shown.picture is None or column <= 0:
        return None
    prompt = (" ".join(shown.lines),)
    noted = shown._replace(wide=True, beside=True, lines=prompt, note=note_lines(shown, width, size))
    found = asked(noted, column, size)
    widest = max(line_width(line, found.hole, size) for line in found.lines)
    fits = len(found.lines) <= FEW and widest <= column and found.room < column
    return found if fits else None


def note_lines(one: Box, width: float, size: Size) -> tuple[str, ...]:
    return wrapped(" ".join(one.note), width / (size.text * NOTE)) if one.note else ()


def asked(shown: Box, width: float, size: Size) -> Box:
    """With its prompt in lines, and the room after them."""
    over = line_width(shown.lines[0], shown.hole, size) > width
    lines = wrapped_prompt(shown, width, size) if over else shown.lines
    left = max(0.0, width - PAD - line_width(lines[-1], shown.hole, size))
    snug = round(shown.room * SNUG, 1)
    room = snug if snug <= left < shown.room else min(shown.room, width)
    return shown._replace(lines=lines, below=room > left, room=room)


def pictured(empty: Box, problem: Problem, width: float, size: Size, extent: Extent) -> Box:
    """What stands above the prompt, and the squared paper below it."""
    picture, lines = problem.picture, told(problem)
    if paper := squared.squares(problem, lines, int(width // size.square)):
        return empty._replace(squares=paper)
    if in_columns(lines):
        return empty._replace(columns=lines, letters=columns_letters(lines, width, size))
    if picture is None or isinstance(picture, Lines):
        return empty._replace(story=story(lines, width / size.text))
    wide, high = extent(picture)
    letters = min(size.drawing, width / wide, size.tallest / high)
    return empty._replace(
        picture=picture, letters=letters, across=round(wide * letters, 1), down=round(high * letters, 1)
    )


def told(problem: Problem) -> tuple[str, ...]:
    """What stands above its prompt and is text."""
    return problem.picture.lines if isinstance(problem.picture, Lines) else ()


def in_columns(lines: Sequence[str]) -> bool:
    """Whether they have to stand below each other sign by sign, as times in a timetable."""
    return len(lines) > 1 and any("  " in line for line in lines)


def story(lines: Sequence[str], widest: float) -> tuple[str, ...]:
    """Each sentence as it is where it fits."""
    return tuple(
        chain.from_iterable(
            (line,) if width_of(line) <= widest else wrapped(line, widest) for line in sentences(lines)
        )
    )


def sentences(lines: Sequence[str]) -> list[str]:
    """A line that ends no sentence goes on in the next one: it was broken for a screen."""
    found = [""]
    for line in lines:
        found[-1] = f"{found[-1]} {line}".strip()
        if line.endswith(ENDS):
            found.append("")
    return [line for line in found if line]


def columns_letters(lines: Sequence[str], width: float, size: Size) -> float:
    return round(min(size.text, width / max(map(len, lines)) / MONO), 2)


def fits_half(narrow: Box, problem: Problem, width: float, size: Size) -> bool:
    """Whether a problem can stay in half the page: a prompt on one line with its room, unless a picture or
    squared paper makes it high in any case; nothing smaller than it should be, no sentence broken."""
    shown = told(problem)
    high = narrow.picture is not None or narrow.squares is not None
    return (
        len(narrow.lines) <= lines_below(narrow, size)
        and (high or not narrow.below)
        and max(line_width(line, narrow.hole, size) for line in narrow.lines) <= width
        and not (narrow.letters and narrow.letters < size.least)
        and (not narrow.story or [*narrow.story] == sentences(shown))
        and (narrow.squares is None or squared.columns(problem, shown) <= narrow.squares.across)
        and (narrow.room < width or not narrow.room)
    )


def lines_below(narrow: Box, size: Size) -> int:
    """A prompt may take so many: two more thermometers on a page are worth a line more."""
    if narrow.picture is None:
        return FEW if narrow.squares else 1
    return FEW + (narrow.down > size.tallest / 2)


def room(expected: str, size: Size, form: str = "") -> float:
    """Room to write that answer by hand; words are written narrower than numerals. Where there may be a
    remainder there is room for one, and factors have room for many, or the box told which it is."""
    each = 0.65 if expected.isascii() and expected[:1].isalpha() else 1.0
    more = len(REMAINDER) if form == "remainder" and REMAINDER[:3] not in expected else 0
    return stepped(max(each * (len(expected) + 1 + more), LEAST.get(form, 0)), ROOMS, size)


def stepped(numerals: float, steps: tuple[int, int], size: Size) -> float:
    """The least width of those steps with room for so many numerals."""
    least, step = steps
    more = max(0, ceil((numerals - least) / step))
    return round((least + more * step) * size.hand, 1)


def hole(problem: Problem, size: Size) -> float:
    """The width of a hole: that of the longest number that goes into one."""
    count = problem.prompt.count(BOX)
    if not count:
        return 0.0
    words = problem.expected.replace(",", " ").split() if count > 1 else [problem.expected]
    parts = [word for word in words if any(map(str.isdigit, word))] or words
    return stepped(max(map(len, parts)) + 1, HOLES, size)


def line_width(line: str, hole: float, size: Size) -> float:
    return width_of(line.replace(BOX, "")) * size.text + line.count(BOX) * (hole + AROUND)


def wrapped_prompt(empty: Box, whole: float, size: Size) -> tuple[str, ...]:
    """Wrapped as if each hole were a word of its width."""
    filler = "9" * max(1, ceil((empty.hole + AROUND) / size.text / 0.64))
    lines = wrapped(empty.lines[0].replace(BOX, filler), whole / size.text)
    return tuple(line.replace(filler, BOX) for line in lines) if empty.hole else lines


def shown_height(placed: Box, size: Size) -> float:
    """What stands above the prompt."""
    columns = len(placed.columns) * placed.letters * BAR
    inside = columns + placed.down + len(placed.story) * size.text * TOLD
    return inside + ABOVE + BELOW if inside else 0.0


def line_heights(placed: Box, size: Size) -> tuple[float, ...]:
    """Of the prompt: room to write where there is a hole, or after its end."""
    *before, last = placed.lines
    return (
        *(size.line if BOX in line else size.text * TOLD for line in before),
        size.text * TOLD if placed.below and BOX not in last else size.line,
    )


def height(placed: Box, size: Size) -> float:
    lines = sum(line_heights(placed, size)) + placed.below * size.line
    note = len(placed.note) * size.text
    squares = placed.squares.rows * size.square + 4 if placed.squares else 0.0
    above = shown_height(placed, size)
    return note + squares + (max(above, ABOVE + lines) if placed.beside else above + lines)


def rows(boxes: Sequence[Box], size: Size) -> list[Row]:
    """Two narrow ones side by side where they follow each other; the order stays."""
    found: list[tuple[Box, ...]] = []
    for one in boxes:
        last = found[-1] if found else ()
        if len(last) == 1 and not last[0].wide and not one.wide:
            found[-1] = (*last, one)
        else:
            found.append((one,))
    placed = ((alone(line[0], size),) if len(line) == 1 else line for line in found)
    return [Row(line, max(one.height for one in line)) for line in placed]


def alone(one: Box, size: Size) -> Box:
    """One that has a row to itself may have its prompt beside its picture."""
    found = None if one.wide else aside(one, WIDTH - size.number, size)
    if found is None or found.room != one.room:
        return one
    lower = found._replace(height=round(height(found, size), 1))
    return min(one, lower, key=lambda box: box.height)
