"""What happens inside one write transaction: drafts become log rows, and memory follows.

Nothing here begins or ends a transaction; everything here trusts that the write lock is held. Memory computed
before it was held would be stale: of 600 answers by two writers, 462 were kept so, and all of them inside it
(measured here).
"""

import sqlite3
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from review.book import chain, evenings, mornings, rows, seasons
from review.book.chain import Row
from review.core.amendments import place
from review.core.model import CardMemory, Draft, Event, Habits, Remembered


class Remember(NamedTuple):
    """How answers become memory; the book calls it, and knows nothing else of it. All of it is pure."""

    version: str  # of everything that decides the outcome: rule, library, parameters
    step: Callable[[Habits, CardMemory | None, Event], tuple[Habits, CardMemory]]
    """One answer more, in the order of the log, with the child's habits before and after it."""
    fold: Callable[[Iterable[Event], Iterable[Event]], Remembered]
    """What names other rows, and all events of a child in the order of the log, each looked at once."""
    on: Callable[[Remembered, Iterable[Event]], Remembered]
    """From what was remembered at a place in the log; events before it only name later ones."""


class Tip(NamedTuple):
    """The end of a chain while it grows."""

    seq: int
    at_ms: int
    hash: bytes


NAMING = ("undo", "correct", "fit")  # kinds that may change the memory of earlier answers
MOVING = ("answer", "known")  # kinds that move memory themselves
FORGETFUL = ("profile", "sitting", "taught", "set_add", "set_drop", "away")  # kinds no memory stands on

INSERT = f"INSERT INTO log ({rows.COLUMNS}, hash) VALUES ({', '.join('?' * 11)})"


def record(
    db: sqlite3.Connection, device: int, drafts: Sequence[Draft], bodies: Sequence[str], remember: Remember
) -> list[tuple[Event, bytes]]:
    """Write the drafts, in their order, and what they do to memory: the events, each with its row's hash."""
    numbers = {key: rows.child_number(db, key) for key in dict.fromkeys(draft.child for draft in drafts)}
    keys = {number: key for key, number in numbers.items()}
    written = append(db, device, drafts, bodies, numbers)
    stored = [(row.device, row.seq, numbers[row.child], *row[3:10]) for row in written]
    events = list(rows.told(keys, stored))
    for key, number in numbers.items():
        mine = [event for event in events if event.child == key]
        if any(event.kind in evenings.READ for event in mine):
            evenings.drop(db, number)
        follow(db, number, key, mine, remember)
    return [(event, row.hash) for event, row in zip(events, written, strict=True)]


# --- the log --------------------------------------------------------------------------------------------


def append(
    db: sqlite3.Connection,
    device: int,
    drafts: Sequence[Draft],
    bodies: Sequence[str],
    numbers: Mapping[str, int],
) -> list[Row]:
    """Give each draft its number, its instant and its hash, and write it."""
    seq = next_seq(db, device)
    tips = {key: tip(db, number, device) for key, number in numbers.items()}
    written = []
    for draft, body in zip(drafts, bodies, strict=True):
        before, number, undo = tips[draft.child], numbers[draft.child], draft.kind == "undo"
        row = sealed(draft, body, device, seq, before, latest(db, number, device) if undo else before.at_ms)
        db.execute(INSERT, values(row, number))
        tips[draft.child] = Tip(seq, release(db, number, device) if undo else row.at_ms, row.hash)
        written.append(row)
        seq += 1
    for key, number in numbers.items():
        put_tip(db, number, device, tips[key])
    return written


def values(row: Row, number: int) -> tuple[object, ...]:
    """What `INSERT` takes of a row, of the child with that number in this file."""
    return (row.device, row.seq, number, *row[3:10], row.hash)


def sealed(draft: Draft, body: str, device: int, seq: int, before: Tip, floor: int) -> Row:
    if not (draft.card.isascii() and draft.card.isprintable() and " " not in draft.card):
        raise ValueError(f"not the key of a card: {draft.card!r}")
    when = (draft.day, draft.raw_ms, max(draft.raw_ms, floor), draft.offset_min)
    return chain.sealed(Row(device, seq, draft.child, draft.kind, *when, draft.card, body, before.hash, b""))


def next_seq(db: sqlite3.Connection, device: int) -> int:
    found = db.execute("SELECT next FROM device WHERE id = ?", (device,)).fetchone()
    if found is None:
        db.execute("INSERT INTO device (id, next) VALUES (?, 1)", (device,))
    return int(found[0]) if found else 1


def tip(db: sqlite3.Connection, child: int, device: int) -> Tip:
    found = db.execute(
        "SELECT seq, at_ms, hash FROM tail WHERE child = ? AND device = ?", (child, device)
    ).fetchone()
    return Tip(*found) if found else Tip(0, 0, chain.FIRST)


def put_tip(db: sqlite3.Connection, child: int, device: int, tip: Tip) -> None:
    db.execute(
        "INSERT INTO tail (child, device, seq, at_ms, hash) VALUES (?, ?, ?, ?, ?)"
        " ON CONFLICT (child, device) DO UPDATE"
        " SET seq = excluded.seq, at_ms = excluded.at_ms, hash = excluded.hash",
        (child, device, *tip),
    )


