"""The order of problems that leaves little paper empty: rows of two, no page begun while one has room.

For sheets of practice, whose order is ours. A warm-up keeps the order of its plan.
"""

from collections.abc import Sequence

from review.core.paper import ROOM, Box

ROUNDED = 0.05  # heights are rounded to 0.1 mm; sums of the same ones differ by less

Line = tuple[int, ...]
"""What stands side by side, by its places before."""


def ordered(boxes: Sequence[Box], first: float, alike: float) -> list[int]:
    """Their places before, in the order to print them in: that of before as far as no room is lost by it.
    `first` is taken on the first page already; heights that differ by `alike` stand well side by side."""
    lines = side_by_side(boxes, alike)
    odd = [line for line in lines if len(line) == 1 and not boxes[line[0]].wide]
    even = [line for line in lines if line not in odd]
    tallest = sorted(even, key=lambda line: -height(boxes, line))
    pages = min((on_pages(boxes, way, first) for way in (even, tallest)), key=len)
    lines = [line for page in pages for line in sorted(page)]
    return [n for line in (*lines, *odd) for n in line]


def side_by_side(boxes: Sequence[Box], alike: float) -> list[Line]:
    """Each narrow one with the next that is about as high; at most one is left over."""
    left, lines = [*range(len(boxes))], list[Line]()
    while left:
        n, *left = left
        mates = [] if boxes[n].wide else [k for k in left if not boxes[k].wide]
        near = sorted(mates, key=lambda k: max(alike, abs(boxes[n].height - boxes[k].height)))[:1]
        lines.append((n, *near))
        left = [k for k in left if k not in near]
    return lines


def height(boxes: Sequence[Box], line: Line) -> float:
    return max(boxes[n].height for n in line)


def on_pages(boxes: Sequence[Box], lines: Sequence[Line], first: float) -> list[list[Line]]:
    """Each on the first page that has room for it."""
    pages: list[list[Line]] = [[]]
    rooms = [ROOM - first - ROUNDED]
    for line in lines:
        high = height(boxes, line)
        n = next((n for n, room in enumerate(rooms) if high <= room), len(pages))
        if n == len(pages):
            pages.append([])
            rooms.append(ROOM - ROUNDED)
        pages[n].append(line)
        rooms[n] -= high
    return pages
