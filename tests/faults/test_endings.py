"""However a warm-up in a terminal ends: nothing is lost, the terminal is as it was, the next one starts.

The whole of it, 1,000 kills and 50 of each other at a time: python -m tests.faults.endings
"""

import random

import pytest

from tests.faults import endings
from tests.faults.endings import FIRST_DAY, WAYS, Home

KILLS, OTHERS = 20, 3


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Home:
    return endings.new_home(tmp_path_factory.mktemp("home"))


def test_however_it_ends_nothing_is_lost(home: Home) -> None:
    ways = {way: KILLS if way == "SIGKILL" else OTHERS for way in WAYS}
    found = endings.ended(home, ways, random.Random(2), FIRST_DAY + 1)
    assert {way: one.broken for way, one in found.items() if one.broken} == {}
    assert found["SIGKILL"].taken > 10, "the kills came before anything was answered"


def test_a_book_put_back_in_between_is_found(home: Home) -> None:
    """The control: after the answers the book of before is put back, as if it had not been written."""
    before, source = home.book.read_bytes(), random.Random(3)
    lost: list[str] = []
    real = endings.stored

    def forgetful(home: Home, day: int, wanted: set[str]) -> set[str]:
        home.book.write_bytes(before)
        home.book.with_name(f"{home.book.name}-journal").unlink(missing_ok=True)  # it is the other book's
        return real(home, day, wanted)

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(endings, "stored", forgetful)
        for turn in range(4):
            sitting = endings.one_sitting(home, "SIGKILL", FIRST_DAY + 90, 90_000 + 10 * turn, source)
            lost += [sitting.wrong] if sitting.taken else []
    assert lost
    assert all("only [] are in the book" in what for what in lost), lost


@pytest.mark.parametrize(("command", "told"), [("true", False), ("false", True)])
def test_a_warm_up_that_ended_before_it_could_be_stopped_must_have_ended_well(
    home: Home, command: str, told: bool
) -> None:
    with endings.seated(home, "/bin/sh", "-c", endings.SHELL, "sh", command) as seat:
        seat.see(";")
        assert bool(endings.by_stopping(seat)) == told


def test_a_traceback_of_ours_is_told_from_one_of_pythons_own_start() -> None:
    own = b'^CTraceback (most recent call last):\r\n  File "<frozen site>", line 626\r\nKeyboardInterrupt\r\n'
    ours = own.replace(b"<frozen site>", b"/home/u/review/cli/__init__.py")
    assert not endings.TRACEBACK.search(own)
    assert endings.TRACEBACK.search(ours)
    assert not endings.TRACEBACK.search(ours.replace(b"Traceback", b"Look"))
