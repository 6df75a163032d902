"""Ctrl-C at a small question: a line of its own, that says what is true there."""

import json
import re
import shutil
import signal
import sys
from pathlib import Path

import pytest

from review.cli import fronts
from review.core.days import date_of
from review.terminal import signals
from tests.cli.conftest import DAY, Review
from tests.terminal.seat import Seat, sat

CTRL_C = "\x03"
NOTHING = "Stopped. Nothing was changed."
ON = ("--on", "2026-01-06")
SET = "times-2-5-10"

SCENES = [
    (("set", "add", SET, "Mira", *ON), ["Numbers, all, or Enter for none: "], NOTHING),
    (("set", "pick", "Mira", *ON), ["Number, or Enter: "], "Stopped. Nothing was given."),
    (("set", "new"), ["What is it called? "], NOTHING),
    (("set", "new", "ours.toml"), ["What is it called? ", "For which ages? [6 9]: "], NOTHING),
    (("child", "forget", "Mira"), ["Type the name (Mira) to go on: "], NOTHING),
    (("placement", "addition-facts-10", "Mira", *ON), ["  Adding 0, 1 and 2: "], NOTHING),
    (("undo", "Mira", *ON), ["Take it back? [y/N]: "], NOTHING),
    (("warmup", *ON), ["Number or name: "], NOTHING),
]
"""A command, what stands before the cursor at each question (Enter goes on to the next), and what is said."""


def stopped(arguments: tuple[str, ...], asked: list[str], tmp_path: Path) -> tuple[int, str]:
    """Ctrl-C at the last of the questions."""
    environment = {"COLUMNS": "", "LINES": "", "PWD": str(tmp_path)}
    with sat(Seat(sys.executable, ["-m", "review", *arguments], 80, 40, environment)) as taken:
        for n, question in enumerate(asked):
            if n:
                taken.press("Ours\r")
            taken.see(question.strip())
        taken.settle(0.1)
        taken.press(CTRL_C)
        code = taken.finish()
        return code, taken.text


@pytest.mark.parametrize(("arguments", "asked", "said"), SCENES)
def test_who_stops_at_a_question_is_told_what_is_true_on_a_line_of_its_own(
    family: Review, arguments: tuple[str, ...], asked: list[str], said: str, tmp_path: Path
) -> None:
    family("warmup", "Mira", *ON, typed="5\n")
    before = family("child", "show", "Mira", "--json").out
    code, text = stopped(arguments, asked, tmp_path)
    assert (code, text.splitlines()[-1]) == (130, said)
    assert "Everything is kept" not in text
    assert family("child", "show", "Mira", "--json").out == before


def test_copies_that_are_asked_about_are_told_when_one_stops_there(family: Review, tmp_path: Path) -> None:
    """By then the child is out of the book."""
    assert family("backup").code == 0
    with sat(Seat(sys.executable, ["-m", "review", "child", "forget", "Mira"], 80, 40, {})) as taken:
        taken.see("to go on").press("Mira\r")
        taken.see("Delete these copies?").settle(0.1).press(CTRL_C)
        assert taken.finish() == 0
        assert re.search(r"^Mira is no longer in the book\.$", taken.text, re.M)
        assert "Copies that still hold Mira" in taken.text
        assert "that you made of Mira are files of your own" in " ".join(taken.text.split())
    assert "Mira" not in family("child", "list").out
    assert [*tmp_path.rglob("*.book")] != [tmp_path / "family.book"]


