"""How shares of first tries are told: each with what it is a share of."""

import pytest

from review.core.progress import Week
from review.core.tries import NOTHING, Tally
from review.render.progress_lines import tally_words
from review.render.progress_page import memory_words, minutes_chart


@pytest.mark.parametrize(
    ("tally", "told"),
    [
        (Tally(19, 18, 15, 10, 0), "95% of 19 right, 10 of 15 from memory"),
        (Tally(15, 14, 15, 10, 0), "93% of 15 right, 67% from memory"),
        (Tally(2000, 1900, 1500, 1000, 0), "95% of 2,000 right, 1,000 of 1,500 from memory"),
        (Tally(19, 18, 15, 15, 0), "95% of 19 right"),
        (Tally(19, 18, 0, 0, 0), "95% of 19 right"),
        (Tally(33, 0, 0, 0, 0, 28), "0% of 33 right, 28 more with help"),
        (Tally(15, 14, 15, 10, 0, 1), "93% of 15 right, 67% from memory, 1 more with help"),
        (Tally(200, 190, 0, 0, 0, 4), "95% of 200 right"),
    ],
)
def test_two_shares_have_each_its_own_base(tally: Tally, told: str) -> None:
    assert tally_words(tally) == told


def test_a_week_on_paper_alone_is_not_told_as_no_time() -> None:
    """Of four days on paper the table said 0 minutes, beside days that were timed."""
    some = Tally(9, 9, 0, 0, 0)
    weeks = [Week(7, 4, 0, some), Week(14, 3, 300_000, some), Week(21, 0, 0, NOTHING)]
    chart = minutes_chart(weeks, ("paper", "typed"))
    assert chart is not None
    assert [row[2] for row in chart.table.rows] == ["", "5", "0"]
    assert chart.words.startswith("Between 0 and 5 minutes a week, in 2 weeks. What was said aloud")


def test_so_it_is_in_a_table() -> None:
    assert memory_words(Tally(1900, 1800, 1500, 1000, 0)) == "67% of 1,500"
    assert memory_words(Tally(19, 18, 0, 0, 0)) == ""
