"""Bare `review`: who has practised today and what to type next; on no book, the set-up."""

import sys

from review import files
from review.app import sittings
from review.cli.calls import Call
from review.errors import BookMissing
from review.render import lines
from review.render.screen import echo, echo_json


def front_door(call: Call) -> None:
    if files.is_there(call.outside.book):
        rows = sittings.front_door(call.outside)
        if call.as_json:
            echo_json([lines.today_row(row) for row in rows])
        else:
            echo(lines.front_door(rows))
    elif is_terminal() and not call.as_json:
        from review.cli.set_up import set_up

        set_up(call)
    elif call.as_json:
        raise BookMissing("There is no record book yet. Begin one: review child add NAME --age 7")
    else:
        echo(["There is no record book yet.", "Begin: review child add NAME --age 7", "Or look: review demo"])


def is_terminal() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()
