"""Timetables of three or four stops and three ferries: when one is there, how long it takes, which to take.

A class is the number of stops, a step of minutes and the clock. Ferries follow each other evenly and take
equally long. By the 24-hour clock they run from 06:00 to 22:00, by the other from 7:00 to 12:59, so that no
time is there twice. Stops and ferries are invented.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from review.core.model import Help, Skill
from review.core.pictures import Lines
from review.core.skills.clock import (
    STEP_TITLES,
    STEPS,
    Moment,
    by_24_hours,
    in_time_words,
    twelve,
    twenty_four,
)
from review.core.skills.duration import Class, between_steps, span_of
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import whole, word
from review.core.skills.tasks import Numbers, Shown, Space, Task, Tasks, Writing
from review.core.skills.worked import worked

STOPS: Mapping[int, tuple[str, ...]] = {
    3: ("Pier", "Cove", "Rock"),
    4: ("Pier", "Cove", "Beach", "Rock"),
}
FERRIES = 3
# Minutes of the day between which ferries run, from stop to stop and from ferry to ferry; our judgement.
OPEN: Mapping[int, tuple[int, int]] = {24: (360, 1320), 12: (420, 779)}
LEG, GAP = (5, 45), (20, 90)


class Table(NamedTuple):
    """One timetable and what is asked of it; stops and ferries are counted from 1."""

    start: int  # minutes of the day
    legs: tuple[int, ...]
    gap: int  # minutes from ferry to ferry
    ferry: int
    begin: int
    end: int

    def at(self, stop: int, ferry: int = 0) -> int:
        """When a ferry is at a stop; without one, that of the question."""
        return self.start + sum(self.legs[: stop - 1]) + ((ferry or self.ferry) - 1) * self.gap

    def by(self, step: int) -> int:
        """A time between the arrivals of this ferry and the next."""
        return self.at(self.end) + self.gap // 2 // step * step


def _table(member: Numbers) -> Table:
    start, *legs, gap, ferry, begin, end = member
    return Table(start, tuple(legs), gap, ferry, begin, end)


class Clock(NamedTuple):
    shown: Callable[[Moment], str]
    said: Callable[[Moment], str]
    form: str
    over: str  # the spans of `duration` that are shown by it


def _said_by_12(time: Moment) -> str:
    """Nine forty; nine o'clock."""
    return by_24_hours(Moment(time.on_the_face, time.minute)) if time.minute else in_time_words(time)


CLOCKS: Mapping[int, Clock] = {
    24: Clock(twenty_four, by_24_hours, "clock-24", "day"),
    12: Clock(twelve, _said_by_12, "clock-time", "hours"),
}


def _shown(sizes: Numbers, minutes: int) -> str:
    return CLOCKS[sizes[2]].shown(Moment(*divmod(minutes, 60)))


def _said(sizes: Numbers, minutes: int) -> str:
    return CLOCKS[sizes[2]].said(Moment(*divmod(minutes, 60)))


# --- classes ------------------------------------------------------------------------------------------


def _asked(sizes: Numbers, member: Numbers) -> str:
    """09:40+15+25/40@2:1>3: the first ferry, its legs, every 40 minutes; the second one, from stop 1 to 3."""
    of = _table(member)
    legs = "".join(f"+{leg}" for leg in of.legs)
    first = twenty_four(Moment(*divmod(of.start, 60)))
    return f"{first}{legs}/{of.gap}@{of.ferry}:{of.begin}>{of.end}"


def _member(sizes: Numbers, asked: str) -> Numbers | None:
    pattern = r"(\d\d):(\d\d)" + r"\+(\d+)" * (sizes[0] - 1) + r"/(\d+)@(\d+):(\d+)>(\d+)"
    found = re.fullmatch(pattern, asked, re.ASCII)
    if not found:
        return None
    hour, minute, *rest = map(int, found.groups())
    return hour * 60 + minute, *rest


