"""The cached memory as it was when a season of thirteen weeks began: what is told week by week of the last
months costs a fold of those months, not of a life.

Beside the cards of the cache stands what they were then, each name after a mark and the season's number. This
season and the one before it are kept, so that twelve weeks back always lie in one of them. A cache like
memory itself: it can be thrown away, and is, whenever the whole log is folded; then it is made anew on the
way.
"""

import sqlite3
from collections.abc import Sequence

from review.book import rows
from review.core.model import Remembered

SEASON = 91  # days: a little more than a page tells of
KEPT = 2
MARK = "\t"
OF_SEASONS = "card >= '\t' AND card < '\n'"


def of(day: int) -> int:
    """Which season a day belongs to."""
    return day // SEASON


def name(season: int) -> str:
    """What stands before the names of its cards; as long for every day of the log as to sort by it."""
    return f"{MARK}{season:05} "


def known(db: sqlite3.Connection, number: int) -> list[int]:
    """The seasons that are kept of a child, oldest first."""
    look = f"SELECT DISTINCT substr(card, 2, 5) FROM memory WHERE child = ? AND {OF_SEASONS} ORDER BY 1"
    return [int(season) for (season,) in db.execute(look, (number,))]


def has_begun_after(db: sqlite3.Connection, number: int, day: int) -> bool:
    """Whether something of that day would change what was remembered as a season began."""
    look = f"SELECT max(card) FROM memory WHERE child = ? AND {OF_SEASONS}"
    (last,) = db.execute(look, (number,)).fetchone()
    return last is not None and of(day) < int(last[1:6])


def put(db: sqlite3.Connection, number: int, season: int, memory: Remembered) -> None:
    """Keep what was remembered when it began; of the older ones the last stays. Begun once more, after its
    first answers were taken back, it began with the same."""
    kept = known(db, number)
    if season in kept:
        return
    for old in kept[: 1 - KEPT or None]:
        db.execute(
            "DELETE FROM memory WHERE child = ? AND card >= ? AND card < ?",
            (number, name(old), name(old + 1)),
        )
    db.executemany(
        "INSERT INTO memory (child, card, body) VALUES (?, ?, ?)",
        [(number, name(season) + card, body) for card, body in rows.bodies(memory).items()],
    )


def found(db: sqlite3.Connection, number: int, season: int) -> Remembered | None:
    """What was remembered when that season began; None where that is not kept, or damage spoilt it."""
    look = "SELECT substr(card, 8), body FROM memory WHERE child = ? AND card >= ? AND card < ?"
    kept = dict(db.execute(look, (number, name(season), name(season + 1))))
    if rows.EVERY_CARD not in kept:
        return None
    try:
        ways = rows.habits_of(kept.pop(rows.EVERY_CARD))
        return Remembered(rows.memory_of([*kept.items()]), ways)
    except rows.Spoilt:
        return None


def before(db: sqlite3.Connection, number: int, day: int) -> Remembered | None:
    """The latest that is kept of what was remembered before a day."""
    every = (found(db, number, season) for season in reversed(known(db, number)))
    return next((one for one in every if one is not None and one.habits.at[0] < day), None)


# --- with the whole log folded --------------------------------------------------------------------------


def begun(db: sqlite3.Connection, number: int, moving: Sequence[str]) -> list[int]:
    """The seasons to be kept of a log: those begun last, as far as something was remembered before them."""
    look = (
        "SELECT day FROM log INDEXED BY log_order WHERE child = ? AND day < ?"
        f" AND kind IN ({rows.marks(moving)}) ORDER BY day DESC LIMIT 1"
    )
    seasons: list[int] = []
    end = rows.LAST_DAY + 1
    while len(seasons) <= KEPT and (last := db.execute(look, (number, end, *moving)).fetchone()):
        seasons.insert(0, of(last[0]))
        end = seasons[0] * SEASON
    return seasons[1:]
