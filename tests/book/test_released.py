"""A book of every version of the schema that was ever released opens, whole, in the program of today."""

import sqlite3
from pathlib import Path

import pytest

from review import gather
from review.app import archive
from review.book import connection, exchange
from review.book.chain import Row
from review.book.rows import log_rows
from review.core.model import EVENT_KINDS
from review.gather import Outside
from tests.book import released
from tests.book.conftest import Place
from tests.book.newer import planted
from tests.book.tiny import answer
from tests.faults.rebuild import FIRST_DAY

VERSIONS = range(1, connection.VERSION + 1)
EXPORTS = range(2, exchange.VERSION + 1)


@pytest.fixture(params=VERSIONS)
def kept(request: pytest.FixtureRequest, tmp_path: Path) -> Place:
    path = tmp_path / "family.book"
    released.made(request.param, path)
    return Place(path, tmp_path / "state", released.CHILD.hex())


def rows(path: Path) -> list[Row]:
    """As they are stored, each with the hash of the one before it."""
    db = sqlite3.connect(path)
    try:
        return list(log_rows(db))
    finally:
        db.close()


def schema(path: Path) -> list[object]:
    db = sqlite3.connect(path)
    try:
        return db.execute("SELECT type, name, sql FROM sqlite_schema WHERE sql > '' ORDER BY name").fetchall()
    finally:
        db.close()


def test_it_opens_whole_and_sound(kept: Place) -> None:
    before = rows(kept.path)
    with kept.open() as book:
        assert book.verify(gather.remember()) == []
        assert {event.kind for event in book.events()} == {*EVENT_KINDS}
        assert book.child_keys() == [kept.child]
    assert rows(kept.path) == before


@pytest.mark.parametrize("version", range(1, 4))
def test_the_hash_before_that_was_stored_once_is_what_the_walk_finds(version: int, tmp_path: Path) -> None:
    path = tmp_path / "kept.book"
    released.made(version, path)
    found = [row.previous for row in rows(path)]
    db = sqlite3.connect(path)
    assert [(one,) for one in found] == db.execute("SELECT previous FROM log ORDER BY seq").fetchall()
    db.close()


def test_it_is_brought_up_to_this_version(kept: Place, template: Place) -> None:
    with kept.open():
        pass
    assert schema(kept.path) == schema(template.path)
    db = sqlite3.connect(kept.path)
    assert db.execute("PRAGMA user_version").fetchone() == (connection.VERSION,)
    db.close()


def test_it_is_brought_up_by_the_next_version_too(kept: Place) -> None:
    before = rows(kept.path)
    with planted(), kept.open() as book:
        assert book.verify(gather.remember()) == []
    assert rows(kept.path) == before


def test_a_published_step_was_not_edited(tmp_path: Path, template: Place) -> None:
    """What the steps make now is, to the letter, what a book of the newest version has."""
    path = tmp_path / "kept.book"
    released.made(connection.VERSION, path)
    assert schema(path) == schema(template.path)


def test_one_that_was_brought_up_and_went_on_merges_with_one_that_was_not(tmp_path: Path) -> None:
    kept = Place(tmp_path / "family.book", tmp_path / "state", released.CHILD.hex())
    other = kept._replace(path=tmp_path / "other.book")
    for place in (kept, other):
        released.made(3, place.path)
    with kept.open() as book:
        book.record([answer(kept.child, f"product:{n}x7", 10**9 + n) for n in range(3)], gather.remember())
        held = list(book.events())
    outside = Outside(other.path, other.state, 0, FIRST_DAY + 1)
    assert archive.merge(outside, kept.path).taken.rows == 3
    assert archive.merge(outside._replace(book=kept.path), other.path).taken.rows == 0
    for place in (kept, other):
        with place.open(write=False) as book:
            assert list(book.events()) == held
            assert book.verify(gather.remember()) == []


@pytest.mark.parametrize("version", EXPORTS)
def test_an_export_of_every_version_comes_in_whole(version: int, tmp_path: Path) -> None:
    """It makes a book that holds what the one it came from held."""
    released.made(version + 1, tmp_path / "old.book")
    old = Place(tmp_path / "old.book", tmp_path / "state", released.CHILD.hex())
    new = old._replace(path=tmp_path / "new.book")
    outside = Outside(new.path, new.state, 0, FIRST_DAY + 1)
    done = archive.take_in_file(outside, released.export_of(version))
    with old.open() as one, new.open() as book:
        assert (done.taken.rows, done.new) == (one.counts()[2], ("Orla",))
        assert list(book.events()) == list(one.events())
        assert book.verify(gather.remember()) == []