def _steps(span: tuple[int, int], step: int) -> range:
    """The multiples of a step in a span."""
    return range(-(-span[0] // step) * step, span[1] + 1, step)


def _space(sizes: Numbers, ferries: range, begins: range) -> Space:
    """Every ferry is at its last stop before the end of the day."""
    stops, step, clock = sizes
    legs = (_steps(LEG, step),) * (stops - 1)

    def fits(*member: int) -> bool:
        of = _table(member)
        return of.begin < of.end and of.at(stops, FERRIES) <= OPEN[clock][1]

    ranges = _steps(OPEN[clock], step), *legs, _steps(GAP, step), ferries, begins, range(2, stops + 1)
    return Space(ranges, fits)


def _from_the_first(sizes: Numbers) -> Space:
    return _space(sizes, range(1, FERRIES + 1), range(1, 2))


def _from_any(sizes: Numbers) -> Space:
    """The first ferry stands for all: they take equally long."""
    return _space(sizes, range(1, 2), range(1, sizes[0]))


# --- what is shown ------------------------------------------------------------------------------------

FINGER = Help("build", "Go down the column with a finger.")


def board(sizes: Numbers, of: Table) -> Lines:
    """A row a stop, a column a ferry."""
    names = STOPS[sizes[0]]
    width = max(map(len, names))
    rows = ([_shown(sizes, of.at(stop, ferry)) for ferry in range(1, FERRIES + 1)] for stop in range(1, 5))
    return Lines(
        tuple(
            f"{name:<{width}}" + "".join(f"{time:>7}" for time in row)
            for name, row in zip(names, rows, strict=False)
        )
    )


def _reach(sizes: Numbers, member: Numbers) -> Shown:
    of = _table(member)
    stop, leaves, there = STOPS[sizes[0]][of.end - 1], of.at(1), _shown(sizes, of.at(of.end))
    ferry = f"{_shown(sizes, leaves)} ferry"
    helps = (
        Help("question", f"Which column begins with {_shown(sizes, leaves)}?"),
        FINGER,
        *worked(f"{_shown(sizes, leaves)} begins column {of.ferry}.", f"{stop}, column {of.ferry}: {there}"),
    )
    say = f"When does the {_said(sizes, leaves)} ferry reach {stop}?"
    told = f"The {ferry} reaches {stop} at {there}."
    return Shown(
        f"When does the {ferry} reach {stop}?", say, there, told, helps, CLOCKS[sizes[2]].form,
        board(sizes, of),
    )  # fmt: skip


def _ride(sizes: Numbers, member: Numbers) -> Shown:
    of = _table(member)
    begin, end = (STOPS[sizes[0]][stop - 1] for stop in (of.begin, of.end))
    start, span = of.at(of.begin), of.at(of.end) - of.at(of.begin)
    helps = (
        Help("question", "Which two times do you need?"),
        Help("build", "Put a finger on both times."),
        *between_steps(Class("between", CLOCKS[sizes[2]].over, sizes[1]), start, span),
    )
    say = f"How long does a ferry take from {begin} to {end}?"
    return Shown(
        f"How long from {begin} to {end}?", say, span_of(span), f"{begin} to {end}\ntakes {span_of(span)}.",
        helps, "time-span", board(sizes, of),
    )  # fmt: skip


def _latest(sizes: Numbers, member: Numbers) -> Shown:
    of = _table(member)
    first, stop, by = STOPS[sizes[0]][0], STOPS[sizes[0]][of.end - 1], of.by(sizes[1])
    leaves, limit, there = (_shown(sizes, at) for at in (of.at(1), by, of.at(of.end)))
    helps = (
        Help("question", f"Which ferries are there by {limit}?"),
        FINGER,
        *worked(f"{stop}, column {of.ferry}: {there}", f"{first}, column {of.ferry}: {leaves}"),
    )
    say = f"You want to be at {stop} by {_said(sizes, by)}. When does the last such ferry leave {first}?"
    return Shown(
        f"Be at {stop} by {limit}. Leave {first} at", say, leaves, f"The {leaves} ferry is there by {limit}.",
        helps, CLOCKS[sizes[2]].form, board(sizes, of),
    )  # fmt: skip


# --- the kind -----------------------------------------------------------------------------------------


def _titled(what: str) -> Callable[[Numbers], str]:
    def title(sizes: Numbers) -> str:
        return f"{what}, {sizes[0]} stops, {sizes[2]}-hour, to {STEP_TITLES[sizes[1]]}"

    return title


ASKED = Writing(_asked, _member)
TABLE: Mapping[str, Task] = {  # seconds are our judgement: a table is searched, then read or worked with
    "reach": Task(_titled("when a ferry arrives"), 12.0, ASKED, _from_the_first, _reach, "reach"),
    "ride": Task(_titled("how long a ride takes"), 24.0, ASKED, _from_any, _ride, "ride"),
    "latest": Task(_titled("the last ferry to take"), 24.0, ASKED, _from_the_first, _latest, "latest"),
}
TASKS = Tasks(TABLE)


def keys(skill: Skill) -> Iterator[str]:
    sizes = whole(skill, "stops"), STEPS[word(skill, "step")], word(skill, "clock")
    yield f"timetable:{word(skill, 'ask')}/{'-'.join(map(str, sizes))}"


KINDS: tuple[Kind, ...] = (
    Kind(
        "timetable",
        "timetables of three or four stops",
        {
            "ask": Option(
                "word", "when a ferry is there, how long it takes, or the last to take in time",
                choices=tuple(TABLE), example='"reach"',
            ),
            "stops": Option("whole", "how many stops", low=3, high=4, example="3"),
            "step": Option(
                "word", "how exact the times are", choices=("five-minutes", "minute"),
                example='"five-minutes"',
            ),
            "clock": Option("word", "by which clock", "24", choices=("12", "24"), example='"24"'),
        },
        keys, TASKS.traits, TASKS.draw, TASKS.problem,
    ),
)  # fmt: skip
