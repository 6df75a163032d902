"""A copy put in the place of a book that is damaged or lost, with what the old book still proves.

Nothing is deleted: the old file is set aside under another name, with its journal.
"""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, NamedTuple

from review import files
from review.book import backups, connection, heads, leftovers, proofs, union
from review.book.recording import Remember
from review.book.union import Log
from review.errors import BookError, BookNewer, BookUnwritable, Mendable

JOURNAL = "-journal"


class Restored(NamedTuple):
    """What a restored book holds."""

    aside: Path | None  # where the old file is now; None: there was none
    rows: int  # entries of the copy, but those of a child that stays forgotten
    saved: int  # entries the copy lacks, taken from the old file because its chain proves them


def restore(path: Path, copy: Path, remember: Remember) -> Restored:
    """Put the copy in the place of the book at `path`. Mendable for a copy of another book; BookError for
    one that is not sound, or where there is no room: then nothing was changed."""
    import secrets

    check_copy(copy)
    temporary = path.with_name(f".{path.name}.{secrets.token_hex(4)}.new")
    try:
        files.private_folder(path.parent)
        files.new_private_file(temporary)
        backups.fill(copy, temporary)
        with old_book(path) as old:
            leftovers.sweep(
                leftovers.half_made(path.parent, path.name), temporary, lambda: True
            )  # it is held
            held, saved = mended(temporary, old, path, remember)
            files.sync_file(temporary)
            aside = put_in_place(temporary, path, old)
        note_tails(path)
        return Restored(aside, held, saved)
    except PermissionError as error:
        raise BookUnwritable(
            f"{path} was not restored: it is open in another program, or you may not write there. "
            "Close that program and try again."
        ) from error
    except OSError as error:
        raise BookUnwritable(f"{path} was not restored {files.unwritten(error)}") from error
    except connection.FAILURES as error:
        raise connection.worded(error, path, "Nothing was restored: ") from error
    finally:
        with suppress(OSError):
            temporary.unlink(missing_ok=True)


def check_copy(copy: Path) -> None:
    """Whether every proof of the copy holds."""
    connection.check_file(copy, write=False)
    try:
        db = connection.connect(copy, write=False)
    except connection.FAILURES as error:
        raise connection.worded(error, copy) from error
    try:
        problems = proofs.log_problems(db)
    finally:
        db.close()
    if problems:
        raise connection.damaged(copy, problems[0].rstrip("."))


@contextmanager
def old_book(path: Path) -> Iterator[sqlite3.Connection | None]:
    """The book that stands there, as far as it can be opened, held against other writers; None otherwise.
    Where another program is writing, its error: what it has begun must not be moved away under it."""
    db = None
    try:
        try:
            with suppress(BookNewer):  # damage may have changed that number
                connection.check_file(path, write=False)
            db = connection.connect(path, write=True)
            db.execute("BEGIN IMMEDIATE")
        except (*connection.FAILURES, BookError, Mendable) as error:
            if connection.code_of(error) in connection.BUSY:
                raise
        yield db
    finally:
        if db is not None:
            with suppress(sqlite3.Error):
                db.close()


NO_MEMORY = "BEGIN IMMEDIATE; DELETE FROM memory; DELETE FROM fold; COMMIT;"
"""No hash proves the memory kept in a copy; the first that opens the book reckons it anew from the log."""


def mended(
    temporary: Path, old: sqlite3.Connection | None, path: Path, remember: Remember
) -> tuple[int, int]:
    """The copy with what the old book proves besides: (entries of the copy, entries taken from the old)."""
    db = connection.connect(temporary, write=True)
    try:
        db.executescript(NO_MEMORY)
        if old is None:
            return counted(db), 0
        bring_up(db, path)
        log = remnant(db, old, path)
        db.execute("BEGIN IMMEDIATE")
        taken = union.take_in(db, log, remember)
        db.execute("COMMIT")
        problems = proofs.log_problems(db)
        if problems:
            raise connection.damaged(path, problems[0].rstrip("."))
        return counted(db) - taken.rows, taken.rows
    finally:
        db.close()


def counted(db: sqlite3.Connection) -> int:
    return int(db.execute("SELECT count(*) FROM log").fetchone()[0])


