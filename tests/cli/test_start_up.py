"""What each command may import: start-up time is felt on an old laptop."""

import subprocess
import sys

import pytest

from tests.cli.conftest import Review

HEAVY = {"rich", "fsrs", "sqlite_utils", "platformdirs", "hypothesis", "dataclasses"}


def modules(command: list[str]) -> set[str]:
    return {name.split(".")[0] for name in whole(command)}


def whole(command: list[str]) -> set[str]:
    code = "import sys; from review.cli import run; run(sys.argv[1:]); print(*sys.modules, file=sys.stderr)"
    done = subprocess.run([sys.executable, "-c", code, *command], capture_output=True, text=True, input="")
    assert "Traceback" not in done.stderr, done.stderr
    return set(done.stderr.splitlines()[-1].split())


@pytest.mark.parametrize(
    "command",
    [
        ["overdue", "--on", "2026-01-06"],
        ["overdue", "--json", "--on", "2026-01-06"],
        ["warmup", "Mira", "--on", "2026-01-06"],  # input ends at once: the first problem was on screen
        [],
    ],
    ids=lambda command: " ".join(command[:2]) or "front door",
)
def test_the_daily_commands_import_nothing_heavy(family: Review, command: list[str]) -> None:
    found = modules(command) & (HEAVY - {"dataclasses", "platformdirs"})
    if command[:1] == ["overdue"]:
        assert "review.core.session" not in whole(command)  # nor the answer forms behind it
    assert not found
