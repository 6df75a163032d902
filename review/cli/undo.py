"""`review undo`."""

import sys

import click

from review.app import undoing
from review.cli.options import Call, is_yes, with_call, with_clock
from review.core.amendments import What
from review.errors import Mendable
from review.render import undo_lines
from review.render.screen import echo, echo_json
from review.replies import TakenBack


@click.command()
@click.argument("child", required=False)
@click.option("--sitting", is_flag=True, help="All of the last sitting, say when it was not the child's own.")
@click.option("--slip", is_flag=True, help="It was a slip of the keys: let it count as right.")
@click.option("--card", metavar="CARD", help="The last answer to this card, like 6x7.")
@click.option("--redo", is_flag=True, help="Let what was taken back last count again.")
@click.option("--yes", is_flag=True, help="Do it without asking.")
@with_call(on=True, json=True)
def undo(
    call: Call, child: str | None, sitting: bool, slip: bool, card: str | None, redo: bool, yes: bool
) -> None:
    """Take back the last answer; once more, the one before.

    It shows what it is about and asks first. Nothing is erased: the book
    keeps the answer and that it was taken back, and memory is reckoned anew.
    --json alone tells what it is about and changes nothing.

    \b
    Examples:
      review undo Mira --yes
      review undo Mira --redo --yes
      review undo Mira --slip --yes
      review undo Mira --sitting --yes
    """
    what = chosen(sitting, slip, redo)
    if card is not None and what in ("sitting", "redo"):
        raise click.UsageError("--card names one answer: leave out --sitting and --redo.")
    looked = undoing.wanted(call.outside, child, what, card)
    if not call.as_json:
        echo(undo_lines.looked(looked, card is not None))
    agreed = yes or (not call.as_json and confirmed(looked))
    if agreed:
        with_clock(call.outside, lambda outside: undoing.take_back(outside, looked, card))
    if call.as_json:
        echo_json(undo_lines.row(looked, agreed))
    else:
        echo(undo_lines.done(looked) if agreed else ["Nothing was changed."])


def chosen(sitting: bool, slip: bool, redo: bool) -> What:
    if sitting + slip + redo > 1:
        raise click.UsageError("--sitting, --slip and --redo are three different things: say one of them.")
    return "sitting" if sitting else "slip" if slip else "redo" if redo else "answer"


def confirmed(looked: TakenBack) -> bool:
    """Asked at a terminal; elsewhere the answer stands on the command line."""
    if not sys.stdin.isatty():
        raise Mendable("Nobody could be asked: this is not a terminal. To do it, add --yes.")
    return is_yes(undo_lines.question(looked.what))
