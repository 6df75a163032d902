"""Backups: whole, verified, private, and never fewer than promised."""

import errno
import os
import shutil
import sqlite3
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlite_utils import Database, Migrations

from review import files
from review.book import backups, connection, migrations, proofs, rows, store
from review.book.store import Book
from review.core import amendments
from review.errors import BookDamaged, BookUnwritable
from tests.book import released
from tests.book.conftest import Place
from tests.book.newer import planted
from tests.book.tiny import DAY, TINY, answer


def copies(place: Place) -> list[str]:
    return sorted(path.name for path in backups.folder_of(place.path).iterdir())


def test_a_copy_is_a_whole_book(book: Book, place: Place) -> None:
    book.record([answer(place.child, ms=n) for n in range(9)], TINY)
    copy = backups.daily(book, DAY)
    assert copy is not None
    assert copy.name == "2021-07-30.book"
    assert (copy.stat().st_mode & 0o777, copy.parent.stat().st_mode & 0o777) == (0o600, 0o700)
    assert copies(place) == [copy.name]
    with store.open_book(copy, place.state, write=False) as other:
        assert list(other.events()) == list(book.events())
        assert other.id == book.id
        assert other.verify(TINY) == []


def test_one_copy_a_day(book: Book, place: Place) -> None:
    assert backups.daily(book, DAY) is not None
    assert backups.daily(book, DAY) is None
    assert backups.daily(book, DAY + 1) is not None
    assert len(copies(place)) == 2


def test_after_a_year_seven_days_and_four_weeks_are_there(book: Book, place: Place) -> None:
    (place.path.parent / "family.book.backups").mkdir()
    start = date.fromordinal(DAY)
    for days in range(365):
        (backups.folder_of(place.path) / f"{start + timedelta(days)}.book").touch()
        backups.thin(backups.folder_of(place.path))
    found = [date.fromisoformat(name.removesuffix(".book")) for name in copies(place)]
    last = start + timedelta(364)
    assert found[-7:] == [last - timedelta(days) for days in reversed(range(7))]
    assert len(found) == 11
    assert all(day.isoweekday() == 7 for day in found[:4]), "of a week the last day stays"
    assert last - found[0] >= timedelta(28)


@given(st.sets(st.dates(date(2020, 1, 1), date(2022, 1, 1)), max_size=40))
def test_what_is_kept(days: set[date]) -> None:
    stay = backups.kept(days)
    newest = sorted(days)[-7:]
    assert set(newest) <= stay <= days
    weekly = stay - set(newest)
    assert all(day == max(other for other in days if week(other) == week(day)) for day in weekly)
    ended = {week(day) for day in days} - {week(day) for day in newest}
    assert {week(day) for day in weekly} >= set(sorted(ended)[-3:])
    assert len(weekly) <= 4


def week(day: date) -> tuple[int, int]:
    return day.isocalendar()[:2]


def test_files_of_other_names_are_left_alone(book: Book, place: Place) -> None:
    folder = backups.folder_of(place.path)
    folder.mkdir()
    for name in ("before the holidays.book", "version-1.book", "notes.txt"):
        (folder / name).touch()
    backups.daily(book, DAY)
    assert len(copies(place)) == 4


@pytest.mark.parametrize("name", ["20211125", "2021-W47-4", "2021W474", "2021-11-25-0807", "2021-11-25"])
def test_a_copy_somebody_named_stays(book: Book, place: Place, name: str) -> None:
    """Python reads other spellings of a date too, from 3.11 on; ours is the only one that is a day's copy."""
    folder = backups.folder_of(place.path)
    backups.copy(place.path, folder / f"{name}.book")
    for day in range(DAY + 200, DAY + 280):
        backups.daily(book, day)
    assert (folder / f"{name}.book").exists() == (name != "2021-11-25")


