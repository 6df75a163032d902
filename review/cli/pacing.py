"""`review pacing`: what so many minutes a day bring."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import click

from review.app import ahead
from review.cli.options import Call, Day, with_call
from review.render import pacing_lines
from review.render.phrases import blank_between
from review.render.screen import echo, echo_json


@click.command()
@click.argument("child", required=False)
@click.option("--until", type=Day(), metavar="DATE", help="The end of term; in twelve weeks if left out.")
@click.option("--all", "everything", is_flag=True, help="As if all of the child's sets were taught.")
@with_call(on=True, json=True)
def pacing(call: Call, child: str | None, until: int | None, everything: bool) -> None:
    """What 3, 5, 8 or 10 minutes a day bring, and a pause of two weeks.

    \b
    Examples:
      review pacing
      review pacing Mira --all
    """
    with bar() as done:
        found = ahead.pacing_of(call.outside, child, until, everything, done)
    if call.as_json:
        return echo_json([pacing_lines.row(one) for one in found])
    return echo([*blank_between([pacing_lines.lines(one) for one in found]), "", pacing_lines.FOOT])


@contextmanager
def bar() -> Iterator[Callable[[int, int], None]]:
    """How far long work has come, for a person at a terminal; nothing for anyone else."""
    if not sys.stderr.isatty():
        yield lambda so_far, of: None
        return
    with click.progressbar(length=0, label="Looking ahead", file=sys.stderr, show_eta=False) as shown:

        def done(so_far: int, of: int) -> None:
            shown.length = of
            shown.update(1)

        yield done
