"""The whole book out and in, as a parent does it: export, import, backup, restore."""

import contextlib
import csv
import json
import os
import sqlite3
import sys
from pathlib import Path

import pytest

from review.shell import word
from tests.cli.conftest import Review, answers
from tests.terminal.seat import Seat, sat

DAY = ("--on", "2026-01-05")


@pytest.mark.parametrize(
    "command",
    ["export {}", "export {} --csv", "log --out {} --format text", "progress --html {}", "manual --out {}"],
)
@pytest.mark.parametrize("name", ["family.book", "copy.book"])
def test_a_record_book_is_never_written_over(
    practised: Review, tmp_path: Path, command: str, name: str
) -> None:
    """With --force each of these put its own text in the place of all that was answered."""
    assert practised("backup", str(tmp_path / "copy.book")).code == 0
    before = (tmp_path / name).read_bytes()
    done = practised(*command.format(tmp_path / name).split(), "--force")
    assert (done.code, "is a record book, and is never written over" in done.err) == (1, True)
    assert (tmp_path / name).read_bytes() == before


def test_no_sheet_is_written_over_a_record_book(practised: Review, tmp_path: Path) -> None:
    book = tmp_path / "copy.html"
    assert practised("backup", str(book)).code == 0
    before = book.read_bytes()
    done = practised("sheet", "--grid", "products", "--out", str(book), "--force")
    assert (done.code, "is a record book, and is never written over" in done.err) == (1, True)
    assert book.read_bytes() == before


@pytest.mark.parametrize(
    "command", ["log --json --out {}", "log --json --format csv", "progress --json --html {}"]
)
def test_json_is_for_the_screen_alone(practised: Review, tmp_path: Path, command: str) -> None:
    """The file that was named was not written, and nothing said so."""
    done = practised(*command.format(tmp_path / "page.html").split())
    assert (done.code, done.out) == (2, "")
    assert "--json" in done.err
    assert not (tmp_path / "page.html").exists()


@pytest.mark.parametrize(
    "command",
    ["export", "export --csv", "log --format text --out", "progress --html", "manual --out"],
)
@pytest.mark.parametrize("force", [(), ("--force",)])
@pytest.mark.parametrize("folder", [".", "/", "there", ""])
def test_a_folder_is_no_file_to_write(
    practised: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str, force: tuple[str, ...],
    folder: str,
) -> None:  # fmt: skip
    """Told by a sentence: a folder without a name of its own was a traceback."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "there").mkdir()
    done = practised(*command.split(), folder, *force)
    assert (done.code, "is a folder" in done.err) == (1, True), done
    assert [*(tmp_path / "there").iterdir()] == []


@pytest.mark.parametrize(
    "command",
    ["export", "export --csv", "log --format csv --out", "progress --html", "manual --out", "backup"],
)
def test_a_dash_makes_no_file_of_that_name(
    practised: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    """Who writes it means the screen, and found the book's whole log in a file called -."""
    monkeypatch.chdir(tmp_path)
    there = sorted(tmp_path.iterdir())
    done = practised(*command.split(), "-")
    assert (done.code, "- names no file here" in done.err) == (1, True), done
    assert sorted(tmp_path.iterdir()) == there


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")
@pytest.mark.parametrize("command", ["export {}", "log --out {} --format text", "progress --html {}"])
def test_a_pipe_keeps_its_name(practised: Review, tmp_path: Path, command: str) -> None:
    """With --force it was gone, and with it whoever read from it; run as root, so was /dev/stdout."""
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    done = practised(*command.format(pipe).split(), "--force")
    assert (done.code, "is no plain file, and is never written over" in done.err) == (1, True)
    assert pipe.is_fifo()


# --- out and in ----------------------------------------------------------------------------------------


