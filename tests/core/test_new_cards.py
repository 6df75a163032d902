"""Which new cards come on a day, and how many: by pace, by week, by the last first tries, by what waits."""

import pytest

from review.core import curve
from review.core.ground import Basis
from review.core.model import Card, CardMemory, Settings, Traits
from review.core.new_cards import offered, pace
from review.core.plan import ranked
from review.core.standing import NEW, Look, Standing
from review.core.warmup import Plan
from tests.core.plans import NINE, lone, planned, sure
from tests.core.stock import DAY, card, grown

# --- how many -----------------------------------------------------------------------------------------


def test_pace_by_age_or_as_set() -> None:
    assert [pace(Settings(age)) for age in (6, 7, 8, 9, 10, 11)] == [2, 2, 3, 3, 4, 4]
    assert pace(Settings(6, pace=9)) == 9


def test_what_was_met_today_counts_for_the_pace() -> None:
    cards = [card(n) for n in range(20)]
    met = {one.key: CardMemory(one.key, met_day=DAY, intro_day=DAY, seen_day=DAY) for one in cards[:2]}
    assert planned(cards, met).pace == 1
    assert [item.why for item in ranked(Basis(cards, met, NINE, DAY, 5, traits=lone))] == ["new"]
    met |= {one.key: CardMemory(one.key, met_day=DAY, intro_day=DAY, seen_day=DAY) for one in cards[2:3]}
    assert planned(cards, met).items == ()


def test_new_cards_past_the_pace_wait_for_what_may_slip() -> None:
    """As in the ranking: first the pace, then what is likely to slip, then new ones again."""
    well = (True,) * 10
    cards = [card(n) for n in range(60)]
    slipping = {card(n).key: grown(card(n).key, 9.0, DAY - 5) for n in range(40)}
    assert all(item.why != "due" for item in planned(cards, slipping, recent=well).items)
    assert planned(cards, slipping, minutes=3, recent=well).pace == pace(NINE)
    few = {key: slipping[key] for key in list(slipping)[:4]}
    assert planned(cards, few, recent=well).pace == 3 * pace(NINE)
    assert planned(cards, few, recent=(False, *well[1:])).pace == 3 * pace(NINE)  # nine of ten
    assert planned(cards, few, recent=(False, *well[1:-1], False)).pace == pace(NINE)
    assert planned(cards, few, recent=well, settings=Settings(9, pace=2)).pace == 2  # a parent's word stands


# --- whether any ---------------------------------------------------------------------------------------


def test_new_cards_wait_while_too_much_is_in_play() -> None:
    cards = [card(n) for n in range(50)]
    weak = {one.key: grown(one.key, 2.0, DAY - 5) for one in cards[:30]}
    found = planned(cards, weak)
    assert found.too_much
    assert {item.why for item in found.items} == {"due"}
    assert all(item.why == "due" for item in ranked(Basis(cards, weak, NINE, DAY, 5, traits=lone)))
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
        order = [item.why for item in ranked(Basis(cards, weak, NINE, DAY, 5, recent, traits=lone))]
        assert order == ["due"] * 12 + ["new"]


def test_none_comes_into_empty_minutes_after_many_misses_or_with_much_to_teach() -> None:
    cards = [card(n) for n in range(50)]
    weak = {one.key: grown(one.key, 2.0, DAY - 5) for one in cards[:12]}
    aside = {one.key: CardMemory(one.key, met_day=1, aside_day=DAY - 3) for one in cards[20:26]}
    missed = (False,) * 3 + (True,) * 7
    for memory, recent in ((weak, missed), (weak | aside, ())):
        assert not any(item.why == "new" for item in planned(cards, memory, recent=recent).items)
        assert all(
            item.why == "due" for item in ranked(Basis(cards, memory, NINE, DAY, 5, recent, traits=lone))
        )


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


@pytest.mark.parametrize(("others", "new"), [(0, 1), (1, 1), (2, 1), (3, 0), (4, 0)])
def test_after_many_misses_one_comes_only_beside_fewer_than_three(others: int, new: int) -> None:
    due = {card(n).key: grown(card(n).key, 6.0, DAY - 6) for n in range(others)}
    found = planned([card(n) for n in range(30)], due, recent=(False,) * 4 + (True,) * 6)
    assert [item.why for item in found.items].count("new") == new
    assert found.alone == bool(new)


