"""Slips to cut out, the square of facts, and blank pages."""

from functools import cache
from random import Random

import pytest

from review import catalogue
from review.core import blanks, card_sets, fact_slips, fact_square, skills
from review.core.answers import judge
from review.core.model import Problem
from review.core.paper import ROOM, WIDTH, Drawing, Sheet, Slips, Square, taken
from tests.core.stock import grown
from tests.core.test_paper_plan import pupil


@cache
def some(name: str) -> tuple[Problem, ...]:
    cards = fact_slips.facts(card_sets.cards([catalogue.shipped(name)]))
    return tuple(fact_slips.problems(cards, Random(4711)))


def sides(sheet: Sheet) -> list[Slips]:
    return [block for page in sheet.pages for block in page.blocks if isinstance(block, Slips)]


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("name", ["times-3-4-8", "words-of-numbers-and-shapes", "number-bonds-10"])
def test_the_back_of_each_slip_lies_behind_its_front(name: str, large: bool) -> None:
    """Turned over along the long edge, cell (r, c) of the front is cell (r, last - c) of the back."""
    found = sides(fact_slips.sheet(some(name), "Slips", "Slips 1", large))
    assert len(found) % 2 == 0
    problems = iter(some(name))
    for front, back in zip(found[::2], found[1::2], strict=True):
        assert (front.width, front.each, len(front.rows)) == (back.width, back.each, len(back.rows))
        for ahead, behind in zip(front.rows, back.rows, strict=True):
            for side, other in zip(ahead, reversed(behind), strict=True):
                assert (side is None) == (other is None)
                if side is not None and other is not None:
                    problem = next(problems)
                    assert " ".join(side.lines) == problem.prompt.removesuffix(" =")
                    assert judge(problem, " ".join(other.lines)) == "right"
    assert next(problems, None) is None, "every fact has its slip"


@pytest.mark.parametrize("large", [False, True])
def test_slips_fill_the_width_evenly_so_that_backs_meet_fronts(large: bool) -> None:
    for block in sides(fact_slips.sheet(some("times-3-4-8"), "Slips", "Slips 1", large)):
        assert abs(len(block.rows[0]) * block.width - WIDTH) < 0.1
        assert block.height <= ROOM, "what stands at the foot is not cut through"


def test_only_facts_make_slips_and_each_once() -> None:
    cards = card_sets.cards([catalogue.shipped("place-value-to-99"), catalogue.shipped("times-2-5-10")])
    found = fact_slips.facts([*cards, *cards])
    assert len({card.key for card in found}) == len(found) > 10
    assert all(skills.traits(card.key).fact for card in found)


def test_a_childs_slips_leave_out_what_holds_and_what_was_not_taught() -> None:
    who = pupil("times-2-5-10")
    holds, shaky, untaught = who.cards[3], who.cards[4], who.cards[-1]
    sure = grown(holds.key, 60.0, who.day - 2, right_days=5, placed=2, capped=3)
    memory = {holds.key: sure._replace(gap=20), shaky.key: grown(shaky.key, 1.0, who.day - 9)}
    settings = who.settings._replace(taught=frozenset({holds.skill, shaky.skill} - {untaught.skill}))
    kept = fact_slips.wanted(who._replace(memory=memory, settings=settings), who.cards)
    keys = {card.key for card in kept}
    assert shaky.key in keys
    assert holds.key not in keys
    assert untaught.key not in keys


# --- the square of facts ------------------------------------------------------------------------------


def cells(sheet: Sheet, page: int) -> list[list[tuple[str, str]]]:
    (square,) = (block for block in sheet.pages[page].blocks if isinstance(block, Square))
    return [list(line) for line in square.rows]


@pytest.mark.parametrize(
    ("facts", "high", "low"), [("products", 10, 1), ("products", 12, 1), ("sums", 10, 0), ("sums", 20, 0)]
)
def test_a_full_square_holds_every_fact(facts: fact_square.Facts, high: int, low: int) -> None:
    """Held against sums and products of whole numbers."""
    rows = cells(fact_square.sheet(facts, "full", high, "F", "", (), False), 0)
    numbers = [int(told) for _, told in rows[0][1:]]
    assert numbers == [*range(low, high + 1)]
    for a, line in zip(numbers, rows[1:], strict=True):
        assert line[0] == ("name", str(a))
        wanted = [a * b if facts == "products" else a + b for b in numbers]
        assert [int(told) for _, told in line[1:]] == wanted


