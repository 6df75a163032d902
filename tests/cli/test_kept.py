"""What is kept of a child, told in words, and forgetting one."""

import json
import re
import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Review, answers
from tests.cli.test_book import DAY


def test_everything_kept_is_shown_in_words(practised: Review) -> None:
    shown = practised("child", "show", "Mira", "--on", "2026-01-07").out
    for part in ("Mira, 7 years", "Your answers: ", "The last one: ", "child forget Mira"):
        assert part in shown
    assert re.search("What you were taught: (?!nothing)", shown)
    row = json.loads(practised("child", "show", "Mira", "--json").out)
    assert row["answers"] == answers(practised)
    assert re.search(r"Your answers: \d+, on \d+ \w+ \d+\.", shown)  # all of one day
    assert "You have not answered anything yet." in practised("child", "show", "Jonah").out


def test_what_was_chosen_for_a_child_is_shown_too(family: Review) -> None:
    """“Everything the book keeps of a child” left out all that `child edit` can choose."""
    before = family("child", "show", "Mira").out
    ways = ("--pace", "2", "--zone", "Europe/London", "--untimed", "--aloud", "--likes", "make-ten")
    edited = " ".join(family("child", "edit", "Mira", *ways, *DAY).out.split())
    assert "2 new cards a day; time is never judged by" in edited
    assert "days go by the time of Europe/London" in edited
    shown = family("child", "show", "Mira").out
    for line in (
        "How you answer: somebody reads out, and you say it.", "New cards a day: at most 2.",
        "How long you take never counts.", "The way you like best: Make a ten first.",
        "Your days go by the time of Europe/London.",
    ):  # fmt: skip
        assert (line in before, line in shown) == (False, True), line
    row = json.loads(family("child", "show", "Mira", "--json").out)
    assert (row["mode"], row["pace"], {*row["likes"].values()}) == ("aloud", 2, {"make-ten"})
    assert "2 new cards a day" in family("child", "list").out
    assert [one["pace"] for one in json.loads(family("child", "list", "--json").out)] == [2, None]


@pytest.mark.parametrize(
    ("options", "typed", "told"),
    [
        (("--aloud",), "n\ns\n", "”; it had not come yet."),  # nobody asked to see it
        (("--aloud",), "m\ns\n", "”; you gave "),
        (("--typed",), "pass\nstop\n", "”; you asked to see it."),
    ],
)
def test_the_last_answer_is_told_as_it_came(
    family: Review, options: tuple[str, ...], typed: str, told: str
) -> None:
    assert family("warmup", "Mira", *options, *DAY, typed=typed).code == 0
    shown = " ".join(family("child", "show", "Mira", *DAY).out.split())
    assert told in shown[shown.index("The last one: ") :]


def test_a_forgotten_child_leaves_no_byte_of_the_name(family: Review, tmp_path: Path) -> None:
    family("child", "add", "Quillwort", "--age", "8", *DAY)
    family("set", "add", "times-2-5-10", "Quillwort", "--taught", *DAY)
    family("warmup", "Quillwort", *DAY, typed="3\nstop\n")
    told = family("child", "forget", "Quillwort", "--copies", typed="quillwort\n")
    assert told.code == 0, told.err
    files = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert not [path for path in files if b"uillwort" in path.read_bytes()]
    assert family("verify").code == 0
    assert "Quillwort" not in family("child", "list").out


@pytest.mark.parametrize("typed", ["", "\n", "Mir\n", "Jonah\n"])
def test_without_the_name_typed_again_nothing_is_forgotten(practised: Review, typed: str) -> None:
    before = answers(practised)
    refused = practised("child", "forget", "Mira", typed=typed)
    assert (refused.code, answers(practised)) == (1, before)
    assert "Nothing was forgotten: that is not the name, which is Mira." in refused.err


def test_a_beginning_of_the_name_is_not_enough_to_forget(practised: Review) -> None:
    assert practised("child", "forget", "Mi", typed="Mi\n").code == 1


def test_copies_stay_unless_somebody_says_so(practised: Review, tmp_path: Path) -> None:
    practised("backup")
    told = practised("child", "forget", "Mira", typed="Mira\n")
    assert "Copies that still hold Mira" in told.out
    assert list((tmp_path / "family.book.backups").glob("*.book"))


def test_before_copies_go_it_is_said_who_else_is_in_them(practised: Review) -> None:
    practised("backup")
    told = practised("child", "forget", "Mira", typed="Mira\n").out
    assert "They hold Jonah too: without them only the book does. A new copy: review backup" in told
    assert "Copies that still hold Mira (and Jonah); delete them when you no longer need" in told
    told = practised("child", "forget", "Jonah", typed="Jonah\n").out
    assert "too: without" not in told


def test_copies_that_go_are_counted_and_none_is_said_to_stay(practised: Review, tmp_path: Path) -> None:
    practised("backup")
    copies = len(list((tmp_path / "family.book.backups").glob("*.book")))
    told = practised("child", "forget", "Mira", "--copies", typed="Mira\n")
    assert f"Deleted with it: {copies} cop" in told.out
    assert "still hold" not in told.out
    assert not list((tmp_path / "family.book.backups").glob("*.book"))


def test_another_record_book_beside_it_is_named_and_never_deleted(practised: Review, tmp_path: Path) -> None:
    """A folder that two computers share had a second copy under a name of its own, and nobody told of it."""
    other = tmp_path / "family (the conflicted copy of a laptop).book"
    shutil.copy(tmp_path / "family.book", other)
    assert str(other) in json.loads(practised("child", "show", "Mira", "--json").out)["other_books"]
    assert "beside it hold you too" in practised("child", "show", "Mira").out
    told = practised("child", "forget", "Mira", "--copies", typed="Mira\n").out
    flat = "".join(told.split())
    assert "OtherrecordbooksbesidethisoneholdMiratoo.ForgetMiraineach" in flat
    assert "".join(str(other).split()) in flat
    assert other.exists()
    assert practised("--book", str(other), "child", "forget", "Mira", "--no-copies", typed="Mira\n").code == 0
