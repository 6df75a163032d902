"""Bare `review`: who has practised today and what to type next; on no book, the set-up."""

import sys

import click

from review import files, sittings
from review.cli.options import Day, in_context
from review.errors import BookMissing
from review.render import lines
from review.render.screen import echo, echo_json


def front_door(on: str | None, as_json: bool) -> None:
    day = Day().convert(on, None, click.get_current_context()) if on else None
    call = in_context(None, False, day, as_json)
    if files.is_there(call.outside.book):
        rows = sittings.front_door(call.outside)
        if as_json:
            echo_json([lines.today_row(row) for row in rows])
        else:
            echo(lines.front_door(rows))
    elif is_terminal() and not as_json:
        from review.cli.set_up import set_up

        set_up(call)
    elif as_json:
        raise BookMissing("There is no record book yet. Begin one: review child add NAME --age 7")
    else:
        echo(["There is no record book yet.", "Begin: review child add NAME --age 7", "Or look: review demo"])


def is_terminal() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()
