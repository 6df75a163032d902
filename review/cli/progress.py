"""`review progress`: how a child comes along."""

from pathlib import Path

import click

from review.app import spans
from review.cli.options import SINCE, UNTIL, Call, with_call
from review.cli.out import FORCE, write_out
from review.render import progress_lines
from review.render.phrases import blank_between
from review.render.screen import echo, echo_json


@click.command()
@click.argument("child", required=False)
@SINCE
@UNTIL
@click.option("--html", "page", type=click.Path(path_type=Path), metavar="FILE", help="As a page, to print.")
@FORCE
@with_call(on=True, json=True)
def progress(
    call: Call, child: str | None, since: int | None, until: int | None, page: Path | None, force: bool
) -> None:
    """How a child comes along, skill by skill: four weeks (a page: twelve), or the days you name.

    Holding: known on three days, and trusted for two weeks or more. Fluent:
    holding, and usually from memory.

    \b
    Examples:
      review progress
      review progress Mira --since 2026-01-05
      review progress Mira --html mira.html --force
    """
    if call.as_json and page is not None:
        raise click.UsageError("--json and --html are two ways to look: choose one.")
    found = spans.progress_of(call.outside, child, since, until, by_week=page is not None)
    if page is not None:
        from review.render.progress_page import progress_page  # only a page pays for the import

        return write_out(page, progress_page(found).encode(), force)
    if call.as_json:
        return echo_json([progress_lines.progress_row(one) for one in found])
    parts = [progress_lines.progress(one) for one in found]
    return echo([*blank_between(parts), *progress_lines.foot(found)])
