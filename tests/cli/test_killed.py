"""Whatever kills a warm-up, no answer that was acknowledged is lost, and the next start needs no help."""

import json
import os
import random
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.conftest import Review

ENDINGS = [signal.SIGKILL, signal.SIGTERM, signal.SIGHUP, signal.SIGINT]
CODES = {signal.SIGKILL: -9, signal.SIGTERM: 143, signal.SIGHUP: 129, signal.SIGINT: 130}


def kill_after(book: Path, marks: int, ending: signal.Signals, day: int) -> tuple[int, str]:
    """Answer problems until so many were acknowledged, then send the signal; (exit code, errors)."""
    command = [sys.executable, "-m", "review", "warmup", "Mira", "--jsonl", "--on", f"2026-01-{day:02}"]
    pipe = subprocess.PIPE
    environment = {**os.environ, "REVIEW_BOOK": str(book)}
    with subprocess.Popen(
        command, text=True, env=environment, stdin=pipe, stdout=pipe, stderr=pipe
    ) as process:
        answer_until(process, marks)
        process.send_signal(ending)
        _, errors = process.communicate()
        return process.returncode, errors


def answer_until(process: "subprocess.Popen[str]", marks: int) -> None:
    """Answer problems as another program would, until so many marks have come back."""
    assert process.stdin
    assert process.stdout
    seen = 0
    while seen < marks:
        told = json.loads(process.stdout.readline())
        seen += told["type"] == "mark"
        if told["type"] == "summary":
            return
        if told["type"] == "problem":
            process.stdin.write('{"answer": "7", "seconds": 2, "first_key": 1}\n')
            process.stdin.flush()


@pytest.mark.parametrize("ending", ENDINGS, ids=lambda ending: ending.name)
def test_acknowledged_answers_survive(family: Review, tmp_path: Path, ending: signal.Signals) -> None:
    book, chance = tmp_path / "family.book", random.Random(ending)
    acknowledged = 0
    for day in range(6, 11):
        marks = chance.randint(1, 5)
        code, errors = kill_after(book, marks, ending, day)
        assert code == CODES[ending], errors
        assert "Traceback" not in errors
        acknowledged += marks
        done = family("verify")
        assert done.code == 0, done.err
        stored = int(done.out.split("Answers: ")[1].split(".")[0].replace(",", ""))
        assert acknowledged <= stored <= acknowledged + 1
        acknowledged = stored
