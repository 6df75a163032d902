"""Bodies of rows read together: the same as one by one, whatever damage has done to them."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.book import rows

BODIES = st.dictionaries(st.text(max_size=4), st.integers() | st.text(max_size=4), max_size=3)


@given(st.lists(BODIES, max_size=5))
def test_bodies_are_read_as_they_were_written(bodies: list[dict[str, object]]) -> None:
    assert rows.bodies_of([json.dumps(body) for body in bodies]) == bodies


@pytest.mark.parametrize("damaged", ['{"a": 1},{"b": 2}', "1,2"])
def test_a_body_with_more_in_it_moves_no_other(damaged: str) -> None:
    first, second = rows.bodies_of([damaged, '{"c": 3}'])
    assert second == {"c": 3}
    assert first == rows.READ(damaged)[0]


@pytest.mark.parametrize("damaged", ["", "{", '{"a": 1', "]["])
def test_a_body_that_is_none_is_no_body(damaged: str) -> None:
    with pytest.raises(ValueError, match=r"Expecting|delimiter"):
        rows.bodies_of(['{"a": 1}', damaged])


def test_all_batches_come_in_order() -> None:
    many = 2 * rows.BATCH + 3
    stored = [(1, n, 7, "answer", 5, n, n, 0, "c", f'{{"n": {n}}}') for n in range(many)]
    told = list(rows.told({7: "k"}, stored))
    assert [(event.seq, event.child, event.body) for event in told] == [
        (n, "k", {"n": n}) for n in range(many)
    ]
