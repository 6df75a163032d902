"""`review warmup` read aloud: when it is, what is kept, and what is taken back."""

import json
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from review import gather
from review.book import store
from review.config import state_folder
from review.core import family
from review.core.model import Child, Event
from review.terminal.aloud_keys import APART_NS
from tests.cli.conftest import Review
from tests.terminal.seat import Seat, sat
from tests.terminal.test_voice import fake

DAY = "2026-01-06"


def rows(tmp_path: Path) -> list[Event]:
    with store.open_book(tmp_path / "family.book", state_folder(), write=False) as book:
        return [row for row in book.events() if row.kind in ("answer", "undo")]


@contextmanager
def at_a_terminal(*arguments: str, env: dict[str, str] | None = None) -> Iterator[Seat]:
    environment = {"COLUMNS": "", "LINES": "", **(env or {})}
    with sat(Seat(sys.executable, ["-m", "review", *arguments], 40, 30, environment)) as taken:
        yield taken


def stopped(taken: Seat, seen: str) -> str:
    taken.see(seen)
    taken.press("\x04")
    assert taken.finish() == 0
    return taken.text


@pytest.mark.parametrize(
    ("age", "mode", "options", "aloud"),
    [
        (7, None, (), True),
        (7, None, ("--typed",), False),
        (7, "--typed", (), False),
        (7, "--typed", ("--aloud",), True),
        (8, None, (), False),
        (8, None, ("--aloud",), True),
        (8, "--aloud", (), True),
    ],
)
def test_under_eight_at_a_terminal_unless_the_family_says_otherwise(
    review: Review, age: int, mode: str | None, options: tuple[str, ...], aloud: bool
) -> None:
    review("child", "add", "Orla", "--age", str(age), "--on", DAY)
    review("set", "add", "times-2-5-10", "Orla", "--taught", "--on", DAY)
    if mode:
        assert review("child", "edit", "Orla", mode, "--on", DAY).code == 0
    with at_a_terminal("warmup", "--on", DAY, "--try", *options) as taken:
        if not aloud:
            taken.see("If not, press Enter.").prompted()
        screen = stopped(taken, "s  stop" if aloud else "=")
    assert "That is all for now." in screen


@pytest.mark.parametrize("age", range(4, 15))
def test_by_age_where_nobody_chose(age: int) -> None:
    child = Child("c", "Orla", age, 1)
    assert family.is_aloud(child, age) == (age < 8)
    assert family.is_aloud(child._replace(mode="aloud"), age)
    assert not family.is_aloud(child._replace(mode="typed"), age)


def test_how_it_goes_is_said_in_two_lines(family: Review) -> None:
    with at_a_terminal("warmup", "Mira", "--on", DAY) as taken:
        taken.see("b  take back")
        head = taken.lines[:5]
        stopped(taken, "b  take back")
    assert head == [
        "Hello, Mira.",
        "Fill the dots. Then you are done.",
        "You read out, Mira answers.",
        "Then press 1, 2 or 3 (or m, w, n).",
        "",
    ]


def test_a_pipe_is_typed_unless_it_is_asked_to_be_aloud(family: Review, tmp_path: Path) -> None:
    assert "Answer: " not in family("warmup", "Mira", "--on", DAY, typed="stop\n").out
    done = family("warmup", "Mira", "--aloud", "--on", DAY, typed="m\nw\nn\nstop\n")
    assert done.code == 0
    assert "Read out: " in done.out
    bodies = [row.body for row in rows(tmp_path)]
    assert [body["mark"] for body in bodies] == ["right", "right_slow", "not_yet"]
    assert {body["taken"] for body in bodies} == {"aloud"}
    assert all("end_ms" not in body for body in bodies)
    assert "sound" in family("verify").out


