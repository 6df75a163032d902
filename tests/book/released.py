"""A small book of each version of the schema that was ever released, kept as text for ever; and exports of
the newest versions of that format.

    python -m tests.book.released      (once, when a new version of the schema or the export is released)

They hold an entry of every kind. A file that is there is never written again: a family has it at home.
"""

import sqlite3
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from review import gather
from review.book import connection, exchange, store
from review.book.store import Book
from review.core.model import EVENT_KINDS, Draft
from tests.book.tiny import START
from tests.faults.rebuild import FIRST_DAY, log

BOOKS = Path(__file__).parents[1] / "data" / "books"
DEVICE, CHILD, GONE = 7, bytes(range(16)), bytes(range(16, 32))
BODIES: dict[str, dict[str, object]] = {
    "profile": {"name": "Orla", "age": 7, "seconds": 300, "zone": "Europe/London"},
    "set_add": {"set": "addition-facts-10"},
    "taught": {"skills": ["additions"]},
    "sitting": {"seconds": 300, "items": ["product:6x7 due 2100 976005 timed"]},
    "correct": {"device": DEVICE, "seq": 6, "mark": "right"},
    "known": {"cards": ["product:2x2"]},
    "away": {"from": FIRST_DAY + 3, "to": FIRST_DAY + 5},
    "fit": {"numbers": []},
    "undo": {"device": DEVICE, "seq": 7},
    "set_drop": {"set": "addition-facts-10"},
}


def path_of(version: int) -> Path:
    return BOOKS / f"schema-{version}.sql"


def export_of(version: int) -> Path:
    return BOOKS / f"export-{version}.jsonl"


def made(version: int, path: Path) -> None:
    """The book of that version, as a family has it."""
    db = sqlite3.connect(path, isolation_level=None)
    db.executescript(path_of(version).read_text(encoding="ascii"))
    db.close()


def drafts() -> list[Draft]:
    """Two days: what a parent says, answers, and what a parent says of those."""
    answers = [
        Draft(CHILD.hex(), "answer", one.day, START + one.at_ms, 60, one.card, one.body) for one in log(36)
    ]
    said = [
        Draft(CHILD.hex(), kind, FIRST_DAY, START, 60, "", BODIES[kind])
        for kind in ("profile", "set_add", "taught", "sitting")
    ]
    after = [
        Draft(CHILD.hex(), kind, FIRST_DAY + 1, START + 90_000, 60, "", BODIES[kind])
        for kind in ("correct", "known", "away", "fit", "undo", "set_drop")
    ]
    return [*said, *answers, *after]


@contextmanager
def one_now() -> Iterator[Book]:
    """A book made by the program as it is."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "family.book"
        store.make(path, bytes(16))
        with store.open_book(path, Path(folder) / "state", write=True) as book:
            book.add_child(CHILD)
            book.add_child(GONE)
            book.device = DEVICE
            for draft in drafts():
                book.record([draft], gather.remember())
            book.record([drafts()[0]._replace(child=GONE.hex())], gather.remember())
            book.forget(GONE.hex())
            assert {event.kind for event in book.events()} == {*EVENT_KINDS}
            assert book.verify(gather.remember()) == []
            yield book


def text_of(book: Book) -> str:
    """The SQL that makes it."""
    db = sqlite3.connect(book.path)
    try:
        marks = "".join(
            f"PRAGMA {name} = {db.execute(f'PRAGMA {name}').fetchone()[0]};\n"
            for name in ("application_id", "user_version")
        )
        return marks + "\n".join(db.iterdump()) + "\n"
    finally:
        db.close()


def main() -> None:
    with one_now() as book:
        new = {
            path_of(connection.VERSION): text_of(book),
            export_of(exchange.VERSION): b"".join(exchange.lines(book.log())).decode("ascii"),
        }
    missing = {path: text for path, text in new.items() if not path.exists()}
    if not missing:
        sys.exit("Those of these versions are there already, and are never written again")
    for path, text in missing.items():
        path.write_text(text, encoding="ascii")


if __name__ == "__main__":
    main()
