"""What was worked out when a child's sitting ended, so that the next start, or a report, need not do it.

Beside the cards of the cache stand texts, each under a name after a mark; what they say only those know who
made them. An answer more, or whatever speaks of answers, drops them in its own transaction, and what was
worked out from a log that has grown since is not kept. A cache like memory itself: it can be thrown away.
"""

import sqlite3
from collections.abc import Mapping

MARK = "\n"
OF_EVENINGS = "card >= '\n' AND card < '\v'"
READ = ("answer", "undo", "correct")  # kinds of events that what is kept here is worked out from

Ends = Mapping[int, int]
"""By device, the number of the last row of a child."""


def ends(db: sqlite3.Connection, number: int) -> Ends:
    return dict(db.execute("SELECT device, seq FROM tail WHERE child = ?", (number,)))


def put(db: sqlite3.Connection, number: int, worked_out_at: Ends, texts: Mapping[str, str]) -> bool:
    """Keep texts by their names, in place of any others, where the log ends as it did when they were worked
    out. Whether it did."""
    drop(db, number)
    if ends(db, number) != worked_out_at:
        return False
    db.executemany(
        "INSERT INTO memory (child, card, body) VALUES (?, ?, ?)",
        [(number, MARK + name, text) for name, text in texts.items()],
    )
    return True


def found(db: sqlite3.Connection, number: int, name: str) -> str:
    """The text that is kept of a child under that name; "": none is."""
    look = "SELECT body FROM memory WHERE child = ? AND card = ?"
    kept = db.execute(look, (number, MARK + name)).fetchone()
    return kept[0] if kept else ""


def drop(db: sqlite3.Connection, number: int) -> None:
    db.execute(f"DELETE FROM memory WHERE child = ? AND {OF_EVENINGS}", (number,))
