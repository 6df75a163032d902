"""Bad input gets one clear sentence that says what, where and what to do; nothing is lost, no traceback."""

import errno
import io
import os
import sqlite3
import stat
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from review import catalogue, cli, config
from review.cli.group import root
from review.shell import word as quoted
from tests.cli.conftest import Done, Review


def sentence(done: Done, code: int, *words: str) -> None:
    """One short message, on the error stream, with the exit code and the words that help."""
    assert done.code == code, done
    assert done.out == ""
    assert "Traceback" not in done.err
    for word in words:
        assert word in done.err, done.err


def test_an_unknown_child_is_offered_the_nearest(family: Review) -> None:
    sentence(family("overdue", "Mirra"), 1, "Mirra", "Mira")
    sentence(family("warmup", "Zebedee"), 1, "Zebedee", "Mira and Jonah")


def test_a_child_is_found_without_case_and_by_a_beginning(family: Review) -> None:
    assert family("overdue", "mi").code == 0
    assert family("overdue", "JONAH").code == 0


def test_writing_without_a_name_names_the_children(family: Review) -> None:
    sentence(family("taught", "sums"), 1, "Mira or Jonah")
    sentence(family("warmup"), 1, "Mira or Jonah")


@pytest.mark.parametrize("command", ["taught", "taught --not", "known", "known --not", "focus", "extra"])
def test_a_child_where_the_skill_belongs_is_told_what_comes_first(family: Review, command: str) -> None:
    """ "Which child? Add the name at the end", after which it was no skill."""
    if command != "focus":  # which then tells what comes first now
        sentence(
            family(*command.split(), "jonah"), 1, "Jonah is a child, and the skill stands before the name"
        )
    turned = family(*command.split(), "Jonah", "sums")
    sentence(turned, 1, "The skill stands before the name: write sums first, then Jonah.")


def test_an_ambiguous_beginning_asks_for_more(review: Review) -> None:
    for name in ("Ada", "Adam"):
        review("child", "add", name, "--age", "8")
    sentence(review("overdue", "ad"), 1, "Ada or Adam", "more of the name")
    assert review("overdue", "ada").code == 0


def test_an_unknown_set_is_offered_the_nearest(family: Review) -> None:
    sentence(family("set", "add", "adition-facts-10", "Mira"), 1, "addition-facts-10", "review set list")
    sentence(family("set", "show", "zzz"), 1, "zzz", "review set list")
    sentence(family("set", "drop", "metric-length", "Mira"), 1, "Mira", "addition-facts-10")


@pytest.mark.parametrize("name", ["", "t"])
def test_what_could_be_many_sets_names_a_few(family: Review, name: str) -> None:
    """An empty name was answered with the names of all sets there are."""
    done = family("set", "show", name)
    sentence(done, 1, "or one of", "more. Write more of the name.")
    assert done.err.count(",") == 12


@pytest.mark.parametrize("command", ["taught", "known", "focus", "extra"])
def test_what_stands_in_a_set_that_was_not_given_is_told_with_that_set(family: Review, command: str) -> None:
    for name, told in (("times-2-5-10", "is a set."), ("Table-of-2", "is in the set times-2-5-10.")):
        done = family(command, name, "Mira", "--on", "2026-01-05")
        assert (done.code, done.out) == (1, "")
        assert done.err == (
            f"“{name.casefold()}” {told} If the child does not have that yet: "
            "review set add times-2-5-10 CHILD\n"
        )


def test_a_skill_is_named_by_what_reports_call_it(family: Review) -> None:
    title = "Adding 0, 1 and 2"
    assert title in family("set", "show", "addition-facts-10").out
    done = family("taught", title.upper(), "Mira", "--on", "2026-01-05")
    assert (done.code, done.out.splitlines()[0]) == (0, f"Taught to Mira: {title}.")


def test_an_unknown_skill_is_offered_the_nearest(family: Review) -> None:
    sentence(family("taught", "zzz", "Mira"), 1, "zzz", "review set show")
    sentence(family("taught", "zzz", "Jonah"), 1, "Jonah has no skill set", "review set add")


def test_wrong_usage_exits_2(family: Review) -> None:
    sentence(family("overdew"), 2, "overdew", "overdue")
    sentence(family("overdue", "--colour"), 2, "--colour")
    sentence(family("completion"), 2, "A word is missing: write one of bash, zsh, fish. See: ")
    sentence(family("taught"), 2, "A word is missing: SKILL. See: review taught --help")
    sentence(family("warmup", "Mira", "--minutes", "many"), 2, "many")
    sentence(family("warmup", "Mira", "--on", "yesterday"), 2, "yesterday", "2026-11-25")


