"""Whole books coming and going while the power is cut or the program is killed: copies, merges, imports, a
newer schema, a child that is forgotten. Whatever was left undone is done by doing it again."""

import shutil
from pathlib import Path

from review import files, gather
from review.app import archive
from review.book import backups, connection, exchange, restoring, union
from review.core.model import EVENT_KINDS
from review.errors import BookMissing
from review.gather import Outside
from tests.book import released
from tests.book.conftest import Place
from tests.book.name_forms import written_forms
from tests.book.newer import planted
from tests.book.tiny import DAY, START, TINY, answer, event, undo
from tests.faults.scenes import KEY, Scene, a_book, promise, stored, there

HERE, ELSEWHERE = [100, 101, 102, 103], [200, 201, 202, 203, 204, 205]
NAME = "Órla"
OTHER_KEY = bytes(range(16, 32))


def outside(place: Place) -> Outside:
    return Outside(place.path, place.state, START + 3_600_000, DAY + 1)


def other(folder: Path) -> Place:
    return there(folder / "other")


def new(folder: Path) -> Place:
    return there(folder / "new")


def log_file(folder: Path) -> Path:
    return folder / "log.jsonl"


# --- before --------------------------------------------------------------------------------------------


def a_book_and_another(folder: Path) -> None:
    """The same book in two places; each went on by itself, and the other one was also exported."""
    a_book(folder)
    place = other(folder)
    place.path.parent.mkdir()
    shutil.copy(there(folder).path, place.path)
    with place.open() as book:
        rows = book.record([answer(KEY.hex(), f"product:{n}x7", n) for n in ELSEWHERE], TINY)
        book.record([undo(KEY.hex(), rows[0], 300)], TINY)
    archive.export(outside(place), log_file(folder), None, table=False, replace=False)


def a_book_of_the_third_version(folder: Path) -> None:
    """As a program of then left it, when rows still held the hash of the one before."""
    released.made(3, there(folder).path)


def a_book_with_two_children(folder: Path) -> None:
    a_book(folder)
    with there(folder).open() as book:
        book.add_child(OTHER_KEY)
        book.record([event(OTHER_KEY.hex(), "profile", {"name": NAME, "age": 7})], TINY)
        book.record([answer(OTHER_KEY.hex(), f"product:{n}x7", n) for n in range(300, 310)], TINY)


# --- what is done --------------------------------------------------------------------------------------


def merge(folder: Path) -> None:
    archive.merge(outside(there(folder)), other(folder).path)


def take_in(folder: Path) -> None:
    archive.take_in_file(outside(there(folder)), log_file(folder))


def take_in_as_new(folder: Path) -> None:
    archive.take_in_file(outside(new(folder)), log_file(folder))


def merged(folder: Path) -> None:
    merge(folder)
    promise("merged")


def imported(folder: Path) -> None:
    take_in(folder)
    promise("imported")


def imported_as_new(folder: Path) -> None:
    take_in_as_new(folder)
    promise("imported")


def exported(folder: Path) -> None:
    archive.export(outside(there(folder)), log_file(folder), None, table=False, replace=False)
    promise("exported")


def copied_by_hand(folder: Path) -> None:
    promise(archive.backup(outside(there(folder)), folder / "by-hand.book"))


def copied_unsynced(folder: Path) -> None:
    """A planted fault: the copy has its name before it is on the disk."""
    files.sync_file = lambda path: None
    copied_by_hand(folder)


def brought_up(folder: Path) -> None:
    with planted(), there(folder).open():
        promise("brought up")


def brought_up_from_then(folder: Path) -> None:
    """Pages go to the file before the commit, as of a book that is longer than what is held in memory."""
    connection.SETTINGS = (*connection.SETTINGS, ("cache_size", "1", 1))
    with there(folder).open():
        promise("brought up")


def forgotten(folder: Path) -> None:
    with there(folder).open() as book:
        book.forget(OTHER_KEY.hex())
        promise("forgotten")


# --- what must hold ------------------------------------------------------------------------------------


def sound_again(place: Place) -> None:
    """Also with the memory of the program itself, which a merge folds."""
    with place.open(write=False) as book:
        problems = book.verify(gather.remember())
        assert problems == [], problems


def holds_one_log_or_both(folder: Path, promised: list[str]) -> None:
    check_union(there(folder), folder, promised)
    merge(folder)
    assert stored(there(folder)) == [*HERE, *ELSEWHERE]


def holds_one_log_or_both_of_a_file(folder: Path, promised: list[str]) -> None:
    check_union(there(folder), folder, promised)
    take_in(folder)
    assert stored(there(folder)) == [*HERE, *ELSEWHERE]


