"""The time outside. The only room that asks the computer what time it is."""

import time
from datetime import UTC, datetime, tzinfo

from review.errors import Mendable


def now_ms() -> int:
    """Milliseconds since 1970, UTC."""
    return time.time_ns() // 1_000_000


def stamp(utc_ms: int) -> str:
    """The computer's local date and time, for the name of a file: 2026-11-25-0807."""
    return datetime.fromtimestamp(utc_ms / 1000, UTC).astimezone().strftime("%Y-%m-%d-%H%M")


def offset_min(zone: str, utc_ms: int) -> int:
    """Minutes that local time is ahead of UTC at that instant; `zone` "" is the computer's own."""
    try:
        instant = datetime.fromtimestamp(utc_ms / 1000, UTC)
        local = instant.astimezone(time_zone(zone) if zone else None)
    except (ValueError, OverflowError, OSError) as error:  # OSError: so Windows says it
        raise Mendable("This computer's clock is past the year 9999. Set it right.") from error
    offset = local.utcoffset()
    return int(offset.total_seconds() // 60) if offset is not None else 0


def time_zone(name: str) -> tzinfo:
    """The zone of an IANA name, or one sentence."""
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError  # 2 ms, and most families live in one zone

    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise unknown_zone(name) from None


def zone_spelled(name: str) -> str:
    """The name as every computer knows it. On Windows and macOS capitals make no difference, and a book that
    keeps europe/london could be used nowhere else."""
    from zoneinfo import available_timezones  # likewise

    known = {zone.casefold(): zone for zone in available_timezones()} if name else {"": ""}
    if name.casefold() not in known:
        raise unknown_zone(name)
    return known[name.casefold()]


def unknown_zone(name: str) -> Mendable:
    return Mendable(
        f"There is no time zone called “{name}”. Write one like Europe/London or America/New_York."
    )
