"""`review known`, `focus`, `away`: what a parent says."""

from collections.abc import Sequence

import click

from review.app import parents_word, week
from review.cli.options import Call, Day, with_call, with_clock
from review.gather import Outside
from review.render import week_lines
from review.render.screen import echo, echo_json
from review.replies import Known

# --- known ----------------------------------------------------------------------------------------------


@click.command()
@click.argument("names", metavar="[SKILL] [CHILD]", nargs=-1)
@click.option(
    "--card", "cards", multiple=True, metavar="CARD", help='One card, like "7 x 2". May be repeated.'
)
@click.option("--not", "unknown", is_flag=True, help="Not known after all: take the word back.")
@with_call(on=True, json=True)
def known(call: Call, names: tuple[str, ...], cards: tuple[str, ...], unknown: bool) -> None:
    """Say that a skill, or one card, is known already.

    Its cards start with a long gap and are asked now and then. A skill
    that is known counts as taught; what was answered stays as it is.
    A card is written as it is asked, or by its title, in quotes.

    \b
    Examples:
      review known table-of-10 Mira
      review known --card "7 x 2" --card "4 + 3" Mira
      review known --card "7 x 2" --not Mira
      review known table-of-10 --not Mira
    """
    skill, child = skill_and_child(names, bool(cards))

    def said(outside: Outside) -> Known:
        if skill is not None:
            about = parents_word.not_known_skill if unknown else parents_word.known_skill
            return about(outside, skill, child)
        act = parents_word.not_known if unknown else parents_word.known_cards
        return act(outside, cards, child)

    done = with_clock(call.outside, said)
    if call.as_json:
        echo_json(week_lines.known_row(done))
    else:
        echo(week_lines.known(done))


def skill_and_child(names: Sequence[str], by_card: bool) -> tuple[str | None, str | None]:
    """CHILD is the last name; with a card there is no skill before it."""
    if by_card and len(names) <= 1:
        return None, next(iter(names), None)
    if not by_card and 1 <= len(names) <= 2:
        return names[0], names[1] if len(names) == 2 else None
    quoted = ' A card of several words goes in quotes: --card "7 x 2".' if by_card else ""
    raise click.UsageError(f"Write a skill, or --card and a card; then the child.{quoted}")


# --- this week's focus ----------------------------------------------------------------------------------


@click.command()
@click.argument("names", metavar="[SKILL] [CHILD]", nargs=-1)
@click.option("--off", is_flag=True, help="No longer.")
@with_call(on=True, json=True)
def focus(call: Call, names: tuple[str, ...], off: bool) -> None:
    """Let one skill come first until Sunday, with what it stands on.

    A third of each sitting is for it. Without a skill: what comes first now.
    On a Sunday it is for the week that comes.

    \b
    Examples:
      review focus table-of-2 Mira
      review focus Mira
      review focus
    """
    if off:
        done = with_clock(call.outside, lambda outside: week.focus_off(outside, only_child(names)))
        tell_focus(call, [week_lines.focus_row(done)], week_lines.focus_off(done))
    elif names and not (len(names) == 1 and week.names_a_child(call.outside, names[0])):
        skill, child = skill_and_child(names, by_card=False)
        done = with_clock(call.outside, lambda outside: week.focus_on(outside, skill or "", child))
        tell_focus(call, [week_lines.focus_row(done)], week_lines.focus(done))
    else:
        found = week.focuses(call.outside, next(iter(names), None))
        lines = [line for each in found for line in week_lines.focus(each)]
        tell_focus(call, [week_lines.focus_row(each) for each in found], lines)


def only_child(names: Sequence[str]) -> str | None:
    """With --off the last name is the child; a skill before it says nothing new."""
    if len(names) > 2:
        raise click.UsageError("Write --off and the child.")
    return names[-1] if names else None


def tell_focus(call: Call, rows: Sequence[object], lines: Sequence[str]) -> None:
    if call.as_json:
        echo_json(rows)
    else:
        echo(lines)


# --- days off -------------------------------------------------------------------------------------------


@click.command()
@click.argument("child", required=False)
@click.option("--from", "first", type=Day(), metavar="DATE", help="The first day off, like 2026-12-24.")
@click.option("--to", "last", type=Day(), metavar="DATE", help="The last day off.")
@click.option("--back", is_flag=True, help="Not away after all: take back what is coming.")
@with_call(on=True, json=True)
def away(call: Call, child: str | None, first: int | None, last: int | None, back: bool) -> None:
    """Say which days a child is away. Without dates: what is said so far.

    \b
    Examples:
      review away --from 2026-01-10 --to 2026-01-18 Mira
      review away
      review away --back Mira
    """
    if back and (first or last):
        raise click.UsageError("--back takes all of it back: leave out --from and --to.")
    if bool(first) != bool(last):
        raise click.UsageError("Write both --from and --to; for one day off, the same date twice.")
    if back:
        found = [with_clock(call.outside, lambda outside: week.not_away(outside, child))]
    elif first and last:
        span = first, last
        found = [with_clock(call.outside, lambda outside: week.away(outside, *span, child))]
    else:
        found = week.days_away(call.outside, child)
    if call.as_json:
        echo_json([week_lines.away_row(each) for each in found])
    else:
        echo(line for each in found for line in week_lines.away(each))