@pytest.mark.parametrize(("recall", "wait"), [(0.75, False), (0.65, True)])
def test_new_cards_wait_where_more_than_one_and_a_half_misses_are_expected(recall: float, wait: bool) -> None:
    """Four cards that were met and never measured are 1.2 of them, at .7 each; a fifth .25 or .35. A sitting
    of five at .87 may miss fewer, so what decides is the number."""
    cards = [card(n) for n in range(30)]
    met = {one.key: CardMemory(one.key, met_day=DAY - 1, intro_day=DAY - 1) for one in cards[:4]}
    fifth = grown(cards[4].key, 3 / curve.interval(1, recall), DAY - 3)
    found = planned(cards, met | {fifth.card: fifth}, minutes=1.5)
    assert found.too_much == wait


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


def test_after_bad_days_one_new_card_comes_where_nothing_else_is_left() -> None:
    cards = [card(n) for n in range(10)]
    found = planned(cards, {}, recent=(False,) * 10)
    assert [item.why for item in found.items] == ["new"]
    assert found.alone
    assert len(planned(cards, {}).items) > 1


# --- whose turn it is ----------------------------------------------------------------------------------


def new_order(met: dict[str, int], sets: str = "abcd", each: int = 3) -> str:
    """The new cards of these sets in the order offered, by their sets; `met`: when a set had its last one."""
    cards = [
        Card(f"sum:1+{n}", "sum", name, name, "accuracy", n) for n, name in enumerate(sorted(sets * each))
    ]
    seen = [Card(f"sum:9+{n}", "sum", name, name, "accuracy", n) for n, name in enumerate(met)]
    memory = [grown(one.key, 9.0, DAY, met_day=met[one.set_id]) for one in seen]
    new = [Look(one, lone(one.key), None, NEW) for one in cards]
    old = [
        Look(one, lone(one.key), known, Standing("growing")) for one, known in zip(seen, memory, strict=True)
    ]
    found = offered(new, [*old, *new], 4, DAY, 9)
    assert sorted(look.card.key for look in found) == sorted(one.key for one in cards)  # each once
    for name in sets:  # and as they are taught
        orders = [look.card.order for look in found if look.card.set_id == name]
        assert orders == sorted(orders)
    return "".join(look.card.set_id for look in found)


def test_the_first_three_sets_take_turns_and_others_follow() -> None:
    assert new_order({}) == "abcabcabcddd"
    assert new_order({}, "ab") == "ababab"


def test_the_set_that_has_waited_longest_has_the_first_turn() -> None:
    """One that never had a new card has waited for ever."""
    assert new_order({"a": DAY - 1, "b": DAY - 5, "c": DAY - 3}) == "bcabcabcaddd"
    assert new_order({"a": DAY - 1, "b": DAY - 5}) == "cbacbacbaddd"
    assert new_order({"d": DAY - 9}) == "abcabcabcddd"


def test_of_a_set_the_last_new_card_tells_how_long_it_waited() -> None:
    cards = [Card(f"sum:1+{n}", "sum", "s", name, "accuracy", n) for n, name in enumerate("aabab")]
    met = [
        grown(one.key, 9.0, DAY, met_day=day)
        for one, day in zip(cards, (DAY - 1, DAY - 9, DAY - 5), strict=False)
    ]
    known = [Look(one, lone(one.key), its, Standing("growing")) for one, its in zip(cards, met, strict=False)]
    new = [Look(one, lone(one.key), None, NEW) for one in cards[3:]]
    assert [look.card.set_id for look in offered(new, [*known, *new], 4, DAY, 9)] == ["b", "a"]


# --- products of a week --------------------------------------------------------------------------------


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
        for item in ranked(Basis(cards, memory, NINE, day, 5, traits=product_traits)):
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
        found = ranked(Basis(products(), this_week, Settings(age), DAY, 5, traits=product_traits))
        assert sum(item.why == "new" for item in found) == new


@pytest.mark.parametrize(("right", "new"), [(7, 0), (8, 3), (9, 3), (10, 3)])
def test_more_products_a_week_once_eight_of_ten_are_right(right: int, new: int) -> None:
    """Four were begun this week already; with fewer right nothing new comes at all."""
    this_week = {one.key: grown(one.key, 200, DAY - 1, intro_day=DAY - 3) for one in products()[:4]}
    recent = [False] * (10 - right) + [True] * right
    found = ranked(Basis(products(), this_week, NINE, DAY, 5, recent, traits=product_traits))
    assert min(3, sum(item.why == "new" for item in found)) == new
    fewer = ranked(Basis(products(), this_week, NINE, DAY, 5, recent[:9], traits=product_traits))
    assert not any(item.why == "new" for item in fewer)


# --- a child's first days ------------------------------------------------------------------------------


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
