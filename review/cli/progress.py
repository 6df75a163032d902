"""`review progress`: how a child comes along."""

import click

from review import desk
from review.cli.options import Call, Day, echo_json, with_call
from review.render import desk_lines, progress_lines
from review.render.screen import echo

SINCE = click.option("--since", type=Day(), metavar="DATE", help="From this day on, like 2026-09-01.")
UNTIL = click.option("--until", type=Day(), metavar="DATE", help="Up to this day; today if left out.")


@click.command()
@click.argument("child", required=False)
@SINCE
@UNTIL
@with_call(on=True, json=True)
def progress(call: Call, child: str | None, since: int | None, until: int | None) -> None:
    """How a child comes along, skill by skill, over twelve weeks or the days you name.

    \b
    Examples:
      review progress
      review progress Mira --since 2026-01-05
    """
    found = desk.progress_of(call.outside, child, since, until)
    if call.as_json:
        return echo_json([progress_lines.progress_row(one) for one in found])
    parts = [progress_lines.progress(one) for one in found]
    return echo([*desk_lines.blank_between(parts), *progress_lines.foot()])
