"""Some weeks of one child in at most twelve plain lines, each short enough to be read out or copied."""

from collections.abc import Mapping, Sequence

from review.core import days, family
from review.core.brief import Brief
from review.core.reports import TOO_MUCH
from review.core.standing import State
from review.core.teaching import Why
from review.core.text import clean, ended, plural
from review.render.lines import capital, minutes
from review.render.phrases import CAUTION

WIDTH = 78  # columns of a line: nothing wraps on a screen of 80
NOBODY = "the child"

STATES: Mapping[str, tuple[State, ...]] = {
    "holding": ("holding",),
    "growing": ("growing", "introduced"),
    "fading": ("fading",),
    "overdue": ("overdue",),
    "set aside": ("aside",),
}


def brief(found: Brief, no_name: bool) -> list[str]:
    child, settings = found.pupil.child, found.pupil.settings
    weeks = plural(found.weeks, "week")
    who, today = NOBODY if no_name else clean(child.name), days.words(found.pupil.day)
    lines = [
        f"{capital(who)}, {plural(settings.age, 'year')} old, {minutes(child.minutes)} a day; {today}.",
        f"In {weeks}: practised on {plural(found.days, 'day')}.{pause(found)}",
        tries(found),
        f"Skills taught: {found.taught} of {len(found.pupil.skills)}. {sets(found)}",
        f"Cards now: {states(found)}.",
        f"Met for the first time in {weeks}: {plural(found.met, 'card')}.{pace(found)}",
        fitted("Did not stick: ", lessons(found, "stuck")),
        fitted("Ready to teach: ", lessons(found, "ready")),
        fitted("Taught, not known well enough to go on: ", stands_on(found)),
        fitted("Faded, to practise at the table: ", found.table),
        this_week(found),
        f"{CAUTION} One child's practice at home.",
    ]
    return family.reported(lines, family.words_of(child))


def pace(found: Brief) -> str:
    """Only where the family has set one: else it goes by age."""
    most = found.pupil.child.pace
    return f" New cards a day, as chosen: {most}." if most else ""


def pause(found: Brief) -> str:
    return f" The last on {days.words(found.last)}." if found.last else ""


def tries(found: Brief) -> str:
    if not found.tries:
        return "No first try of a card on any day."
    share = found.right / found.tries
    return f"First tries of a card on a day: {found.tries:,}, right and unaided: {share:.0%}."


def sets(found: Brief) -> str:
    return f"{plural(len(found.pupil.child.sets), 'skill set')}."


def states(found: Brief) -> str:
    counts = {word: sum(found.states[state] for state in some) for word, some in STATES.items()}
    return ", ".join(f"{count} {word}" for word, count in counts.items())


def lessons(found: Brief, why: Why) -> list[str]:
    return [one.skill.title for one in found.lessons if one.why == why]


def stands_on(found: Brief) -> list[str]:
    """What is to be known before the next skill that waits for it."""
    behind = [skill.title for one in found.lessons if one.why == "behind" for skill in one.back]
    return list(dict.fromkeys(behind))


def this_week(found: Brief) -> str:
    if found.too_much:
        return TOO_MUCH
    first = [found.pupil.skills[name].title for name in sorted(found.pupil.settings.focus)]
    return fitted("First this week: ", first)


def fitted(head: str, things: Sequence[str]) -> str:
    """As many things as the line holds, and how many more."""
    told = [clean(thing).rstrip(".") for thing in things]
    for shown in range(len(told), 0, -1):
        left = len(told) - shown
        line = ended(head + "; ".join(told[:shown]) + (f"; {left} more" if left else ""))
        if len(line) <= WIDTH:
            return line
    if not told:
        return f"{head}nothing."
    more = f"; {len(told) - 1} more." if len(told) > 1 else ""
    return f"{(head + told[0])[: WIDTH - 3 - len(more)]}...{more}"


def row(found: Brief, no_name: bool) -> dict[str, object]:
    """The keys are a promise; they are only ever added to."""
    return {
        "child": None if no_name else found.pupil.child.name,
        "age": found.pupil.settings.age,
        "minutes": found.pupil.child.minutes,
        "day": days.date_of(found.pupil.day).isoformat(),
        "weeks": found.weeks,
        "days": found.days,
        "first_tries": found.tries,
        "right": found.right,
        "met": found.met,
        "skills": len(found.pupil.skills),
        "taught": found.taught,
        "states": {word: sum(found.states[s] for s in some) for word, some in STATES.items()},
        "stuck": [one.skill.id for one in found.lessons if one.why == "stuck"],
        "ready": [one.skill.id for one in found.lessons if one.why == "ready"],
        "faded": list(found.faded),
        "at_the_table": list(found.table),
        "focus": sorted(found.pupil.settings.focus),
        "too_much": found.too_much,
        "pace": found.pupil.child.pace or None,
    }
