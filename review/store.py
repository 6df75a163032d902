"""The record book: reading and writing it. The log in it is the only truth.

Every write is one `BEGIN IMMEDIATE` transaction; when `record` returns, its events are on the disk.
"""

import sqlite3
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Self, TypeVar

from review import (
    chain,
    connection,
    devices,
    evenings,
    heads,
    packed,
    proofs,
    recording,
    rows,
    seasons,
)
from review.core.model import Draft, Event, Remembered
from review.devices import Note
from review.errors import BookDamaged, BookUnknownFate, BookUnwritable, ReviewError
from review.evenings import Ends
from review.opening import make, opened
from review.recording import Remember

if TYPE_CHECKING:  # whole logs are for exports and merges
    from review.union import Log, Taken

__all__ = ["Book", "Remember", "make", "new_child_key", "open_book"]

T = TypeVar("T")
NOT_STORED = "Nothing was stored: "


def new_child_key() -> bytes:
    import secrets

    return secrets.token_bytes(16)


# --- opening --------------------------------------------------------------------------------------------


def open_book(path: Path, state: Path, write: bool) -> "Book":
    """Open a book, for `with`. `state` is the user's state folder, where the device number is kept.

    A book of an older version is brought up to date first, after a backup, also when it is only to be read.
    Raises BookMissing, BookForeign, BookNewer, BookDamaged or BookUnwritable; then not a byte was changed.
    """
    place = connection.place_of(path)
    db, book_id = opened(place, path, write)
    try:
        return Book(place, db, book_id, state, write)
    except connection.FAILURES as error:
        db.close()
        raise connection.worded(error, path) from error


# --- the open book --------------------------------------------------------------------------------------


