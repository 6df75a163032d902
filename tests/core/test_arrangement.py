"""The order a plan is shown in: sure ends, nothing alike twice running, new cards apart."""

from itertools import pairwise, permutations
from random import Random

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from review.core.arrangement import LEAD, SMALL, arranged, clash
from review.core.ground import SURE, Basis
from review.core.plan import plan
from review.core.warmup import PlanItem
from tests.core.plans import NINE, planned, sure, traits
from tests.core.stock import DAY, card, grown


def test_sure_cards_at_both_ends_and_new_ones_between() -> None:
    cards = [card(n) for n in range(40)]
    memory = sure(0, 15) | {card(n).key: grown(card(n).key, 8.0, DAY - 9) for n in range(15, 20)}
    found = planned(cards, memory)
    whys = [item.why for item in found.items]
    assert whys[0] == whys[1] == whys[-1] == "sure"
    assert "new" in whys
    assert "new" not in (*whys[:3], whys[-1])
    assert len(found.reserve) == 4
    assert all((item.recall or 0) >= SURE for item in found.reserve)


def test_sure_cards_change_from_day_to_day() -> None:
    cards = [card(n) for n in range(30)]
    firsts = {planned(cards, sure(0, 15), seed=seed).items[0].key for seed in range(20)}
    assert len(firsts) > 5


def items(groups: list[set[str]]) -> tuple[list[PlanItem], dict[str, frozenset[str]]]:
    made = [PlanItem(f"k{n}", "due", 5.0, 0.5 + n / 100) for n in range(len(groups))]
    return made, {item.key: frozenset(group) for item, group in zip(made, groups, strict=True)}


def clashes(order: tuple[PlanItem, ...], groups: dict[str, frozenset[str]]) -> int:
    return sum(clash(a, b, groups) for a, b in pairwise(order))


few = st.lists(st.sets(st.sampled_from("abcd"), max_size=2), max_size=6)


@settings(deadline=None)
@given(few, st.integers(1, 2), st.data())
def test_a_clash_free_order_is_found_where_there_is_one(
    wanted: list[set[str]], openers: int, data: st.DataObject
) -> None:
    made, groups = items(wanted)
    made = [item._replace(why="new") if data.draw(st.booleans()) else item for item in made]
    order = arranged(made, groups, openers, Random(1))
    assert sorted(order) == sorted(made)
    free = [other for other in permutations(made) if clashes(other, groups) == 0]
    assert clashes(order, groups) == 0 or not free
    old = sum(item.why == "due" for item in made)

    def well_placed(other: tuple[PlanItem, ...]) -> bool:
        """No new card among the first three, as far as there are others for them, nor last."""
        return old < 2 or all(item.why == "due" for item in (*other[: min(LEAD, old - 1)], other[-1]))

    assert well_placed(order) or not any(map(well_placed, free))


@settings(deadline=None)
@given(st.lists(st.sampled_from("abcdefgh"), min_size=8, max_size=60), st.integers(0, 99))
def test_many_cards_are_kept_apart(wanted: list[str], seed: int) -> None:
    assume(max(map(wanted.count, wanted)) <= len(wanted) // 3)
    made, groups = items([{one} for one in wanted])
    order = arranged(made, groups, 2, Random(seed))
    assert sorted(order) == sorted(made)
    assert clashes(order, groups) == 0


@settings(deadline=None)
@given(st.lists(st.sets(st.sampled_from("abcdef"), max_size=2), min_size=4, max_size=40), st.data())
def test_new_cards_are_not_at_the_ends_of_a_full_plan(wanted: list[set[str]], data: st.DataObject) -> None:
    made, groups = items(wanted)
    fresh = [PlanItem(f"n{n}", "new", 9.0, None) for n in range(data.draw(st.integers(0, 12)))]
    assume(len(made) + len(fresh) > SMALL)
    order = arranged([*fresh, *made], groups, 2, Random(1))
    whys = [item.why for item in order]
    assert sorted(order) == sorted([*fresh, *made])
    assert "new" not in (*whys[:LEAD], whys[-1])


def test_another_card_closes_where_the_surest_would_clash() -> None:
    made, groups = items([set(), set(), {"a"}, set(), {"a"}])  # the last is new, the one to close like it
    made[4] = made[4]._replace(why="new", recall=None)
    for seed in range(20):
        order = arranged(made, groups, 1, Random(seed))
        assert clashes(order, groups) == 0
        assert "new" not in (*(item.why for item in order[:3]), order[-1].why)


def test_new_cards_are_spread() -> None:
    made, groups = items([set() for _ in range(20)])
    fresh = [PlanItem(f"n{n}", "new", 9.0, None) for n in range(3)]
    whys = [item.why for item in arranged([*fresh, *made], groups, 2, Random(1))]
    places = [n for n, why in enumerate(whys) if why == "new"]
    assert all(4 <= b - a <= 7 for a, b in pairwise(places))


def test_a_large_plan_is_arranged_in_good_time() -> None:
    cards = [card(n) for n in range(1500)]
    memory = {one.key: grown(one.key, 3.0, DAY - 5) for one in cards}
    found = plan(Basis(cards, memory, NINE, DAY, 600, traits=traits), Random(0))
    assert len(found.items) == 750
    assert clashes(found.items, {one.key: traits(one.key).groups for one in cards}) == 0


def test_new_cards_keep_the_order_they_are_taught_in() -> None:
    """Also where the keys sort otherwise, as 1 + 10 before 1 + 2."""
    cards = [card(n) for n in range(30)]
    shown = [item.key for item in planned(cards, sure(0, 8)).items if item.why == "new"]
    taught = [one.key for one in cards if one.key in shown]
    assert len(shown) > 3
    assert shown == taught != sorted(shown)
