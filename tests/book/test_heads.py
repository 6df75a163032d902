"""The head file and the device number: an older copy of the book is noticed, and never numbered on."""

import json
import shutil
from pathlib import Path

from review.book import devices, heads, store
from review.book.devices import Note
from review.book.store import Book
from tests.book.conftest import Place
from tests.book.tiny import TINY, answer, values


def record(place: Place, ms: int) -> int:
    """One answer; the device that wrote it."""
    with place.open() as book:
        return book.record([answer(place.child, f"product:{ms}x7", ms)], TINY)[0].device


def problems(place: Place) -> list[str]:
    with place.open(write=False) as book:
        return book.verify(TINY)


def head(place: Place) -> Path:
    return heads.head_path(place.path)


def test_the_head_file_names_the_last_row_of_every_chain(book: Book, place: Place) -> None:
    other = store.new_child_key()
    book.add_child(other)
    written = book.record([answer(place.child), answer(place.child, ms=1), answer(other.hex(), ms=2)], TINY)
    found = json.loads(head(place).read_text())
    ends = {(tail[0], tail[1], tail[2]) for tail in found["tails"]}
    assert ends == {(row.child, row.device, row.seq) for row in written[1:]}
    assert found["book"] == book.id
    assert head(place).stat().st_mode & 0o777 == 0o600


def test_the_same_place_keeps_its_device(place: Place) -> None:
    assert len({record(place, ms) for ms in range(3)}) == 1


def test_a_lost_tail_is_noticed_told_and_not_numbered_on(place: Place, tmp_path: Path) -> None:
    first = record(place, 0)
    shutil.copy(place.path, tmp_path / "older")
    assert record(place, 1) == first
    shutil.copy(tmp_path / "older", place.path)
    assert any("is not in the log" in problem for problem in problems(place))
    second = record(place, 2)
    assert second != first
    assert record(place, 3) == second, "one new device, not one a day"
    assert any(f"Entry {first}-2 was written" in problem for problem in problems(place)), "still told"
    head(place).unlink()
    assert problems(place) == []


def test_without_the_head_file_the_note_of_the_device_notices(place: Place, tmp_path: Path) -> None:
    first = record(place, 0)
    older = [shutil.copy(path, tmp_path / f"older {path.name}") for path in (place.path, head(place))]
    record(place, 1)
    for path, copy in zip((place.path, head(place)), older, strict=True):
        shutil.copy(copy, path)
    assert problems(place) == []
    assert record(place, 2) != first


def test_without_the_last_number_in_the_note_the_head_file_notices(place: Place, tmp_path: Path) -> None:
    first = record(place, 0)
    (note,) = place.state.rglob("*.json")
    shutil.copy(place.path, tmp_path / "older")
    behind = note.read_bytes()
    record(place, 1)
    shutil.copy(tmp_path / "older", place.path)
    note.write_bytes(behind)
    assert record(place, 2) != first


def test_a_copy_elsewhere_takes_a_device_of_its_own(place: Place, tmp_path: Path) -> None:
    first = record(place, 0)
    moved = place._replace(path=tmp_path / "copy.book")
    shutil.copy(place.path, moved.path)
    assert record(moved, 1) != first
    assert record(place, 2) == first


def test_another_computer_takes_a_device_of_its_own(place: Place, tmp_path: Path) -> None:
    first = record(place, 0)
    assert record(place._replace(state=tmp_path / "other state"), 1) != first


def test_the_same_book_by_another_way_is_the_same_place(place: Place, tmp_path: Path) -> None:
    first = record(place, 0)
    (tmp_path / "link").symlink_to(place.path)
    assert record(place._replace(path=tmp_path / "link"), 1) == first
    assert not (tmp_path / "link.head").exists()


def test_a_head_file_that_is_behind_says_nothing(place: Place) -> None:
    record(place, 0)
    behind = head(place).read_bytes()
    first = record(place, 1)
    head(place).write_bytes(behind)
    assert problems(place) == []
    assert record(place, 2) == first


def test_a_head_file_that_cannot_be_read_says_nothing(place: Place) -> None:
    first = record(place, 0)
    for rubbish in (
        b"",
        b"\xff",
        b"[]",
        b"{}",
        b'{"book":1,"tails":[]}',
        b'{"book":"x","tails":[[1]]}',
        b"[" * 99_999,
    ):
        head(place).write_bytes(rubbish)
        assert problems(place) == []
    assert record(place, 1) == first


def test_a_row_rewritten_under_its_number_is_noticed(place: Place) -> None:
    record(place, 0)
    found = json.loads(head(place).read_text())
    found["tails"][0][3] = "00" * 32
    head(place).write_text(json.dumps(found))
    assert len(problems(place)) == 1


def test_a_note_that_cannot_be_read_or_written_costs_a_number_and_nothing_else(place: Place) -> None:
    first = record(place, 0)
    (note,) = place.state.rglob("*.json")
    note.write_text("not a note")
    second = record(place, 1)
    assert second != first
    note.unlink()
    note.mkdir()
    assert record(place, 2) not in (first, second)
    assert problems(place) == []


def test_notes_are_private_and_only_real_devices_are_read(tmp_path: Path) -> None:
    path = devices.note_path(tmp_path / "state", "ab" * 16, tmp_path / "family.book")
    assert devices.read(path) is None
    devices.write(path, Note(7, 3))
    assert devices.read(path) == Note(7, 3)
    assert [each.stat().st_mode & 0o777 for each in (path.parent.parent, path.parent, path)] == [
        0o700,
        0o700,
        0o600,
    ]
    for number in (0, -1, 1 << 48):
        devices.write(path, Note(number, 1))
        assert devices.read(path) is None
    assert all(0 < devices.mint() < 1 << 48 for _ in range(1000))


def test_reading_mints_nothing(place: Place) -> None:
    with place.open(write=False) as book:
        assert book.device == 0
    assert not place.state.exists()


def test_rows_of_several_devices_are_in_one_order(place: Place, tmp_path: Path) -> None:
    for ms in range(4):
        record(place._replace(state=tmp_path / f"state {ms % 2}"), ms)
    with place.open(write=False) as book:
        events = list(book.events())
        assert values(events, "raw_ms") == sorted(row.raw_ms for row in events)
        assert len(set(values(events, "device"))) == 2
        assert book.verify(TINY) == []
