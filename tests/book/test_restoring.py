"""The way back: a good copy in the place of a damaged or lost book, with what the old file still proves."""

import os
import shutil
import sqlite3
from pathlib import Path

import pytest

from review.book import backups, restoring, store
from review.errors import BookDamaged, BookError, BookForeign, Mendable
from tests.book import released
from tests.book.conftest import Place, new_place
from tests.book.tiny import DAY, TINY, answer


@pytest.fixture
def copy(place: Place) -> Path:
    """Ten answers are in a copy, and ten more were given since."""
    with place.open() as book:
        book.record([answer(place.child, f"product:{n}x7", n) for n in range(10)], TINY)
        made = backups.daily(book, DAY)
        assert made
        book.record([answer(place.child, f"product:{n}x7", n) for n in range(10, 20)], TINY)
    return made


def seqs(place: Place) -> list[int]:
    with place.open(write=False) as book:
        assert book.verify(TINY) == []
        return [event.seq for event in book.events()]


def spoil(path: Path, marker: bytes) -> None:
    """Change a byte of the row that holds the marker."""
    whole = bytearray(path.read_bytes())
    at = whole.find(marker)
    assert at > 0
    whole[at] ^= 1
    path.write_bytes(whole)


def test_a_sound_book_loses_nothing_by_it(place: Place, copy: Path) -> None:
    done = restoring.restore(place.path, copy, TINY)
    assert (done.rows, done.saved) == (10, 10)
    assert done.aside
    assert seqs(place) == list(range(1, 21))


def test_where_the_id_itself_is_damaged_the_entries_tell_whose_book_it_is(place: Place, copy: Path) -> None:
    with place.open(write=False) as book:
        whose = bytes.fromhex(book.id)
    spoil(place.path, whose)
    done = restoring.restore(place.path, copy, TINY)
    assert (done.rows, done.saved) == (10, 10)
    with place.open(write=False) as book:
        assert book.id == whose.hex()
    assert seqs(place) == list(range(1, 21))


def test_a_copy_of_an_older_version_takes_in_what_came_after_it(tmp_path: Path) -> None:
    """The copy from before its schema was brought up: what the book gained since is in rows of ours."""
    place = Place(tmp_path / "family.book", tmp_path / "state", released.CHILD.hex())
    released.made(3, place.path)
    with place.open() as book:
        before = book.counts()[2]
        book.record([answer(place.child, f"product:{n}x7", 10**9 + n) for n in range(5)], TINY)
        events = list(book.events())
    (copy,) = backups.copies(place.path)
    done = restoring.restore(place.path, copy, TINY)
    assert (copy.name, done.rows, done.saved) == ("version-3.book", before, 5)
    with place.open(write=False) as book:
        assert book.verify(TINY) == []
        assert list(book.events()) == events
    restoring.check_copy(copy)


def test_what_was_set_aside_before_stays(place: Place, copy: Path) -> None:
    first = restoring.restore(place.path, copy, TINY).aside
    assert first
    kept = first.read_bytes()
    second = restoring.restore(place.path, copy, TINY).aside
    assert second
    assert second != first
    assert first.read_bytes() == kept != second.read_bytes()


def test_what_comes_after_a_damaged_row_the_copy_holds_is_saved(place: Place, copy: Path) -> None:
    spoil(place.path, b'["3x7","42"')
    with place.open(write=False) as book:
        assert book.verify(TINY) != []
    done = restoring.restore(place.path, copy, TINY)
    assert (done.rows, done.saved) == (10, 10)
    assert seqs(place) == list(range(1, 21))


def test_after_a_damaged_row_the_copy_lacks_nothing_is_believed(place: Place, copy: Path) -> None:
    spoil(place.path, b'["14x7","42"')
    done = restoring.restore(place.path, copy, TINY)
    assert done.saved == 4
    assert seqs(place) == list(range(1, 15))


