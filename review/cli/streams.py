"""The three streams as the program needs them: there, and never failing for an encoding."""

import io
import os
import sys

from review.signs import steady

LONGEST = 1_000_000  # characters of a line: nobody types as many, nor needs a program to (our judgement)
NAMES = {0: ("stdin", "r"), 1: ("stdout", "w"), 2: ("stderr", "w")}


class Piped(io.TextIOWrapper):
    """What is piped in. A line without an end would be read until the memory is full; here it ends what is
    read, as the end of input does."""

    def readline(self, size: int = -1, /) -> str:  # type: ignore[override]
        line = super().readline(LONGEST if size < 0 else size)
        return "" if len(line) == LONGEST else line


def make_safe() -> None:
    """Make the three streams safe to use. One that was closed before we began is made to lead nowhere: else
    the next file opened would take its number, and what is said would be written into it."""
    for number, (name, mode) in NAMES.items():
        if getattr(sys, name) is None:
            nowhere(number)
            setattr(sys, name, os.fdopen(number, mode, closefd=False))
    steady(sys.stdout)
    steady(sys.stderr)
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")  # a stray byte is a sign that cannot be read, no failure
        if not sys.stdin.isatty():
            encoding = sys.stdin.encoding
            sys.stdin = Piped(sys.stdin.detach(), encoding, "replace")


def nowhere(number: int) -> None:
    try:
        os.fstat(number)
    except OSError:
        opened = os.open(os.devnull, os.O_RDWR)
        if opened != number:
            os.dup2(opened, number)
            os.close(opened)
