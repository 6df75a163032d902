"""Small sentences for a parent that were no sentences."""

from pathlib import Path

import pytest

from review.app.keeping import Kept
from review.app.sheet_making import Ready
from review.core.diary import diary
from review.core.paper import Page, Sheet
from review.core.teaching import Lesson
from review.render import archive_lines, desk_lines, sheet_lines, week_lines
from review.render.diary_page import record_page
from tests.core.stock import told
from tests.core.test_reports import DAY, pupil


@pytest.mark.parametrize(
    ("keys", "says"), [(1, "The key is the last page."), (2, "The key is the last 2 pages.")]
)
def test_where_the_key_is(keys: int, says: str) -> None:
    pages = (Page(()), *(Page((), key=True) for _ in range(keys)))
    assert says in sheet_lines.written(Ready(Sheet("Sheet 5053", "", pages), "x"), Path("x.html"))


@pytest.mark.parametrize(("pages", "behind"), [(1, True), (2, False), (3, True)])
def test_a_key_on_the_back_of_problems_is_warned_of(pages: int, behind: bool) -> None:
    """Sheets of paper have two sides: what comes after an odd number of pages is on the back of the last."""
    every = (*(Page(()) for _ in range(pages)), Page((), key=True))
    told = sheet_lines.written(Ready(Sheet("Sheet 5053", "", every), "x"), Path("x.pdf"))
    assert any("on the back" in line for line in told) == behind


@pytest.mark.parametrize(
    ("cards", "says"),
    [
        (1, "1 of what is overdue takes over a minute, so it comes on paper alone:"),
        (3, "3 of what is overdue take over a minute each, so they come on paper alone:"),
    ],
)
def test_what_comes_on_paper_alone(cards: int, says: str) -> None:
    assert desk_lines.for_paper(cards) == says


def test_a_card_that_begins_a_sentence_has_a_capital() -> None:
    """ "Doubles of 1 to 10. double 1 did not stick." """
    skill = next(iter(pupil("doubles-halves-20").skills.values()))
    lesson = Lesson(skill, "stuck", ("double 1",), (), 0, 0)
    assert week_lines.lesson(lesson, "Orla").endswith(". Double 1 did not stick. Begin with the objects.")


def test_titles_with_commas_are_parted_by_semicolons() -> None:
    titles = ("Tables of 2, 5 and 10", "Tables of 3, 4 and 8")
    kept = Kept(pupil().child, titles, titles, 0, 0, 0, None, 0, 0, Path("family.book"), ())
    assert [line.partition(": ")[2] for line in archive_lines.kept(kept)[3:5]] == [
        f"{'; '.join(titles)}."
    ] * 2


def test_the_record_of_one_child_names_that_child_once() -> None:
    one = diary(pupil("times-2-5-10"), [told(1, DAY, key="product:2x7", asked="2x7")], DAY - 27, DAY)
    assert record_page([one]).count("Mira</h") == 1
    assert record_page([one, one]).count("<h2>Mira</h2>") == 2
