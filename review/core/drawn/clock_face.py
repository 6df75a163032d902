"""A clock face in characters: at most 36 columns, with both hands where they stand at that minute.

The hands are drawn from the middle outwards: the short one in thick signs, a little further than half the
face, the long one in thin signs, as far as the numbers. Both move: at half past, the short hand is half-way
to the next number. A face for single minutes is larger and has a mark for each.
"""

from math import cos, pi, sin
from typing import NamedTuple

from review.core.pictures import ClockFace

HOUR_SIGN, MINUTE_SIGN, MARK, MIDDLE = "●", "•", "·", "+"
HOUR_REACH, MINUTE_REACH = 0.55, 0.94  # of the face; so each of 60 minutes has a tip of its own (a test)


class Face(NamedTuple):
    across: int  # columns from the middle to 3; a column is about half as wide as a line is high
    down: int  # lines from the middle to 6
    marked: bool  # whether each minute has a mark


SMALL, LARGE = Face(14, 6, False), Face(17, 8, True)
"""13 and 17 lines: with dots, a first meeting's two lines and the prompt they fit a terminal of 24. On lower
ones, of those tried (9 lines and more, 7 to 17 columns from the middle, several reaches), tests find times
whose hands cannot be told from their neighbours' [M]."""


def clock_face(of: ClockFace) -> tuple[str, ...]:
    return drawn(of.hour, of.minute, LARGE if of.marked else SMALL)


def hour_angle(hour: int, minute: int) -> float:
    """Degrees from 12, clockwise: 30 an hour and half a degree a minute."""
    return (30 * hour + minute / 2) % 360


def minute_angle(minute: int) -> float:
    return 6.0 * minute


def cell(face: Face, angle: float, reach: float = 1.0) -> tuple[int, int]:
    """(line, column) of the point in that direction, counted from the upper left corner."""
    turned = angle * pi / 180
    across, up = sin(turned) * face.across * reach, cos(turned) * face.down * reach
    # half a hair is added, so that two processors round a point between two cells alike
    return face.down - round(up + 1e-9), face.across + round(across + 1e-9)


def hand(face: Face, angle: float, reach: float) -> list[tuple[int, int]]:
    """The cells from the middle to the tip, without the middle."""
    points = 4 * face.across
    cells = (cell(face, angle, reach * point / points) for point in range(1, points + 1))
    return [one for one in dict.fromkeys(cells) if one != (face.down, face.across)]


def drawn(hour: int, minute: int, face: Face) -> tuple[str, ...]:
    """The lines of the face. Where the hands cross, the short one lies on top: the long one reaches past."""
    lines = [[" "] * (2 * face.across + 2) for _ in range(2 * face.down + 1)]

    def put(cells: list[tuple[int, int]], sign: str) -> None:
        for line, column in cells:
            lines[line][column] = sign

    put([cell(face, minute_angle(mark)) for mark in range(60) if face.marked and mark % 5], MARK)
    put(hand(face, minute_angle(minute), MINUTE_REACH), MINUTE_SIGN)
    put(hand(face, hour_angle(hour, minute), HOUR_REACH), HOUR_SIGN)
    put([(face.down, face.across)], MIDDLE)
    for number in range(1, 13):
        line, column = cell(face, 30.0 * number)
        begin = column - (number in (10, 12))  # so that 10 leaves the tip of a hand in the open
        put([(line, begin)], str(number)[0])
        put([(line, begin + 1)] if number >= 10 else [], str(number)[-1])
    return tuple("".join(line).rstrip() for line in lines)
