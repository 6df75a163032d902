"""Small sentences for a parent that were no sentences."""

from pathlib import Path

import pytest

from review.core.paper import Page, Sheet
from review.core.teaching import Lesson
from review.keeping import Kept
from review.render import archive_lines, sheet_lines, week_lines
from review.sheeting import Ready
from tests.core.test_reports import pupil


@pytest.mark.parametrize(
    ("keys", "told"), [(1, "The key is the last page."), (2, "The key is the last 2 pages.")]
)
def test_where_the_key_is(keys: int, told: str) -> None:
    pages = (Page(()), *(Page((), key=True) for _ in range(keys)))
    assert told in sheet_lines.written(Ready(Sheet("Sheet 5053", "", pages), "x"), Path("x.html"))


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
