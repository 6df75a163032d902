"""Empty ten-frames, place-value mats and number lines as SVG, in millimetres, black on white."""

from collections.abc import Callable, Mapping
from html import escape

from review.core.paper import Drawing, OpenLine, width_of
from review.core.pictures import Mat, TenFrames

THICK, THIN = 0.7, 0.35
FAMILY = "DejaVu Sans, Noto Sans, Liberation Sans, Arial, Helvetica, sans-serif"


def svg(drawing: Drawing) -> str:
    """A whole SVG element, as wide and high as the drawing."""
    width, height = drawing.width, drawing.height
    inside = DRAWN[type(drawing.picture)](drawing)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{escape(drawing.said)}" '
        f'width="{width:g}mm" height="{height:g}mm" viewBox="0 0 {width:g} {height:g}">{inside}</svg>'
    )


def line(x1: float, y1: float, x2: float, y2: float, thick: float = THIN) -> str:
    ends = f'x1="{x1:.2f}" y1="{y1:.2f}" x2="{x2:.2f}" y2="{y2:.2f}"'
    return f'<line {ends} stroke="black" stroke-width="{thick}"/>'


def box(x: float, y: float, width: float, height: float, thick: float = THIN) -> str:
    return (
        f'<rect x="{x:.2f}" y="{y:.2f}" width="{width:.2f}" height="{height:.2f}" fill="none" '
        f'stroke="black" stroke-width="{thick}"/>'
    )


def words(x: float, y: float, text: str, letters: float) -> str:
    """Text centred on x, standing on y."""
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{letters:g}" font-family="{FAMILY}" '
        f'text-anchor="middle">{escape(text)}</text>'
    )


def ten_frame(drawing: Drawing) -> str:
    """Two rows of five, the middle of the frame marked by a thicker line after neither: five then five."""
    side = min((drawing.width - 2) / 5, (drawing.height - 8) / 2)
    left, top = (drawing.width - 5 * side) / 2, 1.0
    cells = [box(left + side * n, top + side * row, side, side) for row in range(2) for n in range(5)]
    return "".join([*cells, box(left, top, 5 * side, 2 * side, THICK)])


def mat(drawing: Drawing) -> str:
    """Columns with the names of their places above."""
    assert isinstance(drawing.picture, Mat)
    places = drawing.picture.places
    each, top = (drawing.width - 2) / len(places), 14.0
    letters = min(drawing.letters, each / 6)
    columns = [box(1 + each * n, 1, each, drawing.height - 6) for n in range(len(places))]
    names = [words(1 + each * (n + 0.5), 10, name, letters) for n, name in enumerate(places)]
    whole = box(1, 1, drawing.width - 2, drawing.height - 6, THICK)
    return "".join([*columns, *names, line(1, top, drawing.width - 1, top, THICK), whole])


def number_line(drawing: Drawing) -> str:
    """A line with a mark for every one up to twenty, else for every five; named where names are given."""
    assert isinstance(drawing.picture, OpenLine)
    low, high, names = drawing.picture
    widest = max((width_of(str(n)) for n in names), default=0.0) * drawing.letters
    left = max(6.0, widest / 2 + THICK)
    right, y = drawing.width - left, drawing.height / 2
    step = 1 if high - low <= 20 else 5

    def at(value: int) -> float:
        return left + (right - left) * (value - low) / (high - low)

    marks = [
        line(at(n), y - (3.0 if n in names else 1.8), at(n), y + (3.0 if n in names else 1.8))
        for n in range(low, high + 1, step)
    ]
    told = [words(at(n), y + 4 + drawing.letters, str(n), drawing.letters) for n in names]
    return "".join([line(left - 4, y, right + 4, y, THICK), *(marks if names else []), *told])


DRAWN: Mapping[type, Callable[[Drawing], str]] = {TenFrames: ten_frame, Mat: mat, OpenLine: number_line}
