"""Each command in plain surroundings: what it writes can be shown, and holds no control sign of data.

The whole of it, as processes of their own and at terminals: `python -m tests.benchmarks.surroundings`.
"""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from review import signs
from review.cli import streams
from tests.cli.surroundings import (
    ALL,
    NAMES,
    Done,
    amiss,
    dated,
    examples,
    leaves,
    papers,
    prepare,
    within,
)
from tests.conftest import TOP
from tests.terminal.seat import Seat, sat

DAY = "2026-01-06"
QUICK = ("usual", "posix", "latin-1", "oldest code page", "narrow", "narrowest", "plain")


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A family of hostile names, made once."""
    folder = tmp_path_factory.mktemp("odd")
    with within(ALL["usual"]._replace(env=home(folder)), folder) as call:
        prepare(folder, call)
    return folder


def home(folder: Path) -> dict[str, str]:
    return {"XDG_STATE_HOME": str(folder / "state"), "XDG_DATA_HOME": str(folder / "data")}


def played(book: Path, folder: Path, name: str) -> dict[tuple[str, ...], Done]:
    """Every command, each on a copy of the book."""
    found = {}
    for n, words in enumerate(examples()):
        copy = folder / str(n)
        shutil.copytree(book, copy)
        place = ALL[name]._replace(env={**ALL[name].env, **home(copy)})
        with within(place, copy) as call:
            found[words] = call(dated(words, DAY))
        wrong = papers(copy)
        assert not wrong, (words, wrong)
        shutil.rmtree(copy)
    return found


@pytest.mark.parametrize("name", QUICK)
def test_every_command_can_be_read_there(book: Path, tmp_path: Path, name: str) -> None:
    columns = 40 if name == "narrow" else 0
    for words, done in played(book, tmp_path, name).items():
        assert not (wrong := amiss(words, done, ALL[name], columns)), (words, wrong)
        assert done.code in (0, 1, 2), (words, done)


def test_what_a_paper_must_not_hold_is_found(tmp_path: Path) -> None:
    """The control."""
    (tmp_path / "a.html").write_text("<p>1</p><script>x</script><img src=x onerror=x>\x1b", encoding="utf-8")
    (tmp_path / "b.csv").write_text('1,"=1+1"\n-3,@x\n', encoding="utf-8")
    (tmp_path / "c.html").write_text("<p>&lt;script&gt; onload=1</p>", encoding="utf-8")
    assert [one.split(":")[0] for one in papers(tmp_path)] == ["a.html"] * 3 + ["b.csv"] * 2


def test_every_command_has_an_example_here() -> None:
    """A new command is played by itself, as its help must have an example."""
    shown = {words[: len(leaf)] for words in examples() for leaf in leaves()}
    groups = {("set",), ("child",), ("demo",)}
    assert {leaf for leaf in leaves() if leaf not in groups} <= shown | {("set", "new")}


def test_names_keep_what_can_be_read_of_them(book: Path) -> None:
    with within(ALL["usual"]._replace(env=home(book)), book) as call:
        out = call(["child", "list"]).out.decode()
    assert [line.partition(":")[0] for line in out.splitlines() if not line.startswith("  ")] == [
        "Mira", "[/][2JAnn", "Abcde", "Zoë 🦭 日本", "N" * 40, *NAMES[4:7],
        "]8;;https", "é" + "\u0301" * 29, "مريم م", *NAMES[-2:], "Odd",
    ]  # fmt: skip


# --- processes of their own ---------------------------------------------------------------------------


Process = subprocess.CompletedProcess[bytes]


def process(book: Path, name: str, words: Sequence[str], after: str = "") -> Process:
    env = {**os.environ, **ALL[name].env, **home(book), "REVIEW_BOOK": str(book / "family.book")}
    line = ["sh", "-c", f'exec "$0" -m review "$@"{after}', sys.executable, *words]
    return subprocess.run(line, env=env, cwd=TOP, capture_output=True, input=b"m\n")


@pytest.mark.parametrize(
    "words",
    [("set", "list", "--json"), ("child", "list"), ("warmup", "Odd", "--aloud", "--try", "--on", DAY)],
    ids=" ".join,
)
def test_a_posix_locale(book: Path, words: tuple[str, ...]) -> None:
    done = process(book, "posix", words)
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout
    assert done.stdout.isascii()


@pytest.mark.parametrize("after", [" <&-", " >&-", " 2>&-", " <&- >&- 2>&-"])
@pytest.mark.parametrize("words", [("overdue",), ("warmup", "Odd", "--on", DAY)], ids=" ".join)
def test_streams_that_are_closed(book: Path, tmp_path: Path, words: tuple[str, ...], after: str) -> None:
    """Nothing is written into the book, which would else be given the number of a stream."""
    shutil.copytree(book, copy := tmp_path / "copy")
    done = process(copy, "usual", words, after)
    assert done.returncode == 0, done
    assert b"Traceback" not in done.stderr
    assert b"sound" in process(copy, "usual", ("verify",)).stdout


@pytest.mark.parametrize("words", [("overdue", "--all"), ("set", "list"), ("warmup", "Odd")])
def test_a_terminal_that_does_no_more(book: Path, tmp_path: Path, words: tuple[str, ...]) -> None:
    shutil.copytree(book, copy := tmp_path / "copy")
    env = {**home(copy), "REVIEW_BOOK": str(copy / "family.book"), "TERM": "dumb", "COLUMNS": "", "LINES": ""}
    with sat(Seat(sys.executable, ["-m", "review", *dated(words, DAY)], 40, 24, env)) as taken:
        if words[0] == "warmup":
            taken.at("m / w / n: ").press("s\r")
        assert taken.finish() == 0
    assert not re.search(rb"[\x00-\x08\x0b\x0c\x0e-\x1f]", taken.raw)


def sets_at_a_wide_terminal(book: Path, term: str, *options: str) -> str:
    env = {**home(book), "TERM": term, "COLUMNS": "", "LINES": ""}
    with sat(Seat(sys.executable, ["-m", "review", *options, "set", "list"], 120, 200, env)) as taken:
        assert taken.finish() == 0
        return taken.text


def test_where_a_terminal_does_no_more_there_are_lines_and_no_table(book: Path) -> None:
    plain = sets_at_a_wide_terminal(book, "xterm", "--plain")
    assert sets_at_a_wide_terminal(book, "dumb") == plain
    assert sets_at_a_wide_terminal(book, "xterm") != plain


# --- what they stand on -------------------------------------------------------------------------------


def test_what_cannot_be_written_is_a_sign_in_ascii() -> None:
    assert "6 × 7 − □ 🦭 “x”".encode("ascii", "review-signs") == b'6 x 7 - _ ? "x"'
    assert "6 × 7 − 🦭".encode("latin-1", "review-signs") == "6 × 7 - ?".encode("latin-1")
    assert "\udcff".encode("utf-8", "review-signs") == b"?"
    with pytest.raises(UnicodeDecodeError):
        b"\xff".decode("utf-8", "review-signs")


def test_no_stream_is_no_trouble() -> None:
    signs.steady(None)
    assert [name for name, _ in streams.NAMES.values()] == ["stdin", "stdout", "stderr"]
    assert [*streams.NAMES] == [0, 1, 2]


def test_json_goes_through_the_one_room_that_fits_it() -> None:
    for path in (TOP / "review" / "cli").glob("*.py"):
        assert "click.echo(json.dumps(" not in path.read_text(encoding="utf-8"), path
