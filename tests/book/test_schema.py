"""The schema refuses what it should: every guard and every constraint, one by one."""

import sqlite3
from collections.abc import Iterator, Mapping

import pytest

from review.book import connection, migrations, proofs, rows
from review.core.model import EVENT_KINDS
from review.errors import BookUnwritable
from tests.book.conftest import Place
from tests.book.tiny import DAY, START, TINY, answer

ROW = {
    "device": 7, "seq": 9, "child": 1, "kind": "answer", "day": DAY, "raw_ms": START, "at_ms": START,
    "offset_min": 60, "card": "product:6x7", "body": "{}", "hash": bytes(32),
}  # fmt: skip
LOG = "INSERT {} INTO log ({}) VALUES ({})"


@pytest.fixture
def db(place: Place) -> Iterator[sqlite3.Connection]:
    """A book with one answer (device 7, number 1), straight through SQLite."""
    with place.open() as book:
        book.device = 7
        book.record([answer(place.child)], TINY)
    db = connection.connect(place.path, write=True)
    yield db
    db.close()


def insert(db: sqlite3.Connection, how: str = "", changed: Mapping[str, object] | None = None) -> None:
    row = {**ROW, **(changed or {})}
    db.execute(LOG.format(how, ", ".join(row), ", ".join("?" * len(row))), list(row.values()))


def log(db: sqlite3.Connection) -> list[object]:
    return db.execute("SELECT * FROM log").fetchall()


GUARDED = {
    "UPDATE log SET card = 'product:1x1'": "never changed",
    "UPDATE OR IGNORE log SET hash = zeroblob(32)": "never changed",
    "UPDATE OR REPLACE log SET seq = 2": "never changed",
    "DELETE FROM log": "never deleted",
    "DELETE FROM log WHERE seq = 1": "never deleted",
    "UPDATE device SET next = 1": "never fall",
    "UPDATE device SET id = 8": "never fall",
    "DELETE FROM device": "never deleted",
    "INSERT OR REPLACE INTO device VALUES (7, 1)": "known already",
    "INSERT OR IGNORE INTO device VALUES (7, 1)": "known already",
    "UPDATE child SET key = zeroblob(16)": "not changed",
    "UPDATE child SET id = 5": "not changed",
    "UPDATE child SET forgotten = 1": "not changed",
    "DELETE FROM child": "stays",
    "INSERT OR REPLACE INTO child VALUES (1, zeroblob(16), 0)": "known already",
    "INSERT OR REPLACE INTO child (key) SELECT key FROM child": "known already",
    "UPDATE book SET id = zeroblob(16)": "stays",
    "DELETE FROM book": "stays",
    "INSERT OR REPLACE INTO book VALUES (1, zeroblob(16))": "one id",
}


@pytest.mark.parametrize("statement", GUARDED)
def test_a_guard_refuses(db: sqlite3.Connection, statement: str) -> None:
    before = "\n".join(db.iterdump())
    with pytest.raises(sqlite3.IntegrityError, match=GUARDED[statement]):
        db.execute(statement)
    assert "\n".join(db.iterdump()) == before


@pytest.mark.parametrize("how", ["", "OR REPLACE", "OR IGNORE", "OR FAIL", "OR ROLLBACK", "OR ABORT"])
def test_a_taken_number_is_refused_never_replaced_or_ignored(db: sqlite3.Connection, how: str) -> None:
    before = log(db)
    with pytest.raises(sqlite3.IntegrityError, match="taken"):
        insert(db, how, {"seq": 1})
    assert log(db) == before


def test_an_upsert_of_a_taken_number_is_refused(db: sqlite3.Connection) -> None:
    columns, values = ", ".join(ROW), ", ".join("?" * len(ROW))
    for ending in ("DO NOTHING", "DO UPDATE SET card = 'x'"):
        with pytest.raises(sqlite3.IntegrityError, match="taken"):
            db.execute(
                f"INSERT INTO log ({columns}) VALUES ({values}) ON CONFLICT (device, seq) {ending}",
                list({**ROW, "seq": 1}.values()),
            )


CONSTRAINED = [
    ("device", 8), ("seq", 0), ("seq", "one"), ("child", 2), ("kind", "guess"), ("kind", None), ("day", 0),
    ("day", 3_652_060), ("day", 1.5), ("raw_ms", -1), ("raw_ms", 253_402_300_800_000), ("at_ms", START - 1),
    ("offset_min", 1440), ("offset_min", -1440), ("card", ""), ("card", "product 6x7"), ("card", "6×7"),
    ("body", "[]"), ("body", "{\"a\": \"×\"}"), ("body", "{"), ("body", b"{}"),
    ("body", "{" + " " * 1_000_000 + "}"),
    ("hash", bytes(33)), ("hash", bytes(31)), ("hash", None), ("hash", "0" * 32),
]  # fmt: skip


@pytest.mark.parametrize(("column", "value"), CONSTRAINED, ids=lambda value: repr(value)[:24])
def test_a_constraint_refuses(db: sqlite3.Connection, column: str, value: object) -> None:
    before = log(db)
    with pytest.raises(sqlite3.IntegrityError):
        insert(db, changed={column: value})
    assert log(db) == before


def test_what_no_guard_or_constraint_forbids_goes_in(db: sqlite3.Connection) -> None:
    insert(db)
    insert(db, changed={"seq": 10, "kind": "sitting", "card": ""})
    assert len(log(db)) == 3