def bring_up(db: sqlite3.Connection, path: Path) -> None:
    """A copy of an older version takes in no rows of ours."""
    from review.book import migrations

    if connection.version_of(db, path) < connection.VERSION:
        migrations.migrate(db)


def remnant(db: sqlite3.Connection, old: sqlite3.Connection, path: Path) -> Log:
    """What the old book still proves of what the copy lacks. Of anything else in it nothing is believed that
    is not of its kind: damage may have changed it."""
    (mine,) = db.execute("SELECT id FROM book").fetchone()
    theirs = next((id for (id,) in asked(old, "SELECT id FROM book") if isinstance(id, bytes)), mine)
    found = list(union.readable(old))
    if theirs != mine and not any(union.holds(db, row) for row in found):  # else the id is what was damaged
        raise Mendable(
            f"That is a copy of another book than {path}; choose one of review restore's list, "
            "or move the file that is there away first."
        )
    rows = tuple(union.grafts(db, found))
    speaks = {row.child for row in found}
    children = tuple(
        (key.hex(), forgotten == 1 and key.hex() not in speaks)  # a forgotten child has no rows left
        for key, forgotten in asked(old, "SELECT key, forgotten FROM child ORDER BY id")
        if isinstance(key, bytes) and len(key) == 16
    )
    devices = tuple(
        (device, following)
        for device, following in asked(old, "SELECT id, next FROM device ORDER BY id")
        if device in {row.device for row in found} and isinstance(following, int) and following > 0
    )
    known = {key for key, _ in children} | {key.hex() for (key,) in db.execute("SELECT key FROM child")}
    return Log(mine.hex(), devices, children, tuple(row for row in rows if row.child in known))


def asked(old: sqlite3.Connection, question: str) -> list[tuple[Any, ...]]:
    """What can be read; nothing where it cannot."""
    with suppress(*connection.FAILURES):
        return old.execute(question).fetchall()
    return []


def put_in_place(temporary: Path, path: Path, old: sqlite3.Connection | None) -> Path | None:
    """The copy gets the book's name, and the old file another, which is told; or all stays as it was.

    On Windows no file is replaced that is open, so the old book is let go just before. Another program would
    have to open it, write and close it in that very moment; while one has it open, it cannot be replaced.
    """
    aside = free_name(path) if os.path.lexists(path) else None
    if old is not None and files.WINDOWS:
        old.close()
    try:
        if aside:
            files.check_free(path)
            set_aside(path, aside)
        files.put_over(temporary, path)
    except OSError:
        if aside:
            put_back(path, aside)
        raise
    files.sync_folder(path.parent)
    return aside


def free_name(path: Path) -> Path:
    names = (path.with_name(f"{path.name}.set-aside-{number}") for number in range(1, 10_000))
    return next(name for name in names if not os.path.lexists(name))


def journal_of(path: Path) -> Path:
    return path.with_name(path.name + JOURNAL)


def set_aside(path: Path, aside: Path) -> None:
    """Give the old file, and its journal, a second name: the first is about to be another book's."""
    if journal_of(path).exists():
        files.move(journal_of(path), journal_of(aside))
    files.second_name(path, aside)


def put_back(path: Path, aside: Path) -> None:
    """The old file is the book after all; without its journal it could not be mended."""
    with suppress(OSError):
        if os.path.lexists(path):
            aside.unlink(missing_ok=True)
        else:
            files.move(aside, path)
    with suppress(OSError):
        files.move(journal_of(aside), journal_of(path))


def note_tails(path: Path) -> None:
    """The head file of the book as it is now: what was lost is known, and was accepted."""
    db = connection.connect(path, write=False)
    try:
        book = db.execute("SELECT id FROM book").fetchone()[0].hex()
        heads.write(path, book, proofs.current_tails(db))
    finally:
        db.close()


def held(copy: Path) -> tuple[int, int]:
    """What a copy holds, to choose by: its answers, and the practice day of its last entry (0: none)."""
    db = connection.connect(copy, write=False)
    try:
        answers = "SELECT count(*), max(day) FROM log WHERE kind = 'answer'"
        count, day = db.execute(answers).fetchone()
        return int(count), int(day or 0)
    finally:
        db.close()
