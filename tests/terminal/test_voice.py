"""The voice: a program of that name on PATH writes down what it was told to say."""

import os
import sys
import time
from pathlib import Path
from typing import NamedTuple

import pytest

from review import catalogue
from review.core import card_sets, skills
from review.core.seeds import source
from review.terminal import voice
from tests.terminal.seat import rows_of, seat

SPOKEN_S = 0.6

FAKE = """#!{python}
import os, sys, time
with open({log!r}, "a") as log:
    log.write("|".join([str(os.getpid()), *sys.argv[1:]]) + "\\n")
time.sleep({seconds})
with open({log!r}, "a") as log:
    log.write("ended\\n")
"""


class Fake(NamedTuple):
    folder: Path
    log: Path

    @property
    def env(self) -> dict[str, str]:
        return {"PATH": f"{self.folder}:{os.environ['PATH']}"}

    @property
    def lines(self) -> list[str]:
        return self.log.read_text(encoding="utf-8").splitlines() if self.log.exists() else []

    @property
    def said(self) -> list[str]:
        return [line.split("|")[-1] for line in self.lines if line != "ended"]

    @property
    def processes(self) -> list[int]:
        return [int(line.split("|")[0]) for line in self.lines if line != "ended"]

    def wait(self, count: int) -> None:
        end = time.monotonic() + 15
        while len(self.lines) < count:
            assert time.monotonic() < end, self.lines
            time.sleep(0.01)


def fake(folder: Path, seconds: float) -> Fake:
    made = Fake(folder / "bin", folder / "said.txt")
    made.folder.mkdir()
    program = made.folder / voice.PROGRAM
    text = FAKE.format(python=sys.executable, log=str(made.log), seconds=seconds)
    program.write_text(text, encoding="utf-8")
    program.chmod(0o755)
    return made


@pytest.fixture
def short(tmp_path: Path) -> Fake:
    return fake(tmp_path, SPOKEN_S)


@pytest.fixture
def long(tmp_path: Path) -> Fake:
    return fake(tmp_path, 600)


def gone(process: int) -> bool:
    """Whether a process has ended; waits a little for it."""
    end = time.monotonic() + 15
    while time.monotonic() < end:
        try:
            os.kill(process, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.02)
    return False


# --- what is said -------------------------------------------------------------------------------------


def test_the_words_of_each_problem_are_said_and_nothing_else(rows: Path, long: Fake) -> None:
    script = (("Double 2 is ", "4\r"), ("2 + 5 = ", "7\r"), ("7 × 6 = ", "\x04"))
    with seat(rows, "speak=1", env=long.env) as taken:
        for n, (line, text) in enumerate(script, 1):
            taken.at(line)
            long.wait(n)
            taken.press(text)
        assert taken.finish() == 0
    assert long.said == ["double two", "two plus five", "seven times six"]
    assert long.lines[0].split("|")[1:] == ["-v", "en", "-s", "140", "--", "double two"]


def test_words_and_no_signs_whatever_the_problem() -> None:
    """The catalogue has signs in a few prompts of words; a family's own set may have any."""
    for name in catalogue.names()[::5]:
        for card in card_sets.cards([catalogue.shipped(name)])[:4]:
            problem = skills.problem(card.key, skills.draw(card.key, source("voice", card.key)))
            said = voice.in_speech(problem.say)
            assert said
            assert not set(said) & set("×÷+−=□°≈\x1b\n"), said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("7 × 6 = □", "7 times 6 equals what"),
        ("3/4 of 8, 2 1/2 and 1/3?", "three quarters of 8, 2 and one half and one third?"),
        ("£2.05, £3 or $0.50?", "two pounds and five pence, three pounds or fifty cents?"),
        ("3/4/2027, 3/1, 1.5/2, £1,000, £2.5, £1.001", "3/4/2027, 3/1, 1.5/2, £1,000, £2.5, £1.001"),
        ("--version; rm \x1b[2J\u202e x", "--version; rm [2J x"),
        ("a\nb", "a b"),
        ("x" * 5000, "x" * voice.LONGEST),
    ],
)
def test_what_a_familys_own_set_makes_it_say(words: str, said: str) -> None:
    assert voice.in_speech(words) == said


