"""Of which answers a child is asked how they were found."""

from random import Random

import pytest

from review.core import marking
from review.core.doubts import drawn, leaves_open, said
from review.core.model import Answer

COPY = 1500


def row(net_ms: int, age: int = 9, **fields: object) -> Answer:
    known = Answer("product:6x7", "6x7", "42", "42", "right", first_ms=900, end_ms=COPY + net_ms)
    known = known._replace(aim="fluency", age=age, copy_ms=COPY, slow_ms=marking.slow_ms(age))
    return known._replace(**fields)  # type: ignore[arg-type]


@pytest.mark.parametrize(("age", "times"), [(6, 1.5), (7, 1.5), (8, 1.2), (9, 1.0), (11, 1.0)])
def test_between_two_and_four_seconds_it_is_open(age: int, times: float) -> None:
    """2 to 4 s net, times 1.2 at 8 and 1.5 at 6 and 7 (our judgement)."""
    low, high = round(2000 * times), round(4000 * times)
    assert [leaves_open(row(net, age)) for net in (low - 1, low, high, high + 1)] == [
        False,
        True,
        True,
        False,
    ]


@pytest.mark.parametrize(
    "fields",
    [
        {"slow_ms": 0}, {"role": "intro"}, {"role": "copy"}, {"mark": "not_yet"}, {"mark": "right_helped"},
        {"help": "picture"}, {"recalled": "yes"}, {"slipped": "422"}, {"untimed": 1}, {"first_ms": 100},
        {"card": "mental-sum:2+2/regroup-ones"},
    ],
)  # fmt: skip
def test_of_no_other_answer_is_it_asked(fields: dict[str, object]) -> None:
    assert leaves_open(row(3000))
    assert not leaves_open(row(3000)._replace(**fields))  # type: ignore[arg-type]


def test_one_in_four_twice_at_most_and_never_after_a_miss() -> None:
    found = sum(drawn(row(3000), 0, 0, Random(n)) for n in range(4000))
    assert 890 <= found <= 1110  # 1000 on average, and four standard deviations on each side
    assert not any(drawn(row(3000), 2, 0, Random(n)) for n in range(200))
    assert not any(drawn(row(3000), 0, 1, Random(n)) for n in range(200))
    assert not any(drawn(row(500), 0, 0, Random(n)) for n in range(200))


def test_what_was_said_changes_no_count() -> None:
    for word in ("", "yes", "no"):
        assert drawn(row(3000, recalled=word), 0, 0, Random(7)) == drawn(row(3000), 0, 0, Random(7))


@pytest.mark.parametrize(
    ("text", "means"),
    [("m", "yes"), ("M ", "yes"), ("memory", "yes"), ("w", "no"), ("worked out", "no"), ("", ""), ("42", ""),
     ("?", "")],
)  # fmt: skip
def test_what_a_child_types_means_from_memory_or_worked_out_or_nothing(text: str, means: str) -> None:
    assert said(text) == means
