"""The command line: parse, one call, one echo. `main` is the only place where an error becomes a sentence."""

import errno
import gc
import os
import re
import signal
import sys
from collections.abc import Callable
from types import FrameType
from typing import NoReturn

from review import signs
from review.cli import lane
from review.cli.streams import make_safe
from review.errors import ReviewError

SIGNALS = {"SIGTERM": 143, "SIGHUP": 129}  # 128 + the signal's number, as shells have it (POSIX)

LONGEST = 80  # characters of what was typed, in a sentence about it; our judgement: enough to know it by
READER_GONE = (errno.EINVAL,) if sys.platform == "win32" else ()
"""What Windows says besides EPIPE where whoever read us has gone (CPython's issue 79935)."""
UNWRITABLE = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO)


class Signalled(BaseException):
    """A signal asked the program to end: carried up like Ctrl-C, so that every `finally` runs."""

    def __init__(self, exit_code: int) -> None:
        super().__init__(exit_code)
        self.exit_code = exit_code


def main() -> NoReturn:
    """Run a command and leave with its exit code."""
    for name, code in SIGNALS.items():
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), signalled(code))
    if signal.getsignal(signal.SIGINT) is signal.SIG_DFL:  # as it began, in `review.__main__`
        signal.signal(signal.SIGINT, signal.default_int_handler)
    code = run(sys.argv[1:])
    gc.freeze()  # all of it goes with the process: looking through it once more took 20 ms (measured here)
    sys.exit(code)


def signalled(code: int) -> Callable[[int, FrameType | None], None]:
    def handle(number: int, frame: FrameType | None) -> None:
        raise Signalled(code)

    return handle


def run(arguments: list[str]) -> int:
    """Exit codes: 0 done, 1 the user can mend it, 2 wrong usage, 3 the book, 128 + n a signal."""
    make_safe()
    try:
        code = carried_out(arguments)
        sys.stdout.flush()
    except ReviewError as error:
        return said(str(error), error.exit_code)
    except KeyboardInterrupt:
        return said(f"{below_what_was_pressed()}Stopped. Everything is kept.", 130)
    except Signalled as ended:
        return ended.exit_code
    except BrokenPipeError:
        return silenced()
    except OSError as error:
        if error.errno in READER_GONE and is_stopped_up():
            return silenced()
        if error.errno not in UNWRITABLE:
            raise
        return said(f"The output could not be written: {error.strerror}.", 1)
    except raised_by_click() as error:
        return told_by_click(error)
    return code


def carried_out(arguments: list[str]) -> int:
    """By the lane what it knows for sure, by click all else."""
    if "_REVIEW_COMPLETE" in os.environ:
        from review.cli.completion import complete

        return complete(program())
    if line := lane.read(arguments):
        lane.carried_out(program(), line)
        return 0
    from review.cli.group import root

    with root.make_context(program(), arguments) as context:
        root.invoke(context)
    return 0


def raised_by_click() -> tuple[type[Exception], ...]:
    """What click raises; nothing where nobody needed it, since it is long in coming."""
    click = sys.modules.get("click")
    return (click.exceptions.Exit, click.ClickException, click.Abort) if click else ()


def told_by_click(error: Exception) -> int:
    from review.cli.outcomes import outcome

    sentence, code = outcome(error, program())
    return said(sentence, code) if sentence else code


def below_what_was_pressed() -> str:
    """A terminal writes ^C where it stands, and no more."""
    return "\n" if sys.stderr and sys.stderr.isatty() else ""


def program() -> str:
    """The program as it was invoked, so that what it prints can be typed."""
    called = os.path.basename(sys.argv[0])
    return "python -m review" if called == "__main__.py" else called


def said(sentence: str, code: int) -> int:
    from review.core.text import clean
    from review.render.invoked import typable
    from review.render.screen import on_errors

    lines = [" ".join(map(clean, line.split(" "))) for line in typable(shortened(sentence)).split("\n")]
    try:
        print(signs.fit(on_errors("\n".join(lines)), sys.stderr.encoding), file=sys.stderr)
    except OSError:
        return silenced(code)
    return code


def shortened(sentence: str) -> str:
    """What was typed is told again as far as anyone reads it, and no word is longer than a screen."""
    quoted = re.sub(rf"“([^”]{{{LONGEST}}})[^”]*”", r"“\1…”", sentence)
    return re.sub(rf"(\S{{{3 * LONGEST}}})\S+", r"\1…", quoted)


def is_stopped_up() -> bool:
    """Whether what is waiting to be written is refused once more."""
    try:
        sys.stdout.flush()
    except OSError:
        return True
    return False


def silenced(code: int = 0) -> int:
    """Whoever read us has gone: nothing more is written, not even at exit."""
    devnull = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        try:
            os.dup2(devnull, stream.fileno())
        except (OSError, ValueError):
            continue
    return code
