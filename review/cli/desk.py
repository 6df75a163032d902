"""`review overdue`, `review verify`, `review demo`: what a parent looks at."""

from collections.abc import Sequence
from pathlib import Path

import click

from review import app, gather
from review.cli.options import Call, with_call
from review.core import reports
from review.errors import BookDamaged
from review.render import lines
from review.render.screen import echo, echo_json, table
from review.replies import Overdue


@click.command()
@click.argument("child", required=False)
@click.option("--all", "everything", is_flag=True, help="Every card that has faded, by skill.")
@with_call(on=True, json=True)
def overdue(call: Call, child: str | None, everything: bool) -> None:
    """What has faded, and what to do about it this week.

    \b
    Examples:
      review overdue
      review overdue Mira --all
      review overdue --json
    """
    found = app.overdue(call.outside, child)
    if call.as_json:
        rows = [row for report in found for row in (*report.overdue, *(report.fading if everything else ()))]
        echo_json([lines.faded_row(row) for row in rows])
    else:
        show_overdue(found, everything, call.plain)


def show_overdue(found: Sequence[Overdue], everything: bool, plain: bool) -> None:
    for n, report in enumerate(found):
        echo([*([""] if n else []), *lines.decision(report)])
        if everything:
            show_faded(report, plain)
    echo(["", *lines.overdue_foot(found, everything)])


def show_faded(report: Overdue, plain: bool) -> None:
    """One table, or the same in sentences: the cards under the skill they belong to."""
    groups = reports.by_skill([*report.overdue, *report.fading])
    heads = {skill: lines.skill_head(report.skills[skill]) for skill in groups}
    cells = [
        row
        for skill, faded in groups.items()
        for row in ((heads[skill], "", "", ""), *(lines.faded_cells(one, report.day) for one in faded))
    ]
    sentences = [
        line
        for skill, faded in groups.items()
        for line in ("", heads[skill], *(lines.faded_sentence(one, report.day) for one in faded))
    ]
    if cells:
        table(lines.FADED_HEADS, cells, sentences, plain)


@click.command()
@with_call(json=True)
def verify(call: Call) -> None:
    """Prove that the book is sound and memory rebuilds to the same bits.

    \b
    Example:
      review verify
    """
    found = app.verify(call.outside)
    if call.as_json:
        echo_json(lines.proof_row(found))
    if found.problems:
        raise BookDamaged("\n".join([f"{found.path} is not sound:", *found.problems]))
    if not call.as_json:
        echo(lines.proof(found))


@click.command()
@click.option("--folder", type=click.Path(path_type=Path), help="Where its book goes, else a new folder.")
@with_call(on=True)
def demo(call: Call, folder: Path | None) -> None:
    """An invented family plays 90 days in seconds, then you see a parent's screens.

    \b
    Example:
      review demo
    """
    from review import demo as season

    place = folder or season.new_folder()
    path = season.play(place, gather.today(call.outside, season.ANYONE))
    echo(lines.demo_intro(path))
    there = call.outside._replace(book=path, state=place / "state")
    echo(["", "$ review", *lines.front_door(app.front_door(there))])
    echo(["", "$ review overdue"])
    show_overdue(app.overdue(there, None), False, call.plain)
    echo(["", f"$ review overdue {season.FAMILY[-1].name} --all"])
    show_overdue(app.overdue(there, season.FAMILY[-1].name), True, call.plain)
    echo(lines.demo_end(path, season.FAMILY[0].name))
