"""A week's focus: what it stands on, its third of a sitting, and its new cards first."""

from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from review import catalogue
from review.core import card_sets, focus, plan
from review.core.ground import Basis
from review.core.model import Card, CardMemory, Settings, Skill
from review.core.warmup import Plan
from tests.core.plans import lone
from tests.core.stock import DAY, card, grown

FOCUS = frozenset({"table-of-7"})


def skill(name: str, *after: str) -> Skill:
    return Skill(name, name, "sum", "accuracy", {}, after)


def test_it_stands_on_all_that_comes_before() -> None:
    """Followed by hand through a made-up chain."""
    after: dict[str, tuple[str, ...]] = {"a": (), "b": ("a",), "c": ("b", "a"), "d": ("c",), "e": ()}
    chain = {name: skill(name, *names) for name, names in after.items()}
    assert focus.skills_in_focus(chain, "c") == {"a", "b", "c"}
    assert focus.skills_in_focus(chain, "e") == {"e"}
    assert focus.skills_in_focus(chain, "dropped") == frozenset()
    ring = {"a": skill("a", "b"), "b": skill("b", "a", "gone")}
    assert focus.skills_in_focus(ring, "a") == {"a", "b"}


@given(st.integers(0, 30), st.integers(0, 30), st.sampled_from([3.0, 5.0, 10.0]), st.integers(0, 9))
@settings(deadline=None, max_examples=60)
def test_a_third_of_the_minutes_is_for_it_as_long_as_it_has_something_to_ask(
    mine: int, others: int, minutes: float, seed: int
) -> None:
    """With more due on both sides than fits: a third, to within a card. Else whatever there is."""
    cards = [card(n, skill="table-of-7" if n < mine else "others") for n in range(mine + others)]
    memory = {one.key: grown(one.key, 9.0, DAY - 30) for one in cards}
    found = planned(cards, memory, minutes, seed, FOCUS)
    spent = sum(item.seconds for item in found.items if item.key in {one.key for one in cards[:mine]})
    there = mine * found.items[0].seconds if found.items else 0.0
    assert spent >= min(there, minutes * 60 / 3) - 7 or not mine


def planned(
    cards: list[Card], memory: dict[str, CardMemory], minutes: float, seed: int, first: frozenset[str]
) -> Plan:
    return plan.plan(Basis(cards, memory, Settings(9, focus=first), DAY, minutes, traits=lone), Random(seed))


def test_it_comes_before_what_is_remembered_better() -> None:
    """Most remembered first is the rule among the due; the week's focus stands before it."""
    cards = [card(n, skill="table-of-7" if n < 5 else "others") for n in range(60)]
    memory = {one.key: grown(one.key, 2.0 if n < 5 else 20.0, DAY - 40) for n, one in enumerate(cards)}
    seven = {one.key for one in cards[:5]}
    assert not seven & {item.key for item in planned(cards, memory, 3, 1, frozenset()).items}
    assert seven <= {item.key for item in planned(cards, memory, 3, 1, FOCUS).items}


def test_it_takes_a_third_and_no_more_where_others_are_remembered_better() -> None:
    cards = [card(n, skill="table-of-7" if n < 60 else "others") for n in range(120)]
    memory = {one.key: grown(one.key, 2.0 if n < 60 else 20.0, DAY - 40) for n, one in enumerate(cards)}
    seven = {one.key for one in cards[:60]}
    for minutes in (3.0, 5.0, 9.0):
        items = planned(cards, memory, minutes, 1, FOCUS).items
        spent = sum(item.seconds for item in items if item.key in seven)
        assert abs(spent - minutes * 60 / 3) <= max(item.seconds for item in items)


def test_its_new_cards_come_before_other_new_ones() -> None:
    cards = [card(n, skill="others" if n < 20 else "table-of-7") for n in range(25)]
    new = [item.key for item in planned(cards, {}, 5, 1, FOCUS).items if item.why == "new"]
    assert new[:5] == [one.key for one in cards[20:]]
    assert new[5:8] == [one.key for one in cards[:3]]  # and then the others go on
    ordinary = [item.key for item in planned(cards, {}, 5, 1, frozenset()).items if item.why == "new"]
    assert ordinary[:5] == [one.key for one in cards[:5]]


def test_new_products_of_the_focus_come_first_and_no_more_a_week_than_ever() -> None:
    found = [catalogue.shipped(name) for name in ("times-2-5-10", "times-6-7-9")]
    cards = card_sets.cards(found)
    chosen = Settings(8, focus=frozenset({"table-of-9"}))
    new = [
        item.key for item in plan.plan(Basis(cards, {}, chosen, DAY, 5), Random(1)).items if item.why == "new"
    ]
    of_nine = {one.key for one in cards if "table-of-9" in (one.skill, *one.also)}
    assert set(new[:3]) <= of_nine
    met = CardMemory("", met_day=DAY - 1, intro_day=DAY - 1, seen_day=DAY - 1)
    begun = {one.key: met._replace(card=one.key) for one in cards[:4]}
    later = plan.plan(Basis(cards, begun, chosen, DAY, 5), Random(1))
    assert not [item for item in later.items if item.why == "new" and item.key.startswith("product")]


def test_without_a_focus_nothing_changes() -> None:
    cards = [card(n) for n in range(40)]
    memory = {one.key: grown(one.key, 9.0, DAY - 30) for one in cards[:20]}
    away = planned(cards, memory, 5, 3, frozenset({"not-there"}))
    assert away == planned(cards, memory, 5, 3, frozenset())
