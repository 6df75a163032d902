"""So many minutes a day, and what they bring: simulated children who begin with this child's own memory and
pace go through the real plan, weeks ahead.

A simulated child is not the model the plan goes by (`learner.py`). Several of them give a range; it tells
what differs from child to child, not what happens in a family.
"""

from collections import Counter, deque
from collections.abc import Iterable, Mapping, Sequence
from math import ceil, floor
from random import Random
from typing import NamedTuple

from review.core import correction, skills, standing
from review.core.keys import content_of
from review.core.learner import PRIOR, Learner
from review.core.model import CardMemory, Pupil
from review.core.practice import Practice

MINUTES = (3.0, 5.0, 8.0, 10.0)  # a day, as one chooses them (our judgement)
WEEKS = 12  # about a school term (common practice, no source)
WEEK = 7
PAUSE = 14  # days
USUAL_DAYS = 5  # with practice a week, where the log does not tell
KNOWN_DAYS = 8  # in four weeks, before they say how often a family practises (our judgement)
CHILDREN = 4  # simulated; more take longer (our judgement)
HELD = 0.9  # of a set's cards holding: the set holds (our judgement)
ALIKE = 0.97  # of the cards held: about as many (our judgement; the range is about so wide)
PRIOR_CARDS = 10  # as if so many new cards had been met by children like any other (our judgement)
MOST_TRACES = 12  # practices a card begins with; older ones have faded (our judgement)
ANCHOR = 14  # days after the last try: where most gaps end
TRIALS = 40  # cards by which the child's pace is found
PACE = (0.25, 4.0)  # how much quicker or slower than usual a child can be
COPY_S = 4.0  # to read what is shown and copy it (our judgement)
LATER = 3  # cards in between before one comes back, as in a sitting


class Start(NamedTuple):
    """What a simulated child begins with."""

    pupil: Pupil  # on the day before
    speed: float  # against the usual
    prior: float  # share of new cards that prove known
    days_a_week: float
    days: tuple[int, ...]  # to practise on
    until: int


class Wish(NamedTuple):
    """One way to go on."""

    minutes: float
    pause: bool = False  # two weeks without practice first


class Season(NamedTuple):
    """How one simulated child went on."""

    wish: Wish
    held: tuple[int, ...]  # cards, at the end of each week
    sets: Mapping[str, tuple[int, ...]]  # the same by set
    tries: int  # first tries
    misses: int


class Range(NamedTuple):
    """From one simulated child to another. `high` of None: for some of them not within the weeks."""

    low: float
    high: float | None


class Brought(NamedTuple):
    """What one way to go on brings."""

    wish: Wish
    held: Range  # cards holding at the end
    misses: Range  # share of first tries not right
    weeks: Mapping[str, Range | None]  # until a set holds, by set; None: for none of them within the weeks


class Pacing(NamedTuple):
    """What so many minutes a day bring to one child."""

    pupil: Pupil
    until: int
    days_a_week: float
    cards: Mapping[str, int]  # by set
    holding: Mapping[str, int]  # today
    brought: tuple[Brought, ...]


# --- the beginning ------------------------------------------------------------------------------------


def start(pupil: Pupil, practised: Iterable[int], until: int) -> Start:
    """From the pupil as it is; `practised`: days with practice in the last four weeks."""
    cards = tuple(card for card in pupil.cards if standing.is_taught(card, pupil.settings))
    known = pupil._replace(cards=cards)
    met = (one.met_day for one in pupil.memory.values() if one.met_day)
    often = days_a_week(pupil.day, practised, min(met, default=pupil.day))
    return Start(known, pace(known), prior(known), often, days_ahead(pupil.day, often, until), until)


def days_ahead(today: int, often: float, until: int) -> tuple[int, ...]:
    """As many days a week as that, spread evenly from tomorrow on."""
    ahead = range(1, until - today + 1)
    return tuple(today + n for n in ahead if floor(n * often / WEEK) > floor((n - 1) * often / WEEK))


