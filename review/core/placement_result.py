"""What a placement found, skill by skill, and what it suggests; the parent decides."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Any, Literal, NamedTuple

from review.core import correction, item_choice, marking
from review.core.amendments import amended
from review.core.answer_bodies import event_answer
from review.core.model import Answer, Card, CardMemory, Event, Pupil, Skill
from review.core.skills import traits as traits_of

Tick = Literal["ask", "known", "untaught"]

ASKED_TAUGHT, SHARE_TAUGHT = 3, 2 / 3
"""A skill seems to have been taught when at least so many were asked and this share was known (our
judgement)."""

ASKED_REST, SHARE_REST = 4, 0.85
"""The rest of a skill is likely known too when nearly all that were asked are, and what was not asked is not
harder: its chance is as high (our judgement; by the share alone, of what was left only 62 in 100 facts of the
harder tables were known to simulated children)."""


class Ticks(NamedTuple):
    """What the parent said of a set before it began; every other skill is asked."""

    known: tuple[str, ...] = ()
    untaught: tuple[str, ...] = ()


class Found(NamedTuple):
    """What is known of one skill's cards. Every card stands in one of the lists."""

    skill: Skill
    tick: Tick
    taught: bool
    known: tuple[str, ...] = ()  # asked, right
    worked_out: tuple[str, ...] = ()  # asked, right, not from memory
    not_yet: tuple[str, ...] = ()  # asked
    said: tuple[str, ...] = ()  # a parent said it is known
    practised: tuple[str, ...] = ()  # met in warm-ups
    unasked: tuple[str, ...] = ()
    chance: float = 0.0  # that a card which was not asked is known, on average

    @property
    def asked(self) -> int:
        return len(self.known) + len(self.worked_out) + len(self.not_yet)

    @property
    def right(self) -> int:
        return len(self.known) + len(self.worked_out)


def found(
    skills: Sequence[Skill],
    cards: Sequence[Card],
    memory: Mapping[str, CardMemory],
    events: Iterable[Event],
    ticks: Ticks,
    taught: Collection[str],
) -> tuple[Found, ...]:
    """The result, from all of a child's events that may say something of the set's cards."""
    counted = list(amended(events))
    last = _last(counted)
    said = {event.card for event in counted if event.kind == "known"}
    sorts = {card.key: _sort(card.key, memory, last, said) for card in cards}
    likely = _chances(cards, last)
    return tuple(
        _found(skill, ticks, taught, [card.key for card in cards if card.skill == skill.id], sorts, likely)
        for skill in skills
    )


def _last(events: Iterable[Event]) -> dict[str, Answer]:
    """What counts of each card: the answer of the last day it was asked on, the first right one where there
    are several. A card that was known is asked again to end on something easy; memory too takes what comes
    of it as practice."""
    last: dict[str, tuple[int, Answer]] = {}
    for event in filter(is_probe, events):
        answer = event_answer(event)
        day, before = last.get(event.card, (0, answer))
        known = day == event.day and item_choice.is_well(before)
        if answer.mark != "void" and not known:
            last[event.card] = event.day, answer
    return {card: answer for card, (_, answer) in last.items()}


def _found(
    skill: Skill,
    ticks: Ticks,
    taught: Collection[str],
    keys: Sequence[str],
    sorts: Mapping[str, str],
    likely: Mapping[str, float],
) -> Found:
    lists = {name: tuple(key for key in keys if sorts[key] == name) for name in SORTS}
    left = [likely[key] for key in lists["unasked"]]
    mean = sum(left) / len(left) if left else 0.0
    return Found(skill, _tick(skill.id, ticks), skill.id in taught, **lists, chance=mean)


def _chances(cards: Sequence[Card], last: Mapping[str, Answer]) -> dict[str, float]:
    """The chance that each card of the set is known, from all that was asked of it."""
    items = item_choice.items(cards, {card.key: traits_of(card.key) for card in cards})
    probing = item_choice.Probing("", "", "", 0, 0, items, (), {}, tuple(last.values()))
    return item_choice.chances(probing, (), tuple(items))


