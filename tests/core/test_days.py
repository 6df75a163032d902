from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import days
from tests.tables import rows


def practised(local: datetime) -> int:
    offset = local.utcoffset()
    assert offset is not None
    return days.practice_day(int(local.timestamp() * 1000), int(offset.total_seconds() // 60))


# Clock changes of the IANA time zone database; the table was made apart from this program.
@pytest.mark.parametrize("line", rows("days.csv"), ids=str)
def test_days_across_clock_changes(line: dict[str, str]) -> None:
    zone = ZoneInfo(line["zone"])
    start, end = (
        datetime.fromisoformat(line[key]).replace(tzinfo=zone) for key in ("from_local", "to_local")
    )
    late = (end.hour < 3) - (start.hour < 3)  # an hour before 03:00 belongs to the evening before
    assert practised(end) - practised(start) == int(line["calendar_days"]) - late


@pytest.mark.parametrize("offset", [-720, -210, 0, 60, 345, 840])
def test_the_day_turns_at_three(offset: int) -> None:
    midnight = (date(2026, 11, 25).toordinal() - date(1970, 1, 1).toordinal()) * 1440 - offset
    at = [days.practice_day((midnight + minute) * 60_000, offset) for minute in (2 * 60 + 59, 3 * 60)]
    assert at == [date(2026, 11, 24).toordinal(), date(2026, 11, 25).toordinal()]


@given(st.integers(-10_000_000_000_000, 10_000_000_000_000), st.integers(-720, 840))
def test_a_day_lasts_a_day(utc_ms: int, offset: int) -> None:
    day = days.practice_day(utc_ms, offset)
    assert days.practice_day(utc_ms + 86_400_000, offset) == day + 1
    assert day <= days.practice_day(utc_ms + 1, offset) <= day + 1


@given(st.dates())
def test_words_say_the_date(when: date) -> None:
    assert days.date_of(days.day_of(when)) == when
    read = days.words(days.day_of(when)).split()
    assert (int(read[0]), int(read[2])) == (when.day, when.year)
    assert days.MONTHS.index(read[1]) + 1 == when.month


def test_words_as_a_parent_reads_them() -> None:
    assert days.words(days.day_of(date(2026, 11, 25))) == "25 November 2026"


# Our judgement: a weekday without practice in four weeks is one off, once there were eight practice days.
def test_days_off_go_by_weekdays() -> None:
    monday = date(2026, 11, 23).toordinal()
    weeks = [monday - 7 * n + weekday for n in range(1, 5) for weekday in range(4)]  # Monday to Thursday
    assert [days.days_off(weeks, monday + n) for n in range(4)] == [0, 0, 0, 3]
    assert days.days_off(weeks, monday + 4) == 2  # a Friday for once
    assert days.days_off(weeks[:7], monday + 3) == 0  # too few to tell
    assert days.days_off(weeks, monday + 60) == 0  # long ago


@given(st.sets(st.integers(738_000, 738_060), max_size=40), st.integers(738_000, 738_060))
def test_days_off_end_at_a_weekday_that_was_practised(practised: set[int], day: int) -> None:
    off = days.days_off(practised, day)
    lately = [one for one in practised if day - 28 <= one < day]
    assert 0 <= off <= 5
    if len(lately) >= 8:
        weekdays = {one % 7 for one in (*lately, day)}
        assert (day + off + 1) % 7 in weekdays or off == 0
        assert all((day + n) % 7 not in weekdays for n in range(1, off + 1))


def test_days_off_that_were_named_are_looked_ahead() -> None:
    """By hand: a family that practises every day, away from Saturday 28 November 2026 to the
    Sunday after next, 6 December."""
    friday = date(2026, 11, 27).toordinal()
    away = [(friday + 1, friday + 9)]
    assert [days.days_off([], friday + n, away) for n in (-1, 0, 1, 9)] == [0, 9, 8, 0]
    weeks = [friday - n for n in range(1, 28) if (friday - n) % 7 in (1, 2, 3, 4)]  # Monday to Thursday
    assert days.days_off(weeks, friday - 1, away) == 3 + 0 + 7  # Friday; the days away; then a Monday
    assert days.days_off(weeks, friday - 1, [(friday + 3, friday + 3)]) == 4  # that Monday is off too


@given(
    st.sets(st.integers(738_000, 738_060), max_size=40),
    st.integers(738_000, 738_060),
    st.lists(st.tuples(st.integers(738_000, 738_080), st.integers(0, 20)), max_size=3),
)
def test_the_next_practice_day_is_no_day_off(
    practised: set[int], day: int, spans: list[tuple[int, int]]
) -> None:
    away = [(first, first + length) for first, length in spans]
    off = days.days_off(practised, day, away)
    assert not any(first <= day + off + 1 <= last for first, last in away)
    assert off >= days.days_off(practised, day)


def test_a_week_ends_on_its_sunday_and_on_a_sunday_the_next_one_begins() -> None:
    monday = date(2026, 11, 23).toordinal()
    found = [days.date_of(days.sunday(monday + n)) for n in range(7)]
    assert found == [date(2026, 11, 29)] * 6 + [date(2026, 12, 6)]
    assert all(one.isoweekday() == 7 for one in found)


def test_a_week_begins_on_its_monday() -> None:
    monday = date(2026, 11, 23).toordinal()
    assert [days.monday(monday + n) for n in range(-1, 8)] == [monday - 7, *[monday] * 7, monday + 7]


def test_a_day_under_a_chart_is_its_month_in_three_letters() -> None:
    assert [days.short(date(2026, month, 5).toordinal()) for month in (1, 9, 12)] == [
        "5 Jan",
        "5 Sep",
        "5 Dec",
    ]
