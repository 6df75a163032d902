"""Measures of shapes, counted again: squares on a grid, cubes in a box, degrees up to a known sum."""

import re
from itertools import product

import pytest

from review.core.model import Problem
from review.core.skills.shapes import ANGLES, KINDS, SIDES, TABLE, TASKS
from tests.core.shown import assert_uniform, refuses, seen
from tests.core.spaces import disagreements, every, shows_soundly, skill_of, tried

(SHAPE,) = KINDS
KEYS = [
    *(f"shape-measure:{task}/2..12" for task in SIDES),
    *(f"shape-measure:{task}/10..170" for task in TABLE if task not in SIDES),
]


def sides(problem: Problem) -> list[int]:
    """Lengths in the picture, from the top to the bottom."""
    return [int(found) for line in seen(problem) for found in re.findall(r"(\d+) cm", line)]


def around(long: int, short: int) -> int:
    """Steps on the border of a grid."""
    points = set(product(range(long + 1), range(short + 1)))
    return sum(x in (0, long) or y in (0, short) for x, y in points)


def counted(problem: Problem) -> int:
    task = problem.card.partition(":")[2].split("/")[0]
    given = sides(problem)
    if task == "perimeter":
        return around(*given)
    if task == "perimeter-square":
        return around(*given, *given)
    if task in ("area", "area-square"):
        return len(list(product(range(given[0]), range(given[-1]))))
    if task == "volume":
        return len(list(product(*map(range, given))))
    return other_side(task, problem, given)


def other_side(task: str, problem: Problem, given: list[int]) -> int:
    """The one length that fits, by trying all."""
    if task == "side-of-area":
        area = next(int(found[1]) for line in seen(problem) if (found := re.search(r"(\d+) square", line)))
        return next(side for side in range(1, 100) if side * given[-1] == area)
    total = int(problem.prompt.split(" ")[0])
    return next(side for side in range(1, 100) if around(side, given[-1]) == total)


@pytest.mark.parametrize("task", SIDES)
def test_every_rectangle_and_box_counted_again(task: str) -> None:
    key = f"shape-measure:{task}/2..9"
    assert disagreements(SHAPE, key, every(TASKS, key), lambda one: counted(one) == int(one.expected)) == []


# Euclid, Elements, book 1: propositions 13 and 15 (on a line, around a point) and 32 (in a triangle).
SUMS = {"angle-corner": 90, "angle-line": 180, "angle-triangle": 180, "angle-point": 360}


@pytest.mark.parametrize("name", ANGLES)
def test_angles_make_their_sum(name: str) -> None:
    for task in (name, f"{name}-tens"):
        key = f"shape-measure:{task}/10..170"
        for asked in tried(SHAPE, key, 300):
            problem = SHAPE.problem(key, asked)
            given = list(map(int, re.findall(r"(\d+)°", problem.prompt)))
            assert sum(given) + int(problem.expected) == SUMS[name]
            assert int(problem.expected) > 0
            assert task == name or all(angle % 10 == 0 for angle in given)


@pytest.mark.parametrize(
    ("key", "count"),
    [
        ("perimeter/2..12", 11 * 10 // 2),
        ("area-square/2..12", 11),
        ("side-of-area/2..12", 11 * 11),
        ("volume/2..5", 4 * 5 * 6 // 6),  # three of four with repetition
        ("angle-line-tens/10..170", 17),
        ("angle-corner/10..170", 80),
        ("angle-triangle-tens/10..170", 17 * 16 // 2),
    ],
)
def test_whole_classes(key: str, count: int) -> None:
    assert len(every(TASKS, f"shape-measure:{key}")) == count


@pytest.mark.parametrize("key", KEYS)
def test_what_is_shown_is_sound(key: str) -> None:
    shows_soundly(SHAPE, key)


@pytest.mark.parametrize("key", ["perimeter/2..9", "volume/2..5", "angle-triangle-tens/20..140"])
def test_every_problem_is_equally_likely(key: str) -> None:
    assert_uniform(SHAPE, f"shape-measure:{key}", every(TASKS, f"shape-measure:{key}"))


def test_a_problem_of_another_class_is_refused() -> None:
    assert refuses(SHAPE, "shape-measure:perimeter/2..12", ["4,7", "7,7", "13,2", "7,1", "7", "7,4,2"]) == []
    assert refuses(SHAPE, "shape-measure:angle-line-tens/10..170", ["45", "180", "0", "10.5"]) == []


def test_the_sides_stand_in_the_picture() -> None:
    box = SHAPE.problem("shape-measure:volume/2..5", "5,4,3")
    assert sorted(sides(box)) == [3, 4, 5]
    assert seen(SHAPE.problem("shape-measure:perimeter/2..12", "12,5"))[0].strip() == "12 cm"


@pytest.mark.parametrize(
    ("task", "span", "told"),
    [
        ("area", (2, 120), ("range", "120 cm is too long for area", "write 99 or less")),
        ("volume", (2, 30), ("range", "30 cm is too long for volume", "write 20 or less")),
        ("perimeter", (5, 5), ("range", "no problem of perimeter has these", "widen the range")),
        (
            "angle-line-tens",
            (11, 19),
            ("range", "no problem of angle-line-tens has these", "widen the range"),
        ),
        ("angle-triangle", (90, 120), ("range", "no problem of angle-triangle has these", "widen the range")),
    ],
)
def test_impossible_conditions_are_told_in_words(
    task: str, span: tuple[int, int], told: tuple[str, ...]
) -> None:
    assert list(SHAPE.check(skill_of(SHAPE, task=(task,), range=span))) == [told]


def test_titles_tell_classes_apart() -> None:
    assert len({SHAPE.traits(key).title for key in KEYS}) == len(KEYS)


@pytest.mark.parametrize(("asked", "above"), [("11,2", "11 cm"), ("2,11", "? cm"), ("8,8", "? cm")])
def test_the_longer_side_lies_above(asked: str, above: str) -> None:
    one = TASKS.problem("shape-measure:side-of-area/2..12", asked)
    assert seen(one)[0].strip() == above