def latest(db: sqlite3.Connection, child: int, device: int) -> int:
    """The latest instant of any row: an undo sorts after what it may undo, also another undo."""
    latest_of = "SELECT max(at_ms) FROM log INDEXED BY log_order WHERE child = ? AND device = ?"
    return db.execute(latest_of, (child, device)).fetchone()[0] or 0


def release(db: sqlite3.Connection, child: int, device: int) -> int:
    """After an undo, what the next row may not be before: a clock once years ahead must not hold it."""
    floors = floors_of(db, child)
    db.executemany(
        "UPDATE tail SET at_ms = ? WHERE child = ? AND device = ?",
        [(at_ms, child, other) for other, at_ms in floors.items()],
    )
    return floors.get(device, 0)


def floors_of(db: sqlite3.Connection, child: int) -> dict[int, int]:
    """By device, the latest instant among the child's rows that were not undone; 0 where all were.

    An undo itself holds nothing back: it says the same wherever it sorts, and is held by what it undoes.
    """
    undos = rows.events(db, rows.children(db)[child], ("undo",))
    out = rows.undone(db, child).union((undo.device, undo.seq) for undo in undos)
    floors: dict[int, int] = {}
    for device, seq, at_ms in db.execute(
        "SELECT device, seq, at_ms FROM log INDEXED BY log_order WHERE child = ?", (child,)
    ):
        floors[device] = max(floors.get(device, 0), 0 if (device, seq) in out else at_ms)
    return floors


def ends_of(db: sqlite3.Connection, child: int) -> list[tuple[int, int, bytes]]:
    """The last row of each device of a child, as (device, seq, hash), looked for from the end."""
    last = "SELECT device, seq, hash FROM log WHERE device = ? AND child = ? ORDER BY seq DESC LIMIT 1"
    devices = db.execute("SELECT id FROM device ORDER BY id").fetchall()
    found = (db.execute(last, (device, child)).fetchone() for (device,) in devices)
    return [end for end in found if end]


# --- memory follows -------------------------------------------------------------------------------------


def follow(
    db: sqlite3.Connection, number: int, key: str, events: Sequence[Event], remember: Remember
) -> None:
    """Bring the child's cached memory to where the log now is: a step an answer, or where an event speaks of
    earlier ones, or sorts before them, a fold from this morning, or of the whole log; of the whole log too
    where damage spoilt what is cached. One answer moves the habits by which all later ones were weighed, so
    that no card can be folded alone."""
    try:
        is_followed = moved_on(db, number, key, events, remember)
    except rows.Spoilt:
        is_followed = False
    if not is_followed:
        rebuild(db, number, key, remember)


def moved_on(
    db: sqlite3.Connection, number: int, key: str, events: Sequence[Event], remember: Remember
) -> bool:
    """Whether the cache could be brought on from where it is."""
    ways, known = habits(db, number), rows.memory_version(db, number) == remember.version
    moving = [one for event in events for one in rows.by_card(event)]
    early = any(later < earlier for earlier, later in pairwise([ways.at, *map(place, moving)]))
    known = known and not any(seasons.has_begun_after(db, number, one.day) for one in moving)
    if known and not early and not any(e.kind in NAMING and names_memory(db, number, e) for e in events):
        step_on(db, number, ways, moving, remember)
        return True
    return known and fold_today(db, number, key, events, remember)


def step_on(
    db: sqlite3.Connection, number: int, ways: Habits, moving: Sequence[Event], remember: Remember
) -> None:
    changed: dict[str, CardMemory] = {}
    before: dict[str, CardMemory | None] = {}
    for one in moving:
        known = changed.get(one.card) or cached(db, number, one.card)
        if one.day > ways.at[0]:
            begin_season(db, number, Remembered(changed, ways), one.day)
            mornings.begin(db, number, ways)
            before = {}
        before.setdefault(one.card, known)
        ways, changed[one.card] = remember.step(ways, known, one)
    mornings.keep(db, number, before)
    if changed:
        put_memory(db, number, Remembered(changed, ways))


def begin_season(db: sqlite3.Connection, number: int, so_far: Remembered, day: int) -> None:
    """Keeps what is remembered now, where that day begins a season; `so_far`: what is not written yet."""
    last = so_far.habits.at[0]
    if last and seasons.of(last) < seasons.of(day):
        put_memory(db, number, so_far)
        seasons.put(db, number, seasons.of(day), remembered(db, number))


def fold_today(
    db: sqlite3.Connection, number: int, key: str, events: Sequence[Event], remember: Remember
) -> bool:
    """Whether all that the events speak of is of today, and memory was brought on from this morning."""
    ways = mornings.of_habits(db, number)
    if ways is None or not all(is_since(db, number, event, ways) for event in events):
        return False
    moving = {one.card for event in events for one in rows.by_card(event)}
    mornings.keep(db, number, {card: cached(db, number, card) for card in moving})
    morning, moved = mornings.found(db, number, ways)
    db.executemany("DELETE FROM memory WHERE child = ? AND card = ?", [(number, card) for card in moved])
    put_memory(db, number, remember.on(morning, mornings.since(db, key, ways, NAMING)))
    return True


