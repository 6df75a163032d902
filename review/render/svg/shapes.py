"""Clock faces, coins, tables, thermometers, rectangles, boxes, and text in columns."""

from math import cos, pi, sin

from review.core.pictures import Box, ClockFace, Coins, Lines, Rectangle, Table, Thermometer
from review.render.svg.strokes import SHADE, Drawing, circle, label, length, line, path, rect

RADIUS = 90.0
SHORT_HAND, LONG_HAND, RING, NUMBERS = 0.42, 0.68, 0.71, 0.855
"""Of a clock, how far out the hands end, the marks end and the numbers have their middle, in parts of its
radius (our judgement, looked at: "10" and "12" keep clear of the rim and of the marks)."""
MARKS = {True: 0.62, False: 0.67}  # where marks begin: of five minutes, of the others
ROW = 26.0
MONO = 9.1  # of a sign of a fixed-width face at 15 px: six tenths of its height (common practice)


def clock_face(of: ClockFace) -> Drawing:
    """Twelve numbers, and on a ring inside them a mark for each five minutes, or for each one; a short thick
    hand, and a long thin one that ends at the ring: beside a number, never behind it, where its tip looked
    like a full stop. The ring holds the marks, or one beside a 3 would make it −3."""
    marks = [mark for mark in range(60) if of.marked or mark % 5 == 0]
    return Drawing(
        2 * RADIUS,
        2 * RADIUS,
        (
            circle(RADIUS, RADIUS, RADIUS),
            circle(RADIUS, RADIUS, RING * RADIUS),
            *(line(*_point(6 * mark, MARKS[mark % 5 == 0]), *_point(6 * mark, RING)) for mark in marks),
            line(RADIUS, RADIUS, *_point(30 * of.hour + of.minute / 2, SHORT_HAND), thick=5),
            line(RADIUS, RADIUS, *_point(6 * of.minute, LONG_HAND), thick=2),
            *(label(*_point(30 * hour, NUMBERS), str(hour)) for hour in range(1, 13)),
            circle(RADIUS, RADIUS, 4, "#000"),
        ),
    )


def _point(degrees: float, reach: float) -> tuple[float, float]:
    turned = degrees * pi / 180
    return RADIUS * (1 + reach * sin(turned)), RADIUS * (1 - reach * cos(turned))


def coins(of: Coins) -> Drawing:
    """In rows of at most five, as long as each other, and close: so six stand in half a page."""
    across = 74.0 if any(note for _, note in of.coins) else 56.0
    down, strokes = 52.0, []
    rows = max(1, -(-len(of.coins) // 5))
    most = -(-len(of.coins) // rows)
    for n, (name, note) in enumerate(of.coins):
        x, y = n % most * across + across / 2, n // most * down + down / 2
        shape = rect(x - 34, y - 18, 68, 36) if note else circle(x, y, 24)
        strokes += [shape, label(x, y, name)]
    return Drawing(across * most, down * rows, tuple(strokes))


def table(of: Table) -> Drawing:
    columns = [max(map(length, column)) + 16 for column in zip(of.heads, *of.rows, strict=True)]
    starts = [sum(columns[:n]) for n in range(len(columns) + 1)]
    strokes = [
        label(start + wide / 2, ROW * (n + 0.5), cell)
        for n, row in enumerate([of.heads, *of.rows])
        for start, wide, cell in zip(starts, columns, row, strict=False)
        if cell
    ]
    wide, high = starts[-1], ROW * (1 + len(of.rows))
    upright = (line(start, 0, start, high) for start in starts[1:-1])
    return Drawing(wide, high, (rect(0, 0, wide, high), line(0, ROW, wide, ROW), *upright, *strokes))


def thermometer(of: Thermometer) -> Drawing:
    marks = range(of.low, of.high + 1, of.step)
    step, left, top = 14.0, 60.0, 26.0
    heights = {degrees: top + step * (len(marks) - 1 - n) for n, degrees in enumerate(marks)}
    foot = top + step * len(marks)
    numbers = (
        label(left - 16, y, f"{at:,}".replace("-", "−"), "end")
        for at, y in heights.items()
        if at % of.named == 0
    )
    ticks = (line(left - (12 if at % of.named == 0 else 7), y, left, y) for at, y in heights.items())
    full = heights[of.at]
    return Drawing(
        left + 16,
        foot + 16,
        (
            label(left + 6, 6, f"°{of.scale}"),
            rect(left, full, 12, foot - full, SHADE),
            rect(left, 16, 12, foot - 16),
            circle(left + 6, foot + 4, 11, SHADE),
            *numbers,
            *ticks,
        ),
    )


def rectangle(of: Rectangle) -> Drawing:
    """Without a second length it is a square."""
    high = 90.0
    wide = 190.0 if of.beside else high
    labels = (
        label(wide / 2, 8, of.above),
        label(wide + 8, 22 + high / 2, of.beside, "start"),
        label(wide / 2, 22 + high / 2, of.inside),
    )
    return Drawing(wide + 8 + length(of.beside), 22 + high, (rect(0, 22, wide, high), *labels))


def box(of: Box) -> Drawing:
    wide, high, deep = 160.0, 70.0, 30.0
    top = f"M0 {deep:g}l{deep:g} -{deep:g}h{wide:g}v{high:g}l-{deep:g} {deep:g}"
    edges = path(f"{top}M{wide:g} {deep:g}l{deep:g} -{deep:g}")
    labels = (
        label(wide / 2, deep + high + 14, of.long),
        label(wide + deep + 8, deep + 6, of.high, "start"),
        label(wide + deep / 2 + 12, high + deep - 4, of.deep, "start"),
    )
    right = wide + deep + 12 + max(length(of.high), length(of.deep))
    return Drawing(right, deep + high + 26, (rect(0, deep, wide, high), edges, *labels))


def lines(of: Lines) -> Drawing:
    """In a face of one width, so that columns stay columns."""
    text = "".join(
        label(0, 12 + 20 * n, line, "start").replace("<text ", '<text font-family="monospace" ')
        for n, line in enumerate(of.lines)
    )
    return Drawing(MONO * max(map(len, of.lines)), 20.0 * len(of.lines) + 4, (text,))