@pytest.mark.parametrize("what", ["gone", "empty", "text", "half", "zeros"])
def test_a_file_that_is_no_book_any_more_is_set_aside(place: Place, copy: Path, what: str) -> None:
    whole = place.path.read_bytes()
    spoiled = {"empty": b"", "text": b"hello", "half": whole[: len(whole) // 2], "zeros": bytes(len(whole))}
    place.path.unlink()
    if what != "gone":
        place.path.write_bytes(spoiled[what])
    done = restoring.restore(place.path, copy, TINY)
    if what == "gone":
        assert done.aside is None
    else:
        assert done.aside
        assert done.aside.read_bytes() == spoiled[what]
    assert set(range(1, 11)) <= set(seqs(place))


def test_a_restored_book_takes_another_device_where_entries_are_lost(place: Place, copy: Path) -> None:
    place.path.write_bytes(b"")
    restoring.restore(place.path, copy, TINY)
    with place.open() as book:
        fresh = book.record([answer(place.child, ms=50)], TINY)[0]
        assert fresh.device not in {event.device for event in book.events() if event.seq != fresh.seq}
        assert book.verify(TINY) == [], "what was lost was accepted as lost"


def test_a_copy_of_another_book_or_a_damaged_one_is_refused_and_nothing_changes(
    place: Place, copy: Path, tmp_path: Path
) -> None:
    stranger = new_place(tmp_path / "stranger")
    broken = tmp_path / "broken.book"
    shutil.copy(copy, broken)
    spoil(broken, b'["3x7","42"')
    (tmp_path / "note.txt").write_text("hello")
    before = place.path.read_bytes()
    for wrong, error in (
        (stranger.path, Mendable),
        (broken, BookDamaged),
        (tmp_path / "note.txt", BookForeign),
        (tmp_path / "nothing", Mendable),
    ):
        with pytest.raises(error):
            restoring.restore(place.path, wrong, TINY)
        assert place.path.read_bytes() == before
        assert not list(tmp_path.glob("*set-aside*"))
        assert not list(tmp_path.glob(".*.new"))
    place.path.unlink()
    with pytest.raises(BookDamaged):
        restoring.restore(place.path, broken, TINY)
    assert not place.path.exists(), "nothing is better than what is known to be damaged"


def test_a_forgotten_child_does_not_come_back_from_a_copy(place: Place, copy: Path) -> None:
    with place.open() as book:
        other = store.new_child_key()
        book.add_child(other)
        book.record([answer(other.hex())], TINY)
        book.forget(place.child)
    done = restoring.restore(place.path, copy, TINY)
    assert (done.rows, done.saved) == (0, 1)  # what was forgotten is not counted as held
    with place.open(write=False) as book:
        assert book.child_keys() == [other.hex()]
        assert len(list(book.events())) == 1


def test_a_journal_of_the_old_file_never_reaches_the_new_one(place: Place, copy: Path) -> None:
    """A journal left by a killed program belongs to the old pages; rolled into the new file it would
    destroy it."""
    hot = place.path.with_name(place.path.name + "-journal")
    db = sqlite3.connect(place.path, isolation_level=None)
    db.execute("PRAGMA cache_size = 1")
    db.execute("BEGIN IMMEDIATE")
    db.execute("UPDATE tail SET at_ms = at_ms + 1")
    db.execute("CREATE TABLE filler AS SELECT randomblob(4000) AS b FROM log a, log c")
    saved = hot.read_bytes()
    db.execute("ROLLBACK")
    db.close()
    place.path.write_bytes(b"ruined" + place.path.read_bytes()[6:])
    hot.write_bytes(saved)
    done = restoring.restore(place.path, copy, TINY)
    assert not hot.exists()
    assert done.aside
    assert done.aside.with_name(done.aside.name + "-journal").read_bytes() == saved
    assert seqs(place)[:10] == list(range(1, 11))


@pytest.mark.parametrize("links", [True, False], ids=["links", "no links"])
@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), PermissionError(13, "Denied")])
def test_a_step_that_fails_leaves_the_old_book_and_its_journal(
    place: Place, copy: Path, error: OSError, links: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    place.path.write_bytes(b"ruined" + place.path.read_bytes()[6:])
    journal = place.path.with_name(f"{place.path.name}-journal")
    journal.write_bytes(b"what was begun")
    before = place.path.read_bytes()
    there = sorted(place.path.parent.iterdir())

    def refuse(*_: object) -> None:
        raise error

    monkeypatch.setattr(os, "replace", refuse)
    if not links:
        monkeypatch.setattr(os, "link", refuse)
    with pytest.raises(BookError, match="was not restored"):
        restoring.restore(place.path, copy, TINY)
    assert place.path.read_bytes() == before
    assert journal.read_bytes() == b"what was begun"
    assert sorted(place.path.parent.iterdir()) == there


def test_a_lost_folder_is_made_again_for_the_family_alone(place: Place, copy: Path, tmp_path: Path) -> None:
    lost = place._replace(path=tmp_path / "lost" / "family.book")
    done = restoring.restore(lost.path, copy, TINY)
    assert (done.aside, done.rows) == (None, 10)
    assert lost.path.parent.stat().st_mode & 0o777 == 0o700
    assert lost.path.stat().st_mode & 0o777 == 0o600
    assert seqs(lost) == list(range(1, 11))
