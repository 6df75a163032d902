"""Counts and decimals of reports, as the family writes numbers."""

from collections.abc import Callable
from pathlib import Path

import pytest

from review.app.archive import Exported
from review.core.brief import brief
from review.core.diary import diary
from review.core.findings import Counting, Findings, Misses
from review.core.house_words import reported
from review.core.model import Pupil, Words
from review.core.progress import progress
from review.core.tries import Tally
from review.render import archive_lines, brief_lines, miss_lines, progress_lines
from review.render import diary as diary_lines
from review.render import lines as book_lines
from review.render.diary_page import record_page
from review.render.progress_page import progress_page
from review.replies import Proof
from tests.core.stock import told
from tests.core.test_reports import DAY, KEY, learned, pupil

COMMA = Words(decimals="comma")
MANY = Tally(2475, 2350, 2400, 1200, 3400)
ROWS = [told(1, DAY, key="product:2x7", asked="2x7")]


def of_family() -> Pupil:
    one = pupil("times-2-5-10", memory={KEY: learned(KEY, 1)})
    return one._replace(child=one.child._replace(words={"decimals": "comma"}))


def progress_shown() -> str:
    found = progress(of_family(), ROWS, DAY - 27, DAY)
    skill = found.skills[0]._replace(tally=MANY)
    found = found._replace(tally=MANY, now=found.now._replace(met=1250), skills=(skill,))
    return "\n".join([*progress_lines.progress(found), progress_page([found])])


def record_shown() -> str:
    found = diary(of_family(), ROWS, DAY - 27, DAY)._replace(tally=MANY)
    return "\n".join([*diary_lines.lines(found), record_page([found])])


def brief_shown() -> str:
    return "\n".join(brief_lines.brief(brief(of_family(), ROWS)._replace(tries=2475), no_name=False))


def proofs_shown() -> str:
    proof = Proof(Path("1.5/a.book"), (), 1, 2475, 3, COMMA)
    exported = archive_lines.exported(Exported(Path("1.5/a.jsonl"), 2475, COMMA), table=False)
    return "\n".join([*book_lines.proof(proof), *exported])


@pytest.mark.parametrize("shown", [progress_shown, record_shown, brief_shown, proofs_shown])
def test_a_count_is_no_decimal_where_a_comma_is_one(shown: Callable[[], str]) -> None:
    """With a decimal comma "2,475" is two and a half. Thousands stand apart by a space (ISO 80000-1, 7.3)."""
    text = shown()
    assert "2\u00a0475" in text
    assert "2,475" not in text
    assert "1,250" not in text
    assert "1,5/a" not in text, "a file keeps its name"


def test_tenths_of_a_second_have_the_familys_comma() -> None:
    assert "usually 3,4 s" in progress_shown()
    counts = Counting(0.5, 48, 2.3, 4.8, DAY)
    one = Misses(of_family().child, 7, 60, Findings(DAY, (), (), counts))
    assert "took 2,3 seconds to begin" in "\n".join(miss_lines.of_child(one))


def test_what_a_line_lists_stays_as_it_is_listed() -> None:
    line = "Tables of 2, 5 and 10: 4 cards, 3 holding. 1,250 tries, usually 3.4 s."
    assert reported(line, COMMA) == line.replace("1,250", "1\u00a0250").replace("3.4", "3,4")
    assert reported(line, Words(times="dot")) == line