def with_values(group: click.Group, line: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], str]]:
    """Every command below a group, by the words of its line, with an option that takes a value."""
    context = click.Context(group)
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        if isinstance(command, click.Group):
            yield from with_values(command, (*line, name))
        elif command:
            taking = (one for one in command.params if isinstance(one, click.Option) and not one.is_flag)
            yield (*line, name), next(one.opts[0] for one in taking if not one.count)


def test_an_option_with_nothing_behind_it_names_the_help_of_its_own_command(family: Review) -> None:
    told = {(line, option): family(*line, option) for line, option in with_values(root)}
    assert {("child", "edit"), ("set", "add"), ("sheet",)} <= {line for line, _ in told}
    for (line, option), done in told.items():
        sentence(done, 2, f"Something has to stand behind {option}. See: review {' '.join(line)} --help")


@pytest.mark.parametrize(
    ("options", "word"),
    [
        (("--age", "70"), "4 to 14"),
        (("--age", "7", "--minutes", "0"), "1 to 30"),
        (("--age", "7", "--zone", "Mars/Base"), "Mars/Base"),
    ],
)
def test_a_profile_that_cannot_be(review: Review, options: tuple[str, ...], word: str) -> None:
    sentence(review("child", "add", "Mira", *options), 1, word)


def test_the_same_name_twice(family: Review) -> None:
    sentence(family("child", "add", "MIRA", "--age", "7"), 1, "called Mira already", "another name")


def test_a_name_of_markup_and_control_characters_reaches_nobody(review: Review) -> None:
    assert review("child", "add", "[/]\x1b[2Jo\u202e", "--age", "7").code == 0
    done = review("child", "list")
    assert done.out.startswith("[/][2Jo: 7 years old")
    assert "\x1b" not in done.out


# --- the book ------------------------------------------------------------------------------------------


def test_no_book_yet(review: Review) -> None:
    done = review("overdue")
    sentence(done, 1, "family.book", "review child add")
    assert "review child add" in review().out


def test_a_book_that_is_a_text_file(review: Review, tmp_path: Path) -> None:
    path = tmp_path / "family.book"
    path.write_text("Dear diary, this is no database at all.\n" * 40)
    before = path.read_bytes()
    for command in (("overdue",), ("warmup",), ("child", "add", "Mira", "--age", "7"), ()):
        sentence(review(*command), 3, "family.book")
    assert path.read_bytes() == before


def test_a_book_that_is_a_folder(review: Review, tmp_path: Path) -> None:
    (tmp_path / "family.book").mkdir()
    sentence(review("overdue"), 3, "folder")


def test_a_book_of_another_program(review: Review, tmp_path: Path) -> None:
    path = tmp_path / "family.book"
    with sqlite3.connect(path) as other:
        other.execute("CREATE TABLE recipes (name TEXT)")
    other.close()
    before = path.read_bytes()
    sentence(review("warmup"), 3, "family.book")
    assert path.read_bytes() == before


def test_a_book_from_a_newer_version(family: Review, tmp_path: Path) -> None:
    path = tmp_path / "family.book"
    with sqlite3.connect(path) as book:
        book.execute("PRAGMA user_version = 900")
    book.close()
    before = path.read_bytes()
    sentence(family("overdue"), 3, "newer")
    assert path.read_bytes() == before


def test_a_read_only_book_is_read_and_not_written(family: Review, tmp_path: Path) -> None:
    book = tmp_path / "family.book"
    book.chmod(stat.S_IRUSR)
    before = book.read_bytes()
    assert shell("review overdue", book, powers=False).returncode == 0
    done = shell("review warmup Mira --on 2026-01-06", book, powers=False)
    assert (done.returncode, done.stdout) == (3, "")
    assert "family.book" in done.stderr
    assert "Traceback" not in done.stderr
    assert book.read_bytes() == before


# --- a warm-up that is cut off -------------------------------------------------------------------------


def test_an_answer_that_cannot_be_read_is_asked_again(family: Review) -> None:
    done = family("warmup", "Mira", "--on", "2026-01-06", typed="purple\nstop\n")
    assert done.code == 0
    assert "number" in done.out


