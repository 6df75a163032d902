"""First tries of a span, against the fold of the whole log."""

from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review import gather
from review.core import days, memory, tries
from review.core.model import Event, Mark, Role, Sort
from review.core.standing import is_new
from tests.core.stock import DAY, plain, told

MARKS = get_args(Mark)
KEYS = ("sum:1+1", "sum:1+2")
SORTS: list[Sort] = ["", "", "extra", "gentle"]
moments = st.lists(
    st.tuples(
        st.integers(0, 6),
        st.sampled_from(KEYS),
        st.sampled_from(MARKS),
        st.booleans(),
        st.sampled_from(SORTS),
    ),
    max_size=25,
)


def played(made: list[tuple[int, str, Mark, bool, Sort]]) -> list[Event]:
    """What a program that keeps to its own roles would log: new cards are introduced, a miss is copied."""
    rows, day = list[Event](), DAY
    for gap, key, mark, probes, sort in made:
        day += gap
        known = memory.fold(rows, plain).get(key)
        role: Role = ("probe" if probes and not sort else "intro") if is_new(known, day) else "ask"
        row = told(len(rows) + 1, day, mark, role, key=key, aim="fluency", help=helped(mark))
        rows.append(of_sitting(row, sort))
        if mark in ("not_yet", "shown"):
            copy = told(len(rows) + 1, day, "right", "copy", key=key, aim="fluency")
            rows.append(of_sitting(copy, sort))
    return rows


def of_sitting(row: Event, sort: Sort) -> Event:
    return row._replace(body={**row.body, "sitting": sort}) if sort else row


def helped(mark: Mark) -> str:
    return "picture" if mark == "right_helped" else ""


@settings(deadline=None, max_examples=150)
@given(moments)
def test_first_tries_are_those_of_the_fold(made: list[tuple[int, str, Mark, bool, Sort]]) -> None:
    rows = played(made)
    found = list(tries.first_tries(rows))
    for key, known in memory.fold(rows, plain).items():
        mine = [one for one in found if one.card == key]
        assert (len(mine), sum(one.right for one in mine)) == (known.tries, known.right)


@settings(deadline=None, max_examples=150)
@given(moments)
def test_the_last_that_the_plan_goes_by_are_those_of_the_fold(
    made: list[tuple[int, str, Mark, bool, Sort]],
) -> None:
    rows = played(made)
    told = gather.recent_right(rows, days.LAST_DAY, len(rows) + 1)
    folded = memory.fold(rows, plain).values()
    assert (len(told), sum(told)) == (sum(one.tries for one in folded), sum(one.right for one in folded))


@pytest.mark.parametrize(
    ("first", "then", "counted"),
    [
        (told(1, DAY, "void"), told(2, DAY), ()),  # what was seen a moment ago is no recall
        (of_sitting(told(1, DAY), "extra"), told(2, DAY, "not_yet"), ()),
        (of_sitting(told(1, DAY, "not_yet"), "gentle"), told(2, DAY), ()),
        (
            told(1, DAY, "not_yet", "probe"),
            told(2, DAY, "not_yet"),
            (False,),
        ),  # a probe tells the child nothing
        (told(1, DAY, "not_yet", "intro"), told(2, DAY), ()),
        (told(1, DAY, "right", "copy"), told(2, DAY), (True,)),
    ],
)
def test_one_rule_of_first_tries_for_plans_and_reports(
    first: Event, then: Event, counted: tuple[bool, ...]
) -> None:
    assert gather.recent_right([first, then], DAY + 1) == counted
    assert tuple(one.right for one in tries.first_tries([first, then])) == counted


def test_a_guiding_question_lets_new_cards_in_and_is_help_in_reports() -> None:
    """The work was the child's own; but it was not unaided."""
    guided = [told(1, DAY, help="question")]
    assert gather.recent_right(guided, DAY + 1) == (True,)
    assert [one.right for one in tries.first_tries(guided)] == [False]


