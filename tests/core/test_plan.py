"""A day's warm-up: what always holds of it, what comes first, what fits the minutes. New cards have a room of
their own, `test_new_cards`, and the order of showing has `test_arrangement`."""

from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from review.core.ground import Basis
from review.core.model import AIMS, Card, CardMemory, Settings, Skill, Traits
from review.core.plan import open_skills, plan, ranked
from tests.core.plans import NINE, lone, planned, sure, traits
from tests.core.stock import DAY, card, grown

# --- any child ---


@st.composite
def children(draw: st.DrawFn) -> tuple[list[Card], dict[str, CardMemory], Settings]:
    cards, memory = [], {}
    for n in range(draw(st.integers(0, 30))):
        aim = draw(st.sampled_from(AIMS))
        one = card(n, aim, skill=draw(st.sampled_from(["sums", "later"])))
        cards.append(one)
        kind = draw(st.sampled_from(["new", "met", "measured", "measured", "aside"]))
        last = DAY - draw(st.integers(0, 40))
        if kind == "met":
            memory[one.key] = CardMemory(one.key, met_day=last, intro_day=last, seen_day=last)
        elif kind != "new":
            strength = draw(st.floats(0.2, 200))
            memory[one.key] = grown(one.key, strength, last, aside_day=last if kind == "aside" else 0)
    taught = draw(st.sampled_from([None, frozenset({"sums"}), frozenset({"sums", "later"})]))
    return cards, memory, Settings(draw(st.integers(6, 11)), taught=taught)


minutes = st.sampled_from([0.5, 1.0, 2.0, 5.0, 15.0])


