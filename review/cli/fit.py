"""`review fit`."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager

import click

from review.app import fits
from review.cli.options import Call, with_call, with_clock
from review.core.parameter_search import Progress
from review.render import fit_lines as words
from review.render.screen import echo, echo_json, table


@click.command()
@click.argument("child", required=False)
@click.option("--default", "default", is_flag=True, help="Go back to the published figures.")
@with_call(on=True, json=True)
def fit(call: Call, child: str | None, default: bool) -> None:
    """Fit memory to a child, from the child's own answers.

    The plan promises a chance for every card. This compares what was
    promised with what came, and changes how memory fades and grows for
    this child only if that does better on days it was not fitted to.

    \b
    Examples:
      review fit Mira
      review fit Mira --default
    """
    if default:
        show_reset(call, child)
        return
    with progress_shown(call) as progress:
        found = with_clock(call.outside, lambda outside: fits.fit(outside, child, progress))
    if call.as_json:
        echo_json(words.row(found))
        return
    echo(words.summary(found))
    if found.found.before:
        table(words.HEADS, words.cells(found), words.sentences(found), call.plain)


def show_reset(call: Call, child: str | None) -> None:
    done = with_clock(call.outside, lambda outside: fits.reset(outside, child))
    if call.as_json:
        echo_json(words.reset_row(done))
    else:
        echo([words.reset(done)])


@contextmanager
def progress_shown(call: Call) -> Iterator[Progress]:
    """How far it is, on a person's terminal and nowhere else; wiped when done."""
    if call.plain or not sys.stderr.isatty():
        yield lambda done, of: None
        return

    def show(done: int, of: int) -> None:
        if done % 8 == 0:
            click.echo(f"\rLooking at the answers: {100 * done // of}%", nl=False, err=True)

    try:
        yield show
    finally:
        click.echo("\r" + " " * 32 + "\r", nl=False, err=True)
