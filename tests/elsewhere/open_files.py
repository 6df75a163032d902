"""Files as on Windows: none that is open anywhere is replaced, renamed or deleted.

Python and SQLite open files there without the right to delete them (learn.microsoft.com, `CreateFile`:
FILE_SHARE_DELETE), and then all three are refused. What this very process has open is read from
`/proc/self/fd`, so this works on Linux alone.
"""

import errno
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from review import files

OPEN = Path("/proc/self/fd")


def forbid(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(files, "WINDOWS", True)
    for name in ("replace", "rename", "unlink", "remove"):
        patch.setattr(os, name, guarded(getattr(os, name)))


def guarded(work: Callable[..., None]) -> Callable[..., None]:
    def refuse(*paths: Any, **given: Any) -> None:
        for path in paths:
            if is_open(path):
                raise PermissionError(errno.EACCES, "Access is denied", str(path))
        work(*paths, **given)

    return refuse


def is_open(path: str | os.PathLike[str]) -> bool:
    """Under whatever name."""
    try:
        wanted = os.lstat(path)
    except OSError:
        return False
    return any(os.path.samestat(wanted, one) for one in open_now())


def open_now() -> list[os.stat_result]:
    found = []
    for descriptor in OPEN.iterdir():
        try:
            found.append(os.stat(descriptor))
        except OSError:  # the list itself, closed by now
            continue
    return found
