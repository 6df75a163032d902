"""A sitting on a real terminal, driven through a pseudo-terminal and looked at on an emulated screen."""

import re
import statistics
import sys
import time
from pathlib import Path

import pytest

from tests.terminal.seat import Seat, golden, rows_of, sat, seat, to_the_miss

GREETING = "greet=Hello, Tove.|Fill the dots. Then you are done."


# --- what is seen -------------------------------------------------------------------------------------


@pytest.mark.parametrize("columns", [80, 40])
def test_screens_from_greeting_to_end(rows: Path, columns: int) -> None:
    with seat(rows, GREETING, columns=columns, rows=30) as taken:
        taken.at("Double 2 is ")
        golden("first", columns, taken)
        to_the_miss(taken)
        golden("told", columns, taken)
        taken.press("\r")
        taken.see("Your turn.").at("7 × 6 = ")
        golden("copy", columns, taken)
        taken.press("42\r")
        taken.at("36 + 15 = ").press("?")
        taken.see("tens").at("36 + 15 = ")
        golden("help", columns, taken)
        taken.press("51\r")
        taken.see("Do you know this one yet?").at("7 × 8 = ")
        golden("meeting", columns, taken)
        taken.press("56\r")
        for line, text in (
            ("15 − 8 = ", "7"),
            ("7 × 6 = ", "42"),
            ("Half of 18 is ", "9"),
            ("Half of 10 is ", "5"),
        ):
            taken.at(line).press(f"{text}\r")
        assert taken.finish() == 0
        golden("end", columns, taken)
    assert [row["mark"] for row in rows_of(rows)].count("not_yet") == 1


def test_what_was_told_is_gone_before_it_is_copied(rows: Path) -> None:
    with seat(rows) as taken:
        to_the_miss(taken)
        assert "makes 42" in taken.text
        taken.press("\r")
        taken.see("Your turn.").at("7 × 6 = ")
        assert "42" not in taken.text
        assert "41" not in taken.text


def test_nothing_is_wider_than_forty_columns(rows: Path) -> None:
    with seat(rows, GREETING, columns=120) as taken:
        to_the_miss(taken)
        assert max(len(line) for line in taken.lines) <= 40


