"""What `export`, `import`, `merge`, `backup` and `restore` do: the whole book, out and in."""

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from review import clock, files, gather, writes
from review.app import unusual
from review.book import backups, connection, exchange, restoring, store, union
from review.book.restoring import Restored
from review.book.store import Book
from review.book.union import Log, Taken
from review.core import answer_rows, family
from review.core.model import STANDARD, Child, Words
from review.errors import BookError, BookMissing, Mendable
from review.gather import Outside
from review.shell import word


class Exported(NamedTuple):
    path: Path
    rows: int  # entries of the log, or answers of a table
    words: Words = STANDARD


class Copy(NamedTuple):
    """A copy of the book, and what it holds."""

    path: Path
    answers: int
    day: int  # of its last answer; 0: it holds none
    sound: bool


class Merged(NamedTuple):
    """What came into the book."""

    path: Path  # the book
    taken: Taken
    new: tuple[str, ...]  # names of the children that were unknown here
    copy: Path | None  # made before; None: the book is new, or nothing was
    words: Words = STANDARD
    left: tuple[str, ...] = ()  # names of children it holds that were forgotten here
    other: Path | None = None  # the other copy of the book


# --- out -----------------------------------------------------------------------------------------------


def export(outside: Outside, target: Path, child_name: str | None, table: bool, replace: bool) -> Exported:
    """The whole log, lossless; or a table of the answers, to be looked at."""
    with gather.reading(outside) as book:
        children = gather.family_of(book)
        words = family.words_of_all(children)
        only = None if child_name is None else gather.child_named(children, child_name)
        if table:
            rows = [row for child in children if only in (None, child) for row in answer_table(book, child)]
            return written(target, answer_rows.lines(rows), len(rows), words, replace)
        log = book.log()
        check_sound(log, outside.book)
        if only is not None:
            log = log._replace(
                children=tuple(one for one in log.children if one[0] == only.key),
                rows=tuple(row for row in log.rows if row.child == only.key),
            )
        return written(target, exchange.lines(log), len(log.rows), words, replace)


def check_sound(log: Log, path: Path) -> None:
    found = union.problem(log)
    if found:
        raise connection.damaged(path, found)


def written(target: Path, lines: Iterator[bytes], rows: int, words: Words, replace: bool) -> Exported:
    try:
        files.write_lines(target, lines, replace)
    except FileExistsError as error:
        raise Mendable(f"{target} exists already; choose another name, or add --force.") from error
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise Mendable(f"{target} cannot be written ({reason}); choose another place.") from error
    return Exported(target, rows, words)


def answer_table(book: Book, child: Child) -> Iterator[answer_rows.AnswerRow]:
    yield from answer_rows.table(child.name, book.events(child=child.key))


# --- in ------------------------------------------------------------------------------------------------


def take_in_file(outside: Outside, source: Path) -> Merged:
    """The entries of an exported file; a book that is not there yet is made, as the one it came from."""
    log = exchange.log_of(files.byte_lines(source), str(source))
    check_whole(log, str(source))
    if not files.is_there(outside.book):
        store.make(outside.book, bytes.fromhex(log.book))
        return taken_in(outside, log, str(source), "")
    return taken_in(outside, log, str(source), "import")


def merge(outside: Outside, other: Path) -> Merged:
    """The entries of another copy of the same book."""
    if not files.is_there(other):
        raise BookMissing(f"There is no file {other}. Name the other copy of the book.")
    with gather.reading(outside) as book, gather.reading(outside._replace(book=other)) as copy:
        if book.path == copy.path:
            raise Mendable(f"{other} is the book itself; name the other copy.")
        if book.id != copy.id:
            raise Mendable(
                f"{other} is another book, no copy of {outside.book}. To bring its children here: "
                f"review --book {word(str(other))} export FILE, then review import FILE"
            )
        log = copy.log()
    check_whole(log, str(other))
    return taken_in(outside, log, str(other), "merge")._replace(other=other)


