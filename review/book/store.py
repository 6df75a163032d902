"""The record book: reading and writing it. The log in it is the only truth.

Every write is one `BEGIN IMMEDIATE` transaction; when `record` returns, its events are on the disk.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from review.book import chain, connection, evenings, heads, packed, proofs, recording, rows, seasons
from review.book.evenings import Ends
from review.book.open_file import OpenFile
from review.book.opening import make, opened
from review.book.recording import Remember
from review.core.model import Draft, Event, Remembered
from review.errors import BookDamaged

if TYPE_CHECKING:  # whole logs are for exports and merges
    from review.book.union import Log, Taken

__all__ = ["Book", "Remember", "make", "new_child_key", "open_book"]


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


class Book(OpenFile):
    """An open record book: what it can be asked, and what can be written to it."""

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
        from review.book import union

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

    def has(self, log: "Log") -> bool:
        """Whether all of another log is here already."""
        from review.book import union

        return self._read(lambda: union.is_here(self._db, log))

    def take_in(self, log: "Log", remember: Remember) -> "Taken":
        """Add the rows of another log that are not here, and what they do to memory, in one transaction.
        `union.Conflict` where they contradict what is here: then nothing was added."""
        from review.book import union

        taken = self._transact(
            lambda: union.take_in(self._db, log, remember),
            lambda done: union.is_here(self._db, log),
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
