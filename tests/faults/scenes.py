"""What a program does while the power is cut, and what must hold of every disk that leaves.

A scene runs in a process of its own, in a folder that `prepare` has filled; what it promises it writes to its
standard output at once.
"""

import os
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from review.book import backups, connection, heads, recording, restoring, store
from review.errors import BookMissing
from tests.book.conftest import Place
from tests.book.tiny import DAY, TINY, answer, undo

KEY = bytes(range(16))
ANSWERS = 12


def there(folder: Path) -> Place:
    return Place(folder / "family.book", folder / "state", KEY.hex())


def promise(number: object) -> None:
    os.write(1, f"{number}\n".encode("ascii"))


def give(place: Place, numbers: range, early: bool = False) -> None:
    with place.open() as book:
        for number in numbers:
            if early:
                promise(number)
            book.record([answer(place.child, f"product:{number}x7", number)], TINY)
            if not early:
                promise(number)


def stored(place: Place) -> list[int]:
    """The numbers in the book, which must open without help and be sound."""
    with place.open() as book:
        problems = book.verify(TINY)
        assert problems == [], problems
        return [int(row.card.partition(":")[2].partition("x")[0]) for row in book.answers(place.child)]


# --- before --------------------------------------------------------------------------------------------


def nothing(folder: Path) -> None:
    folder.mkdir(exist_ok=True)


def a_book(folder: Path) -> None:
    place = there(folder)
    store.make(place.path, bytes(16))
    with place.open() as book:
        book.add_child(KEY)
        book.record([answer(place.child, f"product:{n}x7", n) for n in range(100, 104)], TINY)


def a_book_and_a_copy(folder: Path) -> None:
    a_book(folder)
    with there(folder).open() as book:
        backups.daily(book, DAY)
        book.record([answer(KEY.hex(), "product:104x7", 104)], TINY)


# --- what is done --------------------------------------------------------------------------------------


def answers(folder: Path) -> None:
    give(there(folder), range(ANSWERS))


def answers_promised_early(folder: Path) -> None:
    give(there(folder), range(ANSWERS), early=True)


def answers_unsynced(folder: Path) -> None:
    """A planted fault: SQLite does not sync."""
    set_synchronous("OFF", 0)
    answers(folder)


def answers_by_default(folder: Path) -> None:
    """A planted fault: SQLite syncs as it does by default, so that a journal taken away may come back. The
    head file, whose folder is synced before anything is promised, would hide that."""
    set_synchronous("FULL", 2)
    heads.write = lambda *_: None
    answers(folder)


def set_synchronous(value: str, number: int) -> None:
    connection.FOR_WRITING = tuple(
        (name, value, number) if name == "synchronous" else (name, old, expected)
        for name, old, expected in connection.FOR_WRITING
    )


def made(folder: Path) -> None:
    store.make(there(folder).path, bytes(16))
    promise("made")


def undone(folder: Path) -> None:
    place = there(folder)
    with place.open() as book:
        for row in book.answers(place.child)[:2]:
            book.record([undo(place.child, row, 200)], TINY)
            promise(row.seq)


def copied(folder: Path) -> None:
    with there(folder).open() as book:
        promise(backups.daily(book, DAY + 1))


def restored(folder: Path) -> None:
    place = there(folder)
    copy = backups.copies(place.path)[0]
    restoring.restore(place.path, copy, TINY)
    promise("restored")


def killed_and_recovered(folder: Path) -> None:
    """A transaction cut short by a kill is undone by the next opening; then the power is cut."""
    place = there(folder)
    pid = os.fork()
    if pid == 0:
        with place.open() as book:
            book._db.execute("PRAGMA cache_size = 1")
            book._db.execute("BEGIN IMMEDIATE")
            rows = [answer(place.child, f"product:{n}x9", n) for n in range(300, 340)]
            bodies = ["{}"] * len(rows)
            recording.append(book._db, book.device, rows, bodies, {place.child: 1})
            os._exit(9)
    os.waitpid(pid, 0)
    give(place, range(3))


# --- what must hold ------------------------------------------------------------------------------------


def holds_answers(folder: Path, promised: list[str]) -> None:
    """Every promised answer is there, and at most one that was not promised yet."""
    there_now = stored(there(folder))
    found = [number for number in there_now if number < 100]
    wanted = [int(number) for number in promised]
    assert found[: len(wanted)] == wanted, (found, wanted)
    assert len(found) <= len(wanted) + 1
    assert {100, 101, 102, 103} <= set(there_now)


def holds_a_book_or_none(folder: Path, promised: list[str]) -> None:
    try:
        with there(folder).open(write=False) as book:
            assert book.verify(TINY) == []
    except BookMissing:
        assert not promised


def holds_undos(folder: Path, promised: list[str]) -> None:
    with there(folder).open() as book:
        assert book.verify(TINY) == []
        gone = [row.body["seq"] for row in book.events(kinds=("undo",))]
    assert len(promised) <= len(gone) <= len(promised) + 1


def holds_copies(folder: Path, promised: list[str]) -> None:
    """The book is as it was, and whatever has the name of a copy is one."""
    assert stored(there(folder)) == [100, 101, 102, 103]
    found = backups.copies(there(folder).path)
    assert len(found) >= len(promised)
    for copy in found:
        restoring.check_copy(copy)


def holds_either_book(folder: Path, promised: list[str]) -> None:
    """The old book, or the new one; never none, and nothing lost of either."""
    assert stored(there(folder)) == [100, 101, 102, 103, 104]
    if promised:
        assert any("set-aside" in path.name for path in folder.iterdir())


class Scene(NamedTuple):
    prepare: Callable[[Path], None]
    work: Callable[[Path], None]
    holds: Callable[[Path, list[str]], None]


OF_ANSWERS = {
    "answers": Scene(a_book, answers, holds_answers),
    "a new book": Scene(nothing, made, holds_a_book_or_none),
    "undo": Scene(a_book, undone, holds_undos),
    "a daily copy": Scene(a_book, copied, holds_copies),
    "going back to a copy": Scene(a_book_and_a_copy, restored, holds_either_book),
    "after a kill": Scene(a_book, killed_and_recovered, holds_answers),
}
OF_ANSWERS_PLANTED = {
    "promised early": Scene(a_book, answers_promised_early, holds_answers),
    "never synced": Scene(a_book, answers_unsynced, holds_answers),
    "synced as by default": Scene(a_book, answers_by_default, holds_answers),
}
