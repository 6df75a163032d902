"""Every problem of the catalogue on paper: nothing runs over its place, and the key has the answer.

The widths of letters are held against DejaVu Sans, whose advance widths are published in its own font file
(version 2.37, units of 2048 an em, read off with fontTools).
"""

import re
from functools import cache
from itertools import chain, pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import skills
from review.core.answers import judge
from review.core.boxes import MEETING, SNUG, box, line_width, room, rows
from review.core.model import BOX, Problem
from review.core.pages import Printed, entry, problem_sheet
from review.core.paper import (
    GAP,
    HALF,
    KEY_TEXT,
    LARGE,
    MONO,
    NORMAL,
    NOTE,
    ROOM,
    ROOM_SHARE,
    WIDTH,
    Box,
    Entries,
    Row,
    Size,
    Squares,
    Start,
    broken,
    fitted,
    taken,
    width_of,
    wrapped,
)
from review.core.pictures import Array, ClockFace, Coins, Lines, TenFrames, Thermometer
from review.core.sheets import Part, Task
from review.render import svg
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


def placed(problem: Problem, size: Size, new: bool = False) -> Box:
    return box(1, problem, size, svg.extent, new=new)


@pytest.mark.parametrize("size", SIZES, ids=["normal", "large"])
def test_no_problem_runs_over_its_place(size: Size) -> None:
    for task, problem in every():
        found = placed(problem, size, new=True)
        width = (WIDTH if found.wide else HALF) - size.number
        column = width - found.beside * (found.across + GAP)
        for line in found.lines:
            assert line_width(line, found.hole, size) <= column + 0.01, (task, line)
        for line in found.story:
            assert width_of(line) * size.text <= width + 0.01, (task, line)
        if found.room and not found.below:
            assert line_width(found.lines[-1], 0, size) + found.room <= column + 0.01, task
        assert found.room <= column, task
        for line in found.note:
            assert width_of(line) * size.text * NOTE <= width + 0.01, (task, line)
        assert " ".join(found.note) == MEETING, task
        assert max(map(len, found.columns), default=0) * MONO * found.letters <= width + 0.2, task
        assert found.across <= width + 0.05, task
        if found.squares:
            assert found.squares.across * size.square <= width, task
        assert found.height <= ROOM - 2 * size.line, task
        assert inner_height(found, size) <= found.height + 0.1, task


def inner_height(found: Box, size: Size) -> float:
    """What its parts take one below the other, reckoned once more."""
    writing = sum(BOX in line for line in found.lines) or 1
    told = len(found.story) + len(found.lines) - writing + (found.below and BOX not in found.lines[-1])
    prompt = told * size.text + writing * size.line
    rest = len(found.columns) * found.letters + (found.squares.rows * size.square if found.squares else 0)
    rest += len(found.note) * size.text
    return rest + (max(found.down, prompt) if found.beside else found.down + prompt)


@pytest.mark.parametrize("size", SIZES, ids=["normal", "large"])
def test_nothing_of_a_problem_is_lost_and_there_is_room_for_every_answer(size: Size) -> None:
    for task, problem in every():
        found = placed(problem, size)
        assert " ".join(found.lines) == problem.prompt, task
        shown = problem.picture
        if isinstance(shown, Lines):
            assert found.picture is None, task
            told = " ".join(found.story or found.columns).replace(" ", "") or written(found)
            assert told == "".join(line for line in shown.lines if line.strip(" -")).replace(" ", ""), task
        else:
            assert (found.picture, found.story, found.columns) == (shown, (), ()), task
        holes = problem.prompt.count(BOX)
        assert bool(found.room) == (holes == 0), task
        writing = found.room or found.hole * holes
        letters = sum(map(str.isdigit, problem.expected))
        full = (WIDTH - size.number) * (0.99 if found.room else 0)
        assert writing >= min(letters * size.hand, full or letters * size.hand) * 0.95, task


def written(found: Box) -> str:
    assert found.squares
    return "".join(sign for _, _, sign in sorted(found.squares.signs))


# --- pictures -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES, ids=["normal", "large"])
def test_a_picture_is_as_large_as_a_child_needs_it(size: Size) -> None:
    """Letters of 12 point (18 in large print) and more, and its shape as it is drawn."""
    shown = 0
    for task, problem in every():
        found = placed(problem, size)
        if found.picture is None:
            continue
        shown += 1
        wide, high = svg.extent(found.picture)
        assert found.letters >= size.least, task
        assert (found.across, found.down) == pytest.approx(
            (wide * found.letters, high * found.letters), abs=0.1
        )
        if isinstance(found.picture, TenFrames | Array):
            assert 16 / svg.LETTERS * found.letters >= 4.5, "a counter is as broad as the tip of a crayon"
        if isinstance(found.picture, ClockFace):
            assert found.across >= 55, "hands can be told apart"
    assert shown > 50


