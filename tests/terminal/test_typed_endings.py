"""Every way a sitting on a real terminal ends, is stopped, and goes on."""

import os
import signal
import sys
import time
from pathlib import Path

import pytest

from tests.terminal.seat import Seat, rows_of, sat, seat, to_the_miss

WAYS = [
    ("\x04", 0),
    ("stop\r", 0),
    ("\x03", 130),
    (signal.SIGTERM, 143),
    (signal.SIGHUP, 129),
    (signal.SIGINT, 130),
]


@pytest.mark.parametrize(
    ("held", "way", "code"),
    [*((False, *way) for way in WAYS), (True, "stop\r", 0), (True, "\x04", 0), (True, "\x03", 130)],
)
def test_the_terminal_is_as_it_was(rows: Path, held: bool, way: str | signal.Signals, code: int) -> None:
    with seat(rows) as taken:
        taken.at("Double 2 is ")
        assert taken.attributes() != taken.before
        if held:
            to_the_miss(taken)
        if isinstance(way, str):
            taken.press(way)
        else:
            os.kill(taken.child.pid, way)
        assert taken.finish() == code
        assert taken.attributes() == taken.before
        assert taken.raw.rindex(b"\x1b[?2004l") > taken.raw.index(
            b"\x1b[?2004h"
        )  # bracketed paste is off again
        if code in (0, 130):
            taken.see("You can go on later today.")
    assert len(rows_of(rows)) == (3 if held else 0)


@pytest.mark.parametrize(
    ("number", "code"), [(signal.SIGTERM, 143), (signal.SIGHUP, 129), (signal.SIGINT, 130)]
)
def test_a_signal_never_cuts_a_save(rows: Path, number: signal.Signals, code: int) -> None:
    with seat(rows, "slow=400") as taken:
        taken.at("Double 2 is ").press("4\r")
        time.sleep(0.2)
        os.kill(taken.child.pid, number)
        assert taken.finish() == code
        assert taken.attributes() == taken.before
    assert [row["given"] for row in rows_of(rows)] == ["4"]


def test_an_answer_that_cannot_be_kept_is_not_told(rows: Path) -> None:
    with seat(rows, "fail=1") as taken:
        taken.at("Double 2 is ").press("5\r")
        assert taken.finish() == 9
        assert taken.attributes() == taken.before
        assert "Double 2 is 4." not in taken.text


def test_a_terminal_that_goes_away_ends_the_sitting(rows: Path) -> None:
    with seat(rows) as taken:
        taken.at("Double 2 is ").press("4\r")
        taken.at("2 + 5 = ")
        taken.child.ptyproc.fileobj.close()
        deadline = time.monotonic() + 10
        while taken.child.isalive() and time.monotonic() < deadline:
            time.sleep(0.02)
        assert not taken.child.isalive()
        assert taken.child.exitstatus == 129
    assert len(rows_of(rows)) == 1


# --- stopped and continued ----------------------------------------------------------------------------


def test_a_process_stopped_from_outside_goes_on_and_the_answer_is_void(rows: Path) -> None:
    with seat(rows) as taken:
        taken.at("Double 2 is ")
        os.kill(taken.child.pid, signal.SIGSTOP)
        time.sleep(0.2)
        os.kill(taken.child.pid, signal.SIGCONT)
        time.sleep(0.1)
        taken.press("4\r")
        taken.at("2 + 5 = ").press("7\r")
        taken.at("7 × 6 = ")
    assert [row["mark"] for row in rows_of(rows)] == ["void", "right"]


def test_control_z_gives_the_terminal_back_and_takes_it_again(rows: Path) -> None:
    """Under a shell with job control: stopped, the terminal is the shell's; continued, it is raw again."""
    script = (
        'set -m; "$0" -m tests.terminal.driver typed "$1"; stty -a; echo stopped; read x; fg; echo "ended $?"'
    )
    with sat(Seat("/bin/sh", ["-c", script, sys.executable, str(rows)], 100, 40, {})) as taken:
        taken.at("Double 2 is ")
        raw = taken.attributes()
        taken.press("\x1a")
        taken.see("stopped")
        assert taken.attributes() == taken.before
        time.sleep(0.3)
        taken.press("\r")
        taken.at("Double 2 is ")
        assert taken.attributes() == raw
        taken.press("4\r")
        taken.at("2 + 5 = ").press("\x04")
        taken.see("ended 0")
    (row,) = rows_of(rows)
    assert row["mark"] == "void"
    assert int(str(row["end_ms"])) < 5000
