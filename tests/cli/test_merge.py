"""Two copies of one book come together."""

import shutil
from pathlib import Path

from tests.cli.conftest import Review, answers

DAY = ("--on", "2026-01-05")


def test_two_copies_of_a_book_come_together(practised: Review, tmp_path: Path) -> None:
    other = tmp_path / "laptop.book"
    shutil.copy(tmp_path / "family.book", other)
    practised("warmup", "Mira", "--on", "2026-01-06", typed="3\n4\nstop\n")
    practised("--book", str(other), "set", "add", "times-2-5-10", "Jonah", "--taught", "--on", "2026-01-06")
    told = practised("merge", str(other))
    assert told.code == 0, told.err
    assert "times-2-5-10" in practised("child", "list").out
    assert practised("verify").code == 0
    practised("--book", str(other), "merge", str(tmp_path / "family.book"))
    export = [tmp_path / name for name in ("a.jsonl", "b.jsonl")]
    practised("export", str(export[0]))
    practised("--book", str(other), "export", str(export[1]))
    assert [line for line in export[0].read_text().splitlines() if "prev" in line] == [
        line for line in export[1].read_text().splitlines() if "prev" in line
    ]


def test_a_child_of_one_name_in_both_copies_is_told_by_a_number(practised: Review, tmp_path: Path) -> None:
    other = tmp_path / "laptop.book"
    shutil.copy(tmp_path / "family.book", other)
    practised("child", "add", "Nell", "--age", "6", "--on", "2026-01-06")
    practised("--book", str(other), "child", "add", "Nell", "--age", "9", "--on", "2026-01-06")
    practised("merge", str(other))
    listed = practised("child", "list").out
    assert "Nell:" in listed
    assert "Nell 2:" in listed
    assert practised("child", "edit", "Nell 2", "--name", "Ida", "--on", "2026-01-07").code == 0


def test_who_was_forgotten_here_is_said_to_be_left_out(practised: Review, tmp_path: Path) -> None:
    """“Nothing new was in it” was all that an import of a forgotten child said."""
    book, other, file = tmp_path / "family.book", tmp_path / "laptop.book", tmp_path / "mira.jsonl"
    other.write_bytes(book.read_bytes())
    practised("export", str(file), "Mira")
    practised("child", "forget", "Mira", typed="Mira\n")
    told = " ".join(practised("import", str(file)).out.split())
    assert "Nothing came in. It holds Mira, forgotten here for good: nothing of that was taken." in told
    assert "Another book can take it in: review --book NEW.book import FILE" in told
    told = "".join(practised("merge", str(other)).out.split())  # a long path is broken anywhere
    assert "ItholdsMira,forgottenhereforgood" in told
    again = f"--book {other} merge {book}"
    assert f"ToforgetMiratheretoo:review{again.replace(' ', '')}" in told
    assert "A child forgotten there was forgotten here." in practised(*again.split()).out
    assert "Mira" not in practised("merge", str(other)).out


def test_a_copy_is_made_where_a_merge_brings_something_and_else_not(
    practised: Review, tmp_path: Path
) -> None:
    """Where the same copy is merged every night, nothing new is most often in it."""
    copy = tmp_path / "laptop.book"
    shutil.copy(tmp_path / "family.book", copy)
    off = ("away", "--from", "2026-02-01", "--to", "2026-02-02", "Mira", "--on", "2026-01-20")
    assert practised("--book", str(copy), *off).code == 0
    told = [practised("merge", str(copy)).out for _ in range(3)]
    assert ["The book as it was before" in out for out in told] == [True, False, False]
    assert ["Nothing new was in it." in out for out in told] == [False, True, True]


def test_an_older_copy_put_back_by_hand_is_mended_by_the_line_that_is_told(
    practised: Review, tmp_path: Path
) -> None:
    """As by a folder that two computers share, or a file manager."""
    book, older = tmp_path / "family.book", tmp_path / "older"
    shutil.copy(book, older)
    practised("warmup", "Mira", "--on", "2026-01-06", typed="3\n5\nstop\n")
    whole = answers(practised)
    shutil.copy(older, book)
    told = practised("warmup", "Mira", "--on", "2026-01-07", typed="3\nstop\n")
    lacking = " ".join((told.out + told.err).split())
    copy = tmp_path / "family.book.backups" / "2026-01-06.book"
    assert "entries that its copy" in lacking
    assert f"review merge {copy}".replace(" ", "") in lacking.replace(" ", "")
    assert practised("merge", str(copy)).code == 0
    assert answers(practised) == whole + 1
    assert practised("verify").code == 0


def test_another_book_is_not_merged(practised: Review, tmp_path: Path) -> None:
    other = str(tmp_path / "other.book")
    practised("--book", other, "child", "add", "Nuri", "--age", "8", *DAY)
    refused = practised("merge", other)
    assert refused.code == 1
    assert "export FILE" in refused.err
    assert "is the book itself" in practised("merge", str(tmp_path / "family.book")).err
