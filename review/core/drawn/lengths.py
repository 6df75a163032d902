"""Lengths beside and below each other: parts of a whole, two amounts, strips of equal parts."""

from collections.abc import Sequence
from math import lcm

from review.core.pictures import Bar, Bars, Part, Strip, Strips

WIDTH = 38  # columns, the ends with it
SHADED, PLAIN = "▓", " "
MOST_IN_A_PART = 5  # columns of a part of a single strip; longer ones are no plainer (our judgement)


def bar(of: Bar) -> tuple[str, ...]:
    """The whole above its parts."""
    widths = _widths(of.parts, len(of.whole) + 2)
    wide = sum(widths) + len(widths) - 1
    edge = f"+{'-' * wide}+"
    between = "+" + "".join(f"{'-' * width}+" for width in widths)
    parts = "|" + "".join(
        f"{part.label.center(width)}|" for part, width in zip(of.parts, widths, strict=True)
    )
    return edge, f"|{of.whole.center(wide)}|", between, parts, between


def bars(of: Bars) -> tuple[str, ...]:
    """The longer one above; what the other is short of is dotted."""
    (long, long_label), (short, short_label) = of.bars
    widths = _widths((Part(short, short_label), Part(long - short, of.apart)), len(long_label) + 2)
    wide = sum(widths) + 1
    edge = f"+{'-' * widths[0]}+{'.' * widths[1]}+"
    return (
        f"+{'-' * wide}+",
        f"|{long_label.center(wide)}|",
        f"+{'-' * wide}+",
        f"|{short_label.center(widths[0])}|{of.apart.center(widths[1])}:",
        edge,
    )


def _widths(parts: Sequence[Part], whole: int) -> list[int]:
    """Columns of each part: by its size, and wide enough for its label."""
    total = sum(part.size for part in parts) or 1

    def of(long: int) -> list[int]:
        return [max(len(part.label) + 2 * (len(parts) < 6), 1, part.size * long // total) for part in parts]

    fitting = (of(long) for long in range(WIDTH - 1 - len(parts), -1, -1))
    found = next((widths for widths in fitting if sum(widths) + len(widths) < WIDTH), of(0))
    short = whole - sum(found) - len(found) + 1
    return [*found[:-1], found[-1] + max(0, short)]


# --- strips -------------------------------------------------------------------------------------------


def strips(of: Strips) -> tuple[str, ...]:
    """One strip two lines high, several one below the other, all of one length."""
    if len(of.strips) == 1:
        (strip,) = of.strips
        room = WIDTH - 1 - (len(strip.label) + 1 if strip.label else 0)
        wide = max(1, min(MOST_IN_A_PART, room // strip.parts - 1))
        long = strip.parts * (wide + 1) if 2 * strip.parts <= room else strip.parts
        row = f"{_row(strip, long)} {strip.label}".rstrip()
        return _edge(strip, long), row, _row(strip, long), _edge(strip, long)
    label = max(len(strip.label) for strip in of.strips) + 1
    long = _length([strip.parts for strip in of.strips], WIDTH - label)
    rows = [(_edge(strip, long), f"{_row(strip, long)} {strip.label}".rstrip()) for strip in of.strips]
    found = [rows[0][0]]
    for edge, row in rows:
        found += [row, edge] if edge == found[-1] else [edge, row, edge]
    return tuple(found)


def _length(parts: Sequence[int], room: int) -> int:
    """Where all parts can end in whole columns they do."""
    common = lcm(*parts)
    return room // common * common or room


def _ends(strip: Strip, long: int) -> list[int]:
    return [round(part * long / strip.parts) for part in range(strip.parts + 1)]


def _upright(strip: Strip, long: int) -> list[int]:
    """The columns of the lines between parts, where each part has room for one; else of the two ends."""
    ends = _ends(strip, long)
    return ends if long >= 2 * strip.parts else [0, long]


def _edge(strip: Strip, long: int) -> str:
    ends = _upright(strip, long)
    return "".join("+" if column in ends else "-" for column in range(long + 1))


def _row(strip: Strip, long: int) -> str:
    ends, filled = _upright(strip, long), _ends(strip, long)[strip.shaded]
    return "".join(
        "|" if column in ends else SHADED if column <= filled else PLAIN for column in range(long + 1)
    )
