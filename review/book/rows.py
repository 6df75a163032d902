"""Rows of the book and the nouns they stand for, both ways. Reading only."""

import json
import sqlite3
from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

from review.book import packed
from review.book.chain import FIRST, Row
from review.core import days
from review.core.model import EVENT_KINDS, CardMemory, Event, Habits, Remembered

COLUMNS = "device, seq, child, kind, day, raw_ms, at_ms, offset_min, card, body"
ORDER = "day, at_ms, device, seq"
Id = tuple[int, int]  # (device, seq)
FIRST_DAY, LAST_DAY = 1, days.LAST_DAY  # of the log, as its schema has it
READ = json.JSONDecoder().raw_decode  # canonical JSON has no space around it to look for


class Spoilt(sqlite3.DatabaseError):
    """Damage that SQLite does not see: what is stored cannot be read as what was stored there."""

    sqlite_errorcode = sqlite3.SQLITE_CORRUPT


def children(db: sqlite3.Connection) -> dict[int, str]:
    """Every child that was not forgotten, by the number it has in this file: its key in hex."""
    return {
        number: key_of(key)
        for number, key in db.execute("SELECT id, key FROM child WHERE forgotten = 0 ORDER BY id")
    }


def key_of(stored: object) -> str:
    """A child's key in hex. Damage may have turned it into a number or a text."""
    if not isinstance(stored, bytes):
        raise Spoilt("the key of a child is none")
    return stored.hex()


def child_number(db: sqlite3.Connection, child: str) -> int:
    """The number that a child has in this file; ValueError for one the book does not hold."""
    try:
        key = bytes.fromhex(child)
    except ValueError as error:
        raise ValueError(f"not the key of a child: {child!r}") from error
    found = db.execute("SELECT id FROM child WHERE key = ? AND forgotten = 0", (key,)).fetchone()
    if found is None:
        raise ValueError(f"no child of the book has the key {child}")
    return int(found[0])


# --- events ---------------------------------------------------------------------------------------------


def events(
    db: sqlite3.Connection,
    child: str | None = None,
    kinds: Collection[str] | None = None,
    since_day: int | None = None,
    cards: Collection[str] | None = None,
    last: int | None = None,
    until_day: int | None = None,
) -> Iterator[Event]:
    """Events in the order of the fold. With `cards`, answers to those cards only, and everything else.

    All rows are fetched before the first is handed out: a reader that stops half way holds no lock.
    """
    keys = children(db)
    numbers = list(keys) if child is None else [number for number, key in keys.items() if key == child]
    wanted = set(EVENT_KINDS if kinds is None else kinds)
    index, test = ("log_order", "1") if "answer" in wanted else ("log_other", "kind <> 'answer'")
    values: list[object] = [*numbers, since_day or FIRST_DAY, until_day or LAST_DAY]
    if kinds is not None or "answer" not in wanted:
        test += f" AND kind IN ({marks(wanted)})"
        values += sorted(wanted)
    if cards is not None:
        test += f" AND (kind <> 'answer' OR card IN ({marks(cards)}))"
        values += sorted(cards)
    if not (numbers and wanted):
        return iter(())
    falling = ORDER.replace(",", " DESC,") + " DESC"
    sql = (
        f"SELECT {COLUMNS} FROM log INDEXED BY {index} WHERE child IN ({marks(numbers)})"
        f" AND day BETWEEN ? AND ? AND {test}"
        f" ORDER BY {ORDER if last is None else f'{falling} LIMIT {int(last)}'}"
    )
    found = db.execute(sql, values).fetchall()
    return told(keys, found if last is None else found[::-1])


def answered(db: sqlite3.Connection, number: int, until_day: int, most: int | None = None) -> int:
    """How many answers of a child there are up to a day: no more than `most` are looked at one by one, else
    the indexes tell."""
    span, of = (number, until_day), "log INDEXED BY {} WHERE child = ? AND day <= ? AND {}"
    if most is not None:
        some = of.format("log_order", "kind = 'answer'")
        return len(db.execute(f"SELECT 1 FROM {some} LIMIT ?", (*span, most)).fetchall())
    every, others = (
        db.execute(f"SELECT count(*) FROM {of.format(*where)}", span).fetchone()[0]
        for where in (("log_order", "1"), ("log_other", "kind <> 'answer'"))
    )
    return int(every - others)


