"""Pictures drawn in characters, at most 40 columns wide.

Besides letters, figures and signs of ASCII there are only signs that `signs.fit` knows: a picture says as
much in ASCII, and its columns stay where they are.
"""

from collections.abc import Callable, Mapping
from typing import Any

from review.core.drawn.clock_face import clock_face
from review.core.drawn.counters import array, exchange, mat, ten_frames
from review.core.drawn.grids import table
from review.core.drawn.lengths import bar, bars, strips
from review.core.drawn.number_line import number_line
from review.core.drawn.shapes import area, box, coins, rectangle, thermometer
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

DRAWN: Mapping[type, Callable[[Any], tuple[str, ...]]] = {
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
    Lines: lambda text: text.lines,
}


def drawn(picture: Picture) -> tuple[str, ...]:
    """Line by line, from the top."""
    return tuple(line.rstrip() for line in DRAWN[type(picture)](picture))
