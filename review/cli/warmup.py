"""`review warmup` and `review taught`."""

import sys
from collections.abc import Sequence

import click

from review import app, gather, sittings
from review.cli import fronts
from review.cli.options import ALOUD, SPEAK, Call, prompted, with_call, with_clock
from review.core.model import Child
from review.core.text import clean
from review.errors import UnknownName
from review.gather import Outside
from review.render import lines
from review.render.screen import echo, echo_json, warn
from review.replies import Played, Taught


@click.command()
@click.argument("child", required=False)
@click.option("--minutes", type=float, help="Another length than the child's own.")
@click.option("--untimed", is_flag=True, help="Today only right and not yet count.")
@click.option("--gentle", is_flag=True, help="For a hard day: sure cards, 2 minutes; no miss counts.")
@click.option("--try", "trial", is_flag=True, help="A trial: nothing is kept.")
@ALOUD
@SPEAK
@click.option("--jsonl", is_flag=True, help="Line by line JSON, for other front ends.")
@click.option("--explain", is_flag=True, help="For a parent: why each card is here. Asks and keeps nothing.")
@with_call(on=True, json=True)
def warmup(
    call: Call,
    child: str | None,
    minutes: float | None,
    untimed: bool,
    gentle: bool,
    trial: bool,
    aloud: bool | None,
    speak: bool,
    jsonl: bool,
    explain: bool,
) -> None:
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
    if explain:
        check_alone(untimed or gentle or trial or jsonl or speak or aloud is not None)
        show_reasons(call, child, minutes)
        return
    if call.as_json:
        raise click.UsageError("--json goes with --explain. For other front ends there is --jsonl.")
    check_front(jsonl, aloud, speak)
    front = fronts.chosen(call.plain, jsonl, aloud, speak)
    person = sys.stdin.isatty() and not jsonl
    who = who_is_here if person else sittings.nobody

    def sit(outside: Outside) -> Played:
        if gentle:
            from review import besides

            return besides.gentle(outside, child, minutes, not trial, front, who)
        return sittings.warmup(outside, child, minutes, untimed, not trial, front, who)

    played = with_clock(call.outside, sit)
    if played.warning:
        warn(played.warning)


def check_alone(others: bool) -> None:
    if others:
        raise click.UsageError(
            "--explain asks nothing: of the others it goes with --minutes, --on and --json."
        )


def check_front(jsonl: bool, aloud: bool | None, speak: bool) -> None:
    if jsonl and (speak or aloud is not None):
        raise click.UsageError(
            "--jsonl leaves reading out to the other program: leave out --aloud and --speak."
        )


def show_reasons(call: Call, child: str | None, minutes: float | None) -> None:
    from review import explaining
    from review.render import explain_lines

    found = explaining.explained(call.outside, child, minutes)
    if call.as_json:
        rows = [row for told in found for row in explain_lines.rows(told)]
        echo_json(rows)
        return
    for n, told in enumerate(found):
        echo([*([""] if n else []), *explain_lines.explained(told)])


def who_is_here(family: Sequence[Child]) -> str | None:
    """Ask at the terminal; a number or the beginning of a name."""
    echo(["Who is here?", *(f"  {n}  {clean(child.name)}" for n, child in enumerate(family, 1))])
    while True:
        typed = prompted("Number or name", None)
        if typed.isdecimal() and len(typed) < 4 and 1 <= int(typed) <= len(family):
            return family[int(typed) - 1].name
        try:
            return gather.child_named(family, typed).name
        except UnknownName as unknown:  # a child mistypes: nobody need begin anew
            echo([str(unknown)])


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

    def said(outside: Outside) -> Taught:
        if not back:
            return app.mark_taught(outside, skill, child, timed)
        from review import parent  # seldom: only a slip pays for the import

        return parent.not_taught(outside, skill, child)

    echo(lines.taught(with_clock(call.outside, said)))