BATCH = 2_000  # rows held at a time: under a megabyte
TOGETHER = 100  # bodies read together: of many more the collector of garbage looks at each (measured here)
BEFORE_ALL = -(1 << 63)  # milliseconds before the first there can be


def in_order(
    db: sqlite3.Connection,
    child: str,
    until: Mapping[int, int] | None = None,
    since_day: int | None = None,
    before_day: int | None = None,
) -> Iterator[Event]:
    """All events of a child in the order of the fold, read a batch at a time: no lock is held between, and a
    log of any length takes the same memory. `until`: by device the first number that is left out, for a log
    as it stood while others go on writing."""
    number = child_number(db, child)
    sql = (
        f"SELECT {COLUMNS} FROM log INDEXED BY log_order WHERE child = ? AND ({ORDER}) > (?, ?, ?, ?)"
        f" AND day < ? ORDER BY {ORDER} LIMIT {BATCH}"
    )
    keys, end = {number: child}, LAST_DAY + 1 if before_day is None else before_day
    after: tuple[int, int, int, int] = (since_day or FIRST_DAY, BEFORE_ALL, 0, 0)
    while found := db.execute(sql, (number, *after, end)).fetchall():
        yield from told(keys, [row for row in found if was_there(row[0], row[1], until)])
        after = (found[-1][4], found[-1][6], found[-1][0], found[-1][1])


def was_there(device: int, seq: int, until: Mapping[int, int] | None) -> bool:
    """Whether a row was there when each device had come so far."""
    return until is None or seq < until.get(device, 0)


def marks(values: Collection[object]) -> str:
    return ", ".join("?" * len(values))


def told(keys: Mapping[int, str], found: Sequence[tuple[Any, ...]]) -> Iterator[Event]:
    """The events of stored rows, the bodies of a batch read together: in two thirds of the time."""
    for start in range(0, len(found), TOGETHER):
        some = found[start : start + TOGETHER]
        for row, stored in zip(some, sound_bodies([row[9] for row in some]), strict=True):
            body = packed.unpacked(row[3], stored)
            yield Event._make((row[0], row[1], keys[row[2]], *row[3:9], body))


def event_of(row: Row) -> Event:
    """The event of one row."""
    return Event._make((*row[:9], packed.unpacked(row.kind, READ(row.body)[0])))


def sound_bodies(stored: Sequence[str]) -> list[Any]:
    try:
        return bodies_of(stored)
    except (TypeError, ValueError) as error:
        raise Spoilt("an entry of the log cannot be read") from error


def bodies_of(stored: Sequence[str]) -> list[Any]:
    """One by one where they cannot be read as one list: damage is told of the row that has it."""
    try:
        together: list[Any] = json.loads(f"[{','.join(stored)}]")
    except (TypeError, ValueError):
        together = []
    return together if len(together) == len(stored) else [READ(body)[0] for body in stored]


def by_card(event: Event) -> list[Event]:
    """The event once for each card whose memory it moves: a parent may say of several that they are known."""
    many: Any = event.body.get("cards", [event.card]) if event.kind == "known" else [event.card]
    return [event._replace(card=str(card)) for card in many] if event.kind in ("answer", "known") else []


def named(body: Mapping[str, object]) -> list[Id]:
    """The rows an undo or a correction names: `device` and `seq`, or a list `rows` of such pairs."""
    many: Any = body.get("rows", [])
    one = [(body["device"], body["seq"])] if "device" in body and "seq" in body else []
    return [(int(device), int(seq)) for device, seq in [*one, *many]]


