"""Squares of facts, over whole small spaces."""

from review.core.looks import looks
from review.core.model import CardMemory, Pupil
from review.core.squares import SIGNS, WORDS, Square, squares
from review.core.standing import State
from tests.core.test_reports import learned, pupil


def drawn(some: Pupil) -> dict[str, Square]:
    return {one.name: one for one in squares(looks(some))}


def test_every_state_has_a_sign_and_every_sign_its_words() -> None:
    assert set(SIGNS) == set(State.__args__)  # type: ignore[attr-defined]
    assert set(SIGNS.values()) == set(WORDS) == set(".+#o?")


def test_the_multiplication_square_is_the_whole_table_to_ten() -> None:
    """2 to 10 both ways: 81 places, 45 facts (the triangle 9 × 10 / 2)."""
    found = drawn(pupil("times-2-5-10", "times-3-4-8", "times-6-7-9"))["multiplication"]
    assert list(found.numbers) == list(range(2, 11))
    assert len(found.cells) == 81
    assert len(found.facts) == 45
    assert [rule.title for rule in found.rules] == ["times 0", "times 1"]
    assert all(found.cells[a, b] == found.cells[b, a] for a, b in found.cells)


def test_the_addition_square_to_ten_is_a_triangle() -> None:
    found = drawn(pupil("addition-facts-10"))["addition"]
    assert set(found.cells) == {(a, b) for a in range(1, 10) for b in range(1, 10) if a + b <= 10}


def test_each_sign_where_it_belongs() -> None:
    keys = {
        "product:2x3": learned("product:2x3", 1),  # growing
        "product:2x4": learned("product:2x4", 1, stability=60.0),
        "product:2x5": learned("product:2x5", 40),
        "product:2x6": learned("product:2x6", 1, miss_days=4, tries=12),
        "product:2x7": CardMemory("product:2x7", met_day=739_899, intro_day=739_899, seen_day=739_899),
    }
    cells = drawn(pupil("times-2-5-10", memory=keys))["multiplication"].cells
    assert [cells[2, n] for n in range(3, 9)] == ["+", "#", "o", "?", "+", "."]


def test_what_was_not_taught_is_a_dot() -> None:
    assert set(drawn(pupil("times-2-5-10", taught=False))["multiplication"].cells.values()) == {"."}


def test_larger_facts_are_counted_below() -> None:
    found = drawn(pupil("addition-totals-20"))["addition"]
    assert max(found.numbers) <= 12
    assert found.beyond == sum(max(fact.left, fact.right) > 12 for fact in found.facts) > 0


def test_no_facts_no_square() -> None:
    assert drawn(pupil("place-value-to-99", "number-bonds-10")) == {}
