"""What a user is told to type, in the quotes of the shell that is there."""

import shlex
import subprocess

import pytest

from review import shell

WORDS = (
    "Mira",
    "Ann Lee",
    "Zoë",
    "O'Hara",
    "mental-sum:2+2/regroup-ones",
    "C:\\Users\\Ann Lee\\family.book",
    "a;b",
    "a&b",
)


@pytest.mark.parametrize("word", WORDS)
def test_a_word_is_one_word(word: str, monkeypatch: pytest.MonkeyPatch) -> None:
    assert shlex.split(shell.word(word)) == [word]
    monkeypatch.setattr(shell, "WINDOWS", True)
    assert shell.word(word) == (word if word in (WORDS[0], WORDS[2], WORDS[4]) else f'"{word}"')


@pytest.mark.parametrize("word", WORDS)
def test_the_quotes_are_those_that_programs_on_windows_take_off(
    word: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Python's own way of writing a command for them; it quotes no more than it must."""
    monkeypatch.setattr(shell, "WINDOWS", True)
    assert shell.word(word).strip('"') == subprocess.list2cmdline([word]).strip('"')
