"""Whatever fails, `record` says the truth: stored, not stored, or not known."""

import resource
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from review.book import connection
from review.book.store import Book
from review.errors import BookError, BookMissing, BookUnknownFate, BookUnwritable
from tests.book.conftest import Place, new_place
from tests.book.tiny import TINY, answer, values


class Failing:
    """A connection whose COMMIT goes wrong in a way of the test's choosing."""

    def __init__(self, real: sqlite3.Connection, commit: Callable[[sqlite3.Connection], object]) -> None:
        self._real = real
        self._commit = commit

    def __getattr__(self, name: str) -> Any:
        return getattr(self._real, name)

    def execute(self, sql: str, *values: Any) -> Any:
        return self._commit(self._real) if sql == "COMMIT" else self._real.execute(sql, *values)


def broken() -> sqlite3.OperationalError:
    return sqlite3.OperationalError("disk I/O error")


def after(db: sqlite3.Connection) -> None:
    """The rows are stored, and then the error comes."""
    db.execute("COMMIT")
    raise broken()


def before(db: sqlite3.Connection) -> None:
    raise broken()


def fail(book: Book, commit: Callable[[sqlite3.Connection], object]) -> None:
    book._db = Failing(book._db, commit)  # type: ignore[assignment]


def test_an_error_after_the_commit_is_no_error(book: Book, place: Place) -> None:
    fail(book, after)
    (row,) = book.record([answer(place.child)], TINY)
    assert book.answers(place.child) == [row]
    book.record([answer(place.child, ms=1)], TINY)
    assert book.verify(TINY) == []


def test_an_error_before_the_commit_is_not_stored(book: Book, place: Place) -> None:
    fail(book, before)
    with pytest.raises(BookUnwritable, match="Nothing was stored"):
        book.record([answer(place.child)], TINY)
    assert book.counts() == (1, 0, 0)
    assert book.record([answer(place.child)], TINY)[0].seq == 1


def test_another_row_with_that_number_is_not_ours(book: Book, place: Place) -> None:
    def lose_the_race(db: sqlite3.Connection) -> None:
        db.execute("ROLLBACK")
        with place.open() as other:
            other.record([answer(place.child, ms=77)], TINY)
        raise broken()

    fail(book, lose_the_race)
    with pytest.raises(BookUnwritable, match="Nothing was stored"):
        book.record([answer(place.child)], TINY)
    assert values(book.answers(place.child), "at_ms") == values(book.answers(place.child), "raw_ms")
    assert len(book.answers(place.child)) == 1


