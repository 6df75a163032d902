"""Timetables: answered from the picture a child sees, by Python's own datetime."""

import re
from datetime import datetime, timedelta
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.keys import well_formed
from review.core.model import Problem
from review.core.skills.timetables import KINDS, TABLE
from tests.core.shown import (
    SOURCES,
    assert_sound,
    blank_fits,
    for_a_child,
    gives_away,
    holds,
    in_order,
    refuses,
    seen,
)
from tests.core.spaces import skill_of

(TIMETABLE,) = KINDS
KEYS = [
    f"timetable:{ask}/{stops}-{step}-{clock}" for ask in TABLE for stops in (3, 4) for step in (5, 1)
    for clock in (12, 24)
]  # fmt: skip


def minutes(text: str) -> int:
    read = datetime.strptime(text, "%H:%M")
    return read.hour * 60 + read.minute


def on_the_board(problem: Problem) -> dict[str, list[str]]:
    return {name: times for name, *times in map(str.split, seen(problem))}


def span_term(term: str) -> Fraction:
    """Minutes: of a time, of a span, or a bare number."""
    if ":" in term:
        return Fraction(minutes(term))
    span = re.fullmatch(r"(?:(\d+) h)? ?(?:(\d+) min)?", term)
    return (
        Fraction(int(span[1] or 0) * 60 + int(span[2] or 0))
        if span and any(span.groups())
        else Fraction(term)
    )


def answer_of(problem: Problem) -> str | timedelta:
    """What somebody finds who reads the board."""
    rows = on_the_board(problem)
    if found := re.fullmatch(r"When does the (\S+) ferry reach (\w+)\?", problem.prompt):
        return rows[found[2]][next(iter(rows.values())).index(found[1])]
    if found := re.fullmatch(r"Be at (\w+) by (\S+)\. Leave (\w+) at", problem.prompt):
        in_time = [at for at in rows[found[1]] if minutes(at) <= minutes(found[2])]
        return rows[found[3]][len(in_time) - 1]
    found = re.fullmatch(r"How long from (\w+) to (\w+)\?", problem.prompt)
    assert found
    spans = {minutes(b) - minutes(a) for a, b in zip(rows[found[1]], rows[found[2]], strict=True)}
    assert len(spans) == 1
    return timedelta(minutes=spans.pop())


@given(st.sampled_from(KEYS), SOURCES)
def test_the_board_gives_the_answer(key: str, random: Random) -> None:
    problem = TIMETABLE.problem(key, TIMETABLE.draw(key, random))
    found = answer_of(problem)
    if isinstance(found, timedelta):
        assert found == timedelta(minutes=int(span_term(problem.expected)))
    else:
        assert found == problem.expected


@given(st.sampled_from(KEYS), SOURCES)
def test_what_is_drawn_is_sound(key: str, random: Random) -> None:
    asked = TIMETABLE.draw(key, random)
    problem = TIMETABLE.problem(key, asked)
    if "ride" in key:
        assert_sound(problem, span_term)
    assert well_formed(key, asked)
    assert judge(problem, problem.expected) == "right"
    assert in_order(problem)
    assert blank_fits(problem)
    assert not gives_away(problem)
    assert for_a_child(problem)
    assert all(holds(line, span_term) is not False for line in problem.helps[-1].text.split("\n"))
    assert problem.expected not in problem.helps[-2].text.replace(problem.prompt, "") or "ride" in key


@given(st.sampled_from(KEYS), SOURCES)
def test_a_board_is_one_a_child_can_read(key: str, random: Random) -> None:
    """A row a stop, rising along rows and columns, no time twice in a row, all times of the day it says."""
    problem = TIMETABLE.problem(key, TIMETABLE.draw(key, random))
    rows = [list(map(minutes, times)) for times in on_the_board(problem).values()]
    assert len(rows) == int(key.split("/")[1][0])
    assert all(len(line) <= 40 for line in seen(problem))
    assert all(row == sorted(set(row)) and len(row) == 3 for row in rows)
    assert all(list(column) == sorted(set(column)) for column in zip(*rows, strict=True))
    first, last = (420, 779) if key.endswith("12") else (360, 1320)
    assert first <= rows[0][0]
    assert rows[-1][-1] <= last


def test_as_a_teacher_would_write_it() -> None:
    asked = "09:00+15+25/40@2:1>3"
    reach = TIMETABLE.problem("timetable:reach/3-5-12", asked)
    assert seen(reach) == (
        "Pier   9:00   9:40  10:20",
        "Cove   9:15   9:55  10:35",
        "Rock   9:40  10:20  11:00",
    )
    assert (reach.prompt, reach.expected) == ("When does the 9:40 ferry reach Rock?", "10:20")
    assert reach.helps[-1].text == "9:40 begins column 2.\nRock, column 2: 10:20"
    assert [judge(reach, text) for text in ("10:20", "10.20", "twenty past ten", "9:55")] == [
        "right", "right", "right", "other",
    ]  # fmt: skip
    ride = TIMETABLE.problem("timetable:ride/3-5-24", "09:00+15+25/40@1:1>3")
    assert (ride.prompt, ride.expected) == ("How long from Pier to Rock?", "40 min")
    assert {judge(ride, text) for text in ("40", "40 min", "0:40", "40 minutes")} == {"right"}
    latest = TIMETABLE.problem("timetable:latest/3-5-24", asked)
    assert (latest.prompt, latest.expected) == ("Be at Rock by 10:40. Leave Pier at", "09:40")


@pytest.mark.parametrize("key", KEYS)
def test_every_ferry_and_every_stop_comes(key: str) -> None:
    random = Random(key)
    drawn = [TIMETABLE.draw(key, random).partition("@")[2] for _ in range(400)]
    stops = int(key.split("/")[1][0])
    ferries = 1 if "ride" in key else 3
    asked = {
        f"{ferry}:{begin}>{end}"
        for ferry in range(1, ferries + 1)
        for end in range(2, stops + 1)
        for begin in (range(1, end) if "ride" in key else (1,))
    }
    assert set(drawn) == asked


def test_a_stranger_is_refused() -> None:
    askeds = [
        "09:00+15/40@2:1>3", "09:00+15+25+5/40@2:1>3", "09:01+15+25/40@2:1>3", "09:00+15+25/40@4:1>3",
        "09:00+15+25/40@2:2>3", "09:00+15+25/40@2:1>4", "21:50+15+25/40@2:1>3", "09:00+50+25/40@2:1>3",
        "05:55+15+25/40@2:1>3", "09:00+15+25/15@2:1>3", "9:00+15+25/40@2:1>3", "09:60+15+25/40@2:1>3",
    ]  # fmt: skip
    assert refuses(TIMETABLE, "timetable:reach/3-5-24", askeds) == []


def test_keys_and_titles() -> None:
    one = skill_of(TIMETABLE, ask="reach", stops=4, step="minute", clock="12")
    assert list(TIMETABLE.keys(one)) == ["timetable:reach/4-1-12"]
    assert TIMETABLE.traits("timetable:reach/4-1-12").title == (
        "when a ferry arrives, 4 stops, 12-hour, to the minute"
    )
