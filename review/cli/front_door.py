"""Bare `review`: who has practised today and what to type next; on no book, the set-up."""

import sys
from typing import Any

import click

from review import app, files
from review.cli.options import called
from review.render import lines
from review.render.screen import echo


def front_door(ctx: click.Context) -> None:
    before: dict[str, Any] = ctx.obj
    call = called(before["book"], before["plain"], None, False)
    if files.is_there(call.outside.book):
        echo(lines.front_door(app.front_door(call.outside)))
    elif sys.stdin.isatty() and sys.stdout.isatty():
        from review.cli.set_up import set_up

        set_up(call)
    else:
        echo(["There is no record book yet.", "Begin: review child add NAME --age 7", "Or look: review demo"])
