"""Logs merge: in any order, any number of times, the same log and memory; contradictions are refused."""

import shutil
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from review import gather
from review.book import chain, store, union
from review.book.chain import Row
from review.book.store import Book, Remember
from review.core.model import Draft, Event, EventKind
from tests.book.conftest import Place
from tests.book.tiny import DAY, TINY, answer, event, undo

Script = list[tuple[str, int]]
WHAT = ["answer", "undo", "child", "forget", "correct", "away", "known", "undo of any"]
STEPS = st.lists(st.tuples(st.sampled_from(WHAT), st.integers(0, 40)), max_size=6)


def copy_of(place: Place, folder: Path) -> Place:
    """The same book in another place, as on another computer."""
    folder.mkdir(exist_ok=True)
    shutil.copy(place.path, folder / "family.book")
    return Place(folder / "family.book", folder / "state", place.child)


def live(place: Place, script: Script, remember: Remember) -> None:
    """What happens to one copy by itself."""
    with place.open() as book:
        for what, number in script:
            children = book.child_keys()
            child = children[number % len(children)] if children else ""
            if what == "child" or not child:
                book.add_child(store.new_child_key())
            elif what == "forget" and len(children) > 1:
                book.forget(child)
            elif what == "undo" and (rows := book.answers(child)):
                book.record([undo(child, rows[number % len(rows)], number)], remember)
            elif what == "undo of any" and (kept := list(book.events(child))):
                book.record([undo(child, kept[number % len(kept)], number)], remember)
            elif what == "correct" and (rows := book.answers(child)):
                book.record([corrected(child, rows[number % len(rows)], number)], remember)
            elif what in SAID:
                book.record([event(child, *SAID[what](number), number)], remember)
            else:
                book.record([answer(child, f"product:{number % 3}x7", number)], remember)


SAID: dict[str, Callable[[int], tuple[EventKind, dict[str, object]]]] = {
    "away": lambda n: ("away", {"from": DAY + n, "to": DAY + n + n % 5}),
    "known": lambda n: ("known", {"cards": [f"product:{card}x7" for card in range(1 + n % 3)]}),
}


def corrected(child: str, row: Event, ms: int) -> Draft:
    """Another mark in the place of an answer's."""
    body: dict[str, object] = {"rows": [[row.device, row.seq]], "mark": ("not_yet", "right")[ms % 2]}
    return event(child, "correct", body, ms)


def merge(into: Place, other: Place, remember: Remember) -> None:
    with other.open(write=False) as book:
        log = book.log()
    with into.open() as book:
        book.take_in(log, remember)


def state_of(place: Place, remember: Remember = TINY) -> object:
    """Everything a merge decides: the log, who was forgotten, which numbers are used up, and memory."""
    with place.open(write=False) as book:
        assert book.verify(remember) == []
        log = book.log()
        memory = {key: book.remembered(key) for key in sorted(book.child_keys())}
        with_memory = {key: cards for key, cards in memory.items() if list(book.events(key))}
        return log.rows, sorted(log.children), log.devices, with_memory


