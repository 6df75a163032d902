"""Whatever is said of a card must be true: recomputed here from the log alone, over whole seasons.

The season is the invented family's; its days of answers, misses, lessons and absences are read off the rows.
No outside source: the rules are those of DEVELOPERS.md.
"""

from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest

from review import catalogue, gather
from review.app import demo
from review.book import store
from review.core import card_sets, days, explain, family, memory, plan
from review.core.amendments import place
from review.core.explain import Explained
from review.core.ground import Basis
from review.core.model import Card, CardMemory, Child, Event, Habits, Pupil, Settings, Skill
from review.core.warmup import Plan
from tests.core.stock import DAY, UNCORRECTED, card, grown, plain
from tests.core.true_reasons import HERE, TRUE, Morning, by_card, true_unbegun

NINE = Settings(9, habits=UNCORRECTED)


@cache
def season(seed: int, days: int) -> tuple[tuple[Event, ...], ...]:
    with TemporaryDirectory() as folder:
        path = demo.play(Path(folder), DAY, seed, days)
        with store.open_book(path, Path(folder) / "state", write=False) as book:
            keys = [child.key for child in gather.family_of(book)]
            return tuple(tuple(sorted(book.events(child=key), key=place)) for key in keys)


def mornings(rows: tuple[Event, ...]) -> Iterator[Morning]:
    """Every planned day of a child, folding the log as it grows."""
    cards, ways = dict[str, CardMemory](), Habits()
    for n, row in enumerate(rows):
        if row.kind == "answer":
            ways, cards[row.card] = memory.follow(ways, cards.get(row.card), row)
        elif row.kind == "sitting":
            (child,) = family.children(rows[:n])
            pupil = a_pupil(child, row.day, dict(cards), ways, rows[:n])
            todays = family.sitting_plan(row)
            yield Morning(rows[:n], pupil, todays, explain.explained(pupil, todays))


def a_pupil(
    child: Child, day: int, cards: dict[str, CardMemory], ways: Habits, rows: tuple[Event, ...]
) -> Pupil:
    sets = catalogue.chosen_sets(child.sets)
    known = {skill.id: skill for found in sets for skill in found.skills}
    off = days.days_off((row.day for row in rows if row.kind == "sitting"), day)
    settings = gather.settings(child, day)._replace(habits=ways, days_off=off)
    answers = [row for row in rows if row.kind == "answer"]
    return Pupil(child, day, card_sets.cards(sets), known, cards, settings, gather.recent_right(answers, day))


# --- the whole season ----------------------------------------------------------------------------------


@pytest.mark.parametrize("child", [0, 1])
def test_every_card_of_every_day_has_one_true_reason(child: int) -> None:
    told: Counter[str] = Counter()
    for morning in mornings(season(3, 70)[child]):
        found, pupil = morning.found, morning.pupil
        assert [row.key for row in found.here] == [item.key for item in morning.todays.items]
        every = [*(row.key for row in found.here), *(row.key for row in found.held)]
        assert len(every) == len(set(every))
        assert set(every) == {card.key for card in pupil.cards}
        answers = by_card(morning.rows)
        for here in found.here:
            HERE[here.part](here, answers.get(here.key, []), morning)
        for held in found.held:
            TRUE[held.reason](held, answers.get(held.key, []), morning)
        told.update(row.part for row in found.here)
        told.update(row.reason for row in found.held)
        true_unbegun(answers, morning)
        told.update(["unbegun"] * len(found.unbegun))
    assert {*told} >= {"due", "fading", "new", "met", "slip", "sure", "unbegun"}
    assert {*told} >= {"minutes", "family", "earlier", "aside", "resting", *OF_EACH[child]}


OF_EACH: tuple[set[str], set[str]] = ({"away", "order"}, set())
"""What befalls one of the two children only."""


# --- one by one ----------------------------------------------------------------------------------------


def small(
    cards: list[Card],
    known: dict[str, CardMemory],
    settings: Settings = NINE,
    minutes: float = 5,
    recent: tuple[bool, ...] = (),
) -> tuple[Pupil, Plan]:
    names = {card_.skill for card_ in cards}
    its = {name: Skill(name, name, "sum", "accuracy", {}) for name in names}
    pupil = Pupil(Child("", "Tove", 9, 0), DAY, tuple(cards), its, known, settings, recent)
    ready = plan.open_skills(its, cards, known, settings.taught)
    return pupil, plan.plan(
        Basis(cards, known, settings, DAY, minutes, recent, ready, traits=plain), Random(1)
    )


def reasons(found: Explained) -> dict[str, str]:
    return {row.key: row.reason for row in found.held} | {row.key: row.part for row in found.here}


def test_a_card_set_aside_tells_when_it_comes_back_and_then_that_it_is_back() -> None:
    cards = [card(n) for n in range(3)]
    known = {cards[0].key: grown(cards[0].key, 3.0, DAY - 2, aside_day=DAY - 2),
             cards[1].key: grown(cards[1].key, 3.0, DAY - 5, aside_day=DAY - 5)}  # fmt: skip
    found = explain.explained(*small(cards, known), traits=plain)
    (held,) = found.held
    assert (held.key, held.reason, held.until) == (cards[0].key, "aside", DAY + 3)
    back = next(row for row in found.here if row.key == cards[1].key)
    assert (back.part, back.since, back.why) == ("back", DAY - 5, "new")


