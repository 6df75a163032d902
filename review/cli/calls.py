"""What every command is given besides its own arguments, and how the clock is asked about."""

import os
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import NamedTuple, TypeVar

from review import clock, config
from review.core import days
from review.errors import Mendable
from review.gather import DoubtfulClock, Outside
from review.render.invoked import invoked
from review.render.screen import put


class Call(NamedTuple):
    """Which book, which day, how to print."""

    outside: Outside
    plain: bool
    as_json: bool


def called(program: str, book: str | None, plain: bool, on: int | None, as_json: bool) -> Call:
    """The call, from the program's name as it was invoked and the options all commands share."""
    if book == "":  # as of a variable that is not set: nobody means the family's own book by it
        raise Mendable("--book names no file. Write one behind it, like family.book, or leave it out.")
    invoked(program, book)
    outside = Outside(Path(config.book_path(book)), config.state_folder(), clock.now_ms(), on)
    return Call(outside, plain, as_json)


def is_plain(asked: bool) -> bool:
    """Lines only: where they are asked for, and on a terminal that does no more."""
    return asked or os.environ.get("TERM") == "dumb"


def practice_day(text: str) -> int:
    """A date like 2026-11-25 as a practice day; ValueError where it is none."""
    return days.day_of(date.fromisoformat(text))


T = TypeVar("T")


def with_clock(outside: Outside, act: Callable[[Outside], T]) -> T:
    """Do it; where the computer's date looks wrong, ask a person once, and nobody else."""
    try:
        return act(outside)
    except DoubtfulClock as doubt:
        if not sys.stdin.isatty():
            raise
        from review.cli.options import is_yes  # with click, which a child's path does without

        put(str(doubt), sys.stdout)
        if not is_yes("Is the date of this computer right?"):
            raise
        return act(outside._replace(trusted=True))
