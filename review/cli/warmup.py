"""`review warmup` and `review taught`."""

from typing import Any

import click

from review.cli.declared import WARMUP
from review.cli.options import Call, with_call, with_clock, with_options
from review.cli.sitting import Asked, sit
from review.gather import Outside
from review.render import lines
from review.render.screen import echo, echo_json
from review.replies import Taught


@click.command()
@click.argument("child", required=False)
@with_options(WARMUP)
@click.option("--jsonl", is_flag=True, help="Line by line JSON, for other front ends.")
@click.option("--explain", is_flag=True, help="For a parent: why each card is here. Asks and keeps nothing.")
@with_call(on=True, json=True)
def warmup(call: Call, explain: bool, **given: Any) -> None:
    """Today's warm-up. It goes on where it stopped.

    The child types the answer and Enter. ? helps a step further,
    pass shows the answer, stop ends with everything kept.

    Aloud, you see the answer and press 1 (from memory), 2 (worked out)
    or 3 (not yet). ? shows the next help to offer, b takes the last one
    back, s stops.

    \b
    Examples:
      review warmup
      review warmup Mira --minutes 2
      review warmup Mira --aloud
      review warmup Mira --explain
    """
    asked = Asked(**given)
    if explain:
        check_alone(asked)
        show_reasons(call, asked.child, asked.minutes)
        return
    if call.as_json:
        raise click.UsageError("--json goes with --explain. For other front ends there is --jsonl.")
    check_front(asked)
    sit(call, asked)


def check_alone(asked: Asked) -> None:
    if asked != Asked(asked.child, asked.minutes):
        raise click.UsageError(
            "--explain asks nothing: of the others it goes with --minutes, --on and --json."
        )


def check_front(asked: Asked) -> None:
    if asked.jsonl and (asked.speak or asked.aloud is not None):
        raise click.UsageError(
            "--jsonl leaves reading out to the other program: leave out --aloud and --speak."
        )


def show_reasons(call: Call, child: str | None, minutes: float | None) -> None:
    from review.app import explaining
    from review.render import explain_lines

    found = explaining.explained(call.outside, child, minutes)
    if call.as_json:
        rows = [row for told in found for row in explain_lines.rows(told)]
        echo_json(rows)
        return
    for n, told in enumerate(found):
        echo([*([""] if n else []), *explain_lines.explained(told)])


@click.command()
@click.argument("skill")
@click.argument("child", required=False)
@click.option("--timed/--untimed", default=None, help="Whether answers are asked from memory, by time.")
@click.option("--not", "back", is_flag=True, help="Not taught after all: take the word back.")
@with_call(on=True)
def taught(call: Call, skill: str, child: str | None, timed: bool | None, back: bool) -> None:
    """Say that an idea has been taught. Only then do its cards come.

    SKILL is the id of a skill, or of a set for all its skills.
    Time is recorded silently; it counts only for skills you name with --timed.

    \b
    Examples:
      review taught table-of-2 Mira
      review taught times-2-5-10 Mira --timed
      review taught table-of-5 Mira --not
    """
    if back and timed is not None:
        raise click.UsageError("--not takes the word back; leave --timed and --untimed out.")

    from review.app import parents_word  # a warm-up stands in this room too, and needs none of it

    def said(outside: Outside) -> Taught:
        if back:
            return parents_word.not_taught(outside, skill, child)
        return parents_word.mark_taught(outside, skill, child, timed)

    echo(lines.taught(with_clock(call.outside, said)))
