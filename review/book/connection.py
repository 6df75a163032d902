"""A connection to a record book: whose file it is, how SQLite is set, and its errors in words.

Settled by measurement here: a rollback journal with `synchronous=EXTRA` lost no acknowledged answer in 76,671
simulated power cuts, where the default (FULL) lost the last one in 24% of 5,880; a book in WAL mode, closed
cleanly, cannot be read in a read-only folder or on a full disk.
"""

import os
import sqlite3
import sys
from pathlib import Path

from review import files
from review.errors import (
    BookDamaged,
    BookError,
    BookForeign,
    BookMissing,
    BookNewer,
    BookUnwritable,
)

APPLICATION = 0x72657677  # "revw", in the file's header: this database is a record book
VERSION = 4  # how many steps of the schema there are
BUSY_MS = 10_000  # how long to wait for another writer (our judgement: far over the longest transaction)
OLDEST = (3, 37, 0)  # the first SQLite with STRICT tables, November 2021

EXPORTED = b'{"format":"review log"'  # how a file begins that `review export` wrote
MAGIC = files.DATABASE
VERSION_AT, APPLICATION_AT = 60, 68  # sqlite.org/fileformat2.html, section 1.3

SETTINGS: tuple[tuple[str, str, object], ...] = (
    ("foreign_keys", "ON", 1),
    ("recursive_triggers", "ON", 1),
    ("trusted_schema", "OFF", 0),
    ("cell_size_check", "ON", 1),
    ("temp_store", "MEMORY", 2),
    ("busy_timeout", str(BUSY_MS), BUSY_MS),
)
FOR_WRITING: tuple[tuple[str, str, object], ...] = (
    ("secure_delete", "ON", 1),
    ("synchronous", "EXTRA", 3),
    *((("fullfsync", "ON", 1),) if sys.platform == "darwin" else ()),
    ("journal_mode", "DELETE", "delete"),
)
FOR_READING: tuple[tuple[str, str, object], ...] = (("query_only", "ON", 1),)


def place_of(path: Path) -> Path:
    """Where the file is, whatever links lead there: its head file and its backups stand beside it."""
    try:
        return path.resolve(strict=True)
    except PermissionError as error:
        raise unreadable(path, error) from error
    except (OSError, RuntimeError) as error:  # not there, or links that lead in a circle
        missing = (
            f"There is no record book at {path}; check the name, or begin one: review child add NAME --age 7"
        )
        raise BookMissing(missing) from error


def unreadable(path: Path, error: OSError) -> BookUnwritable:
    reason = (error.strerror or "unknown reason").lower()
    return BookUnwritable(f"{path} cannot be read ({reason}); check who may read it.")


def check_file(path: Path, write: bool) -> None:
    """Refuse what is not a book of ours by its first bytes, before SQLite sees the file."""
    if sqlite3.sqlite_version_info < OLDEST:
        raise BookUnwritable(
            f"{path} needs SQLite 3.37 or newer, and this Python has {sqlite3.sqlite_version}; "
            "install a newer Python."
        )
    place = place_of(path)
    if place.is_dir():
        raise BookForeign(f"{path} is a folder, not a record book; name the file inside it.")
    if not place.is_file():  # opening a pipe would wait for ever
        raise BookForeign(f"{path} is a pipe or a device, not a record book; choose a file.")
    try:
        start = files.read_start(path, 100)
    except OSError as error:
        raise unreadable(path, error) from error
    if not start:
        raise BookForeign(
            f"{path} is an empty file, not a record book; choose another file, or remove this one."
        )
    if start.startswith(EXPORTED):
        raise BookForeign(
            f"{path} is an exported file, not a record book; the command import takes it into your book."
        )
    if (
        start[:16] != MAGIC
        or int.from_bytes(start[APPLICATION_AT : APPLICATION_AT + 4], "big") != APPLICATION
    ):
        raise BookForeign(f"{path} is not a record book, and was left as it is; choose another file.")
    if int.from_bytes(start[VERSION_AT : VERSION_AT + 4], "big") > VERSION:
        raise newer(path)
    if write and not (os.access(path, os.W_OK) and os.access(place.parent, os.W_OK)):
        raise BookUnwritable(f"{path} cannot be written; check who may write the file and its folder.")


