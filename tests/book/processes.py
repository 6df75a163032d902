"""Other processes for tests: forked, so that they start in a millisecond, and reaped whatever happens."""

import os
import signal
import traceback
from collections.abc import Callable
from typing import NamedTuple, TextIO

Tell = Callable[[str], None]


class Child(NamedTuple):
    pid: int
    lines: TextIO  # what it tells

    def hear(self, count: int) -> list[str]:
        """The next lines it tells, waiting for each; fewer where it ends."""
        return [line.strip() for _ in range(count) if (line := self.lines.readline())]

    def read(self) -> list[str]:
        """Everything it tells until it ends."""
        with self.lines:
            return self.lines.read().split()

    def kill(self) -> None:
        os.kill(self.pid, signal.SIGKILL)

    def end(self) -> int:
        """Wait for its end: its exit code, or minus the signal."""
        return os.waitstatus_to_exitcode(os.waitpid(self.pid, 0)[1])


def start(work: Callable[[Tell], None], user: int | None = None) -> Child:
    """Run the work in a process of its own, as another user if one is given (only the superuser can)."""
    reading, writing = os.pipe()
    pid = os.fork()
    if pid:
        os.close(writing)
        return Child(pid, os.fdopen(reading, "r", encoding="ascii"))
    code = 1
    try:
        if user is not None:
            os.setgroups([])
            os.setgid(user)
            os.setuid(user)
        work(teller(writing))
        code = 0
    except BaseException:
        traceback.print_exc()
    finally:
        os._exit(code)


def teller(descriptor: int) -> Tell:
    def tell(line: str) -> None:
        os.write(descriptor, f"{line}\n".encode("ascii"))

    return tell


def as_anyone(work: Callable[[Tell], None]) -> list[str]:
    """What the work tells when it runs without the superuser's rights."""
    child = start(work, user=65534 if os.geteuid() == 0 else None)
    told = child.read()
    assert child.end() == 0
    return told
