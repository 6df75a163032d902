"""Making and opening: what is no sound book of ours is refused in a sentence, and not one byte changes."""

import os
import sqlite3
import stat
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.book import connection, store
from review.errors import (
    BookDamaged,
    BookError,
    BookForeign,
    BookMissing,
    BookNewer,
    BookUnwritable,
    Mendable,
    ReviewError,
)
from tests.book.conftest import Place, new_place
from tests.book.processes import Tell, as_anyone
from tests.book.tiny import TINY, answer
from tests.elsewhere.console import loaded


def snapshot(folder: Path) -> dict[str, bytes | None]:
    """Every file under a folder, with its bytes."""
    found = sorted(folder.rglob("*"))
    return {str(path): path.read_bytes() if os.path.isfile(path) else None for path in found}


def foreign_database(path: Path) -> None:
    db = sqlite3.connect(path)
    db.execute("CREATE TABLE log (a)")
    db.commit()
    db.close()


def foreign_in_wal_mode(path: Path) -> None:
    db = sqlite3.connect(path)
    db.execute("PRAGMA journal_mode = WAL")
    db.execute("CREATE TABLE book (a)")
    db.commit()
    db.close()


def changed(statement: str) -> Callable[[Path], None]:
    def make(path: Path) -> None:
        new_place(path.parent)
        db = sqlite3.connect(path)
        db.execute(statement)
        db.commit()
        db.close()

    return make


def cut(path: Path) -> None:
    new_place(path.parent)
    path.write_bytes(path.read_bytes()[: 3 * 4096 + 100])


def scrambled(path: Path) -> None:
    new_place(path.parent)
    whole = path.read_bytes()
    path.write_bytes(whole[:100] + bytes(range(256)) * 16 + whole[4196:])


REFUSED: dict[str, tuple[Callable[[Path], object], type[ReviewError], str]] = {
    "missing": (lambda path: None, BookMissing, "no record book at"),
    "folder": (lambda path: path.mkdir(), BookForeign, "is a folder"),
    "empty": (lambda path: path.touch(), BookForeign, "empty file"),
    "text": (lambda path: path.write_text("6 x 7 = 42\n" * 40), BookForeign, "not a record book"),
    "short": (lambda path: path.write_bytes(b"SQLite format 3\x00"), BookForeign, "not a record book"),
    "another database": (foreign_database, BookForeign, "not a record book"),
    "another, in WAL mode": (foreign_in_wal_mode, BookForeign, "not a record book"),
    "newer": (changed("PRAGMA user_version = 999"), BookNewer, "newer version"),
    "no guard": (changed("DROP TRIGGER log_never_shrinks"), BookDamaged, "guards its log"),
    "cut short": (cut, BookDamaged, "damaged"),
    "scrambled": (scrambled, BookDamaged, "damaged"),
    "loop of links": (lambda path: path.symlink_to(path), BookMissing, "no record book at"),
}
CODES = {BookMissing: 1, BookForeign: 3, BookNewer: 3, BookDamaged: 3}


@pytest.mark.parametrize("write", [True, False], ids=["write", "read"])
@pytest.mark.parametrize("case", REFUSED)
def test_refused_in_a_sentence_and_unchanged(tmp_path: Path, case: str, write: bool) -> None:
    make, error, words = REFUSED[case]
    path = tmp_path / "family.book"
    make(path)
    before = snapshot(tmp_path)
    with pytest.raises(error, match=words) as caught, store.open_book(path, tmp_path / "state", write):
        pass
    assert type(caught.value) is error
    assert caught.value.exit_code == CODES[error]
    sentence = str(caught.value)
    assert str(path) in sentence
    assert sentence.endswith((".", "--age 7", "review restore")), "a command to type has no full stop"
    assert "\n" not in sentence
    assert snapshot(tmp_path) == before


def test_every_refusal_of_a_book_has_the_code_of_one(tmp_path: Path) -> None:
    assert issubclass(BookMissing, Mendable)
    assert not issubclass(BookMissing, BookError)


def test_a_new_book_is_private_whole_and_sound(tmp_path: Path) -> None:
    path = tmp_path / "new" / "deep" / "family.book"
    store.make(path)
    assert [stat.S_IMODE(each.stat().st_mode) for each in (path, path.parent, path.parent.parent)] == [
        0o600, 0o700, 0o700,
    ]  # fmt: skip
    assert [each.name for each in path.parent.iterdir()] == ["family.book"]
    with store.open_book(path, tmp_path / "state", write=True) as book:
        assert book.verify(TINY) == []
        assert (len(book.id), book.child_keys(), book.counts()) == (32, [], (0, 0, 0))


def test_two_books_have_two_ids(tmp_path: Path) -> None:
    ids = set()
    for name in ("one", "two"):
        store.make(tmp_path / name)
        with store.open_book(tmp_path / name, tmp_path / "state", write=False) as book:
            ids.add(book.id)
    assert len(ids) == 2


@pytest.mark.parametrize("there", ["file", "folder", "dangling link"])
def test_a_book_is_never_made_over_something(tmp_path: Path, there: str) -> None:
    path = tmp_path / "family.book"
    if there == "file":
        path.write_text("a letter")
    elif there == "folder":
        path.mkdir()
    else:
        path.symlink_to(tmp_path / "nowhere")
    before = [each.name for each in tmp_path.iterdir()]
    with pytest.raises(Mendable, match=r"something at .* already"):
        store.make(path)
    assert [each.name for each in tmp_path.iterdir()] == before


