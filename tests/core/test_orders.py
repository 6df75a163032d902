"""Which way round a fact is missed clearly more often, and that it does not stay so for ever."""

from collections.abc import Sequence
from itertools import combinations
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import curve, memory, orders
from review.core.model import CardMemory
from review.core.orders import Harder, harder
from tests.core.stock import DAY, plain, row

KEY, ONE, OTHER = "product:6x7", "6x7", "7x6"
HARD = ((ONE, 6, 0), (OTHER, 6, 5))  # one in 132 by chance


def tallied(*counts: tuple[str, int, int], key: str = KEY, stability: float = 2.0) -> CardMemory:
    return CardMemory(key, stability, 5.0, tries=sum(tries for _, tries, _ in counts), orders=counts)


counts = st.integers(0, 9).flatmap(lambda tries: st.tuples(st.just(tries), st.integers(0, tries)))


# --- the chance ---------------------------------------------------------------------------------------


def test_the_chance_is_that_of_the_lady_who_tasted_tea() -> None:
    """R. A. Fisher, The Design of Experiments (1935), chapter 2: of eight cups, four of them with the milk in
    first, all four are told by chance once in 70 times, and at least three 17 times (figures from memory)."""
    assert orders.by_chance(4, 4, 4, 0) == pytest.approx(1 / 70)
    assert orders.by_chance(4, 3, 4, 1) == pytest.approx(17 / 70)


few = st.integers(0, 7).flatmap(lambda tries: st.tuples(st.just(tries), st.integers(0, tries)))


@given(few, few)
def test_the_chance_is_the_share_of_all_ways_to_place_the_misses(
    one: tuple[int, int], other: tuple[int, int]
) -> None:
    """Counted out: every choice of so many tries among all of them is as likely as another."""
    (tries, misses), (others, missed) = one, other
    ways = list(combinations(range(tries + others), misses + missed))
    as_many = sum(sum(n < tries for n in way) >= misses for way in ways)
    assert orders.by_chance(tries, misses, others, missed) == pytest.approx(as_many / len(ways))


# --- what is named ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "other", "named"),
    [
        ((6, 0), (6, 5), OTHER),
        ((6, 5), (6, 0), ONE),
        ((5, 0), (3, 3), OTHER),  # one in 56
        ((4, 0), (3, 3), ""),  # one in 35
        ((20, 0), (2, 2), ""),  # two misses are too few, however rare
        ((0, 0), (9, 9), ""),  # nothing to hold it against
        ((40, 12), (40, 23), ""),  # one in 97, and not twice as often
        ((40, 11), (40, 23), OTHER),
        ((20, 6), (20, 6), ""),
        ((6, 0), (6, 0), ""),
    ],
)
def test_clearly_more_often(one: tuple[int, int], other: tuple[int, int], named: str) -> None:
    found = harder(tallied((ONE, *one), (OTHER, *other)))
    assert (found.asked if found else "") == named
    assert found is None or found.than == ({ONE, OTHER} - {named}).pop()


@given(counts, counts, st.sampled_from([0, 1, 5, 13.9, 14, 60, None]))
def test_what_is_named_is_missed_more_often_and_the_sides_do_not_matter(
    one: tuple[int, int], other: tuple[int, int], stability: float | None
) -> None:
    memory = tallied((ONE, *one), (OTHER, *other))._replace(stability=stability)
    found = harder(memory)
    turned = harder(memory._replace(orders=((ONE, *other), (OTHER, *one))))
    assert (found is None) == (turned is None)
    if found is None or turned is None:
        return
    assert (found.asked, found.than) == (turned.than, turned.asked)
    (tries, misses), (others, missed) = (one, other) if found.asked == ONE else (other, one)
    assert misses >= orders.MISSES
    assert misses * others >= orders.TIMES * missed * tries
    assert (stability or 0.0) < curve.CAP


@pytest.mark.parametrize(
    ("key", "one", "other"),
    [
        ("sum:8+9", "8+9", "9+8"),
        ("product:6x7", "6x7", "7x6"),
        ("sum:_+5=12", "_+5=12", "5+_=12"),
        ("product:_x6=42", "_x6=42", "6x_=42"),
    ],
)
def test_sums_and_products_alike_also_with_a_number_missing(key: str, one: str, other: str) -> None:
    assert harder(tallied((one, 6, 5), (other, 6, 0), key=key)) == Harder(one, other)


