"""Files: the only room that opens any. Private by default, whole or not at all."""

import codecs
import errno
import os
import re
import stat
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import BinaryIO

from review.errors import Mendable

CAP = 1_000_000  # bytes; the largest set allowed, 5,000 pairs, is under 400 kB (our judgement)
NEW = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0)
READ = os.O_RDONLY | getattr(os, "O_BINARY", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0)

WINDOWS = sys.platform == "win32"
LETS_GO_S = 0.5 if WINDOWS else 0.0
"""How long to wait for a file that is to be replaced: on Windows none is that somebody has open, and a virus
scanner opens each new one for a moment (half a second is our judgement)."""

NO_ROOM = {errno.ENOSPC, getattr(errno, "EDQUOT", errno.ENOSPC)}

DATABASE = b"SQLite format 3\x00"  # how a record book begins (sqlite.org/fileformat2.html, section 1.3)
UTF16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


def read_text(path: Path, cap: int = CAP) -> str:
    """A text file, at most `cap` bytes of it; Mendable, in a sentence, where that cannot be.

    In UTF-8, or in UTF-16 that says so at its beginning, as editors and shells on Windows save it.
    """
    try:
        raw = read_start(path, cap + 1)
    except OSError as error:
        raise Mendable(unreadable(path, error)) from error
    if len(raw) > cap:
        raise Mendable(
            f"{path} is larger than {cap:,} bytes, too large for this; check that it is the right file."
        )
    try:
        return raw.decode("utf-16") if raw.startswith(UTF16) else raw.removeprefix(codecs.BOM_UTF8).decode()
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        raise Mendable(f"{path} is not UTF-8 text (line {line}); save it as UTF-8 and try again.") from error


def unreadable(path: Path, error: OSError) -> str:
    if isinstance(error, FileNotFoundError):
        return f"There is no file {path}; check the name."
    if os.path.isdir(path):
        return f"{path} is a folder, not a file; name the file inside it."
    if error.errno == errno.ENODEV:
        return f"{path} is a pipe or a device, not a file on the disk; save it as a file and name that."
    return f"{path} cannot be read ({(error.strerror or 'unknown reason').lower()}); check who may read it."


def unwritten(error: OSError) -> str:
    """Why a file could not be made, and what to do about it."""
    reason = (error.strerror or "unknown reason").lower()
    mended = "make room" if error.errno in NO_ROOM else "check who may write there"
    return f"({reason}); {mended} and try again."


def read_start(path: Path, count: int) -> bytes:
    """The first `count` bytes. OSError as the system gives it."""
    with opened(path) as file:
        return file.read(count)


def opened(path: Path) -> BinaryIO:
    """A plain file to read. A pipe would wait for ever, a device never end: both are OSError (ENODEV)."""
    descriptor = os.open(path, READ)
    if not stat.S_ISREG(os.fstat(descriptor).st_mode):
        os.close(descriptor)
        raise OSError(errno.ENODEV, "no plain file", str(path))
    return os.fdopen(descriptor, "rb")


LINE = 4_000_000  # bytes of a line that are read; the longest row of a log has under two million characters


def byte_lines(path: Path) -> Iterator[bytes]:
    """The lines of a file with their ends, one by one; a longer line comes in parts. Mendable as above."""
    try:
        with opened(path) as file:
            while line := file.readline(LINE):
                yield line
    except OSError as error:
        raise Mendable(unreadable(path, error)) from error


def is_there(path: Path) -> bool:
    """Whether something has that name, as far as one may look: what may not be looked at is there."""
    try:
        path.lstat()
    except (FileNotFoundError, NotADirectoryError):
        return False
    except OSError:
        return True
    return True


# --- what is written is private, and whole or not there -------------------------------------------------


def private_folder(path: Path) -> None:
    """Make the folder, and those above it, for the user alone; what stands already is left as it is."""
    if not path.is_dir():
        if os.path.lexists(path):
            raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), str(path))
        private_folder(path.parent)
        path.mkdir(mode=0o700, exist_ok=True)


DEVICES = r"(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[1-9¹²³])( *[.:].*)?"
SIGNS = r"""[<>:"/\\|?*\x00-\x1f]|[. ]$"""


def check_name(path: Path) -> None:
    """Windows keeps some names and signs for itself (learn.microsoft.com, "Naming Files, Paths, and
    Namespaces"): there `nul.html` is no file, and what is written to `a:b` is a hidden part of `a`. Whoever
    writes - means the screen."""
    if str(path) == "-":
        raise Mendable("- names no file here, and not the screen either; choose a name.")
    if not WINDOWS:
        return
    if re.fullmatch(DEVICES, path.name, re.IGNORECASE):
        raise Mendable(f"Windows keeps the name {path.name} for itself; choose another name.")
    if re.search(SIGNS, path.name):
        raise Mendable(
            f'{path.name} is no name for a file on Windows: there none has < > : " / \\ | ? * in it, '
            "or a dot or an empty place at its end; choose another name."
        )


