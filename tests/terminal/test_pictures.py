"""Pictures on every front: above the prompt, as a step of help, in words where somebody may not see them."""

import os
from pathlib import Path

import pytest

from review.core import skills
from review.core.drawn import drawn
from review.core.model import Help
from review.core.picture_words import sentence
from review.core.pictures import Lines
from review.core.warmup import Show
from review.terminal import SILENCE, before_prompt
from review.terminal.aloud import View, problem_lines
from review.terminal.keys import Keys
from review.terminal.screen import Screen
from review.terminal.signals import Signals
from review.terminal.typed import Typist
from tests.terminal.seat import golden, seat
from tests.terminal.streams import pictures_by_json, pictures_by_lines, stream, written


@pytest.mark.parametrize("columns", [80, 40])
def test_a_clock_and_an_exchange_on_a_terminal(tmp_path: Path, columns: int) -> None:
    with seat(tmp_path / "rows.jsonl", "pictures", columns=columns, rows=30) as taken:
        taken.at("The time is ")
        golden("clock", columns, taken)
        taken.press("pass\r")
        taken.see("Then press Enter.").press("\r")
        taken.at("67 + 14 = ")
        for _ in range(4):
            taken.press("?")
        taken.see("10 ones make 1 ten.").at("67 + 14 = ")
        golden("exchange", columns, taken)


@pytest.mark.parametrize("columns", [80, 40])
def test_the_clock_stays_in_sight_with_all_its_help(tmp_path: Path, columns: int) -> None:
    with seat(tmp_path / "rows.jsonl", "pictures", columns=columns) as taken:
        taken.at("The time is ")
        clock = [line for line in taken.lines if line][1:-1]
        taken.press("3")
        for seen in ("Which number has", "toy clock", "□", " past 10 = "):
            taken.press("?")
            taken.see(seen).at("The time is 3")
            shown = [line for line in taken.lines if line]
            assert clock == shown[shown.index(clock[0]) :][: len(clock)]
        assert "toy clock" not in taken.text


def test_dots_to_be_counted_stand_apart_from_those_of_the_way() -> None:
    """A child of six asked how many dots there are would count both."""
    problem = skills.problem("quantity:dots/1..5", "3")
    shown = Show(1, problem, dots=(1, 5))
    frame = ["", "● ● ● ○ ○", "○ ○ ○ ○ ○"]
    assert before_prompt(shown) == ["", "●○○○○", *frame]
    assert problem_lines(View(shown))[:5] == ["", "●○○○○", *frame]


def test_in_plain_lines_a_sentence_stands_above_each_picture() -> None:
    text = pictures_by_lines("?\n?\n")
    (clock,) = [line for line in text.splitlines() if line.startswith("A clock with the short hand")]
    lines = text.splitlines()
    assert lines[lines.index(clock) + 2].strip() == "12"
    assert max(map(len, lines)) <= 40


def test_as_json_a_picture_is_lines_and_words() -> None:
    said = pictures_by_json({"pass": True}, *[{"help": True}] * 4, {"stop": True})
    clock, *_ = [found for found in said if found["type"] == "problem"]
    shown = skills.problem(str(clock["card"]), asked_of(clock))
    assert shown.picture is not None
    assert clock["picture_words"] == sentence(shown.picture)
    steps = {str(found["step"]): found for found in said if found["type"] == "help"}
    assert list(steps) == ["question", "build", "picture", "exchange"]
    assert (steps["question"]["picture"], steps["question"]["picture_words"]) == ([], "")
    assert "with a ring become 1 ten" in str(steps["exchange"]["picture_words"])


def asked_of(found: dict[str, object]) -> str:
    """The time that a face shows, found by trying every one."""
    for hour in range(1, 13):
        for minute in range(0, 60, 5):
            asked = f"{hour:02}:{minute:02}"
            picture = skills.problem("clock:read/5", asked).picture
            assert picture is not None
            if list(drawn(picture)) == found["picture"]:
                return asked
    raise AssertionError(found["picture"])


def test_help_says_what_it_draws() -> None:
    helps = skills.problem("column-sum:2+2/1-within", "47+25").helps
    assert [help.step for help in helps if help.picture] == ["picture", "exchange"]
    assert all(isinstance(help, Help) and help.text for help in helps)


def test_help_in_the_same_words_with_another_picture_is_shown(tmp_path: Path) -> None:
    """Only one who leans on Enter reads the same once."""
    out = stream()
    read, write = os.openpty()
    try:
        typist = Typist(Screen(out), Keys(read, write, "utf-8"), Signals(), SILENCE)
        typist.show(Show(1, skills.problem("quantity:dots/1..5", "3"), dots=(1, 5)))
        drawn = Help("picture", "Look.", Lines(("| 1 |",)))
        for help in (Help("question", "Look."), drawn, drawn):
            typist.help(help)
    finally:
        os.close(read)
        os.close(write)
    assert (written(out).count("Look."), written(out).count("| 1 |")) == (2, 1)