@pytest.mark.parametrize(
    ("key", "some"),
    [
        ("product:6x6", (("6x6", 9, 9),)),
        ("bond:10=3+7", (("10=3+_", 6, 0), ("10=_+3", 6, 5))),  # four forms, not two orders
        ("product:6x7", (("6x7", 6, 0), ("9x9", 6, 5))),  # a row from elsewhere: the card never asks that
        ("product:6x7", ()),
        ("quotient:42/7", ()),
    ],
)
def test_what_has_no_two_orders_is_left_alone(key: str, some: Sequence[tuple[str, int, int]]) -> None:
    assert harder(tallied(*some, key=key)) is None
    assert harder(None) is None


def test_of_many_cards_those_that_are_named() -> None:
    known = {KEY: tallied(*HARD), "sum:8+9": tallied(("8+9", 9, 3), ("9+8", 9, 3), key="sum:8+9")}
    assert orders.asked_more(known, [*known, "product:3x4"]) == {KEY: OTHER}
    assert orders.asked_more(known, ["sum:8+9"]) == {}


# --- chance is not named ------------------------------------------------------------------------------


def life(random: Random, chances: tuple[float, float], tries: int) -> list[bool]:
    """Whether an order is named after each first try of a card, asked as a sitting would."""
    tally, named = {ONE: [0, 0], OTHER: [0, 0]}, []
    found = None
    for _ in range(tries):
        asked = random.choice((ONE, OTHER))
        if found and random.random() < 0.5:
            asked = found.asked
        tally[asked][0] += 1
        tally[asked][1] += random.random() < chances[asked == OTHER]
        found = harder(tallied(*((key, tried, missed) for key, (tried, missed) in tally.items())))
        named.append(found is not None)
    return named


def test_who_misses_at_random_is_hardly_ever_told_of() -> None:
    """Misses of 30%, twenty tries. Three misses at twice the rate, without a thought of chance, would be told
    of four in ten of such cards (measured here)."""
    lives = [life(Random(n), (0.3, 0.3), 20) for n in range(1500)]
    assert sum(named[-1] for named in lives) <= 0.02 * len(lives)
    assert sum(map(any, lives)) <= 0.05 * len(lives)


def test_a_clear_difference_is_found() -> None:
    lives = [life(Random(n), (0.1, 0.6), 40) for n in range(300)]
    assert sum(map(any, lives)) >= 0.8 * len(lives)


# --- and not for ever ---------------------------------------------------------------------------------


@given(st.integers(3, 60), st.integers(3, 60))
def test_what_was_missed_long_ago_and_is_right_since_is_asked_evenly_again(misses: int, rights: int) -> None:
    """However long the one order was missed and the other right: once both are right, it takes eleven askings
    at most, some six weeks (measured here, after three to sixty misses)."""
    asked = [ONE] * rights + [OTHER] * misses
    marks = ["right"] * rights + ["not_yet"] * misses
    events = [
        row(n, DAY + n, {"asked": ask, "mark": mark, "age": 9}, KEY)
        for n, (ask, mark) in enumerate(zip(asked, marks, strict=True))
    ]
    now = memory.fold(events, plain)[KEY]
    day, more = now.last_day, 0
    while harder(now):
        day += max(1, round(now.stability or 1.0))
        more += 1
        events.append(row(1000 + more, day, {"asked": OTHER, "mark": "right", "age": 9}, KEY))
        now = memory.fold(events, plain)[KEY]
    assert more <= 12
    assert {asked: missed for asked, _, missed in now.orders}[OTHER] == misses


def test_a_card_that_holds_is_asked_evenly() -> None:
    assert harder(tallied(*HARD)) == Harder(OTHER, ONE)
    assert harder(tallied(*HARD, stability=13.9)) == Harder(OTHER, ONE)
    assert harder(tallied(*HARD, stability=14.0)) is None
    back = tallied(*HARD)._replace(stability=None, aside_day=0)  # set aside, and new again
    assert harder(back) == Harder(OTHER, ONE)
