"""Every problem of the catalogue on paper: nothing runs over its place, and the key has the answer.

The widths of letters are held against DejaVu Sans, whose advance widths are published in its own font file
(version 2.37, units of 2048 an em, read off with fontTools).
"""

from functools import cache
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import skills
from review.core.answers import judge
from review.core.boxes import box, line_width, rows
from review.core.drawn import drawn
from review.core.model import Problem
from review.core.pages import Printed, entry, problem_sheet
from review.core.paper import (
    HALF,
    HOLE,
    LARGE,
    MONO,
    NORMAL,
    ROOM,
    WIDTH,
    Box,
    Entries,
    Row,
    Size,
    Start,
    fitted,
    taken,
    width_of,
    wrapped,
)
from review.core.sheets import Part, Task
from tests.core.shown import holds
from tests.core.test_catalogue import all_cards

SIZES = (NORMAL, LARGE)
ADVANCES = {
    "0": 1303, "1": 1303, "8": 1303, " ": 651, "a": 1255, "e": 1260, "m": 1995, "w": 1675, "i": 569,
    "t": 803, "W": 2025, "M": 1767, "H": 1540, "S": 1300, "+": 1716, "=": 1716, "×": 1716, "−": 1716,
    ",": 651, "?": 1087, "r": 842, "n": 1298, "o": 1253, "s": 1067, "h": 1298, ".": 651, ":": 690,
    "/": 690, "%": 1946,
}  # fmt: skip


@cache
def every() -> tuple[tuple[Task, Problem], ...]:
    """A problem of every card of every shipped set."""
    source = Random(4711)
    asked = [Task(card.key, skills.draw(card.key, source)) for card in all_cards()]
    return tuple((task, skills.problem(task.card, task.asked)) for task in asked)


def test_letters_are_reckoned_as_wide_as_those_of_a_broad_typeface() -> None:
    for letter, units in ADVANCES.items():
        assert width_of(letter) >= units / 2048 - 0.005, letter
    text = "What is the 2 worth in 3,254? How many lamps are there in all: 1 + 1 ="
    assert width_of(text) >= sum(ADVANCES.get(letter, 1253) for letter in text) / 2048


@pytest.mark.parametrize("size", SIZES, ids=["normal", "large"])
def test_no_problem_runs_over_its_place(size: Size) -> None:
    for task, problem in every():
        found = box(1, problem, size, new=True)
        room = (WIDTH if found.wide else HALF) - size.number
        for line in found.lines:
            assert line_width(line, found.hole, size) <= room + 0.01, (task, line)
        if found.room and not found.below:
            assert line_width(found.lines[-1], 0, size) + found.room <= room + 0.01, task
        assert found.room <= room, task
        columns = max(map(len, found.picture), default=0)
        assert columns * MONO * found.letters <= room + 0.2, task
        assert found.height <= ROOM - 2 * size.line, task


@pytest.mark.parametrize("size", SIZES, ids=["normal", "large"])
def test_nothing_of_a_prompt_is_lost_and_there_is_room_for_every_answer(size: Size) -> None:
    for task, problem in every():
        found = box(1, problem, size)
        assert " ".join(found.lines) == problem.prompt, task
        assert found.picture == (drawn(problem.picture) if problem.picture else ()), task
        holes = problem.prompt.count(HOLE)
        assert bool(found.room) == (holes == 0), task
        written = found.room or found.hole * holes
        letters = sum(map(str.isdigit, problem.expected))
        full = (WIDTH - size.number) * (0.99 if found.room else 0)
        assert written >= min(letters * size.hand, full or letters * size.hand) * 0.95, task


def test_the_key_is_judged_as_the_answer() -> None:
    """By the project's own judge, and where the prompt is an equation by the tests' own evaluator."""
    shown = 0
    for number, (task, problem) in enumerate(every(), 1):
        line = entry(number, problem)
        assert judge(problem, line.answer) == "right", task
        answer, prompt = (" ".join(part for part in parts if part) for parts in zip(*line.lines, strict=True))
        assert (line.number, answer, prompt) == (number, problem.expected, problem.prompt)
        found = equation(problem)
        if found is not None:
            shown += 1
            assert found, task
    assert shown > 1200, "facts and sums in figures are most of the catalogue"


