"""Instants to practice days. A practice day is the child's local date, turning at 03:00, as a date
ordinal."""

from collections.abc import Iterable
from datetime import date

TURN_MIN = 3 * 60
"""The day turns at 03:00 local time, so that a late evening belongs to its day (our judgement)."""

_DAY_MS = 24 * 60 * 60 * 1000
_EPOCH = date(1970, 1, 1).toordinal()

FOUR_WEEKS, KNOWN_FROM = 28, 8

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def practice_day(utc_ms: int, offset_min: int) -> int:
    """The practice day of an instant: UTC milliseconds since 1970 and local time minus UTC in minutes."""
    return _EPOCH + (utc_ms + (offset_min - TURN_MIN) * 60_000) // _DAY_MS


def days_off(practised: Iterable[int], day: int) -> int:
    """How many days after `day` come before this family's next practice day, going by weekdays.

    A weekday without practice in the last four weeks is one off, once there were eight practice days in them
    (our judgement). 0 where that cannot be told.
    """
    lately = {one for one in practised if day - FOUR_WEEKS <= one < day}
    if len(lately) < KNOWN_FROM:
        return 0
    weekdays = {one % 7 for one in (*lately, day)}
    return next((n for n in range(6) if (day + 1 + n) % 7 in weekdays), 0)


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
