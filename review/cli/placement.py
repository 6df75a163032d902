"""`review placement`."""

import sys
from collections.abc import Callable, Mapping, Sequence
from functools import partial

import click

from review.app import copies as exercise
from review.app import placed, placing
from review.app.placed import Result
from review.app.placing import Said
from review.cli import fronts
from review.cli.declared import ALOUD, SPEAK
from review.cli.options import (
    WAY_BACK,
    Call,
    in_turn,
    is_yes,
    option,
    prompted,
    stopping,
    unless_back,
    with_call,
    with_clock,
)
from review.core import family
from review.core.model import Child, Pupil, Skill, SkillSet
from review.core.placement_result import Found, Ticks, rest_likely, seems_taught
from review.render import placement as words
from review.render.screen import echo, echo_json, fitted, warn

Ticked = Mapping[str, str]  # by the id of a skill: known, untaught, ask
ANSWERS = {"": "ask", "a": "ask", "ask": "ask", "s": "known", "n": "untaught"}


@click.command()
@click.argument("name", metavar="SET")
@click.argument("child", required=False)
@click.option("--known", multiple=True, metavar="SKILL", help="Surely known; with --show also one card.")
@click.option("--untaught", multiple=True, metavar="SKILL", help="Not taught yet: nothing of it is asked.")
@click.option("--show", is_flag=True, help="For a parent: what it found. Nothing is asked of the child.")
@click.option("--not", "unknown", multiple=True, metavar="CARD", help="With --show: not known after all.")
@click.option("--rest", multiple=True, metavar="SKILL", help="With --show: what was not asked is known too.")
@click.option(
    "--copying/--no-copying",
    default=None,
    help="From 8 on: first copy numbers for a minute, to learn the child's own time to type.",
)
@option(ALOUD)
@option(SPEAK)
@click.option("--jsonl", is_flag=True, help="Line by line JSON, for other front ends.")
@with_call(on=True, json=True)
def placement(
    call: Call,
    name: str,
    child: str | None,
    known: tuple[str, ...],
    untaught: tuple[str, ...],
    show: bool,
    unknown: tuple[str, ...],
    rest: tuple[str, ...],
    copying: bool | None,
    aloud: bool | None,
    speak: bool,
    jsonl: bool,
) -> None:
    """Find out what a child knows of a set already, in a few minutes.

    First you say what is surely known and what was not taught yet.
    The child is asked some of the rest; two that are not known running
    end it for the day. Then --show tells you what it found.

    \b
    Examples:
      review placement times-2-5-10 Mira
      review placement times-2-5-10 Mira --known table-of-10
      review placement times-2-5-10 Mira --show
      review placement times-2-5-10 Mira --show --not 2x7
    """
    if show or unknown or rest or call.as_json:
        if untaught or jsonl or copying is not None:
            raise click.UsageError("--untaught, --copying and --jsonl begin a placement, without --show.")
        look(call, name, child, (known, unknown, rest))
    else:
        if jsonl and (speak or aloud is not None):
            raise click.UsageError("--jsonl leaves reading out to the other program.")
        front = fronts.chosen(call.plain, jsonl, aloud, speak)
        sit(call, name, child, (known, untaught), copying, front, jsonl, aloud)


# --- the child's part -----------------------------------------------------------------------------------


def sit(
    call: Call,
    name: str,
    child: str | None,
    ticked: tuple[Sequence[str], Sequence[str]],
    copying: bool | None,
    front: fronts.Front,
    jsonl: bool,
    aloud: bool | None,
) -> None:
    known, untaught = ticked
    person = sys.stdin.isatty() and not jsonl
    told = bool(known or untaught)

    def asks(found: SkillSet, pupil: Pupil) -> Ticks:
        if person and not told:
            return asked_ticks(found, pupil, aloud)
        return placing.ticks_named(found, known, untaught)

    def copies(pupil: Pupil) -> bool:
        return wants_copying(pupil, copying, person)

    played = with_clock(
        call.outside,
        lambda outside: placing.place(outside, name, child, asks, front, again=told, copies=copies),
    )
    if played.warning:
        warn(played.warning)
    if isinstance(played, Said):
        told_all(played, jsonl)
    elif person:
        hand_back(call, name, child)