def test_input_that_ends_early_keeps_everything(family: Review) -> None:
    assert family("warmup", "Mira", "--on", "2026-01-06", typed="7\n").code == 0
    assert family("verify").code == 0
    assert "Answers: 1." in family("verify").out


def test_a_day_before_the_last_one_is_refused(family: Review) -> None:
    family("warmup", "Mira", "--on", "2026-01-07", typed="7\n")
    sentence(family("warmup", "Mira", "--on", "2026-01-06"), 1, "Mira", "7 January 2026", "--on")


def test_a_clock_that_is_far_ahead_is_asked_about(family: Review) -> None:
    sentence(family("warmup", "Mira"), 1, "computer", "--on")


def test_ten_mistakes_in_one_set_are_all_told(review: Review, tmp_path: Path) -> None:
    path = tmp_path / "ten.toml"
    path.write_text(
        """[set]
id = "My Set"
title = 7
about = "Ten mistakes"
aim = "fluent"
ages = [9, 6]
colour = "red"

[[skill]]
id = "a"
title = "A"
kind = "prodct"

[[skill]]
id = "b"
title = "B"
kind = "product"
tables = []
times = [9, 2]

[[skill]]
id = "b"
title = "B again"
kind = "sum"
adends = [1, 2]

[[skill]]
title = "No id"
kind = "roman"
form = "greek"
"""
    )
    done = review("set", "check", str(path))
    assert done.code == 1
    lines = [line for line in done.err.splitlines() if line.startswith("ten.toml:")]
    assert len(lines) >= 10, done.err
    told = [int(line.split(":")[1].split()[0]) for line in lines]
    assert told == [2, 3, 5, 6, 7, 12, 18, 19, 22, 25, 27, 27, 30]
    assert "product" in done.err


UNSOUND = """[set]
id = "ours"
title = ""
aim = "accuracy"
ages = [7, 9]

[[skill]]
id = "a"
title = "A"
kind = "convert"
from = "m"
to = "kg"
range = [1, 20]
after = ["halvs-of-20", "doubles-to-20"]

[[skill]]
id = "b"
title = "B"
kind = "pairs"
pairs = [["What now?", "pass"], ["dup", "1"], ["x"], ["dup", "2"]]
after = ["a", "b", "c"]

[[skill]]
id = "c"
title = "C"
kind = "sum\u202e"
after = ["b"]
"""


def test_mistakes_of_meaning_are_told_beside_all_others(review: Review, tmp_path: Path) -> None:
    path = tmp_path / "ours.toml"
    path.write_text(UNSOUND, encoding="utf-8")
    known = sorted(catalogue.skill_ids())
    path.write_text(UNSOUND.replace("doubles-to-20", known[0]).replace("halvs-of-20", f"{known[1]}x"))
    done = review("set", "check", str(path))
    sentence(done, 1, f"“{known[1]}x”", "Did you mean", "an invisible character in “sum”")
    told = [line.split(": ")[0] for line in done.err.splitlines()[1:]]
    assert told == [
        "ours.toml:3 set.title",
        "ours.toml:12 skill[1].to",
        "ours.toml:14 skill[1].after[1]",
        "ours.toml:20 skill[2].pairs[1]",
        "ours.toml:20 skill[2].pairs[3]",
        "ours.toml:20 skill[2].pairs[4]",
        "ours.toml:21 skill[2].after",
        "ours.toml:26 skill[3].kind",
        "ours.toml:27 skill[3].after",
    ]


def test_a_file_is_meant_by_its_name_or_because_it_is_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("ours.txt", "roman-early"):
        Path(name).write_text(UNSOUND, encoding="utf-8")
    meant = ["gone.toml", "ours.txt", str(tmp_path / "ours.txt"), str(tmp_path / "roman-early")]
    assert [name for name in meant if catalogue.is_file(name)] == meant
    for name in ("roman-early", "gone.txt", "", ".", "\0", "x" * 5000):
        assert not catalogue.is_file(name)


def test_a_file_needs_no_ending(family: Review, tmp_path: Path) -> None:
    path = tmp_path / "ours.txt"
    head = UNSOUND.partition("[[skill]]")[0].replace('""', '"Ours"')
    path.write_text(f'{head}[[skill]]\nid = "z"\ntitle = "Z"\nkind = "double"\nnumbers = [1, 9]\n')
    assert "Ours" in family("set", "show", str(path)).out
    assert family("set", "add", str(path), "Mira", "--on", "2026-01-05").code == 0
    sentence(family("set", "add", "nothing.txt", "Mira"), 1, "no skill set called “nothing.txt”")