class Book:
    """An open record book. `id` is the same in every copy; `device` numbers what is written from here (0 in a
    book that is only read, and was never written, from here)."""

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

    def events(
        self,
        child: str | None = None,
        kinds: Collection[str] | None = None,
        since_day: int | None = None,
        until_day: int | None = None,
    ) -> Iterator[Event]:
        """Events in the one total order (day, at_ms, device, seq). Fast where `kinds` holds no answers."""
        found = self._read(lambda: rows.events(self._db, child, kinds, since_day, until_day=until_day))
        return self._each(found)

    def answers(self, child: str, card: str | None = None, last: int | None = None) -> list[Event]:
        """A child's answers in order: to one card (which reads them all), or the newest `last`."""
        cards = None if card is None else [card]
        return self._read(lambda: list(rows.events(self._db, child, ("answer",), cards=cards, last=last)))

    def answered(self, child: str, until_day: int = rows.LAST_DAY, most: int | None = None) -> int:
        """How many answers of a child are in the log, up to a day: counted in the indexes alone, or no more
        than `most`, where it does not matter how many more there are."""
        return self._read(
            lambda: rows.answered(self._db, rows.child_number(self._db, child), until_day, most)
        )

    def first_answer_day(self, child: str) -> int:
        """The day of a child's first answer; 0: there is none."""
        look = (
            "SELECT day FROM log INDEXED BY log_order WHERE child = ? AND kind = 'answer'"
            f" ORDER BY {rows.ORDER} LIMIT 1"
        )
        found = self._read(lambda: self._db.execute(look, (rows.child_number(self._db, child),)).fetchone())
        return found[0] if found else 0

    def child_keys(self) -> list[str]:
        """The keys of the children, in hex, in the order they were added."""
        return self._read(lambda: list(rows.children(self._db).values()))

    def last_days(self) -> dict[str, int]:
        """The practice day of each child's last event; children with none are left out."""
        newest = "SELECT max(day) FROM log INDEXED BY log_order WHERE child = ?"

        def ask() -> dict[str, int]:
            found = {
                key: self._db.execute(newest, (number,)).fetchone()[0]
                for number, key in rows.children(self._db).items()
            }
            return {key: day for key, day in found.items() if day is not None}

        return self._read(ask)

    def remembered(self, child: str) -> Remembered:
        """The cached memory, of each card and of all together; only worth something where `memory_version`
        is the one wanted."""
        return self._read(lambda: recording.remembered(self._db, rows.child_number(self._db, child)))

    def remembered_by(self, child: str, version: str) -> Remembered | None:
        """The cached memory, where it was folded by that rule and can be read; None: fold the log. What
        damage spoilt is thrown away by whoever may write, so that the next event builds it anew."""
        if self.memory_version(child) != version:
            return None
        number = self._read(lambda: rows.child_number(self._db, child))
        try:
            return self._read(lambda: recording.remembered(self._db, number))
        except BookDamaged as error:
            if not isinstance(error.__cause__, rows.Spoilt):
                raise
        if self._write:
            self._transact(lambda: recording.drop_memory(self._db, number), lambda done: True)
        return None

    def remembered_before(self, child: str, day: int) -> Remembered | None:
        """What was remembered before a day, as a season began: the latest that is cached; worth as much as
        `remembered`. None: nothing is kept from then."""
        return self._read(lambda: seasons.before(self._db, rows.child_number(self._db, child), day))

    def ends(self, child: str) -> Ends:
        """By device, the number of the last row of a child."""
        return self._read(lambda: evenings.ends(self._db, rows.child_number(self._db, child)))

    def evening(self, child: str, name: str) -> str:
        """What was kept under that name when a sitting ended; "" where the log has grown since."""
        return self._read(lambda: evenings.found(self._db, rows.child_number(self._db, child), name))

    def folded(self, child: str, remember: Remember) -> Remembered:
        """What the whole log of a child says, whatever is cached."""
        return self._read(lambda: recording.staged(self._db, child, remember)[-1])

    def memory_version(self, child: str) -> str:
        """By which rule the cached memory was folded; "" where there is none."""
        return self._read(lambda: rows.memory_version(self._db, rows.child_number(self._db, child)))

    def counts(self) -> tuple[int, int, int]:
        """Children, answers, and events of any kind."""
        (events,) = self._read(
            lambda: self._db.execute("SELECT count(*) FROM log INDEXED BY log_order").fetchone()
        )
        other = "SELECT count(*) FROM log INDEXED BY log_other WHERE kind <> 'answer'"
        (others,) = self._read(lambda: self._db.execute(other).fetchone())
        return len(self.child_keys()), events - others, events

    def log(self) -> "Log":
        """The whole log, as another book can take it in."""
        from review import union

        return self._read(lambda: union.whole(self._db))

    def verify(self, remember: Remember) -> list[str]:
        """Every proof there is, in words; []: the book is sound and memory rebuilds to the same bits."""
        head = heads.read(self.path, self.id)
        return self._read(
            lambda: [
                *proofs.log_problems(self._db),
                *proofs.asked(lambda db: proofs.head_problems(db, head), self._db),
                *proofs.asked(lambda db: proofs.memory_problems(db, remember), self._db),
            ]
        )

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

    def record(self, drafts: Sequence[Draft], remember: Remember) -> list[Event]:
        """Write events and what they do to memory, in one transaction. When this returns they are stored.

        ValueError for a body, card or child that cannot be logged; BookUnwritable: nothing was stored;
        BookUnknownFate: the disk failed in the very last step, and whether they are stored cannot be seen.
        """
        if not drafts:
            return []
        bodies = [chain.canonical(packed.packed(draft.kind, draft.body)) for draft in drafts]
        written = self._transact(
            lambda: recording.record(self._db, self.device, drafts, bodies, remember),
            lambda done: proofs.hash_of(self._db, done[-1][0].device, done[-1][0].seq) == done[-1][1],
        )
        self._note_tails()
        return [event for event, _ in written]

    def add_child(self, key: bytes) -> None:
        """Add a child by a key of `new_child_key`; its name is a `profile` event. ValueError: key in use."""
        if len(key) != 16:
            raise ValueError("the key of a child has 16 bytes")
        known = "SELECT 1 FROM child WHERE key = ?"
        self._transact(
            lambda: self._db.execute("INSERT INTO child (key) VALUES (?)", (key,)),
            lambda done: self._db.execute(known, (key,)).fetchone() is not None,
        )

    def replace_memory(self, child: str, version: str, memory: Remembered) -> None:
        """Put a fold of the whole log in place of the cache."""
        self._transact(
            lambda: recording.replace_memory(self._db, rows.child_number(self._db, child), version, memory),
            lambda done: rows.memory_version(self._db, rows.child_number(self._db, child)) == version,
        )

    def keep_evening(self, child: str, worked_out_at: Ends, texts: Mapping[str, str]) -> bool:
        """Keep what was worked out when the log ended there; whether it still does. Nobody's answers: where
        it could not be stored nothing is lost."""
        return self._transact(
            lambda: evenings.put(self._db, rows.child_number(self._db, child), worked_out_at, texts),
            lambda done: True,
        )

    def take_in(self, log: "Log", remember: Remember) -> "Taken":
        """Add the rows of another log that are not here, and what they do to memory, in one transaction.
        `union.Conflict` where they contradict what is here: then nothing was added."""
        from review import union

        taken = self._transact(
            lambda: union.take_in(self._db, log, remember),
            lambda done: union.take_in(self._db, log, remember).rows == 0,
        )
        self._note_tails()
        return taken

    def forget(self, child: str) -> None:
        """Take out everything of a child, and leave no trace of it in the file's free space."""
        self._transact(
            lambda: recording.forget(self._db, rows.child_number(self._db, child)),
            lambda done: child not in rows.children(self._db).values(),
        )
        self._lost = tuple(tail for tail in self._lost if tail.child != child)
        self._read(lambda: self._db.execute("VACUUM"))
        self._note_tails()

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
