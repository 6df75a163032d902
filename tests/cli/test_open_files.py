"""Commands that move files, where none that is open can be moved: see `tests/elsewhere/open_files.py`."""

import os
import sqlite3
from pathlib import Path

import pytest

from review import files
from tests.cli.conftest import Review
from tests.elsewhere import open_files

pytestmark = pytest.mark.skipif(not open_files.OPEN.is_dir(), reason="/proc tells what is open")


@pytest.fixture(autouse=True)
def _as_windows(monkeypatch: pytest.MonkeyPatch) -> None:
    open_files.forbid(monkeypatch)
    monkeypatch.setattr(files, "LETS_GO_S", 0.02)


def test_the_control(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    one.write_text("1")
    other.write_text("2")
    with one.open(), pytest.raises(PermissionError):
        os.replace(other, one)
    with one.open(), pytest.raises(PermissionError):
        one.unlink()
    os.replace(other, one)
    assert one.read_text() == "2"


def test_a_week_of_a_family(family: Review, tmp_path: Path) -> None:
    for day in ("2026-01-05", "2026-01-06", "2026-01-16"):
        done = family("warmup", "Mira", "--typed", "--on", day, typed="5\n\n6\n7\n4\nstop\n")
        assert (done.code, done.err) == (0, ""), done
    for words in (
        ("backup",),
        ("backup", str(tmp_path / "copy.book")),
        ("export", str(tmp_path / "all.jsonl")),
        ("export", str(tmp_path / "all.jsonl"), "--force"),
        ("import", str(tmp_path / "all.jsonl")),
        ("progress", "Mira", "--html", str(tmp_path / "mira.html")),
        ("undo", "Mira", "--yes", "--on", "2026-01-16"),
        ("restore", "2026-01-06", "--yes"),
        ("restore", str(tmp_path / "copy.book"), "--yes"),
        ("merge", str(tmp_path / "copy.book")),
        ("verify",),
    ):
        done = family(*words)
        assert (done.code, done.err) == (0, ""), (words, done)
    assert not list(tmp_path.glob(".*.new*"))


def test_a_book_that_is_open_elsewhere_is_not_replaced_and_stays_whole(
    family: Review, tmp_path: Path
) -> None:
    assert family("backup", str(tmp_path / "copy.book")).code == 0
    book = tmp_path / "family.book"
    before = book.read_bytes()
    other = sqlite3.connect(book)
    other.execute("SELECT count(*) FROM log").fetchone()
    try:
        done = family("restore", str(tmp_path / "copy.book"), "--yes")
    finally:
        other.close()
    assert done.code == 3
    assert "is open in another program" in done.err
    assert done.err.count("\n") == 1
    assert book.read_bytes() == before
    assert not [*tmp_path.glob("*set-aside*"), *tmp_path.glob(".*.new*")]
    assert family("restore", str(tmp_path / "copy.book"), "--yes").code == 0


def test_a_copy_that_is_open_elsewhere_is_told_and_not_deleted(family: Review, tmp_path: Path) -> None:
    assert family("backup").code == family("backup").code == 0
    copies = sorted((tmp_path / "family.book.backups").glob("*.book"))
    assert len(copies) == 2
    with copies[0].open("rb"):
        done = family("child", "forget", "Jonah", "--copies", typed="Jonah\n")
    assert (done.code, done.err) == (0, ""), done
    assert [copy.exists() for copy in copies] == [True, False]
    assert copies[0].name in "".join(done.out.split())


def test_an_old_copy_that_is_open_stays_for_another_day(family: Review, tmp_path: Path) -> None:
    def warm_up(day: int) -> None:
        done = family("warmup", "Mira", "--typed", "--on", f"2026-01-{day:02}", typed="5\nstop\n")
        assert (done.code, done.err) == (0, "")

    for day in range(5, 13):
        warm_up(day)
    oldest = tmp_path / "family.book.backups" / "2026-01-06.book"
    assert oldest.exists()
    with oldest.open("rb"):
        warm_up(13)
    assert oldest.exists()
    warm_up(14)
    assert not oldest.exists()
