"""Rectangles and boxes with the lengths of their sides, a rectangle in parts, a thermometer, coins."""

from review.core.model import BOX
from review.core.pictures import Area, Box, Coins, Rectangle, Thermometer

WIDE = 14  # columns inside; our judgement: with a name beside it, it stays under 40
AREA = 28  # columns inside a rectangle in parts; a name of seven signs stands before it
SQUARE = (11, 5)  # columns and lines inside a square: a line is about as high as two columns are wide
LINE = 34  # columns of coins; signs in ASCII take a few more
FULL, EMPTY = "▓", " "


def rectangle(of: Rectangle) -> tuple[str, ...]:
    """One whose right side has no name of its own is a square, and drawn as one."""
    wide, high = (max(WIDE, len(of.inside) + 2), 3) if of.beside else SQUARE
    edge = f"  +{'-' * wide}+"
    rows = [f"  |{' ' * wide}|"] * high
    rows[high // 2] = f"  |{of.inside.center(wide)}| {of.beside}".rstrip()
    return (" " * 3 + of.above.center(wide).rstrip(), edge, *rows, edge)


def box(of: Box) -> tuple[str, ...]:
    edge = "-" * WIDE
    return (
        f"    +{edge}+",
        f"   /{' ' * WIDE}/|",
        f"  +{edge}+ | {of.high}",
        f"  |{' ' * WIDE}| +",
        f"  |{' ' * WIDE}|/ {of.deep}",
        f"  +{edge}+",
        " " * 3 + of.long.center(WIDE).rstrip(),
    )


def area(of: Area) -> tuple[str, ...]:
    """What each part is across stands above it, what it is down before it; a box where its product goes."""
    above, before = [*map(of.name, of.across)], [*map(of.name, of.down)]
    indent = max(map(len, before)) + 1
    widths = _parts(of.across, above)
    edge = " " * indent + "+" + "".join(f"{'-' * width}+" for width in widths)
    empty = " " * indent + "|" + "".join(f"{' ' * width}|" for width in widths)
    cells = "|" + "".join(f"{BOX.center(width)}|" for width in widths)
    heads = " " * (indent + 1) + " ".join(map(str.center, above, widths))
    rows = [[empty, f"{name.rjust(indent - 1)} {cells}", empty] for name in before]
    high = rows if len(rows) == 1 else [[row[1]] for row in rows]
    return heads, edge, *(line for row in high for line in (*row, edge))


def _parts(sizes: tuple[int, ...], names: list[str]) -> list[int]:
    """By size, so far as there is room for every name."""
    total = sum(sizes)
    least = [max(len(name) + 2, 5) for name in names]
    spare = AREA - sum(least) - len(sizes) + 1
    return [few + spare * size // total for few, size in zip(least, sizes, strict=True)]


def thermometer(of: Thermometer) -> tuple[str, ...]:
    """A column that is full up to a mark; every few marks have their number."""

    def line(degrees: int) -> str:
        label, tick = (f"{degrees:,}".replace("-", "−"), "--") if degrees % of.named == 0 else ("", " -")
        return f"{label:>4} {tick}|{FULL if degrees <= of.at else EMPTY}|"

    marks = range(of.low, of.high + 1, of.step)
    return f"   °{of.scale}", *map(line, reversed(marks)), f"{'':7}({FULL})"


def coins(of: Coins) -> tuple[str, ...]:
    """Coins are round, notes are square: (50p) (£1) [£5]."""
    lines = [""]
    for name, note in of.coins:
        sign = f"[{name}]" if note else f"({name})"
        full = len(lines[-1]) + len(sign) + 1 > LINE
        lines = [*lines, sign] if full else [*lines[:-1], f"{lines[-1]} {sign}".strip()]
    return tuple(lines)
