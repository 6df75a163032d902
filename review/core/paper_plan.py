"""What a child's own sheet asks: the plan of each sitting as far as paper can carry it.

Paper cannot put in a second look or a sure card after misses, and cannot say when a new card proves known. So
a sitting on paper is the plan itself, in its order, with fewer new cards; the days of a week are planned one
after the other, each as if the ones before it went as hoped.
"""

from collections.abc import Sequence
from itertools import chain, islice
from random import Random
from typing import NamedTuple

from review.core import memory, new_cards, plan, seeds, skills
from review.core.asked import lately
from review.core.model import Answer, Card, Pupil, Role
from review.core.sheets import Part, Task
from review.core.standing import standing
from review.core.warmup import Plan

DAYS = 5  # sittings of a week's sheet
MOST_TODAY, MOST_WEEK = 20, 10
"""Problems of a sitting on paper: a page of two columns, and a strip of half a page (our judgement)."""
WEEK_MINUTES = 5.0  # the sittings of a week's sheet are short ones (our judgement)
LEAST = 6  # new cards beyond the pace fill a sitting up to so many problems (our judgement)
SHORTEST = 0.3  # minutes: the plan of so little is one card or two
REDRAWS = 20  # for a problem that was not asked lately (our judgement, as in a sitting at the computer)


class Planned(NamedTuple):
    """A part with what its marks will be judged by."""

    part: Part
    plan: Plan


def week_days(day: int) -> list[int]:
    """The five weekdays from that day on; a day of the weekend stands for the Monday after it."""
    return list(islice((one for one in range(day, day + 9) if (one - 1) % 7 < 5), DAYS))


def sittings(pupil: Pupil, days: Sequence[int], minutes: float, most: int, book: str) -> tuple[Planned, ...]:
    """One sitting for each day. The same book, child and day give the same one."""
    found: list[Planned] = []
    for n, day in enumerate(days):
        off = days[n + 1] - day - 1 if n + 1 < len(days) else 0
        there = pupil._replace(day=day, settings=pupil.settings._replace(days_off=off))
        todays = paper_plan(there, minutes, most, book)
        before = [task for planned in found for task in planned.part.tasks]
        part = Part(day, drawn(there, todays, before, book))
        found.append(Planned(part, todays))
        pupil = as_hoped(pupil, part)
    return tuple(found)


def paper_plan(pupil: Pupil, minutes: float, most: int, book: str) -> Plan:
    """The plan of a day within the minutes and the problems a sheet has room for."""
    todays = day_plan(pupil, minutes, book)
    while len(todays.items) > most and minutes > SHORTEST:
        minutes = max(SHORTEST, minutes * max(0.5, most / (len(todays.items) + 1)))
        todays = day_plan(pupil, minutes, book)
    return with_fewer_new(todays, new_cards.pace(pupil.settings, minutes))


def day_plan(pupil: Pupil, minutes: float, book: str) -> Plan:
    basis = plan.basis_of(pupil, minutes)._replace(paper=True)
    return plan.plan(basis, seeds.plan_source(book, pupil.child.key, pupil.day))


def with_fewer_new(todays: Plan, usual: int) -> Plan:
    """New cards at the usual pace, and more only where a sheet would be next to empty: on paper none can be
    kept back when they prove unknown."""
    new = [item.key for item in todays.items if item.why == "new"]
    pace = 1 if todays.alone else min(todays.pace, usual)
    over = set(new[max(pace, LEAST - (len(todays.items) - len(new))) :])
    return todays._replace(items=tuple(item for item in todays.items if item.key not in over))


def drawn(pupil: Pupil, todays: Plan, before: Sequence[Task], book: str) -> tuple[Task, ...]:
    """What each card of the plan asks; nothing a procedure card asked lately, or earlier on the sheet."""
    cards = {card.key: card for card in pupil.cards}
    asked = []
    for item in todays.items:
        seen = {task.asked for task in before if task.card == item.key}
        if item.key in pupil.memory:
            seen |= set(lately(pupil.memory[item.key], pupil.day))
        source = seeds.source(book, pupil.child.key, pupil.day, item.key, "paper")
        role: Role = "intro" if item.why == "new" else "ask"
        asked.append(Task(item.key, fresh(item.key, source, seen), role, cards[item.key].aim))
    return tuple(asked)


def fresh(key: str, source: Random, seen: set[str]) -> str:
    """A problem of the card that was not seen, where there is one."""
    first = skills.draw(key, source)
    if first not in seen or skills.traits(key).fact:
        return first
    others = (skills.draw(key, source) for _ in range(REDRAWS))
    return next((asked for asked in others if asked not in seen), first)


def as_hoped(pupil: Pupil, part: Part) -> Pupil:
    """The pupil after a sitting in which everything met was known from memory, and nothing new was."""
    ways, cards = pupil.settings.habits, dict(pupil.memory)
    for n, task in enumerate(part.tasks):
        new = task.role == "intro"
        answer = Answer(
            task.card, task.asked, "", "", "not_yet" if new else "right", task.role, taken="paper",
            aim=task.aim, age=pupil.settings.age, recalled="" if new else "yes",
        )  # fmt: skip
        ways, cards[task.card] = memory.answered(ways, cards.get(task.card), answer, (part.day, 0, 0, n))
    known = tuple(True for task in part.tasks if task.role != "intro")
    return pupil._replace(
        memory=cards,
        settings=pupil.settings._replace(habits=ways),
        recent=(*pupil.recent, *known)[-10:],
    )


# --- practice of one skill ----------------------------------------------------------------------------


def by_need(pupil: Pupil, cards: Sequence[Card]) -> list[Card]:
    """What was met and holds least first, then what was never met, in teaching order."""

    def need(card: Card) -> tuple[bool, float, int]:
        known = pupil.memory.get(card.key)
        found = standing(card, known, pupil.settings, pupil.day)
        return found.recall is None, found.recall or 0.0, card.order

    return sorted(cards, key=need)


def practice(cards: Sequence[Card], count: int, source: Random) -> tuple[Task, ...]:
    """So many problems: the first `count` cards where there are more, else all of them in turns, each turn
    in another order."""
    turn, tasks = list(cards[:count]), list[Task]()
    while len(tasks) < count:
        last = tasks[-1].card if tasks else ""
        source.shuffle(turn)
        if len(turn) > 1 and turn[0].key == last:
            turn.append(turn.pop(0))
        for card in turn[: count - len(tasks)]:
            seen = {task.asked for task in tasks if task.card == card.key}
            tasks.append(Task(card.key, fresh(card.key, source, seen), "ask", card.aim))
    return tuple(tasks)


def keys_of(parts: Sequence[Part]) -> list[str]:
    """The cards of a sheet, each once."""
    return list(dict.fromkeys(chain.from_iterable((task.card for task in part.tasks) for part in parts)))
