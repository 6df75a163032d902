"""What commands have in common as click takes it: which book, which day, how to print."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import update_wrapper
from typing import Any, TypeVar

import click

from review.cli.calls import Call, called, is_plain, practice_day, with_clock
from review.cli.declared import BOOK, JSON, ON, PLAIN, Declared, number
from review.errors import Interrupted

__all__ = [
    "SINCE",
    "UNTIL",
    "WAY_BACK",
    "Back",
    "Call",
    "Day",
    "Number",
    "in_context",
    "in_turn",
    "is_yes",
    "option",
    "prompted",
    "stopping",
    "unless_back",
    "with_call",
    "with_clock",
    "with_options",
]

Command = Callable[..., None]
T = TypeVar("T")
BACK = "back"
WAY_BACK = f"To change the answer before, type {BACK}."


def prompted(question: str, default: str | None = "", suffix: str = "") -> str:
    """What is typed at a question; Enter alone is the default, and where there is none it is asked again.

    Who stops at it goes on below: what is said then is no part of the question. A terminal would break a long
    one inside a word.
    """
    from review.render.screen import echo, width, wrapped  # whoever is asked nothing does without

    ends = suffix or (" " if question.endswith("?") and not default else ": ")
    *above, last = wrapped(question, width() - len(ends)) or [""]
    echo(above)
    try:
        return str(click.prompt(last, default=default, show_default=bool(default), prompt_suffix=ends))
    except click.Abort:
        click.echo()
        raise


@contextmanager
def stopping(sentence: str) -> Iterator[None]:
    """Who stops at a question within is told what is true there, where it is not that nothing was changed."""
    try:
        yield
    except click.Abort:
        raise Interrupted(sentence) from None


class Back(Exception):
    """The answer before is to be changed."""


def in_turn(told: T, questions: Sequence[Callable[[T], T]]) -> T:
    """What is told once every question was asked; who types “back” is asked the one before once more."""
    at = 0
    while at < len(questions):
        try:
            told, at = questions[at](told), at + 1
        except Back:
            at = max(0, at - 1)
    return told


def unless_back(typed: str) -> str:
    """What was typed at a question that has one before it. A child may be called Back."""
    if typed.strip().casefold() == BACK:
        raise Back
    return typed


AGREED = {"y": True, "yes": True, "n": False, "no": False}


def is_yes(question: str, default: bool = False) -> bool:
    """Yes or no, asked until it is one of them; only Enter is the one in capitals."""
    choices = "Y/n" if default else "y/N"
    while True:
        said = prompted(f"{question} [{choices}]").strip().casefold()
        if not said:
            return default
        if said in AGREED:
            return AGREED[said]
        click.echo("Type y or n, or only Enter.")


class Day(click.ParamType[int]):
    """A date as 2026-11-25, turned into a practice day."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        if isinstance(value, int):
            return value
        try:
            return practice_day(value)
        except ValueError:
            self.fail(f"“{value}” is not a date. Write it like 2026-11-25.", param, ctx)


class Number(click.ParamType[float]):
    """A number of minutes, in whichever way the family writes the half; where no bounds are given, how many
    there may be is told by the call."""

    name = "number"

    def __init__(self, least: float | None = None, most: float | None = None) -> None:
        self.least, self.most = least, most

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        try:
            found = number(str(value))
        except ValueError:
            self.fail(f"“{value}” is no number.", param, ctx)
        if self.least is not None and self.most is not None and not self.least <= found <= self.most:
            self.fail(f"{value} is not from {self.least:g} to {self.most:g}.", param, ctx)
        return found


class Whole(click.ParamType[int]):
    """A whole number within bounds, which the help tells in words, and not as 1<=x<=12."""

    name = "number"

    def __init__(self, least: int, most: int) -> None:
        self.least, self.most = least, most

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        found = int(click.INT.convert(value, param, ctx))
        if not self.least <= found <= self.most:
            self.fail(f"{found} is not from {self.least} to {self.most}.", param, ctx)
        return found


TYPES: dict[str, Any] = {"text": str, "number": Number(), "date": Day()}


def option(one: Declared) -> Callable[[Command], Command]:
    """A declared option as click takes it."""
    if one.takes:
        return click.option(one.spelled, one.field, type=TYPES[one.takes], metavar=one.shown, help=one.about)
    both_ways: dict[str, Any] = {"default": None} if "/" in one.spelled else {"is_flag": True}
    return click.option(one.spelled, one.field, help=one.about, **both_ways)


def with_options(every: Sequence[Declared]) -> Callable[[Command], Command]:
    """Give a command these options, in this order."""

    def decorate(function: Command) -> Command:
        for one in reversed(every):
            function = option(one)(function)
        return function

    return decorate


SINCE = click.option("--since", type=Day(), metavar="DATE", help="From this day on, like 2026-09-01.")
UNTIL = click.option("--until", type=Day(), metavar="DATE", help="Up to this day; today if left out.")


def with_call(*, on: bool = False, json: bool = False) -> Callable[[Command], Command]:
    """Give a command `--book`, `--plain` and, where it takes them, `--on` and `--json`, as one `Call`."""
    wanted = [BOOK, PLAIN, *([ON] if on else []), *([JSON] if json else [])]

    def decorate(function: Command) -> Command:
        def command(book: str | None, plain: bool, **rest: Any) -> None:
            call = in_context(book, plain, rest.pop("on", None), rest.pop("as_json", False))
            function(call, **rest)

        return with_options(wanted)(update_wrapper(command, function))

    return decorate


def in_context(book: str | None, plain: bool, on: int | None, as_json: bool) -> Call:
    """The options of the command, else those before it."""
    root = click.get_current_context().find_root()
    before: dict[str, Any] = root.obj or {}
    either = plain or is_plain(bool(before.get("plain")))
    return called(root.info_name or "review", book_of(book), either, on, as_json)


def book_of(behind: str | None) -> str | None:
    """The book that the line names, behind the command, else before it; None: it names none."""
    before: dict[str, Any] = click.get_current_context().find_root().obj or {}
    return before.get("book") if behind is None else behind
