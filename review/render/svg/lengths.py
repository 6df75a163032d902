"""Bars, strips and rectangles in parts."""

from collections.abc import Sequence
from itertools import accumulate

from review.core.model import BOX
from review.core.pictures import Area, Bar, Bars, Part, Strip, Strips
from review.render.svg.strokes import SHADE, Drawing, below, label, length, rect

WIDE, HIGH = 340, 30
DEEP = 44  # of a part of a rectangle


def _widths(parts: Sequence[Part]) -> list[float]:
    """By size, and wide enough for each label."""
    total = sum(part.size for part in parts) or 1
    least = [max(length(part.label) + 10, 14.0) for part in parts]
    spare = max(0.0, WIDE - sum(least))
    shares = [max(0.0, WIDE * part.size / total - few) for part, few in zip(parts, least, strict=True)]
    return [few + spare * share / (sum(shares) or 1) for few, share in zip(least, shares, strict=True)]


def _row(parts: Sequence[Part], widths: Sequence[float], top: float) -> list[str]:
    starts = [0.0, *accumulate(widths)]
    return [
        stroke
        for part, start, wide in zip(parts, starts, widths, strict=False)
        for stroke in (rect(start, top, wide, HIGH), label(start + wide / 2, top + HIGH / 2, part.label))
    ]


def bar(of: Bar) -> Drawing:
    widths = _widths(of.parts)
    wide = sum(widths)
    whole = (rect(0, 0, wide, HIGH), label(wide / 2, HIGH / 2, of.whole))
    return Drawing(wide, 2 * HIGH, (*whole, *_row(of.parts, widths, HIGH)))


def bars(of: Bars) -> Drawing:
    (long, long_label), (short, short_label) = of.bars
    widths = _widths((Part(short, short_label), Part(long - short, of.apart)))
    wide = sum(widths)
    above = (rect(0, 0, wide, HIGH), label(wide / 2, HIGH / 2, long_label))
    first = (rect(0, HIGH, widths[0], HIGH), label(widths[0] / 2, 1.5 * HIGH, short_label))
    rest = rect(widths[0], HIGH, widths[1], HIGH, dashes="4 4")
    return Drawing(
        wide, 2 * HIGH, (*above, *first, rest, label(widths[0] + widths[1] / 2, 1.5 * HIGH, of.apart))
    )


def strips(of: Strips) -> Drawing:
    return below(map(_strip, of.strips), 8)


def _strip(of: Strip) -> Drawing:
    each = WIDE / of.parts
    shaded = (rect(part * each, 0, each, HIGH, SHADE) for part in range(of.shaded))
    plain = (rect(part * each, 0, each, HIGH) for part in range(of.shaded, of.parts))
    beside = (label(WIDE + 8, HIGH / 2, of.label, "start"),) if of.label else ()
    return Drawing(WIDE + (8 + length(of.label) if of.label else 0), HIGH, (*shaded, *plain, *beside))


def area(of: Area) -> Drawing:
    before = [*map(of.name, of.down)]
    left = max(map(length, before)) + 8
    across = [Part(n, of.name(n)) for n in of.across]
    widths = [max(wide, 40.0) for wide in _widths(across)]
    starts = [left, *accumulate(widths, initial=left)][1:]
    heads = [
        label(start + wide / 2, 10, part.label)
        for part, start, wide in zip(across, starts, widths, strict=False)
    ]
    cells = [
        stroke
        for row, name in enumerate(before)
        for stroke in (
            label(left - 8, 22 + DEEP * (row + 0.5), name, "end"),
            *(
                piece
                for start, wide in zip(starts, widths, strict=False)
                for piece in (
                    rect(start, 22 + DEEP * row, wide, DEEP),
                    label(start + wide / 2, 22 + DEEP * (row + 0.5), BOX),
                )
            ),
        )
    ]
    return Drawing(left + sum(widths), 22 + DEEP * len(before), (*heads, *cells))
