"""The program in a Python that lacks what Windows lacks: see `tests/elsewhere/without.py`."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import TOP
from tests.elsewhere import without

ENVIRONMENT = {"PYTHONIOENCODING": "cp1252", "PYTHONUTF8": "0"}  # as its pipes are


def review(folder: Path, *words: str, typed: str = "") -> str:
    """What it says; it must have nothing to complain of."""
    environment = {**os.environ, **ENVIRONMENT, "LOCALAPPDATA": str(folder / "data")}
    line = [sys.executable, "-W", "error", "-m", "tests.elsewhere.without", *words]
    done = subprocess.run(line, cwd=TOP, env=environment, capture_output=True, input=typed.encode("cp1252"))
    assert (done.returncode, done.stderr) == (0, b""), (words, done)
    return done.stdout.decode("cp1252")


COMMANDS = (
    ("child", "add", "Mira", "--age", "9", "--zone", "europe/london", "--on", "2026-01-05"),
    ("set", "add", "times-2-5-10", "Mira", "--taught", "--on", "2026-01-05"),
    ("warmup", "Mira", "--on", "2026-01-05"),
    ("warmup", "Mira", "--jsonl", "--on", "2026-01-06"),
    ("overdue", "--on", "2026-02-05"),
    ("progress", "--html", "mira.html", "--on", "2026-01-06"),
    ("pacing", "Mira", "--on", "2026-01-06"),
    ("sheet", "Mira", "--out", "sheet.html", "--on", "2026-01-06"),
    ("log", "--format", "csv", "--on", "2026-01-06"),
    ("backup", "copy.book"),
    ("export", "all.jsonl"),
    ("restore", "copy.book", "--yes"),
    ("import", "all.jsonl"),
    ("verify",),
)
TYPED = {"--jsonl": '{"answer": "10", "seconds": 3}\n' * 3, "Mira": "10\n?\n10\nstop\n"}


def test_a_day_of_a_family(tmp_path: Path) -> None:
    said = {}
    for words in COMMANDS:
        placed = [str(tmp_path / word) if "." in word else word for word in words]
        typed = TYPED["--jsonl" if "--jsonl" in words else "Mira"] if words[0] == "warmup" else ""
        said[words[0]] = review(tmp_path, *placed, typed=typed)
    assert (tmp_path / "data" / "review" / "family.book").is_file()
    assert "×" in said["warmup"] or "\\u00d7" in said["warmup"]
    assert said["verify"].startswith("The book is sound")
    for name in ("mira.html", "sheet.html", "copy.book", "all.jsonl"):
        assert (tmp_path / name).stat().st_size > 1000


def test_what_is_told_can_be_typed_there(tmp_path: Path) -> None:
    said = review(tmp_path, "child", "add", "Ann Lee", "--age", "7", "--on", "2026-01-05")
    assert 'review set add SET "Ann Lee"' in " ".join(said.split())


@pytest.mark.parametrize("room", ["fcntl", "termios", "resource", "pwd"])
def test_what_is_lacking_is_lacking(room: str) -> None:
    """The control."""
    code = f"import tests.elsewhere.without as w; w.become_windows(); import {room}"
    done = subprocess.run([sys.executable, "-c", code], cwd=TOP, capture_output=True)
    assert b"ModuleNotFoundError" in done.stderr
    assert room in without.MODULES