def test_what_is_asked_stands_beside_a_picture_that_leaves_room_for_it() -> None:
    shown = set()
    for task, problem in every():
        for size in SIZES:
            (row,) = rows([placed(problem, size)], size)
            (found,) = row.boxes
            assert not found.beside or (found.wide and found.picture), task
            assert found.height <= placed(problem, size).height, task
            assert holds_all(found, size), task
            if isinstance(found.picture, ClockFace | Thermometer):
                assert found.beside, task
                assert found.height == pytest.approx(found.down + 5.0, abs=0.2), "no higher than its picture"
                shown.add((type(found.picture), size.large))
    assert len(shown) == 4


def holds_all(found: Box, size: Size) -> bool:
    """Whether prompt and room fit beside a picture, reckoned once more."""
    column = WIDTH - size.number - found.across - GAP if found.beside else WIDTH
    last = line_width(found.lines[-1], found.hole, size) + (0 if found.below else found.room)
    widest = max(line_width(line, found.hole, size) for line in found.lines)
    return max(widest, last, found.room) <= column + 0.01


def test_six_coins_stand_in_half_a_page_and_notes_do_not_touch() -> None:
    counted = next(problem for _, problem in every() if isinstance(problem.picture, Coins))
    assert not placed(counted._replace(picture=Coins((("5p", False),) * 6)), NORMAL).wide
    wide = [svg.extent(Coins((("x", note),) * 4))[0] for note in (False, True)]
    assert wide[0] * svg.LETTERS >= 4 * 2 * 24, "round ones of 24 about their middle"
    assert wide[1] * svg.LETTERS >= 4 * 68, "notes of 68 across"


def test_two_tall_pictures_stand_side_by_side_in_large_print() -> None:
    some = [placed(problem, LARGE) for _, problem in every() if isinstance(problem.picture, Thermometer)]
    assert [len(row.boxes) for row in rows(some[:4], LARGE)] == [2, 2]
    assert all(row.height <= ROOM - 2 * LARGE.line - 1 for row in rows(some, LARGE))


@pytest.mark.parametrize("size", SIZES, ids=["normal", "large"])
def test_a_unit_is_not_parted_from_its_number(size: Size) -> None:
    for task, problem in every():
        found = placed(problem, size)
        for before, line in chain(pairwise(found.lines), pairwise(found.story)):
            unit = re.match(r"(°[CF]|mm|cm|m|km|g|kg|ml|l)\b", line)
            assert not (unit and before[-1] in "0123456789□"), (task, before, line)
    narrow = width_of("Degrees up to 24 ")
    assert wrapped("Degrees up to 24 °C: 3 km", narrow) == ("Degrees up to", "24 °C: 3 km")
    assert wrapped("24 °C", width_of("24")) == ("24", "°C"), "where it cannot be helped"


@pytest.mark.parametrize("size", SIZES, ids=["normal", "large"])
def test_a_sum_on_squared_paper_has_a_sign_a_square_and_room_for_its_answer(size: Size) -> None:
    kinds = set()
    for task, problem in every():
        found = placed(problem, size).squares
        if found is None or not found.signs:
            continue
        kinds.add(problem.kind)
        at = [(row, column) for row, column, _ in found.signs]
        assert len({*at}) == len(at), task
        assert all(0 < row < found.rows and 0 <= column < found.across for row, column in at), task
        ((row, start, end),) = found.rules
        assert 0 <= start < end <= found.across, task
        lowest = max(row for row, _ in at)
        ones = max(column for _, column in at)
        assert all(column == ones for line, column in last_digits(found) if line in (lowest, row)), task
        if problem.kind == "division-written":
            assert row == 1, "its answer comes above"
            assert found.rows - 1 - lowest >= 2 * (end - start) or found.rows - 1 - lowest == 6, task
        else:
            assert row == lowest + 1, "its answer comes below"
            assert ones + 1 >= sum(map(str.isdigit, problem.expected)), task
            assert found.rows > row, task
    assert kinds == {"column-sum", "column-difference", "column-product", "division-written"}


def last_digits(found: Squares) -> list[tuple[int, int]]:
    """Row and column of the last sign of each row."""
    ends = {row: column for row, column, _ in sorted(found.signs)}
    return [*ends.items()]


def test_a_timetable_keeps_its_columns_and_a_story_its_sentences() -> None:
    by_kind = {problem.kind: problem for _, problem in every()}
    table = placed(by_kind["timetable"], NORMAL)
    assert len({len(line) for line in table.columns}) == 1
    assert table.story == ()
    told = placed(by_kind["word-problem"], NORMAL)
    assert isinstance(by_kind["word-problem"].picture, Lines)
    assert told.story == by_kind["word-problem"].picture.lines
    assert told.columns == ()
    name = by_kind["number-name"]._replace(picture=Lines(("one hundred and twenty thousand", "and two")))
    assert placed(name, NORMAL).story == ("one hundred and twenty thousand and two",)


