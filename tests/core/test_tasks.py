"""Kinds made of tasks: how members are written, drawn and counted."""

from collections import Counter
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.skills.tasks import Shown, Space, Task, Tasks, members, pattern

SHOWN = Shown("?", "?", "1", "?", ())


def kind_of(space: Space) -> Tasks:
    writing = pattern("#+#")
    return Tasks(
        {"pair": Task(lambda sizes: "pairs", 1.0, writing, lambda sizes: space, lambda s, m: SHOWN, "pair")}
    )


@given(st.integers(-999, 999), st.integers(0, 9999), st.integers(0, 9))
def test_what_is_written_is_read_back(first: int, second: int, size: int) -> None:
    whole = pattern("#?#/<0>x")
    assert whole.read((size,), whole.write((size,), (first, second))) == (first, second)
    places = pattern("(#)-#", lambda sizes: (0, 3))
    assert places.read((), places.write((), (first, second))) == (first, second)
    assert places.write((), (1, 50)) == "(1)-0.050"


@pytest.mark.parametrize("text", ["", "1", "1+", "1+2+3", "a+b", "1 + 2", "1+2\n", "\u0661+2"])
def test_what_is_written_in_another_way_is_nothing(text: str) -> None:
    assert pattern("#+#").read((), text) is None


def test_members_are_all_that_fit() -> None:
    space = Space((range(4), range(4)), lambda a, b: a < b)
    assert list(members(space)) == [(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)]


def test_a_needle_in_a_haystack_is_found() -> None:
    """One in a million: drawn by listing them all."""
    space = Space((range(1000), range(1000)), lambda a, b: (a, b) == (999, 998))
    assert kind_of(space).draw("template:pair/1", Random(1)) == "999+998"


def test_half_of_what_is_drawn_is_of_the_half() -> None:
    """However few they are: here one of ten."""
    tasks, random = kind_of(Space((range(10), range(1)), half=lambda a, b: a == 0)), Random(1)
    drawn = Counter(tasks.draw("template:pair/1", random) for _ in range(4000))
    assert len(drawn) == 10
    assert 1900 < drawn["0+0"] < 2100
    assert max(drawn[f"{a}+0"] for a in range(1, 10)) < 300


@pytest.mark.parametrize(
    "space", [Space((range(0), range(3))), Space((range(3), range(3)), lambda a, b: False)]
)
def test_nothing_is_drawn_from_nothing(space: Space) -> None:
    tasks = kind_of(space)
    with pytest.raises(ValueError, match="no problem belongs"):
        tasks.draw("template:pair/1", Random(1))
    assert not tasks.possible("template:pair/1")


def test_strangers_are_refused() -> None:
    tasks = kind_of(Space((range(4), range(4)), lambda a, b: a < b))
    assert tasks.member("template:pair/1", "0+3") == (0, 3)
    for asked in ("3+0", "0+4", "00+3", "-1+3", "0+3+0"):
        with pytest.raises(ValueError, match="does not belong"):
            tasks.member("template:pair/1", asked)
