"""Facts taken for each other."""

from hypothesis import given
from hypothesis import strategies as st

from review.core.confusions import of_answers, others
from review.core.findings import Fact
from review.core.model import Answer

PAIRS = st.tuples(st.integers(2, 12), st.integers(2, 12)).map(lambda pair: (min(pair), max(pair)))


def answer(a: int, b: int, given: str) -> Answer:
    right = given == str(a * b)
    return Answer(
        f"product:{min(a, b)}x{max(a, b)}", f"{a}x{b}", str(a * b), given, "right" if right else "not_yet"
    )


def test_the_same_other_answer_on_two_days_is_told() -> None:
    (found,) = of_answers([(1, answer(6, 8, "42")), (3, answer(8, 6, "42"))])
    assert found.fact == (6, 8)
    assert found.others == ((6, 7),)
    assert [one.day for one in found.evidence] == [1, 3]


def test_once_or_on_one_day_is_not_told() -> None:
    assert of_answers([(1, answer(6, 8, "42"))]) == ()
    assert of_answers([(1, answer(6, 8, "42")), (1, answer(6, 8, "42"))]) == ()


def test_two_facts_taken_for_each_other_are_one_pair() -> None:
    (found,) = of_answers([(1, answer(6, 8, "42")), (2, answer(6, 7, "48"))])
    assert {found.fact, *found.others} == {(6, 7), (6, 8)}


def test_a_fact_of_the_first_ten_tables_is_not_taken_for_one_beyond_them() -> None:
    """48 is 4 × 12 too: a child who took 6 × 8 and 7 × 7 for each other had two findings, one with a table
    never met. Where the other shares a factor, or there is no nearer one, it stays."""
    (found,) = of_answers([(1, answer(6, 8, "49")), (2, answer(7, 7, "48"))])
    assert {found.fact, *found.others} == {(6, 8), (7, 7)}
    assert others((6, 8), 72) == ((6, 12), (8, 9))
    assert others((7, 7), 60) == ((6, 10),)
    assert others((7, 7), 132) == ((11, 12),)
    assert others((7, 11), 48) == ((4, 12), (6, 8))


def test_what_is_no_answer_of_a_table_is_not_told() -> None:
    assert of_answers([(1, answer(7, 8, "53")), (2, answer(7, 8, "53"))]) == ()


def test_what_was_right_or_not_in_figures_is_passed_over() -> None:
    rows = [answer(6, 8, "48"), answer(6, 8, "forty-two"), answer(6, 8, "²"), answer(6, 8, "9" * 50)]
    assert of_answers([(n, row) for n, row in enumerate(rows * 2)]) == ()


def test_what_was_typed_first_counts() -> None:
    slipped = answer(6, 8, "48")._replace(slipped="42")
    assert len(of_answers([(1, slipped), (2, answer(6, 8, "42"))])) == 1


@given(PAIRS, PAIRS)
def test_the_other_fact_has_that_answer_and_shares_a_factor_where_one_does(fact: Fact, meant: Fact) -> None:
    given_ = meant[0] * meant[1]
    found = others(fact, given_)
    assert all(a * b == given_ for a, b in found)
    if set(fact) & set(meant):
        assert meant in found
        assert all(set(one) & set(fact) for one in found)
