"""Counters on ten-frames, mats and in equal rows: round ones black, a second kind white and on a corner."""

from review.core.pictures import Array, Exchange, Mat, TenFrames, mats
from review.render.svg.strokes import Drawing, below, circle, label, length, line, moved, path, rect

CELL, RADIUS = 24, 8  # of a place, of a counter
STEP = 20  # from counter to counter where there are no places
SPLIT = 14
FRAME_GAP = 24
FRAMES_A_ROW = 3


def counter(x: float, y: float) -> str:
    return circle(x, y, RADIUS, "#000")


def other(x: float, y: float) -> str:
    return path(f"M{x:g} {y - 9:g}l9 9l-9 9l-9 -9z", "#fff")


def crossed(x: float, y: float) -> str:
    return circle(x, y, RADIUS) + path(f"M{x - 9:g} {y - 9:g}l18 18m0 -18l-18 18")


def ten_frames(of: TenFrames) -> Drawing:
    total = of.counters + of.others
    kinds = [counter] * of.counters + [other] * of.others
    kinds[total - of.away :] = [crossed] * of.away
    frames = [kinds[at : at + 10] for at in range(0, max(total, 1), 10)]
    strokes = []
    for at, frame in enumerate(frames):
        down, across = divmod(at, FRAMES_A_ROW)
        drawn = (kind(n % 5 * CELL + CELL / 2, n // 5 * CELL + CELL / 2) for n, kind in enumerate(frame))
        x, y = across * (5 * CELL + FRAME_GAP), down * (2 * CELL + FRAME_GAP)
        strokes.append(moved([_places(), *drawn], x, y))
    wide = min(len(frames), FRAMES_A_ROW) * (5 * CELL + FRAME_GAP) - FRAME_GAP
    high = -(-len(frames) // FRAMES_A_ROW) * (2 * CELL + FRAME_GAP) - FRAME_GAP
    return Drawing(wide, high, tuple(strokes))


def _places() -> str:
    upright = "".join(line(CELL * n, 0, CELL * n, 2 * CELL) for n in range(1, 5))
    return rect(0, 0, 5 * CELL, 2 * CELL) + line(0, CELL, 5 * CELL, CELL) + upright


# --- mats ---------------------------------------------------------------------------------------------


def mat(of: Mat) -> Drawing:
    column = max(5 * STEP + 16, *(length(place) + 12 for place in of.places))
    wide = column * len(of.places)
    strokes = [label(column * (n + 0.5), 12, place) for n, place in enumerate(of.places)]
    top = 24.0
    for row in of.rows:
        high = max(1, *(-(-count // 5) for count in row)) * STEP + 16
        strokes.append(line(0, top, wide, top))
        last = row is of.rows[-1]
        for at, count in enumerate(row):
            came = of.arrived[1] if last and at == of.arrived[0] else 0
            ringed = of.ringed[1] if last and at == of.ringed[0] else 0
            strokes.append(moved(_fives(count, came, ringed), at * column + 8, top + 8))
        top += high
    upright = (line(column * n, 0, column * n, top) for n in range(1, len(of.places)))
    return Drawing(wide, top, (rect(0, 0, wide, top), *strokes, *upright))


def _fives(count: int, came: int, ringed: int) -> list[str]:
    """By fives; those that came are the last ones, those with a ring the first."""
    found = [
        (other if n >= count - came else counter)(n % 5 * STEP + STEP / 2, n // 5 * STEP + STEP / 2)
        for n in range(count)
    ]
    rows, columns = -(-ringed // 5), min(ringed, 5)
    ring = [rect(-3, -3, columns * STEP + 6, rows * STEP + 6, round=10, dashes="5 3")] if ringed else []
    return found + ring


def exchange(of: Exchange) -> Drawing:
    before, after = (mat(one) for one in mats(of))
    middle = before.wide / 2
    arrow = Drawing(before.wide, 22, (path(f"M{middle:g} 0v20m-7 -8l7 8l7 -8"),))
    return below((before, arrow, after), 4)


# --- arrays -------------------------------------------------------------------------------------------


def array(of: Array) -> Drawing:
    strokes = [
        counter(_along(column, of.split), _along(row, of.split_rows))
        for row in range(of.rows + bool(of.rest))
        for column in range(of.columns if row < of.rows else of.rest)
    ]
    wide = _along(of.columns - 1, of.split) + STEP / 2
    high = _along(of.rows - 1 + bool(of.rest), of.split_rows) + STEP / 2
    return Drawing(wide, high, tuple(strokes))


def _along(at: int, split: int) -> float:
    return STEP * (at + 0.5) + (SPLIT if split and at >= split else 0)