@pytest.mark.parametrize("kept", [0, 1])
def test_a_plan_that_what_is_known_now_speaks_against_is_told_as_of_then(kept: int) -> None:
    """As where another computer's answers came in: cards that were due are not, or are new."""
    cards = [card(n) for n in range(8)]
    pupil, todays = small(cards, {one.key: grown(one.key, 9.0, DAY - 30) for one in cards})
    assert {item.why for item in todays.items} == {"due"}
    now = {one.key: grown(one.key, 90.0, DAY - 1) for one in cards[: 8 * kept]}
    found = explain.explained(pupil._replace(memory=now), todays, traits=plain)
    assert {row.part for row in found.here} == {"then"}


def test_what_was_taught_after_the_day_began_is_told_apart() -> None:
    cards = [card(0), card(1, skill="later"), card(2, skill="never")]
    pupil, todays = small(cards, {}, Settings(9, taught=frozenset({"sums"})))
    found = explain.explained(pupil, todays, {"later"}, plain)
    assert reasons(found) == {cards[0].key: "new", cards[1].key: "since", cards[2].key: "untaught"}


def test_many_misses_and_too_much_in_play_are_two_reasons() -> None:
    cards = [card(n) for n in range(40)]
    due = {one.key: grown(one.key, 2.0, DAY - 6) for one in cards[:30]}
    missed = explain.explained(*small(cards, due, recent=(True,) * 7 + (False,) * 3), traits=plain)
    much = explain.explained(*small(cards, due), traits=plain)
    assert {reasons(missed)[one.key] for one in cards[30:]} == {"missed"}
    assert {reasons(much)[one.key] for one in cards[30:]} == {"much"}
    assert missed.lately == (7, 10)


def test_one_new_card_of_a_nearly_empty_day_is_told_and_why_the_others_wait() -> None:
    cards = [card(n) for n in range(20)]
    due = {one.key: grown(one.key, 2.0, DAY - 6) for one in cards[:12]}
    found = explain.explained(*small(cards, due), traits=plain)
    assert [reasons(found)[one.key] for one in cards[12:]] == ["new"] + ["much"] * 7


def test_a_day_without_room_says_so() -> None:
    cards = [card(n) for n in range(40)]
    due = {one.key: grown(one.key, 50.0, DAY - 60) for one in cards[:39]}
    found = explain.explained(*small(cards, due, minutes=1), traits=plain)
    assert {row.reason for row in found.held} == {"minutes", "away"}
    assert found.minutes <= 1
    assert found.right == pytest.approx(sum(row.recall or 0 for row in found.here))


def test_nothing_to_ask_still_tells_of_every_card() -> None:
    cards = [card(n) for n in range(3)]
    seen = {one.key: grown(one.key, 50.0, DAY, seen_day=DAY) for one in cards}
    found = explain.explained(*small(cards, seen), traits=plain)
    assert (found.here, found.asked, found.right) == ((), 0, 0)
    assert {row.reason for row in found.held} == {"had"}


def facts(*keys: str) -> list[Card]:
    return [
        Card(key, key.partition(":")[0], key.partition(":")[0], "set", "fluency", n)
        for n, key in enumerate(keys)
    ]


def test_a_quotient_waits_for_its_product_and_a_skill_for_an_earlier_one() -> None:
    cards = facts("product:6x7", "quotient:42/6", "sum:2+3")
    its = {card_.skill: Skill(card_.skill, card_.skill, card_.kind, "fluency", {}) for card_ in cards}
    its["sum"] = its["sum"]._replace(after=("product",))
    pupil = Pupil(Child("", "Tove", 9, 0), DAY, tuple(cards), its, {}, NINE)
    found = explain.explained(pupil, plan.for_pupil(pupil, 5, Random(1)))
    held = {row.key: row for row in found.held}
    assert (held["quotient:42/6"].reason, held["quotient:42/6"].first) == ("partner", ("6 × 7",))
    assert (held["sum:2+3"].reason, held["sum:2+3"].first) == ("earlier", ("product",))
    assert [row.next for row in found.here] == [True]


@pytest.mark.parametrize(("age", "most"), [(9, 4), (10, 7)])
@pytest.mark.parametrize("ago", [6, 7])
def test_new_products_of_a_week_are_few(age: int, most: int, ago: int) -> None:
    cards = facts(*(f"product:{a}x{b}" for a in range(2, 10) for b in range(a, 10)))
    known = dict[str, CardMemory]()
    for one in cards[:most]:
        known[one.key] = grown(one.key, 50.0, DAY - 1, ago - 1, intro_day=DAY - ago)
    its = {"product": Skill("product", "Tables", "product", "fluency", {})}
    pupil = Pupil(Child("", "Tove", age, 0), DAY, tuple(cards), its, known, Settings(age))
    found = explain.explained(pupil, plan.for_pupil(pupil, 5, Random(1)))
    assert ("week" in {row.reason for row in found.held}) == (ago < 7)
    assert any(row.why == "new" for row in found.here) == (ago == 7)


def test_meetings_are_counted() -> None:
    """Six meetings, some days between them; what was met once comes back after three."""
    cards = [card(0), *(card(n, "familiarity") for n in (1, 2))]
    last = DAY - 3
    known = {
        cards[n].key: CardMemory(cards[n].key, last_day=last, met_day=last - 1, seen_day=last, tries=n)
        for n in (1, 2)
    }
    found = explain.explained(*small(cards, known), traits=plain)
    assert [(row.key, row.meetings) for row in found.here if row.part == "meet"] == [(cards[1].key, 1)]
    assert [(row.reason, row.until) for row in found.held] == [("resting", DAY + 4)]
