"""Steps of working a fact out, and their share of the longest time."""

from itertools import pairwise

import pytest

from review.core import working_out


# The smaller addend: Groen & Parkman (1972). The others are our judgement.
@pytest.mark.parametrize(
    ("asked", "steps"),
    [
        ("9+2", 2), ("2+9", 2), ("13-6", 6), ("13-11", 2), ("20=_+18", 2), ("20=_+3", 3),
        ("4x5", 8), ("6x7", 24), ("42/6", 28), ("56=_x7", 32), ("7/0", 4), ("14", 4),
    ],
)  # fmt: skip
def test_steps(asked: str, steps: int) -> None:
    assert working_out.steps(asked) == steps


def test_the_code_of_a_space_is_no_number() -> None:
    assert working_out.steps("Days%20in%20a%20week%3A=7") == working_out.steps("14")


def test_the_share_rises_by_the_step_and_ends_at_one() -> None:
    shares = [working_out.share(f"9+{n}") for n in range(1, 9)]
    rises = [after - before for before, after in pairwise(shares)]
    assert rises == pytest.approx([rises[0]] * len(rises))
    assert 0 < shares[0] < shares[-1] < working_out.share("6x7") == working_out.share("12x12") == 1.0
