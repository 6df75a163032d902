"""How shares of first tries are told: each with what it is a share of."""

import pytest

from review.core.tries import Tally
from review.render.progress_lines import tally_words
from review.render.progress_page import memory_words


@pytest.mark.parametrize(
    ("tally", "told"),
    [
        (Tally(19, 18, 15, 10, 0), "95% of 19 right, 10 of 15 from memory"),
        (Tally(15, 14, 15, 10, 0), "93% of 15 right, 67% from memory"),
        (Tally(2000, 1900, 1500, 1000, 0), "95% of 2,000 right, 1,000 of 1,500 from memory"),
        (Tally(19, 18, 15, 15, 0), "95% of 19 right"),
        (Tally(19, 18, 0, 0, 0), "95% of 19 right"),
    ],
)
def test_two_shares_have_each_its_own_base(tally: Tally, told: str) -> None:
    assert tally_words(tally) == told


def test_so_it_is_in_a_table() -> None:
    assert memory_words(Tally(1900, 1800, 1500, 1000, 0)) == "67% of 1,500"
    assert memory_words(Tally(19, 18, 0, 0, 0)) == ""
