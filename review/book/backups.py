"""Copies of the book: verified before they count, one a practice day, seven days and four weeks kept.

They stand in a folder beside the book, one file each, and each is a whole book.
"""

import re
import sqlite3
from collections.abc import Iterable
from contextlib import suppress
from datetime import date
from pathlib import Path
from typing import Protocol

from review import files
from review.book import connection, leftovers, proofs
from review.errors import BookDamaged, BookUnwritable
from review.shell import word

DAYS, WEEKS = 7, 4  # our judgement: a week to notice, a month to miss it
SUFFIX = ".book"


class OnDisk(Protocol):
    """Of an open book: where its file is."""

    path: Path


def folder_of(book: Path) -> Path:
    return book.with_name(f"{book.name}.backups")


def dated(folder: Path) -> dict[date, Path]:
    """The daily copies, oldest first. A date that is spelled otherwise is a name somebody gave: it stays."""
    days = ((day_named(path.stem), path) for path in folder.glob(f"*{SUFFIX}"))
    return dict(sorted((day, path) for day, path in days if day))


def day_named(name: str) -> date | None:
    with suppress(ValueError):
        day = date.fromisoformat(name)
        return day if day.isoformat() == name else None
    return None


def daily(book: OnDisk, day: int) -> Path | None:
    """Today's copy, where there is none yet, else None; then the oldest ones go.

    BookDamaged where the book is not sound or lacks rows an earlier copy holds: then no copy is made and none
    goes. BookUnwritable where there is no room.
    """
    folder, today = folder_of(book.path), date.fromordinal(day)
    target = folder / f"{today.isoformat()}{SUFFIX}"
    if target.exists():
        return None
    copy(book.path, target, earlier=list(dated(folder).values()))
    thin(folder)
    return target


def before_migration(path: Path, version: int) -> Path:
    """A copy of a book of an older version, under a name no other copy has."""
    return named(path, f"version-{version}")


def before(path: Path, what: str) -> Path:
    """A copy of the book before something comes in. Two homes may merge every day for years, so of the copies
    before one such thing the newest seven stay."""
    made = named(path, f"before-{what}")
    for old in sorted(numbered(path, f"before-{what}").items())[:-DAYS]:
        with suppress(OSError):
            old[1].unlink(missing_ok=True)
    return made


def named(path: Path, name: str) -> Path:
    """A copy of the book under that name, or with the number after the last one like it. It stays."""
    last = max(numbered(path, name), default=None)
    target = folder_of(path) / (f"{name}{SUFFIX}" if last is None else f"{name}-{last + 1}{SUFFIX}")
    copy(path, target)
    return target


def numbered(path: Path, name: str) -> dict[int, Path]:
    """The copies of that name by their number; the first has none, and counts as 0."""
    like = re.compile(rf"{re.escape(name)}(?:-([1-9][0-9]{{0,8}}))?{re.escape(SUFFIX)}")
    found = ((like.fullmatch(one.name), one) for one in folder_of(path).glob(f"*{SUFFIX}"))
    return {int(match[1] or 0): one for match, one in found if match}


def copies(book: Path) -> list[Path]:
    """Every copy beside the book, newest first. A link to nowhere is none, nor what is gone meanwhile."""
    whole = (path for path in folder_of(book).glob(f"*{SUFFIX}") if not path.name.startswith("."))
    made = [(at, path.name, path) for path in whole if (at := made_at(path)) is not None]
    return [path for _, _, path in sorted(made, reverse=True)]


def made_at(path: Path) -> float | None:
    """In seconds since 1970; None: it is not there."""
    with suppress(OSError):
        return path.stat().st_mtime
    return None


def copy(path: Path, target: Path, earlier: Iterable[Path] = ()) -> None:
    """A copy of the book at `path`, named `target` only once it is verified and on the disk."""
    import secrets

    temporary = target.with_name(f".{target.stem}.{secrets.token_hex(4)}.new")
    try:
        files.private_folder(target.parent)
        files.new_private_file(temporary)
        sweep_half_made(path, target, temporary)
        fill(path, temporary)
        check(path, temporary, earlier)
        files.publish(temporary, target)
    except FileExistsError:
        return  # another program made the same copy meanwhile
    except OSError as error:
        raise BookUnwritable(f"No copy of {path} was made {files.unwritten(error)}") from error
    except sqlite3.Error as error:
        raise connection.worded(error, path, "No copy was made: ") from error
    finally:
        with suppress(OSError):
            temporary.unlink(missing_ok=True)


