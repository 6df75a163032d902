"""The search for the lowest point, over valleys whose lowest point is known."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core.parameter_search import Numbers, lowest


def valley(at: Numbers) -> float:
    """Rosenbrock (1960): a bent valley, lowest at 1, 1."""
    x, y = at
    return float(100 * (y - x * x) ** 2 + (1 - x) ** 2)


def test_the_lowest_point_of_a_known_valley() -> None:
    # Nelder and Mead (1965) try their method on this valley from -1.2, 1; the minimum is exact.
    assert lowest(valley, (-1.2, 1.0), 0.5, 500, 1e-14) == pytest.approx((1, 1), abs=1e-5)


@settings(max_examples=50)
@given(st.tuples(*[st.floats(-2, 2)] * 3), st.tuples(*[st.floats(0.2, 5)] * 3))
def test_the_lowest_point_of_a_bowl(bottom: Numbers, steep: Numbers) -> None:
    def bowl(at: Numbers) -> float:
        return sum(k * (x - b) ** 2 for x, b, k in zip(at, bottom, steep, strict=True))

    assert lowest(bowl, (0.0, 0.0, 0.0), 0.3, 2000, 1e-16) == pytest.approx(bottom, abs=1e-4)


def test_the_search_ends() -> None:
    looks: list[Numbers] = []

    def slope(at: Numbers) -> float:
        looks.append(at)
        return sum(at)

    lowest(slope, (0.0, 0.0, 0.0), 0.3, 40, 1e-9)
    assert 40 <= len(looks) <= 44  # a last step draws in three corners at most, with two looks before
