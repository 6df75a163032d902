"""`review teach`, `review brief`: what to teach next, and the last weeks in short."""

import click

from review.app import desk
from review.cli.options import Call, Whole, with_call
from review.core.brief import MOST_WEEKS, WEEKS
from review.render.screen import echo, echo_json


@click.command()
@click.argument("child", required=False)
@click.option("--all", "everything", is_flag=True, help="Every skill, not only the first few.")
@with_call(on=True, json=True)
def teach(call: Call, child: str | None, everything: bool) -> None:
    """What to teach next, and why: what did not stick, and what is ready.

    Ready is what stands on skills that are known well enough. When it has been
    taught, say so, and its cards come: review taught SKILL

    \b
    Examples:
      review teach
      review teach Mira --all
      review teach --json
    """
    from review.render import week_lines  # each of the two pays for its own lines

    found = desk.teach(call.outside, child)
    if call.as_json:
        echo_json([week_lines.lesson_row(each.child.name, one) for each in found for one in each.found])
        return
    for n, each in enumerate(found):
        echo([*([""] if n else []), *week_lines.lessons(each, everything)])
    echo(week_lines.lessons_foot())


@click.command()
@click.argument("child", required=False)
@click.option("--no-name", is_flag=True, help="“The child” in place of the name.")
@click.option(
    "--weeks",
    type=Whole(1, MOST_WEEKS),
    default=WEEKS,
    metavar="NUMBER",
    help=f"How many, 1 to {MOST_WEEKS}; {WEEKS} if left out.",
)
@with_call(on=True, json=True)
def brief(call: Call, child: str | None, no_name: bool, weeks: int) -> None:
    """Twelve lines on four weeks, for a call with somebody who advises you.

    Growing: met, and asked again within two weeks. Holding: known on three
    days, and trusted for two weeks or more.

    \b
    Examples:
      review brief Mira
      review brief Mira --no-name
      review brief Mira --weeks 1
    """
    from review.render import brief_lines

    found = desk.briefs(call.outside, child, weeks)
    if call.as_json:
        echo_json([brief_lines.row(each, no_name) for each in found])
        return
    for n, each in enumerate(found):
        echo([*([""] if n else []), *brief_lines.brief(each, no_name)])