def test_a_link_to_nowhere_is_no_copy(book: Book, place: Place) -> None:
    """As where a copy was carried elsewhere, or is deleted while they are listed."""
    there = backups.daily(book, DAY)
    for name, to in (("gone", "nowhere"), ("round", "round.book")):
        (backups.folder_of(place.path) / f"{name}.book").symlink_to(to)
    assert backups.copies(place.path) == [there]
    assert backups.daily(book, DAY + 1) in backups.copies(place.path)


def test_what_a_kill_left_half_made_goes_the_next_day(book: Book, place: Place) -> None:
    backups.daily(book, DAY)
    for name in (".2021-07-30.0badcafe.new", ".2021-07-31.0badcafe.new", ".other.new"):
        (backups.folder_of(place.path) / name).touch()
    half = backups.folder_of(place.path) / ".2021-07-30.0badcafe.new"
    yesterday = half.stat().st_mtime - 24 * 60 * 60
    os.utime(half, (yesterday, yesterday))
    backups.daily(book, DAY + 1)
    assert copies(place) == [".2021-07-31.0badcafe.new", ".other.new", "2021-07-30.book", "2021-07-31.book"]


def flip_a_hash(place: Place) -> None:
    db = sqlite3.connect(place.path)
    (hash,) = db.execute("SELECT hash FROM log").fetchone()
    db.close()
    whole = place.path.read_bytes()
    place.path.write_bytes(whole.replace(hash, hash[:-1] + bytes([hash[-1] ^ 1])))


def test_a_book_that_is_not_sound_is_not_copied_and_no_copy_goes(place: Place) -> None:
    with place.open() as book:
        book.record([answer(place.child)], TINY)
        for day in range(9):
            backups.daily(book, DAY + day)
    before = copies(place)
    flip_a_hash(place)
    with place.open() as book, pytest.raises(BookDamaged, match="changed after it was written"):
        backups.daily(book, DAY + 20)
    assert copies(place) == before


def test_a_book_that_lacks_rows_of_its_last_copy_is_not_copied(place: Place, tmp_path: Path) -> None:
    with place.open() as book:
        book.record([answer(place.child)], TINY)
        shutil.copy(place.path, tmp_path / "older")
        book.record([answer(place.child, ms=n) for n in range(3)], TINY)
        copy = backups.daily(book, DAY)
    shutil.copy(tmp_path / "older", place.path)
    with place.open() as book, pytest.raises(BookDamaged, match="lacks 3 entries") as caught:
        backups.daily(book, DAY + 1)
    assert str(copy) in str(caught.value)
    assert copies(place) == ["2021-07-30.book"]


def test_a_copy_that_cannot_be_read_is_passed_over(book: Book, place: Place) -> None:
    backups.daily(book, DAY)
    (backups.folder_of(place.path) / f"{date.fromordinal(DAY + 1)}.book").write_text("rubbish")
    assert backups.daily(book, DAY + 2) is not None


def test_a_copy_that_cannot_be_made_says_so_and_leaves_nothing(book: Book, place: Place) -> None:
    backups.folder_of(place.path).write_text("in the way")
    with pytest.raises(BookUnwritable, match="No copy of"):
        backups.daily(book, DAY)


@pytest.mark.parametrize(
    ("code", "mended"),
    [(errno.ENOSPC, "make room"), (errno.EACCES, "who may write"), (errno.EROFS, "who may write")],
)
def test_a_copy_that_cannot_be_made_says_what_to_do(
    book: Book, monkeypatch: pytest.MonkeyPatch, code: int, mended: str
) -> None:
    def refuse(path: Path) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(files, "new_private_file", refuse)
    with pytest.raises(BookUnwritable, match=mended):
        backups.daily(book, DAY)


