"""What holds for every test: no network, no book or state of the person who runs them."""

import os
import signal
import socket
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

import tests.quiet.sitecustomize  # noqa: F401  refuses sockets whatever asks for them

settings.register_profile("any machine", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("any machine")  # no test measures time: a busy machine is no failure

for ended_by in {signal.SIGINT, getattr(signal, "SIGHUP", signal.SIGINT)}:
    if signal.getsignal(ended_by) is signal.SIG_IGN:  # run in the background, and handed on to every child
        signal.signal(ended_by, signal.default_int_handler if ended_by is signal.SIGINT else signal.SIG_DFL)

TOP = Path(__file__).parent.parent
QUIET = Path(__file__).parent / "quiet"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What looks at the whole tree comes first: a test of half a minute at the very end would leave the other
    workers idle."""
    items.sort(key=lambda item: item.path.parent != Path(__file__).parent)


class NetworkForbidden(AssertionError):
    pass


@pytest.fixture(autouse=True)
def _no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """`review` never makes a socket; a test that would is a failure."""

    def refuse(*args: object, **kwargs: object) -> None:
        raise NetworkForbidden("a socket was asked for")

    monkeypatch.setattr(socket, "socket", refuse)
    monkeypatch.setattr(socket, "create_connection", refuse)
    before = os.environ.get("PYTHONPATH", "")
    monkeypatch.setenv("PYTHONPATH", os.pathsep.join(filter(None, (str(QUIET), before))))


def user_in(folder: Path) -> dict[str, str]:
    """The environment of a user whose data, state and home stand in that folder."""
    return {name: str(folder / name.lower()) for name in ("XDG_DATA_HOME", "XDG_STATE_HOME", "HOME")}


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A user of the test's own: data, state and book stand in its temporary folder."""
    for name, place in user_in(tmp_path).items():
        monkeypatch.setenv(name, place)
    monkeypatch.delenv("REVIEW_BOOK", raising=False)
    monkeypatch.delenv("NO_COLOR", raising=False)
    return tmp_path
