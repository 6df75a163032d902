"""From memory to what a parent does with it. Reports are data; how they look is the rendering's matter."""

import re
from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from itertools import islice
from math import ceil
from random import Random
from typing import Literal, NamedTuple

from review.core import days, marking, plan, standing, teaching
from review.core.ground import PAPER_S
from review.core.looks import looks, missed_first
from review.core.model import Aim, CardMemory, Pupil
from review.core.plan import Choice
from review.core.standing import Look
from review.core.stuck import Stuck, begin_with, stuck
from review.core.text import plural

AT_THE_TABLE = 5  # facts a family can do something about in a week (our judgement)
NAMED = 3  # skills named in a line before it says "and more" (our judgement)
TOO_MUCH = "Too much is in play: one new card a day at most, until more of it holds."
"""True of the day on which none comes, and of the one on which little else is left to ask."""
LATER = "Another day's warm-up brings back the rest: it had its turn today, or a partner fact had."


# What to do a kind's cards with: objects and spoken games of the trade (common practice, no source)
TABLE_WORK: Mapping[str, str] = {
    "sum": "Lay both numbers on a ten-frame in two colours of counters, then say the sum.",
    "difference": "Lay counters on a ten-frame, take some away, say what is left.",
    "product": "Lay rows of counters, then say the product.",
    "quotient": "Share counters into equal rows, then say how many are in a row.",
    "bond": "Lay counters in a row, cover some, say how many are hidden.",
    "double": "Lay two equal rows of counters, then say how many.",
    "half": "Share counters into two equal rows, then say how many are in one.",
    "count-by": "Count aloud together, turn about, along a number line.",
    "place-value": "Build the numbers on a place-value mat, or with bundles of ten sticks.",
    "sequence": "Count aloud together along a number line; stop anywhere and say what comes next.",
    "quantity": "Flash a ten-frame with counters for a moment, say how many.",
    "number-name": "One says a number, the other writes it; then turn about.",
    "rounding": "Walk to the nearer end of a number line laid with string.",
    "order": "Write numbers on slips and lay them out, smallest first.",
    "number-property": "Lay counters in pairs and in rows, say what can be made of them.",
    "compare": "Build both numbers side by side on place-value mats.",
    "mental-sum": "Build both numbers with bundles of ten sticks and single ones.",
    "mental-difference": "Lay both numbers on a number line of string, jump from one to the other.",
    "mental-product": "Draw a rectangle of squared paper, split off the tens, say both parts.",
    "mental-quotient": "Share bundles of ten sticks first, then the single ones.",
    "add-several": "Put out counters row by row, say the new total after each row.",
    "true-false": "Balance two plates of counters, say when they hold as many.",
    "column-sum": "Build both numbers on a place-value mat, swap ten for one, write each column beside it.",
    "column-difference": "Build the number on a place-value mat, open one for ten, write each column down.",
    "column-product": "Draw a rectangle, split it by places, write each part, then add the parts.",
    "division-written": "Share place-value counters into equal rows, write each swap beside it.",
    "roman": "Lay the letters with sticks: one lays, the other reads.",
    "convert": "Measure one thing twice, once in each unit.",
    "money": "Play shop with real coins: one pays, the other counts up the change aloud.",
    "clock": "Set a toy clock for each other, and say the time.",
    "duration": "Say when something begins and how long it takes, then turn a clock to its end.",
    "timetable": "Write a timetable of your own day, ask each other what comes when.",
    "temperature": "Read a thermometer together, indoors and out, morning and evening.",
    "word-problem": "Act the story out with counters, then tell one like it.",
    "vocabulary": "Say a sum and let the child name its parts, turn about.",
    "template": "Write a few such problems on slips and draw them, turn about.",
    "fraction": "Fold strips of paper into equal parts, lay them side by side, say what you see.",
    "decimal": "Shade squares of ten by ten, a column a tenth, and write what is shaded.",
    "percent": "Shade squares of ten by ten, say the part as a fraction and as a percent.",
    "shape-measure": "Measure a book or a box with a ruler, then work it out together.",
    "negative": "Walk up and down a number line on the floor, across zero.",
    "operations": "Put brackets around what comes first with two pencils, then work it out.",
    "estimate": "Say about how much first, then work it out and look how near it was.",
    "pairs": "Ask each other, turn about.",
}
CALENDAR = "Count one stretch of a calendar twice, once in each unit."
CLOCK = "Say how long something of your day takes, once in each unit, beside a clock."
HEAVY = "Find out what a few heavy things weigh, like a car, and say each in both units."
UNIT_WORK: Mapping[str, str] = {
    "km": "Walk a way whose length you know, or find it on a map, and say it in both units.",
    **dict.fromkeys(("t", "us-ton"), HEAVY),
    **dict.fromkeys(("yr", "mo", "wk", "d"), CALENDAR),
    **dict.fromkeys(("h", "min", "s"), CLOCK),
}
"""Of units in which nothing at a table is measured (our judgement)."""


