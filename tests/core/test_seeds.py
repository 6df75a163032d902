from random import Random

from hypothesis import given
from hypothesis import strategies as st

from review.core import seeds

# The digest of "abc" as published in FIPS 180-4's examples.
ABC = 0xBA7816BF8F01CFEA414140DE5DAE2223B00361A396177A9CB410FF61F20015AD


def test_a_source_is_the_published_digest() -> None:
    assert seeds.source("abc").getstate() == Random(ABC).getstate()


def test_the_parts_are_joined_in_order() -> None:
    assert seeds.source("book", "child", 7).random() == seeds.source("book|child|7").random()
    assert seeds.plan_source("b", "c", 7).random() == seeds.source("b", "c", 7).random()
    assert seeds.problem_source("b", "c", 7, "k", 1).random() == seeds.source("b", "c", 7, "k", 1).random()


@given(st.integers(0, 10**6), st.integers(0, 10**6), st.integers(0, 9), st.integers(0, 9))
def test_other_days_and_showings_draw_otherwise(a: int, b: int, m: int, n: int) -> None:
    one, two = seeds.problem_source("b", "c", a, "k", m), seeds.problem_source("b", "c", b, "k", n)
    assert (one.random() == two.random()) == ((a, m) == (b, n))