@pytest.mark.parametrize(
    ("days", "said"),
    [(0, "Stopped. Nothing was entered."), (1, "Stopped. What was entered before is kept.")],
)
def test_who_stops_while_marks_are_entered_hears_which_are_kept(
    family: Review, days: int, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    out = family("sheet", "Mira", "--week", "--out", "w.html", "--on", "2026-01-11").out
    number = re.search(r"enter (\d+)", out)
    assert number
    with sat(Seat(sys.executable, ["-m", "review", "enter", number[1]], 80, 40, {})) as taken:
        for day in range(days):
            taken.at("Marks: ").press("all\r")
            taken.see("Done on Monday").press("\r")
            taken.see(f"Kept: day {day + 1}")
        taken.at("Marks: ").settle(0.1).press(CTRL_C)
        assert taken.finish() == 130
        assert taken.text.splitlines()[-1] == said
    assert (
        family("log", "--json", "--since", "2026-01-11", "--until", "2026-01-20").out.count('"date"') == days
    )


KEPT, TRIAL = "Stopped. Everything is kept.", "Stopped. It was a trial: nothing is kept."


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
@pytest.mark.parametrize(
    ("options", "said"),
    [((), KEPT), (("--gentle",), KEPT), (("--try",), TRIAL), (("--gentle", "--try"), TRIAL)],
)
def test_who_stops_in_a_warm_up_is_told_whether_it_is_kept(
    review: Review,
    season: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    options: tuple[str, ...],
    said: str,
    number: int,
) -> None:
    def stopped_at_once(*arguments: object) -> None:
        raise signals.interrupted(number)

    shutil.copy(season, tmp_path / "ours.book")
    monkeypatch.setenv("REVIEW_BOOK", str(tmp_path / "ours.book"))
    monkeypatch.setattr(fronts, "chosen", lambda plain, jsonl, aloud, speak: stopped_at_once)
    name = json.loads(review("child", "list", "--json").out)[0]["name"]
    done = review("warmup", name, *options, "--on", date_of(DAY + 1).isoformat())
    assert (done.code, done.err.strip()) == (128 + number, said)


@pytest.mark.parametrize("how", ["--typed", "--aloud"])
def test_a_trial_that_is_stopped_after_an_answer_says_that_nothing_is_kept(family: Review, how: str) -> None:
    before = family("child", "show", "Mira", "--json").out
    arguments = ["-m", "review", "warmup", "Mira", "--try", how, *ON]
    with sat(Seat(sys.executable, arguments, 80, 24, {})) as taken:
        taken.see("○").settle(0.2).press("5\r" if how == "--typed" else "m")
        taken.settle(0.3).press(CTRL_C)
        assert taken.finish() == 130
        assert taken.text.splitlines()[-1] == TRIAL
    assert family("child", "show", "Mira", "--json").out == before


def test_the_first_run_says_it_below_too(tmp_path: Path) -> None:
    with sat(Seat(sys.executable, ["-m", "review"], 80, 24, {"REVIEW_BOOK": str(tmp_path / "b")})) as taken:
        taken.at("The child's first name: ").press("Mira\r")
        taken.at("Age in whole years: ").press("seven\r")
        taken.see("Write the age in whole years, from 4 to 14.")
        taken.at("Age in whole years: ").settle(0.1).press(CTRL_C)
        assert taken.finish() == 130
        assert taken.text.splitlines()[-1] == "Stopped. Nothing is kept yet. To begin again: python -m review"
        assert "Error" not in taken.text


def test_what_is_no_question_is_stopped_on_a_line_of_its_own_too(tmp_path: Path) -> None:
    arguments = ["-m", "review", "demo", "--folder", str(tmp_path / "demo")]
    with sat(Seat(sys.executable, arguments, 80, 24, {})) as taken:
        taken.read(1.5)  # it plays ninety days before it says anything
        taken.press(CTRL_C)
        assert taken.finish() == 130
        assert taken.text.splitlines()[-1] == "Stopped. Everything is kept."


def test_every_question_goes_one_way() -> None:
    """Else one of them would be left on the line it was asked on."""
    rooms = Path(__file__).parents[2] / "review"
    asking = [room.name for room in rooms.rglob("*.py") if "click.prompt" in room.read_text(encoding="utf-8")]
    assert asking == ["options.py"]
