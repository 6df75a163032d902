"""Measures of shapes: around a rectangle, over it, inside a box, and the angle that is left.

The sizes of a class are the range of its numbers: of the sides in centimetres, or of the angles given in
degrees. `...-tens` holds angles of whole tens.
"""

from collections.abc import Callable, Iterator, Mapping

from review.core.model import Help, Skill
from review.core.pictures import Box, Rectangle
from review.core.skills.amounts import listed
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import wholes, words
from review.core.skills.shape_errors import (
    angle_errors,
    area_errors,
    perimeter_errors,
    side_of_area_errors,
    side_of_perimeter_errors,
    square_area_errors,
    square_perimeter_errors,
    volume_errors,
)
from review.core.skills.tasks import Numbers, Shown, Space, Task, Tasks, pattern, span
from review.core.skills.wording import DIVIDED, EQUALS, MINUS, PLUS, TIMES, equation, grouped, in_words
from review.core.skills.worked import worked


def _multiplied(left: int, right: int) -> str:
    return f"{left} {TIMES} {right} {EQUALS} {grouped(left * right)}"


# --- around a rectangle, and over it ------------------------------------------------------------------


def _oblong(sizes: Numbers) -> Space:
    return Space((span(sizes), span(sizes)), lambda long, short: long > short)


def _square(sizes: Numbers) -> Space:
    return Space((span(sizes),))


def _perimeter(sizes: Numbers, member: Numbers) -> Shown:
    long, short = member
    total = 2 * (long + short)
    helps = (
        Help("question", "How many sides are there?"),
        Help("build", "Lay a string around a book."),
        *worked(equation(long, PLUS, short, long + short), _multiplied(2, long + short)),
    )
    say = f"A rectangle is {in_words(long)} by {in_words(short)} centimetres. How far is it around?"
    told = f"It is {total} cm around."
    return Shown(
        "The way around in cm is", say, str(total), told, helps, "quantity",
        Rectangle(f"{long} cm", f"{short} cm"), "cm",
    )  # fmt: skip


def _square_perimeter(sizes: Numbers, member: Numbers) -> Shown:
    (side,) = member
    helps = (
        Help("question", "How long is each other side?"),
        Help("build", "Lay a string around a square tile."),
        *worked(_multiplied(4, side)),
    )
    say = f"Each side of a square is {in_words(side)} centimetres. How far is it around?"
    told = f"It is {4 * side} cm around."
    prompt = "A square: the way around in cm is"
    return Shown(prompt, say, str(4 * side), told, helps, "quantity", Rectangle(f"{side} cm", ""), "cm")


def _area(sizes: Numbers, member: Numbers) -> Shown:
    long, short = member
    total = long * short
    helps = (
        Help("question", "How many squares are in a row?"),
        Help("build", "Draw it on squared paper."),
        *worked(_multiplied(long, short)),
    )
    say = f"A rectangle is {in_words(long)} by {in_words(short)} centimetres. What is its area?"
    told = f"The area is {total} square cm."
    return Shown(
        "The area in square cm is", say, str(total), told, helps, "square-cm",
        Rectangle(f"{long} cm", f"{short} cm"),
    )  # fmt: skip


def _square_area(sizes: Numbers, member: Numbers) -> Shown:
    (side,) = member
    helps = (
        Help("question", "How many rows of squares?"),
        Help("build", "Draw it on squared paper."),
        *worked(_multiplied(side, side)),
    )
    say = f"Each side of a square is {in_words(side)} centimetres. What is its area?"
    told = f"The area is {side * side} square cm."
    prompt = "A square: the area in square cm is"
    return Shown(prompt, say, str(side * side), told, helps, "square-cm", Rectangle(f"{side} cm", ""))


def _one_side(known: int, other: int, inside: str = "") -> Rectangle:
    """The longer side lies above, told or asked for."""
    above, beside = (f"{known} cm", "? cm") if known > other else ("? cm", f"{known} cm")
    return Rectangle(above, beside, inside)


