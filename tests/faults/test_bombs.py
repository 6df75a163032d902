"""Where a file is expected there may stand anything, and what is piped in may never end: a sentence, soon.

Under a second of work and 100 MB each, as for skill sets; our judgement.
"""

import os
import re
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from review import files
from review.errors import Mendable
from tests.book.processes import Tell, as_anyone
from tests.cli.conftest import Review, family, review
from tests.faults.costs import Cost, cost
from tests.faults.mutated_files import OWN_SET

__all__ = ["family", "review"]

pytestmark = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")

SECONDS, MEGABYTES = 1.0, 100
LISTED = OWN_SET.partition("pairs = [")[0] + 'file = "x.csv"\n'


def sparse(path: Path) -> None:
    """A thousand million bytes that take no room."""
    path.touch()
    os.truncate(path, 1_000_000_000)


MADE: Mapping[str, Callable[[Path], object]] = {
    "a pipe": os.mkfifo,
    "a folder": lambda path: path.mkdir(),
    "a device": lambda path: path.symlink_to("/dev/zero"),
    "a full device": lambda path: path.symlink_to("/dev/full"),
    "a link to itself": lambda path: path.symlink_to(path.name),
    "a link to nothing": lambda path: path.symlink_to("gone"),
    "a thousand million bytes": sparse,
    "a million rows": lambda path: path.write_text("".join(f"{n},{n}\n" for n in range(1_000_000))),
    "one long line": lambda path: path.write_text("1" * 390_000),
    "an open quote": lambda path: path.write_text('"' + "\n" * 390_000),
}

READ: tuple[str, ...] = (
    "set check x.toml",
    "set show x.toml",
    "set add x.toml Mira",
    "set check listed.toml",
    "sheet --practice x.toml --out practice.html",
    "sheet --slips x.toml --out slips.html",
    "import x.jsonl",
    "merge x.book",
    "restore x.book --yes",
    "--book x.book overdue",
)
PLACE = {"listed.toml": "x.csv"}  # the list, not the set, is what it is


def place_of(command: str) -> Path:
    (name,) = re.findall(r"\bx\.\w+|listed\.toml", command)
    return Path(PLACE.get(name, name))


@pytest.mark.parametrize("command", READ)
def test_whatever_stands_where_a_file_is_read_is_told_in_a_sentence(
    family: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    for n, make in enumerate(MADE.values()):
        (folder := tmp_path / str(n)).mkdir()
        monkeypatch.chdir(folder)
        Path("listed.toml").write_text(LISTED, encoding="utf-8")
        make(place_of(command))
        done = family(*command.split())
        assert done.code in (1, 3), (command, folder, done)
        assert 1 <= len(done.err.splitlines()) <= 2, done  # a mistake of a set has a line above it
        assert len(done.err) < 400, done


WRITTEN: tuple[str, ...] = (
    "log --out o.html",
    "progress --html o.html",
    "sheet Mira --out o.html",
    "export o.jsonl",
    "backup o.book",
    "set new o.toml --title T --kind template --ages 8 10",
)


@pytest.mark.parametrize("command", WRITTEN)
@pytest.mark.parametrize("what", ["a pipe", "a folder", "a full device", "a link to itself"])
def test_whatever_stands_where_a_file_is_written_is_left_or_replaced_whole(
    family: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, what: str, command: str
) -> None:
    monkeypatch.chdir(tmp_path)
    (name,) = re.findall(r"\bo\.\w+", command)
    MADE[what](Path(name))
    done = family(*command.split())
    assert done.code in (0, 1, 3), done
    assert len(done.err.splitlines()) == (1 if done.code else 0), done
    assert Path(name).is_file() == (done.code == 0), done


def measured(folder: Path, command: str, source: Path) -> Cost:
    """On the family's own book, with that piped in."""
    own = {"REVIEW_BOOK": str(folder / "family.book"), "XDG_STATE_HOME": str(folder / "state")}
    return cost(command.split(), folder, own, source)


@pytest.mark.parametrize(
    "command", ["set check x.toml", "set check listed.toml", "import x.jsonl", "merge x.book"]
)
def test_a_thousand_million_bytes_take_no_time_and_no_room(
    family: Review, tmp_path: Path, command: str
) -> None:
    (tmp_path / "listed.toml").write_text(LISTED, encoding="utf-8")
    sparse(tmp_path / place_of(command))
    found = measured(tmp_path, command, Path(os.devnull))
    assert found.code in (1, 3), found
    assert (found.seconds < SECONDS, found.megabytes < MEGABYTES) == (True, True), found


ENDLESS: tuple[str, ...] = (
    "warmup Mira --on 2026-01-06",
    "warmup Mira --aloud --on 2026-01-06",
    "warmup Mira --jsonl --on 2026-01-06",
    "set new other.toml",
    "undo Mira --on 2026-01-06",
    "child forget Mira",
)


@pytest.mark.parametrize("command", ENDLESS)
def test_a_line_that_never_ends_is_the_end_of_what_is_read(
    family: Review, tmp_path: Path, command: str
) -> None:
    found = measured(tmp_path, command, Path("/dev/zero"))
    assert found.code in (0, 1), found
    assert "no record book" not in found.said, found
    assert "Traceback" not in found.said, found
    assert (found.seconds < SECONDS, found.megabytes < MEGABYTES) == (True, True), found
    assert family("verify").code == 0


def test_a_program_that_reads_no_note_is_not_heard_for_ever(family: Review) -> None:
    done = family("warmup", "Mira", "--jsonl", "--on", "2026-01-06", typed="Dear diary.\n" * 5000)
    assert done.code == 0
    assert done.out.count('"type": "note"') == 100
    assert '"type": "summary"' in done.out


def test_a_file_that_may_not_be_read_is_told(tmp_path: Path) -> None:
    (path := tmp_path / "x.toml").write_text("secret", encoding="utf-8")
    path.chmod(0)
    for folder in (tmp_path, *tmp_path.parents):  # another user must be able to come here
        if folder.stat().st_uid == os.geteuid() and folder != Path(folder.anchor):
            folder.chmod(folder.stat().st_mode | 0o055)

    def work(tell: Tell) -> None:
        for read in (files.read_text, lambda path: [*files.byte_lines(path)]):
            try:
                read(path)
            except Mendable as error:
                tell(str("cannot be read" in str(error)))

    assert as_anyone(work) == ["True", "True"]
