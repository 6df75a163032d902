"""What commands have in common: which book, which day, how to print."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from functools import update_wrapper
from pathlib import Path
from typing import Any, NamedTuple, TypeVar

import click

from review import clock, config
from review.core import days
from review.errors import Interrupted
from review.gather import DoubtfulClock, Outside
from review.render.invoked import invoked

Command = Callable[..., None]


def prompted(question: str, default: str | None = "", suffix: str = ": ") -> str:
    """What is typed at a question; Enter alone is the default, and where there is none it is asked again.

    Who stops at it goes on below: what is said then is no part of the question.
    """
    try:
        return str(click.prompt(question, default=default, show_default=bool(default), prompt_suffix=suffix))
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


class Call(NamedTuple):
    """What every command is given besides its own arguments."""

    outside: Outside
    plain: bool
    as_json: bool


class Day(click.ParamType[int]):
    """A date as 2026-11-25, turned into a practice day."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        if isinstance(value, int):
            return value
        try:
            return days.day_of(date.fromisoformat(value))
        except ValueError:
            self.fail(f"“{value}” is not a date. Write it like 2026-11-25.", param, ctx)


BOOK = click.option("--book", "book", metavar="FILE", help="The record book.")
PLAIN = click.option("--plain", is_flag=True, help="Lines only, no tables.")
ON = click.option("--on", type=Day(), metavar="DATE", help="Stands for today, like 2026-11-25.")
JSON = click.option("--json", "as_json", is_flag=True, help="The same as JSON.")
SINCE = click.option("--since", type=Day(), metavar="DATE", help="From this day on, like 2026-09-01.")
UNTIL = click.option("--until", type=Day(), metavar="DATE", help="Up to this day; today if left out.")


ALOUD = click.option(
    "--aloud/--typed",
    default=None,
    help="You read out and press one of three keys, or the child types. Else: aloud under 8, at a terminal.",
)
SPEAK = click.option("--speak", is_flag=True, help="The computer reads out, where espeak-ng is installed.")


def with_call(*, on: bool = False, json: bool = False) -> Callable[[Command], Command]:
    """Give a command `--book`, `--plain` and, where it takes them, `--on` and `--json`, as one `Call`."""
    wanted = [BOOK, PLAIN, *([ON] if on else []), *([JSON] if json else [])]

    def decorate(function: Command) -> Command:
        def command(book: str | None, plain: bool, **rest: Any) -> None:
            call = called(book, plain, rest.pop("on", None), rest.pop("as_json", False))
            function(call, **rest)

        wrapped: Command = update_wrapper(command, function)
        for option in reversed(wanted):
            wrapped = option(wrapped)
        return wrapped

    return decorate


def called(book: str | None, plain: bool, on: int | None, as_json: bool) -> Call:
    """The options of the command, else those before it."""
    ctx = click.get_current_context()
    before: dict[str, Any] = ctx.find_root().obj or {}
    given = book or before.get("book")
    invoked(ctx.find_root().info_name or "review", given)
    path = config.book_path(given)
    return Call(
        Outside(Path(path), config.state_folder(), clock.now_ms(), on),
        plain or bool(before.get("plain")),
        as_json,
    )


T = TypeVar("T")


def with_clock(outside: Outside, act: Callable[[Outside], T]) -> T:
    """Do it; where the computer's date looks wrong, ask a person once, and nobody else."""
    try:
        return act(outside)
    except DoubtfulClock as doubt:
        if not sys.stdin.isatty():
            raise
        click.echo(str(doubt))
        if not is_yes("Is the date of this computer right?"):
            raise
        return act(outside._replace(trusted=True))
