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
    if not command:
        assert "click" not in whole(command)
    if command[:1] == ["overdue"]:
        assert "review.core.session" not in whole(command)  # nor the answer forms behind it
    assert not found


def test_a_child_waits_for_nothing_that_only_a_parent_needs(family: Review) -> None:
    """Nor for the reader of the command line, what finds folders, OpenSSL or what makes threads."""
    libraries = {"click", "platformdirs", "shutil", "_hashlib", "threading", "textwrap", "shlex"}
    rooms = (
        "app.desk",
        "app.profiles",
        "app.giving",
        "app.parents_word",
        "app.week",
        "replies",
        "book.backups",
        "core.reports",
    )
    code = (  # up to the first problem
        "import sys; from review.cli import fronts, run\n"
        "fronts.wake = lambda: print(*sys.modules, file=sys.stderr) or sys.exit()\n"
        "run(sys.argv[1:])"
    )
    command = ["warmup", "Mira", "--on", "2026-01-06"]
    done = subprocess.run([sys.executable, "-c", code, *command], capture_output=True, text=True, input="")
    found = set(done.stderr.split())
    assert "review.core.session" in found
    assert not found & {f"review.{room}" for room in rooms}
    assert not found & (libraries if sys.platform == "linux" else libraries - {"platformdirs"})


def test_a_report_imports_no_room_of_a_kind_of_shipped_sets(family: Review) -> None:
    """Their cards are written down beforehand."""
    light = {"review.core.skills", "review.core.skills.strategies", "review.core.skills.picture_rooms"}
    found = whole(["teach", "--on", "2026-01-06"])
    assert {name for name in found if name.startswith("review.core.skills")} == light
    assert found.isdisjoint({"review.core.set_tables", "review.core.toml_text", "zoneinfo", "fractions"})


PLANNED = {"replies", "core.plan", "core.reports"}


@pytest.mark.parametrize(
    ("command", "room", "without"),
    [
        (
            "misses",
            "missing",
            {"replies", "core.plan", "core.reports", "core.miss_words", "core.house_words"},
        ),
        ("log", "spans", PLANNED | {"core.progress", "core.answer_rows"}),
        ("progress", "spans", PLANNED | {"core.diary"}),
    ],
)
def test_a_report_does_not_import_what_others_show(
    family: Review, command: str, room: str, without: set[str]
) -> None:
    found = whole([command, "--on", "2026-01-06"])
    assert {name for name in found if name.startswith("review.app.")} == {f"review.app.{room}"}
    assert found.isdisjoint({f"review.{name}" for name in without})


def test_to_name_a_problem_imports_no_room_of_pictures() -> None:
    code = (
        "import sys; from review.core import skills; skills.{}('sum:6+7', '6+7');"
        "print([name for name in sys.modules if name.endswith('_pictures')] != [])"
    )
    drawn = [
        subprocess.run([sys.executable, "-c", code.format(how)], capture_output=True, text=True, check=True)
        for how in ("undrawn", "problem")
    ]
    assert [done.stdout.strip() for done in drawn] == ["False", "True"]


def test_what_is_left_at_the_end_is_not_looked_through() -> None:
    """Python would, once more, for a tenth of a report's time."""
    code = (
        "import atexit, gc, sys; atexit.register(lambda: print(gc.get_freeze_count() > 1000));"
        "sys.argv = ['review', '--version']; from review.cli import main; main()"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "True"
