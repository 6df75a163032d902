"""The order of problems on sheets of practice: all of them, in few pages, with no row half empty."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import pages, skills
from review.core.boxes import box, rows
from review.core.full_pages import ordered
from review.core.pages import Printed, problem_sheet
from review.core.paper import LARGE, NORMAL, ROOM, Block, Box, Cut, Row, Sheet, Start, Words, paged, taken
from review.core.sheets import Part, Task
from review.render import svg
from tests.core.test_boxes import every

HEAD = 30.0  # taken on the first page
HEIGHTS = st.floats(10, 150).map(lambda high: round(high, 1))
BOXES = st.lists(
    st.builds(lambda wide, high: Box(0, ("x",), wide, 20.0, height=high), st.booleans(), HEIGHTS),
    min_size=1, max_size=60,
)  # fmt: skip


def numbered(boxes: list[Box], order: list[int]) -> list[Box]:
    return [boxes[n]._replace(number=n) for n in order]


def laid(boxes: list[Box]) -> list[list[Row]]:
    """On pages, as they are filled anywhere: from the top, two narrow ones side by side."""
    found = paged([[Cut(HEAD), *rows(boxes, NORMAL)]])
    return [[block for block in page if isinstance(block, Row)] for page in found]


@given(BOXES)
def test_every_problem_is_there_once_and_no_row_is_half_empty_but_one(boxes: list[Box]) -> None:
    order = ordered(boxes, HEAD, 13.0)
    assert sorted(order) == [*range(len(boxes))]
    found = [row for page in laid(numbered(boxes, order)) for row in page]
    half = [row for row in found if len(row.boxes) == 1 and not row.boxes[0].wide]
    assert len(half) == sum(not box.wide for box in boxes) % 2


@given(BOXES)
def test_no_row_would_have_had_room_on_an_earlier_page(boxes: list[Box]) -> None:
    found = laid(numbered(boxes, ordered(boxes, HEAD, 13.0)))
    odd = sum(not box.wide for box in boxes) % 2
    rooms = [ROOM - (HEAD if n == 0 else 0) - taken(page) for n, page in enumerate(found)]
    places = [(n, row) for n, page in enumerate(found) for row in page]
    for n, row in places[: len(places) - odd]:
        assert all(row.height > room - 0.1 for room in rooms[:n])


def test_what_loses_no_room_keeps_its_order() -> None:
    narrow = [Box(n, ("x",), False, 20.0, height=13.0) for n in range(41)]
    assert ordered(narrow, HEAD, 13.0) == [*range(41)]
    wide = [one._replace(wide=True) for one in narrow]
    assert ordered(wide, HEAD, 13.0) == [*range(41)]
    assert ordered([], HEAD, 13.0) == []


def test_a_narrow_one_waits_for_its_like_and_a_tall_one_for_its_page() -> None:
    low, tall = Box(0, ("x",), False, 20.0, height=13.0), Box(0, ("x",), False, 20.0, height=90.0)
    across = Box(0, ("x",), True, 20.0, height=150.0)
    assert ordered([low, across, low, tall, low, tall], HEAD, 13.0) == [0, 2, 1, 3, 5, 4]
    assert ordered([across, across, low, low], HEAD, 13.0) == [0, 2, 3, 1]


def sheet(tasks: tuple[Task, ...], large: bool) -> Sheet:
    words = Printed("Practice", "", "Sheet 1", ())
    return problem_sheet((Part(0, tasks),), words, large, svg.extent, strips=False, dots=False)


@pytest.mark.parametrize("large", [False, True])
def test_sheets_of_the_catalogue_take_no_more_pages_and_mostly_fewer(large: bool) -> None:
    source, before, after = Random(4711), 0, 0
    drawn = [task for task, problem in every() if box(1, problem, NORMAL, svg.extent).picture]
    plain_ones = [task for task, _ in every()]
    for _ in range(12):
        tasks = (*source.sample(drawn, 8), *source.sample(plain_ones, 12))
        tasks = tuple(source.sample(tasks, 20))
        filled = pages.filling(tasks, large, svg.extent)
        assert sorted(filled) == sorted(tasks)
        assert pages.filling(tasks, large, svg.extent) == filled, "the same every time"
        made, plain = sheet(filled, large), sheet(tasks, large)
        counts = [sum(not page.key for page in one.pages) for one in (plain, made)]
        assert counts[1] <= counts[0]
        before, after = before + counts[0], after + counts[1]
        size = LARGE if large else NORMAL
        assert made.pages[0].blocks[0].height == pages.head_height(size)
        told = [
            one for page in made.pages for row in page.blocks if isinstance(row, Row) for one in row.boxes
        ]
        assert [one.number for one in told] == [*range(1, 21)], "a number belongs to the place"
        wanted = [skills.problem(task.card, task.asked).prompt for task in filled]
        assert [" ".join(one.lines) for one in told] == wanted
    assert after < before


@given(st.lists(BOXES, min_size=1, max_size=5))
def test_no_sitting_begins_at_the_foot_of_a_page_and_goes_on_over_leaf(days: list[list[Box]]) -> None:
    """A sitting longer than a page had its day and its dots alone below the one before."""
    groups: list[list[Block]] = [[Cut(), *strip(boxes)] for boxes in days]
    found = paged(groups)
    assert [block for page in found for block in page if isinstance(block, Row)] == [
        block for group in groups for block in group if isinstance(block, Row)
    ]
    assert not [page for page in found if isinstance(page[-1], Start | Words)]
    assert all(taken(page) <= ROOM for page in found)


def strip(boxes: list[Box]) -> list[Block]:
    """With words below its beginning where it is a long one: two headings, one below the other."""
    words = [Words(("For the grown-up",), 30.0)] if len(boxes) > 8 else []
    start = Start(("Fill a dot for each one.",), len(boxes), True, (), 1, 4.0, 20.0)
    return [start, *words, *rows(boxes, NORMAL)]
