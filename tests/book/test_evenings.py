"""What was worked out when a sitting ended: kept until the log says more, and never longer."""

from pathlib import Path

import pytest

from review.book import evenings
from review.book.store import Book
from review.core.model import EventKind
from tests.book.conftest import Place, new_place
from tests.book.tiny import TINY, answer, event, undo

TEXTS = {"misses": "[1]", "suspected": "{}"}


@pytest.fixture
def kept(book: Book, place: Place) -> Book:
    """A book in which two answers were worked out."""
    book.record([answer(place.child, f"product:2x{n}", n) for n in (2, 3)], TINY)
    assert book.keep_evening(place.child, book.ends(place.child), TEXTS)
    return book


def test_what_was_kept_is_found_by_its_name(kept: Book, place: Place) -> None:
    assert {name: kept.evening(place.child, name) for name in TEXTS} == TEXTS
    assert kept.evening(place.child, "another") == ""


def test_it_is_no_card_and_no_proof_minds_it(kept: Book, place: Place) -> None:
    assert set(kept.remembered(place.child).cards) == {"product:2x2", "product:2x3"}
    assert kept.verify(TINY) == []


def test_an_answer_more_drops_it(kept: Book, place: Place) -> None:
    kept.record([answer(place.child, "product:2x4", 9)], TINY)
    assert kept.evening(place.child, "misses") == ""


@pytest.mark.parametrize("kind", ["undo", "correct"])
def test_what_speaks_of_an_answer_drops_it(kept: Book, place: Place, kind: str) -> None:
    first = next(iter(kept.events(place.child, ("answer",))))
    kept.record([undo(place.child, first, 9)._replace(kind=kind)], TINY)  # type: ignore[arg-type]
    assert kept.evening(place.child, "misses") == ""


@pytest.mark.parametrize("kind", ["taught", "sitting", "profile", "away"])
def test_what_a_parent_says_leaves_it(kept: Book, place: Place, kind: EventKind) -> None:
    kept.record([event(place.child, kind, {"n": 9})], TINY)
    assert kept.evening(place.child, "misses") == "[1]"


def test_another_childs_answer_leaves_it(kept: Book, place: Place) -> None:
    other = bytes(range(16, 32))
    kept.add_child(other)
    kept.record([answer(other.hex(), "product:2x4", 9)], TINY)
    assert kept.evening(place.child, "misses") == "[1]"


def test_nothing_is_kept_of_a_log_that_has_grown_meanwhile(book: Book, place: Place) -> None:
    book.record([answer(place.child, "product:2x2", 0)], TINY)
    ends = book.ends(place.child)
    book.record([answer(place.child, "product:2x3", 1)], TINY)
    assert not book.keep_evening(place.child, ends, TEXTS)
    assert book.evening(place.child, "misses") == ""


def test_rows_taken_in_from_a_copy_drop_it(kept: Book, place: Place, tmp_path: Path) -> None:
    with new_place(tmp_path / "other").open() as other:
        other.take_in(kept.log(), TINY)
        assert other.keep_evening(place.child, other.ends(place.child), TEXTS)
        kept.record([answer(place.child, "product:2x4", 9)], TINY)
        other.take_in(kept.log(), TINY)
        assert other.evening(place.child, "misses") == ""


def test_a_fold_anew_and_a_child_forgotten_take_it_along(kept: Book, place: Place) -> None:
    kept.replace_memory(place.child, TINY.version, kept.folded(place.child, TINY))
    assert kept.evening(place.child, "misses") == ""
    kept.keep_evening(place.child, kept.ends(place.child), TEXTS)
    kept.forget(place.child)
    look = f"SELECT count(*) FROM memory WHERE {evenings.OF_EVENINGS}"
    assert kept._db.execute(look).fetchone() == (0,)
