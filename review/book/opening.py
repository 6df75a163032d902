"""A record book's file made, or opened, checked and brought up to this version of the schema."""

import os
import sqlite3
from contextlib import suppress
from pathlib import Path

from review import files
from review.book import connection, proofs
from review.errors import BookUnwritable, Mendable


def make(path: Path, book_id: bytes | None = None) -> None:
    """A new, empty book: under a temporary name first, so that what has the name is whole. Mendable where
    something has the name already. `book_id`: 16 random bytes, or given, where a book is to be made again."""
    import secrets

    from review.book import migrations

    if os.path.lexists(path):
        raise Mendable(f"There is something at {path} already; choose another name for a new record book.")
    temporary = path.with_name(f".{path.name}.{secrets.token_hex(4)}.new")
    try:
        files.private_folder(path.parent)
        files.new_private_file(temporary)
        db = connection.connect(temporary, write=True)
        try:
            migrations.found(db, book_id or secrets.token_bytes(16))
        finally:
            db.close()
        files.publish(temporary, path)
    except FileExistsError as error:
        raise Mendable(f"There is something at {path} already; choose another name for it.") from error
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise BookUnwritable(
            f"A record book cannot be made at {path} ({reason}); choose another place."
        ) from error
    except sqlite3.Error as error:
        raise connection.worded(error, path, "No record book was made: ") from error
    finally:
        with suppress(OSError):
            temporary.unlink(missing_ok=True)


def opened(place: Path, path: Path, write: bool) -> tuple[sqlite3.Connection, str]:
    """A connection to a book of this version, and the book's id."""
    connection.check_file(path, write)
    try:
        db = connected(place, write)
    except connection.FAILURES as error:
        raise connection.worded(error, path) from error
    try:
        version = connection.version_of(db, path)
        if 0 < version < connection.VERSION:
            db.close()
            bring_up(place, version)
            return opened(place, path, write)
        proofs.check_guards(db, path)
        return db, id_of(db, path)
    except connection.FAILURES as error:
        db.close()
        raise connection.worded(error, path) from error
    except BaseException:
        db.close()
        raise


def connected(place: Path, write: bool) -> sqlite3.Connection:
    """A connection that has read the file's first page; a transaction cut short by a kill is undone first."""
    db = connection.connect(place, write)
    try:
        db.execute("PRAGMA user_version").fetchone()
    except connection.FAILURES as error:
        db.close()
        if write or connection.code_of(error) not in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN):
            raise
        connection.finish_what_was_begun(place)
        return connection.connect(place, write)
    return db


def id_of(db: sqlite3.Connection, path: Path) -> str:
    found = db.execute("SELECT id FROM book").fetchone()
    if found is None or not isinstance(found[0], bytes):
        raise connection.damaged(path, "it has no id")
    return found[0].hex()


def bring_up(place: Path, version: int) -> None:
    """Bring an older book to this version, after a backup."""
    from review.book import backups, migrations

    connection.check_file(place, write=True)
    backups.before_migration(place, version)
    db = connection.connect(place, write=True)
    try:
        migrations.migrate(db)
    finally:
        db.close()