def test_a_copy_is_not_named_before_it_is_verified(
    book: Book, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[list[str]] = []

    def watch(db: sqlite3.Connection) -> list[str]:
        seen.append(copies(place))
        return ["It is not sound."]

    monkeypatch.setattr(proofs, "log_problems", watch)
    with pytest.raises(BookDamaged, match="It is not sound"):
        backups.daily(book, DAY)
    assert [name.startswith(".") for name in seen[0]] == [True]
    assert copies(place) == []


# --- an older book --------------------------------------------------------------------------------------


NOW = connection.VERSION


@pytest.fixture
def next_version() -> Iterator[Migrations]:
    with planted() as steps:
        yield steps


@pytest.mark.parametrize("write", [True, False], ids=["write", "read"])
def test_an_older_book_is_brought_up_after_a_backup(
    place: Place, next_version: Migrations, write: bool
) -> None:
    before = place.path.read_bytes()
    with place.open(write) as book:
        assert book._db.execute("PRAGMA user_version").fetchone() == (NOW + 1,)
        assert book._db.execute("SELECT count(*) FROM extra").fetchone() == (0,)
        assert book.verify(TINY) == []
    assert copies(place) == [f"version-{NOW}.book"]
    assert (backups.folder_of(place.path) / f"version-{NOW}.book").read_bytes()[100:] == before[100:]
    with place.open(write):
        pass
    assert copies(place) == [f"version-{NOW}.book"]


def test_a_book_of_the_first_version_is_brought_up(place: Place) -> None:
    """As it was made before other entries than answers had an index by their kind."""
    old = place._replace(path=place.path.with_name("old.book"), child=released.CHILD.hex())
    released.made(1, old.path)
    db = connection.connect(old.path, write=False)
    kept = sorted(map(rows.event_of, rows.log_rows(db)), key=amendments.place)
    db.close()
    assert len(kept) > 40
    for write in (False, True):
        with old.open(write) as book:
            assert book._db.execute("PRAGMA user_version").fetchone() == (NOW,)
            assert list(book.events()) == kept
            assert list(book.events(kinds=("taught",))) == [one for one in kept if one.kind == "taught"]
            assert book.verify(TINY) == []
    assert [path.name for path in backups.copies(old.path)] == ["version-1.book"]


def test_a_step_that_fails_changes_nothing(place: Place, next_version: Migrations) -> None:
    @next_version()
    def third(db: Database) -> None:
        db.executescript("CREATE TABLE more (a INTEGER) STRICT;")
        raise ZeroDivisionError

    db = connection.connect(place.path, write=True)
    before = "\n".join(db.iterdump())
    with pytest.raises(ZeroDivisionError):
        migrations.migrate(db, next_version)
    assert "\n".join(db.iterdump()) == before
    assert db.execute("PRAGMA user_version").fetchone() == (NOW,)
    db.close()


def test_a_step_that_drops_a_guard_is_noticed(place: Place, next_version: Migrations) -> None:
    """`transform` rebuilds a table and forgets its triggers: never on the log."""

    @next_version()
    def third(db: Database) -> None:
        db["child"].transform(rename={"forgotten": "gone"})  # type: ignore[union-attr]

    connection_version = NOW + 2
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(connection, "VERSION", connection_version)
        with pytest.raises(BookDamaged, match="guards its log"):
            place.open()


def test_two_backups_before_a_migration_have_two_names(place: Place) -> None:
    names = [backups.before_migration(place.path, NOW).name for _ in range(2)]
    assert names == [f"version-{NOW}.book", f"version-{NOW}-1.book"]


def test_of_the_copies_before_a_merge_the_newest_seven_stay(place: Place) -> None:
    """Two homes that merge every day would fill the disk, a whole book a day."""
    somebodys = backups.named(place.path, "before-merge-with-dad")
    other = backups.before(place.path, "import")
    names = [backups.before(place.path, "merge").name for _ in range(10)]
    assert names == ["before-merge.book", *(f"before-merge-{number}.book" for number in range(1, 10))]
    left = {path.name for path in backups.folder_of(place.path).glob("*.book")}
    assert left == {*names[-7:], somebodys.name, other.name}
    assert backups.before(place.path, "merge").name == "before-merge-10.book"


def test_a_thousandth_copy_has_a_name_too(place: Place) -> None:
    folder = backups.folder_of(place.path)
    folder.mkdir()
    (folder / "mine-999.book").touch()
    assert backups.named(place.path, "mine").name == "mine-1000.book"
