"""What stands beside a book besides its copies: files that were left half made, and books set aside."""

import json
import re
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

from review import files
from review.book import connection
from review.errors import BookError, BookMissing

HALF_MADE = r"\.[0-9a-f]{8}\.new(-journal)?"
ASIDE = r"\.set-aside-[0-9]+(-journal)?"
QUIET_S = 600  # a file nothing was written to for so long is no longer being made (our judgement)
CHUNK = 1 << 20


def half_made(folder: Path, name: str = "") -> list[Path]:
    """The half-made files of that name in the folder; without a name, of any."""
    return matching(folder, rf"\.{re.escape(name) or '.+'}{HALF_MADE}")


def beside(book: Path) -> list[Path]:
    return [*half_made(book.parent, book.name), *matching(book.parent, re.escape(book.name) + ASIDE)]


def other_books(book: Path) -> list[Path]:
    """Every other record book in the folder of that one, whatever it is called: a program that keeps folders
    of two computers alike names a copy as it likes. Half-made ones and those set aside are told apart."""
    own = {book, *beside(book)}
    return [path for path in matching(book.parent, ".+") if path not in own and is_book(path)]


def is_book(path: Path) -> bool:
    with suppress(BookError, BookMissing, OSError):
        connection.check_file(path, write=False)
        return True
    return False


def matching(folder: Path, pattern: str) -> list[Path]:
    """Plain files only: a link or a folder of such a name is not ours."""
    with suppress(OSError):
        found = [path for path in folder.iterdir() if re.fullmatch(pattern, path.name)]
        return sorted(path for path in found if path.is_file() and not path.is_symlink())
    return []


# --- swept ----------------------------------------------------------------------------------------------


def sweep(found: list[Path], fresh: Path, alone: Callable[[], bool]) -> None:
    """Delete those that were left long before `fresh` was made, where nobody else is at the book. The age is
    told by the file system's own clock, because a copy is checked for a while without the book being held."""
    for path in [path for path in found if path != fresh and is_left(path, fresh)]:
        if not alone():
            return
        with suppress(OSError):
            path.unlink()


def is_left(path: Path, fresh: Path) -> bool:
    with suppress(OSError):
        return fresh.stat().st_mtime - path.stat().st_mtime > QUIET_S
    return False


def nobody_at(book: Path) -> bool:
    """Whether no program reads or writes the book at this moment; False where that cannot be told."""
    with suppress(sqlite3.Error):
        db = sqlite3.connect(connection.uri(book, "rw"), uri=True, timeout=0, isolation_level=None)
        try:
            db.execute("BEGIN EXCLUSIVE")
            db.execute("ROLLBACK")
            return True
        finally:
            db.close()
    return False


# --- which hold a child ---------------------------------------------------------------------------------


def holds(path: Path, child: str, name: str) -> bool:
    """Whether the file holds rows of the child. Of one that is no whole book: whether the child's key or the
    name, as the log writes it, stands anywhere in it."""
    with suppress(*connection.FAILURES, BookError):
        return has_rows(path, bytes.fromhex(child))
    with suppress(OSError):
        return has_bytes(path, traces(child, name))
    return False


def has_rows(path: Path, key: bytes) -> bool:
    db = connection.connect(path, write=False)
    try:
        rows = "SELECT EXISTS (SELECT 1 FROM log JOIN child ON child.id = log.child WHERE key = ?)"
        return bool(db.execute(rows, (key,)).fetchone()[0])
    finally:
        db.close()


def traces(child: str, name: str) -> list[bytes]:
    """A short name could stand in any file by chance: it is looked for as a body of the log has it."""
    named = [f'"name":{json.dumps(name, ensure_ascii=plain)}'.encode() for plain in (True, False)]
    return [bytes.fromhex(child), *(named if name else [])]


def has_bytes(path: Path, wanted: list[bytes]) -> bool:
    return any(trace in window for window in windows(path, max(map(len, wanted))) for trace in wanted)


def windows(path: Path, overlap: int) -> Iterator[bytes]:
    """The file in parts, each with the end of the one before."""
    end = b""
    with files.opened(path) as file:
        while part := file.read(CHUNK):
            yield end + part
            end = (end + part)[-overlap:]