class Faded(NamedTuple):
    """A line of `overdue`."""

    child: str
    card: str
    prompt: str
    skill: str
    set_id: str
    aim: Aim
    recall: float
    days_overdue: int
    last_day: int
    last_mark: str
    teach: bool
    from_memory: bool = False  # `recall` is that of an answer from memory; worked out, more may be right
    state: Literal["overdue", "fading"] = "overdue"
    missed_first: bool = False  # before that last answer, the same day


class AtTable(NamedTuple):
    """A thing to do at the table this week, and why."""

    reason: Literal["stuck", "faded", "ready"]
    what: tuple[str, ...]  # facts, or skills by their titles
    work: str  # what to do, with objects or as a spoken game; for a skill that is ready: what to type then
    begin: tuple[str, ...] = ()  # earlier skills to begin with


class Decision(NamedTuple):
    """What to do this week, for one child: at the table, and what may be left to the warm-ups."""

    table: tuple[AtTable, ...]
    rest: tuple[str, ...]
    stuck_more: int = 0  # skills that did not stick, besides those in the list
    on_paper: int = 0  # cards that are overdue, and too long for any warm-up but one on paper


class Report(NamedTuple):
    """What has faded, lowest recall first, and what to do about it."""

    decision: Decision
    overdue: tuple[Faded, ...]
    fading: tuple[Faded, ...]
    looks: tuple[Look, ...]  # each card as it was looked at
    too_much: bool  # new cards wait today until more of what is in play holds
    again: tuple[Stuck, ...] = ()  # what did not stick


def report(pupil: Pupil) -> Report:
    """Everything `overdue` tells of one child, from one look at each card."""
    every = looks(pupil)
    again = stuck(pupil, every)
    teach = {one.skill.id for one in again}
    overdue, fading = faded(pupil, every, teach, "overdue"), faded(pupil, every, teach, "fading")
    facts = {look.card.key for look in every if look.traits.fact}
    faded_now = faded_at_table([*overdue, *fading], teach, facts)
    table = (*again_at_table(again), *faded_now, *ready_at_table(pupil, every))
    more, todays = max(0, len(again) - NAMED), plan.choice(pupil, every, pupil.child.minutes, Random(0))
    decision = Decision(table, rest_lines(pupil, todays, every), more, len(only_on_paper(every)))
    return Report(decision, overdue, fading, tuple(every), todays.too_much, again)


def count_overdue(pupil: Pupil) -> int:
    return sum(look.standing.state == "overdue" for look in looks(pupil))


def faded(
    pupil: Pupil, every: Iterable[Look], teach: Iterable[str], state: Literal["overdue", "fading"]
) -> tuple[Faded, ...]:
    """The cards in that state, lowest recall first."""
    again = set(teach)
    rows = [
        faded_row(pupil, look, look.memory, look.card.skill in again)._replace(state=state)
        for look in every
        if look.memory and look.standing.state == state
    ]
    return tuple(sorted(rows, key=lambda row: (row.recall, row.card)))


def faded_row(pupil: Pupil, look: Look, memory: CardMemory, teach: bool) -> Faded:
    card, found = look.card, look.standing
    return Faded(
        child=pupil.child.name,
        card=card.key,
        prompt=look.traits.title,
        skill=card.skill,
        set_id=card.set_id,
        aim=card.aim,
        recall=round(found.recall or 0.0, 4),
        days_overdue=found.days_overdue,
        last_day=memory.last_day,
        last_mark=memory.last_mark,
        teach=teach,
        from_memory=marking.timed(card, look.traits, memory, pupil.settings),
        missed_first=missed_first(memory),
    )


# --- at the table this week ----------------------------------------------------------------------------


def again_at_table(again: Sequence[Stuck]) -> tuple[AtTable, ...]:
    """What did not stick, what is done with the same objects in one line; a few skills at most."""
    groups: dict[str, list[Stuck]] = defaultdict(list)
    for one in again[:NAMED]:
        groups[work_of(one)].append(one)
    return tuple(AtTable("stuck", titles(some), work, begin_titles(some)) for work, some in groups.items())


def titles(some: Sequence[Stuck]) -> tuple[str, ...]:
    """The skills, each with the facts that did not stick, a few at most."""
    facts = [[card.prompt for card in one.cards if card.fact] for one in some]
    return tuple(
        f"{one.skill.title} ({', '.join(named[:NAMED])}{', …' if len(named) > NAMED else ''})"
        if named
        else one.skill.title
        for one, named in zip(some, facts, strict=True)
    )


