"""Pages with nothing on them yet: ten-frames, place-value mats, number lines."""

from collections.abc import Callable, Mapping
from typing import Literal

from review.core.paper import HALF, HEIGHT, WIDTH, Block, Drawing, OpenLine, Page, Sheet
from review.core.pictures import Mat, TenFrames

Sort = Literal["ten-frames", "mats", "lines"]
PLACES = ("thousands", "hundreds", "tens", "ones")
LINES = ((0, 10, 1), (0, 20, 1), (0, 100, 10), (0, 100, 0))
LARGE_LINES = ((0, 10, 1), (0, 20, 2), (0, 100, 10), (0, 100, 0))
"""From, to, and how far apart the names stand; 0: no names (common practice, no source)."""
LETTERS = {False: 5.0, True: 7.5}


def ten_frames(places: int, large: bool) -> list[Block]:
    """A frame's places hold a counter: squares of 16 mm, or 32."""
    width = WIDTH if large else HALF
    rows = 3 if large else 5
    frame = Drawing(TenFrames(0), width, 78.0 if large else 46.0, "An empty ten-frame.")
    return [frame] * (rows if large else rows * 2)


def mats(places: int, large: bool) -> list[Block]:
    names = PLACES[-places:]
    mat = Mat(names, ((0,) * places,))
    height = (HEIGHT - 12) / (1 if large else 2)
    drawing = Drawing(mat, WIDTH, round(height - 4, 1), "An empty place-value mat.", LETTERS[large] + 2)
    return [drawing] * (1 if large else 2)


def lines(places: int, large: bool) -> list[Block]:
    each = 1 if large else 2
    height = round((HEIGHT - 12) / (len(LINES) * each), 1)
    return [
        Drawing(
            OpenLine(low, high, tuple(range(low, high + 1, step)) if step else ()),
            WIDTH,
            height,
            f"A number line from {low} to {high}." if step else "An empty number line.",
            LETTERS[large],
        )
        for low, high, step in (LARGE_LINES if large else LINES)
        for _ in range(each)
    ]


BLANKS: Mapping[Sort, Callable[[int, bool], list[Block]]] = {
    "ten-frames": ten_frames,
    "mats": mats,
    "lines": lines,
}
NAMES: Mapping[Sort, str] = {"ten-frames": "Ten-frames", "mats": "Place-value mats", "lines": "Number lines"}


def sheet(sort: Sort, places: int, large: bool) -> Sheet:
    return Sheet(NAMES[sort], NAMES[sort], (Page(tuple(BLANKS[sort](places, large))),), large)