def _side_of_area(sizes: Numbers, member: Numbers) -> Shown:
    """One side and the area are known; the member is the known side and the other."""
    known, other = member
    area = known * other
    helps = (
        Help("question", "How many squares fit that side?"),
        Help("build", "Lay square tiles in equal rows."),
        *worked(equation(area, DIVIDED, known, other)),
    )
    say = f"The area is {in_words(area)} square centimetres, one side {in_words(known)}. And the other side?"
    told = f"{_multiplied(known, other)}."
    picture = _one_side(known, other, f"{area} square cm")
    return Shown("The other side in cm is", say, str(other), told, helps, "quantity", picture, "cm")


def _side_of_perimeter(sizes: Numbers, member: Numbers) -> Shown:
    known, other = member
    around = 2 * (known + other)
    helps = (
        Help("question", "What do two sides make together?"),
        Help("build", "Fold a string of that length."),
        *worked(equation(around, DIVIDED, 2, known + other), equation(known + other, MINUS, known, other)),
    )
    say = f"It is {in_words(around)} centimetres around, one side is {in_words(known)}. And the other side?"
    told = f"2 {TIMES} {known} {PLUS} 2 {TIMES} {other} {EQUALS} {around}."
    picture = _one_side(known, other)
    prompt = f"{around} cm around: the other side is"
    return Shown(prompt, say, str(other), told, helps, "quantity", picture, "cm")


# --- inside a box -------------------------------------------------------------------------------------


def _box_space(sizes: Numbers) -> Space:
    def fits(long: int, deep: int, high: int) -> bool:
        return long >= deep >= high

    return Space((span(sizes),) * 3, fits)


def _volume(sizes: Numbers, member: Numbers) -> Shown:
    long, deep, high = member
    layer, total = long * deep, long * deep * high
    helps = (
        Help("question", "How many cubes are in one layer?"),
        Help("build", "Build it from small cubes."),
        *worked(_multiplied(long, deep), _multiplied(layer, high)),
    )
    sides = f"{in_words(long)} by {in_words(deep)} by {in_words(high)}"
    say = f"A box is {sides} centimetres. What is its volume?"
    told = f"The volume is {grouped(total)} cubic cm."
    return Shown(
        "The volume in cubic cm is",
        say,
        str(total),
        told,
        helps,
        "cubic-cm",
        Box(f"{long} cm", f"{deep} cm", f"{high} cm"),
    )


# --- the angle that is left ---------------------------------------------------------------------------