def test_a_book_cannot_be_made_below_a_file(tmp_path: Path) -> None:
    (tmp_path / "letter").write_text("x")
    with pytest.raises(BookUnwritable, match="cannot be made"):
        store.make(tmp_path / "letter" / "family.book")


def test_a_read_book_takes_nothing_and_changes_nothing(place: Place, tmp_path: Path) -> None:
    with place.open() as book:
        book.record([answer(place.child)], TINY)
    before = snapshot(tmp_path)
    with place.open(write=False) as book:
        assert len(book.answers(place.child)) == 1
        assert book.device > 0
        with pytest.raises(BookUnwritable, match="reading only"):
            book.record([answer(place.child)], TINY)
        with pytest.raises(sqlite3.OperationalError, match="readonly"):
            book._db.execute("DELETE FROM memory")
    assert snapshot(tmp_path) == before


def test_a_book_in_a_folder_that_cannot_be_written_opens_for_reading(place: Place) -> None:
    with place.open() as book:
        book.record([answer(place.child)], TINY)
    shown = place.path.parent
    for folder in (shown, *shown.parents):  # a user who is not the owner must be able to come here
        if folder.stat().st_uid == os.geteuid() and folder != Path(folder.anchor):
            folder.chmod(folder.stat().st_mode | 0o055)
    place.path.chmod(0o444)
    shown.chmod(0o555)

    def work(tell: Tell) -> None:
        with place.open(write=False) as book:
            tell(str(len(book.answers(place.child))))
        try:
            place.open(write=True)
        except BookUnwritable as error:
            tell(str(str(place.path) in str(error)))

    try:
        assert as_anyone(work) == ["1", "True"]
    finally:
        shown.chmod(0o755)


def test_an_odd_file_name_is_that_file(tmp_path: Path) -> None:
    path = tmp_path / "a %41?mode=memory#x&é '\" .book"
    store.make(path)
    with store.open_book(path, tmp_path / "state", write=True) as book:
        book.add_child(store.new_child_key())
    with store.open_book(path, tmp_path / "state", write=False) as book:
        assert len(book.child_keys()) == 1
    assert {each.name for each in tmp_path.iterdir()} == {path.name, "state"}


def test_an_old_sqlite_is_named(place: Place, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sqlite3, "sqlite_version_info", (3, 36, 0))
    with pytest.raises(BookUnwritable, match=r"SQLite 3\.37"):
        place.open()


def test_a_child_is_added_once(book: store.Book, place: Place) -> None:
    key = store.new_child_key()
    book.add_child(key)
    assert book.child_keys() == [place.child, key.hex()]
    with pytest.raises(ValueError, match="known already"):
        book.add_child(key)
    with pytest.raises(ValueError, match="16 bytes"):
        book.add_child(b"short")


def test_a_book_that_waits_too_long_says_so(place: Place) -> None:
    other = sqlite3.connect(place.path, isolation_level=None)
    with place.open() as book:
        book._db.execute("PRAGMA busy_timeout = 20")
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(BookUnwritable, match=r"Nothing was stored: .* in use by another program"):
            book.record([answer(place.child)], TINY)
        other.execute("ROLLBACK")
        assert len(book.record([answer(place.child)], TINY)) == 1
    other.close()


# --- where a book may stand -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "name", ["a b", "Zoë – 日本", "50%20", "what?mode=ro", "a#b", "a&b=c", "[1]", "e\u0301"]
)
def test_a_folder_of_any_name(tmp_path: Path, name: str) -> None:
    made = new_place(tmp_path / name)
    with made.open() as book:
        book.record([answer(made.child)], TINY)
    assert sorted(path.name for path in tmp_path.iterdir()) == [name]


@pytest.mark.parametrize(
    ("path", "taken"),
    [
        ("C:/Users/Zoë/family.book", "file:///C:/Users/Zo%C3%AB/family.book"),
        ("//server/share/family.book", "file:////server/share/family.book"),
    ],
)
def test_what_sqlite_takes_of_a_path_on_windows(path: str, taken: str) -> None:
    """The first as `pathlib` writes it there; SQLite refuses a computer's name before the path."""
    assert connection.spelled(path) == taken


@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0")))
def test_a_path_is_quoted_as_the_standard_library_quotes_it(name: str) -> None:
    """But for a colon, which stands in the path of a drive."""
    assert connection.spelled(f"/{name}") == f"file:///{quote(name, safe='/:')}"


def test_sqlite_takes_a_share_in_the_path_and_not_before_it(place: Place) -> None:
    other = f"file://server{place.path}"
    with pytest.raises(sqlite3.OperationalError, match="authority"):
        sqlite3.connect(other, uri=True)
    db = sqlite3.connect(connection.spelled(f"/{place.path}"), uri=True)
    assert db.execute("PRAGMA application_id").fetchone() == (connection.APPLICATION,)
    db.close()


def test_on_macos_sqlite_writes_to_the_drive_itself_too(
    place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    """sqlite.org/pragma.html#pragma_fullfsync: only that system has it; plain syncing stops short there."""
    assert ("fullfsync", "ON", 1) not in connection.FOR_WRITING
    monkeypatch.setattr(sys, "platform", "darwin")
    there: Any = loaded("review.book.connection")
    monkeypatch.undo()
    db = there.connect(place.path, write=True)
    assert db.execute("PRAGMA fullfsync").fetchone() == (1,)
    db.close()