def test_an_ascii_screen_gets_ascii_signs(rows: Path) -> None:
    with seat(rows, env={"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}) as taken:
        taken.at("Double 2 is ").press("4\r")
        taken.at("2 + 5 = ").press("7\r")
        taken.at("7 x 6 = ")
        assert "##--- ---" in taken.text
        assert taken.raw.isascii()


def test_no_colour_at_all_is_used(rows: Path) -> None:
    with seat(rows) as taken:
        to_the_miss(taken)
        assert not re.search(rb"\x1b\[[0-9;]*m", taken.raw)


# --- keys ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("pause_s", [0, 0.5])
def test_enter_right_after_a_question_mark_is_no_answer(rows: Path, pause_s: float) -> None:
    """One who types `?` as one types a number, with Enter, asks for help; alone it says "not known"."""
    with seat(rows) as taken:
        to_the_miss(taken)
        taken.press("\r")
        taken.see("Your turn.").at("7 × 6 = ").press("42\r")
        taken.at("36 + 15 = ").press("51\r")
        taken.see("Do you know this one yet?").at("7 × 8 = ").press("?")
        time.sleep(pause_s)
        taken.press("\r")
        time.sleep(0.3)
        taken.at("7 × 8 = ").press("56\r")
        taken.see("Which way do you like?").press("\r")
        taken.at("15 − 8 = ").press("stop\r")
        assert taken.finish() == 0
    (new,) = [row for row in rows_of(rows) if row["card"] == "product:7x8"]
    assert (new["given"], new["mark"]) == ("56", "right_helped")


PROBLEMS = (
    ("Double 2 is ", "4"), ("2 + 5 = ", "7"), ("7 × 6 = ", "42"), ("36 + 15 = ", "51"), ("7 × 8 = ", "56"),
    ("15 − 8 = ", "7"), ("Half of 18 is ", "9"), ("Half of 10 is ", "5"),
)  # fmt: skip
DROPPED = (
    "5\x7f",  # backspace
    "55\x15",  # Ctrl-U
    "数\x7f",  # a wide character
    "e\u0301\x7f",  # and one that sits on another
    "\x1b[A\x1b[3~",  # cursor up, delete
    "\x1bx",  # Alt-x
    "\x1bOP\x1b[1;5D\x1b]11;rgb:0/0/0\x07",  # F1, Ctrl-left, a terminal's reply
    "\x1b[200~\r\x1b[201~",  # an Enter that was pasted
)


def test_only_characters_enter_the_answer(rows: Path) -> None:
    with seat(rows) as taken:
        for (line, text), dropped in zip(PROBLEMS, DROPPED, strict=True):
            taken.at(line).press(dropped + text)
            taken.at(line + text).press("\r")
        assert taken.finish() == 0
    assert [row["given"] for row in rows_of(rows)] == [text for _, text in PROBLEMS]


def test_a_lone_escape_does_nothing(rows: Path) -> None:
    with seat(rows) as taken:
        taken.at("Double 2 is ").press("\x1b")
        time.sleep(0.2)
        taken.press("4\r")
        taken.at("2 + 5 = ").press("\x04")
        taken.finish()
    assert rows_of(rows)[0]["given"] == "4"


def test_a_character_may_come_in_pieces(rows: Path) -> None:
    with seat(rows) as taken:
        taken.at("Double 2 is ")
        for byte in "数".encode():
            taken.press(bytes([byte]))
            time.sleep(0.02)
        taken.at("Double 2 is 数").press("\x7f4\r")
        taken.at("2 + 5 = ")
    assert rows_of(rows)[0]["given"] == "4"


def test_ten_thousand_pasted_characters_are_cut(rows: Path) -> None:
    """What no answer can be is asked again; nothing of it spills into the next problem."""
    with seat(rows) as taken:
        taken.at("Double 2 is ")
        for _ in range(20):
            taken.press("7" * 500)
            taken.read()
        taken.press("\r")
        taken.see("Type a number").at("Double 2 is ").press("4\r")
        taken.at("2 + 5 = ").press("\x04")
        assert taken.finish() == 0
    assert [row["given"] for row in rows_of(rows)] == ["4"]


def test_what_is_typed_ahead_is_thrown_away(rows: Path) -> None:
    with seat(rows, "slow=300") as taken:
        taken.at("Double 2 is ").press("4\r")
        time.sleep(0.1)
        taken.press("99\r99\r")
        taken.at("2 + 5 = ").press("7\r")
        taken.at("7 × 6 = ")
    assert [row["given"] for row in rows_of(rows)] == ["4", "7"]


def test_a_second_enter_does_not_skip_what_is_told(rows: Path) -> None:
    with seat(rows, "slow=200") as taken:
        taken.at("Double 2 is ").press("5\r\r\r")
        taken.see("Then press Enter.")
        time.sleep(0.1)
        taken.read()
        assert "Your turn." not in taken.text


def test_help_keeps_what_was_typed(rows: Path) -> None:
    with seat(rows) as taken:
        taken.at("Double 2 is ").press("4?")
        taken.at("Double 2 is 4").press("\r")
        taken.at("2 + 5 = ")
    assert rows_of(rows)[0]["mark"] == "right_helped"


def test_the_problem_stands_once_below_its_help(rows: Path) -> None:
    """Five steps of help would else leave it on the screen five times."""
    with seat(rows, columns=40) as taken:
        for line, text in (("Double 2 is ", "4"), ("2 + 5 = ", "7")):
            taken.at(line).press(text + "\r")
        taken.at("7 × 6 = ").press("4?")
        for step in ("Build it", "You know"):
            taken.at("7 × 6 = 4").press("\t")
            taken.see(step)
        taken.at("7 × 6 = 4")
        assert taken.text.count("7 × 6 =") == 1
        assert taken.lines[taken.screen.cursor.y - 1] == ""
        assert taken.text.index("Build it") < taken.text.index("You know") < taken.text.index("7 × 6 =")


def test_what_is_said_of_an_empty_line_makes_place_for_help(rows: Path) -> None:
    """It stood between all steps of help, four times on a page."""
    with seat(rows, columns=40) as taken:
        for line, text in (("Double 2 is ", "4"), ("2 + 5 = ", "7")):
            taken.at(line).press(text + "\r")
        taken.at("7 × 6 = ")
        for step in ("One more 7.", "Build it"):
            taken.press("\r\r")  # the first one may belong to the help before
            taken.see("Type a number, or ? for help.").at("7 × 6 = ").press("\t")
            taken.see(step).at("7 × 6 = ")
            assert "Type a number" not in taken.text
            assert taken.lines[1] == "●●○○○ ○○○"
        assert taken.text.index("One more 7.") < taken.text.index("Build it") < taken.text.index("7 × 6 =")
        taken.press("x\r")
        taken.see("Type a number, like 35.").at("7 × 6 = ").press("\t")
        taken.see("You know").at("7 × 6 = ")
        assert "7 × 6 = x\nType a number, like 35.\n" in taken.text


def two_lines(taken: Seat) -> str:
    """A problem that has an empty line of its own for the answer; its words."""
    taken.see(" is\n")
    return next(line for line in taken.lines if line.endswith(" is"))


@pytest.mark.parametrize("columns", [80, 40])
def test_a_problem_of_two_lines_stands_once_below_its_help(rows: Path, columns: int) -> None:
    with seat(rows, "sort=long", columns=columns) as taken:
        problem = two_lines(taken)
        taken.press("4")
        taken.at("4")
        for step in ("Which two", "Draw a line"):
            taken.press("\t")
            taken.see(step).at("4")
        assert taken.text.count(problem) == 1
        assert taken.text.index("Which two") < taken.text.index("Draw a line") < taken.text.index(problem)
        assert taken.lines[taken.screen.cursor.y - 1] == problem


@pytest.mark.parametrize("size", [(24, 46), (30, 80), (2, 80)])
def test_no_line_is_lost_where_the_window_has_changed(rows: Path, size: tuple[int, int]) -> None:
    """Then nobody knows where the lines of the problem are: it is written again below."""
    with seat(rows, "sort=long") as taken:
        problem = two_lines(taken)
        dots = taken.lines[1]
        taken.child.setwinsize(*size)
        taken.press("4\t")
        taken.see("Which two").at("4")
        assert taken.text.count(problem) == 2
        assert dots in taken.lines


def test_what_the_shell_wrote_stays_and_the_whole_problem_comes_back(rows: Path) -> None:
    script = 'set -m; "$0" -m tests.terminal.driver typed "$1" sort=long; echo stopped; read x; fg'
    with sat(Seat("/bin/sh", ["-c", script, sys.executable, str(rows)], 100, 40, {})) as taken:
        problem = two_lines(taken)
        time.sleep(0.2)
        taken.press("\x1a")
        taken.see("stopped")
        time.sleep(0.3)
        taken.press("\r")
        taken.below(problem, times=2).press("\t")
        taken.see("Which two").below(problem, times=2)
        assert "stopped" in taken.text
        taken.press("\x04")


def test_the_picture_comes_back_after_a_stop(rows: Path) -> None:
    """Else “The time is” stands on a screen that was cleared meanwhile, below no clock."""
    play, clear = '"$0" -m tests.terminal.driver typed "$1" pictures', 'printf "\\033[H\\033[2Jstopped\\n"'
    script = f"set -m; {play}; {clear}; read x; fg"
    with sat(Seat("/bin/sh", ["-c", script, sys.executable, str(rows)], 80, 24, {})) as taken:
        taken.at("The time is ").press("4")
        clock = next(line for line in taken.lines if "12" in line)
        taken.at("The time is 4").press("\x1a")
        taken.see("stopped")
        assert clock not in taken.lines
        time.sleep(0.3)
        taken.press("\r")
        taken.at("The time is 4")
        assert taken.lines.count(clock) == 1
        taken.press("\x04")


def test_what_waits_for_enter_comes_back_after_a_stop(rows: Path) -> None:
    """Else a child looks at an empty screen, and knows of no key to press."""
    script = 'set -m; "$0" -m tests.terminal.driver typed "$1"; echo stopped; read x; fg'
    with sat(Seat("/bin/sh", ["-c", script, sys.executable, str(rows)], 100, 40, {})) as taken:
        taken.at("Double 2 is ").press("pass\r")
        taken.see("Then press Enter.")
        time.sleep(0.2)
        taken.press("\x1a")
        taken.see("stopped")
        time.sleep(0.3)
        taken.press("\r")
        taken.below("Then press Enter.", times=2)
        assert taken.text.count("Double 2 is 4.") == 2
        taken.press("\r")
        taken.see("Your turn.")
        assert "Then press Enter." not in taken.text
        taken.press("\x04")


def test_help_comes_back_after_a_stop(rows: Path) -> None:
    """Else a child who was shown how it goes stands before the bare problem once more."""
    play, clear = '"$0" -m tests.terminal.driver typed "$1"', 'printf "\\033[H\\033[2Jstopped\\n"'
    script = f"set -m; {play}; {clear}; read x; fg"
    with sat(Seat("/bin/sh", ["-c", script, sys.executable, str(rows)], 80, 40, {})) as taken:
        for line, text in (("Double 2 is ", "4"), ("2 + 5 = ", "7")):
            taken.at(line).press(text + "\r")
        taken.at("7 × 6 = ").press("?")
        taken.see("One more 7.").at("7 × 6 = ").press("?")
        taken.see("Build it").at("7 × 6 = ").press("x\r")
        taken.see("Type a number").at("7 × 6 = ")
        before = taken.text[taken.text.index("What is") :]
        taken.press("\x1a")
        taken.see("stopped")
        assert "Build it" not in taken.text
        time.sleep(0.3)
        taken.press("\r")
        taken.at("7 × 6 = ")
        assert taken.text[taken.text.index("What is") :] == before.replace("7 × 6 = x\n", "")
        taken.press("\x04")


def test_below_a_picture_the_help_that_stood_there_comes_back(rows: Path) -> None:
    """Where a new page has the clock and the last help alone, no more than that."""
    play, clear = '"$0" -m tests.terminal.driver typed "$1" pictures', 'printf "\\033[H\\033[2Jstopped\\n"'
    script = f"set -m; {play}; {clear}; read x; fg"
    with sat(Seat("/bin/sh", ["-c", script, sys.executable, str(rows)], 80, 24, {})) as taken:
        taken.at("The time is ")
        for _ in range(3):
            before = taken.text
            taken.press("?")
            taken.changed(before).at("The time is ")
        before = taken.text
        taken.press("\x1a")
        taken.see("stopped")
        time.sleep(0.3)
        taken.press("\r")
        taken.at("The time is ").settle()
        assert taken.text.strip().endswith(before.strip())
        taken.press("\x04")


@pytest.mark.parametrize(("keys", "mark"), [("pass\r", "shown"), ("5\r", "not_yet")])
def test_pass_and_a_miss_are_told(rows: Path, keys: str, mark: str) -> None:
    with seat(rows) as taken:
        taken.at("Double 2 is ").press(keys)
        taken.see("Double 2 is 4.").see("Say it once.")
    assert rows_of(rows)[0]["mark"] == mark


def test_a_narrower_window_is_no_trouble(rows: Path) -> None:
    with seat(rows) as taken:
        to_the_miss(taken)
        taken.child.setwinsize(24, 12)
        taken.screen.resize(24, 12)
        taken.press("\r")
        taken.see("Your turn.").see("7 × 6 =").press("42\r")
        taken.see("36 + 15 =").press("\x04")
        assert taken.finish() == 0


# --- the time -----------------------------------------------------------------------------------------


def test_times_are_those_of_the_keys(rows: Path) -> None:
    """First key and Enter to within 30 ms, half of them within 10: the median of several."""
    with seat(rows) as taken:
        errors: list[tuple[float, float]] = []
        for line, text in (
            ("Double 2 is ", "4"),
            ("2 + 5 = ", "7"),
            ("7 × 6 = ", "42"),
            ("36 + 15 = ", "51"),
        ):
            taken.at(line)
            shown_ns = taken.seen_ns
            time.sleep(0.15)
            first_ns = taken.press(text[0])
            time.sleep(0.1)
            end_ns = taken.press(text[1:] + "\r")
            errors.append(((first_ns - shown_ns) / 1e6, (end_ns - shown_ns) / 1e6))
        taken.at("7 × 8 = ")
    told = [(row["first_ms"], row["end_ms"]) for row in rows_of(rows)]
    off = [
        abs(float(str(is_ms)) - ms)
        for row, true in zip(told, errors, strict=True)
        for is_ms, ms in zip(row, true, strict=True)
    ]
    assert statistics.median(off) <= 30