def equation(problem: Problem) -> bool | None:
    """Whether prompt and answer make a true equation; None for what is not one."""
    prompt, answer = problem.prompt, problem.expected
    filled = prompt.replace(HOLE, answer) if prompt.count(HOLE) == 1 else f"{prompt} {answer}"
    if not set(filled) <= set("0123456789+−×÷=<> ,") or "=" not in filled:
        return None
    try:
        return holds(filled)
    except (ValueError, KeyError):
        return None


@given(st.lists(st.text("ab mW1", min_size=1), max_size=8).map(" ".join), st.floats(3, 60))
def test_wrapping_loses_nothing_and_keeps_to_the_width(text: str, widest: float) -> None:
    lines = wrapped(text, widest)
    assert " ".join(lines).split() == text.split()
    assert all(width_of(line) <= widest for line in lines if " " in line)


@given(st.text("ab mW1", min_size=1, max_size=80).map(str.strip), st.sampled_from([49.3, 79.0]))
def test_a_text_is_fitted_into_its_field(text: str, width: float) -> None:
    lines, letters = fitted(text, width, 20.0, 11.0)
    assert max(map(width_of, lines)) * letters <= width + 0.5
    assert len(lines) * letters * 1.25 <= 20.5
    assert " ".join(lines).split() == text.split()


def test_boxes_stand_side_by_side_in_their_order() -> None:
    narrow, wide = Box(1, ("1 + 1 =",), False, 20.0, height=13.0), Box(2, ("x",), True, 20.0, height=20.0)
    some = [narrow, narrow, wide, narrow, wide, narrow, narrow, narrow]
    found = rows([one._replace(number=n) for n, one in enumerate(some, 1)])
    assert [[one.number for one in row.boxes] for row in found] == [[1, 2], [3], [4], [5], [6, 7], [8]]
    assert [row.height for row in found] == [13, 20, 13, 20, 13, 13]


@pytest.mark.parametrize("large", [False, True])
def test_pages_hold_what_is_put_on_them(large: bool) -> None:
    tasks = tuple(task for task, _ in every()[::25])
    sheet = problem_sheet(
        (Part(1, tasks),), Printed("All", "", "Sheet 1", ()), large, strips=False, dots=False
    )
    for page in sheet.pages:
        assert taken(page.blocks) <= ROOM
    boxes = [one for page in sheet.pages for row in page.blocks if isinstance(row, Row) for one in row.boxes]
    assert [one.number for one in boxes] == [*range(1, len(tasks) + 1)]
    assert [" ".join(one.lines) for one in boxes] == [skills.problem(*task[:2]).prompt for task in tasks]
    keys = [page.key for page in sheet.pages]
    assert keys == sorted(keys), "the key comes last"
    assert any(keys)
    told = [
        one
        for page in sheet.pages
        for row in page.blocks
        if isinstance(row, Entries)
        for one in (*row.left, *row.right)
    ]
    assert sorted(one.number for one in told) == [*range(1, len(tasks) + 1)]
    assert not any(
        isinstance(block, Entries) for page in sheet.pages for block in page.blocks if not page.key
    )


@pytest.mark.parametrize(("large", "lines"), [(False, 1), (True, 2)])
def test_the_dots_of_a_short_day_stand_beside_it_but_for_large_print(large: bool, lines: int) -> None:
    tasks = tuple(Task(f"sum:1+{n}", f"1+{n}") for n in range(2, 6))
    words = Printed("A day", "Orla", "Sheet 1", ())
    made = problem_sheet((Part(0, tasks),), words, large, strips=False, dots=True)
    starts = [block for page in made.pages for block in page.blocks if isinstance(block, Start)]
    size = LARGE if large else NORMAL
    assert [(start.lines, start.height) for start in starts] == [(lines, lines * size.line)]
    assert made.large == size.large == large
