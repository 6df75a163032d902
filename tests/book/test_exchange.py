"""A log as lines of JSON: the round trip gives the same log and memory, and any changed line is refused."""

import json
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.book import exchange, store
from review.book.store import Book
from review.book.union import Log
from review.errors import Mendable
from tests.book.conftest import Place, new_place
from tests.book.tiny import TINY, answer, event, undo


@pytest.fixture(scope="module")
def log(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Log]:
    place = new_place(tmp_path_factory.mktemp("exchange"))
    with place.open() as book:
        gone, other = store.new_child_key(), store.new_child_key()
        book.add_child(gone)
        book.add_child(other)
        rows = book.record([answer(place.child, f"product:{n}x7", n) for n in range(4)], TINY)
        book.record([answer(gone.hex(), ms=5), answer(other.hex(), ms=6)], TINY)
        book.record([undo(place.child, rows[1], 7)], TINY)
        book.record(
            [event(other.hex(), "set_add", {"set": "ü\n", "text": '"\u2028"', "list": [1, True, ["a"]]})],
            TINY,
        )
        book.forget(gone.hex())
        yield book.log()


def text(log: Log) -> list[bytes]:
    return list(exchange.lines(log))


def test_what_is_written_reads_back_the_same(log: Log) -> None:
    assert exchange.log_of(iter(text(log)), "x") == log


def test_a_book_made_from_the_file_is_the_same_to_the_bit(log: Log, tmp_path: Path) -> None:
    path = tmp_path / "again.book"
    store.make(path, bytes.fromhex(log.book))
    with store.open_book(path, tmp_path / "state", write=True) as book:
        book.take_in(exchange.log_of(iter(text(log)), "x"), TINY)
        assert book.verify(TINY) == []
        assert book.log() == log
        for key in book.child_keys():
            folded = book.folded(key, TINY)
            assert (book.remembered(key).cards, book.remembered(key).habits) == (
                dict(folded.cards),
                folded.habits,
            )


def test_each_line_is_json_in_ascii_with_the_body_as_a_table(log: Log) -> None:
    lines = [json.loads(line.decode("ascii")) for line in text(log)]
    assert lines[0]["format"] == "review log"
    assert isinstance(lines[1]["body"], dict)
    assert lines[-1].keys() == {"rows", "sha256"}


@pytest.mark.parametrize("lost", range(1, 9))
def test_a_lost_line_is_noticed(log: Log, lost: int) -> None:
    lines = text(log)
    assert len(lines) == 9
    with pytest.raises(Mendable, match=r"x, line \d+|x ends after"):
        exchange.log_of(iter([*lines[:lost], *lines[lost + 1 :]]), "x")


@given(st.data())
def test_a_changed_byte_is_noticed(log: Log, data: st.DataObject) -> None:
    """Any one byte. Within the first line the end's hash notices, within a row the row's own does."""
    whole = bytearray(b"".join(text(log)))
    at = data.draw(st.integers(0, len(whole) - 2), label="at")  # the very last line end says nothing
    whole[at] ^= data.draw(st.integers(1, 255), label="with")
    lines = bytes(whole).splitlines(keepends=True)
    with suppress(Mendable):
        found = exchange.log_of(iter(lines), "x")
        assert found == log, "only a change that means nothing, like a space, may pass"


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ([], "x is no exported book"),
        ([b"\x00\xff"], "x is no exported book"),
        ([b'{"format":"review log","version":4}'], "newer version"),
        ([b'{"format":"review log","version":1,"book":"zz"}'], "x, line 1"),
        ([b'{"format":"other"}'], "x is no exported book"),
        ([b"[" * 100_000], "x is no exported book"),
    ],
)
def test_what_is_no_export_is_refused_in_a_sentence(lines: list[bytes], said: str) -> None:
    with pytest.raises(Mendable, match=said):
        exchange.log_of(iter(lines), "x")


def test_the_children_of_a_log_have_the_names_they_have_in_the_book(book: Book, place: Place) -> None:
    book.record([event(place.child, "profile", {"name": "Mira", "age": 7})], TINY)
    assert [child.name for child in exchange.children(book.log())] == ["Mira"]
