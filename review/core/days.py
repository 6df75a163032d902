"""Instants to practice days. A practice day is the child's local date, turning at 03:00, as a date
ordinal."""

from collections.abc import Container, Iterable
from datetime import date

TURN_MIN = 3 * 60
"""The day turns at 03:00 local time, so that a late evening belongs to its day (our judgement)."""

_DAY_MS = 24 * 60 * 60 * 1000
_EPOCH = date(1970, 1, 1).toordinal()
LAST_DAY = date.max.toordinal()  # 31 December 9999, the last the calendar of the computer has

FOUR_WEEKS, KNOWN_FROM = 28, 8
LONGEST_OFF = 120  # days that are looked ahead: longer than any holiday

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def practice_day(utc_ms: int, offset_min: int) -> int:
    """The practice day of an instant: UTC milliseconds since 1970 and local time minus UTC in minutes."""
    return _EPOCH + (utc_ms + (offset_min - TURN_MIN) * 60_000) // _DAY_MS


def days_off(practised: Iterable[int], day: int, away: Iterable[tuple[int, int]] = ()) -> int:
    """How many days after `day` come before this family's next practice day, going by weekdays and by the
    days off that were named (`away`: first and last of each span).

    A weekday without practice in the last four weeks is one off, once there were eight practice days in them
    (our judgement). 0 where that cannot be told.
    """
    lately = {one for one in practised if day - FOUR_WEEKS <= one < day}
    known = len(lately) >= KNOWN_FROM
    weekdays = {one % 7 for one in (*lately, day)} if known else {*range(7)}
    named = {one for first, last in away for one in range(max(first, day), min(last, day + LONGEST_OFF) + 1)}
    return next((n for n in range(LONGEST_OFF) if is_on(day + 1 + n, weekdays, named)), 0)


def is_on(day: int, weekdays: Container[int], named: Container[int]) -> bool:
    return day % 7 in weekdays and day not in named


def sunday(day: int) -> int:
    """The Sunday that ends the week of a day; on a Sunday, of the week that comes."""
    return day + (-day % 7 or 7)


def day_of(when: date) -> int:
    return when.toordinal()


def date_of(day: int) -> date:
    return date.fromordinal(day)


def monday(day: int) -> int:
    """The Monday of that day's week: weeks go by ISO 8601, and 1 January of the year 1 was a Monday."""
    return day - (day - 1) % 7


def words(day: int) -> str:
    """A day as a parent reads it, the same in every locale: "25 November 2026"."""
    when = date_of(day)
    return f"{when.day} {MONTHS[when.month - 1]} {when.year}"


def full_words(day: int) -> str:
    """With its weekday: "Wednesday 25 November 2026"."""
    return f"{WEEKDAYS[date_of(day).weekday()]} {words(day)}"


def short(day: int) -> str:
    """The same under a chart: "25 Nov"."""
    when = date_of(day)
    return f"{when.day} {MONTHS[when.month - 1][:3]}"
