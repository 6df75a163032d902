"""Whether a reason that is given for a card is true, recomputed from the log alone."""

from typing import NamedTuple

import pytest

from review.core import correction, curve, marking, plan, skills
from review.core.answer_bodies import event_answer
from review.core.explain import Explained, Held, Here
from review.core.model import Event, Pupil
from review.core.warmup import Plan

ASKS = {"fluency": 0.90, "accuracy": 0.85}


class Morning(NamedTuple):
    """A day as its plan was made, with the rows that came before."""

    rows: tuple[Event, ...]
    pupil: Pupil
    todays: Plan
    found: Explained


def by_card(rows: tuple[Event, ...]) -> dict[str, list[Event]]:
    found: dict[str, list[Event]] = {}
    for row in rows:
        if row.kind == "answer":
            found.setdefault(row.card, []).append(row)
    return found


def aim_of(key: str, morning: Morning) -> str:
    return next(card.aim for card in morning.pupil.cards if card.key == key)


def measured(rows: list[Event]) -> list[int]:
    """Days on which the card was asked, not counting the one on which it was introduced and not known."""
    introduced = {row.day for row in rows if row.body.get("role") == "intro" and not was_right(row)}
    return sorted({row.day for row in rows if row.body.get("role") != "copy"} - introduced)


def was_right(row: Event) -> bool:
    return row.body["mark"] in ("right", "right_slow")


def set_aside(rows: list[Event], age: int) -> int:
    """The last day with as many misses as set a card aside: two at 6 and 7, three from 8; or the third first
    try missed running."""
    last = running = 0
    for day in sorted({row.day for row in rows}):
        first, *_ = todays = [row for row in rows if row.day == day]
        unknown = first.body.get("role") == "intro" and not was_right(first)
        missed = sum(row.body["mark"] in ("not_yet", "shown") for row in todays) - unknown
        fell = not unknown and marking.effect(event_answer(first)) == "not retrieved"
        running = running + 1 if fell else running if unknown else 0
        if missed >= (2 if age < 8 else 3) or (missed and running >= 3):
            last, running = day, 0
    return last


def promised(key: str, morning: Morning, day: int) -> float:
    found = correction.recall(morning.pupil.settings.habits, morning.pupil.memory[key], day)
    assert found is not None
    return found


def check_planned(here: Here, rows: list[Event], morning: Morning) -> None:
    """Gap and planned day against the day it was last asked; recall against the target the gap is set by."""
    assert here.planned_day - here.gap == measured(rows)[-1]
    assert here.recall == pytest.approx(promised(here.key, morning, morning.pupil.day), abs=1e-6)
    target = 0.93 if morning.pupil.settings.age < 8 else 0.90
    target = 0.97 if here.gap > curve.CAP else target  # beyond the first cap it must be surer
    if here.gap > 1 and here.gap not in (
        curve.CAP,
        *curve.CAPS,
    ):  # the gap ends where recall meets the target
        before, after = (promised(here.key, morning, here.planned_day + n) for n in (-1, 1))
        assert after - 1e-6 <= target <= before + 1e-6


def true_due(here: Here, rows: list[Event], morning: Morning) -> None:
    check_planned(here, rows, morning)
    assert here.why == "due"
    assert here.planned_day <= morning.pupil.day
    asked = ASKS[aim_of(here.key, morning)]
    late = here.planned_day < morning.pupil.day
    assert (here.part == "fading") == (late and (here.recall or 0) < asked)


def true_met(here: Here, rows: list[Event], morning: Morning) -> None:
    assert here.why == "due"
    assert here.recall is None
    last = max(row.day for row in rows)
    assert here.since == last < morning.pupil.day


def true_new(here: Here, rows: list[Event], morning: Morning) -> None:
    assert (here.part, here.recall) == ("new", None)
    assert [row for row in rows if row.body["mark"] != "void"] == []
    taught = {str(skill) for row in morning.rows if row.kind == "taught" for skill in row.body["skills"]}  # type: ignore[attr-defined]
    assert here.skill in taught
    if here.next:
        planned = {row.key for row in morning.found.here}
        mine = [card for card in morning.pupil.cards if card.skill == here.skill]
        order = {card.key: card.order for card in mine}
        before = [card.key for card in mine if card.order < order.get(here.key, 0)]
        met = {row.card for row in morning.rows if row.kind == "answer"}
        waits = {row.key for row in morning.found.held if row.reason in ("partner", "earlier")}
        assert {*before} <= met | planned | waits


def true_back(here: Here, rows: list[Event], morning: Morning) -> None:
    assert here.since == set_aside(rows, morning.pupil.settings.age)
    assert morning.pupil.day - here.since >= 5


def true_slip(here: Here, rows: list[Event], morning: Morning) -> None:
    check_planned(here, rows, morning)
    assert here.planned_day > morning.pupil.day
    assert (here.recall or 0) <= 0.97


def true_early(here: Here, rows: list[Event], morning: Morning) -> None:
    check_planned(here, rows, morning)
    assert 0 < here.planned_day - morning.pupil.day <= morning.pupil.settings.days_off


def true_sure(here: Here, rows: list[Event], morning: Morning) -> None:
    check_planned(here, rows, morning)
    assert here.planned_day > morning.pupil.day
    assert (here.recall or 0) >= 0.95
    last, openers = len(morning.found.here), 2 if morning.todays.minutes >= 3 else 1
    place = 1 + morning.found.here.index(here)
    expected = "opens" if place <= openers else "ends" if place == last else "between"
    assert here.spot == expected


def true_meet(here: Here, rows: list[Event], morning: Morning) -> None:
    assert aim_of(here.key, morning) == "familiarity"
    assert here.meetings == len({row.day for row in rows})


