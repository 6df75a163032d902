"""A disk that refuses one call, or all from then on: what is said then, and what is stored.

    python -m tests.faults.refusals FOLDER      (under the watcher; the tests start it)

For each call that recording an answer makes: the disk refuses it; what was said of the answer; then the disk
works again, and another answer is given. One line of words for each.
"""

import ctypes
import errno
import os
import sys
from pathlib import Path

from review.errors import BookError, BookUnknownFate
from tests.book.tiny import TINY, answer
from tests.faults.scenes import there

ERRORS = {"ENOSPC": errno.ENOSPC, "EIO": errno.EIO}
MOST = 200  # calls; an answer makes about thirty


def main() -> None:
    folder = Path(sys.argv[1])
    disk = ctypes.CDLL(None)
    for name, error in ERRORS.items():
        for sticky in (0, 1):
            for after in range(MOST):
                if not reached(folder, disk, name, error, sticky, after):
                    break


def reached(folder: Path, disk: ctypes.CDLL, name: str, error: int, sticky: int, after: int) -> bool:
    """Try it in a process of its own; whether the answer made so many calls."""
    pid = os.fork()
    if pid == 0:
        code = 2
        try:
            code = attempt(folder, disk, name, error, sticky, after)
        finally:
            os._exit(code)
    code = os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])
    if code not in (0, 1):
        say(f"{name} {sticky} {after} died {code}")
    return code != 1


def attempt(folder: Path, disk: ctypes.CDLL, name: str, error: int, sticky: int, after: int) -> int:
    """0: the disk refused a call; 1: the answer made fewer calls."""
    place, number = there(folder), sticky * 1000 + after + 2000 * list(ERRORS).index(name)
    with place.open() as book:
        disk.watch_fail(after, error, sticky)
        try:
            book.record([answer(place.child, f"product:{number}x7", 1)], TINY)
            said = "stored"
        except BookUnknownFate:
            said = "unknown"
        except BookError:
            said = "refused"
        calls = disk.watch_calls()
        disk.watch_fail(-1, 0, 0)
        book.record([answer(place.child, f"product:{number}x8", 2)], TINY)
    if calls <= after:
        return 1
    say(f"{name} {sticky} {number} {said}")
    return 0


def say(line: str) -> None:
    os.write(2, f"{line}\n".encode("ascii"))


if __name__ == "__main__":
    main()
