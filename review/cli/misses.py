"""`review misses`: why a child misses."""

import click

from review.app import missing
from review.cli.options import Call, with_call
from review.render import miss_lines
from review.render.screen import echo, echo_json


@click.command()
@click.argument("child", required=False)
@with_call(on=True, json=True)
def misses(call: Call, child: str | None) -> None:
    """Why a child misses: ways of thinking that explain the answers.

    One is named only on evidence: at least two problems, two days, and
    most of the last misses. Each comes with an idea for the table.

    \b
    Examples:
      review misses
      review misses Mira --json
    """
    found = missing.of_family(call.outside, child, None if call.as_json else miss_lines.SOME)
    if call.as_json:
        echo_json([miss_lines.row(one) for one in found])
    else:
        echo(miss_lines.report(found))