@settings(deadline=None, max_examples=150)
@given(children(), minutes, st.integers(0, 9))
def test_what_always_holds_of_a_plan(
    child: tuple[list[Card], dict[str, CardMemory], Settings], length: float, seed: int
) -> None:
    cards, memory, chosen = child
    found = plan(Basis(cards, memory, chosen, DAY, length, traits=traits), Random(seed))
    every = [*found.items, *found.reserve]
    keys = [item.key for item in every]
    families = [traits(key).family for key in keys]
    by_key = {one.key: one for one in cards}
    assert len(set(keys)) == len(keys)
    assert len(set(families)) == len(families)
    assert sum(item.seconds for item in found.items) <= length * 60 or len(found.items) == 1
    assert all(chosen.taught is None or by_key[key].skill in chosen.taught for key in keys)
    assert all(key not in memory or memory[key].seen_day < DAY for key in keys)
    assert len(found.reserve) <= 4
    meets = [item for item in found.items if item.why == "meet"]
    assert len(meets) <= max(1, len(found.items) // 10)
    assert all((item.why == "meet") == (by_key[item.key].aim == "familiarity") for item in every)
    new = [item.why for item in found.items].count("new")
    assert new <= 1 if found.alone else not (found.too_much and new)


@settings(deadline=None)
@given(children(), st.randoms(use_true_random=False), st.integers(0, 9))
def test_the_same_seed_gives_the_same_plan_in_any_order(
    child: tuple[list[Card], dict[str, CardMemory], Settings], order: Random, seed: int
) -> None:
    cards, memory, chosen = child
    pairs = list(memory.items())
    shuffled = list(cards)
    order.shuffle(pairs)
    order.shuffle(shuffled)
    one = plan(Basis(cards, memory, chosen, DAY, 5, traits=traits), Random(seed))
    assert plan(Basis(shuffled, dict(pairs), chosen, DAY, 5, traits=traits), Random(seed)) == one
    assert ranked(Basis(shuffled, dict(pairs), chosen, DAY, 5, traits=traits)) == ranked(
        Basis(cards, memory, chosen, DAY, 5, traits=traits)
    )


# --- what comes first ---


def test_a_new_child_meets_new_cards_only() -> None:
    found = planned([card(n) for n in range(40)], {})
    assert {item.why for item in found.items} == {"new"}
    assert {item.key for item in found.items[:9]} <= {card(n).key for n in range(30)}
    assert 9 <= len(found.items) <= 30
    assert (found.pace, found.too_much, found.waiting) == (3, False, 0)


def test_due_cards_come_most_remembered_first() -> None:
    cards = [card(n) for n in range(4)]
    memory = {one.key: grown(one.key, 2.0, DAY - 4 - n) for n, one in enumerate(cards[:3])}
    memory[cards[3].key] = CardMemory(cards[3].key, met_day=DAY - 1, intro_day=DAY - 1)
    order = [item.key for item in ranked(Basis(cards, memory, NINE, DAY, 5, traits=lone))]
    assert order == [cards[n].key for n in (3, 0, 1, 2)]


def test_after_days_away_the_most_remembered_come_first_and_nothing_new() -> None:
    cards = [card(n) for n in range(9)]
    memory = {one.key: grown(one.key, 2.0 + n, DAY - 9) for n, one in enumerate(cards[:4])}
    found = [item.key for item in ranked(Basis(cards, memory, NINE, DAY, 5, traits=lone))]
    assert found == [cards[n].key for n in (3, 2, 1, 0)]
    assert not planned(cards, memory).too_much
    assert all(item.why != "new" for item in planned(cards, memory).items)


def test_cards_likely_to_slip_come_last_lowest_first() -> None:
    cards = [card(n) for n in range(3)]
    memory = {one.key: grown(one.key, s, DAY - 2) for one, s in zip(cards, (6.0, 5.0, 300.0), strict=True)}
    order = [(item.key, item.why) for item in ranked(Basis(cards, memory, NINE, DAY, 5, traits=lone))]
    assert order == [(cards[1].key, "slip"), (cards[0].key, "slip")]


def test_short_minutes_leave_due_cards_waiting() -> None:
    cards = [card(n) for n in range(40)]
    memory = {one.key: grown(one.key, 2.0, DAY - 4) for one in cards}
    found = planned(cards, memory, minutes=2)
    assert found.waiting == 40 - len(found.items)
    assert found.waiting > 10


# --- what waits for another ---


def test_a_partner_comes_first() -> None:
    product, quotient = card(1, kind="product"), card(2, kind="quotient")

    def partnered(key: str) -> Traits:
        return Traits(key, True, 6.0, partner=product.key if key == quotient.key else "")

    def keys(memory: dict[str, CardMemory]) -> set[str]:
        return {
            i.key
            for i in plan(Basis([product, quotient], memory, NINE, DAY, 5, traits=partnered), Random(1)).items
        }

    assert keys({}) == {product.key}
    weak = grown(product.key, 5, DAY - 1, right_days=1)
    assert quotient.key not in keys({product.key: weak})
    assert quotient.key in keys({product.key: weak._replace(right_days=2)})
    assert quotient.key in keys({product.key: weak._replace(placed=1)})


def test_earlier_skills_come_first() -> None:
    cards = [card(1), card(2), card(3, skill="later")]
    skills = {
        "sums": Skill("sums", "", "sum", "accuracy", {}),
        "later": Skill("later", "", "sum", "accuracy", {}, after=("sums", "not one of the child's")),
    }
    met = CardMemory(cards[0].key, met_day=DAY - 1)
    assert open_skills(skills, cards, {}) == {"sums"}
    assert open_skills(skills, cards, {met.card: met}) == {"sums", "later"}
    found = plan(Basis(cards, {}, NINE, DAY, 5, after_done={"sums"}, traits=lone), Random(1))
    assert {item.key for item in found.items} == {cards[0].key, cards[1].key}


# --- seconds ---


def test_expected_seconds_are_the_childs_own() -> None:
    cards = [card(n) for n in range(3)]
    memory = {
        cards[0].key: grown(cards[0].key, 2.0, DAY - 9, passed_ms=4000, passed_n=4, other_ms=8000, other_n=1),
        cards[1].key: grown(cards[1].key, 2.0, DAY - 9),
    }
    seconds = {item.key: item for item in ranked(Basis(cards[:2], memory, NINE, DAY - 1, 5, traits=lone))}
    assert {item.seconds for item in seconds.values()} == {seconds[cards[0].key].seconds}  # its kind's mean
    recall = seconds[cards[0].key].recall or 0
    assert seconds[cards[0].key].seconds == round(4 * recall + 8 * (1 - recall), 1)


def test_long_work_is_one_to_a_sitting_and_longer_on_paper_only() -> None:
    cards = [card(n) for n in range(4)]
    memory = {one.key: grown(one.key, 2.0, DAY - 4) for one in cards}
    lengths = dict(zip((one.key for one in cards), (40.0, 45.0, 70.0, 10.0), strict=True))

    def long(key: str) -> Traits:
        return Traits(key, False, lengths[key])

    typed = plan(Basis(cards, memory, NINE, DAY, 30, traits=long), Random(1))
    assert sorted(lengths[item.key] > 30 for item in typed.items) == [False, True]
    paper = plan(Basis(cards, memory, NINE, DAY, 30, traits=long, paper=True), Random(1))
    assert {item.key for item in paper.items} == set(lengths)


def test_what_takes_half_a_minute_is_not_long() -> None:
    """Over 30 seconds a card is long, and a typed sitting holds one of those."""
    cards = [card(n) for n in range(4)]
    due = {one.key: grown(one.key, 3, DAY - 9, gap=6) for one in cards}

    def fitting(seconds: float) -> int:
        found = plan(
            Basis(cards, due, NINE, DAY, 5, traits=lambda key: Traits(key, False, seconds)), Random(1)
        )
        return len(found.items)

    assert [fitting(30.0), fitting(30.5)] == [4, 1]


def test_a_turn_that_was_cut_off_leaves_the_card_free() -> None:
    one = card(1)
    cut = grown(one.key, 2.0, DAY - 4, seen_day=DAY, last_mark="void")
    assert [item.key for item in planned([one], {one.key: cut}).items] == [one.key]
    assert planned([one], {one.key: cut._replace(last_mark="right")}).items == ()


# --- days off ---


def test_what_falls_due_on_days_off_comes_before_new_cards() -> None:
    cards = [card(n) for n in range(6)]
    memory = {one.key: grown(one.key, 5.0, DAY - 2 - n) for n, one in enumerate(cards[:3])}  # due in 3, 2, 1
    off = NINE._replace(days_off=2)
    whys = {item.key: item.why for item in ranked(Basis(cards, memory, off, DAY, 5, traits=lone))}
    assert [whys[one.key] for one in cards[:3]] == ["slip", "early", "early"]
    order = [item.why for item in ranked(Basis(cards, memory, off, DAY, 5, traits=lone))]
    assert order.index("early") < order.index("new") < order.index("slip")
    assert "early" not in [item.why for item in ranked(Basis(cards, memory, NINE, DAY, 5, traits=lone))]
    assert [item.why for item in planned(cards, memory, settings=off).items].count("early") == 2


def test_early_cards_are_not_waiting_work() -> None:
    cards = [card(n) for n in range(60)]
    memory = {one.key: grown(one.key, 5.0, DAY - 3) for one in cards}
    found = planned(cards, memory, 1, settings=NINE._replace(days_off=3))
    assert found.waiting == 0
    assert not found.too_much


# --- both ends ---


def test_a_sitting_under_three_minutes_opens_with_one_sure_card() -> None:
    due = {card(n).key: grown(card(n).key, 10, DAY - 12, gap=6) for n in range(10, 40)}
    cards = [card(n) for n in range(40)]
    whys = [[item.why for item in planned(cards, due | sure(0, 8), minutes).items] for minutes in (2.9, 3)]
    assert [one.count("sure") for one in whys] == [2, 3]
    assert [one[:3] for one in whys] == [["sure", "due", "due"], ["sure", "sure", "due"]]
    assert [one[-1] for one in whys] == ["sure", "sure"]
