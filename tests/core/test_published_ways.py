"""Ways worked out as standards and research describe them."""

import pytest

from review.core import skills
from tests.core.way_spaces import two_digits


def steps_of(key: str, asked: str, strategy: str) -> list[str]:
    one = skills.problem(key, asked)
    assert strategy in [way.strategy for way in skills.ways(one)]
    return skills.helps(one, liked=strategy)[-1].text.split("\n")


@pytest.mark.parametrize(
    ("key", "asked", "strategy", "steps"),
    [
        # 1.OA.C.6: "making ten (e.g., 8 + 6 = 8 + 2 + 4 = 10 + 4 = 14)"
        ("sum:6+8", "8+6", "make-ten", ["8 + 2 = 10", "10 + 4 = 14"]),
        # "decomposing a number leading to a ten (e.g., 13 - 4 = 13 - 3 - 1 = 10 - 1 = 9)"
        ("difference:13-4", "13-4", "bridging", ["13 − 3 = 10", "10 − 1 = 9"]),
        # "adding 6 + 7 by creating the known equivalent 6 + 6 + 1 = 12 + 1 = 13"
        ("sum:6+7", "6+7", "near-doubles", ["6 + 6 = 12", "12 + 1 = 13"]),
        # 3.OA.B.5: "8 × 7 as 8 × (5 + 2) = (8 × 5) + (8 × 2) = 40 + 16 = 56"
        ("product:7x8", "8x7", "five-as-anchor", ["8 × 5 = 40", "8 × 2 = 16", "40 + 16 = 56"]),
    ],
)
def test_as_the_standard_works_it_out(key: str, asked: str, strategy: str, steps: list[str]) -> None:
    """US Common Core State Standards for Mathematics, 2010: the examples in the text of these codes."""
    assert steps_of(key, asked, strategy) == steps


@pytest.mark.parametrize("asked", ["9+2", "8+3", "7+2"])
def test_counting_on_2_to_add_2_as_the_standard_has_it(asked: str) -> None:
    """1.OA.C.5: "counting on 2 to add 2", and 3 likewise."""
    a, b = map(int, asked.split("+"))
    numbers = ", ".join(str(n) for n in range(a + 1, a + b + 1))
    assert steps_of(f"sum:{b}+{a}", asked, "counting-on") == [f"Start at {a}.", f"{numbers}."]


@pytest.mark.parametrize(
    ("key", "asked", "strategy", "steps"),
    [
        # jump (N10): tens, then ones, from the whole of one number
        ("mental-sum:2+2/regroup-ones", "54+29", "counting-on", ["54 + 20 = 74", "74 + 9 = 83"]),
        ("mental-difference:2-2/regroup", "75-39", "taking-off",
         ["75 − 30 = 45", "45 − 5 = 40", "40 − 4 = 36"]),
        # compensation (N10C): a round number, and what was too much put right
        ("mental-sum:2+2/regroup-ones", "54+29", "rounding", ["29 + 1 = 30", "54 + 30 = 84", "84 − 1 = 83"]),
        ("mental-difference:2-2/regroup", "75-39", "rounding",
         ["39 + 1 = 40", "75 − 40 = 35", "35 + 1 = 36"]),
        # indirect addition: how much is to be added to the smaller number
        ("mental-difference:2-2/close", "71-68", "counting-up", ["68 + 2 = 70", "70 + 1 = 71", "2 + 1 = 3"]),
        # split (1010), and on to the ten (A10): 45 + 39 in both
        ("mental-sum:2+2/regroup-ones", "45+39", "partitioning",
         ["40 + 30 = 70", "5 + 9 = 14", "70 + 14 = 84"]),
        ("mental-sum:2+2/regroup-ones", "45+39", "bridging", ["39 = 5 + 34", "45 + 5 = 50", "50 + 34 = 84"]),
    ],
)  # fmt: skip
def test_as_research_describes_it(key: str, asked: str, strategy: str, steps: list[str]) -> None:
    """What the names mean: Beishuizen 1993 and after (1010, N10, A10, N10C), Torbeyns and others 2009 (jump
    or compensate; indirect addition). Meaning and kind of numbers from memory, the numbers partly so."""
    assert steps_of(key, asked, strategy) == steps


def test_numbers_that_end_in_8_or_9_invite_compensation() -> None:
    """Torbeyns and others 2009, from memory: such numbers are the ones that ask for it."""
    for problem in two_digits("mental-sum"):
        a, b = map(int, problem.asked.split("+"))
        near = max(a % 10, b % 10) >= 8
        names = [way.strategy for way in skills.ways(problem)]
        if near and a % 10 + b % 10 >= 10 and b >= 8:
            assert "rounding" in names, problem.asked
        if not near and max(a, b) < 95:
            assert "rounding" not in names, problem.asked
