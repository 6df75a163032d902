"""`review overdue`, `review stuck`, `review verify`: what a parent looks at."""

from collections.abc import Sequence

import click

from review.app import desk
from review.cli.options import Call, with_call
from review.core import reports
from review.errors import BookDamaged
from review.render import desk_lines, lines
from review.render.phrases import CAUTION, blank_between
from review.render.screen import echo, echo_json, table
from review.replies import Overdue


@click.command()
@click.argument("child", required=False)
@click.option("--all", "everything", is_flag=True, help="Every card that has faded, by skill.")
@click.option("--square", "square", is_flag=True, help="Facts as an addition or multiplication square.")
@with_call(on=True, json=True)
def overdue(call: Call, child: str | None, everything: bool, square: bool) -> None:
    """What has faded, and what to do about it this week.

    Faded is what is past its planned day and not sure any more; overdue, what
    has been so for more than 2 days, or a quarter of its gap if that is more.
    What is only due needs nothing from you: the warm-up asks it.

    \b
    Examples:
      review overdue
      review overdue Mira --all
      review overdue Mira --square
      review overdue --json
    """
    if square and everything:
        raise click.UsageError("--square and --all are two ways to look: choose one.")
    if square:
        return show_squares(call, child)
    found = desk.overdue(call.outside, child)
    if call.as_json:
        rows = [row for report in found for row in (*report.overdue, *(report.fading if everything else ()))]
        echo_json([desk_lines.faded_row(row) for row in rows])
    else:
        show_overdue(found, everything, call.plain)
    return None


def show_overdue(found: Sequence[Overdue], everything: bool, plain: bool) -> None:
    for n, report in enumerate(found):
        echo([*([""] if n else []), *desk_lines.decision(report)])
        if everything:
            show_faded(report, plain)
    echo(["", *desk_lines.overdue_foot(found, everything)])


def show_faded(report: Overdue, plain: bool) -> None:
    """One table, or the same in sentences: the cards under the skill they belong to."""
    groups = reports.by_skill([*report.overdue, *report.fading])
    heads = {skill: desk_lines.skill_head(report.skills[skill]) for skill in groups}
    cells = [
        row
        for skill, faded in groups.items()
        for row in (
            (desk_lines.skill_title(report.skills[skill]), "", "", ""),
            *(desk_lines.faded_cells(one) for one in faded),
        )
    ]
    sentences = [
        line
        for skill, faded in groups.items()
        for line in ("", heads[skill], *(desk_lines.faded_sentence(one) for one in faded))
    ]
    if cells:
        table(desk_lines.FADED_HEADS, cells, sentences, plain)
    elif lines.is_ready(report.child, report.skills):
        echo(["  No card has faded."])


def show_squares(call: Call, child: str | None) -> None:
    found = desk.squares_of(call.outside, child)
    if call.as_json:
        rows = (desk_lines.square_rows(one.child.name, square) for one in found for square in one.squares)
        return echo_json([row for some in rows for row in some])
    told = [desk_lines.squares_of(one, call.plain) for one in found]
    legend = desk_lines.legend() if any(one.squares for one in found) and not call.plain else []
    return echo(blank_between([*told, *([legend] if legend else [])]))


@click.command()
@click.argument("child", required=False)
@with_call(on=True, json=True)
def stuck(call: Call, child: str | None) -> None:
    """What did not stick, and the earlier skill to go back to.

    It was missed on three days and often, or set aside after too many misses:
    teach it again, with objects.

    \b
    Examples:
      review stuck
      review stuck Mira --json
    """
    found = desk.stuck_of(call.outside, child)
    if call.as_json:
        return echo_json(
            [desk_lines.stuck_row(one.child.name, skill) for one in found for skill in one.stuck]
        )
    parts = [desk_lines.stuck(one) for one in found]
    return echo([*blank_between(parts), "", CAUTION])


@click.command()
@with_call(json=True)
def verify(call: Call) -> None:
    """Prove that the book is sound and memory rebuilds to the same bits.

    For when the computer has failed, or a copy was carried over. It changes
    nothing; where something is amiss it says what, and how to go back to a copy.

    \b
    Example:
      review verify
    """
    found = desk.verify(call.outside)
    if call.as_json:
        echo_json(lines.proof_row(found))
    if found.problems:
        back = "Its copies, and how to go back: review restore"
        raise BookDamaged("\n".join([f"{found.path} is not sound:", *found.problems, back]))
    if not call.as_json:
        echo(lines.proof(found))
