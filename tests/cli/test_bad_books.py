"""A book that is none, or none of ours, or cannot be written: one sentence, and not a byte changed."""

import sqlite3
import stat
from pathlib import Path

from tests.cli.conftest import Review, sentence, shell


def test_no_book_yet(review: Review) -> None:
    done = review("overdue")
    sentence(done, 1, "family.book", "review child add")
    assert "review child add" in review().out


def test_a_book_that_is_a_text_file(review: Review, tmp_path: Path) -> None:
    path = tmp_path / "family.book"
    path.write_text("Dear diary, this is no database at all.\n" * 40)
    before = path.read_bytes()
    for command in (("overdue",), ("warmup",), ("child", "add", "Mira", "--age", "7"), ()):
        sentence(review(*command), 3, "family.book")
    assert path.read_bytes() == before


def test_a_book_that_is_a_folder(review: Review, tmp_path: Path) -> None:
    (tmp_path / "family.book").mkdir()
    sentence(review("overdue"), 3, "folder")


def test_a_book_of_another_program(review: Review, tmp_path: Path) -> None:
    path = tmp_path / "family.book"
    with sqlite3.connect(path) as other:
        other.execute("CREATE TABLE recipes (name TEXT)")
    other.close()
    before = path.read_bytes()
    sentence(review("warmup"), 3, "family.book")
    assert path.read_bytes() == before


def test_a_book_from_a_newer_version(family: Review, tmp_path: Path) -> None:
    path = tmp_path / "family.book"
    with sqlite3.connect(path) as book:
        book.execute("PRAGMA user_version = 900")
    book.close()
    before = path.read_bytes()
    sentence(family("overdue"), 3, "newer")
    assert path.read_bytes() == before


def test_a_read_only_book_is_read_and_not_written(family: Review, tmp_path: Path) -> None:
    book = tmp_path / "family.book"
    book.chmod(stat.S_IRUSR)
    before = book.read_bytes()
    assert shell("review overdue", book, powers=False).returncode == 0
    done = shell("review warmup Mira --on 2026-01-06", book, powers=False)
    assert (done.returncode, done.stdout) == (3, "")
    assert "family.book" in done.stderr
    assert "Traceback" not in done.stderr
    assert book.read_bytes() == before