def begin_titles(some: Sequence[Stuck]) -> tuple[str, ...]:
    """Where to begin, once for all of them; not with one of them that itself begins further back, but with
    one among several that stands on nothing earlier: where the others begin may lie beyond it."""
    begin = {one.skill.id: begin_with(one) for one in some}
    places = (begin[one.skill.id] or (one.skill,) for one in some) if any(begin.values()) else ()
    first = (skill for skills in places for skill in skills if not begin.get(skill.id))
    return tuple(dict.fromkeys(skill.title for skill in first))


def faded_at_table(
    rows: Sequence[Faded], teach: Iterable[str], facts: Collection[str]
) -> tuple[AtTable, ...]:
    """At most five faded facts, by the objects to do them with; skills that are taught again are there."""
    again = set(teach)
    left = [row for row in rows if row.skill not in again]
    chosen = [row for row in left if row.card in facts][:AT_THE_TABLE] or left[:NAMED]
    groups: dict[str, list[str]] = defaultdict(list)
    for row in chosen:
        groups[table_work(row.card)].append(row.prompt)
    return tuple(AtTable("faded", tuple(prompts), work) for work, prompts in groups.items())


def ready_at_table(pupil: Pupil, every: Sequence[Look]) -> tuple[AtTable, ...]:
    return tuple(
        AtTable("ready", (skill.title,), f"review taught {skill.id}")
        for skill in islice(teaching.ready(pupil, every), 1)
    )


def work_of(one: Stuck) -> str:
    """What to do at the table with a skill that did not stick. The cards that did not tell it better than its
    kind: one can pour litres and not kilometres."""
    return table_work(one.cards[0].card if one.cards else one.skill.kind)


def table_work(card: str) -> str:
    """What to do at the table with a card, or with all of a kind; by its longest unit, where that fits on no
    table."""
    kind, _, content = card.partition(":")
    units = re.split(r"[+>]", content.partition("/")[0]) if kind == "convert" else []
    far = next((work for unit, work in UNIT_WORK.items() if unit in units), None)
    return far or TABLE_WORK.get(kind, TABLE_WORK["pairs"])


# --- what the warm-ups do by themselves ----------------------------------------------------------------


def rest_lines(pupil: Pupil, todays: Choice, every: Iterable[Look]) -> tuple[str, ...]:
    """What the warm-ups do by themselves: as many like today's as all that is due needs, with the partner
    facts that have to wait for another day. Played on, the plan takes about as many (measured here)."""
    every = list(every)
    found = [look.standing for look in every if look.standing.gap and not is_for_paper(look)]
    planned = sum(item.why == "due" for item in todays.chosen)
    late, waiting = sum(one.state == "overdue" for one in found), sum(one.due_in <= 0 for one in found)
    sittings = ceil(max(waiting, planned) / planned) if planned else 0
    silent = not late and only_on_paper(every)  # what the sheet brings back is told beside this
    first = rest_line(late, sittings) if pupil.memory else "The first warm-up shows what is known already."
    return (
        *([] if silent else [first]),
        *back_lines(pupil),
        *([TOO_MUCH] if todays.too_much else []),
    )


def is_for_paper(look: Look) -> bool:
    return look.traits.seconds > PAPER_S


def only_on_paper(every: Iterable[Look]) -> list[Look]:
    """What is overdue and too long for any warm-up but one on paper."""
    return [look for look in every if look.standing.state == "overdue" and is_for_paper(look)]


def rest_line(late: int, sittings: int) -> str:
    if late and not sittings:
        return LATER
    if not sittings:
        return "Nothing is waiting. The daily warm-up keeps what is known."
    if not late:
        return "Nothing is overdue. The daily warm-up keeps up."
    about = "about " if sittings > 1 else ""
    return f"The warm-ups bring back the rest: {about}{plural(sittings, 'short warm-up')} to catch up."


def back_lines(pupil: Pupil) -> tuple[str, ...]:
    """After a pause: from when all that is told is reckoned, and why nothing new comes."""
    if not standing.is_back(pupil.memory.values(), pupil.day):
        return ()
    last = standing.last_before_pause(pupil.memory.values(), pupil.day)
    since = f"Last practised on {days.words(last)}; all this is reckoned from then. " if last else ""
    return (f"{since}After days away nothing new comes for two practised days.",)


def by_skill(rows: Iterable[Faded]) -> dict[str, list[Faded]]:
    """Grouped by skill, the skill with the lowest recall first."""
    groups: dict[str, list[Faded]] = defaultdict(list)
    for row in rows:
        groups[row.skill].append(row)
    return dict(groups)
