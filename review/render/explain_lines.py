"""Why a card is here today, and why another is not, in words for a parent."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence

from review.app.explaining import Told
from review.core import days, family
from review.core.explain import OTHERS_FIRST, Explained, Held, Here, Part, Reason
from review.core.model import Pupil, Skill
from review.core.text import clean, ended, in_words, plural
from review.render.lines import capital, is_ready, unready
from review.render.phrases import in_order, missed_more, missed_more_often
from review.shell import word

Skills = Mapping[str, Skill]

NEAR = 7  # days within which the name of a weekday is clear
NAMED = 6  # cards named in a line before it says how many more (our judgement)
MEETINGS = 6  # of what is only to be recognised, before once a month

HEADS: Mapping[Part, str] = {
    "sure": "Sure to go well (chance today)",
    "fading": "Fading: past the planned day, and no longer sure (chance today)",
    "due": "Due (chance today)",
    "early": "Due before the next practice day (chance today)",
    "met": "Just met, now asked for the first time",
    "new": "New",
    "back": "New once more, after a rest for teaching",
    "slip": "Not due, but not quite sure: minutes are left for them (chance today)",
    "meet": "To be met now and then, and recognised",
    "then": "Chosen by what was known when the day began (chance then)",
}

HELD: Mapping[Reason, str] = {
    "minutes": "No room in the minutes (what is best remembered comes first)",
    "long": "Long ones, of which one a warm-up comes",
    "paper": "Over a minute each: for paper",
    "family": "A partner of a card that is here",
    "share": "Only to be recognised: about one such card in ten comes",
    "away": "New ones wait: coming back from days away comes first",
    "missed": "New ones wait: too many of the last ten answers were missed",
    "much": "New ones wait: too much is in play",
    "pace": "New ones wait: today's new ones have been begun",
    "week": "New products wait: only a few come in a week, unlike each other",
    "order": "New ones further on",
    "partner": "Wait for a fact they lean on",
    "earlier": "Wait for an earlier skill",
    "untaught": "Not taught yet",
    "since": "Taught after this plan was made",
    "aside": "Set aside, to be taught",
    "had": "Had their turn today",
    "resting": "Known for now, and not due",
}
"""In the order in which they are told."""


# --- one child ----------------------------------------------------------------------------------------


def explained(told: Told) -> list[str]:
    pupil, found = told.pupil, told.found
    child = pupil.child
    if not is_ready(child, pupil.skills):
        return unready(clean(child.name), word(child.name), len(child.sets))
    who = word(child.name)
    return [*_head(told), *_all_here(found, pupil.skills), *_all_held(found, pupil.skills, who)]


def _head(told: Told) -> list[str]:
    found, name = told.found, clean(told.pupil.child.name)
    if not found.here:
        return [f"{name}, {days.words(found.day)}: nothing to ask."]
    begun = ["This is the plan the day began with."] if told.begun else []
    return [
        f"{name}, {days.words(found.day)}: {_size(found)}.",
        *(f"  {line}" for line in [*_right(found), *_harder(told), *_first(told.pupil), *begun]),
    ]


def _harder(told: Told) -> list[str]:
    """A sentence for the fact of which one order is asked more often, or one for all of them."""
    words = family.words_of(told.pupil.child)
    found = [(row.key, row.harder) for row in told.found.here if row.harder]
    if len(found) > 1:
        orders = "; ".join(in_order(key, one.asked, words) for key, one in found)
        return [f"Missed more often this way round, so asked that way more often: {orders}."]
    return [f"{missed_more(key, one, words)}, so it is asked that way more often." for key, one in found]


def _first(pupil: Pupil) -> list[str]:
    """What comes first this week, where a parent said so."""
    skill = pupil.skills.get(pupil.child.focus)
    named = skill is not None and skill.id in pupil.settings.focus
    if not (skill and named):
        return []
    return [ended(f"First this week, with what it stands on: {clean(skill.title)}")]


def _size(found: Explained) -> str:
    """New cards are reckoned as if as many proved known as usual; a day on which none does is shorter."""
    about = max(1, round(found.minutes))
    most = "at most about" if any(row.why == "new" for row in found.here) else "about"
    return f"{plural(len(found.here), 'card')}, {most} {plural(about, 'minute')}"


def _right(found: Explained) -> list[str]:
    if not found.asked:
        return ["Nothing of it was measured before, so no share right is expected yet."]
    return [f"Of {plural(found.asked, 'card')} met before, about {found.right:.0f} should be right."]


# --- what is here -------------------------------------------------------------------------------------


def _all_here(found: Explained, skills: Skills) -> list[str]:
    """By reason, the one that is shown first being first; within each by planned day."""
    groups: dict[Part, list[Here]] = defaultdict(list)
    for one in found.here:
        groups[one.part].append(one)
    return [line for part, rows in groups.items() for line in _group(part, rows, found, skills)]


def _group(part: Part, rows: Sequence[Here], found: Explained, skills: Skills) -> list[str]:
    """A line for what is told of several cards alike; a long warm-up has seventy of them."""
    alike: dict[str, list[str]] = defaultdict(list)
    for row in sorted(rows, key=lambda row: row.planned_day if row.part in PLANNED else 0):
        alike[why(row, found.day, skills)].append(_with_chance(row))
    begun = "that proves unknown is begun" if found.most_new == 1 else "that prove unknown are begun"
    most = f" (at most {found.most_new} {begun})" if part == "new" and len(rows) > found.most_new else ""
    return [
        "",
        HEADS[part] + most,
        *(ended(f"  {capital(reason)}: {'; '.join(cards)}") for reason, cards in alike.items()),
    ]


def _with_chance(row: Here) -> str:
    chance = f" ({percent(row.recall)})" if row.part in MEASURED else ""
    return clean(row.prompt) + chance


def sentence(row: Here, day: int, skills: Skills) -> str:
    when = "then" if row.part == "then" else "today"
    chance = f"; chance {when} {percent(row.recall)}" if row.part in MEASURED else ""
    return f"{capital(why(row, day, skills))}{chance}."


def why(row: Here, day: int, skills: Skills) -> str:
    """Why the card is here."""
    return WHYS[row.part](row, day, skills)


def _sure(row: Here, day: int, skills: Skills) -> str:
    return {
        "opens": "opens the warm-up",
        "ends": "ends the warm-up",
        "between": "a rest in between",
    }[row.spot]


def _due(row: Here, day: int, skills: Skills) -> str:
    gap = plural(row.gap, "day")
    planned = "" if row.planned_day >= day else f" (was planned for {day_word(row.planned_day, day)})"
    return f"its gap of {gap} is over{planned or ' today'}"


def _met(row: Here, day: int, skills: Skills) -> str:
    return f"met {_on(row.since, day)}, not asked from memory yet"


def _new(row: Here, day: int, skills: Skills) -> str:
    return f"{'next of' if row.next else 'from'} {_title(row.skill, skills)}"


def _back(row: Here, day: int, skills: Skills) -> str:
    return f"set aside {_on(row.since, day)}, begins as new once more"


def _slip(row: Here, day: int, skills: Skills) -> str:
    return f"planned for {day_word(row.planned_day, day)}"


def _meet(row: Here, day: int, skills: Skills) -> str:
    if row.meetings >= MEETINGS:
        return f"met {MEETINGS} times, now about once a month"
    times = {0: "not met yet", 1: "met once", 2: "met twice"}.get(row.meetings, f"met {row.meetings} times")
    return f"{times}, of {MEETINGS} meetings"


def _then(row: Here, day: int, skills: Skills) -> str:
    return "as it stood then"


PLANNED = frozenset({"fading", "due", "early", "slip"})
MEASURED = PLANNED | {"sure", "then"}
WHYS: Mapping[Part, Callable[[Here, int, Skills], str]] = {
    "sure": _sure,
    "fading": _due,
    "due": _due,
    "early": _slip,
    "met": _met,
    "new": _new,
    "back": _back,
    "slip": _slip,
    "meet": _meet,
    "then": _then,
}


def percent(recall: float | None) -> str:
    """Never 100%: nothing is that sure."""
    return "not measured" if recall is None else f"{min(99, round(100 * recall))}%"


def _title(skill: str, skills: Skills) -> str:
    return f"“{clean(skills[skill].title)}”" if skill in skills else clean(skill)


def _on(day: int, today: int) -> str:
    named = day_word(day, today)
    return named if named in ("today", "yesterday", "tomorrow") else f"on {named}"


def day_word(day: int, today: int) -> str:
    """A day as one says it: yesterday, Tuesday within a week, else 3 March; the year where it is another."""
    near = {0: "today", -1: "yesterday", 1: "tomorrow"}.get(day - today)
    if near:
        return near
    when = days.date_of(day)
    if abs(day - today) < NEAR:
        return days.WEEKDAYS[when.weekday()]
    whole = days.words(day)
    return whole if when.year != days.date_of(today).year else whole.rpartition(" ")[0]


# --- what is not --------------------------------------------------------------------------------------


def _all_held(found: Explained, skills: Skills, who: str) -> list[str]:
    begun = [one for one in found.held if one.reason not in OTHERS_FIRST or one.skill not in found.unbegun]
    groups = {reason: [one for one in begun if one.reason == reason] for reason in HELD}
    told = [
        ended(f"  {HELD[reason]}: {_named(reason, rows, found.day, skills)}")
        for reason, rows in groups.items()
        if rows
    ]
    kept = [ended(f"  Kept ready for after two misses: {_some(found.reserve)}")] if found.reserve else []
    lines = [*kept, *told, *_unbegun(found.unbegun, skills, who)]
    return ["", "Not in today's plan", *lines] if lines else []


def _unbegun(names: Sequence[str], skills: Skills, who: str) -> list[str]:
    """A parent who has taught something waits for it to come, so each is named."""
    if not names:
        return []
    named = "; ".join(_title(name, skills) for name in names)
    it, skill = ("it", clean(names[0])) if len(names) == 1 else ("one", "SKILL")
    first = f"To have {it} first this week: review focus {skill} {who}"
    return [f"  Not begun yet, since others come first: {named}. {first}"]


def _named(reason: Reason, rows: Sequence[Held], day: int, skills: Skills) -> str:
    return NAMES.get(reason, _prompts)(rows, day, skills)


def _prompts(rows: Sequence[Held], day: int, skills: Skills) -> str:
    return _some([row.prompt for row in rows])


def _some(names: Iterable[str]) -> str:
    """The first few of them, and how many more."""
    each = [clean(name) for name in names]
    more = len(each) - NAMED
    return "; ".join([*each[:NAMED], f"{more} more"] if more > 0 else each)


def _with_first(rows: Sequence[Held], day: int, skills: Skills) -> str:
    return _some([f"{row.prompt} ({in_words(row.first)} first)" if row.first else row.prompt for row in rows])


def _with_partner(rows: Sequence[Held], day: int, skills: Skills) -> str:
    return _some([f"{row.prompt} (of {in_words(row.first)})" for row in rows])


def _with_skills(rows: Sequence[Held], day: int, skills: Skills) -> str:
    """Skill by skill, with what comes first."""
    found: dict[str, tuple[str, ...]] = {row.skill: row.first for row in rows}
    return "; ".join(
        f"{_title(skill, skills)} ({in_words([_title(one, skills) for one in first])} first)"
        for skill, first in found.items()
    )


def _skills(rows: Sequence[Held], day: int, skills: Skills) -> str:
    return _some(_title(skill, skills) for skill in dict.fromkeys(row.skill for row in rows))


def _until(rows: Sequence[Held], day: int, skills: Skills) -> str:
    return _some([f"{row.prompt} (comes back {_on(row.until, day)})" for row in rows])


def _count(rows: Sequence[Held], day: int, skills: Skills) -> str:
    """How many, and when the first of them is planned."""
    return (
        f"{plural(len(rows), 'card')}, the first planned for {day_word(min(row.until for row in rows), day)}"
    )


NAMES: Mapping[Reason, Callable[[Sequence[Held], int, Skills], str]] = {
    "partner": _with_first,
    "family": _with_partner,
    "earlier": _with_skills,
    "untaught": _skills,
    "since": _skills,
    "aside": _until,
    "resting": _count,
}


# --- as JSON ------------------------------------------------------------------------------------------


def rows(told: Told) -> list[dict[str, object]]:
    """Today's cards in showing order. The keys are a promise; they are only ever added to."""
    skills, found = told.pupil.skills, told.found
    return [
        {
            "child": told.pupil.child.name,
            "card": row.key,
            "prompt": row.prompt,
            "skill": row.skill,
            "why": row.part,
            "words": sentence(row, found.day, skills),
            "recall": None if row.recall is None else round(row.recall, 4),
            "gap": row.gap or None,
            "planned_day": days.date_of(row.planned_day).isoformat() if row.planned_day else None,
            "seconds": row.seconds,
            "missed_more_often": missed_more_often(row.key, row.harder),
        }
        for row in found.here
    ]
