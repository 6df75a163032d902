"""What drawings on a page are made of: lines, rectangles, circles, words."""

from collections.abc import Iterable
from html import escape
from typing import NamedTuple

from review.core.model import BOX
from review.core.text import clean

LETTER = 8.5  # of a figure or letter at 15 px, the average of common faces without serifs, from memory
SHADE = "#aaa"


class Drawing(NamedTuple):
    wide: float
    high: float
    strokes: tuple[str, ...]


def number(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def words(text: str) -> str:
    """Safe in an element and in an attribute."""
    return escape(clean(text))


def _element(name: str, **values: float | str) -> str:
    written = (
        f'{key.replace("_", "-")}="{value if isinstance(value, str) else number(value)}"'
        for key, value in values.items()
        if value != ""
    )
    return f"<{name} {' '.join(written)}/>"


def line(x1: float, y1: float, x2: float, y2: float, thick: float = 1.5) -> str:
    return _element("line", x1=x1, y1=y1, x2=x2, y2=y2, stroke_width="" if thick == 1.5 else thick)


def rect(
    x: float, y: float, wide: float, high: float, fill: str = "", round: float = 0, dashes: str = ""
) -> str:
    return _element(
        "rect", x=x, y=y, width=wide, height=high, fill=fill, rx=round or "", stroke_dasharray=dashes
    )


def circle(x: float, y: float, radius: float, fill: str = "") -> str:
    return _element("circle", cx=x, cy=y, r=radius, fill=fill)


def path(steps: str, fill: str = "", dashes: str = "") -> str:
    return _element("path", d=steps, fill=fill, stroke_dasharray=dashes)


def label(x: float, y: float, text: str, anchor: str = "middle") -> str:
    """Words with their middle at that height; a box is drawn, since not every face has one."""
    if text == BOX:
        left = {"start": 0.0, "middle": -7.5, "end": -15.0}[anchor]
        return rect(x + left, y - 7.5, 15, 15)
    return (
        f'<text x="{number(x)}" y="{number(y + 5)}" text-anchor="{anchor}" fill="#000" stroke="none" '
        f'xml:space="preserve">{_spaced(text)}</text>'
    )


def _spaced(text: str) -> str:
    """Safe, with its spaces: they are what holds columns of digits together."""
    return " ".join(words(part) for part in text.split(" "))


def length(text: str) -> float:
    return LETTER * len(text)


def moved(strokes: Iterable[str], x: float, y: float) -> str:
    return f'<g transform="translate({number(x)} {number(y)})">{"".join(strokes)}</g>'


def below(drawings: Iterable[Drawing], gap: float) -> Drawing:
    """One below the other."""
    strokes, wide, high = [], 0.0, -gap
    for drawing in drawings:
        strokes.append(moved(drawing.strokes, 0, high + gap))
        wide, high = max(wide, drawing.wide), high + gap + drawing.high
    return Drawing(wide, high, tuple(strokes))
