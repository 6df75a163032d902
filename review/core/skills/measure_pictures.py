"""Units side by side in a table; angles and sides as parts of a bar, areas as rows of squares."""

from fractions import Fraction

from review.core.keys import content_of
from review.core.model import BOX, Help, Problem
from review.core.pictures import Bar, Part, Table
from review.core.skills.fact_pictures import rows_of
from review.core.skills.picture_help import Pictures, pictured, task_of, wholes
from review.core.skills.units import factor, figure, shown
from review.core.skills.wording import grouped

MOST_ROWS = 6  # of a table (our judgement)
FIVE = 5


def _convert(problem: Problem) -> tuple[Help, ...]:
    """The larger unit in the first column: one, two, or as many as are reached, and what is asked."""
    source, _, target = content_of(problem.card).split("/")[0].partition(">")
    first, target = source.split("+")[0], target.split("+")[0]
    amounts = [Fraction(part) for part in problem.asked.split("+")]
    if len(amounts) == 2:
        return _two_units(source, amounts)
    up = factor(first, target) < 1
    large, small = (target, first) if up else (first, target)
    each = factor(large, small)
    rows = _rows(amounts[0] / each if up else amounts[0], each, mixed="+" in problem.card, up=up)
    return pictured(Table((shown(large), shown(small)), rows), "Go down the table.")


def _rows(asked: Fraction, each: Fraction, mixed: bool, up: bool) -> tuple[tuple[str, str], ...]:
    """With two units asked for, to the first row over the amount."""
    if mixed:
        last = asked.__ceil__()
        return tuple((figure(n), figure(n * each)) for n in range(max(1, last - MOST_ROWS + 1), last + 1))
    whole = asked.denominator == 1
    known = [Fraction(1), Fraction(2)] if whole else [Fraction(1, 10), Fraction(1)]
    found = {n: (figure(n), figure(n * each)) for n in known}
    found[asked] = (BOX, figure(asked * each)) if up else (figure(asked), BOX)
    return tuple(found[n] for n in sorted(found))


def _two_units(source: str, amounts: list[Fraction]) -> tuple[Help, ...]:
    """3 m 20 cm as a bar of metres, each of so many centimetres, and the rest."""
    large, small = source.split("+")
    many, rest = (int(amount) for amount in amounts)
    each = int(factor(large, small))
    parts = (*(Part(each, grouped(each)),) * many, Part(rest, grouped(rest)))
    few = parts if many <= FIVE else (Part(each * many, f"{many} × {grouped(each)}"), parts[-1])
    return pictured(Bar(few, BOX), "How much is the whole bar?")


# --- shapes -------------------------------------------------------------------------------------------

ANGLES = {"corner": 90, "line": 180, "triangle": 180, "point": 360}  # degrees


def _shape(problem: Problem) -> tuple[Help, ...]:
    task, numbers = task_of(problem), wholes(problem.asked)
    if task.startswith("angle-"):
        return _angle(ANGLES[task.split("-")[1]], numbers)
    if task == "volume":
        long, deep, high = numbers
        return pictured(rows_of(deep, long), "This is one layer of cubes.", f"There are {high} layers.")
    if task == "perimeter-square":
        return pictured(_around(*numbers, *numbers), "All sides in one line.")
    if task == "perimeter":
        return pictured(_around(*numbers), "All sides in one line.")
    if task == "side-of-perimeter":
        known, other = numbers
        sides = (Part(known, str(known)), Part(other, BOX)) * 2
        return pictured(Bar(sides, str(2 * (known + other))), "All sides in one line.")
    if task == "side-of-area":
        known, other = numbers
        return pictured(rows_of(known, other)._replace(asked="columns"), "A dot for each square.")
    long, short_side = numbers * 2 if len(numbers) == 1 else numbers
    return pictured(rows_of(short_side, long), "A dot for each square.", "Count row by row.")


def _angle(whole: int, known: list[int]) -> tuple[Help, ...]:
    parts = (*(Part(angle, str(angle)) for angle in known), Part(whole - sum(known), BOX))
    return pictured(Bar(parts, str(whole)), f"Together they make {whole} degrees.")


def _around(long: int, short_side: int) -> Bar:
    return Bar((Part(long, str(long)), Part(short_side, str(short_side))) * 2, BOX)


PICTURES: Pictures = {"convert": _convert, "shape-measure": _shape}
