"""The schema of the record book, as the steps that make it. Units and sources stand in the SQL comments.

A step, once published, is never edited: a new one is added, and `connection.VERSION` counts them. Each runs
inside one transaction of ours, together with the record of it. Never `transform()` the log: that drops its
triggers without a word.
"""

import sqlite3

from sqlite_utils import Database, Migrations

from review.book import connection

STEPS = Migrations("review")
PAGE = 16_384  # bytes, of new books: of a plan what is over a quarter of a page leaves another nearly empty

TABLES = """
CREATE TABLE book (                     -- one row
  one INTEGER PRIMARY KEY CHECK (one = 1),
  id BLOB NOT NULL CHECK (length(id) = 16)      -- random; every copy of the book shares it
) STRICT;

CREATE TABLE device (                   -- a computer and place that wrote here
  id INTEGER PRIMARY KEY CHECK (id BETWEEN 1 AND 281474976710655),      -- random, 48 bits
  next INTEGER NOT NULL CHECK (next >= 1)       -- past every sequence number used, also of forgotten rows
) STRICT;

CREATE TABLE child (
  id INTEGER PRIMARY KEY CHECK (id >= 1),       -- means something in this file only; the key is the name
  key BLOB NOT NULL UNIQUE CHECK (length(key) = 16),    -- random; all that stays of a forgotten child
  forgotten INTEGER NOT NULL DEFAULT 0 CHECK (forgotten IN (0, 1))
) STRICT;

-- A child whose rows are being taken out. The reference to a book that cannot be (two) is looked at when the
-- transaction ends: a row that is left in here makes the COMMIT fail.
CREATE TABLE forgetting (
  child INTEGER PRIMARY KEY REFERENCES child (id),
  ends INTEGER NOT NULL DEFAULT 2 CHECK (ends = 2) REFERENCES book (one) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE log (                      -- the only truth; rows are added and never changed
  device INTEGER NOT NULL REFERENCES device (id),
  seq INTEGER NOT NULL CHECK (seq >= 1),
  child INTEGER NOT NULL REFERENCES child (id),
  kind TEXT NOT NULL CHECK (kind IN ('answer', 'sitting', 'profile', 'taught', 'set_add', 'set_drop',
                                     'undo', 'correct', 'known', 'away', 'fit')),
  day INTEGER NOT NULL CHECK (day BETWEEN 1 AND 3652059),       -- practice day; 1 is 1 January of the year 1
  raw_ms INTEGER NOT NULL CHECK (raw_ms BETWEEN 0 AND 253402300799999),  -- UTC, ms since 1970, by the clock
  at_ms INTEGER NOT NULL CHECK (at_ms >= raw_ms),       -- the same, never falling within a child and device
  offset_min INTEGER NOT NULL CHECK (offset_min BETWEEN -1439 AND 1439),        -- minutes, local less UTC
  card TEXT NOT NULL CHECK (card NOT GLOB '*[^!-~]*' AND (kind <> 'answer' OR card <> '')),
  body TEXT NOT NULL             -- canonical JSON; a parent's own set, the largest, is well under the cap
    CHECK (length(body) <= 1000000 AND body GLOB '{*}' AND body NOT GLOB '*[^ -~]*'),
  previous BLOB NOT NULL CHECK (length(previous) = 32), -- hash of the row before, of this child and device
  hash BLOB NOT NULL CHECK (length(hash) = 32),         -- SHA-256; see chain.py
  PRIMARY KEY (device, seq)
) STRICT, WITHOUT ROWID;

CREATE INDEX log_order ON log (child, day, at_ms, device, seq);

CREATE INDEX log_other ON log (child, day, at_ms, device, seq) WHERE kind <> 'answer';

CREATE TABLE tail (                     -- the end of every chain: a cache, checked against the log
  child INTEGER NOT NULL REFERENCES child (id),
  device INTEGER NOT NULL REFERENCES device (id),
  seq INTEGER NOT NULL,
  at_ms INTEGER NOT NULL,               -- the latest of rows not undone, undos apart; the next is not before
  hash BLOB NOT NULL,
  PRIMARY KEY (child, device)
) STRICT, WITHOUT ROWID;

CREATE TABLE memory (                   -- what the log says of a card: a cache that can be thrown away
  child INTEGER NOT NULL REFERENCES child (id),
  card TEXT NOT NULL,                   -- '': what was learned of the child over all cards
  body TEXT NOT NULL,                   -- a JSON list: fields of model.CardMemory after the card, or Habits
  PRIMARY KEY (child, card)
) STRICT, WITHOUT ROWID;

CREATE TABLE fold (                     -- by which rule a child's memory was folded
  child INTEGER PRIMARY KEY REFERENCES child (id),
  version TEXT NOT NULL,
  fields TEXT NOT NULL                  -- the names of the fields in `memory.body`
) STRICT;
"""

