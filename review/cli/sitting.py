"""What `review warmup` does once its line has been read: without click, since a child waits for it."""

import sys
from collections.abc import Sequence
from typing import NamedTuple

from review import gather
from review.app import sittings
from review.app.sittings import Played
from review.cli import fronts
from review.cli.calls import Call, with_clock
from review.core.model import Child
from review.core.text import clean
from review.errors import UnknownName
from review.gather import Outside
from review.render.screen import echo, warn


class Asked(NamedTuple):
    """How a warm-up is asked for; the fields are those of `declared.WARMUP`, and what else the line holds."""

    child: str | None = None
    minutes: float | None = None
    untimed: bool = False
    gentle: bool = False
    trial: bool = False
    aloud: bool | None = None
    speak: bool = False
    jsonl: bool = False


def sit(call: Call, asked: Asked) -> None:
    front = fronts.chosen(call.plain, asked.jsonl, asked.aloud, asked.speak)
    person = sys.stdin.isatty() and not asked.jsonl
    who = who_is_here if person else sittings.nobody
    child, minutes, keep = asked.child, asked.minutes, not asked.trial

    def played(outside: Outside) -> Played:
        if asked.gentle:
            from review.app import beside_sittings

            return beside_sittings.gentle(outside, child, minutes, keep, front, who)
        return sittings.warmup(outside, child, minutes, asked.untimed, keep, front, who)

    done = with_clock(call.outside, played)
    if done.warning:
        warn(done.warning)


def who_is_here(family: Sequence[Child]) -> str | None:
    """Ask at the terminal; a number or the beginning of a name."""
    from review.cli.options import prompted  # nobody waits for it who says the name

    echo(["Who is here?", *(f"  {n}  {clean(child.name)}" for n, child in enumerate(family, 1))])
    while True:
        typed = prompted("Number or name", None)
        if typed.isdecimal() and len(typed) < 4 and 1 <= int(typed) <= len(family):
            return family[int(typed) - 1].name
        try:
            return gather.child_named(family, typed).name
        except UnknownName as unknown:  # a child mistypes: nobody need begin anew
            echo([str(unknown)])