def days_a_week(today: int, practised: Iterable[int], begun: int) -> float:
    """As in the last four weeks, or since a child began, where there were enough of them to tell."""
    lately = {day for day in practised if today - 4 * WEEK < day <= today}
    weeks = min(4.0, (today - begun + 1) / WEEK)
    return min(WEEK, len(lately) / weeks) if len(lately) >= KNOWN_DAYS else USUAL_DAYS


def prior(pupil: Pupil) -> float:
    """The share of this child's cards that proved known at first sight, with what is usual."""
    met = [known for card in pupil.cards if (known := pupil.memory.get(card.key)) and known.met_day]
    at_once = sum(known.placed > 0 or known.known for known in met)
    return (at_once + PRIOR * PRIOR_CARDS) / (len(met) + PRIOR_CARDS)


def pace(pupil: Pupil) -> float:
    """How much quicker this child answers what it knows than a simulated one of the usual speed."""
    some = [known for card in pupil.cards if (known := pupil.memory.get(card.key)) and known.passed_n][
        :TRIALS
    ]
    if not some:
        return 1.0
    own = sum(known.passed_ms for known in some) / len(some)
    usual = sum(usual_ms(pupil, known, n) for n, known in enumerate(some)) / len(some)
    return max(PACE[0], min(PACE[1], usual / own))


def usual_ms(pupil: Pupil, known: CardMemory, n: int) -> int:
    """What a simulated child takes that surely recalls the card."""
    one = Learner(f"pace|{n}", pupil.settings.age)
    one.recalls(known.card, practised_days(known), 0.99, pupil.day, is_fact(known.card))
    _, seconds = one.tried(known.card, asked(known.card, Random(n)), pupil.day, is_fact(known.card))
    return round(1000 * seconds)


def asked(card: str, random: Random) -> str:
    """What a procedure asks once. Of a fact only the numbers matter here, and they stand in its key."""
    return content_of(card) if is_fact(card) else skills.draw(card, random)


def is_fact(card: str) -> bool:
    return skills.traits(card).fact


def learner(begun: Start, seed: int) -> Learner:
    """A simulated child who recalls two weeks after each card's last try what this child is expected to: on
    the day itself nearly everything is, and says little."""
    pupil = begun.pupil
    one = Learner(f"pacing|{seed}", pupil.settings.age, speed=begun.speed, prior=begun.prior)
    for card in pupil.cards:
        known = pupil.memory.get(card.key)
        if known is not None and known.stability is not None:
            day = known.last_day + ANCHOR
            chance = correction.recall(pupil.settings.habits, known, day) or 0.0
            one.recalls(card.key, practised_days(known), chance, day, is_fact(card.key))
    return one


def practised_days(known: CardMemory) -> list[int]:
    """So many tries between the first meeting and the last try, with gaps that grow."""
    tries = max(1, min(MOST_TRACES, known.tries))
    first, last = known.met_day or known.last_day, known.last_day
    if tries == 1:
        return [last]
    return [last - round((last - first) * (1 - n / (tries - 1)) ** 2) for n in range(tries)]


# --- weeks ahead --------------------------------------------------------------------------------------


def season(begun: Start, wish: Wish, seed: int) -> Season:
    """One simulated child, all the weeks."""
    settings = begun.pupil.settings._replace(taught=None)  # all of the cards are: nothing to ask each day
    first = begun.pupil._replace(settings=settings)
    one, random = learner(begun, seed), Random(f"pacing|{seed}")
    practice = Practice.resume(first.memory, first.cards, wish.minutes, seed, first.settings)
    days = [day for day in begun.days if not wish.pause or day > first.day + PAUSE]
    held, marks = list[dict[str, int]](), list[bool]()
    for end in week_ends(first.day, begun.until):
        for day in (day for day in days if end - WEEK < day <= end):
            marks += lived(practice, one, day, 60 * wish.minutes, random)
        held.append(held_by_set(practice.memory, first, end))
    return Season(
        wish,
        tuple(sum(week.values()) for week in held),
        {name: tuple(week[name] for week in held) for name in held[0]},
        len(marks),
        marks.count(False),
    )


