"""Small questions that end in yes or no."""

import io
import sys

import click
import pytest

from review.cli.options import is_yes, prompted


@pytest.mark.parametrize(
    ("typed", "default", "said"),
    [
        ("y\n", False, True),
        ("No\n", True, False),
        ("\n", True, True),
        ("\n", False, False),
        (" YES \n", False, True),
    ],
)
def test_yes_and_no_and_enter(typed: str, default: bool, said: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO(typed))
    assert is_yes("Shall it be?", default) is said


def test_what_is_neither_is_asked_again_in_words(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("perhaps\ny\n"))
    assert is_yes("Shall it be?")
    assert capsys.readouterr().out.count("Type y or n, or only Enter.") == 1


def test_the_end_of_what_is_typed_is_no_yes(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO(""))
    with pytest.raises(click.Abort):
        is_yes("Shall it be?", default=True)


def test_a_long_question_breaks_between_words(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    monkeypatch.setattr(sys, "stdin", io.StringIO("s\n"))
    assert prompted("  Which part is shaded: halves, thirds and quarters") == "s"
    shown = capsys.readouterr().out
    assert shown == "  Which part is shaded: halves, thirds\n    and quarters: "


def test_a_question_keeps_the_place_for_what_stands_behind_it(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    monkeypatch.setattr(sys, "stdin", io.StringIO("\n\n"))
    prompted("What is the first name of that child on")  # 39 letters, and a colon and a space
    prompted("", suffix="> ")
    assert capsys.readouterr().out == "What is the first name of that child\n  on: > "
