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
    "Ann O'Hara",
    "D'Arcy's $5",
    "D'Arcy!",
    "D'Arcy\\b",
    "mental-sum:2+2/regroup-ones",
    "C:\\Users\\Ann Lee\\family.book",
    "a;b",
    "a&b",
)


@pytest.mark.parametrize("word", WORDS)
def test_a_word_is_one_word(word: str, monkeypatch: pytest.MonkeyPatch) -> None:
    assert shlex.split(shell.word(word)) == [word]
    monkeypatch.setattr(shell, "WINDOWS", True)
    plain = ("Mira", "Zoë", "mental-sum:2+2/regroup-ones")
    assert shell.word(word) == (word if word in plain else f'"{word}"')


@pytest.mark.parametrize("word", WORDS)
def test_the_quotes_are_those_that_programs_on_windows_take_off(
    word: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Python's own way of writing a command for them; it quotes no more than it must."""
    monkeypatch.setattr(shell, "WINDOWS", True)
    assert shell.word(word).strip('"') == subprocess.list2cmdline([word]).strip('"')


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("O'Hara", '"O\'Hara"'),
        ("Ann O'Hara", '"Ann O\'Hara"'),
        ("Zoë", "Zoë"),
        ("D'Arcy!", "'D'\"'\"'Arcy!'"),  # within double quotes a shell puts an old command for the mark
    ],
)
def test_a_name_is_what_a_person_can_type(name: str, typed: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shell, "WINDOWS", False)
    assert shell.word(name) == typed
