"""Runs `review` in a Python that lacks what Python on Windows lacks.

python -m tests.elsewhere.without COMMAND ...

The lists are from the library reference of Python ("Availability: Unix" and "not Windows"). Libraries are
loaded before, as they have branches of their own for Windows; every room of the project is loaded after.
"""

import importlib
import multiprocessing
import os
import signal
import sys
import time
from collections.abc import Sequence
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec
from types import ModuleType

from tests.elsewhere.console import Console

MODULES = ("fcntl", "grp", "posix", "pty", "pwd", "readline", "resource", "syslog", "termios", "tty")
OS = (
    "O_CLOEXEC", "O_DIRECTORY", "O_DSYNC", "O_NOCTTY", "O_NOFOLLOW", "O_NONBLOCK", "O_SYNC",
    "chown", "chroot", "fchmod", "fchown", "fork", "forkpty", "fpathconf", "geteuid", "getgid", "getuid",
    "killpg", "mkfifo", "mknod", "nice", "openpty", "pathconf", "setgid", "setsid", "setuid", "statvfs",
    "sync", "sysconf", "uname", "wait", "waitpid",
)  # fmt: skip
SIGNALS = (
    "SIGALRM", "SIGCHLD", "SIGCONT", "SIGHUP", "SIGKILL", "SIGPIPE", "SIGQUIT", "SIGSTOP", "SIGTSTP",
    "SIGTTIN", "SIGTTOU", "SIGUSR1", "SIGUSR2", "SIGWINCH", "alarm", "pthread_sigmask", "setitimer",
)  # fmt: skip
LIBRARIES = (
    "click", "click.shell_completion", "concurrent.futures", "ctypes", "multiprocessing",
    "rich.box", "rich.console", "rich.table", "shutil", "sqlite_utils", "subprocess", "tempfile", "typst",
    "zoneinfo",
)  # fmt: skip


class Absent(MetaPathFinder):
    """No such module here."""

    def find_spec(self, name: str, path: object, target: ModuleType | None = None) -> ModuleSpec | None:
        if name in MODULES:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)
        return None


def become_windows() -> None:
    for library in LIBRARIES:
        importlib.import_module(library)
    folders_of_windows()
    for name in MODULES:
        sys.modules.pop(name, None)
    sys.meta_path.insert(0, Absent())
    sys.modules["msvcrt"] = Console([])  # type: ignore[assignment]
    for module, names in ((os, OS), (signal, SIGNALS), (time, ("tzset", "pthread_getcpuclockid"))):
        for name in names:
            if hasattr(module, name):
                delattr(module, name)
    vars(multiprocessing)["get_all_start_methods"] = lambda: ["spawn"]
    sys.platform = "win32"


def folders_of_windows() -> None:
    """As the environment names them: there is no registry to ask."""
    import platformdirs
    from platformdirs import windows

    vars(platformdirs)["PlatformDirs"] = windows.Windows
    vars(windows)["get_win_folder"] = windows.get_win_folder_from_env_vars


def main(arguments: Sequence[str]) -> None:
    become_windows()
    sys.argv = ["review", *arguments]
    from review.cli import main as review

    review()


if __name__ == "__main__":
    main(sys.argv[1:])
