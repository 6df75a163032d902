"""Pictures for a page: one SVG element each, black on white, without colours, scripts or anything outside it.

Its sentence is in it (`aria-label` and `desc`), for a screen reader. Lengths are in CSS pixels, but on paper.
"""

from collections.abc import Callable, Mapping
from typing import Any

from review.core.picture_words import sentence
from review.core.pictures import (
    Area,
    Array,
    Bar,
    Bars,
    Box,
    ClockFace,
    Coins,
    Exchange,
    Lines,
    Mat,
    NumberLine,
    Picture,
    Rectangle,
    Strips,
    Table,
    TenFrames,
    Thermometer,
)
from review.render.svg.counters import array, exchange, mat, ten_frames
from review.render.svg.lengths import area, bar, bars, strips
from review.render.svg.number_line import number_line
from review.render.svg.shapes import box, clock_face, coins, lines, rectangle, table, thermometer
from review.render.svg.strokes import Drawing, number, words

MARGIN = 4
LETTERS = 15  # their height

DRAWN: Mapping[type, Callable[[Any], Drawing]] = {
    TenFrames: ten_frames,
    Mat: mat,
    Exchange: exchange,
    Array: array,
    NumberLine: number_line,
    Bar: bar,
    Bars: bars,
    ClockFace: clock_face,
    Coins: coins,
    Strips: strips,
    Area: area,
    Table: table,
    Thermometer: thermometer,
    Rectangle: rectangle,
    Box: box,
    Lines: lines,
}


def svg(picture: Picture) -> str:
    """An element to stand in a page; as wide as it is drawn, and no wider than its place."""
    wide, high = map(number, whole(picture))
    return element(picture, f'width="{wide}" height="{high}" style="max-width:100%;height:auto"')


def printed(picture: Picture, across: float, down: float) -> str:
    """An element to be printed so wide and so high, in millimetres."""
    return element(picture, f'width="{across:g}mm" height="{down:g}mm"')


def extent(picture: Picture) -> tuple[float, float]:
    """How wide and how high it is with its margin, in parts of the height of its letters."""
    wide, high = whole(picture)
    return wide / LETTERS, high / LETTERS


def whole(picture: Picture) -> tuple[float, float]:
    drawing = DRAWN[type(picture)](picture)
    return drawing.wide + 2 * MARGIN, drawing.high + 2 * MARGIN


def element(picture: Picture, size: str) -> str:
    drawing, said = DRAWN[type(picture)](picture), words(sentence(picture))
    wide, high = map(number, whole(picture))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="-{MARGIN} -{MARGIN} {wide} {high}" '
        f'{size} role="img" aria-label="{said}" '
        f'fill="none" stroke="#000" stroke-width="1.5" font-family="sans-serif" font-size="{LETTERS}">'
        f"<desc>{said}</desc>{''.join(drawing.strokes)}</svg>"
    )
