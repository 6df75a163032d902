"""A child's own sheet on paper, as the log keeps it: its number, and what it asks in each sitting.

Glossary
--------
sheet         problems on paper, with a number; a child's own sheet is an event, so that it can be printed
              again and its marks can be entered
sort          of a child's own sheet: today's warm-up, the week's five, or practice of one skill
part          one sitting of a sheet; a sheet of the week has five
task          one problem of a part: a card with what it asks
entered       the marks of a part have been taken: an event, so that a day on paper is a practice day
"""

from collections.abc import Collection, Iterable, Mapping
from random import Random
from typing import Any, Literal, NamedTuple

from review.core.amendments import amended
from review.core.model import Aim, Event, Role

Sort = Literal["today", "week", "practice"]
WARMUPS: tuple[Sort, ...] = ("today", "week")  # sorts whose marks can be entered

FIRST, LAST = 1000, 9999
"""Numbers of sheets have four digits, drawn at random, so that two computers of a family hardly ever give the
same one (our judgement); a number is also the seed of what is drawn by it."""
MANY = 4000  # sheets in a book, from which on a digit more is used


class Task(NamedTuple):
    card: str
    asked: str
    role: Role = "ask"
    aim: Aim = "accuracy"


class Part(NamedTuple):
    day: int  # it was planned for
    tasks: tuple[Task, ...]


class Made(NamedTuple):
    """A child's own sheet."""

    number: int
    sort: Sort
    child: str  # the key
    day: int  # it was made on
    parts: tuple[Part, ...]
    title: str = ""  # of what is practised
    timed: tuple[str, ...] = ()  # keys of cards whose time counts: "worked out" is then not from memory
    slow_ms: int = 0  # as in a plan: net time over which an answer is slow for this child


def new_number(random: Random, taken: Collection[int]) -> int:
    """A number no sheet of the book has."""
    low, high = (FIRST, LAST) if len(taken) < MANY else (10 * FIRST, 10 * LAST)
    number = random.randint(low, high)
    return number if number not in taken else new_number(random, taken)


# --- as an event --------------------------------------------------------------------------------------


def made_body(made: Made) -> dict[str, object]:
    return {
        "sheet": made.number,
        "sort": made.sort,
        "title": made.title,
        "parts": [[part.day, [list(task) for task in part.tasks]] for part in made.parts],
        "timed": list(made.timed),
        "slow_ms": made.slow_ms,
    }


def made_of(event: Event) -> Made:
    body: Mapping[str, Any] = event.body
    parts = tuple(Part(day, tuple(Task(*task) for task in tasks)) for day, tasks in body["parts"])
    return Made(
        body["sheet"],
        body["sort"],
        event.child,
        event.day,
        parts,
        body.get("title", ""),
        tuple(body.get("timed", ())),
        body.get("slow_ms", 0),
    )


def entered_body(number: int, part: int) -> dict[str, object]:
    """That part `part`, counted from 1, of a sheet has been entered."""
    return {"sheet": number, "part": part}


def is_made(event: Event) -> bool:
    return event.kind == "sitting" and "parts" in event.body


def is_entered(event: Event) -> bool:
    return event.kind == "sitting" and "part" in event.body


def is_on_screen(event: Event) -> bool:
    """Whether it is the plan of a warm-up at the computer, and not of a sheet."""
    return event.kind == "sitting" and "sheet" not in event.body


def was_practised(event: Event) -> bool:
    """Whether a `sitting` event says that its day was one of practice. To print a sheet is none."""
    return event.kind == "sitting" and not is_made(event)


def part_of(event: Event) -> tuple[object, object]:
    """The sheet and the part of it that marks are of, (None, None) where they are not of paper."""
    return event.body.get("sheet"), event.body.get("part")


# --- a sheet in the log -------------------------------------------------------------------------------


def all_made(events: Iterable[Event]) -> list[Made]:
    """Every sheet that was made, in the order of the log."""
    return [made_of(event) for event in events if is_made(event)]


def standing(events: Iterable[Event], number: int, part: int) -> list[Event]:
    """What was entered for a part of a sheet and not taken back: answers, and the event that says so."""
    return [event for event in amended(events) if part_of(event) == (number, part)]


def entered_parts(events: Iterable[Event], number: int) -> dict[int, int]:
    """Which parts of a sheet have been entered, and on which day each was done."""
    return {
        int(str(event.body["part"])): event.day
        for event in amended(events)
        if is_entered(event) and event.body.get("sheet") == number
    }
