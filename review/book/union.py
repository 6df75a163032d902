"""Two logs into one: the rows of another log that this book lacks, taken in by id.

A row's id is (device, sequence), and a chain belongs to one child and device, so a union of logs needs no
judgement: the same rows in any order, any number of times, end in the same log and the same memory. The same
id with another hash is reported and never chosen. A child that was forgotten on either side stays forgotten.
"""

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from typing import NamedTuple

from review.book import chain, recording, rows
from review.book.chain import Row
from review.book.recording import Remember


class Log(NamedTuple):
    """A whole log, as another book or a file holds it."""

    book: str  # hex of the book's id
    devices: tuple[tuple[int, int], ...]  # (device, its next number), in order
    children: tuple[tuple[str, bool], ...]  # (key, forgotten), in the order they were added
    rows: tuple[Row, ...]  # in the order of (device, seq)


class Taken(NamedTuple):
    """What came of taking a log in."""

    rows: int = 0  # that were new here
    children: tuple[str, ...] = ()  # keys of children that were unknown here
    forgotten: tuple[str, ...] = ()  # keys of children that were forgotten here because the other forgot them


class Conflict(ValueError):
    """The log cannot be taken in: two rows of one id differ, or a chain does not go on from ours."""


def whole(db: sqlite3.Connection) -> Log:
    """The log of a book, as it stands: whether its chains are sound is another question."""
    (book,) = db.execute("SELECT id FROM book").fetchone()
    children = db.execute("SELECT key, forgotten FROM child ORDER BY id")
    devices = db.execute("SELECT id, next FROM device ORDER BY id")
    return Log(
        book.hex(),
        tuple((device, following) for device, following in devices),
        tuple((key.hex(), bool(forgotten)) for key, forgotten in children),
        tuple(rows.log_rows(db)),
    )


def readable(db: sqlite3.Connection) -> Iterator[Row]:
    """What can be read of a damaged log, from its beginning and from its end; a row may come twice."""
    for falling in (False, True):
        with suppress(sqlite3.Error, ValueError, TypeError):  # a UnicodeDecodeError is a ValueError
            yield from rows.log_rows(db, falling)


def holds(db: sqlite3.Connection, row: Row) -> bool:
    found = db.execute("SELECT hash FROM log WHERE device = ? AND seq = ?", row[:2]).fetchone()
    return found is not None and found[0] == row.hash


def is_here(db: sqlite3.Connection, log: Log) -> bool:
    """Whether a log was taken in: all its children and devices are known, and every row that is not of a
    forgotten child. It only looks, since no transaction is open when that is asked."""
    known, numbers = _known(db), dict(db.execute("SELECT id, next FROM device"))
    forgotten = {key for key, (_, is_forgotten) in known.items() if is_forgotten}
    return (
        all(key in known and (key in forgotten or not gone) for key, gone in log.children)
        and all(numbers.get(device, 0) >= following for device, following in log.devices)
        and all(row.child in forgotten or holds(db, row) for row in log.rows)
    )


def grafts(db: sqlite3.Connection, found: Iterable[Row]) -> list[Row]:
    """Of rows that were read from a damaged book, those that go on from what this one holds: the hash of each
    covers that of the one before it, so that nothing is believed that the chain does not prove."""
    keys = {number: key for key, (number, _) in _known(db).items()}
    ends = db.execute("SELECT child, device, seq, hash FROM tail").fetchall()
    tips = {(keys[child], device): (seq, hash) for child, device, seq, hash in ends}
    proved = []
    for row in sorted(filter(_has_id, found), key=lambda row: row[:2]):
        seq, hash = tips.get((row.child, row.device), (0, chain.FIRST))
        following = row._replace(previous=hash)
        if row.seq > seq and chain.holds(following):
            tips[row.child, row.device] = (row.seq, row.hash)
            proved.append(following)
    return proved


def _has_id(row: Row) -> bool:
    """Damage may have turned a number into something else."""
    return isinstance(row.device, int) and isinstance(row.seq, int)


