"""A child can be forgotten whole, in one transaction, and nobody else's chain is touched."""

import json
import os
import sqlite3
from pathlib import Path

import pytest

from review import backups, connection, proofs, restoring, rows, store
from review.store import Book
from tests.store.conftest import Place, new_place
from tests.store.tiny import DAY, TINY, answer, event

NAME = "Quillwort"


@pytest.fixture
def two(book: Book, place: Place) -> tuple[str, str]:
    """Two children with answers in turn; the first has a name that is easy to find."""
    key = store.new_child_key()
    book.add_child(key)
    for number in range(6):
        child = (place.child, key.hex())[number % 2]
        book.record([answer(child, f"product:{number}x7", number)], TINY)
    book.record([event(place.child, "profile", {"name": NAME}, 7)], TINY)
    return place.child, key.hex()


def test_everything_goes_and_the_other_child_stays(book: Book, place: Place, two: tuple[str, str]) -> None:
    gone, stays = two
    before, memory = list(book.events(stays)), book.memory(stays)
    assert NAME.encode() in place.path.read_bytes()
    book.forget(gone)
    assert book.verify(TINY) == []
    assert (list(book.events(stays)), book.memory(stays)) == (before, memory)
    assert list(book.events(gone)) == []
    assert book.child_keys() == [stays]
    assert book.counts() == (1, 3, 3)
    assert NAME.encode() not in place.path.read_bytes()
    assert bytes.fromhex(gone) in place.path.read_bytes(), "the key stays, so that a merge honours it"
    with place.open(write=False) as again:
        assert again.verify(TINY) == []
        assert again.device == book.device


def test_numbers_never_fall(book: Book, two: tuple[str, str]) -> None:
    book.forget(two[0])
    assert book.record([answer(two[1], ms=9)], TINY)[0].seq == 8


def test_a_forgotten_child_is_a_stranger(book: Book, two: tuple[str, str]) -> None:
    book.forget(two[0])
    for again in (lambda: book.forget(two[0]), lambda: book.record([answer(two[0])], TINY)):
        with pytest.raises(ValueError, match="no child"):
            again()
    with pytest.raises(ValueError, match="known already"):
        book.add_child(bytes.fromhex(two[0]))


def test_it_is_one_transaction(book: Book, place: Place, two: tuple[str, str]) -> None:
    before = list(book.events())

    def refuse(action: int, name: str | None, *_: str | None) -> int:
        denied = action == sqlite3.SQLITE_UPDATE and name == "child"
        return sqlite3.SQLITE_DENY if denied else sqlite3.SQLITE_OK

    book._db.set_authorizer(refuse)
    with pytest.raises(Exception, match=r"not authorized|prohibited"):
        book.forget(two[0])
    book._db.set_authorizer(None)
    assert list(book.events()) == before
    assert book.verify(TINY) == []


def test_the_copies_that_hold_the_child_are_named(book: Book, two: tuple[str, str]) -> None:
    copy = backups.daily(book, DAY)
    book.forget(two[0])
    backups.daily(book, DAY + 1)
    assert backups.holding(book, two[0]) == [copy]
    assert len(backups.holding(book, two[1])) == 2


def test_what_was_set_aside_or_left_half_made_is_named_too(
    book: Book, place: Place, two: tuple[str, str]
) -> None:
    """A restore moves the old file, and its journal, beside the book; a kill leaves a copy half made."""
    copy = backups.daily(book, DAY)
    assert copy is not None
    aside = place.path.with_name(f"{place.path.name}.set-aside-1")
    journal = place.path.with_name(f"{aside.name}-journal")
    half = copy.with_name(".2021-07-30.0badcafe.new")
    restored = place.path.with_name(f".{place.path.name}.0badcafe.new")
    other = place.path.with_name("other.book.set-aside-1")
    for path in (aside, other):
        path.write_bytes(copy.read_bytes())
    for path in (journal, half, restored):
        path.write_bytes(copy.read_bytes()[:5000])
    assert set(backups.holding(book, two[0])) == {copy, aside, journal, half, restored}
    book.forget(two[0])
    journal.unlink()
    aside.write_bytes(place.path.read_bytes())
    assert set(backups.holding(book, two[0])) == {copy, half, restored}


@pytest.mark.parametrize("mask", [0o000, 0o077])
def test_whatever_the_mask_nothing_is_for_others(tmp_path: Path, mask: int) -> None:
    """The book, its head, its copies, what is set aside and the user's state: folders 0700, files 0600."""
    before = os.umask(mask)
    try:
        place = new_place(tmp_path / "home" / "family")
        with place.open() as book:
            book.record([answer(place.child)], TINY)
            copy = backups.daily(book, DAY)
        assert copy is not None
        restoring.restore(place.path, copy, TINY)
    finally:
        os.umask(before)
    made = [path for path in (tmp_path / "home").rglob("*") if not path.is_symlink()]
    assert {path.stat().st_mode & 0o777 for path in made if path.is_file()} == {0o600}
    assert {path.stat().st_mode & 0o777 for path in made if path.is_dir()} == {0o700}
    assert len([path for path in made if path.is_file()]) >= 4


def test_no_byte_of_the_name_is_left(tmp_path: Path) -> None:
    """In no form a file may hold it, in nothing beside the book or in the user's state."""
    name = "Zéphyrine"
    place = new_place(tmp_path / "home")
    with place.open() as book:
        profile = {"name": name, "age": 7, "seconds": 300, "zone": "Europe/London"}
        book.record([event(place.child, "profile", profile)], TINY)
        book.record([answer(place.child, ms=n) for n in range(1, 300)], TINY)
        forms = [name.encode(form) for form in ("utf-8", "utf-16-le", "utf-16-be", "latin-1")]
        forms += [json.dumps(name).strip('"').encode(), bytes.fromhex(place.child)]
        there = [form for form in forms if form in place.path.read_bytes()]
        assert len(there) >= 2, "the control: the name stands in the book before"
        book.forget(place.child)
    files = [path for path in (tmp_path / "home").rglob("*") if path.is_file()]
    assert len(files) >= 2
    said = [(path, form) for path in files for form in forms[:-1] if form in path.read_bytes()]
    assert said == []


def test_a_forgotten_child_cannot_come_back_by_a_row(book: Book, place: Place, two: tuple[str, str]) -> None:
    db = connection.connect(place.path, write=True)
    (old, *_) = rows.log_rows(db)
    book.forget(two[0])
    with pytest.raises(sqlite3.IntegrityError, match="forgotten"):
        db.execute(
            f"INSERT INTO log ({rows.COLUMNS}, previous, hash) VALUES ({', '.join('?' * 12)})",
            (old.device, old.seq, 1, *old[3:]),
        )
    db.close()


def test_the_chain_of_a_forgotten_child_is_not_a_lost_one(book: Book, two: tuple[str, str]) -> None:
    """A head file that could not be written after forgetting still names it."""
    old = proofs.current_tails(book._db)
    book.forget(two[0])
    assert proofs.lost_tails(book._db, old) == ()
