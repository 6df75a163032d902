"""The keys and the screen of a Windows console, imitated: `tests/elsewhere/console.py` says by what."""

import io
from collections.abc import Sequence
from typing import Any

import pytest

from review.cli import fronts
from review.core.model import Answer
from review.core.warmup import Sitting
from review.terminal import aloud_keys, console, lines, typed
from tests.elsewhere.console import Burst, Console, as_windows
from tests.terminal.driver import SITTING
from tests.terminal.streams import by_aloud_lines, by_lines
from tests.terminal.test_fronts_agree import GIVING_UP, SCRIPT, Script, untimed


class Window(io.StringIO):
    """A stream that is the console."""

    encoding = "utf-8"

    def fileno(self) -> int:
        return 1

    def isatty(self) -> bool:
        return True


def read(bursts: Sequence[Burst], count: int) -> list[str]:
    console = Console(bursts)
    with as_windows(console) as (room, _), room.Keys(0, 1) as keys:
        return [keys.read().name for _ in range(count)]


@pytest.mark.parametrize(
    ("bursts", "names"),
    [
        (["42\r"], ["4", "2", "enter"]),
        (["\xe0K", "\xe0P", "\xe0M"], ["left", "down", "right"]),  # the keys of their own
        (["\x00K", "\x00P", "\x00M"], ["left", "down", "right"]),  # those of the number pad
        (["\xe0H\xe0S\x00;4"], ["4"]),  # up, delete, F1: no key of ours, and none of their letters
        (["\xe0", "4"], ["à", "4"]),  # a letter of its own on some keyboards
        (["\x08", "\x7f", "\t", "?"], ["erase", "erase", "help", "help"]),
        (["\x03", "\x1a", "\x04"], ["interrupt", "stop", "stop"]),
        (["\x1b", 0.2, "4"], ["4"]),  # Escape alone takes nothing with it
        (["\x1b[D", "\x1b[1;5C", "4"], ["left", "4"]),  # a window that sends sequences
        (["×−½"], ["×", "−", "½"]),
        (["\U0001f9ad"], ["\U0001f9ad"]),  # in two halves
        (["\ud83d", "4"], ["4"]),  # half of one
    ],
)
def test_keys_of_the_windows_console_are_named_alike(bursts: list[Burst], names: list[str]) -> None:
    assert read(bursts, len(names)) == names


def test_what_was_typed_ahead_is_thrown_away() -> None:
    console = Console(["41", "5"])
    with as_windows(console) as (room, _), room.Keys(0, 1) as keys:
        assert keys.read().name == "4"
        keys.flush()
        assert keys.read().name == "5"


def test_keys_carry_their_moment() -> None:
    console = Console(["4", 2.0, "2"])
    with as_windows(console) as (room, _), room.Keys(0, 1) as keys:
        first, second = keys.read(), keys.read()
    assert 1.9e9 < second.at_ns - first.at_ns < 60e9


# --- the screen -----------------------------------------------------------------------------------------


def test_the_screen_obeys_while_keys_are_read_and_is_left_as_it_was() -> None:
    console = Console(["4"], mode=3)
    with as_windows(console) as (room, _):
        with room.Keys(0, 1) as keys:
            assert console.mode == 3 | 4
            keys.read()
        assert console.mode == 3


def test_what_can_obey_is_asked_without_a_trace() -> None:
    new, old = Console([], mode=3), Console([], mode=None)
    with as_windows(new) as (_, screen):
        assert screen.obeys(1)
        assert new.modes == [7, 3]
    with as_windows(old) as (_, screen):
        assert not screen.obeys(1)
        assert old.modes == []


def test_a_screen_that_cannot_obey_has_plain_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    played = []
    monkeypatch.setattr(typed, "play", lambda *args, **kwargs: played.append("keys"))
    monkeypatch.setattr(lines, "play", lambda *args, **kwargs: played.append("lines"))
    for stream in ("stdin", "stdout"):
        monkeypatch.setattr(f"sys.{stream}", Window())
    for obeys in (True, False):
        monkeypatch.setattr(console, "obeys", lambda screen, obeys=obeys: obeys)
        fronts.chosen(False, False, aloud=False)(SITTING, (), lambda answer: None, lambda: 0)
    assert played == ["keys", "lines"]


def test_other_screens_obey_as_they_are() -> None:
    assert console.obeys(1)


# --- whole sittings -------------------------------------------------------------------------------------


def bursts_of(script: Script, end: str) -> list[Burst]:
    """As the terminal of `test_fronts_agree` is typed at, with a breath before each."""
    typed = [
        key for _, text, held in script for key in (text if text == "?" else f"{text}\r", *("\r" * held))
    ]
    last = ["\r"] if end == "Then press Enter." else []
    return [one for key in (*typed, *last, "\x1a") for one in (0.5, key)]


@pytest.mark.parametrize(
    ("script", "end", "kept"), [(SCRIPT, "8 × 7 =", 12), (GIVING_UP, "Then press Enter.", 2)]
)
def test_a_sitting_at_a_console_is_kept_like_one_in_lines(
    script: Script, end: str, kept: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    rows, window = list[Answer](), Window()
    console = Console(bursts_of(script, end))
    with as_windows(console) as (room, _):
        monkeypatch.setattr(typed, "Keys", room.Keys)
        typed.play(SITTING, (), rows.append, source=window, out=window, greet=["Hello, Tove."])
        assert console.mode == 3
    piped = by_lines("".join(f"{text}\n" for _, text, _ in script))
    assert [untimed(row) for row in rows] == [untimed(row) for row in piped.answers]
    assert len(rows) == kept


def test_a_sitting_read_out_by_arrows_is_kept_like_one_in_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    """Left, down, right: from memory, worked out, not yet; what is told then is gone on from by Enter."""
    rows, window = list[Answer](), Window()
    keys = ["\xe0K", "\xe0P", "\xe0M", "\r", "\xe0M", "\r", "\xe0K", "s"]
    console = Console([one for key in keys for one in (0.6, key)])
    sitting: Any = SITTING
    assert isinstance(sitting, Sitting)
    with as_windows(console) as (room, _):
        monkeypatch.setattr(aloud_keys, "Keys", room.Keys)
        aloud_keys.play(sitting, (), rows.append, source=window, out=window)
    piped = by_aloud_lines("m\nw\nn\nn\nm\ns\n")
    assert rows == [*piped.answers]
    assert len(rows) == 5
