"""What one would write of spans of time under each rule of error.

An hour of a hundred minutes, and an hour that is not moved: from memory (Earnest). The smaller minutes taken
from the larger, as in columns: common practice, no source.
"""

from collections.abc import Iterator

HOUR = 60

Believed = tuple[str, int, int]  # rule, hour or hours, minutes


def later(start: int, span: int) -> Iterator[Believed]:
    """The hour is not yet turned round the face."""
    (hour, minute), (hours, minutes) = divmod(start, HOUR), divmod(span, HOUR)
    together, whole = minute + minutes, hour + hours
    carry = together >= HOUR
    if carry:
        yield "base_100", whole + together // 100, together % 100
        yield "hour_kept", whole, together % HOUR
        yield "left_over_100", whole + 1, abs(together - 100)
    if hours and minutes:
        yield "hour_part_lost", hour + carry, together % HOUR
        yield "minutes_lost", whole, minute


def earlier(end: int, span: int) -> Iterator[Believed]:
    (hour, minute), (hours, minutes) = divmod(end, HOUR), divmod(span, HOUR)
    yield from between(span, end)
    if hours and minutes:
        yield "hour_part_lost", hour - (minute < minutes), (minute - minutes) % HOUR
        yield "minutes_lost", hour - hours, minute


def between(start: int, end: int) -> Iterator[Believed]:
    """Hours and minutes taken from hours and minutes, where there are too few minutes."""
    (hour, minute), (last, ending) = divmod(start, HOUR), divmod(end, HOUR)
    if ending < minute:
        yield "base_100", last - hour - 1, ending + 100 - minute
        yield "hour_kept", last - hour, (ending - minute) % HOUR
        yield "smaller_from_larger", last - hour, minute - ending
