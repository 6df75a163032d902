"""A number line: jumps above it, names below it.

It is to scale wherever its names and labels have room; else it is an open line, which keeps the order of its
places, and whose longer gaps are drawn longer only as far as there is room (common practice, no source).
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import gcd

from review.core.drawn.grids import COLUMNS
from review.core.pictures import Jump, NumberLine

MOST_COLUMNS = 7  # of a step; longer ones are no plainer (our judgement)
LANDS, UP, BACK, MARK, SHORT, ALONG = "v", "/", "\\", "|", "'", "-"

Places = Mapping[int, int]  # place on the line -> column
Row = list[str]


def number_line(of: NumberLine) -> tuple[str, ...]:
    found = columns(of)
    wide = max(found.values()) + 1
    low = min(found.values())
    line = [*" " * low, *ALONG * (wide - low)]
    short = _short(of, found)
    for place in _points(of):
        line[found[place]] = SHORT if place in short else MARK
    names = _blank(wide)
    for mark in of.marks:
        _write(names, mark.name, found[mark.at])
    return tuple("".join(row) for row in (*_above(of, found, wide), line, names) if "".join(row).strip())


# --- where places lie ---------------------------------------------------------------------------------


def _points(of: NumberLine) -> list[int]:
    """Every place with a mark, from the lowest up."""
    ends = (end for jump in of.jumps for end in (jump.start, jump.end))
    return sorted({*(mark.at for mark in of.marks), *ends})


def _short(of: NumberLine, found: Places) -> set[int]:
    """Places whose mark is a short one, as on a ruler: where marks have no gap between them, those without a
    name, so that one sees where the others are."""
    points = _points(of)
    if all(found[b] - found[a] > 1 for a, b in pairwise(points)):
        return set()
    named = {mark.at for mark in of.marks if mark.name}
    return {*points[1:-1]} - named


def _all(of: NumberLine) -> list[int]:
    return sorted({*_points(of), *(() if of.arrow is None else (of.arrow,))})


def _needs(of: NumberLine) -> Iterator[tuple[int, int, int]]:
    """(place, later place, columns between): neighbouring names keep one space, a label fits in its jump."""
    named = [mark for mark in of.marks if mark.name]
    for a, b in pairwise(named):
        yield a.at, b.at, (len(a.name) + 1) // 2 + len(b.name) // 2 + 1
    for jump in of.jumps:
        yield min(jump.start, jump.end), max(jump.start, jump.end), max(len(jump.label) + 1, 3)


def columns(of: NumberLine) -> Places:
    """The column of each place, the first names written whole."""
    places, needs = _all(of), list(_needs(of))
    names = {mark.at: mark.name for mark in of.marks}
    left = len(names.get(places[0], "")) // 2
    room = COLUMNS - 1 - left - len(names.get(places[-1], "")) // 2
    step = gcd(*(b - a for a, b in pairwise(places))) or 1
    scale = min(MOST_COLUMNS, room * step // max(places[-1] - places[0], 1))
    found = {place: (place - places[0]) // step * scale for place in places}
    if scale < 1 or any(found[b] - found[a] < columns for a, b, columns in needs):
        found = _open(places, needs, room)
    return {place: column + left for place, column in found.items()}


def _open(places: Sequence[int], needs: Sequence[tuple[int, int, int]], room: int) -> dict[int, int]:
    """The longest line with room for what it needs."""
    lines = (_stretched(places, needs, long) for long in range(room, -1, -1))
    return next((line for line in lines if line[places[-1]] <= room), _stretched(places, needs, 0))


def _stretched(places: Sequence[int], needs: Sequence[tuple[int, int, int]], long: int) -> dict[int, int]:
    found = {places[0]: 0}
    for before, place in pairwise(places):
        by_size = (place - before) * long // (places[-1] - places[0])
        least = [found[a] + columns for a, b, columns in needs if b == place]
        found[place] = max(found[before] + max(1, by_size), *least, 0)
    return found


# --- what lies above it -------------------------------------------------------------------------------


def _above(of: NumberLine, found: Places, wide: int) -> list[Row]:
    """Jumps, then the arrow. Those that cross others stand above them, on posts."""
    rows: list[Row] = []
    posts: set[int] = set()
    for jumps in reversed(layers(of.jumps)):
        labels, arcs = _blank(wide), _blank(wide)
        for column in posts:
            labels[column] = arcs[column] = MARK
        for jump in jumps:
            start, end = found[jump.start], found[jump.end]
            posts |= {start, end}
            _arc(arcs, start, end)
            _write(labels, jump.label, (start + end + 1) // 2)
        rows += [labels, arcs]
    if of.arrow is not None:
        rows.append(_blank(wide))
        rows[-1][found[of.arrow]] = LANDS
    return rows


def layers(jumps: Sequence[Jump]) -> list[list[Jump]]:
    """Jumps that lie beside each other, the first ones lowest."""
    layers: list[list[Jump]] = []
    for jump in jumps:
        free = next((layer for layer in layers if not any(_cross(jump, other) for other in layer)), None)
        if free is None:
            layers.append([jump])
        else:
            free.append(jump)
    return layers


def _cross(a: Jump, b: Jump) -> bool:
    return max(min(a[:2]), min(b[:2])) < min(max(a[:2]), max(b[:2]))


def _arc(row: Row, start: int, end: int) -> None:
    low, high = sorted((start, end))
    row[low + 1 : high] = ALONG * (high - low - 1)
    if row[start] != LANDS:
        row[start] = UP if start < end else BACK
    row[end] = LANDS


def _blank(wide: int) -> Row:
    return [" "] * (wide + COLUMNS)  # names may reach past the end


def _write(row: Row, text: str, middle: int) -> None:
    begin = max(0, middle - len(text) // 2)
    row[begin : begin + len(text)] = text