HERE = {
    "due": true_due,
    "fading": true_due,
    "early": true_early,
    "met": true_met,
    "new": true_new,
    "back": true_back,
    "slip": true_slip,
    "sure": true_sure,
    "meet": true_meet,
}


def never_met(rows: list[Event], morning: Morning) -> bool:
    real = [row for row in rows if row.body["mark"] != "void"]
    return not real or set_aside(real, morning.pupil.settings.age) > 0


def true_minutes(held: Held, rows: list[Event], morning: Morning) -> None:
    """What is left of the minutes does not hold it, and it is either due or new."""
    left = morning.todays.minutes * 60 - sum(item.seconds for item in morning.todays.items)
    assert (
        left < 2.5 * 2 * skills.traits(held.key).seconds
    )  # a new one counts 2.5 times; a slow child's twice
    if measured(rows) and not never_met(rows, morning):
        after = morning.pupil.day - measured(rows)[-1]
        assert after >= 1


def true_unbegun(answers: dict[str, list[Event]], morning: Morning) -> None:
    """No card of it was ever answered or comes today; it was taught, and only others keep it away."""
    found, begun = morning.found, {*answers, *(row.key for row in morning.found.here)}
    for skill in found.unbegun:
        cards = {card.key for card in morning.pupil.cards if skill in card.skills}
        assert cards
        assert cards.isdisjoint(begun)
        assert skill in morning.pupil.child.taught
        assert {row.reason for row in found.held if row.key in cards} & {"minutes", "order"}


def true_family(held: Held, rows: list[Event], morning: Morning) -> None:
    mine = skills.traits(held.key).family
    others = [skills.traits(row.key) for row in morning.found.here]
    assert held.first in [(other.title,) for other in others if other.family == mine]


def true_partner(held: Held, rows: list[Event], morning: Morning) -> None:
    partner = skills.traits(held.key).partner
    assert held.first == (skills.traits(partner).title,)
    known = {row.day for row in by_card(morning.rows).get(partner, []) if was_right(row)}
    assert len(known) < 4  # at most a day that helped, one cut off, and one that was a second look
    assert never_met(rows, morning)


def true_earlier(held: Held, rows: list[Event], morning: Morning) -> None:
    met = {row.card for row in morning.rows if row.kind == "answer"}
    assert held.first
    for name in held.first:
        mine = [card.key for card in morning.pupil.cards if name in (card.skill, *card.also)]
        assert 2 * len(met.intersection(mine)) < len(mine)


def true_untaught(held: Held, rows: list[Event], morning: Morning) -> None:
    assert held.skill not in morning.pupil.child.taught


def true_away(held: Held, rows: list[Event], morning: Morning) -> None:
    days = sorted({row.day for row in morning.rows if row.kind == "answer"})[-2:]
    assert any(b - a >= 7 for a, b in zip(days, [*days[1:], morning.pupil.day], strict=True))
    assert never_met(rows, morning)


def true_missed(held: Held, rows: list[Event], morning: Morning) -> None:
    right, of = morning.found.lately
    few = 1 if of == 10 else 2
    assert (of == 10 and right < 8) or (morning.todays.alone and of - right > few)
    assert never_met(rows, morning)


def true_much(held: Held, rows: list[Event], morning: Morning) -> None:
    """More misses are expected than the target allows, and more than one or two; or much is to be taught."""
    asked = [
        0.7 if i.recall is None else i.recall for i in morning.todays.items if i.why not in ("new", "meet")
    ]
    misses = len(asked) - sum(asked)
    aside = sum(bool(known.aside_day) for known in morning.pupil.memory.values())
    assert misses > 1.4 or aside >= plan.ASIDE_MOST
    assert never_met(rows, morning)


def true_week(held: Held, rows: list[Event], morning: Morning) -> None:
    assert held.key.startswith("product:")
    assert never_met(rows, morning)
    begun = {
        row.card
        for row in morning.rows
        if row.card.startswith("product:") and row.body.get("role") == "intro" and not was_right(row)
        and morning.pupil.day - row.day < 7
    }  # fmt: skip
    here = [row for row in morning.found.here if row.part == "new" and row.key.startswith("product:")]
    most = 7 if morning.pupil.settings.age >= 10 else 4
    assert most - len(begun) <= len(here) or len(here) < most


def true_order(held: Held, rows: list[Event], morning: Morning) -> None:
    assert never_met(rows, morning)


def true_aside(held: Held, rows: list[Event], morning: Morning) -> None:
    assert held.until == set_aside(rows, morning.pupil.settings.age) + 5 > morning.pupil.day


def true_resting(held: Held, rows: list[Event], morning: Morning) -> None:
    assert rows
    assert held.until > morning.pupil.day


def true_share(held: Held, rows: list[Event], morning: Morning) -> None:
    assert aim_of(held.key, morning) == "familiarity"


def true_long(held: Held, rows: list[Event], morning: Morning) -> None:
    keys = [held.key, *(row.key for row in morning.found.here)]
    assert sum(skills.traits(key).seconds > 30 for key in keys) >= 2


def true_paper(held: Held, rows: list[Event], morning: Morning) -> None:
    assert skills.traits(held.key).seconds > 60


TRUE = {
    "minutes": true_minutes,
    "family": true_family,
    "partner": true_partner,
    "earlier": true_earlier,
    "untaught": true_untaught,
    "away": true_away,
    "missed": true_missed,
    "much": true_much,
    "week": true_week,
    "order": true_order,
    "aside": true_aside,
    "resting": true_resting,
    "share": true_share,
    "long": true_long,
    "paper": true_paper,
}