TRIGGERS = """
CREATE TRIGGER log_never_changes BEFORE UPDATE ON log
BEGIN SELECT RAISE(ABORT, 'a row of the log is never changed'); END;

CREATE TRIGGER log_never_shrinks BEFORE DELETE ON log
WHEN NOT EXISTS (SELECT 1 FROM forgetting WHERE child = OLD.child)
BEGIN SELECT RAISE(ABORT, 'a row of the log is never deleted'); END;

CREATE TRIGGER log_never_replaces BEFORE INSERT ON log
WHEN EXISTS (SELECT 1 FROM log WHERE device = NEW.device AND seq = NEW.seq)
BEGIN SELECT RAISE(ABORT, 'this number of the log is taken'); END;

CREATE TRIGGER log_honours_forgetting BEFORE INSERT ON log
WHEN EXISTS (SELECT 1 FROM child WHERE id = NEW.child AND forgotten = 1)
BEGIN SELECT RAISE(ABORT, 'this child was forgotten'); END;

CREATE TRIGGER log_uses_numbers_up AFTER INSERT ON log
BEGIN UPDATE device SET next = NEW.seq + 1 WHERE id = NEW.device AND next <= NEW.seq; END;

CREATE TRIGGER device_only_rises BEFORE UPDATE ON device
WHEN NEW.id <> OLD.id OR NEW.next < OLD.next
BEGIN SELECT RAISE(ABORT, 'sequence numbers never fall'); END;

CREATE TRIGGER device_stays BEFORE DELETE ON device
BEGIN SELECT RAISE(ABORT, 'a device is never deleted'); END;

CREATE TRIGGER device_never_replaces BEFORE INSERT ON device
WHEN EXISTS (SELECT 1 FROM device WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'this device is known already'); END;

CREATE TRIGGER child_only_forgotten BEFORE UPDATE ON child
WHEN NEW.id <> OLD.id OR NEW.key <> OLD.key OR NEW.forgotten < OLD.forgotten
  OR (NEW.forgotten > OLD.forgotten AND NOT EXISTS (SELECT 1 FROM forgetting WHERE child = OLD.id))
BEGIN SELECT RAISE(ABORT, 'a child can be forgotten, not changed'); END;

CREATE TRIGGER child_stays BEFORE DELETE ON child
BEGIN SELECT RAISE(ABORT, 'the key of a child stays'); END;

CREATE TRIGGER child_never_replaces BEFORE INSERT ON child
WHEN EXISTS (SELECT 1 FROM child WHERE id = NEW.id OR key = NEW.key)
BEGIN SELECT RAISE(ABORT, 'this child is known already'); END;

CREATE TRIGGER book_never_changes BEFORE UPDATE ON book
BEGIN SELECT RAISE(ABORT, 'the id of a book stays'); END;

CREATE TRIGGER book_stays BEFORE DELETE ON book
BEGIN SELECT RAISE(ABORT, 'the id of a book stays'); END;

CREATE TRIGGER book_is_one BEFORE INSERT ON book
WHEN EXISTS (SELECT 1 FROM book)
BEGIN SELECT RAISE(ABORT, 'a book has one id'); END;
"""


@STEPS()
def first(db: Database) -> None:
    """Everything version 1 holds."""
    db.executescript(TABLES + TRIGGERS)


BY_KIND = """
DROP INDEX log_other;

-- What is no answer, kind by kind: the sittings of ten years are not looked through to find a child's name.
CREATE INDEX log_other ON log (child, kind, day, at_ms, device, seq) WHERE kind <> 'answer';
"""


@STEPS()
def by_kind(db: Database) -> None:
    db.executescript(BY_KIND)


@STEPS()
def leaner(db: Database) -> None:
    """Nothing changes but the number: from here on rows may leave out what `family.sitting_body` and
    `answer_bodies.answer_body` leave out, and a program that needs it takes the book for a newer one."""


@STEPS()
def leanest(db: Database) -> None:
    """The hash of the row before is no longer kept, since it follows from that row; the hash of a row is over
    it as before (chain.py). And from here on the body of an answer may be a list (packed.py).

    Every row is written anew by this (sqlite.org/lang_altertable.html, section 5), in its place and without
    the column: indexes, triggers and all else of the table stand as they stood.
    """
    db.executescript("ALTER TABLE log DROP COLUMN previous;")


def migrate(db: sqlite3.Connection, steps: Migrations = STEPS) -> None:
    """Bring a book to the newest version, all steps in one transaction; nothing where it is there already."""
    db.execute("BEGIN IMMEDIATE")
    try:
        wrapped = Database(db, execute_plugins=False)
        steps.apply(wrapped)
        db.execute(f"PRAGMA user_version = {len(steps.applied(wrapped))}")
        db.execute("COMMIT")
    except BaseException:
        if db.in_transaction:
            db.execute("ROLLBACK")
        raise


def found(db: sqlite3.Connection, book_id: bytes) -> None:
    """Make an empty database a book."""
    db.execute(f"PRAGMA page_size = {PAGE}")
    db.execute(f"PRAGMA application_id = {connection.APPLICATION}")
    migrate(db)
    db.execute("INSERT INTO book (one, id) VALUES (1, ?)", (book_id,))