def test_what_was_taken_back_is_undone_in_the_log_and_stays_undone(family: Review, tmp_path: Path) -> None:
    """It never was: not for the sitting that goes on, not for memory, not for the next start that day."""
    first = family("warmup", "Mira", "--aloud", "--on", DAY, typed="m\nn\nb\nstop\n").out
    answer, wrong, undo = rows(tmp_path)
    assert [row.kind for row in (answer, wrong, undo)] == ["answer", "answer", "undo"]
    assert undo.body == {"device": wrong.device, "seq": wrong.seq}
    with store.open_book(tmp_path / "family.book", state_folder(), write=False) as book:
        (mira, _) = gather.family_of(book)
        known = gather.memory_of(book, mira.key)
    assert {*known.cards} == {answer.card}
    assert "sound" in family("verify").out
    again = family("warmup", "Mira", "--aloud", "--on", DAY, typed="stop\n").out
    shown = [line for line in first.splitlines() if line.startswith("Read out: ")]
    assert [line for line in again.splitlines() if line.startswith("Read out: ")] == [shown[-1]]
    assert shown[1] == shown[-1]


def test_keys_at_a_terminal_are_kept_and_taken_back(family: Review, tmp_path: Path) -> None:
    with at_a_terminal("warmup", "Mira", "--on", DAY) as taken:
        for key in "mbn":
            taken.see("b  take back")
            time.sleep(APART_NS / 1e9 + 0.05)
            taken.press(key)
        taken.see("Then press Enter.")
        taken.press("\x04")
        assert taken.finish() == 0
    assert [row.kind for row in rows(tmp_path)] == ["answer", "undo", "answer"]


def test_a_placement_is_aloud_too(family: Review, tmp_path: Path) -> None:
    family("set", "add", "subtraction-facts-10", "Jonah", "--on", DAY)
    done = family(
        "placement", "subtraction-facts-10", "Jonah", "--aloud", "--on", DAY, typed="m\nb\nm\n?\ns\n"
    )
    assert done.code == 0, done.err
    assert "? helps" not in done.out
    assert [row.kind for row in rows(tmp_path)] == ["answer", "undo", "answer"]
    assert {row.body.get("role") for row in rows(tmp_path) if row.kind == "answer"} == {"probe"}


def test_how_a_child_answers_is_kept(family: Review) -> None:
    assert "you read out" in family("child", "edit", "Jonah", "--aloud", "--on", DAY).out
    assert [row["mode"] for row in json.loads(family("child", "list", "--json").out)] == ["", "aloud"]
    assert "the child types" in family("child", "edit", "Jonah", "--typed", "--on", DAY).out


@pytest.mark.parametrize("option", ["--aloud", "--typed", "--speak"])
def test_another_program_reads_out_by_itself(family: Review, option: str) -> None:
    for command in (("warmup", "Mira"), ("placement", "addition-facts-10", "Mira")):
        done = family(*command, "--jsonl", option, "--on", DAY)
        assert (done.code, done.out) == (2, "")
    assert family("warmup", "Mira", "--explain", option, "--on", DAY).code == 2


# --- the voice ----------------------------------------------------------------------------------------


def test_without_a_voice_it_is_said_once_and_goes_on(
    family: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    done = family("warmup", "Mira", "--speak", "--on", DAY, typed="0\nstop\n")
    assert done.code == 0
    assert done.err.count("\n") == 1
    assert "espeak-ng" in done.err
    assert "espeak-ng" not in done.out
    assert len(rows(tmp_path)) == 1


def test_the_voice_reads_todays_problems(family: Review, tmp_path: Path) -> None:
    voice = fake(tmp_path, 600)
    with at_a_terminal("warmup", "Mira", "--speak", "--on", DAY, env=voice.env) as taken:
        taken.see("b  take back")
        voice.wait(1)
        words = next(line for line in taken.lines if line.startswith("Read out: "))
        taken.press("s")
        assert taken.finish() == 0
    assert voice.said == [words.removeprefix("Read out: ")]


def test_a_name_that_was_mistyped_is_asked_again(family: Review) -> None:
    """A child of seven sits there: nobody need begin anew."""
    with at_a_terminal("warmup", "--try", "--typed", "--on", DAY) as taken:
        for name in ("Zoe", "9", "mi"):
            taken.see("Who is here?").at("Number or name: ").press(f"{name}\r")
            if name != "mi":
                taken.see(f"“{name}” in the")
        taken.see("Hello, Mira.")
        assert "all for now" in stopped(taken, " =")