def check_union(place: Place, folder: Path, promised: list[str]) -> None:
    found = stored(place)
    assert found in ([*HERE, *ELSEWHERE], *([] if promised else [HERE])), found
    sound_again(place)
    copies = backups.copies(place.path)
    assert copies or found == HERE, "something came in before there was a copy"
    for copy in copies:
        restoring.check_copy(copy)


def holds_a_whole_import_or_a_beginning(folder: Path, promised: list[str]) -> None:
    """Nothing yet, an empty book, or all of it; importing again makes it whole."""
    try:
        found = stored(new(folder))
        assert found in ([*HERE, *ELSEWHERE], *([] if promised else [[]])), found
    except BookMissing:
        assert not promised
    take_in_as_new(folder)
    assert stored(new(folder)) == [*HERE, *ELSEWHERE]
    sound_again(new(folder))


def holds_a_whole_file_or_none(folder: Path, promised: list[str]) -> None:
    path = log_file(folder)
    assert path.exists() or not promised
    if path.exists():
        log = exchange.log_of(files.byte_lines(path), str(path))
        assert union.problem(log) == ""
        assert len(log.rows) == len(HERE)


def holds_a_copy_to_go_back_to(folder: Path, promised: list[str]) -> None:
    """Whatever has the name of the copy is one: the book is lost, and comes back from it."""
    copy = folder / "by-hand.book"
    assert stored(there(folder)) == HERE
    assert copy.exists() or not promised
    if copy.exists():
        there(folder).path.unlink()
        restoring.restore(there(folder).path, copy, TINY)
        assert stored(there(folder)) == HERE


def holds_a_newer_book(folder: Path, promised: list[str]) -> None:
    """The next start brings it up, or it is; the copy of the older one is there and can be gone back to."""
    place = there(folder)
    with planted():
        assert stored(place) == HERE
        with place.open(write=False) as book:
            rows = book.counts()[2]
            assert book._db.execute("PRAGMA user_version").fetchone() == (connection.VERSION,)
            assert book._db.execute("SELECT count(*) FROM extra").fetchone() == (rows,)
    copies = backups.copies(place.path)
    assert copies, "it was brought up without a copy"
    for copy in copies:
        restoring.check_copy(copy)


def holds_all_that_it_held_then(folder: Path, promised: list[str]) -> None:
    """The next start brings it up, or it is; the copy of then is sound and can be gone back to."""
    place = there(folder)
    with place.open() as book:
        assert book.verify(gather.remember()) == []
        assert {event.kind for event in book.events()} == {*EVENT_KINDS}
        assert book.counts()[1:] == (36, 46)
        assert book._db.execute("PRAGMA user_version").fetchone() == (connection.VERSION,)
        columns = [name for (name,) in book._db.execute("SELECT name FROM pragma_table_info('log')")]
        assert "previous" not in columns
        held = list(book.events())
    copies = backups.copies(place.path)
    assert copies, "it was brought up without a copy"
    for copy in copies:
        restoring.check_copy(copy)
    place.path.unlink()
    restoring.restore(place.path, copies[-1], gather.remember())
    with place.open(write=False) as book:
        assert list(book.events()) == held


def holds_a_child_whole_or_not_at_all(folder: Path, promised: list[str]) -> None:
    found = stored(there(folder))
    assert found == HERE
    with there(folder).open() as book:
        left = len(list(book.events(OTHER_KEY.hex()))) if OTHER_KEY.hex() in book.child_keys() else 0
    assert left in ((0,) if promised else (0, 11))
    if left:
        with there(folder).open() as book:
            book.forget(OTHER_KEY.hex())
        assert stored(there(folder)) == HERE
    held = [path.name for path in folder.rglob("*") if path.is_file() and traced(path.read_bytes())]
    assert not held, f"the name is in {held}"


def traced(data: bytes) -> bool:
    return any(form in data for form in written_forms(NAME))


OF_BOOKS = {
    "a merge": Scene(a_book_and_another, merged, holds_one_log_or_both),
    "an import": Scene(a_book_and_another, imported, holds_one_log_or_both_of_a_file),
    "an import that makes the book": Scene(
        a_book_and_another, imported_as_new, holds_a_whole_import_or_a_beginning
    ),
    "an export": Scene(a_book, exported, holds_a_whole_file_or_none),
    "a copy by hand": Scene(a_book, copied_by_hand, holds_a_copy_to_go_back_to),
    "a newer schema": Scene(a_book, brought_up, holds_a_newer_book),
    "a book of the third schema": Scene(
        a_book_of_the_third_version, brought_up_from_then, holds_all_that_it_held_then
    ),
    "forgetting a child": Scene(a_book_with_two_children, forgotten, holds_a_child_whole_or_not_at_all),
}
OF_BOOKS_PLANTED = {
    "a copy that is not synced": Scene(a_book, copied_unsynced, holds_a_copy_to_go_back_to),
}
