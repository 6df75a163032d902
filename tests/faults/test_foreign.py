"""What is no record book of ours, through the program itself: refused in a sentence, not one byte changed."""

import os
import shutil
import sqlite3
import stat
from collections.abc import Callable
from pathlib import Path

import pytest

from review.book import connection, restoring, store
from review.errors import BookForeign, BookNewer, BookUnwritable
from tests.book.conftest import Place, new_place
from tests.book.processes import Tell, as_anyone
from tests.book.test_open import snapshot
from tests.book.tiny import TINY
from tests.cli.conftest import Review, review

__all__ = ["review"]

COMMANDS = (
    ("warmup", "--jsonl"),
    ("overdue",),
    ("child", "add", "Orla", "--age", "7"),
    ("taught", "additions"),
    ("undo",),
    ("verify",),
    ("backup",),
    ("export", "out.jsonl"),
    (),
)


def a_database(path: Path, *statements: str) -> None:
    db = sqlite3.connect(path)
    for statement in statements:
        db.execute(statement)
    db.commit()
    db.close()


def a_book_with(*statements: str) -> Callable[[Path], None]:
    def make(path: Path) -> None:
        new_place(path.parent)
        a_database(path, *statements)

    return make


REFUSED: dict[str, tuple[Callable[[Path], object], str]] = {
    "another database": (lambda path: a_database(path, "CREATE TABLE log (a)"), "not a record book"),
    "another program's number": (a_book_with("PRAGMA application_id = 7"), "not a record book"),
    "a newer version": (a_book_with(f"PRAGMA user_version = {connection.VERSION + 1}"), "newer version"),
    "a text": (lambda path: path.write_text("6 x 7 = 42\n"), "not a record book"),
    "nothing in it": (lambda path: path.touch(), "empty file"),
    "a folder": (lambda path: path.mkdir(), "is a folder"),
    "a pipe": (os.mkfifo, "a pipe or a device"),
    "a socket": (lambda path: os.mknod(path, stat.S_IFSOCK | 0o600), "a pipe or a device"),
    "a device": (lambda path: path.symlink_to("/dev/zero"), "a pipe or a device"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_every_command_refuses_what_is_no_book_and_changes_nothing(
    review: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, case: str
) -> None:
    make, words = REFUSED[case]
    make(tmp_path / "family.book")
    monkeypatch.chdir(tmp_path)
    before = snapshot(tmp_path)
    for command in COMMANDS:
        done = review(*command)
        assert (done.code, words in done.err, "Traceback" in done.err) == (3, True, False), (command, done)
        assert snapshot(tmp_path) == before, command


def test_a_link_to_nothing_is_no_book_and_stays_one(
    review: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "family.book").symlink_to(tmp_path / "gone")
    monkeypatch.chdir(tmp_path)
    for command in COMMANDS[:-1]:
        done = review(*command)
        assert done.code == 1, (command, done)
        assert "Traceback" not in done.err
        assert os.listdir(tmp_path) == ["family.book"], command
        assert os.readlink(tmp_path / "family.book") == str(tmp_path / "gone")


@pytest.mark.parametrize("write", [True, False], ids=["write", "read"])
def test_a_book_that_may_not_be_read_is_refused(place: Place, write: bool) -> None:
    before = place.path.read_bytes()
    place.path.chmod(0)
    for folder in (place.path.parent, *place.path.parents):  # another user must be able to come here
        if folder.stat().st_uid == os.geteuid() and folder != Path(folder.anchor):
            folder.chmod(folder.stat().st_mode | 0o055)

    def work(tell: Tell) -> None:
        try:
            store.open_book(place.path, place.state, write)
        except BookUnwritable as error:
            tell(str("cannot be read" in str(error)))

    assert as_anyone(work) == ["True"]
    place.path.chmod(0o600)
    assert place.path.read_bytes() == before


def test_a_copy_of_a_newer_version_is_not_put_in_the_place_of_a_book(place: Place, tmp_path: Path) -> None:
    """It could not be opened then; and the book is as good as it was."""
    copy = tmp_path / "newer.book"
    shutil.copy(place.path, copy)
    a_database(copy, f"PRAGMA user_version = {connection.VERSION + 1}")
    before = snapshot(tmp_path)
    with pytest.raises(BookNewer):
        restoring.restore(place.path, copy, TINY)
    assert snapshot(tmp_path) == before


def test_a_plain_open_would_make_a_foreign_file_ours(tmp_path: Path) -> None:
    """The control: SQLite by itself takes an empty file for a fine new database, and writes to it."""
    path = tmp_path / "family.book"
    path.touch()
    a_database(path, "CREATE TABLE log (a)")
    assert path.read_bytes().startswith(connection.MAGIC)
    with pytest.raises(BookForeign):
        connection.check_file(path, write=False)
