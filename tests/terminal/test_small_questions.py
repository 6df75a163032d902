"""An answer asked once more, and how one was found, through each front."""

import json
import signal
import time
from pathlib import Path

import pytest

from review.core import sayings
from review.core.warmup import AskLiked, AskRecalled
from review.terminal import carry_out
from review.terminal.json_lines import JsonLines
from review.terminal.lines import Lines
from review.terminal.signals import Signals
from tests.terminal.seat import golden, rows_of, seat
from tests.terminal.streams import by_json, by_lines, stream, written

TOOK_S = 4.6  # one key copied at 9 takes 1.7 s; less that, it is 2 to 4 s


@pytest.mark.parametrize("columns", [80, 40])
def test_a_slip_on_the_terminal(rows: Path, columns: int) -> None:
    with seat(rows, "so_far=2", columns=columns) as taken:
        taken.at("7 × 6 = ").press("442\r")
        taken.see("Look once more.").at("7 × 6 = ")
        golden("slip", columns, taken)
        taken.press("42\r")
        taken.at("36 + 15 = ").press("\x04")
        assert taken.finish() == 0
    (row,) = rows_of(rows)
    assert (row["given"], row["slipped"], row["mark"], row["end_ms"]) == ("42", "442", "right", 0)


@pytest.mark.parametrize(("columns", "keys", "recalled"), [(80, "m\r", "yes"), (40, "\x04", "")])
def test_how_it_was_found_on_the_terminal(rows: Path, columns: int, keys: str, recalled: str) -> None:
    """Of this child, day and card it is drawn that the first answer is asked about."""
    with seat(rows, "timed=double:2", columns=columns) as taken:
        taken.at("Double 2 is ")
        time.sleep(TOOK_S)
        taken.press("4\r")
        taken.see("From memory").at("m / w, or Enter: ")
        golden("recalled", columns, taken)
        assert rows_of(rows) == []  # kept once it is answered
        taken.press(keys)
        if keys == "m\r":
            taken.at("2 + 5 = ").press("\x04")
        assert taken.finish() == 0
    assert [row["recalled"] for row in rows_of(rows)] == [recalled]


@pytest.mark.parametrize(("columns", "keys", "liked"), [(80, "2\r", "counting-on"), (40, "\r", "")])
def test_which_way_is_liked_on_the_terminal(rows: Path, columns: int, keys: str, liked: str) -> None:
    """Of this book it is drawn that the first sum found with help is asked about."""
    with seat(rows, "so_far=3", "book=book-2", columns=columns) as taken:
        taken.at("48 + 28 = ").press("?")
        taken.see("Can one number fill up the other?").at("48 + 28 = ").press("76\r")
        taken.see("Which way do you like?").at("1 / 2, or Enter: ")
        golden("liked", columns, taken)
        assert rows_of(rows) == []  # kept once it is answered
        taken.press(keys)
        taken.at("8 × 7 = ").press("\x04")
        assert taken.finish() == 0
    assert [(row["liked"], row["help"]) for row in rows_of(rows)] == [(liked, "question")]


@pytest.mark.parametrize("number", [signal.SIGHUP, signal.SIGTERM])
def test_an_answer_that_waits_for_a_question_is_kept_when_the_terminal_goes(
    rows: Path, number: signal.Signals
) -> None:
    with seat(rows, "so_far=3", "book=book-2") as taken:
        taken.at("48 + 28 = ").press("?")
        taken.see("Can one number fill up the other?").at("48 + 28 = ").press("76\r")
        taken.see("Which way do you like?").at("1 / 2, or Enter: ")
        taken.child.kill(number)
        assert taken.finish() == 128 + number
    assert [(row["given"], row["help"], row["liked"]) for row in rows_of(rows)] == [("76", "question", "")]


@pytest.mark.parametrize("number", [signal.SIGHUP, signal.SIGTERM])
def test_help_is_not_forgotten_when_the_terminal_goes(rows: Path, number: signal.Signals) -> None:
    """Else the answer after it would be one from memory."""
    with seat(rows, "so_far=3", "book=book-2") as taken:
        taken.at("48 + 28 = ").press("?")
        taken.see("Can one number fill up the other?").at("48 + 28 = ")
        taken.child.kill(number)
        assert taken.finish() == 128 + number
    assert [(row["given"], row["help"], row["mark"]) for row in rows_of(rows)] == [("", "question", "void")]


def test_which_way_is_liked_in_lines_and_in_json() -> None:
    asked = AskLiked(
        sayings.WHICH_WAY, (("Make a ten first.", "8 + 2 = 10\n10 + 3 = 13"), ("Count on.", "9"))
    )
    out = stream()
    carry_out(Lines(stream(), out, Signals()), (asked,), lambda row: None)
    assert written(out) == (
        "\nWhich way do you like?\n\n1  Make a ten first.\n   8 + 2 = 10\n   10 + 3 = 13\n\n"
        "2  Count on.\n   9\n\n1 / 2, or Enter: "
    )
    out = stream()
    carry_out(JsonLines(stream(), out, Signals(), lambda: 0), (asked,), lambda row: None)
    assert json.loads(written(out)) == {
        "type": "ask_liked", "card": "", "text": "Which way do you like?",
        "ways": [
            {"words": "Make a ten first.", "steps": "8 + 2 = 10\n10 + 3 = 13"},
            {"words": "Count on.", "steps": "9"},
        ],
    }  # fmt: skip


def test_lines_and_json_ask_once_more_alike() -> None:
    piped = by_lines("4\n7\n442\n42\n")
    program = by_json(*({"answer": text, "seconds": 2} for text in ("4", "7", "442", "42")))
    for heard in (piped, program):
        assert [(row.given, row.slipped) for row in heard.answers] == [("4", ""), ("7", ""), ("42", "442")]
    assert "7 × 6 = \nLook once more.\nType it again.\n7 × 6 = \n" in piped.text
    (again,) = program.of("ask_again")
    assert again["card"] == "product:6x7"


def test_the_small_question_in_lines() -> None:
    out = stream()
    carry_out(Lines(stream(), out, Signals()), (AskRecalled(sayings.FROM_MEMORY),), lambda row: None)
    assert written(out) == "From memory, or worked out?\nm / w, or Enter: "
    assert all(len(line) <= 40 for line in written(out).splitlines())


def test_a_pipe_and_a_program_are_not_asked() -> None:
    assert Lines(stream(), stream(), Signals()).person is False
    heard = by_json(*({"answer": text, "seconds": 5} for text in ("4", "7", "42", "51")))
    assert not heard.of("ask_recalled")
