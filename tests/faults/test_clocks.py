"""Clocks that jump: practice days never go back, nothing vanishes, the log keeps the order of writing.

The whole of it: WALKS=100000 python -m pytest tests/faults/test_clocks.py
"""

import os
import random
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

import pytest

from review import clock, gather
from review.book.store import Book
from review.core.model import Child, Draft
from review.errors import Mendable
from review.gather import Outside
from tests.book.conftest import Place
from tests.book.tiny import TINY, answer

WALKS = int(os.environ.get("WALKS", "1000"))
STORED = max(20, WALKS // 50)  # walks whose answers go through a book
STEPS = 12
HOUR_MS = 3_600_000
ZONES = (
    "",
    "Europe/London",
    "America/New_York",
    "Pacific/Apia",
    "Asia/Kathmandu",
    "Australia/Lord_Howe",
    "UTC",
)
MOMENTS = (
    "1970-01-01T00:00", "2038-01-19T03:14", "9999-12-30T23:59", "2011-12-30T09:59", "2011-12-31T10:01",
    "2026-03-29T00:59", "2026-03-29T02:59", "2026-10-25T00:59", "2026-10-25T01:59", "2026-11-01T05:59",
    "2026-11-25T23:59", "2026-11-26T02:59", "2026-11-26T03:00", "2026-11-26T03:59",
)  # fmt: skip
"""Ends of what computers count, clock changes, and the missing day of Apia (IANA time zone database)."""


def moments(chance: random.Random) -> list[int]:
    """A walk of the computer's clock, in milliseconds since 1970."""
    now = int(datetime(2026, 11, 25, 8, tzinfo=UTC).timestamp() * 1000)
    found = []
    for _ in range(STEPS):
        if chance.random() < 0.3:
            told = datetime.fromisoformat(chance.choice(MOMENTS)).replace(tzinfo=UTC)
            now = int(told.timestamp() * 1000)
        else:
            now = max(0, now + round(chance.choice([0.01, 1, 30, -1, -40, 24 * 400]) * HOUR_MS))
        found.append(now)
    return found


def written(child: Child, now_ms: int, zone: str) -> tuple[int, int]:
    """(practice day, offset) of what is written then, with a person who trusts the clock."""
    travelling = child._replace(zone=zone)
    outside = Outside(Path("b"), Path("s"), now_ms, trusted=True)
    return gather.writing_day(outside, travelling), clock.offset_min(zone, now_ms)


def drafts(chance: random.Random, key: str) -> list[Draft]:
    """What a child's walk writes; nothing on a day that no book can hold."""
    child, found = Child(key, "Mira", 8, 739_000), []
    for number, now in enumerate(moments(chance)):
        with suppress(Mendable):
            day, offset = written(child, now, chance.choice(ZONES))
            child = child._replace(last_day=day)
            made = answer(key, f"product:{number}x7")
            found.append(made._replace(day=day, raw_ms=now, offset_min=offset))
    return found


def test_practice_days_never_go_back() -> None:
    written_days = 0
    for seed in range(WALKS):
        days = [draft.day for draft in drafts(random.Random(seed), "00")]
        written_days += len(days)
        assert days == sorted(days)
    assert written_days > WALKS * STEPS / 2, "most of a walk was refused"


@pytest.mark.parametrize("part", range(4))
def test_the_log_keeps_the_order_of_writing_and_every_card(book: Book, place: Place, part: int) -> None:
    for seed in range(part, STORED, 4):
        made = drafts(random.Random(seed), place.child)
        before = len(book.answers(place.child))
        known = book.last_days().get(place.child, 0)
        rows = [
            row for draft in made for row in book.record([draft._replace(day=max(draft.day, known))], TINY)
        ]
        after = book.answers(place.child)[before:]
        assert [row.seq for row in after] == [row.seq for row in rows]
        assert {row.card for row in after} == {draft.card for draft in made}
        assert set(book.remembered(place.child).cards) >= {draft.card for draft in made}
    assert book.verify(TINY) == []


def test_without_the_clamp_the_order_would_break() -> None:
    """The control: the raw clock does go back in these walks."""
    walks = [[draft.raw_ms for draft in drafts(random.Random(seed), "00")] for seed in range(20)]
    assert any(walk != sorted(walk) for walk in walks)
