"""Signals of a sitting that `test_typed` does not send."""

import os
import signal
from collections.abc import Iterator

import pytest

from review.cli import Stopping
from review.errors import Interrupted
from review.terminal.signals import Signals


@pytest.fixture
def stopping() -> Iterator[Stopping]:
    """The program's own way with Ctrl-C, while a test lasts."""
    ours = Stopping()
    before = signal.signal(signal.SIGINT, ours)
    yield ours
    signal.signal(signal.SIGINT, before)


def test_ctrl_c_that_was_lost_before_the_sitting_ends_it(stopping: Stopping) -> None:
    """Raised within a callback of the interpreter, as of the import system, it is told and dropped."""
    with pytest.raises(KeyboardInterrupt):
        os.kill(os.getpid(), signal.SIGINT)
    with pytest.raises(Interrupted) as ended, Signals() as signals, signals.waiting():
        pytest.fail("it waits for a person")
    assert ended.value.exit_code == 130
    assert signal.getsignal(signal.SIGINT) is stopping


def test_without_one_it_waits(stopping: Stopping) -> None:
    with Signals() as signals, signals.waiting():
        assert not stopping.told
