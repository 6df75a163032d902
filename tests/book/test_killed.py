"""Killed in the middle of a transaction, and written by two at once. More of both: tests/faults."""

import time
from pathlib import Path

from tests.book.conftest import Place, new_place
from tests.book.processes import Tell, start
from tests.book.tiny import TINY, answer


def test_a_book_killed_in_the_middle_of_a_commit_opens_for_reading(place: Place) -> None:
    with place.open() as book:
        book.record([answer(place.child)], TINY)

    def half_a_transaction(tell: Tell) -> None:
        with place.open() as book:
            book._db.execute("PRAGMA cache_size = 1")  # pages go to the file before the commit
            book._db.execute("BEGIN IMMEDIATE")
            book._db.executemany(
                "INSERT INTO memory VALUES (1, ?, ?)", [(f"product:{n}x1", "x" * 900) for n in range(200)]
            )
            tell("half")
            time.sleep(60)

    child = start(half_a_transaction)
    assert child.hear(1) == ["half"]
    child.kill()
    child.read()
    child.end()
    assert place.path.with_name("family.book-journal").stat().st_size > 0
    with place.open(write=False) as book:
        assert book.verify(TINY) == []
        assert len(book.answers(place.child)) == 1
        assert list(book.remembered(place.child).cards) == ["product:6x7"]


def test_two_writers_of_one_card_both_count(tmp_path: Path) -> None:
    """Memory that was read before the lock was held would forget one of two answers."""
    place = new_place(tmp_path)

    def work(tell: Tell) -> None:
        with place.open() as book:
            for number in range(40):
                book.record([answer(place.child, "product:6x7", number)], TINY)

    children = [start(work) for _ in range(2)]
    assert [child.read() for child in children] == [[], []]
    assert [child.end() for child in children] == [0, 0]
    with place.open() as book:
        assert book.remembered(place.child).cards["product:6x7"].tries == 80
        assert book.verify(TINY) == []
