"""What was given, as its problem writes it: alike in every report, and never another answer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import judging, skills
from review.core.findings import Evidence
from review.core.given import as_written
from review.core.model import Answer, Problem
from review.render import miss_lines, undo_lines
from review.render.diary import sample_words
from tests.core.stock import told
from tests.core.test_diary import kept
from tests.core.test_reports import DAY

PRODUCT = skills.problem("product:6x7", "6x7")
LARGE = skills.problem("column-difference:4-4/1", "7561-7428")
BELOW = skills.problem("negative:up-below/1..10", "-7+2")
ROMAN = Problem("k", "roman", "", "14 in Roman numerals is", "", "roman", "XIV", "14 is XIV.")
LENGTH = Problem("k", "convert", "", "305 cm =", "", "quantities", "3 m 5 cm", "305 cm = 3 m 5 cm")
LISTED = Problem("k", "count-by", "", "Next:", "", "list", "12 18", "12 18")
REST = Problem("k", "division-written", "", "17 ÷ 3 =", "", "remainder", "5 r 2", "17 ÷ 3 = 5 r 2")
HALF = Problem("k", "fraction", "", "Half of 1 is", "", "fraction", "1/2", "1/2")


@pytest.mark.parametrize(
    ("problem", "typed", "written"),
    [
        (PRODUCT, "４２", "42"),  # full-width digits, as some keyboards send them
        (PRODUCT, " 4２ ", "42"),
        (PRODUCT, "४२", "42"),  # digits of another script
        (ROMAN, "xiv", "XIV"),
        (ROMAN, "ＸＩＶ", "ＸＩＶ"),  # letters are read as they are
        (LENGTH, "3m5CM", "3 m 5 cm"),
        (REST, "5R2", "5 r 2"),
        (HALF, "1 / 2", "1/2"),
        (LARGE, "1 33", "1 33"),
        (LARGE, "133", "133"),
        (LARGE, "1133", "1,133"),
        (LARGE, "1,133", "1,133"),
        (BELOW, "-9", "−9"),
        (BELOW, "-5", "−5"),
        (BELOW, "－5", "−5"),
    ],
)
def test_what_makes_no_difference_is_written_as_the_problem_has_it(
    problem: Problem, typed: str, written: str
) -> None:
    assert as_written(problem, typed) == written


@pytest.mark.parametrize(
    ("problem", "typed"),
    [(HALF, "2/4"), (PRODUCT, "forty-two"), (PRODUCT, "042"), (PRODUCT, "4 2"), (LISTED, "1218"),
     (LISTED, "12 1 8"), (REST, "5"), (PRODUCT, "")],
)  # fmt: skip
def test_what_makes_a_difference_stays_as_it_was_typed(problem: Problem, typed: str) -> None:
    assert as_written(problem, typed) == typed


@given(st.sampled_from([PRODUCT, LARGE, BELOW]), st.text("0123456789-−－ ,４a.", max_size=6))
def test_it_is_judged_as_what_was_typed(problem: Problem, typed: str) -> None:
    assert judging.judge(problem, as_written(problem, typed)) == judging.judge(problem, typed)


@pytest.mark.parametrize(
    ("card", "asked", "typed", "written"),
    [
        ("column-difference:4-4/1", "7561-7428", "１133", "7,561 − 7,428 = 1,133"),
        ("product:6x7", "6x7", "４1", "6 × 7 = 41"),
        ("negative:up-below/1..10", "-7+2", "-9", "−7 + 2 = −9"),
    ],
)
def test_log_misses_and_undo_write_it_alike(card: str, asked: str, typed: str, written: str) -> None:
    row = told(1, DAY, "not_yet", key=card, asked=asked)
    (day,) = kept([row._replace(body={**row.body, "given": typed})]).days
    expected = skills.undrawn(card, asked).expected
    assert sample_words(day.samples[0]) == f"{written} (not yet)"
    assert miss_lines.answer_line(Evidence(DAY, card, asked, expected, typed)).startswith(written)
    assert undo_lines.answer_line(Answer(card, asked, expected, typed, "not_yet")) == f"{written} (not yet)"
    assert day.samples[0].given == typed  # for another program, as it was typed
