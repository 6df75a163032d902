"""The file of an open record book: questions to it, and one transaction at a time, whose fate is known.

Another program may put a copy in the place of the file while it is open: the file that has the name is the
book.
"""

import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path
from types import TracebackType
from typing import Self, TypeVar

from review.book import connection, devices, heads, proofs
from review.book.devices import Note
from review.book.opening import opened
from review.errors import BookUnknownFate, BookUnwritable, ReviewError

T = TypeVar("T")
NOT_STORED = "Nothing was stored: "


class OpenFile:
    """An open book as a file.

    `id` is the same in every copy; `device` numbers what is written from here (0 in a book that is only read,
    and was never written, from here).
    """

    def __init__(self, path: Path, db: sqlite3.Connection, book_id: str, state: Path, write: bool) -> None:
        self.path = path
        self.id = book_id
        self._db = db
        self._write = write
        self._file = identity(path)
        self._note = devices.note_path(state, book_id, path)
        head = heads.read(path, book_id)  # before the book: what is in the book is then at least as new
        self._lost = proofs.lost_tails(db, head)
        self.device = self._device()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        self._db.close()

    def _device(self) -> int:
        note = devices.read(self._note)
        known = note is not None and not self._is_ahead(note)
        if note is not None and (known or not self._write):
            return note.device
        if not self._write:
            return 0
        device = devices.mint()
        devices.write(self._note, Note(device, 0), sync=True)
        return device

    def _is_ahead(self, note: Note) -> bool:
        """Whether this device wrote rows the book does not hold: then it is an older copy."""
        found = self._db.execute("SELECT next FROM device WHERE id = ?", (note.device,)).fetchone()
        used = found[0] - 1 if found else 0
        return note.seq > used or any(tail.device == note.device for tail in self._lost)

    # --- reading ---

    def _read(self, question: Callable[[], T]) -> T:
        try:
            return question()
        except connection.FAILURES as error:
            raise connection.worded(error, self.path) from error

    def _each(self, found: Iterator[T]) -> Iterator[T]:
        """The same for what is read while it is gone through."""
        try:
            yield from found
        except connection.FAILURES as error:
            raise connection.worded(error, self.path) from error

    # --- writing ---

    def _transact(self, work: Callable[[], T], stored: Callable[[T], bool]) -> T:
        """Do the work in one transaction. `stored` says, when the end of it failed, whether it was kept."""
        if not self._write:
            raise BookUnwritable(f"{NOT_STORED}{self.path} was opened for reading only.")
        self._stay_with_file()
        try:
            self._begin()
            done = work()
        except BaseException as error:
            self._roll_back()
            if isinstance(error, sqlite3.IntegrityError):
                raise ValueError(f"the book refuses this: {error}") from error
            if isinstance(error, sqlite3.Error):
                raise connection.worded(error, self.path, NOT_STORED) from error
            raise
        try:
            self._db.execute("COMMIT")
        except sqlite3.Error as error:
            self._look_up(lambda: stored(done), error)
        return done

    def _begin(self) -> None:
        """The write lock of the file that is the book now: while one waits, another may be put in its place,
        or a newer version of the program may bring it up."""
        self._db.execute("BEGIN IMMEDIATE")
        while identity(self.path) != self._file:
            self._db.execute("ROLLBACK")
            self._stay_with_file()
            self._db.execute("BEGIN IMMEDIATE")
        connection.version_of(self._db, self.path)

    def _roll_back(self) -> None:
        """Back to before the transaction; closing does that, whatever SQLite says."""
        try:
            if self._db.in_transaction:
                self._db.execute("ROLLBACK")
        except sqlite3.Error:
            self._db.close()
            self._file = None  # opened again by the next write

    def _look_up(self, stored: Callable[[], bool], error: sqlite3.Error) -> None:
        """An error at COMMIT means "unknown": 48 refused answers were in fact stored (measured here)."""
        try:
            self._reopen()
            kept = stored()
        except (sqlite3.Error, ReviewError) as again:
            raise BookUnknownFate(
                f"Whether the last answer is stored in {self.path} cannot be seen ({error}); "
                "check the disk, then run verify."
            ) from again
        if not kept:
            raise connection.worded(error, self.path, NOT_STORED) from error

    def _stay_with_file(self) -> None:
        """A book put in the place of the open one is the book: what is written to the old one is lost."""
        if self._file is None or identity(self.path) != self._file:
            self._read(self._reopen)
            self.device = self._read(self._device)

    def _reopen(self) -> None:
        self._db.close()
        self._file = None
        db, book_id = opened(self.path, self.path, self._write)
        if book_id != self.id:
            db.close()
            raise BookUnwritable(f"{NOT_STORED}another record book was put at {self.path}; start again.")
        self._db, self._file = db, identity(self.path)
        self._lost = proofs.lost_tails(db, heads.read(self.path, book_id))

    def _note_tails(self) -> None:
        """After the commit: the head file, and this device's last number. Neither is wrong when behind."""
        try:
            tails = proofs.current_tails(self._db)
            found = self._db.execute("SELECT next FROM device WHERE id = ?", (self.device,)).fetchone()
        except sqlite3.Error:
            return
        heads.write(self.path, self.id, [*tails, *self._lost])
        devices.write(self._note, Note(self.device, found[0] - 1 if found else 0))


def identity(path: Path) -> tuple[int, int] | None:
    """Which file has that name now."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