def test_no_word_is_taken_for_an_option_or_a_command(short: Fake, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", short.env["PATH"])
    found = voice.found()
    assert found is not None
    with found:
        found.speak("--version; echo $HOME")
        short.wait(2)
    assert short.said == ["--version; echo $HOME"]


# --- when it ends -------------------------------------------------------------------------------------


@pytest.mark.parametrize(("front", "key"), [("typed", "4\r"), ("lines", "4\r")])
def test_the_time_of_an_answer_begins_where_the_voice_ends(
    rows: Path, short: Fake, front: str, key: str
) -> None:
    with seat(rows, "speak=1", front=front, env=short.env) as taken:
        taken.at("Double 2 is ")
        shown = taken.seen_ns
        short.wait(2)  # it has spoken
        time.sleep(0.3)
        pressed = taken.press(key)
        taken.at("2 + 5 = ")
    (row,) = rows_of(rows)
    assert int(str(row["end_ms"])) <= (pressed - shown) / 1e6 - SPOKEN_S * 1000 + 100
    assert int(str(row["end_ms"])) >= 250


def test_a_key_cuts_the_voice_short_and_the_time_began_with_the_problem(rows: Path, long: Fake) -> None:
    with seat(rows, "speak=1", env=long.env) as taken:
        taken.at("Double 2 is ")
        long.wait(1)
        time.sleep(0.3)
        taken.press("4")
        assert gone(long.processes[0])
        time.sleep(0.2)
        taken.press("\r")
        taken.at("2 + 5 = ")
    (row,) = rows_of(rows)
    assert int(str(row["first_ms"])) >= 300
    assert int(str(row["end_ms"])) >= int(str(row["first_ms"])) + 200


@pytest.mark.parametrize("way", ["\x04", "\x03", "stop\r"])
def test_nothing_speaks_on_after_the_end(rows: Path, long: Fake, way: str) -> None:
    with seat(rows, "speak=1", env=long.env) as taken:
        taken.at("Double 2 is ")
        long.wait(1)
        taken.press(way)
        taken.finish()
    assert all(gone(process) for process in long.processes)


def test_read_aloud_the_voice_says_it_too(rows: Path, long: Fake) -> None:
    with seat(rows, "speak=1", front="aloud", env=long.env) as taken:
        taken.see("double two").see("s  stop")
        long.wait(1)
        taken.press("m")
        taken.see("two plus five").see("s  stop")
        long.wait(2)
        assert gone(long.processes[0])
        time.sleep(0.5)
        taken.press("s")
        assert taken.finish() == 0
    assert long.said == ["double two", "two plus five"]


# --- where there is none ------------------------------------------------------------------------------


def test_a_voice_that_fails_is_silence(tmp_path: Path) -> None:
    broken = tmp_path / "no-program"
    broken.write_text("this is no program")
    broken.chmod(0o755)
    for program in (str(broken), str(tmp_path / "not-there")):
        with voice.Voice(program) as silent:
            silent.speak("two plus five")
            assert silent.hush() == 0


def test_a_computer_without_one_has_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert voice.found() is None


def test_a_program_in_the_folder_one_is_in_is_not_run(
    short: Fake, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """`shutil.which` on Windows looks there first, and names what it finds without a folder."""
    monkeypatch.chdir(short.folder)
    monkeypatch.setenv("PATH", ".")
    assert voice.found() is None
    monkeypatch.setenv("PATH", str(short.folder))
    assert voice.found()


def test_where_its_installer_puts_it_on_windows(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = fake(tmp_path, SPOKEN_S)
    made.folder.rename(tmp_path / voice.INSTALLED)
    monkeypatch.setenv("PATH", "")
    monkeypatch.setenv("PROGRAMFILES", str(tmp_path))
    assert voice.found()
