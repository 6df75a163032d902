"""The front that only adds lines: a pipe, a screen reader, a plain terminal."""

import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.model import Answer, Help, Problem
from review.core.warmup import Show
from review.terminal import dots_rows, dots_words, lines, prompt_lines, reminder, text_lines, tidy
from review.terminal.aloud import hanging
from review.terminal.lines import Lines
from review.terminal.signals import Signals
from tests.terminal.driver import SITTING
from tests.terminal.seat import ROOT, Seat, rows_of, sat, seat
from tests.terminal.streams import by_lines, stream, written

GOLDEN = Path(__file__).parent / "golden"
ALL = "4\n7\n41\n42\n?\n51\n\n56\nblue\n8\n7\npass\n42\n4\n56\n9\n42\n56\n5\n"


def test_a_piped_sitting_from_greeting_to_end() -> None:
    heard = by_lines(ALL, greet=("Hello, Tove.", "Fill the dots. Then you are done."))
    assert heard.text == (GOLDEN / "lines.txt").read_text(encoding="utf-8")
    assert heard.summary.finished


def test_nothing_but_lines_is_written() -> None:
    text = by_lines(ALL).text
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]", text)
    assert not re.search(r"[\u2500-\u257f]", text)  # box drawing (Unicode block)
    assert max(map(len, text.splitlines())) <= 40


@pytest.mark.parametrize(("text", "kept"), [("", []), ("4\n", ["4"]), ("4\n7", ["4", "7"])])
def test_input_that_ends_early_is_a_stop(text: str, kept: list[str]) -> None:
    heard = by_lines(text)
    assert [row.given for row in heard.answers] == kept
    assert heard.text.endswith("You can go on later today.\n")
    assert not heard.summary.finished


@pytest.mark.parametrize(
    ("word", "mark"),
    [("pass", ["shown"]), ("PASS ", ["shown"]), ("stop", []), (" Stop", []), ("?", ["void"])],
)
def test_words_that_act(word: str, mark: list[str]) -> None:
    assert [row.mark for row in by_lines(word + "\n").answers] == mark


def test_stray_bytes_are_characters_that_cannot_be_read() -> None:
    heard = by_lines(b"\xff\xfe\n4\n")
    assert "Type a number" in heard.text
    assert [row.given for row in heard.answers] == ["4"]


@given(st.binary(max_size=300))
def test_any_input_ends_in_a_summary(data: bytes) -> None:
    assert by_lines(data).summary.first_tries >= 0


def test_an_answer_is_kept_before_anything_is_said_of_it() -> None:
    out, seen = stream(), list[str]()

    def keep(answer: Answer) -> None:
        seen.append(written(out))

    lines.play(SITTING, (), keep, source=stream("5\n"), out=out)
    assert "Double 2 is 4." not in seen[0]
    assert "Double 2 is 4." in written(out)


def test_an_answer_that_cannot_be_kept_is_not_told() -> None:
    def keep(answer: Answer) -> None:
        raise OSError("full")

    out = stream()
    with pytest.raises(OSError, match="full"):
        lines.play(SITTING, (), keep, source=stream("5\n"), out=out)
    assert "Double 2 is 4." not in written(out)


def test_ready_is_called_once_with_the_first_problem_on_screen() -> None:
    out, seen = stream(), list[str]()
    lines.play(
        SITTING, (), lambda row: None, source=stream(ALL), out=out, ready=lambda: seen.append(written(out))
    )
    assert len(seen) == 1
    assert seen[0].endswith("Double 2 is ")


def test_a_person_reads_what_is_told_in_their_own_time(tmp_path: Path) -> None:
    rows = tmp_path / "rows.jsonl"
    with seat(rows, front="lines", env={"TERM": "dumb"}) as taken:
        taken.at("Double 2 is ").press("5\r")
        taken.see("Then press Enter.")
        assert "Your turn." not in taken.text
        taken.press("\r")
        taken.see("Your turn.").at("Double 2 is ").press("\x04")
        assert taken.finish() == 0
        assert b"\x1b" not in taken.raw
    assert len(rows_of(rows)) == 1