def newer(path: Path) -> BookNewer:
    return BookNewer(f"{path} was written by a newer version of review; install that version to open it.")


def connect(path: Path, write: bool) -> sqlite3.Connection:
    """A connection with every setting made and read back. It never creates a file."""
    db = sqlite3.connect(
        uri(path, "rw" if write else "ro"),
        uri=True,
        timeout=BUSY_MS / 1000,
        isolation_level=None,
    )
    try:
        settle(db, (*SETTINGS, *(FOR_WRITING if write else FOR_READING)), path)
    except BaseException:
        db.close()
        raise
    return db


def uri(path: Path, mode: str) -> str:
    """The file as SQLite takes it, never to be made."""
    return f"{spelled(path.absolute().as_posix())}?mode={mode}"


def spelled(whole_path: str) -> str:
    """Three slashes before any path (sqlite.org/uri.html, section 3.1): no other computer may stand there, so
    a share of a network, //server/share, is a part of the path.

    Not by `Path.as_uri`: from Python 3.14 on that loads what opens web pages, before a child's first problem.
    """
    quoted = "".join([chr(byte) if byte in _AS_IT_IS else f"%{byte:02X}" for byte in os.fsencode(whole_path)])
    return f"file://{'' if quoted.startswith('/') else '/'}{quoted}"


_AS_IT_IS = frozenset(b"/:-._~0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz")
"""The unreserved characters of RFC 3986 (section 2.3), and those between the parts of a path."""


def version_of(db: sqlite3.Connection, path: Path) -> int:
    """Of the schema; BookNewer where it is one this program does not know."""
    (version,) = db.execute("PRAGMA user_version").fetchone()
    if version > VERSION:
        raise newer(path)
    return int(version)


def finish_what_was_begun(path: Path) -> None:
    """Undo what a killed program had written of a transaction; a connection that only reads cannot."""
    check_file(path, write=True)
    connect(path, write=True).close()


def settle(db: sqlite3.Connection, settings: tuple[tuple[str, str, object], ...], path: Path) -> None:
    for name, value, expected in settings:
        db.execute(f"PRAGMA {name} = {value}").fetchall()
        if db.execute(f"PRAGMA {name}").fetchone() != (expected,):
            raise BookUnwritable(
                f"{path} cannot be used safely: this SQLite does not take the setting {name}; "
                "install another Python."
            )


# --- SQLite's errors in words ---------------------------------------------------------------------------

BUSY = {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}
DAMAGED = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}


FAILURES = (sqlite3.Error, UnicodeDecodeError)  # a text that damage made none is told so by Python itself


def code_of(error: Exception) -> int:
    """SQLite's primary code; errors the wrapper raises by itself have none."""
    return int(getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR)) & 0xFF


def worded(error: Exception, path: Path, nothing: str = "") -> BookError:
    """What a user is told: `nothing` begins the sentence, like "Nothing was stored: "."""
    code = code_of(error)
    if code in DAMAGED or "UTF-8" in str(error) or isinstance(error, UnicodeDecodeError):
        return damaged(path, str(error))
    if code in BUSY:
        return BookUnwritable(f"{nothing}{path} is in use by another program; close that and try again.")
    if code == sqlite3.SQLITE_FULL:
        return BookUnwritable(f"{nothing}the disk that holds {path} is full; make room and try again.")
    if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM):
        return BookUnwritable(
            f"{nothing}{path} cannot be written; check who may write the file and its folder."
        )
    return BookUnwritable(f"{nothing}{path} cannot be used ({error}); check the disk and try again.")


MOST_SAID = 120  # characters of what SQLite says of a damage; our judgement: who asks needs the first of it


def damaged(path: Path, how: str) -> BookDamaged:
    said = " ".join(how.removesuffix(".").split())
    short = said if len(said) <= MOST_SAID else said[: MOST_SAID - 2] + "…"
    return BookDamaged(
        f"{path} is damaged ({short}), and was left as it is; its copies, and how to go back: review restore"
    )