SORTS = ("known", "worked_out", "not_yet", "said", "practised", "unasked")


def _sort(
    key: str, memory: Mapping[str, CardMemory], last: Mapping[str, Answer], said: Collection[str]
) -> str:
    if key in said:
        return "said"
    if key in last:
        return _of_answer(last[key])
    return "practised" if key in memory and memory[key].met_day else "unasked"


def _of_answer(answer: Answer) -> str:
    if not item_choice.is_well(answer):
        return "not_yet"
    return "known" if marking.quick(answer) else "worked_out"


def _tick(skill: str, ticks: Ticks) -> Tick:
    return "known" if skill in ticks.known else "untaught" if skill in ticks.untaught else "ask"


# --- what is suggested --------------------------------------------------------------------------------


def seems_taught(one: Found) -> bool:
    """Most of what was asked is known, and the parent has not said yet that it was taught."""
    enough = one.asked >= min(ASKED_TAUGHT, one.asked + len(one.unasked)) and one.asked > 0
    return enough and not one.taught and one.right >= SHARE_TAUGHT * one.asked


def rest_likely(one: Found) -> bool:
    """Nearly all that were asked are known, and some were not asked."""
    return (
        bool(one.unasked) and one.asked >= ASKED_REST and min(one.right / one.asked, one.chance) >= SHARE_REST
    )


# --- the log ------------------------------------------------------------------------------------------


def probes(events: Iterable[Event]) -> list[Answer]:
    """The answers given in placements, in order."""
    return [event_answer(event) for event in events if is_probe(event)]


def is_probe(event: Event) -> bool:
    return event.kind == "answer" and event.body.get("role") == "probe"


def ticks_body(set_id: str, ticks: Ticks) -> dict[str, object]:
    """What the parent said, as a `taught` event: what is surely known was taught."""
    return {"skills": list(ticks.known), "untaught": list(ticks.untaught), "placement": set_id}


def amended_by(before: Ticks | None, said: Ticks) -> Ticks:
    """What was said before, with what is said now over it."""
    old = before or Ticks()
    known = [skill for skill in old.known if skill not in said.untaught]
    untaught = [skill for skill in old.untaught if skill not in said.known]
    return Ticks(
        tuple(dict.fromkeys([*known, *said.known])), tuple(dict.fromkeys([*untaught, *said.untaught]))
    )


def ticks_of(events: Iterable[Event], set_id: str) -> Ticks | None:
    """The last that was said of a set; None: nothing yet."""
    said = [event.body for event in events if set_of(event) == set_id]
    return Ticks(_names(said[-1], "skills"), _names(said[-1], "untaught")) if said else None


def set_of(event: Event) -> str:
    """The set whose placement an event begins; "" for any other event."""
    return str(event.body.get("placement", "")) if event.kind == "taught" else ""


def _names(body: Mapping[str, Any], key: str) -> tuple[str, ...]:
    return tuple(str(name) for name in body.get(key, ()))


def days_of(events: Iterable[Event]) -> dict[int, str]:
    """The set of each day's placement; the last that was begun on it."""
    return {event.day: set_of(event) for event in events if set_of(event)}


# --- what is to be asked ------------------------------------------------------------------------------


def sure(pupil: Pupil, but: Collection[str], most: int = 6) -> tuple[str, ...]:
    """Cards the child surely knows from elsewhere, surest first: one to end on. None that had its turn
    today."""
    recall = {
        card.key: chance
        for card in pupil.cards
        if card.key not in but and card.aim != "familiarity" and (chance := _recall(pupil, card.key))
    }
    able = [key for key, chance in recall.items() if chance >= item_choice.SURE]
    return tuple(sorted(able, key=lambda key: (-recall[key], key)))[:most]


def _recall(pupil: Pupil, key: str) -> float | None:
    """None for what was never measured, or seen today."""
    memory = pupil.memory.get(key)
    if memory is None or memory.seen_day == pupil.day:
        return None
    return correction.recall(pupil.settings.habits, memory, pupil.day)