def test_a_box_to_write_in_is_a_centimetre_high_and_does_not_touch_the_next() -> None:
    """Lines for first writers are 10 mm apart or more (common practice, no source)."""
    for size in SIZES:
        assert size.line * ROOM_SHARE >= 10
        assert size.line * (1 - ROOM_SHARE) >= 2
        narrowest = min(
            found.room or found.hole for _, problem in every() for found in [placed(problem, size)]
        )
        assert narrowest >= 2 * 9, "two numerals of 9 mm, as a hand of six writes them"


def test_a_box_to_write_in_does_not_tell_the_answer() -> None:
    """Of one question with few answers every box is as wide as the others."""
    two = {"true": "false", "yes": "no", "odd": "even", "<": "="}
    for size in SIZES:
        assert all(room(one, size) == room(other, size) for one, other in two.items())
        assert room("7", size) == room("42", size) == room("100", size)
        assert room("22", size, "remainder") == room("13 r 1", size, "remainder")
        assert (
            room("1", size, "fraction") == room("7/10", size, "fraction") == room("1 1/2", size, "fraction")
        )
        few, many = "1 47", "1 2 3 4 6 8 12 24"
        assert room(few, size, "numbers") == room(many, size, "numbers")
        widths = {room(problem.expected, size, problem.form) for _, problem in every()}
        assert len(widths) < 12, "few widths"
        given = {placed(problem, size).room for _, problem in every()}
        assert given <= {0.0, *widths, *(round(width * SNUG, 1) for width in widths), WIDTH - size.number}


def together(written: str) -> str:
    """As it is typed: with the thousands of numbers not set apart, and the minus of the keys."""
    return re.sub(r"(?<=\d)[,\u00a0](?=\d{3}(?!\d))", "", written).replace("\u2212", "-")


def test_the_key_is_judged_as_the_answer() -> None:
    """By the project's own judge, and where the prompt is an equation by the tests' own evaluator."""
    shown = 0
    for number, (task, problem) in enumerate(every(), 1):
        line = entry(number, problem)
        assert judge(problem, line.answer) == "right", task
        answer, prompt = (" ".join(part for part in parts if part) for parts in zip(*line.lines, strict=True))
        assert (line.number, together(answer), prompt) == (number, together(problem.expected), problem.prompt)
        found = equation(problem)
        if found is not None:
            shown += 1
            assert found, task
    assert shown > 1200, "facts and sums in figures are most of the catalogue"


def equation(problem: Problem) -> bool | None:
    """Whether prompt and answer make a true equation; None for what is not one."""
    prompt, answer = problem.prompt, problem.expected
    filled = prompt.replace(BOX, answer) if prompt.count(BOX) == 1 else f"{prompt} {answer}"
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


@given(st.lists(st.text("ab mW1", min_size=1), max_size=8).map(" ".join), st.floats(3, 60))
def test_a_word_wider_than_a_line_goes_on_in_the_next(text: str, widest: float) -> None:
    lines = broken(text, widest)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert all(width_of(line) <= widest for line in lines)


def test_no_line_of_the_key_runs_into_the_other_column() -> None:
    """Also of a parent's own words: an answer has 30 letters at most, a prompt 40."""
    own = every()[0][1]._replace(prompt="W" * 40, expected="Donaudampfschifffahrtsgesellsc", form="text")
    for answer, prompt in entry(1, own).lines:
        assert (width_of(answer) * 1.15 + width_of(prompt)) * KEY_TEXT <= HALF - 11 + 0.01


@given(st.text("ab mW1", min_size=1, max_size=80).map(str.strip), st.sampled_from([49.3, 79.0]))
def test_a_text_is_fitted_into_its_field(text: str, width: float) -> None:
    lines, letters = fitted(text, width, 20.0, 11.0)
    assert max(map(width_of, lines)) * letters <= width + 0.5
    assert len(lines) * letters * 1.25 <= 20.5
    assert " ".join(lines).split() == text.split()


def test_boxes_stand_side_by_side_in_their_order() -> None:
    narrow, wide = Box(1, ("1 + 1 =",), False, 20.0, height=13.0), Box(2, ("x",), True, 20.0, height=20.0)
    some = [narrow, narrow, wide, narrow, wide, narrow, narrow, narrow]
    found = rows([one._replace(number=n) for n, one in enumerate(some, 1)], NORMAL)
    assert [[one.number for one in row.boxes] for row in found] == [[1, 2], [3], [4], [5], [6, 7], [8]]
    assert [row.height for row in found] == [13, 20, 13, 20, 13, 13]


@pytest.mark.parametrize("large", [False, True])
def test_pages_hold_what_is_put_on_them(large: bool) -> None:
    tasks = tuple(task for task, _ in every()[::25])
    sheet = problem_sheet(
        (Part(1, tasks),), Printed("All", "", "Sheet 1", ()), large, svg.extent, strips=False, dots=False
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
    made = problem_sheet((Part(0, tasks),), words, large, strips=False, dots=True, extent=svg.extent)
    starts = [block for page in made.pages for block in page.blocks if isinstance(block, Start)]
    size = LARGE if large else NORMAL
    assert [(start.lines, start.height) for start in starts] == [(lines, lines * size.line)]
    assert made.large == size.large == large
