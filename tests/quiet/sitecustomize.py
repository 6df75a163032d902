"""Refuses the network in every Python that the tests start: Python itself imports a room of this name first.

`tests/conftest.py` puts its folder into PYTHONPATH. An audit hook (PEP 578) cannot be taken away again, and
sees what any library does. The same without any trust in Python: `unshare -rn python -m pytest ...` (Linux)
runs the tests where there is no network at all.
"""

import sys

FORBIDDEN = frozenset({"socket.connect", "socket.bind", "socket.sendto", "socket.sendmsg", "urllib.Request"})
LOOKED_UP = ("socket.getaddrinfo", "socket.gethostby", "socket.getnameinfo")
WITHIN = 1  # AF_UNIX (POSIX): between processes of one computer, which Python's own pools use


def refuse(event: str, arguments: tuple[object, ...]) -> None:
    if event == "socket.__new__":
        family = arguments[1] if len(arguments) > 1 else 0
        if family not in (WITHIN, -1):
            raise PermissionError("the tests run without a network: a socket was asked for")
    elif event == "socket.connect" and isinstance(arguments[1], (str, bytes)):
        return  # a name of AF_UNIX
    elif event in FORBIDDEN or event.startswith(LOOKED_UP):
        if event == "socket.bind" and isinstance(arguments[1], (str, bytes)):
            return
        raise PermissionError(f"the tests run without a network: {event}")


sys.addaudithook(refuse)