def test_a_span_needs_nothing_of_what_came_before() -> None:
    rows = [told(1, DAY), told(2, DAY + 3, "not_yet"), told(3, DAY + 3), told(4, DAY + 9)]
    whole = list(tries.first_tries(rows))
    assert [one.day for one in whole] == [DAY, DAY + 3, DAY + 9]
    assert list(tries.first_tries(rows[1:])) == whole[1:]


@pytest.mark.parametrize(
    ("given_", "timed", "from_memory"),
    [
        ({"slow_ms": 3000}, True, True),
        ({"slow_ms": 3000, "mark": "right_slow"}, True, False),
        ({"slow_ms": 0}, False, False),
        ({"recalled": "no"}, True, False),
        ({"recalled": "yes"}, True, True),
        ({"slow_ms": 3000, "mark": "not_yet"}, True, False),
        ({"mark": "not_yet"}, False, False),
    ],
)
def test_right_and_from_memory_are_told_apart(
    given_: dict[str, object], timed: bool, from_memory: bool
) -> None:
    (one,) = tries.first_tries([told(1, DAY, aim="fluency", **given_)])  # type: ignore[arg-type]
    assert (one.timed, one.from_memory) == (timed, from_memory)


@pytest.mark.parametrize("taken", ["aloud", "paper"])
def test_a_miss_that_a_parent_told_was_not_from_memory(taken: str) -> None:
    """Else the share is one of what was right, and a child who misses half has all from memory."""
    row = told(1, DAY, "not_yet", aim="fluency")
    (one,) = tries.first_tries([row._replace(body={**row.body, "taken": taken})])
    assert (one.timed, one.from_memory) == (True, False)


def test_the_usual_time_is_the_middle_one_net_of_copying() -> None:
    times = (2000, 2500, 9000)
    rows = [told(n, DAY + n, end_ms=ms, copy_ms=1500) for n, ms in enumerate(times)]
    slow = told(9, DAY + 9, "not_yet", end_ms=50_000)
    assert tries.tally(tries.first_tries([*rows, slow])).net_ms == 1000
    assert tries.tally([]).net_ms == 0


def test_how_long_the_letters_of_a_number_word_took_says_nothing() -> None:
    digits = told(1, DAY, end_ms=2500, copy_ms=1500)
    word = told(2, DAY + 1, end_ms=9000, copy_ms=1500)
    rows = [digits, word._replace(body={**word.body, "expected": "2", "given": "two"})]
    assert tries.tally(tries.first_tries(rows)).net_ms == 1000


def test_a_day_of_practice_has_a_problem_answered_in_whichever_sitting() -> None:
    rows = [
        told(1, DAY),
        of_sitting(told(2, DAY + 1, "not_yet"), "gentle"),
        of_sitting(told(3, DAY + 2), "extra"),
        told(4, DAY + 3, "not_yet", "probe"),
        told(5, DAY + 4, "void"),
        of_sitting(told(6, DAY + 5, "right", "copy", key="copying:0..9"), "copying"),
    ]
    assert tries.practised(rows) == {DAY, DAY + 1, DAY + 2, DAY + 3}


def test_minutes_leave_out_what_means_nothing() -> None:
    rows = [told(1, DAY, end_ms=4000), told(2, DAY, "void", end_ms=900_000), told(3, DAY, end_ms=600_000)]
    assert tries.spent_ms(rows) == 4000 + tries.LONGEST_MS


def test_what_was_found_with_help_is_counted_beside_what_was_right() -> None:
    """A guiding question leaves a procedure right by its mark, and is help all the same."""
    rows = [
        told(1, DAY, "right"),
        told(2, DAY + 1, "right_helped", help="picture"),
        told(3, DAY + 2, "right", help="question"),
        told(4, DAY + 3, "not_yet", help="picture"),
    ]
    found = tries.tally(tries.first_tries(rows))
    assert (found.tries, found.right, found.helped) == (4, 1, 2)