def is_since(db: sqlite3.Connection, number: int, event: Event, ways: Habits) -> bool:
    """Whether the event speaks of nothing before this morning."""
    if event.kind in FORGETFUL:
        return True
    if event.kind not in NAMING:
        return place(event) > ways.at
    if event.kind == "fit":
        return False
    look = "SELECT kind, day, at_ms, device, seq FROM log WHERE device = ? AND seq = ?"
    found = [db.execute(look, name).fetchone() for name in named_by(db, number, event)]
    return all(row and (row[0] in FORGETFUL or (row[0] in MOVING and row[1:] > ways.at)) for row in found)


def named_by(db: sqlite3.Connection, number: int, event: Event) -> list[rows.Id]:
    return rows.taken_back(db, number, event) if event.kind == "undo" else rows.named(event.body)


def names_memory(db: sqlite3.Connection, number: int, event: Event) -> bool:
    """Whether the event speaks of rows that memory stands on; where that cannot be seen, it does."""
    names = named_by(db, number, event)
    if event.kind == "fit" or not (names or "day" in event.body):
        return True
    look = "SELECT kind FROM log WHERE device = ? AND seq = ?"
    found = [row for name in names if (row := db.execute(look, name).fetchone())]
    return any(kind not in FORGETFUL for (kind,) in found)


def rebuild(db: sqlite3.Connection, number: int, key: str, remember: Remember) -> None:
    """The fold of the whole log in place of the cache, with what was remembered as the last seasons began."""
    begun = seasons.begun(db, number, MOVING)
    *then, now = staged(db, key, remember, begun)
    replace_memory(db, number, remember.version, now)
    for season, known in zip(begun, then, strict=True):
        seasons.put(db, number, season, known)


def staged(
    db: sqlite3.Connection,
    key: str,
    remember: Remember,
    begun: Iterable[int] = (),
    until: Mapping[int, int] | None = None,
) -> list[Remembered]:
    """What was remembered as each of these seasons began, and in the end, of the whole log or as far as
    `until` goes: one fold on the way, to the same bits. The log is never held whole."""
    naming = [one for one in rows.events(db, key, NAMING) if rows.was_there(one.device, one.seq, until)]
    ends = [None, *(season * seasons.SEASON for season in begun), None]
    stages: list[Remembered] = []
    for since, before in pairwise(ends):
        some = rows.in_order(db, key, until, since, before)
        stages.append(remember.on(stages[-1], [*naming, *some]) if stages else remember.fold(naming, some))
    return stages


def replace_memory(db: sqlite3.Connection, number: int, version: str, memory: Remembered) -> None:
    db.execute("DELETE FROM memory WHERE child = ?", (number,))
    db.execute("DELETE FROM fold WHERE child = ?", (number,))
    db.execute("INSERT INTO fold (child, version, fields) VALUES (?, ?, ?)", (number, version, rows.FIELDS))
    put_memory(db, number, memory)


def drop_memory(db: sqlite3.Connection, number: int) -> None:
    """No cache any more: the next event folds the log."""
    db.execute("DELETE FROM fold WHERE child = ?", (number,))


def cached(db: sqlite3.Connection, number: int, card: str) -> CardMemory | None:
    found = db.execute(
        "SELECT card, body FROM memory WHERE child = ? AND card = ?", (number, card)
    ).fetchall()
    return rows.memory_of(found).get(card)


def habits(db: sqlite3.Connection, number: int) -> Habits:
    found = db.execute(
        "SELECT body FROM memory WHERE child = ? AND card = ?", (number, rows.EVERY_CARD)
    ).fetchone()
    return rows.habits_of(found[0]) if found else Habits()


def remembered(db: sqlite3.Connection, number: int) -> Remembered:
    """All that is cached of a child."""
    look = f"SELECT card, body FROM memory WHERE child = ? AND {mornings.OF_CARDS}"
    return Remembered(rows.memory_of(db.execute(look, (number,)).fetchall()), habits(db, number))


def put_memory(db: sqlite3.Connection, number: int, memory: Remembered) -> None:
    db.executemany(
        "INSERT INTO memory (child, card, body) VALUES (?, ?, ?)"
        " ON CONFLICT (child, card) DO UPDATE SET body = excluded.body",
        [(number, card, body) for card, body in rows.bodies(memory).items()],
    )


# --- children -------------------------------------------------------------------------------------------


def forget(db: sqlite3.Connection, number: int) -> None:
    """Take out every row of a child; the random key stays, so that a merge cannot bring the child back."""
    db.execute("INSERT INTO forgetting (child) VALUES (?)", (number,))
    for table in ("memory", "fold", "tail", "log"):
        db.execute(f"DELETE FROM {table} WHERE child = ?", (number,))
    db.execute("UPDATE child SET forgotten = 1 WHERE id = ?", (number,))
    db.execute("DELETE FROM forgetting WHERE child = ?", (number,))
