"""`review more`: the commands that the short help leaves out."""

import click

from review.cli.group import COMMANDS, FIRST
from review.cli.options import Call, with_call
from review.render.screen import echo, width


@click.command()
@with_call()
def more(call: Call) -> None:
    """The commands that `review --help` leaves out.

    \b
    Example:
      review more
    """
    formatter = click.HelpFormatter(width=width())
    others = [name for name in COMMANDS if name not in (*FIRST, "more")]
    with formatter.section("More commands"):
        formatter.write_dl([(name, COMMANDS[name].short) for name in others])
    click.echo(formatter.getvalue().rstrip())
    echo(["What one does, with examples: review COMMAND --help"])