def test_an_empty_square_is_to_be_filled_and_has_its_key_on_a_page_of_its_own() -> None:
    sheet = fact_square.sheet("products", "empty", 10, "F", "", (), False)
    assert {cell for line in cells(sheet, 0)[1:] for cell in line[1:]} == {("blank", "")}
    assert [page.key for page in sheet.pages] == [False, True]
    assert cells(sheet, 1) == cells(fact_square.sheet("products", "full", 10, "F", "", (), False), 0)


def test_only_what_is_overdue_is_open_in_either_order() -> None:
    who = pupil("times-6-7-9")
    late = next(card.key for card in who.cards if card.key == "product:6x7")
    who = who._replace(memory={late: grown(late, 3.0, who.day - 60, gap=3)})
    open_cells = fact_square.overdue(who, "products", 10)
    assert open_cells == {(6, 7), (7, 6)}
    rows = cells(fact_square.sheet("products", "overdue", 10, "F", "Mira", open_cells, False), 0)
    asked = {(a, b) for a in range(1, 11) for b in range(1, 11) if rows[a][b][0] == "open"}
    assert asked == open_cells
    assert {told for line in rows[1:] for cell, told in line[1:]} == {""}, "nothing to copy from"


@pytest.mark.parametrize(("facts", "high"), [("products", 12), ("sums", 20), ("products", 5)])
@pytest.mark.parametrize("fill", fact_square.FILLS)
@pytest.mark.parametrize("large", [False, True])
def test_a_square_fits_its_page_and_its_cells_a_hand(
    facts: fact_square.Facts, high: int, fill: fact_square.Fill, large: bool
) -> None:
    sheet = fact_square.sheet(facts, fill, high, "F", "Mira", {(2, 3), (3, 2)}, large)
    for page in sheet.pages:
        assert taken(page.blocks) <= ROOM
        (block,) = (block for block in page.blocks if isinstance(block, Square))
        assert len(block.rows[0]) * block.side <= WIDTH + 0.5
        if not page.key and (large or fill != "full"):
            assert block.side >= (16 if large else 12.5)


@pytest.mark.parametrize(("facts", "high"), [("products", 12), ("sums", 20)])
@pytest.mark.parametrize("large", [False, True])
def test_a_large_square_in_parts_asks_every_fact_once(
    facts: fact_square.Facts, high: int, large: bool
) -> None:
    sheet = fact_square.sheet(facts, "empty", high, "F", "Mira", (), large)
    asked = [
        (line[0][1], head[1])
        for n, page in enumerate(sheet.pages)
        if not page.key
        for line in cells(sheet, n)[1:]
        for head, cell in zip(cells(sheet, n)[0][1:], line[1:], strict=True)
        if cell == ("blank", "")
    ]
    numbers = [str(n) for n in range(1 if facts == "products" else 0, high + 1)]
    assert sorted(asked) == sorted((a, b) for a in numbers for b in numbers)
    late = fact_square.sheet(facts, "overdue", high, "F", "Mira", {(2, 3)}, large)
    assert [page.key for page in late.pages] == [False, True], "no page where nothing is asked"
    assert [cell for line in cells(late, 0) for cell in line].count(("open", "")) == 1


# --- blank pages --------------------------------------------------------------------------------------


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("sort", [*blanks.BLANKS])
@pytest.mark.parametrize("places", [2, 3, 4])
def test_a_blank_page_is_filled_and_not_over(sort: blanks.Sort, places: int, large: bool) -> None:
    (page,) = blanks.sheet(sort, places, large).pages
    drawings = [block for block in page.blocks if isinstance(block, Drawing)]
    assert len(drawings) == len(page.blocks) > 0
    across = int((WIDTH + 6) // (drawings[0].width + 6))
    high = sum(drawing.height for drawing in drawings[::across])
    assert 0.85 * ROOM < high <= ROOM


def test_blank_pages_hold_nothing_yet() -> None:
    (frames,) = {
        block.picture
        for block in blanks.sheet("ten-frames", 2, False).pages[0].blocks
        if isinstance(block, Drawing)
    }
    assert frames.counters == 0  # type: ignore[union-attr]
    mats = [
        block.picture
        for block in blanks.sheet("mats", 3, False).pages[0].blocks
        if isinstance(block, Drawing)
    ]
    assert {mat.places for mat in mats} == {("hundreds", "tens", "ones")}  # type: ignore[union-attr]
    assert {row for mat in mats for row in mat.rows} == {(0, 0, 0)}  # type: ignore[union-attr]