def test_a_book_that_cannot_be_opened_again_leaves_the_fate_unknown(
    book: Book, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_more(path: Path, write: bool) -> sqlite3.Connection:
        raise broken()

    fail(book, after)
    with monkeypatch.context() as patched:
        patched.setattr(connection, "connect", no_more)
        with pytest.raises(BookUnknownFate, match="cannot be seen") as caught:
            book.record([answer(place.child)], TINY)
        assert str(place.path) in str(caught.value)
        with pytest.raises(BookUnwritable):
            book.record([answer(place.child)], TINY)
    book.record([answer(place.child, ms=1)], TINY)
    assert book.counts() == (1, 2, 2)
    assert book.verify(TINY) == []


@pytest.mark.parametrize(("commit", "kept"), [(after, True), (before, False)])
def test_a_child_has_a_fate_too(
    book: Book, commit: Callable[[sqlite3.Connection], object], kept: bool
) -> None:
    fail(book, commit)
    key = bytes(range(16))
    if kept:
        book.add_child(key)
    else:
        with pytest.raises(BookUnwritable):
            book.add_child(key)
    assert (key.hex() in book.child_keys()) is kept


@pytest.mark.parametrize(("commit", "kept"), [(after, True), (before, False)])
def test_a_log_that_is_taken_in_has_a_fate_too(
    book: Book, place: Place, tmp_path: Path, commit: Callable[[sqlite3.Connection], object], kept: bool
) -> None:
    """To see whether it is there is only to look: to take it in once more, row by row, could leave half."""
    other = place._replace(path=tmp_path / "other.book", state=tmp_path / "other")
    shutil.copy(place.path, other.path)
    with other.open() as copy:
        copy.record([answer(place.child, ms=n) for n in range(5)], TINY)
        copy.add_child(bytes(range(16)))
        log = copy.log()
    fail(book, commit)
    if kept:
        assert book.take_in(log, TINY).rows == 5
    else:
        with pytest.raises(BookUnwritable, match="Nothing was stored"):
            book.take_in(log, TINY)
    assert book.counts() == ((2, 5, 5) if kept else (1, 0, 0))
    assert book.verify(TINY) == []
    assert book.take_in(log, TINY).rows == (0 if kept else 5)
    assert book.verify(TINY) == []


def test_an_interruption_inside_the_transaction_stores_nothing(book: Book, place: Place) -> None:
    def interrupt(*_: object) -> Any:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        book.record([answer(place.child)], TINY._replace(fold=interrupt))
    assert book.counts() == (1, 0, 0)
    assert len(book.record([answer(place.child)], TINY)) == 1


# --- full disks -----------------------------------------------------------------------------------------


def fill_until_refused(book: Book, place: Place) -> tuple[int, BookError]:
    """Record until the book refuses: how many answers were acknowledged, and what was said."""
    for count in range(400):
        try:
            book.record([answer(place.child, f"product:{count}x7", count)], TINY)
        except BookError as error:
            return count, error
    raise AssertionError("the disk never became full")


def test_a_database_that_may_not_grow(book: Book, place: Place) -> None:
    (pages,) = book._db.execute("PRAGMA page_count").fetchone()
    book._db.execute(f"PRAGMA max_page_count = {pages + 3}")
    stored, error = fill_until_refused(book, place)
    assert isinstance(error, BookUnwritable)
    assert "the disk that holds" in str(error)
    assert stored > 0
    assert len(book.answers(place.child)) == stored
    assert book.verify(TINY) == []
    book._db.execute("PRAGMA max_page_count = 100000")
    assert len(book.record([answer(place.child)], TINY)) == 1


@pytest.fixture
def small_files(place: Place) -> Iterator[None]:
    """The system refuses to write beyond a size: an error of the real disk, in the middle of a COMMIT."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (place.path.stat().st_size + 3 * 4096, hard))
    yield
    resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def test_a_disk_that_refuses_while_it_is_written(book: Book, place: Place, small_files: None) -> None:
    stored, error = fill_until_refused(book, place)
    assert isinstance(error, BookUnwritable)
    assert str(error).startswith("Nothing was stored")
    assert stored > 0
    assert len(book.answers(place.child)) == stored
    with place.open(write=False) as again:
        assert again.verify(TINY) == []


def test_a_head_file_that_cannot_be_written_is_no_error(book: Book, place: Place) -> None:
    place.path.with_name("family.book.head").mkdir()
    assert len(book.record([answer(place.child)], TINY)) == 1
    assert book.verify(TINY) == []


# --- the file under the open book -----------------------------------------------------------------------


def test_a_copy_put_in_the_place_of_the_open_book_is_the_book(
    book: Book, place: Place, tmp_path: Path
) -> None:
    book.record([answer(place.child, ms=0)], TINY)
    shutil.copy(place.path, tmp_path / "copy")
    book.record([answer(place.child, ms=1)], TINY)
    device = book.device
    (tmp_path / "copy").replace(place.path)
    (row,) = book.record([answer(place.child, ms=2)], TINY)
    assert row.device != device, "the copy lacks a row this device wrote"
    with place.open(write=False) as again:
        assert values(again.answers(place.child), "raw_ms") == [row.raw_ms - 2, row.raw_ms]


def test_another_book_in_its_place_is_refused(book: Book, place: Place, tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    new_place(tmp_path / "other").path.replace(place.path)
    with pytest.raises(BookUnwritable, match="another record book"):
        book.record([answer(place.child)], TINY)


def test_a_book_that_is_gone_is_not_written_to(book: Book, place: Place) -> None:
    place.path.unlink()
    with pytest.raises(BookMissing):
        book.record([answer(place.child)], TINY)
    assert not place.path.exists()
