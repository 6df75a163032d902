"""Bad input gets one clear sentence that says what, where and what to do; nothing is lost, no traceback."""

import errno
import io
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from review import cli
from review.cli.children import children
from review.cli.group import COMMANDS, MEANT, root
from review.cli.sets import sets
from review.shell import word as quoted
from tests.cli.conftest import Review, sentence, shell


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
    assert (done.code, done.out.splitlines()[0]) == (0, f"Taught to Mira already: {title}.")


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


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("?", "needs a name"),
        ("...", "needs a name"),
        ("[/]", "needs a name"),
        ("-x", "Leave that sign out: x"),
    ],
)
def test_a_name_that_is_a_sign_or_would_be_an_option(review: Review, name: str, words: str) -> None:
    """A parent types ? for help; and no command could be told of a child called -x."""
    sentence(review("child", "add", "--age", "7", "--", name), 1, words)


@pytest.mark.parametrize("name", ["Zoë", "עידו", "🐙", "Anne Marie", "7"])
def test_any_word_in_any_script_is_a_name(review: Review, name: str) -> None:
    assert review("child", "add", name, "--age", "7").code == 0


def test_the_same_name_twice(family: Review) -> None:
    sentence(family("child", "add", "MIRA", "--age", "7"), 1, "called Mira already", "another name")


def test_a_name_of_markup_and_control_characters_reaches_nobody(review: Review) -> None:
    assert review("child", "add", "[/]\x1b[2Jo\u202e", "--age", "7").code == 0
    done = review("child", "list")
    assert done.out.startswith("[/][2Jo: 7 years old")
    assert "\x1b" not in done.out


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


# --- streams that fail ---------------------------------------------------------------------------------


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


OTHERWISE = {
    ("remove", "Mira"): "Did you mean child forget or set drop? See: review --help",
    ("week",): "Did you mean brief or log? See: review --help",
    ("help",): "Did you mean --help? See: review --help",
    ("child", "delete", "Mira"): "Did you mean forget? See: review child --help",
    ("set", "Remove", "times-2-5-10"): "Did you mean drop? See: review set --help",
    ("qqqq",): "There is no command “qqqq”. See: review --help",
}


@pytest.mark.parametrize("words", OTHERWISE)
def test_what_is_called_otherwise_is_told_by_its_own_name(review: Review, words: tuple[str, ...]) -> None:
    """`remove` was answered by “Did you mean restore?”, which puts an old book in the place of the new."""
    done = review(*words)
    assert (done.code, OTHERWISE[words] in " ".join(done.err.split())) == (2, True), done.err


def test_every_command_that_is_named_in_place_of_another_is_there() -> None:
    groups = {"child": children, "set": sets}
    for group, table in MEANT.items():
        for name, meant in table.items():
            assert name not in (COMMANDS if group == "root" else groups[group].commands)
            for words in (one.split() for one in meant.split(" or ")):
                first, *rest = words if group == "root" else [group, *words]
                assert first in COMMANDS or first in ("--help", "--version")
                assert all(word in groups[first].commands for word in rest)
