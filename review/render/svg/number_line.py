"""A number line on a page: places lie as they do in characters, so that names and labels have room."""

from review.core.drawn.number_line import columns, layers
from review.core.pictures import Jump, NumberLine
from review.render.svg.strokes import Drawing, label, line, path

COLUMN = 10.0
ARC, TICK, NAME = 34.0, 7.0, 22.0  # height of a jump with its label, half of a mark, room for a name


def number_line(of: NumberLine) -> Drawing:
    places = {place: COLUMN * (column + 0.5) for place, column in columns(of).items()}
    rows = layers(of.jumps)
    level = ARC * len(rows) + (24 if of.arrow is not None else 0) + TICK
    first, last = min(places.values()), max(places.values())
    marks = {mark.at for mark in of.marks} | {end for jump in of.jumps for end in jump[:2]}
    strokes = [
        line(first, level, last, level),
        *(line(places[at], level - TICK, places[at], level + TICK) for at in sorted(marks)),
        *(label(places[mark.at], level + TICK + 12, mark.name) for mark in of.marks if mark.name),
        *(
            stroke
            for layer, jumps in enumerate(rows, 1)
            for jump in jumps
            for stroke in _jump(jump, places[jump.start], places[jump.end], level, layer)
        ),
    ]
    if of.arrow is not None:
        strokes.append(path(f"M{places[of.arrow]:g} {level - 30:g}v20m-5 -7l5 7l5 -7"))
    longest = max((len(mark.name) for mark in of.marks[-1:]), default=0)
    return Drawing(last + COLUMN * (1 + longest / 2), level + TICK + NAME, tuple(strokes))


def _jump(jump: Jump, start: float, end: float, level: float, layer: int) -> tuple[str, str]:
    """An arc that ends in an arrow; its label above it."""
    foot, top = level - TICK - 2, level - TICK - ARC * layer + 18
    back = 1 if start < end else -1
    middle = (start + end) / 2
    curve = f"M{start:g} {foot:g}Q{middle:g} {2 * top - foot:g} {end:g} {foot:g}"
    tip = f"M{end - 8 * back:g} {foot - 4:g}L{end:g} {foot:g}v-9"
    return path(curve + tip), label(middle, top - 9, jump.label) if jump.label else ""
