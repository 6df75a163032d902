"""What a shell is told when it asks how a command goes on, and the manual page."""

import re
from pathlib import Path

import click
import pytest

from review.cli import run
from review.cli.group import COMMANDS, root
from tests.cli.conftest import Review


def asked(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], words: str, shell: str = "bash"
) -> list[str]:
    """What the shell is offered for the last of the words."""
    monkeypatch.setenv("COMP_WORDS", words if shell == "bash" else words.rpartition(" ")[0])
    monkeypatch.setenv("COMP_CWORD", str(words.count(" ")) if shell == "bash" else words.rpartition(" ")[2])
    monkeypatch.setenv("_REVIEW_COMPLETE", f"{shell}_complete")
    assert run([]) == 0
    monkeypatch.delenv("_REVIEW_COMPLETE")
    return [line.partition(",")[2].partition("\t")[0] for line in capsys.readouterr().out.split("\n") if line]


@pytest.mark.parametrize(
    ("words", "offered"),
    [
        ("review war", ["warmup"]),
        ("review warmup M", ["Mira"]),
        ("review warmup m", ["Mira"]),
        ("review child edit Jo", ["Jonah"]),
        ("review child add Mi", []),
        ("review set show times-2", ["times-2-5-10"]),
        ("review set kinds frac", ["fraction"]),
        ("review set add roman-early J", ["Jonah"]),
        ("review taught bonds-of", []),
        ("review warmup --min", ["--minutes"]),
        ("review completion b", ["bash"]),
        ("review nonsense x", []),
    ],
)
def test_names_of_the_book_and_the_catalogue_are_offered(
    family: Review,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    words: str,
    offered: list[str],
) -> None:
    assert asked(monkeypatch, capsys, words) == offered


def test_the_skills_are_those_of_the_children(
    family: Review, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "near-doubles-to-10" in asked(monkeypatch, capsys, "review taught ")


def test_another_shell_is_told_the_same(
    family: Review, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert asked(monkeypatch, capsys, "review warmup M", "fish") == ["Mira"]


def test_without_a_book_there_are_fewer_names_and_no_error(
    review: Review, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert asked(monkeypatch, capsys, "review warmup M") == []


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_the_script_is_for_that_shell(review: Review, shell: str) -> None:
    done = review("completion", shell)
    assert done.code == 0
    assert f"{shell}_complete" in done.out


def options(command: click.Command) -> list[str]:
    return [name for param in command.params if isinstance(param, click.Option) for name in param.opts]


def test_the_manual_names_every_command_option_and_example(review: Review) -> None:
    page = review("manual").out.replace(r"\-", "-")
    for name in COMMANDS:
        command = root.get_command(click.Context(root), name)
        assert command
        assert f".SS review {name}" in page
        inner = list(command.commands.values()) if isinstance(command, click.Group) else []
        missing = [option for one in (command, *inner) for option in options(one) if option not in page]
        assert not missing, f"{name}: {missing}"


def test_no_line_of_the_manual_is_taken_for_a_request_by_chance(review: Review) -> None:
    """roff reads a line that begins with a dot or a quote as a request (groff, man(7))."""
    requests = [line for line in review("manual").out.splitlines() if line[:1] in (".", "'")]
    assert requests
    assert not [line for line in requests if not re.match(r"\.(TH|SH|SS|PP|TP|B|nf|fi)( |$)", line)]


def test_the_manual_is_written_over_no_file_unless_told_so(review: Review, tmp_path: Path) -> None:
    page = tmp_path / "review.1"
    page.write_text("mine")
    refused = review("manual", "--out", str(page))
    assert (refused.code, page.read_text()) == (1, "mine")
    assert "--force" in refused.err
    assert review("manual", "--out", str(page), "--force").code == 0
    assert page.read_text(encoding="utf-8") == review("manual").out