def week_ends(today: int, until: int) -> list[int]:
    return [today + WEEK * n for n in range(1, max(1, ceil((until - today) / WEEK)) + 1)]


def lived(practice: Practice, one: Learner, day: int, seconds: float, random: Random) -> list[bool]:
    """One day within its seconds: the first tries, right or not. A card that was not right is shown and
    copied, and comes back after a few others, as in a sitting."""
    todays = practice.warmup(day)
    waiting = deque(item.key for item in todays.items)
    new = {item.key for item in todays.items if item.why == "new"}
    marks, unknown, had = list[bool](), 0, set[str]()
    while waiting and seconds > 0:
        key = waiting.popleft()
        if key in new - had and unknown >= todays.pace:
            continue  # today's pace is met
        right, took = one.tried(key, asked(key, random), day, is_fact(key))
        again = practice.answer(key, right, took, "", day)
        seconds -= took
        if key not in had and not (key in new and not right):
            marks.append(right)
        unknown += key in new - had and not right
        had.add(key)
        if not right:
            one.taught(key, day)
            seconds -= COPY_S
        if again:
            waiting.insert(LATER, key)
    return marks


def held_by_set(known: Mapping[str, CardMemory], first: Pupil, day: int) -> dict[str, int]:
    """Cards holding, as the child is known today: what is learned of a simulated child on the way would move
    the line too."""
    asked = [card for card in first.cards if card.aim != "familiarity"]
    held, today = dict.fromkeys((card.set_id for card in asked), 0), standing.seen_on(first.settings, day)
    for card in asked:
        held[card.set_id] += standing.stands(card, known.get(card.key), today, True).state == "holding"
    return held


# --- what it brings -----------------------------------------------------------------------------------


def wishes(pupil: Pupil) -> tuple[Wish, ...]:
    """The usual minutes and the child's own; and a pause with the child's own."""
    own = pupil.child.minutes
    return (*(Wish(minutes) for minutes in sorted({*MINUTES, own})), Wish(own, pause=True))


def pacing(begun: Start, seasons: Iterable[Season]) -> Pacing:
    every = list(seasons)
    first = begun.pupil
    cards = Counter(card.set_id for card in first.cards if card.aim != "familiarity")
    now = held_by_set(first.memory, first, first.day)
    ways = sorted({one.wish for one in every}, key=lambda wish: (wish.pause, wish.minutes))
    return Pacing(
        first,
        begun.until,
        begun.days_a_week,
        cards,
        now,
        tuple(brought(wish, [one for one in every if one.wish == wish], cards, now) for wish in ways),
    )


def brought(
    wish: Wish, seasons: Sequence[Season], cards: Mapping[str, int], now: Mapping[str, int]
) -> Brought:
    ends = [one.held[-1] for one in seasons]
    misses = [one.misses / max(1, one.tries) for one in seasons]
    weeks = {
        name: weeks_range([weeks_until(HELD * count, now[name], one.sets[name]) for one in seasons])
        for name, count in cards.items()
    }
    return Brought(wish, Range(min(ends), max(ends)), Range(min(misses), max(misses)), weeks)


def weeks_until(wanted: float, now: int, held: Sequence[int]) -> int | None:
    """The first week at whose end so many hold; 0: they do today."""
    return next((week for week, count in enumerate((now, *held)) if count >= wanted), None)


def weeks_range(found: Sequence[int | None]) -> Range | None:
    known = [weeks for weeks in found if weeks is not None]
    return Range(min(known), max(known) if len(known) == len(found) else None) if known else None


def enough(ways: Iterable[Brought]) -> float | None:
    """The fewest minutes that bring about as much as any; None where it takes the most there are."""
    daily = [(one.wish.minutes, one.held.low + (one.held.high or 0)) for one in ways if not one.wish.pause]
    most = max((held for _, held in daily), default=0)
    fewest = next((minutes for minutes, held in daily if held >= ALIKE * most), None)
    return None if not daily or fewest == daily[-1][0] else fewest
