"""Killed at any moment, and by any number of writers: what was acknowledged is stored."""

import random
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.store.conftest import Place, new_place
from tests.store.processes import Tell, start
from tests.store.tiny import TINY, answer, fold

KILLS = 40
Work = Callable[[Tell], None]


def writer(place: Place, first: int, promise_early: bool = False, count: int = 10_000) -> Work:
    """Record answers numbered from `first`, and tell each number once it is stored - or, to see that these
    tests can fail, before."""

    def work(tell: Tell) -> None:
        with place.open() as book:
            for number in range(first, first + count):
                if promise_early:
                    tell(str(number))
                book.record([answer(place.child, f"product:{number}x{number % 9}", number)], TINY)
                if not promise_early:
                    tell(str(number))

    return work


def stored(place: Place) -> set[int]:
    """The numbers in the book, which must open without help."""
    with place.open() as book:
        return {int(row.card.partition(":")[2].partition("x")[0]) for row in book.events(place.child)}


def kill_often(place: Place, promise_early: bool) -> list[tuple[set[int], set[int]]]:
    """For each kill: what was acknowledged, and what of that round is stored."""
    chance, rounds = random.Random(6), []
    for kill in range(KILLS):
        child = start(writer(place, kill * 10_000, promise_early))
        heard = child.hear(chance.randint(0, 3))
        time.sleep(chance.uniform(0.0, 0.008))  # a commit takes half as long on a quiet machine
        child.kill()
        told = {int(line) for line in [*heard, *child.read()]}
        assert child.end() == -9
        rounds.append((told, {number for number in stored(place) if number // 10_000 == kill}))
    return rounds


def lost(rounds: list[tuple[set[int], set[int]]]) -> int:
    return sum(len(told - kept) for told, kept in rounds)


def test_every_acknowledged_answer_survives_a_kill(place: Place) -> None:
    rounds = kill_often(place, promise_early=False)
    assert lost(rounds) == 0
    assert all(len(kept - told) <= 1 for told, kept in rounds)
    assert sum(len(told) for told, _ in rounds) > KILLS, "the kills came before anything was written"
    with place.open() as book:
        assert book.verify(TINY) == []
        assert len({row.device for row in book.events()}) == 1
        assert book.memory(place.child) == fold(book.events(place.child))


def test_these_kills_would_find_a_promise_given_too_early(place: Place) -> None:
    assert lost(kill_often(place, promise_early=True)) > 0


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
        assert list(book.memory(place.child)) == ["product:6x7"]


@pytest.mark.parametrize("writers", [4])
def test_several_writers_at_once_lose_nothing(place: Place, writers: int) -> None:
    with place.open():
        pass  # the device number is taken before they start
    children = [start(writer(place, n * 10_000, count=50)) for n in range(writers)]
    told = [child.read() for child in children]
    assert [child.end() for child in children] == [0] * writers
    assert stored(place) == {int(line) for lines in told for line in lines}
    with place.open() as book:
        rows = list(book.events())
        assert sorted(row.seq for row in rows) == list(range(1, 50 * writers + 1))
        assert book.verify(TINY) == []


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
        assert book.memory(place.child)["product:6x7"].tries == 80
        assert book.verify(TINY) == []
