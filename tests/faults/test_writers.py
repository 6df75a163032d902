"""Several programs at once: everything that was acknowledged is stored once, in one sound chain.

The whole of it, four writers of 500 answers: python -m tests.faults.writers
"""

import time
from pathlib import Path

import pytest

from review.book import backups, connection, restoring
from review.errors import BookNewer, BookUnwritable
from tests.book.conftest import Place
from tests.book.newer import planted
from tests.book.processes import Tell, start
from tests.book.tiny import DAY, TINY, answer
from tests.faults import writers

ANSWERS = 50


def test_several_writers_lose_nothing() -> None:
    found = writers.at_once(ANSWERS)
    assert found == (ANSWERS * writers.WRITERS, ANSWERS * writers.WRITERS, ())


@pytest.mark.parametrize("name", writers.PLANTED)
def test_a_planted_fault_is_found(name: str) -> None:
    assert writers.at_once(ANSWERS, writers.PLANTED[name]).broken


def test_a_warm_up_in_several_terminals_loses_nothing() -> None:
    found = writers.terminals_at_once(10)
    assert found.broken == ()
    assert found.told > 10


@pytest.fixture
def copy(place: Place) -> Path:
    with place.open() as book:
        book.record([answer(place.child)], TINY)
        made = backups.daily(book, DAY)
    assert made
    return made


def test_an_answer_that_waited_for_a_restore_goes_into_the_restored_book(
    place: Place, copy: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The book is put in the place of the old one while a warm-up waits for the lock of the old one."""
    reached, real = tmp_path / "reached", restoring.set_aside

    def work(tell: Tell) -> None:
        with place.open() as book:
            tell("open")
            while not reached.exists():
                time.sleep(0.005)
            book.record([answer(place.child, ms=1)], TINY)
            tell("stored")

    def slowly(path: Path, aside: Path) -> None:
        reached.touch()
        time.sleep(0.3)
        real(path, aside)

    child = start(work)
    assert child.hear(1) == ["open"]
    monkeypatch.setattr(restoring, "set_aside", slowly)
    restoring.restore(place.path, copy, TINY)
    assert child.read() == ["stored"]
    assert child.end() == 0
    with place.open() as book:
        assert book.counts()[1] == 2
        assert book.verify(TINY) == []


def test_a_book_that_is_being_written_is_not_restored_under_the_writer(
    place: Place, copy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its journal would be moved away: a kill of the writer would then leave half a transaction."""
    settings = tuple(
        (name, "20", 20) if name == "busy_timeout" else (name, value, found)
        for name, value, found in connection.SETTINGS
    )
    monkeypatch.setattr(connection, "SETTINGS", settings)
    journal = place.path.with_name("family.book-journal")
    with place.open() as book:
        book._db.execute("BEGIN IMMEDIATE")
        book._db.execute("UPDATE tail SET at_ms = at_ms + 1")
        before = place.path.read_bytes()
        assert journal.exists()
        with pytest.raises(BookUnwritable, match=r"Nothing was restored: .* in use by another program"):
            restoring.restore(place.path, copy, TINY)
        assert journal.exists()
        assert place.path.read_bytes() == before
        book._db.execute("ROLLBACK")
    assert not list(place.path.parent.glob(".*.new"))
    assert restoring.restore(place.path, copy, TINY).aside


def test_a_program_that_was_there_first_does_not_write_to_a_newer_schema(place: Place) -> None:
    """One terminal is open; in another a newer version of the program brings the book up."""
    with place.open() as book:
        book.record([answer(place.child)], TINY)
        with planted(), place.open():
            pass
        with pytest.raises(BookNewer, match="newer version"):
            book.record([answer(place.child, ms=1)], TINY)
    with planted(), place.open() as book:
        assert book.counts()[1] == 1
        assert book.verify(TINY) == []
