"""The cached memory as it was this morning: what is taken back today costs a fold of today, not of a life.

Beside each card of the cache that moved today stands what it was before, its name after a space, which no
key of a card has; beside the habits the same. Whatever the log says of today alone is then worked out from
there, to the same bits as from the beginning. A cache like memory itself: it can be thrown away, and is,
whenever the whole log is folded.
"""

import sqlite3
from collections.abc import Iterable, Mapping, Sequence

from review.book import rows
from review.core.model import CardMemory, Event, Habits, Remembered

MARK = " "
OF_CARDS = "card >= '!'"  # the first sign a key may have
OF_MORNINGS = "card >= ' ' AND card < '!'"
NOT_KNOWN = ""  # of a card that was met today

Before = Mapping[str, CardMemory | None]


def begin(db: sqlite3.Connection, number: int, ways: Habits) -> None:
    """A new day: the last one's morning is gone."""
    drop(db, number)
    put(db, number, [(rows.EVERY_CARD, rows.habits_body(ways))])


def drop(db: sqlite3.Connection, number: int) -> None:
    db.execute(f"DELETE FROM memory WHERE child = ? AND {OF_MORNINGS}", (number,))


def keep(db: sqlite3.Connection, number: int, before: Before) -> None:
    """What cards were before today moved them; the first word on each stands. Nothing without a morning."""
    if before and of_habits(db, number) is not None:
        put(db, number, [(card, rows.memory_body(m) if m else NOT_KNOWN) for card, m in before.items()])


def put(db: sqlite3.Connection, number: int, bodies: Iterable[tuple[str, str]]) -> None:
    db.executemany(
        "INSERT INTO memory (child, card, body) VALUES (?, ?, ?) ON CONFLICT (child, card) DO NOTHING",
        [(number, MARK + card, body) for card, body in bodies],
    )


def of_habits(db: sqlite3.Connection, number: int) -> Habits | None:
    look = "SELECT body FROM memory WHERE child = ? AND card = ?"
    found = db.execute(look, (number, MARK + rows.EVERY_CARD)).fetchone()
    return rows.habits_of(found[0]) if found else None


def found(db: sqlite3.Connection, number: int, ways: Habits) -> tuple[Remembered, list[str]]:
    """What was remembered this morning of the cards that moved today, and the names of all of these."""
    kept = db.execute(
        f"SELECT substr(card, 2), body FROM memory WHERE child = ? AND {OF_MORNINGS} AND card <> ?",
        (number, MARK + rows.EVERY_CARD),
    ).fetchall()
    known = rows.memory_of([(card, body) for card, body in kept if body != NOT_KNOWN])
    return Remembered(known, ways), [card for card, _ in kept]


def since(db: sqlite3.Connection, key: str, ways: Habits, naming: Sequence[str]) -> list[Event]:
    """All the log says from this morning on, and whatever names rows, wherever it sorts."""
    day = ways.at[0]
    earlier = (event for event in rows.events(db, key, naming) if event.day < day)
    return [*earlier, *rows.events(db, key, since_day=day)]
