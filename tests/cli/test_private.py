"""Whatever the account's usual rights are, what is written is for the family alone, nothing elsewhere."""

import os
import stat
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.conftest import Review

DAY = ("--on", "2026-01-05")

COMMANDS = (
    ("child", "add", "Mira", "--age", "7", *DAY),
    ("set", "add", "addition-facts-10", "Mira", "--taught", *DAY),
    ("warmup", "Mira", *DAY),
    ("backup",),
    ("backup", "{0}/by-hand.book"),
    ("export", "{0}/family.jsonl"),
    ("export", "{0}/answers.csv", "--csv"),
    ("log", "Mira", "--format", "html", "--out", "{0}/log.html", *DAY),
    ("log", "Mira", "--format", "csv", "--out", "{0}/log.csv", *DAY),
    ("progress", "Mira", "--html", "{0}/progress.html", *DAY),
    ("sheet", "Mira", "--out", "{0}/sheet.html", *DAY),
    ("restore", "{0}/by-hand.book", "--yes"),
)


@pytest.fixture(params=[0o000, 0o022, 0o077], ids=oct)
def umask(request: pytest.FixtureRequest) -> Iterator[int]:
    before = os.umask(request.param)
    yield request.param
    os.umask(before)


@pytest.mark.skipif(os.name == "nt", reason="Windows has other rights")
def test_everything_written_is_for_the_family_alone(
    umask: int, review: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    passing, pages, home = (tmp_path / name for name in ("passing", "pages", "home"))
    passing.mkdir()
    pages.mkdir(mode=0o755)
    monkeypatch.setattr(tempfile, "tempdir", str(passing))
    for name, value in {
        "TMPDIR": passing,
        "SQLITE_TMPDIR": passing,
        "REVIEW_BOOK": home / "family.book",
        "XDG_STATE_HOME": tmp_path / "state",
    }.items():
        monkeypatch.setenv(name, str(value))
    for command in COMMANDS:
        done = review(*(part.format(pages) for part in command), typed="3\n5\nstop\n")
        assert done.code == 0, (command, done.err)
    made = [*home.rglob("*"), home, *pages.rglob("*"), *(tmp_path / "state").rglob("*")]
    open_to_others = {
        path.name: oct(stat.S_IMODE(path.stat().st_mode)) for path in made if path.stat().st_mode & 0o077
    }
    assert open_to_others == {}
    assert len([path for path in made if path.is_file()]) >= len(COMMANDS)
    assert list(passing.iterdir()) == []