def check_whole(log: Log, name: str) -> None:
    found = union.problem(log)
    if found:
        raise Mendable(f"{name} is not whole: {found}. Nothing was taken from it. Make that file again.")
    found = unusual.problem(log)
    if found:
        raise Mendable(
            f"{name} holds what this version cannot use: {found}. Nothing was taken from it. "
            "If a newer version wrote it, install that one; else export it again."
        )


def copied(outside: Outside, what: str, log: Log) -> Path | None:
    """A copy of the book as it is, before anything comes in; None where all of it is here already. Mendable
    before one is made where a namesake would come in."""
    with gather.reading(outside) as book:
        if what == "import":
            check_no_namesake(gather.family_of(book), log)
        if book.has(log):
            return None
    return backups.before(connection.place_of(outside.book), what)


def taken_in(outside: Outside, log: Log, name: str, what: str) -> Merged:
    """`what` brings it in, "import" or "merge"; "": into a book that is new, of which no copy is made."""
    copy = copied(outside, what, log) if what else None
    with writes.writing(outside) as book:
        before = gather.family_of(book)
        try:
            taken = book.take_in(log, gather.remember())
        except union.Conflict as error:
            raise Mendable(
                f"{name} contradicts the book: {error}. Nothing was taken from it. "
                "To see which of the two is sound: review verify, on either."
            ) from error
        known, now = {child.key for child in before}, gather.family_of(book)
        here = {child.key for child in now}
        new = tuple(child.name for child in now if child.key not in known)
        left = tuple(child.name for child in exchange.children(log) if child.key not in here)
        return Merged(book.path, taken, new, copy, family.words_of_all(now), left)


def check_no_namesake(known: tuple[Child, ...], log: Log) -> None:
    """Two families may both have a Mira: then one of the two is called otherwise first. Who is here already
    keeps the name of here, or each later file of that family would be refused again."""
    mine = {child.name.casefold(): child for child in known}
    here = {child.key for child in known}
    for child in exchange.children(log):
        other = mine.get(child.name.casefold())
        if other is not None and child.key not in here:
            raise Mendable(
                f"Both books have a child called {child.name}. Give the one here another name first: "
                f"review child edit {word(other.name)} --name {word(f'{other.name} B')}"
            )


# --- copies --------------------------------------------------------------------------------------------


def backup(outside: Outside, target: Path | None) -> Path:
    """A verified copy now: under that name, or beside the book under the name of now."""
    place = connection.place_of(outside.book)
    connection.check_file(place, write=False)
    if target is None:
        return backups.named(place, clock.stamp(outside.now_ms))
    files.check_name(target)
    if files.is_there(target):
        raise Mendable(f"{target} exists already; choose another name for the copy.")
    backups.copy(place, target)
    return target


def copies(outside: Outside) -> list[Copy]:
    """The copies beside the book, newest first; the book itself may be gone."""
    return [described(path) for path in backups.copies(where(outside.book))]


def where(book: Path) -> Path:
    try:
        return connection.place_of(book)
    except BookMissing:
        return book


def described(path: Path) -> Copy:
    try:
        restoring.check_copy(path)
        return Copy(path, *restoring.held(path), True)
    except (BookError, BookMissing):  # the second where it is gone since it was listed
        return Copy(path, 0, 0, False)


def restore(outside: Outside, wanted: str) -> tuple[Path, Restored]:
    """Put a copy in the place of the book: a file, or one of its own copies by its date."""
    copy = copy_named(where(outside.book), wanted)
    return copy, restoring.restore(where(outside.book), copy, gather.remember())


def check_there(outside: Outside, wanted: str) -> None:
    """Before anybody is asked whether to go back to it."""
    copy_named(where(outside.book), wanted)


def copy_named(book: Path, wanted: str) -> Path:
    own = {path.stem: path for path in backups.copies(book)}
    found = own.get(wanted) or Path(wanted)
    if not files.is_there(found):
        near = ", ".join(list(own)[:3]) or "none"
        raise Mendable(f"There is no copy “{wanted}”; the newest are: {near}. All: review restore")
    return found