def sweep_half_made(path: Path, target: Path, fresh: Path) -> None:
    """What killed programs left: in the book's own folder of copies all of it, elsewhere this copy's."""
    own = target.parent == folder_of(path)
    found = leftovers.half_made(target.parent, "" if own else target.stem)
    leftovers.sweep(found, fresh, lambda: leftovers.nobody_at(path))


def fill(path: Path, temporary: Path) -> None:
    """Copy page by page through SQLite, which never sees half a transaction."""
    source = connection.connect(path, write=False)
    copied = sqlite3.connect(temporary, isolation_level=None)
    try:
        copied.execute("PRAGMA synchronous = OFF")  # it is flushed as a whole before it gets its name
        copied.execute("PRAGMA journal_mode = MEMORY")
        source.backup(copied)
    finally:
        copied.close()
        source.close()


def check(path: Path, temporary: Path, earlier: Iterable[Path]) -> None:
    db = connection.connect(temporary, write=False)
    try:
        problems = proofs.log_problems(db)
        if problems:
            raise connection.damaged(path, problems[0].rstrip("."))
        check_against_newest(db, path, earlier)
    finally:
        db.close()


def check_against_newest(db: sqlite3.Connection, path: Path, earlier: Iterable[Path]) -> None:
    """Against the newest copy that can be read."""
    for other in reversed(list(earlier)):
        with suppress(sqlite3.Error, BookUnwritable):  # a damaged copy proves nothing
            missing = lacking(db, other)
            if missing:
                entries = "1 entry" if missing == 1 else f"{missing} entries"
                raise BookDamaged(
                    f"{path} lacks {entries} that its copy {other} holds, so no new copy was made. "
                    f"To bring back what is missing: review merge {word(str(other))}"
                )
            return


def lacking(db: sqlite3.Connection, other: Path) -> int:
    """How many rows of the other book this one does not hold, those of forgotten children apart. The chains
    of this one were proved just now: where it holds the last row of one, it holds what went before."""
    copy = connection.connect(other, write=False)
    try:
        if not proofs.lost_tails(db, proofs.current_tails(copy)):
            return 0
        forgotten = {key for (key,) in db.execute("SELECT key FROM child WHERE forgotten = 1")}
        every = copy.execute("SELECT device, seq, key, hash FROM log JOIN child ON child.id = log.child")
        mine = ((device, seq, hash) for device, seq, key, hash in every if key not in forgotten)
        return sum(proofs.hash_of(db, device, seq) != hash for device, seq, hash in mine)
    finally:
        copy.close()


# --- which are kept -------------------------------------------------------------------------------------


def thin(folder: Path) -> None:
    """Delete the daily copies that `kept` does not name; one that is open somewhere (Windows) goes later."""
    found = dated(folder)
    stay = kept(found)
    for day, path in found.items():
        if day not in stay:
            with suppress(OSError):
                path.unlink(missing_ok=True)


def kept(days: Iterable[date]) -> set[date]:
    """The newest seven days, and the last day of each of the four newest weeks that ended before them."""
    newest = sorted(days, reverse=True)
    weeks: dict[tuple[int, int], date] = {}
    for day in newest:
        weeks.setdefault(day.isocalendar()[:2], day)
    ended = [day for day in weeks.values() if day not in newest[:DAYS]]
    return {*newest[:DAYS], *ended[:WEEKS]}


def holding(book: OnDisk, child: str, name: str = "") -> list[Path]:
    """The files beside the book that hold the child: copies, half-made ones, and books set aside. What to
    offer for deletion when the child is forgotten."""
    folder = folder_of(book.path)
    found = {*folder.glob(f"*{SUFFIX}"), *leftovers.half_made(folder)}
    paths = [*sorted(found), *leftovers.beside(book.path)]
    return [path for path in paths if leftovers.holds(path, child, name)]


def others_holding(book: OnDisk, child: str, name: str = "") -> list[Path]:
    """Other record books of that folder that hold the child: a copy somebody carried or a program made, or a
    book of its own. Which of them is needed only the family knows."""
    return [path for path in leftovers.other_books(book.path) if leftovers.holds(path, child, name)]