def new_private_file(path: Path) -> None:
    """An empty file for the user alone; FileExistsError where something has that name."""
    check_name(path)
    os.close(os.open(path, NEW, 0o600))


def check_replaceable(path: Path) -> None:
    """What a command writes for a parent never takes the place of a record book, however much it is told to
    write over what is there: all that the children answered would be gone. Nor that of a pipe or a device,
    whose name other programs need."""
    try:
        found = read_start(path, len(DATABASE))
    except OSError as error:
        if error.errno == errno.ENODEV and not path.is_dir():
            raise Mendable(
                f"{path} is no plain file, and is never written over. Choose another name."
            ) from error
        return  # not there, or nothing that can be read: what writes says what it is
    if found == DATABASE:
        raise Mendable(f"{path} is a record book, and is never written over. Choose another name.")


def write_whole(path: Path, data: bytes, sync: bool = True) -> None:
    """Replace a file so that a reader, or a power cut, finds the old bytes or the new ones, never half.

    The new bytes go to `.NAME.new` first. Two programs at once may share that name; then one of the two
    contents stands, whole. Without `sync` a power cut may leave an empty file.
    """
    check_name(path)
    temporary = path.with_name(f".{path.name}.new")
    temporary.unlink(missing_ok=True)
    descriptor = os.open(temporary, NEW, 0o600)
    try:
        with open(descriptor, "wb") as file:
            file.write(data)
            file.flush()
            if sync:
                flush(file.fileno())
        put_over(temporary, path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    if sync:
        sync_folder(path.parent)


def publish(temporary: Path, path: Path) -> None:
    """Give a finished file its name, durably. FileExistsError, and nothing replaced, where it is taken."""
    sync_file(temporary)
    try:
        os.link(temporary, path)
    except FileExistsError:
        raise
    except (OSError, AttributeError):  # a file system without links
        if os.path.lexists(path):
            raise FileExistsError(path) from None
        os.rename(temporary, path)
    with suppress(OSError):  # somebody reads it (Windows): what has its name is whole all the same
        temporary.unlink(missing_ok=True)
    sync_folder(path.parent)


def write_lines(path: Path, lines: Iterable[bytes], replace: bool = False) -> None:
    """A new private file of those lines, whole or not there. FileExistsError where something has the name,
    unless it may be replaced; Mendable where that is a folder."""
    check_name(path)
    if path.is_dir():
        raise Mendable(f"{path} is a folder; name a file in it.")
    if not replace and os.path.lexists(path):
        raise FileExistsError(path)
    check_replaceable(path)
    temporary = path.with_name(f".{path.name}.new")
    temporary.unlink(missing_ok=True)
    try:
        with open(os.open(temporary, NEW, 0o600), "wb") as file:
            file.writelines(lines)
        if replace:
            sync_file(temporary)
            put_over(temporary, path)
        else:
            publish(temporary, path)
    finally:
        with suppress(OSError):
            temporary.unlink(missing_ok=True)


def put_over(temporary: Path, path: Path) -> None:
    """Give a file the name that another one has. PermissionError where somebody holds that one (Windows)."""
    once_let_go(lambda: os.replace(temporary, path))


def check_free(path: Path) -> None:
    """PermissionError, and nothing changed, where the file cannot be moved because somebody holds it."""
    once_let_go(lambda: os.rename(path, path))


def once_let_go(work: Callable[[], None]) -> None:
    end = time.monotonic() + LETS_GO_S
    while True:
        try:
            return work()
        except PermissionError:
            if time.monotonic() >= end:
                raise
            time.sleep(0.01)


def second_name(path: Path, other: Path) -> None:
    """One more name for a file, where the file system has that; else the other name instead."""
    try:
        os.link(path, other)
    except (OSError, AttributeError):
        os.rename(path, other)
    sync_folder(other.parent)


def move(path: Path, other: Path) -> None:
    os.rename(path, other)


def sync_file(path: Path) -> None:
    with open(path, "rb+") as file:
        flush(file.fileno())


def sync_folder(path: Path) -> None:
    """Make a rename in the folder last. Folders that cannot be opened (Windows) need no such step."""
    with suppress(OSError):
        descriptor = os.open(path, os.O_RDONLY)
        try:
            flush(descriptor)
        finally:
            os.close(descriptor)


def flush(descriptor: int) -> None:
    """To the disk itself: on macOS `fsync` stops at the drive's own cache."""
    if sys.platform == "darwin":
        import fcntl

        with suppress(OSError):  # not every file system there knows it
            fcntl.fcntl(descriptor, fcntl.F_FULLFSYNC)
            return
    os.fsync(descriptor)
