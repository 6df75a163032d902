"""Nothing of the program or of its tests reaches a network; what would is refused, in child processes too."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import TOP

ASKS = {
    "a socket": "import socket; socket.socket()",
    "a socket of the sixth protocol": "import socket; socket.socket(socket.AF_INET6, socket.SOCK_DGRAM)",
    "the room below": "import _socket; _socket.socket(2, 1)",
    "a name": "import socket; socket.getaddrinfo('localhost', 80)",
    "a page": "from urllib.request import urlopen; urlopen('http://127.0.0.1:9/')",
}


@pytest.mark.parametrize("name", ASKS)
def test_a_child_process_is_refused(name: str) -> None:
    done = subprocess.run([sys.executable, "-c", ASKS[name]], capture_output=True, text=True)
    assert done.returncode == 1
    assert "the tests run without a network" in done.stderr


def test_what_stays_on_this_computer_is_not_refused() -> None:
    """The control: pools of processes may talk to each other, and files be read."""
    code = (
        "import socket; a, b = socket.socketpair(); a.send(b'x'); print(b.recv(1)); open('/dev/null').close()"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert (done.returncode, done.stdout) == (0, "b'x'\n")


def test_this_process_is_refused() -> None:
    import _socket

    with pytest.raises(PermissionError):
        _socket.socket(2, 1)


NETWORK = re.compile(
    r"^\s*(?:import|from) (?:socket|ssl|http|urllib\.request|ftplib|smtplib|asyncio|webbrowser)\b", re.M
)


def test_no_room_of_the_program_imports_a_way_out() -> None:
    rooms: list[Path] = sorted((TOP / "review").rglob("*.py"))
    assert [path.name for path in rooms if NETWORK.search(path.read_text(encoding="utf-8"))] == []