def problem(log: Log) -> str:
    """What is wrong with the chains of a log that ought to be sound; "": nothing."""
    found = next(chain.breaks(log.rows), None)
    return f"entry {found[0].device}-{found[0].seq} {found[1]}" if found else ""


def take_in(db: sqlite3.Connection, log: Log, remember: Remember) -> Taken:
    """Add what is new, and bring memory to it. A transaction is open. Conflict: nothing may be kept of it."""
    added, gone = _add_children(db, log.children)
    forgotten = {key for key, (_, is_forgotten) in _known(db).items() if is_forgotten}
    wanted = [row for row in log.rows if row.child not in forgotten]
    fresh = list(_unknown(db, wanted))
    _check_chains(db, fresh)
    _add_devices(db, log.devices)
    numbers = {key: number for key, (number, _) in _known(db).items()}
    db.executemany(recording.INSERT, (recording.values(row, numbers[row.child]) for row in fresh))
    for key in dict.fromkeys(row.child for row in fresh):
        _refresh(db, numbers[key], key, remember)
    return Taken(len(fresh), added, gone)


def _known(db: sqlite3.Connection) -> dict[str, tuple[int, bool]]:
    """By the key of a child: (its number in this file, whether it was forgotten)."""
    found = db.execute("SELECT id, key, forgotten FROM child ORDER BY id")
    return {key.hex(): (number, bool(forgotten)) for number, key, forgotten in found}


def _add_children(
    db: sqlite3.Connection, children: Iterable[tuple[str, bool]]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """(those that were unknown here, those forgotten here because the other forgot them). A forgotten child
    that is unknown here is noted, to stay so."""
    known = _known(db)
    new = [(key, gone) for key, gone in children if key not in known]
    lost = [key for key, gone in children if gone and key in known and not known[key][1]]
    db.executemany(
        "INSERT INTO child (key, forgotten) VALUES (?, ?)", [(bytes.fromhex(key), gone) for key, gone in new]
    )
    for key in lost:
        recording.forget(db, known[key][0])
    return tuple(key for key, gone in new if not gone), tuple(lost)


def _add_devices(db: sqlite3.Connection, devices: Iterable[tuple[int, int]]) -> None:
    """A device's next number never falls, on either side: a number once used is used up."""
    for device, following in devices:
        known = db.execute("SELECT next FROM device WHERE id = ?", (device,)).fetchone()
        if known is None:
            db.execute("INSERT INTO device (id, next) VALUES (?, ?)", (device, following))
        elif known[0] < following:
            db.execute("UPDATE device SET next = ? WHERE id = ?", (following, device))


def _unknown(db: sqlite3.Connection, incoming: Iterable[Row]) -> Iterator[Row]:
    look = "SELECT hash FROM log WHERE device = ? AND seq = ?"
    for row in incoming:
        found = db.execute(look, row[:2]).fetchone()
        if found is None:
            yield row
        elif found[0] != row.hash:
            raise Conflict(f"entry {row.device}-{row.seq} is another one here")


def _check_chains(db: sqlite3.Connection, fresh: Sequence[Row]) -> None:
    """New rows go on from where each chain ends here."""
    keys = {number: key for key, (number, _) in _known(db).items()}
    ends = db.execute("SELECT child, device, hash FROM tail").fetchall()
    tips = {(keys[child], device): hash for child, device, hash in ends}
    for row in fresh:
        if row.previous != tips.get((row.child, row.device), chain.FIRST):
            raise Conflict(f"entry {row.device}-{row.seq} does not go on from the last one here")
        tips[row.child, row.device] = row.hash


def _refresh(db: sqlite3.Connection, number: int, key: str, remember: Remember) -> None:
    """The ends of the child's chains and its memory, after rows came in."""
    floors = recording.floors_of(db, number)
    for device, seq, hash in recording.ends_of(db, number):
        recording.put_tip(db, number, device, recording.Tip(seq, floors[device], hash))
    recording.rebuild(db, number, key, remember)