def test_a_set_of_the_catalogue_that_someone_broke(
    review: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(config, "catalogue_folder", lambda: tmp_path)
    (tmp_path / "broken-set.toml").write_text(UNSOUND, encoding="utf-8")
    sentence(review("set", "show", "broken-set"), 1, "broken-set.toml:26", "invisible")


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", b"", b"[set", b"[set]\nid = 1" * 3])
def test_a_file_that_is_no_skill_set(review: Review, tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "odd.toml"
    path.write_bytes(content)
    sentence(review("set", "check", str(path)), 1, "odd.toml")


def test_a_file_that_is_not_there(review: Review, tmp_path: Path) -> None:
    sentence(review("set", "check", str(tmp_path / "gone.toml")), 1, "gone.toml")
    sentence(review("set", "check", str(tmp_path)), 1, "folder")


# --- streams that fail ---------------------------------------------------------------------------------


ALL_POWERS = os.name == "posix" and os.geteuid() == 0
NO_POWERS = "-dac_override,-dac_read_search"  # root without the right to pass over permissions


def shell(command: str, book: Path, powers: bool = True) -> subprocess.CompletedProcess[str]:
    """A line for the shell; without `powers` permissions hold, also for root."""
    drop = ["setpriv", f"--bounding-set={NO_POWERS}", f"--inh-caps={NO_POWERS}"]
    prefix = drop if ALL_POWERS and not powers else []
    line = command.replace("review", f"{sys.executable} -m review", 1)
    environment = {**os.environ, "REVIEW_BOOK": str(book)}
    return subprocess.run(
        [*prefix, "bash", "-c", line], env=environment, capture_output=True, text=True, input=""
    )


class Stopped(io.StringIO):
    """Output that nobody reads any more, as Windows tells of it (github.com/python/cpython/issues/79935)."""

    def __init__(self, times: int) -> None:
        super().__init__()
        self.times = times

    def flush(self) -> None:
        if self.times:
            self.times -= 1
            raise OSError(errno.EINVAL, "Invalid argument")


@pytest.mark.parametrize(("times", "quiet"), [(1000, True), (1, False)])
def test_a_closed_pipe_on_windows_is_quiet_and_nothing_else_of_that_number_is(
    monkeypatch: pytest.MonkeyPatch, times: int, quiet: bool
) -> None:
    monkeypatch.setattr(cli, "READER_GONE", (errno.EINVAL,))
    monkeypatch.setattr("sys.stdout", Stopped(times))
    monkeypatch.setattr(cli, "silenced", lambda code=0: code)
    if quiet:
        assert cli.run(["set", "list"]) == 0
    else:
        with pytest.raises(OSError, match="Invalid argument"):
            cli.run(["set", "list"])


def test_a_closed_pipe_is_quiet(tmp_path: Path) -> None:
    done = shell("set -o pipefail; review set list | true", tmp_path / "b")
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full")
def test_a_full_disk_behind_the_output_is_one_sentence(tmp_path: Path) -> None:
    done = shell("review set list > /dev/full", tmp_path / "b")
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "Traceback" not in done.stderr


NO_SETS = (("warmup",), ("taught", "table-of-2"), ("known", "table-of-2"))
NOTHING_TAUGHT = (
    ("warmup",),
    ("warmup", "--gentle"),
    ("placement",),
    ("placement", "times-3-4-8"),
    ("known", "2 × 7"),
)


@pytest.mark.parametrize(
    ("has_set", "words"),
    [*((False, words) for words in NO_SETS), *((True, words) for words in NOTHING_TAUGHT)],
)
def test_a_name_of_two_words_is_one_word_in_what_one_is_told_to_type(
    review: Review, has_set: bool, words: tuple[str, ...]
) -> None:
    assert review("child", "add", "Anna Lena", "--age", "9", "--on", "2026-11-25").code == 0
    if has_set:
        assert review("set", "add", "times-2-5-10", "Anna Lena", "--on", "2026-11-25", typed="\n").code == 0
    done = review(*words, "Anna Lena", "--on", "2026-11-25")
    assert (done.code, done.out) == (1, "")
    assert f" {quoted('Anna Lena')}" in done.err