@pytest.mark.parametrize("remember", [TINY, gather.remember()], ids=["a small memory", "the program's own"])
@settings(
    deadline=None,
    max_examples=25,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(scripts=st.tuples(STEPS, STEPS, STEPS))
def test_a_merge_is_commutative_associative_and_idempotent(
    template: Place,
    tmp_path_factory: pytest.TempPathFactory,
    scripts: tuple[Script, Script, Script],
    remember: Remember,
) -> None:
    folder = tmp_path_factory.mktemp("merge")
    origin = copy_of(template, folder / "origin")
    live(origin, [("answer", 1), ("answer", 2), ("child", 0)], remember)
    copies = [copy_of(origin, folder / name) for name in "abc"]
    for place, script in zip(copies, scripts, strict=True):
        live(place, script, remember)
    ends = []
    for number, order in enumerate(([0, 1, 2], [2, 1, 0], [1, 0, 2, 0, 1])):
        target = copy_of(copies[order[0]], folder / f"end{number}")
        for other in order[1:]:
            merge(target, copies[other], remember)
        ends.append(state_of(target, remember))
    nested = copy_of(copies[1], folder / "nested")  # a with (b with c)
    merge(nested, copies[2], remember)
    whole = copy_of(copies[0], folder / "whole")
    merge(whole, nested, remember)
    assert ends[0] == ends[1] == ends[2] == state_of(whole, remember)
    merge(whole, whole, remember)
    assert state_of(whole, remember) == ends[0]


def two_copies(place: Place, tmp_path: Path) -> Place:
    with place.open() as book:
        book.record([answer(place.child, ms=1), answer(place.child, "product:3x7", 2)], TINY)
    return copy_of(place, tmp_path / "other")


def test_what_a_merge_tells(place: Place, tmp_path: Path) -> None:
    other = two_copies(place, tmp_path)
    with other.open() as book:
        key = store.new_child_key().hex()
        book.add_child(bytes.fromhex(key))
        book.record([answer(key, ms=5), event(place.child, "taught", {"skills": ["x"]}, 6)], TINY)
        log = book.log()
    with place.open() as book:
        assert book.take_in(log, TINY) == union.Taken(2, (key,), ())
        assert book.take_in(log, TINY) == union.Taken()
        assert book.record([answer(place.child, ms=9)], TINY)[0].seq == 3, (
            "this device goes on with its numbers"
        )


def test_a_child_forgotten_before_it_was_ever_here_is_no_new_one(place: Place, tmp_path: Path) -> None:
    with place.open() as book:
        book.record([answer(place.child)], TINY)
        book.add_child(other := store.new_child_key())
        book.forget(place.child)
        whole = book.log()
    store.make(fresh := tmp_path / "fresh.book")
    with store.open_book(fresh, tmp_path / "elsewhere", write=True) as book:
        taken = book.take_in(whole, TINY)
        assert (taken.rows, taken.children, taken.forgotten) == (0, (other.hex(),), ())
        assert book.child_keys() == [other.hex()]


def test_a_forgotten_child_stays_forgotten_on_both_sides(place: Place, tmp_path: Path) -> None:
    other = two_copies(place, tmp_path)
    with other.open() as book:
        book.forget(place.child)
        forgotten = book.log()
    with place.open() as book:
        remembered = book.log()
        assert book.take_in(forgotten, TINY).forgotten == (place.child,)
        assert book.verify(TINY) == []
    with other.open() as book:
        assert book.take_in(remembered, TINY).rows == 0
        assert list(book.events()) == []


def test_a_log_is_here_only_with_all_of_it(book: Book, place: Place) -> None:
    """By this the fate of a merge is told whose end nobody heard: half of it is not here."""
    book.record([answer(place.child, ms=n) for n in range(3)], TINY)
    whole, stranger, unused = book.log(), bytes(range(16)).hex(), max(book.log().devices)[0] + 1
    one = whole.rows[-1]
    lacking = {
        "a child": whole._replace(children=(*whole.children, (stranger, False))),
        "that a child is forgotten": whole._replace(children=((place.child, True),)),
        "a device that wrote nothing yet": whole._replace(devices=(*whole.devices, (unused, 1))),
        "a number that was used up": whole._replace(devices=tuple((at, n + 1) for at, n in whole.devices)),
        "a row": whole._replace(rows=(*whole.rows, one._replace(seq=one.seq + 1))),
        "what a row says": whole._replace(rows=(*whole.rows[:-1], forged(one))),
    }
    assert union.is_here(book._db, whole)
    assert [what for what, log in lacking.items() if union.is_here(book._db, log)] == []


def test_a_log_is_here_without_the_rows_of_who_was_forgotten_here(book: Book, place: Place) -> None:
    book.record([answer(place.child, ms=n) for n in range(3)], TINY)
    before = book.log()
    book.forget(place.child)
    assert union.is_here(book._db, before)
    assert union.is_here(book._db, book.log())


def forged(row: Row) -> Row:
    """Another row under the same id, with a hash of its own that holds."""
    return chain.sealed(row._replace(body=row.body.replace('"42"', '"43"')))


def test_the_same_id_with_another_hash_is_reported_and_nothing_is_taken(place: Place, tmp_path: Path) -> None:
    other = two_copies(place, tmp_path)
    with other.open(write=False) as book:
        log = book.log()
    before = state_of(place)
    rows = (log.rows[0], forged(log.rows[1]))
    with place.open() as book, pytest.raises(union.Conflict, match=r"entry \d+-2 is another one here"):
        book.take_in(log._replace(rows=rows), TINY)
    assert state_of(place) == before


def test_a_chain_with_a_gap_is_refused(place: Place, tmp_path: Path) -> None:
    other = copy_of(place, tmp_path / "other")
    with other.open() as book:
        book.record([answer(place.child, ms=ms) for ms in range(3)], TINY)
        log = book.log()
    assert union.problem(log) == ""
    assert "one is missing" in union.problem(log._replace(rows=log.rows[1:]))
    with place.open() as book, pytest.raises(union.Conflict, match="does not go on"):
        book.take_in(log._replace(rows=log.rows[1:]), TINY)


def test_of_a_damaged_log_only_what_follows_is_believed(place: Place, tmp_path: Path) -> None:
    """A copy holds two entries; of the later ones the third was changed and the fourth stands on it."""
    other = two_copies(place, tmp_path)
    with other.open() as book:
        fresh = book.record([answer(place.child, ms=ms) for ms in (3, 4, 5, 6)], TINY)
        log = book.log()
    later = [row for row in log.rows if row.device == fresh[0].device]
    db = sqlite3.connect(place.path)
    assert union.grafts(db, [*log.rows, *later]) == later
    assert union.grafts(db, [*later[:2], forged(later[2]), later[3]]) == [*later[:2], forged(later[2])][:3]
    assert union.grafts(db, [*later[:2], later[3]]) == later[:2]
    assert union.grafts(db, [later[0]._replace(body="{}"), *later[1:]]) == []
    db.close()


def test_a_book_takes_in_its_own_log_without_a_word(book: Book) -> None:
    assert book.take_in(book.log(), TINY) == union.Taken()


def test_of_rows_that_damage_made_others_nothing_is_believed(place: Place, tmp_path: Path) -> None:
    other = two_copies(place, tmp_path)
    with other.open() as book:
        fresh = book.record([answer(place.child, ms=ms) for ms in (3, 4)], TINY)
        later = [row for row in book.log().rows if row.device == fresh[0].device]
    db = sqlite3.connect(place.path)
    torn: list[Row] = [Row._make(("x", *later[0][1:])), Row._make((later[0].device, None, *later[0][2:]))]
    twice = later[0]._replace(body="{}")
    assert union.grafts(db, [*torn, twice, *later, *later]) == later
    assert union.grafts(db, later[::-1]) == later, "read from the end of a log, since its beginning is gone"
    assert union.grafts(db, [row._replace(previous=bytes(32)) for row in later]) == later, "a walk finds it"
    db.close()