def told_all(said: Said, jsonl: bool) -> None:
    """No child has sat down, so this is for the parent."""
    if jsonl:
        echo_json(words.said_row(said), indent=None)
    else:
        echo(words.said(said))


def wants_copying(pupil: Pupil, said: bool | None, person: bool) -> bool:
    """As the options say; else a parent is asked once, where the child's own time is not known yet."""
    if said:
        exercise.check_age(pupil)
    if said is not None or not person or not exercise.is_wanted(pupil):
        return bool(said)
    echo(words.copying(pupil.child))
    return is_yes("A minute of copying first?", default=True)


def asked_ticks(found: SkillSet, pupil: Pupil, aloud: bool | None) -> Ticks:
    """One line a skill; Enter asks the child. Before the child's part begins, the last can be changed too."""
    reads_out = family.is_aloud(pupil.child, pupil.settings.age) if aloud is None else aloud
    echo([*words.tick_head(found, pupil.child), WAY_BACK])
    nothing: Ticked = {}
    said = in_turn(nothing, [*map(tick, found.skills), partial(hand_over, pupil.child, reads_out)])
    return Ticks(
        tuple(skill for skill, answer in said.items() if answer == "known"),
        tuple(skill for skill, answer in said.items() if answer == "untaught"),
    )


def tick(skill: Skill) -> Callable[[Ticked], Ticked]:
    return lambda said: {**said, skill.id: one_of(f"  {skill.title}")}


def one_of(question: str) -> str:
    while True:
        typed = unless_back(prompted(fitted(question))).strip().casefold()
        if typed in ANSWERS:
            return ANSWERS[typed]
        echo([words.TICK_CHOICES, WAY_BACK])


def hand_over(child: Child, reads_out: bool, said: Ticked) -> Ticked:
    """A moment for the child to sit down: on the next page the first problem waits already."""
    if "ask" in said.values():
        echo(words.handed_over(child, reads_out))
        unless_back(prompted(words.is_here(child)))
    else:
        unless_back(prompted(words.AS_IT_IS))
    return said


def hand_back(call: Call, name: str, child: str | None) -> None:
    """The child still sits there: what was found shows only to one who types the word."""
    found = placed.shown(call.outside, name, child)
    echo(["", words.GATE])
    with stopping("Stopped. Every answer is kept."):
        typed = prompted("", suffix="> ")
    if typed.strip().casefold() == "show":
        told(call, name, child, found)
    else:
        echo(words.after(found.child, found.found))


# --- the parent's part ----------------------------------------------------------------------------------

Words = tuple[Sequence[str], Sequence[str], Sequence[str]]  # known, not known, the rest of


def look(call: Call, name: str, child: str | None, said: Words) -> None:
    found = changed(call, name, child, *said) if any(said) else placed.shown(call.outside, name, child)
    if call.as_json:
        echo_json(words.row(found))
    else:
        told(call, name, child, found)


def changed(
    call: Call,
    name: str,
    child: str | None,
    known: Sequence[str] = (),
    unknown: Sequence[str] = (),
    rest: Sequence[str] = (),
    taught: Sequence[str] = (),
) -> Result:
    return with_clock(
        call.outside, lambda outside: placed.put_right(outside, name, child, known, unknown, rest, taught)
    )


def told(call: Call, name: str, child: str | None, found: Result) -> None:
    """The result; at a terminal, what it suggests is asked at once."""
    asks = sys.stdin.isatty() and found.begun
    echo(words.shown(found, asks))
    if not asks:
        return
    said = family.words_of(found.child)
    with stopping("Stopped. What it found is kept; what you said to it just now is not."):
        rest = agreed(found.skills, rest_likely, lambda one: words.ask_rest(one, said))
        taught = agreed(found.skills, seems_taught, words.ask_taught)
    if rest or taught:
        changed(call, name, child, rest=rest, taught=taught)
        echo(["It is in the book."])


def agreed(
    found: Sequence[Found], wanted: Callable[[Found], bool], question: Callable[[Found], str]
) -> list[str]:
    """Skills to which the parent says yes; Enter is no."""
    return [one.skill.id for one in found if wanted(one) and confirmed(question(one))]


def confirmed(question: str) -> bool:
    echo([question])
    return is_yes("Yes or no")
