from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core.model import AIMS, Card, CardMemory, Settings, Skill, Traits
from review.core.plan import open_skills, pace, plan, ranked
from review.core.warmup import Plan
from tests.core.stock import DAY, UNCORRECTED, card, grown

NINE = Settings(9, habits=UNCORRECTED)


def traits(key: str) -> Traits:
    """Groups by the last digit, families by twos: `1+4` and `1+5`."""
    number = int(key.rpartition("+")[2])
    return Traits(key, True, 6.0, frozenset({f"ends {number % 10}"}), family=f"f{number // 2}")


def lone(key: str) -> Traits:
    return Traits(key, True, 6.0)


def planned(
    cards: list[Card],
    memory: dict[str, CardMemory],
    minutes: float = 5,
    seed: int = 1,
    recent: tuple[bool, ...] = (),
    settings: Settings = NINE,
) -> Plan:
    return plan(cards, memory, settings, DAY, minutes, Random(seed), recent, traits=lone)


def sure(first: int, last: int) -> dict[str, CardMemory]:
    return {card(n).key: grown(card(n).key, 100, DAY - 5, gap=2) for n in range(first, last)}


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
    found = plan(cards, memory, chosen, DAY, length, Random(seed), traits=traits)
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
    one = plan(cards, memory, chosen, DAY, 5, Random(seed), traits=traits)
    assert plan(shuffled, dict(pairs), chosen, DAY, 5, Random(seed), traits=traits) == one
    assert ranked(shuffled, dict(pairs), chosen, DAY, 5, traits=traits) == ranked(
        cards, memory, chosen, DAY, 5, traits=traits
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
    order = [item.key for item in ranked(cards, memory, NINE, DAY, 5, traits=lone)]
    assert order == [cards[n].key for n in (3, 0, 1, 2)]


def test_after_days_away_the_most_remembered_come_first_and_nothing_new() -> None:
    cards = [card(n) for n in range(9)]
    memory = {one.key: grown(one.key, 2.0 + n, DAY - 9) for n, one in enumerate(cards[:4])}
    found = [item.key for item in ranked(cards, memory, NINE, DAY, 5, traits=lone)]
    assert found == [cards[n].key for n in (3, 2, 1, 0)]
    assert not planned(cards, memory).too_much
    assert all(item.why != "new" for item in planned(cards, memory).items)


def test_cards_likely_to_slip_come_last_lowest_first() -> None:
    cards = [card(n) for n in range(3)]
    memory = {one.key: grown(one.key, s, DAY - 2) for one, s in zip(cards, (6.0, 5.0, 300.0), strict=True)}
    order = [(item.key, item.why) for item in ranked(cards, memory, NINE, DAY, 5, traits=lone)]
    assert order == [(cards[1].key, "slip"), (cards[0].key, "slip")]


def test_short_minutes_leave_due_cards_waiting() -> None:
    cards = [card(n) for n in range(40)]
    memory = {one.key: grown(one.key, 2.0, DAY - 4) for one in cards}
    found = planned(cards, memory, minutes=2)
    assert found.waiting == 40 - len(found.items)
    assert found.waiting > 10


# --- new cards ---


def test_pace_by_age_or_as_set() -> None:
    assert [pace(Settings(age)) for age in (6, 7, 8, 9, 10, 11)] == [2, 2, 3, 3, 4, 4]
    assert pace(Settings(6, pace=9)) == 9


def test_what_was_met_today_counts_for_the_pace() -> None:
    cards = [card(n) for n in range(20)]
    met = {one.key: CardMemory(one.key, met_day=DAY, intro_day=DAY, seen_day=DAY) for one in cards[:2]}
    assert planned(cards, met).pace == 1
    assert [item.why for item in ranked(cards, met, NINE, DAY, 5, traits=lone)] == ["new"]
    met |= {one.key: CardMemory(one.key, met_day=DAY, intro_day=DAY, seen_day=DAY) for one in cards[2:3]}
    assert planned(cards, met).items == ()


def test_new_cards_wait_while_too_much_is_in_play() -> None:
    cards = [card(n) for n in range(50)]
    weak = {one.key: grown(one.key, 2.0, DAY - 5) for one in cards[:30]}
    found = planned(cards, weak)
    assert found.too_much
    assert {item.why for item in found.items} == {"due"}
    assert all(item.why == "due" for item in ranked(cards, weak, NINE, DAY, 5, traits=lone))
    strong = sure(0, 20)
    assert not planned(cards, strong).too_much
    assert any(item.why == "new" for item in planned(cards, strong).items)


def test_one_new_card_comes_where_most_of_the_minutes_would_be_left_empty() -> None:
    """A child for whom all was hard at first had the same few cards for weeks, right every day."""
    cards = [card(n) for n in range(50)]
    weak = {one.key: grown(one.key, 2.0, DAY - 5) for one in cards[:12]}
    for recent in ((), (True,) * 10, (False,) * 2 + (True,) * 8):
        found = planned(cards, weak, recent=recent)
        assert found.too_much
        assert found.alone
        assert [item.why for item in found.items].count("new") == 1
        order = [item.why for item in ranked(cards, weak, NINE, DAY, 5, recent, traits=lone)]
        assert order == ["due"] * 12 + ["new"]


def test_none_comes_into_empty_minutes_after_many_misses_or_with_much_to_teach() -> None:
    cards = [card(n) for n in range(50)]
    weak = {one.key: grown(one.key, 2.0, DAY - 5) for one in cards[:12]}
    aside = {one.key: CardMemory(one.key, met_day=1, aside_day=DAY - 3) for one in cards[20:26]}
    missed = (False,) * 3 + (True,) * 7
    for memory, recent in ((weak, missed), (weak | aside, ())):
        assert not any(item.why == "new" for item in planned(cards, memory, recent=recent).items)
        assert all(item.why == "due" for item in ranked(cards, memory, NINE, DAY, 5, recent, traits=lone))


def test_new_cards_wait_after_many_misses() -> None:
    cards = [card(n) for n in range(30)]
    for right in (7, 8):
        recent = tuple([False] * (10 - right) + [True] * right)
        found = planned(cards, sure(0, 20), recent=recent)
        new = [item for item in found.items if item.why == "new"]
        assert found.too_much == (right < 8)
        assert found.alone  # the sitting itself would let no new card in
        assert len(new) == 1  # one, since nothing else is left to ask


def test_no_new_card_comes_after_many_misses_while_there_is_other_work() -> None:
    cards = [card(n) for n in range(30)]
    memory = {**sure(0, 10), **{f"sum:1+{n}": grown(f"sum:1+{n}", 3.0, DAY - 9) for n in range(10, 16)}}
    found = planned(cards, memory, recent=(False,) * 4 + (True,) * 6)
    assert all(item.why != "new" for item in found.items)
    assert not found.alone


def test_a_partner_comes_first() -> None:
    product, quotient = card(1, kind="product"), card(2, kind="quotient")

    def partnered(key: str) -> Traits:
        return Traits(key, True, 6.0, partner=product.key if key == quotient.key else "")

    def keys(memory: dict[str, CardMemory]) -> set[str]:
        return {
            i.key for i in plan([product, quotient], memory, NINE, DAY, 5, Random(1), traits=partnered).items
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
    found = plan(cards, {}, NINE, DAY, 5, Random(1), after_done={"sums"}, traits=lone)
    assert {item.key for item in found.items} == {cards[0].key, cards[1].key}


def products() -> list[Card]:
    pairs = [(a, b) for b in range(2, 10) for a in range(2, b + 1)]
    return [
        Card(f"product:{a}x{b}", "product", "tables", "set", "fluency", n) for n, (a, b) in enumerate(pairs)
    ]


def product_traits(key: str) -> Traits:
    """Every two digits among operands and product, as De Visscher & Noel (2014) count them (from memory)."""
    a, b = map(int, key.removeprefix("product:").split("x"))
    digits = f"{a}{b}{a * b}"
    pairs = {"".join(sorted(x + y)) for n, x in enumerate(digits) for y in digits[n + 1 :]}
    return Traits(key, True, 6.0, digit_pairs=frozenset(pairs))


def shared(keys: list[str]) -> int:
    pairs = [product_traits(key).digit_pairs for key in keys]
    return sum(len(a & b) for n, a in enumerate(pairs) for b in pairs[:n])


def test_few_new_products_a_week_and_unlike_each_other() -> None:
    cards = products()[10:]
    memory: dict[str, CardMemory] = {}
    met: list[str] = []
    for day in range(DAY, DAY + 7):
        for item in ranked(cards, memory, NINE, day, 5, traits=product_traits):
            if item.why == "new":
                met.append(item.key)
                memory[item.key] = CardMemory(item.key, met_day=day, intro_day=day, seen_day=day)
        memory = {
            k: m if m.intro_day == day else grown(k, 200, day, intro_day=m.intro_day)
            for k, m in memory.items()
        }
    assert len(met) == 4
    assert shared(met) <= 1 < shared([one.key for one in cards[:4]])


def test_ten_year_olds_meet_seven_products_a_week() -> None:
    this_week = {
        one.key: grown(one.key, 200, DAY - 1, intro_day=DAY - 6 + n % 6)
        for n, one in enumerate(products()[:6])
    }
    for age, new in ((9, 0), (10, 1)):
        found = ranked(products(), this_week, Settings(age), DAY, 5, traits=product_traits)
        assert sum(item.why == "new" for item in found) == new


@pytest.mark.parametrize(("right", "new"), [(7, 0), (8, 3), (9, 3), (10, 3)])
def test_more_products_a_week_once_eight_of_ten_are_right(right: int, new: int) -> None:
    """Four were begun this week already; with fewer right nothing new comes at all."""
    this_week = {one.key: grown(one.key, 200, DAY - 1, intro_day=DAY - 3) for one in products()[:4]}
    recent = [False] * (10 - right) + [True] * right
    found = ranked(products(), this_week, NINE, DAY, 5, recent, traits=product_traits)
    assert min(3, sum(item.why == "new" for item in found)) == new
    fewer = ranked(products(), this_week, NINE, DAY, 5, recent[:9], traits=product_traits)
    assert not any(item.why == "new" for item in fewer)


# --- seconds ---


def test_expected_seconds_are_the_childs_own() -> None:
    cards = [card(n) for n in range(3)]
    memory = {
        cards[0].key: grown(cards[0].key, 2.0, DAY - 9, passed_ms=4000, passed_n=4, other_ms=8000, other_n=1),
        cards[1].key: grown(cards[1].key, 2.0, DAY - 9),
    }
    seconds = {item.key: item for item in ranked(cards[:2], memory, NINE, DAY - 1, 5, traits=lone)}
    assert {item.seconds for item in seconds.values()} == {seconds[cards[0].key].seconds}  # its kind's mean
    recall = seconds[cards[0].key].recall or 0
    assert seconds[cards[0].key].seconds == round(4 * recall + 8 * (1 - recall), 1)


def test_long_work_is_one_to_a_sitting_and_longer_on_paper_only() -> None:
    cards = [card(n) for n in range(4)]
    memory = {one.key: grown(one.key, 2.0, DAY - 4) for one in cards}
    lengths = dict(zip((one.key for one in cards), (40.0, 45.0, 70.0, 10.0), strict=True))

    def long(key: str) -> Traits:
        return Traits(key, False, lengths[key])

    typed = plan(cards, memory, NINE, DAY, 30, Random(1), traits=long)
    assert sorted(lengths[item.key] > 30 for item in typed.items) == [False, True]
    paper = plan(cards, memory, NINE, DAY, 30, Random(1), traits=long, paper=True)
    assert {item.key for item in paper.items} == set(lengths)


def test_a_turn_that_was_cut_off_leaves_the_card_free() -> None:
    one = card(1)
    cut = grown(one.key, 2.0, DAY - 4, seen_day=DAY, last_mark="void")
    assert [item.key for item in planned([one], {one.key: cut}).items] == [one.key]
    assert planned([one], {one.key: cut._replace(last_mark="right")}).items == ()


# --- set aside ---


def test_new_cards_wait_while_much_is_to_be_taught() -> None:
    cards = [card(n) for n in range(40)]
    for count in (5, 6):
        aside = {
            card(n).key: grown(card(n).key, 1.0, DAY - 1, aside_day=DAY - 1) for n in range(20, 20 + count)
        }
        found = planned(cards, {**sure(0, 12), **aside})
        due = {card(n).key: grown(card(n).key, 3.0, DAY - 9) for n in range(12, 18)}
        busy = planned(cards, {**sure(0, 12), **aside, **due}, minutes=9)
        assert (found.too_much, busy.too_much) == (count == 6, count == 6)
        assert ("new" in [item.why for item in busy.items]) == (count == 5)


# --- more new cards where it goes well ---


def test_new_cards_past_the_pace_wait_for_what_may_slip() -> None:
    """As in the ranking: first the pace, then what is likely to slip, then new ones again."""
    well = (True,) * 10
    cards = [card(n) for n in range(60)]
    slipping = {card(n).key: grown(card(n).key, 9.0, DAY - 5) for n in range(40)}
    assert all(item.why != "due" for item in planned(cards, slipping, recent=well).items)
    assert planned(cards, slipping, minutes=3, recent=well).pace == pace(NINE)
    few = {key: slipping[key] for key in list(slipping)[:4]}
    assert planned(cards, few, recent=well).pace == 3 * pace(NINE)
    assert planned(cards, few, recent=(False, *well[1:-1], False)).pace == pace(NINE)
    assert planned(cards, few, recent=well, settings=Settings(9, pace=2)).pace == 2  # a parent's word stands


# --- days off ---


def test_what_falls_due_on_days_off_comes_before_new_cards() -> None:
    cards = [card(n) for n in range(6)]
    memory = {one.key: grown(one.key, 5.0, DAY - 2 - n) for n, one in enumerate(cards[:3])}  # due in 3, 2, 1
    off = NINE._replace(days_off=2)
    whys = {item.key: item.why for item in ranked(cards, memory, off, DAY, 5, traits=lone)}
    assert [whys[one.key] for one in cards[:3]] == ["slip", "early", "early"]
    order = [item.why for item in ranked(cards, memory, off, DAY, 5, traits=lone)]
    assert order.index("early") < order.index("new") < order.index("slip")
    assert "early" not in [item.why for item in ranked(cards, memory, NINE, DAY, 5, traits=lone)]
    assert [item.why for item in planned(cards, memory, settings=off).items].count("early") == 2


def test_early_cards_are_not_waiting_work() -> None:
    cards = [card(n) for n in range(60)]
    memory = {one.key: grown(one.key, 5.0, DAY - 3) for one in cards}
    found = planned(cards, memory, 1, settings=NINE._replace(days_off=3))
    assert found.waiting == 0
    assert not found.too_much


# --- a child's first days ---


def begun(day: int, cards: int) -> dict[str, CardMemory]:
    """Cards met on the child's first day, and known since."""
    return {
        card(n).key: CardMemory(
            card(n).key, 7.0, 5.0, day, day, day, tries=1, right=1, right_days=1, placed=1, last_mark="right"
        )
        for n in range(cards)
    }


def new_of(found: Plan) -> int:
    return sum(item.why == "new" for item in found.items)


def test_on_the_first_three_days_one_new_card_comes_between_others() -> None:
    """A teacher's judgement. On the very first day there is nothing to put around it."""
    cards = [card(n) for n in range(40)]
    assert planned(cards, {}).pace == pace(NINE)
    second = begun(DAY - 1, 8)
    assert planned(cards, second).pace == 1
    third = second | {card(0).key: grown(card(0).key, 9.0, DAY - 1, tries=2)}
    third[card(1).key] = second[card(1).key]._replace(met_day=DAY - 2, last_day=DAY - 2, seen_day=DAY - 2)
    assert planned(cards, third).pace == 1
    fourth = third | {card(2).key: grown(card(2).key, 9.0, DAY - 1, tries=3)}
    assert planned(cards, fourth).pace == pace(NINE)


def test_with_next_to_nothing_to_put_around_it_the_pace_stands() -> None:
    cards = [card(n) for n in range(40)]
    assert planned(cards, begun(DAY - 1, 2)).pace == pace(NINE)
    assert new_of(planned(cards, begun(DAY - 1, 2))) > 1


def test_a_pace_a_parent_has_set_stands_from_the_first_day() -> None:
    cards = [card(n) for n in range(40)]
    assert planned(cards, begun(DAY - 1, 8), settings=Settings(9, pace=5)).pace == 5


def test_a_sitting_under_three_minutes_opens_with_one_sure_card() -> None:
    due = {card(n).key: grown(card(n).key, 10, DAY - 12, gap=6) for n in range(10, 40)}
    cards = [card(n) for n in range(40)]
    whys = [[item.why for item in planned(cards, due | sure(0, 8), minutes).items] for minutes in (2.9, 3)]
    assert [one.count("sure") for one in whys] == [2, 3]
    assert [one[:3] for one in whys] == [["sure", "due", "due"], ["sure", "sure", "due"]]
    assert [one[-1] for one in whys] == ["sure", "sure"]


def test_what_takes_half_a_minute_is_not_long() -> None:
    """Over 30 seconds a card is long, and a typed sitting holds one of those."""
    cards = [card(n) for n in range(4)]
    due = {one.key: grown(one.key, 3, DAY - 9, gap=6) for one in cards}

    def fitting(seconds: float) -> int:
        found = plan(cards, due, NINE, DAY, 5, Random(1), traits=lambda key: Traits(key, False, seconds))
        return len(found.items)

    assert [fitting(30.0), fitting(30.5)] == [4, 1]


def test_after_bad_days_one_new_card_comes_where_nothing_else_is_left() -> None:
    cards = [card(n) for n in range(10)]
    found = planned(cards, {}, recent=(False,) * 10)
    assert [item.why for item in found.items] == ["new"]
    assert found.alone
    assert len(planned(cards, {}).items) > 1