def _angle_space(total: int, given: int, step: int) -> Callable[[Numbers], Space]:
    """So many angles given, each in the range, that leave one; all are multiples of the step."""

    def space(sizes: Numbers) -> Space:
        low, high = sizes
        angles = range(-(-low // step) * step, high + 1, step)
        return Space((angles,) * given, lambda *some: sum(some) < total)

    return space


def _degrees(angle: int) -> str:
    return f"{angle}°"


def _angle_shown(where: str, question: str, build: str, total: int) -> Callable[[Numbers, Numbers], Shown]:
    def shown(sizes: Numbers, member: Numbers) -> Shown:
        given = sum(member)
        left = total - given
        added = [f"{f' {PLUS} '.join(map(str, member))} {EQUALS} {given}"] if len(member) > 1 else []
        helps = (
            Help("question", question),
            Help("build", build),
            *worked(*added, equation(total, MINUS, given, left)),
        )
        say = f"{where}: {listed([*map(in_words, member)])} degrees. What is the angle that is left?"
        prompt = f"{where}: {', '.join(map(_degrees, member))} and"
        together = f" {PLUS} ".join(map(str, (*member, left)))
        told = f"{together} makes {total} degrees."
        return Shown(prompt, say, str(left), told, helps, "degrees")

    return shown


ANGLES: Mapping[str, tuple[str, str, str, int, int, str]] = {
    # name: (where, question, counters, sum in degrees, how many are given, title)
    "angle-corner": (
        "In a square corner", "How many degrees make a square corner?", "Fold the corner of a sheet.", 90, 1,
        "angles in a right angle",
    ),
    "angle-line": (
        "On a straight line", "How many degrees make a straight line?", "Lay two corners of paper together.",
        180, 1, "angles on a straight line",
    ),
    "angle-triangle": (
        "In a triangle", "What do all three make?", "Tear three corners off a paper triangle.", 180, 2,
        "angles in a triangle",
    ),
    "angle-point": (
        "Around a point", "How many degrees make a full turn?", "Turn once around on the spot.", 360, 2,
        "angles around a point",
    ),
}  # fmt: skip
OTHER_TOTAL = {90: 180, 180: 360, 360: 180}  # what each is taken for


def _angle_task(name: str, step: int) -> Task:
    where, question, build, total, given, title = ANGLES[name]
    return Task(
        lambda sizes: f"{title}{_tens(step)}, {sizes[0]} to {sizes[1]} degrees",
        (7.0 if step == 10 else 10.0) + 3.0 * (given - 1),
        pattern(",".join("#" * given)),
        _angle_space(total, given, step),
        _angle_shown(where, question, build, total),
        "angle",
        angle_errors(total, OTHER_TOTAL[total]),
    )


def _tens(step: int) -> str:
    return ", tens" if step == 10 else ""


# --- the kind -----------------------------------------------------------------------------------------


def _sides(what: str) -> Callable[[Numbers], str]:
    return lambda sizes: f"{what}, sides from {sizes[0]} to {sizes[1]} cm"


SIDES: Mapping[str, Task] = {
    "perimeter": Task(
        _sides("around a rectangle"), 11.0, pattern("#,#"), _oblong, _perimeter, "perimeter",
        perimeter_errors,
    ),
    "perimeter-square": Task(
        _sides("around a square"), 7.0, pattern("#"), _square, _square_perimeter, "perimeter",
        square_perimeter_errors,
    ),
    "area": Task(
        _sides("the area of a rectangle"), 8.0, pattern("#,#"), _oblong, _area, "area", area_errors
    ),
    "area-square": Task(
        _sides("the area of a square"), 7.0, pattern("#"), _square, _square_area, "area", square_area_errors
    ),
    "side-of-area": Task(
        _sides("a side from the area"), 9.0, pattern("#,#"), lambda sizes: Space((span(sizes),) * 2),
        _side_of_area, "area", side_of_area_errors,
    ),
    "side-of-perimeter": Task(
        _sides("a side from the way around"), 14.0, pattern("#,#"), lambda sizes: Space((span(sizes),) * 2),
        _side_of_perimeter, "perimeter", side_of_perimeter_errors,
    ),
    "volume": Task(
        _sides("the volume of a box"), 18.0, pattern("#,#,#"), _box_space, _volume, "volume", volume_errors
    ),
}  # fmt: skip
TABLE: Mapping[str, Task] = {
    **SIDES,
    **{f"{name}-tens": _angle_task(name, 10) for name in ANGLES},
    **{name: _angle_task(name, 1) for name in ANGLES},
}
TASKS = Tasks(TABLE)
MOST_SIDE = 99  # cm; two digits fit the pictures
MOST_VOLUME_SIDE = 20  # cm; our judgement: more is for paper


def keys(skill: Skill) -> Iterator[str]:
    low, high = wholes(skill, "range")
    return (f"shape-measure:{task}/{low}..{high}" for task in words(skill, "task"))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    _, high = wholes(skill, "range")
    for task, key in zip(words(skill, "task"), keys(skill), strict=True):
        most = MOST_VOLUME_SIDE if task == "volume" else MOST_SIDE
        if task in SIDES and high > most:
            yield "range", f"{high} cm is too long for {task}", f"write {most} or less"
        elif not TASKS.possible(key):
            yield "range", f"no problem of {task} has these", "widen the range"


KINDS: tuple[Kind, ...] = (
    Kind(
        "shape-measure",
        "perimeter, area, volume, and the angle that is left",
        {
            "task": Option(
                "words", "what is asked; a card each", choices=tuple(TABLE), example='["perimeter", "area"]'
            ),
            "range": Option(
                "range", "of the sides in centimetres, or of the angles given in degrees", low=1, high=350,
                example="[2, 12]",
            ),
        },
        keys, TASKS.traits, TASKS.draw, TASKS.problem, check, predict=TASKS.predict,
    ),
)  # fmt: skip
