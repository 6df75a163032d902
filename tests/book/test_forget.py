"""A child can be forgotten whole, in one transaction, and nobody else's chain is touched."""

import sqlite3

import pytest

from review.book import backups, connection, proofs, recording, rows, store
from review.book.store import Book
from tests.book.conftest import Place
from tests.book.name_forms import written_forms
from tests.book.tiny import DAY, TINY, answer, event

NAME = "Quillwört"


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
    before, memory = list(book.events(stays)), book.remembered(stays).cards
    assert any(form in place.path.read_bytes() for form in written_forms(NAME))
    book.forget(gone)
    assert book.verify(TINY) == []
    assert (list(book.events(stays)), book.remembered(stays).cards) == (before, memory)
    assert list(book.events(gone)) == []
    assert book.child_keys() == [stays]
    assert book.counts() == (1, 3, 3)
    every = [path for path in place.path.parent.rglob("*") if path.is_file()]
    assert {place.path.name, f"{place.path.name}.head"} <= {path.name for path in every}
    assert not [path for path in every if any(form in path.read_bytes() for form in written_forms(NAME))]
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


def test_a_forgotten_child_cannot_come_back_by_a_row(book: Book, place: Place, two: tuple[str, str]) -> None:
    db = connection.connect(place.path, write=True)
    (old, *_) = rows.log_rows(db)
    book.forget(two[0])
    with pytest.raises(sqlite3.IntegrityError, match="forgotten"):
        db.execute(recording.INSERT, recording.values(old, 1))
    db.close()


def test_the_chain_of_a_forgotten_child_is_not_a_lost_one(book: Book, two: tuple[str, str]) -> None:
    """A head file that could not be written after forgetting still names it."""
    old = proofs.current_tails(book._db)
    book.forget(two[0])
    assert proofs.lost_tails(book._db, old) == ()
