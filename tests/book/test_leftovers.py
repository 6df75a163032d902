"""Files left half made and books set aside: swept when nobody is at them, told when a child is forgotten."""

import os
import shutil
import sqlite3
from pathlib import Path

import pytest

from review.book import backups, leftovers, restoring
from review.book.store import Book
from tests.book.conftest import Place
from tests.book.tiny import TINY, answer, event

NAME = "Quillwört"
OLD = leftovers.QUIET_S + 60


@pytest.fixture
def named(place: Place) -> Place:
    with place.open() as book:
        book.record([event(place.child, "profile", {"name": NAME}), answer(place.child, ms=2)], TINY)
    return place


def left(path: Path, seconds: int = OLD) -> Path:
    """A half-made file nothing was written to for so long."""
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(b"half")
    then = path.stat().st_mtime - seconds
    os.utime(path, (then, then))
    return path


def half_names(place: Path) -> tuple[Path, Path]:
    return backups.folder_of(place) / ".copy.0badcafe.new", place.with_name(f".{place.name}.0badcafe.new")


def test_the_next_copy_sweeps_what_was_left(named: Place) -> None:
    gone = left(half_names(named.path)[0])
    others = [left(gone.with_name(name)) for name in (".copy.new", ".copy.0BADCAFE.new", "copy.0badcafe.new")]
    young = left(gone.with_name(".young.0badcafe.new"), leftovers.QUIET_S - 60)
    backups.named(named.path, "copy")
    assert not gone.exists()
    assert all(path.exists() for path in (*others, young))


def test_a_copy_elsewhere_sweeps_only_its_own(named: Place, tmp_path: Path) -> None:
    mine, another = (left(tmp_path / "away" / f".{name}.0badcafe.new") for name in ("mine", "another"))
    backups.copy(named.path, tmp_path / "away" / "mine.book")
    assert (mine.exists(), another.exists()) == (False, True)


def test_nothing_is_swept_while_somebody_is_at_the_book(named: Place) -> None:
    stays = left(half_names(named.path)[0])
    reader = sqlite3.connect(named.path, isolation_level=None)
    reader.execute("BEGIN")
    reader.execute("SELECT count(*) FROM log").fetchone()
    backups.named(named.path, "copy")
    assert stays.exists()
    reader.close()
    backups.named(named.path, "copy")
    assert not stays.exists()


def test_the_next_restore_sweeps_what_was_left(named: Place) -> None:
    copy = backups.named(named.path, "copy")
    gone = left(half_names(named.path)[1])
    journal = left(gone.with_name(gone.name + "-journal"))
    another = left(gone.with_name(".another.book.0badcafe.new"))
    restoring.restore(named.path, copy, TINY)
    assert [path.exists() for path in (gone, journal, another)] == [False, False, True]


def places(path: Path) -> list[Path]:
    """Everywhere a file may be left that holds the whole book."""
    aside = path.with_name(f"{path.name}.set-aside-1")
    return [*half_names(path), aside, backups.folder_of(path) / "by-hand.book"]


@pytest.mark.parametrize("cut", [None, 100], ids=["whole", "its beginning lost"])
def test_every_file_that_holds_the_child_is_told(named: Place, cut: int | None) -> None:
    whole = named.path.read_bytes()
    backups.folder_of(named.path).mkdir()
    for path in places(named.path):
        path.write_bytes(whole if cut is None else bytes(cut) + whole[cut:])
    with named.open() as book:
        assert sorted(backups.holding(book, named.child, NAME)) == sorted(places(named.path))
        book.forget(named.child)
    for path in places(named.path):
        shutil.copy(named.path, path)
    with named.open() as book:
        assert backups.holding(book, named.child, NAME) == []


@pytest.mark.parametrize("ascii_only", [True, False])
def test_a_journal_set_aside_is_told_by_the_name_alone(named: Place, ascii_only: bool) -> None:
    journal = named.path.with_name(f"{named.path.name}.set-aside-1-journal")
    written = leftovers.traces("00", NAME)[1 if ascii_only else 2]
    journal.write_bytes(bytes(leftovers.CHUNK - 4) + written)  # over the edge of two parts
    with named.open() as book:
        assert backups.holding(book, named.child, NAME) == [journal]
        assert backups.holding(book, named.child, "Orla") == []


def test_links_and_names_that_are_not_ours_are_left(named: Place, book: Book) -> None:
    (target, link) = half_names(named.path)
    target.parent.mkdir()
    shutil.copy(named.path, target.with_name("notes"))
    link.symlink_to(named.path)
    (named.path.with_name(f"{named.path.name}.set-aside-x")).write_bytes(named.path.read_bytes())
    assert backups.holding(book, named.child, NAME) == []


def test_other_books_of_the_folder_that_hold_the_child_are_told_apart(named: Place, tmp_path: Path) -> None:
    """A program that keeps two computers' folders alike names a copy as it likes."""
    conflicted = named.path.with_name(f"{named.path.stem} (the conflicted copy of a laptop).book")
    unlike = named.path.with_name("no ending")
    for path in (conflicted, unlike, *places(named.path)):
        path.parent.mkdir(exist_ok=True)
        shutil.copy(named.path, path)
    named.path.with_name("notes.txt").write_text(f'"name":"{NAME}"')
    named.path.with_name("link.book").symlink_to(named.path)
    with named.open() as book:
        assert backups.others_holding(book, named.child, NAME) == sorted([conflicted, unlike])
        assert {conflicted, unlike}.isdisjoint(backups.holding(book, named.child, NAME))
        book.forget(named.child)
    shutil.copy(named.path, conflicted)
    with named.open() as book:
        assert backups.others_holding(book, named.child, NAME) == [unlike]