def test_a_round_trip_gives_the_same_book(
    practised: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, again = tmp_path / "out.jsonl", tmp_path / "again.book"
    told = practised("export", str(file))
    assert told.code == 0
    assert "each with its proof" in " ".join(told.out.split())
    before = [practised("overdue", "--all", "--json", "--on", "2026-01-20").out, answers(practised)]
    monkeypatch.setenv("REVIEW_BOOK", str(again))
    assert practised("import", str(file)).code == 0
    assert [practised("overdue", "--all", "--json", "--on", "2026-01-20").out, answers(practised)] == before
    second = tmp_path / "second.jsonl"
    practised("export", str(second))
    assert second.read_bytes() == file.read_bytes()


def test_the_same_file_twice_changes_nothing(practised: Review, tmp_path: Path) -> None:
    practised("export", str(tmp_path / "out.jsonl"))
    before = answers(practised)
    copies = practised("restore", "--json").out
    told = practised("import", str(tmp_path / "out.jsonl"))
    assert told.code == 0
    assert "Nothing new was in it" in told.out
    assert "The book as it was before" not in told.out
    assert (answers(practised), practised("restore", "--json").out) == (before, copies)


def test_one_child_can_go_to_another_family(
    practised: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "mira.jsonl"
    assert practised("export", str(file), "Mira").code == 0
    monkeypatch.setenv("REVIEW_BOOK", str(tmp_path / "other.book"))
    practised("child", "add", "Nuri", "--age", "8", *DAY)
    told = practised("import", str(file))
    assert "New here: Mira." in told.out
    assert practised("child", "list").out.count("years old") == 2
    assert practised("verify").code == 0


def test_a_namesake_is_told_before_anything_comes_in(
    practised: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    practised("export", str(tmp_path / "out.jsonl"))
    monkeypatch.setenv("REVIEW_BOOK", str(tmp_path / "other.book"))
    practised("child", "add", "Mira", "--age", "8", *DAY)
    refused = practised("import", str(tmp_path / "out.jsonl"))
    assert refused.code == 1
    assert f"review child edit Mira --name {word('Mira B')}" in refused.err
    assert not (tmp_path / "other.book.backups").exists()
    assert practised("child", "edit", "Mira", "--name", "Mira B", *DAY).code == 0
    assert practised("import", str(tmp_path / "out.jsonl")).code == 0


def test_two_families_with_a_child_of_one_name_send_their_weeks_to_one_adviser(
    review: Review, tmp_path: Path
) -> None:
    """The second file of the first family was refused, for its child is called Mira there, as the other is
    here: renamed to and fro, neither ever came in again."""

    def sent(family: str, day: str) -> str:
        book, file = str(tmp_path / f"{family}.book"), tmp_path / f"{family}-{day}.jsonl"
        if not Path(book).exists():
            assert review("--book", book, "child", "add", "Mira", "--age", "8", "--on", day).code == 0
        off = ("away", "--from", "2026-03-02", "--to", "2026-03-03", "Mira", "--on", day)
        assert review("--book", book, *off).code == 0
        assert review("--book", book, "export", str(file), "Mira").code == 0
        return str(file)

    mine = ("--book", str(tmp_path / "mine.book"))
    first, second = sent("one", "2026-01-05"), sent("two", "2026-01-05")
    assert review(*mine, "import", first).code == 0
    assert review(*mine, "import", second).code == 1
    assert review(*mine, "child", "edit", "Mira", "--name", "Mira A", "--on", "2026-01-05").code == 0
    assert "New here: Mira." in review(*mine, "import", second).out
    for family in ("one", "two"):
        assert "1 entry came in." in review(*mine, "import", sent(family, "2026-01-12")).out
    names = [one["name"] for one in json.loads(review(*mine, "child", "list", "--json").out)]
    assert names == ["Mira A", "Mira"]
    assert review(*mine, "verify").code == 0


def test_an_export_cut_in_half_is_refused_and_the_book_stays(practised: Review, tmp_path: Path) -> None:
    file = tmp_path / "out.jsonl"
    practised("export", str(file))
    lines = file.read_bytes().splitlines(keepends=True)
    file.write_bytes(b"".join(lines[: len(lines) // 2]) + lines[len(lines) // 2][:20])
    before = answers(practised)
    refused = practised("import", str(file))
    assert (refused.code, answers(practised)) == (1, before)
    assert "Export it again" in refused.err
    assert "Traceback" not in refused.err


@pytest.mark.parametrize("content", [b"", b"\x00\x01", b"name,age\nMira,7\n", b"{}"])
def test_a_foreign_file_is_refused(practised: Review, tmp_path: Path, content: bytes) -> None:
    (tmp_path / "x.csv").write_bytes(content)
    refused = practised("import", str(tmp_path / "x.csv"))
    assert refused.code == 1
    assert "is no exported book" in refused.err


def test_a_file_that_is_there_is_written_over_only_on_a_word(practised: Review, tmp_path: Path) -> None:
    file = tmp_path / "out.jsonl"
    file.write_text("mine")
    refused = practised("export", str(file))
    assert (refused.code, file.read_text()) == (1, "mine")
    assert "--force" in refused.err
    assert practised("export", str(file), "--force").code == 0
    assert "cannot be written" in practised("export", str(tmp_path / "none" / "out.jsonl")).err


def test_a_table_is_safe_to_open(practised: Review, tmp_path: Path) -> None:
    file = tmp_path / "answers.csv"
    told = practised("export", str(file), "Mira", "--csv")
    assert "leave out --csv" in told.out
    with open(file, encoding="utf-8-sig", newline="") as opened:
        rows = list(csv.DictReader(opened))
    assert rows
    assert {row["child"] for row in rows} == {"Mira"}
    assert rows[0]["date"] == "2026-01-05"
    assert "'-4" in {row["given"] for row in rows}
    cells = [cell for row in rows for cell in row.values()]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]


# --- copies --------------------------------------------------------------------------------------------


def test_there_and_back(practised: Review, tmp_path: Path) -> None:
    copy, book = tmp_path / "copy.book", tmp_path / "family.book"
    assert practised("backup", str(copy)).code == 0
    assert "exists already" in practised("backup", str(copy)).err
    before = answers(practised)
    book.write_bytes(b"")
    assert practised("child", "list").code == 3
    asked = practised("restore", str(copy))
    assert asked.code == 1
    assert "--yes" in asked.err
    told = practised("restore", str(copy), "--yes")
    assert told.code == 0, told.err
    assert "set aside" in told.out
    assert answers(practised) == before
    assert practised("verify").code == 0


def test_what_was_restored_is_told_as_json_too(practised: Review, tmp_path: Path) -> None:
    copy, book = tmp_path / "copy.book", tmp_path / "family.book"
    entries = sum(json.loads(practised("verify", "--json").out)[name] for name in ("answers", "others"))
    assert practised("backup", str(copy)).code == 0
    assert practised("taught", "doubles-to-10", "Mira", *DAY).code == 0
    told = json.loads(practised("restore", str(copy), "--yes", "--json").out)
    aside = Path(f"{book}.set-aside-1")
    assert told == {
        "book": str(book), "copy": str(copy), "entries": entries, "saved": 1, "set_aside": str(aside)
    }  # fmt: skip
    assert aside.is_file()


@pytest.mark.parametrize(
    ("said", "told"), [("n", "Nothing was restored."), ("y", "The old file was set aside")]
)
def test_a_person_is_asked_in_whole_words(practised: Review, tmp_path: Path, said: str, told: str) -> None:
    assert practised("backup", str(tmp_path / "copy.book")).code == 0
    arguments = ["-m", "review", "restore", str(tmp_path / "copy.book")]
    with sat(Seat(sys.executable, arguments, 80, 40, {"COLUMNS": "", "LINES": ""})) as taken:
        taken.see("This puts the copy").see("Go back to that copy?")
        assert "in the place of" in " ".join(taken.text.split())
        taken.at("Go back to that copy? [y/N]: ").press(f"{said}\r")
        assert taken.finish() == 0
        assert told in taken.text


def test_a_copy_that_is_not_there_is_no_reason_to_begin_a_book(practised: Review) -> None:
    done = practised("merge", "laptop.book")
    assert (done.code, done.err) == (1, "There is no file laptop.book. Name the other copy of the book.\n")


def test_the_copies_are_listed_newest_first_and_one_is_chosen_by_its_name(
    practised: Review, tmp_path: Path
) -> None:
    practised("backup")
    rows = json.loads(practised("restore", "--json").out)
    assert rows[0]["sound"]
    listed = practised("restore").out
    assert "Put one in the book's place: review restore" in listed
    name = Path(rows[0]["copy"]).stem
    assert practised("restore", name, "--yes").code == 0
    refused = practised("restore", "yesterday", "--yes")
    assert refused.code == 1
    assert name in refused.err


def test_a_damaged_book_points_to_the_way_back(practised: Review, tmp_path: Path) -> None:
    book = tmp_path / "family.book"
    whole = book.read_bytes()
    book.write_bytes(whole[:200] + bytes(len(whole) - 200))
    refused = practised("overdue")
    assert refused.code == 3
    assert "review restore" in refused.err


@pytest.mark.parametrize("card", ["", "sum:%"])
def test_damage_to_what_is_only_cached_stands_in_nobodys_way(
    practised: Review, tmp_path: Path, card: str
) -> None:
    """It can be worked out from the log: every report is as before, and the next warm-up mends it."""
    day, later = ("--on", "2026-01-06"), ("--on", "2026-01-07")
    reports = ("overdue", "progress", "brief", "teach", "stuck", "log", "misses")
    before = [practised(name, "--json", *later).out for name in reports]
    book = tmp_path / "family.book"
    with contextlib.closing(sqlite3.connect(book)) as db:
        look = "SELECT body FROM memory WHERE card LIKE ? ORDER BY card LIMIT 1"
        (body,) = db.execute(look, (card,)).fetchone()
    at = book.read_bytes().index(body.encode()) + 6
    with book.open("r+b") as file:
        file.seek(at)
        file.write(b"garbageX")
    assert [practised(name, "--json", *later).out for name in reports] == before
    assert practised("verify").code == 3
    assert practised("warmup", "Mira", *day, typed="1\n2\n").code == 0
    assert practised("verify").code == 0


def test_a_file_of_the_other_kind_is_sent_to_the_command_that_takes_it(
    practised: Review, tmp_path: Path
) -> None:
    exported, book = tmp_path / "all.jsonl", tmp_path / "family.book"
    practised("export", str(exported))
    for words in (("merge", str(exported)), ("--book", str(exported), "overdue")):
        refused = practised(*words)
        assert refused.code == 3
        assert refused.err == (
            f"{exported} is an exported file, not a record book; "
            "the command import takes it into your book.\n"
        )
    refused = practised("import", str(book))
    assert refused.code == 1
    assert (
        f"is a record book, not an exported file. If it is a copy of your book: review merge {book}"
        in refused.err
    )
