"""How one child comes along: skill by skill, week by week, and whether what was promised came."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from review.core import amendments, calibration, days, family, habits, marking, memory, tries
from review.core.calibration import Band, Promise
from review.core.looks import by_skill, looks
from review.core.model import CardMemory, Event, Habits, Pupil, Remembered, Skill
from review.core.standing import Look, last_before_pause, seen_on, stands
from review.core.tries import Tally, Try

WEEK = 7


class SkillProgress(NamedTuple):
    """A skill on the last day of a span, and its first tries within the span."""

    skill: Skill
    cards: int
    met: int
    holding: int
    overdue: int
    fluent: int | None  # holding, and within the time that counts as from memory; None: not asked for
    known_day: int  # the first day a card of it was known; 0: none yet
    tally: Tally


class Week(NamedTuple):
    """A week from Monday, as far as it lies in the span."""

    monday: int
    days: int  # with practice
    ms: int  # of all answers
    tally: Tally


class Held(NamedTuple):
    """How many cards were met, and how many held, at the end of a week."""

    day: int
    met: int
    holding: int


class Now(NamedTuple):
    """How many cards stand how, on the last day of the span."""

    met: int
    holding: int
    overdue: int
    shared: int  # of these, told with more than one skill


class Grown(NamedTuple):
    """What came to hold, or was known for the first time, in the last seven days of the span."""

    holding: tuple[Look, ...]
    known: tuple[Look, ...]


class Progress(NamedTuple):
    pupil: Pupil
    since: int
    until: int
    skills: tuple[SkillProgress, ...]  # those with a card met, in teaching order
    tally: Tally
    days: int  # with practice
    ms: int
    weeks: tuple[Week, ...]
    bands: tuple[Band, ...]  # promised in the morning's plan, against what came
    grown: Grown
    now: Now
    held: tuple[Held, ...] = ()
    last: int = 0  # the day of the last practice, where the span ends a week or more after it
    taken: tuple[str, ...] = ()  # typed, aloud, on paper


def progress(pupil: Pupil, rows: Iterable[Event], since: int, until: int) -> Progress:
    """`pupil` as on the last day of the span; `rows`: the span's answers and sittings, and whatever amends
    them."""
    told = [row for row in amendments.amended(rows) if since <= row.day <= until]
    answers = [row for row in told if row.kind == "answer"]
    first = list(tries.first_tries(answers))
    every = looks(pupil)
    return Progress(
        pupil,
        since,
        until,
        skills_of(pupil, every, first),
        tries.tally(first),
        len(tries.practised(answers)),
        tries.spent_ms(answers),
        tuple(weeks(answers, first, until)),
        calibration.bands(promises(told, first, pupil.settings.habits)),
        grown(every, pupil, until),
        counted(every),
        last=last_before_pause(pupil.memory.values(), until),
        taken=tries.taken(answers),
    )


def counted(every: Sequence[Look]) -> Now:
    """A card of two skills counts once here."""
    states = [look.standing.state for look in every]
    shared = sum(is_met(look) for look in every if look.card.also)
    return Now(sum(map(is_met, every)), states.count("holding"), states.count("overdue"), shared)


# --- skill by skill -----------------------------------------------------------------------------------


def skills_of(pupil: Pupil, every: Sequence[Look], first: Iterable[Try]) -> tuple[SkillProgress, ...]:
    by_card: dict[str, list[Try]] = defaultdict(list)
    for one in first:
        by_card[one.card].append(one)
    groups, within_ms = by_skill(every), from_memory_ms(pupil)
    return tuple(
        skill_progress(pupil, skill, groups[name], by_card, within_ms)
        for name, skill in pupil.skills.items()
        if any(map(is_met, groups.get(name, ())))
    )


def skill_progress(
    pupil: Pupil, skill: Skill, cards: Sequence[Look], by_card: Mapping[str, Sequence[Try]], within_ms: int
) -> SkillProgress:
    known = [look.memory.known_day for look in cards if look.memory and look.memory.known_day]
    asked = skill.aim == "fluency" and not pupil.settings.untimed
    return SkillProgress(
        skill,
        len(cards),
        sum(is_met(look) for look in cards),
        sum(look.standing.state == "holding" for look in cards),
        sum(look.standing.state == "overdue" for look in cards),
        sum(is_fluent(look, within_ms) for look in cards) if asked else None,
        min(known, default=0),
        tries.tally(one for look in cards for one in by_card.get(look.card.key, ())),
    )


def is_met(look: Look) -> bool:
    return look.memory is not None and look.memory.met_day > 0


def from_memory_ms(pupil: Pupil) -> int:
    """The longest a number of two digits may take, copying included, that counts as from memory."""
    ways, age = pupil.settings.habits, pupil.settings.age
    return marking.copying_ms(age, 2, habits.copying_ms(ways, age)) + habits.slow_ms(ways, age)


def is_fluent(look: Look, within_ms: int) -> bool:
    """It holds, and what it usually takes is within what counts as from memory."""
    if look.memory is None or look.standing.state != "holding" or not look.memory.passed_n:
        return False
    return look.memory.passed_ms <= within_ms


def grown(every: Iterable[Look], pupil: Pupil, until: int) -> Grown:
    """In the last seven days: cards that first came to hold, and those known for the first time that do not
    hold yet."""
    recent = [(look, look.memory) for look in every if look.memory and look.card.aim != "familiarity"]
    after, today = until - WEEK, pupil.day
    holding = tuple(
        look for look, known in recent if look.standing.state == "holding" and after < known.held_day <= today
    )
    new = tuple(
        look
        for look, known in recent
        if after < known.known_day <= today and look.standing.state != "holding"
    )
    return Grown(holding, new)


# --- week by week -------------------------------------------------------------------------------------


def weeks(answers: Iterable[Event], first: Iterable[Try], until: int) -> Iterator[Week]:
    """Every week from the first practised to the last that is over, also those without practice: a pause is
    seen at the end as between. A week that has only begun is told once there was practice in it."""
    by_week: dict[int, list[Event]] = defaultdict(list)
    tried: dict[int, list[Try]] = defaultdict(list)
    for row in answers:
        by_week[days.monday(row.day)].append(row)
    for one in first:
        tried[days.monday(one.day)].append(one)
    last = max(by_week, default=0) and max(*by_week, days.monday(until + 1) - WEEK)
    for monday in range(min(by_week, default=1), last + 1, WEEK):
        rows = by_week.get(monday, [])
        yield Week(
            monday, len(tries.practised(rows)), tries.spent_ms(rows), tries.tally(tried.get(monday, []))
        )


def held_by_week(
    start: Remembered, events: Iterable[Event], pupil: Pupil, since: int, until: int
) -> tuple[Held, ...]:
    """Cards met and holding at the end of each week of the span: the child's events are folded from what was
    remembered at the start, which lies before the span. `events`: all from there on, and what amends them.

    Each week is told as the child is known now: with the habits of that week, which had seen less, the line
    would rise and fall with what is known of the child and not with what the child knows (measured here).
    """
    ends = [*range(days.monday(since) + WEEK - 1, until, WEEK), until]
    known, ways, found = dict(start.cards), start.habits, list[Held]()
    for event in moving(start, events):
        while len(found) < len(ends) and event.day > ends[len(found)]:
            found.append(held(pupil, known, ends[len(found)]))
        ways, known[event.card] = memory.follow(ways, known.get(event.card), event)
    left = [held(pupil, known, day) for day in ends[len(found) :]]
    return (*found, *left)


def moving(start: Remembered, events: Iterable[Event]) -> Iterator[Event]:
    """What moves memory after a place in the log."""
    told = (row for row in amendments.amended(events) if row.kind in ("answer", "known"))
    return (row for row in told if amendments.place(row) > start.habits.at)


def held(pupil: Pupil, known: Mapping[str, CardMemory], day: int) -> Held:
    today = seen_on(pupil.settings, day)
    met = [(card, its) for card in pupil.cards if (its := known.get(card.key)) and its.met_day > 0]
    holding = sum(stands(card, its, today, True).state == "holding" for card, its in met)
    return Held(day, len(met), holding)


# --- promised and come --------------------------------------------------------------------------------


def promises(rows: Iterable[Event], first: Iterable[Try], ways: Habits) -> list[Promise]:
    """What each day's plan promised of a card, and what came of its first try."""
    promised: dict[tuple[int, str], float] = {}
    for row in rows:
        for card, chance in family.promised(row.body) if row.kind == "sitting" else ():
            promised.setdefault((row.day, card), chance)
    found = ((one, promised.get((one.day, one.card))) for one in first)
    return [made for one, chance in found if chance is not None for made in promise(one, chance, ways)]


def promise(one: Try, chance: float, ways: Habits) -> list[Promise]:
    right = calibration.came(one.answer, habits.sureness(ways, one.answer, chance))
    return [] if right is None else [Promise(one.day, chance, right)]