@pytest.mark.parametrize(
    "statement",
    [
        "INSERT INTO device VALUES (0, 1)",
        "INSERT INTO device VALUES (281474976710656, 1)",
        "INSERT INTO device VALUES (8, 0)",
        "INSERT INTO child (key) VALUES (zeroblob(15))",
        "INSERT INTO child (key, forgotten) VALUES (zeroblob(16), 2)",
        "INSERT INTO forgetting VALUES (99, 2)",
        "INSERT INTO forgetting VALUES (1, 1)",
        "INSERT INTO memory VALUES (99, 'product:1x1', '[]')",
    ],
)
def test_the_other_tables_refuse_too(db: sqlite3.Connection, statement: str) -> None:
    with pytest.raises(sqlite3.IntegrityError):
        db.execute(statement)


def test_a_used_number_is_used_up_whoever_inserts(db: sqlite3.Connection) -> None:
    insert(db, changed={"seq": 40})
    insert(db, changed={"seq": 12})
    assert db.execute("SELECT next FROM device").fetchall() == [(41,)]


def test_forgetting_ends_in_the_transaction_it_began_in(db: sqlite3.Connection) -> None:
    db.execute("BEGIN")
    db.execute("INSERT INTO forgetting (child) VALUES (1)")
    db.execute("DELETE FROM log WHERE child = 1")
    with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
        db.execute("COMMIT")
    db.execute("ROLLBACK")
    assert len(log(db)) == 1


def test_no_row_of_a_forgotten_child_comes_back(db: sqlite3.Connection) -> None:
    db.execute("BEGIN")
    db.execute("INSERT INTO forgetting (child) VALUES (1)")
    db.execute("UPDATE child SET forgotten = 1")
    db.execute("DELETE FROM forgetting")
    db.execute("COMMIT")
    with pytest.raises(sqlite3.IntegrityError, match="forgotten"):
        insert(db)
    with pytest.raises(sqlite3.IntegrityError, match="not changed"):
        db.execute("UPDATE child SET forgotten = 0")


def test_every_kind_of_event_is_known_to_the_schema(db: sqlite3.Connection) -> None:
    for number, kind in enumerate(EVENT_KINDS, 100):
        insert(db, changed={"seq": number, "kind": kind})
    assert len(log(db)) == 1 + len(EVENT_KINDS)


def test_the_guards_are_known_by_their_print_and_the_version_by_the_steps(db: sqlite3.Connection) -> None:
    assert proofs.guards(db) == proofs.GUARDS
    assert db.execute("PRAGMA user_version").fetchone() == (connection.VERSION,)
    assert len(migrations.STEPS._migrations) == connection.VERSION
    db.execute("DROP TRIGGER log_never_changes")
    assert proofs.guards(db) != proofs.GUARDS


def test_every_table_is_strict(db: sqlite3.Connection) -> None:
    """`PRAGMA table_list` says so itself: https://www.sqlite.org/pragma.html#pragma_table_list"""
    ours = [
        row
        for row in db.execute("PRAGMA table_list")
        if row[0] == "main" and not row[1].startswith(("sqlite_", "_"))
    ]
    assert {row[1] for row in ours} == {
        "book",
        "device",
        "child",
        "forgetting",
        "log",
        "tail",
        "memory",
        "fold",
    }
    assert all(row[5] == 1 for row in ours)


def test_settings_are_read_back(place: Place) -> None:
    """Values as https://www.sqlite.org/pragma.html numbers them."""
    expected = {
        "journal_mode": "delete", "synchronous": 3, "foreign_keys": 1, "recursive_triggers": 1,
        "temp_store": 2, "secure_delete": 1, "busy_timeout": 10_000, "trusted_schema": 0,
    }  # fmt: skip
    with place.open() as book:
        found = {name: book._db.execute(f"PRAGMA {name}").fetchone()[0] for name in expected}
    assert found == expected


def test_a_setting_that_does_not_hold_is_an_error(place: Place) -> None:
    db = sqlite3.connect(place.path)
    with pytest.raises(BookUnwritable, match="does not take the setting no_such_setting"):
        connection.settle(db, (("no_such_setting", "ON", 1),), place.path)
    db.close()


def plan(db: sqlite3.Connection, sql: str) -> str:
    return " ".join(row[3] for row in db.execute(f"EXPLAIN QUERY PLAN {sql}"))


def test_events_that_are_no_answers_are_found_without_reading_the_answers(db: sqlite3.Connection) -> None:
    seen: list[str] = []
    db.set_trace_callback(seen.append)
    list(rows.events(db, kinds=("profile", "taught")))
    list(rows.events(db, kinds=("profile", "sitting")))
    list(rows.events(db, db.execute("SELECT lower(hex(key)) FROM child").fetchone()[0], since_day=DAY))
    db.set_trace_callback(None)
    life, others, recent = (sql for sql in seen if "INDEXED BY" in sql)
    assert "SEARCH log USING INDEX log_other (child=? AND kind=?" in plan(db, life)
    assert "SEARCH log USING INDEX log_other (child=? AND kind=?" in plan(db, others)
    assert "SEARCH log USING INDEX log_order (child=? AND day>?" in plan(db, recent)
    assert "TEMP B-TREE" not in plan(db, recent)