def taken_back(db: sqlite3.Connection, number: int, undo: Event) -> list[Id]:
    """The rows an undo names, or with `day` and `device` a sitting's answers up to then."""
    if "day" not in undo.body:
        return named(undo.body)
    sql = (
        "SELECT device, seq FROM log WHERE child = ? AND day = ? AND device = ? AND kind = 'answer'"
        " AND iif(device = ?, seq < ?, at_ms <= ?)"
    )
    sitting = (undo.body["day"], undo.body.get("device", 0))
    return db.execute(sql, (number, *sitting, undo.device, undo.seq, undo.at_ms)).fetchall()


def undone(db: sqlite3.Connection, number: int) -> set[Id]:
    """Every row of a child that was taken back. The latest undo speaks first: it may take back an undo."""
    gone: set[Id] = set()
    for undo in reversed(list(events(db, children(db)[number], ("undo",)))):
        if (undo.device, undo.seq) not in gone:
            gone.update(taken_back(db, number, undo))
    return gone


def log_rows(db: sqlite3.Connection, falling: bool = False) -> Iterator[Row]:
    """Every row as it is stored, in the order of its id; bytes that are no text come as escapes. The hash of
    the row before follows from the walk; where that is `falling`, it is not known."""
    order = "device DESC, seq DESC" if falling else "device, seq"
    before = db.text_factory
    db.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
    try:
        keys = {number: key_of(key) for number, key in db.execute("SELECT id, key FROM child")}
        tips: dict[tuple[str, int], bytes] = {}
        for row in db.execute(f"SELECT {COLUMNS}, hash FROM log ORDER BY {order}"):
            which = (keys.get(row[2], ""), row[0])
            yield Row._make((row[0], row[1], which[0], *row[3:10], tips.get(which, FIRST), row[10]))
            tips[which] = row[10]
    finally:
        db.text_factory = before


# --- cached memory --------------------------------------------------------------------------------------

FIELDS = ",".join(("mornings", *CardMemory._fields, *Habits._fields))  # a cache of others is no cache
EVERY_CARD = ""  # in place of a card's key: what was learned of the child over all cards


def bodies(memory: Remembered) -> dict[str, str]:
    """What the cache keeps, by card."""
    cards = {card: memory_body(one) for card, one in memory.cards.items()}
    return {**cards, EVERY_CARD: habits_body(memory.habits)}


def habits_body(habits: Habits) -> str:
    return json.dumps(habits, separators=(",", ":"), allow_nan=False)


def habits_of(body: str) -> Habits:
    with readable():
        return Habits._make(tuple(field) if isinstance(field, list) else field for field in json.loads(body))


def memory_body(memory: CardMemory) -> str:
    """A memory as one JSON list: read back, its floats have the same bits."""
    return json.dumps(memory[1:], separators=(",", ":"), allow_nan=False)


def memory_of(rows: list[tuple[str, str]]) -> dict[str, CardMemory]:
    """Memories from (card, body): one parse for all of them."""
    with readable():
        bodies = json.loads(f"[{','.join(body for _, body in rows)}]")
        return {card: remembered(card, body) for (card, _), body in zip(rows, bodies, strict=True)}


@contextmanager
def readable() -> Iterator[None]:
    """Of what is cached: no JSON, or a list of another form, is damage."""
    try:
        yield
    except (TypeError, ValueError, LookupError) as error:
        raise Spoilt("what is kept in memory cannot be read") from error


def remembered(card: str, body: list[Any]) -> CardMemory:
    body[ORDERS] = tuple(map(tuple, body[ORDERS])) if body[ORDERS] else ()
    body[RECENT] = tuple(body[RECENT])
    body[AT] = tuple(body[AT])
    return CardMemory._make((card, *body))  # half as long as by its name: no default is looked for


ORDERS, RECENT, AT = (CardMemory._fields.index(name) - 1 for name in ("orders", "recent", "at"))


def memory_version(db: sqlite3.Connection, number: int) -> str:
    """By which rule the child's cached memory was folded; "" where there is none that can be used."""
    found = db.execute("SELECT version FROM fold WHERE child = ? AND fields = ?", (number, FIELDS)).fetchone()
    return found[0] if found else ""
