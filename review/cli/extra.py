"""`review extra`."""

import sys

import click

from review.app import beside_sittings, sittings
from review.cli import fronts
from review.cli.options import Call, with_call, with_clock
from review.cli.sitting import who_is_here
from review.core.beside_plan import COUNT


@click.command()
@click.argument("skill")
@click.argument("child", required=False)
@click.option("--count", type=int, default=COUNT, show_default=True, help="How many problems, 1 to 20.")
@click.option("--jsonl", is_flag=True, help="Line by line JSON, for other front ends.")
@with_call(on=True)
def extra(call: Call, skill: str, child: str | None, count: int, jsonl: bool) -> None:
    """A few more of one kind, when the child or you would like some.

    SKILL is the id of a skill, or of a set for all its skills.
    It is kept in the book, and moves nothing: no card counts as known
    or as missed by it. As often as you like, also before it is taught.

    \b
    Examples:
      review extra table-of-2 Mira
      review extra addition-facts-10 Mira --count 10
    """
    front = fronts.chosen(call.plain, jsonl)
    who = who_is_here if sys.stdin.isatty() and not jsonl else sittings.nobody
    played = with_clock(
        call.outside, lambda outside: beside_sittings.extra(outside, skill, child, count, front, who)
    )
    if played.warning:
        click.echo(played.warning, err=True)