@pytest.mark.parametrize(("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_a_signal_never_cuts_a_save(tmp_path: Path, number: signal.Signals, code: int) -> None:
    rows = tmp_path / "rows.jsonl"
    command = [sys.executable, "-m", "tests.terminal.driver", "lines", str(rows), "slow=400"]
    with subprocess.Popen(
        command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, bufsize=0
    ) as child:
        assert child.stdin is not None
        child.stdin.write(b"4\n")
        wait_for(rows.exists)
        os.kill(child.pid, number)
        assert child.wait(timeout=15) == code
    assert [row["given"] for row in rows_of(rows)] == ["4"]


def wait_for(true: Callable[[], bool]) -> None:
    end = time.monotonic() + 15
    while not true():
        assert time.monotonic() < end
        time.sleep(0.01)


# --- what fronts share --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("filled", "of", "rows"),
    [
        (0, 0, []),
        (1, 3, ["●○○"]),
        (5, 7, ["●●●●● ○○"]),
        (0, 20, ["○○○○○ ○○○○○ ○○○○○ ○○○○○"]),
        (21, 22, ["●●●●● ●●●●● ●●●●● ●●●●●", "●○"]),
    ],
)
def test_dots_stand_by_fives(filled: int, of: int, rows: list[str]) -> None:
    assert dots_rows(filled, of) == rows


@pytest.mark.parametrize(
    ("filled", "of", "words"),
    [(0, 20, "20 dots to fill."), (19, 20, "1 dot to fill."), (20, 20, "All dots are full.")],
)
def test_who_listens_hears_how_many_dots_are_left(filled: int, of: int, words: str) -> None:
    assert dots_words(filled, of) == words


@given(st.text(alphabet="ab 12×", max_size=120), st.integers(5, 40))
def test_a_prompt_leaves_room_for_the_answer(prompt: str, width: int) -> None:
    found = prompt_lines(prompt, width)
    assert all(len(line) <= width for line in found)
    assert len(found[-1]) + 12 <= width or found[-1] == ""
    assert " ".join(found).split() == prompt.split() or max(map(len, prompt.split())) > width


def test_columns_of_a_worked_sum_keep_their_place() -> None:
    assert text_lines("  47\n+ 25\x1b[2J\n  72") == ["  47", "+ 25[2J", "  72"]


def test_columns_of_a_table_keep_their_place() -> None:
    assert text_lines("tens      3\nhundreds  \x1b[1m4 \x07") == ["tens      3", "hundreds  [1m4"]


@given(st.text())
def test_a_text_keeps_its_spaces_and_loses_what_cannot_be_seen(text: str) -> None:
    found = text_lines(text)
    assert len(found) == text.count("\n") + 1
    assert all(line.isprintable() and line == line.rstrip() for line in found)


@given(st.text(alphabet="ab 12×□"))
def test_plain_text_is_shown_as_it_is(text: str) -> None:
    assert text_lines(text) == [text.rstrip()]


@given(st.text())
def test_an_answer_is_one_short_line(text: str) -> None:
    found = tidy(text)
    assert len(found) <= 200
    assert found.isprintable()


STORY = "Jo has 12 shells in a tin. The tide brings 2 more at 2 p.m. on the next day. How many are there?"
TIDE = "The tide comes in at 9. By then the boat must be in the bay. Is 8 a.m. early enough for you?"


@pytest.mark.parametrize(
    ("prompt", "short"),
    [
        ("7 × 8 =", "7 × 8 ="),
        ("Be at Rock by 17:40. Leave Pier at", "Be at Rock by 17:40. Leave Pier at"),
        ("14 + 1 = 10 + 6. True or false?", "14 + 1 = 10 + 6. True or false?"),
        (STORY, "How many are there?"),
        (TIDE, "Is 8 a.m. early enough for you?"),
        ("so many words without an end " * 4, "so many words without an end " * 4),
    ],
)
def test_below_help_a_long_problem_is_called_to_mind_by_its_last_sentence(prompt: str, short: str) -> None:
    assert reminder(prompt) == short


def test_help_does_not_tell_a_long_problem_again() -> None:
    out = stream()
    front = Lines(stream(""), out, Signals())
    problem = Problem("pairs:a=b", "pairs", "a=b", STORY, STORY, "whole", "14", "It is 14.")
    front.show(Show(1, problem, dots=(0, 3)))
    for _ in range(2):
        front.help(Help("question", "How many come to the 12?"))
    told = " ".join(written(out).split())
    assert told.count("Jo has 12") == 1
    assert told.count("How many are there?") == 3


def test_no_line_of_a_prompt_ends_within_a_sum() -> None:
    prompt = "Which number makes this true: 12 + 5 = □ + 4"
    assert prompt_lines(prompt, 40) == ["Which number makes this true:", "12 + 5 = □ + 4"]
    assert hanging("Look: ", prompt) == ["Look: Which number makes this true:", "      12 + 5 = □ + 4"]


STOPPED = 'set -m; "$0" -m tests.terminal.driver "$2" "$1"; echo stopped; read x; fg'


@pytest.mark.parametrize(
    ("front", "first", "waits", "keys"),
    [
        ("lines", "Double 2 is", "Double 2 is ", "4"),
        ("lines", "Double 2 is", "Then press Enter.", ""),
        ("aloud-lines", "Read out", "m / w / n: ", "m"),
    ],
)
def test_after_a_stop_it_says_what_it_waits_for(
    rows: Path, front: str, first: str, waits: str, keys: str
) -> None:
    """The shell has written its own line below, and a child does not know that anybody waits."""
    with sat(Seat("/bin/sh", ["-c", STOPPED, sys.executable, str(rows), front], 80, 40, {})) as taken:
        taken.see(first).settle(0.1)
        if not keys:
            taken.press("5\n")
        taken.see(waits.strip()).settle(0.1).press("\x1a")
        taken.see("stopped").settle(0.3)
        taken.press("\n")
        if keys:
            taken.at(waits)
        else:
            taken.below(waits, times=2)
        taken.press(f"{keys}\n")
        taken.settle(0.2).press("stop\n")
        taken.see("You can go on later today.")
