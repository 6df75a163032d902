"""Which way round a fact is missed clearly more often than the other: 7 × 6, where 6 × 7 is known.

Both orders stay one card, with one memory. The one that is harder is asked more often until the card holds or
the difference is gone; the other still comes.
"""

from collections.abc import Iterable, Mapping
from math import comb
from typing import NamedTuple

from review.core import curve
from review.core.model import CardMemory

MISSES = 3  # at first tries, of the one order
TIMES = 2  # as often as the other, counted by tries
BY_CHANCE = 1 / 50
"""What is said to be clear (our judgement). Three misses at twice the rate alone would name 40 in 100 cards
of a child who misses 30% of both orders, after 20 first tries. With so small a chance it is 1 in 100, 2 at
some time of the 20, and 6 at some time of 40. A child who misses half of the one order and a tenth of the
other is found out in 33 of 100 cards within 20 tries, in 76 within 40. At one in twenty 8 in 100 would be
named falsely within 20 (4,000 cards each, measured here)."""

Count = tuple[str, int, int]  # asked, tries, misses


class Harder(NamedTuple):
    """The order that is missed more often, and the other, as they are asked."""

    asked: str
    than: str


def harder(memory: CardMemory | None) -> Harder | None:
    """None where no order is clearly harder, and of what holds.

    A tally is of a whole life: after sixty misses, asking that order three times in four never outweighs
    them. So whatever was missed once, a card that holds for the longest first gap is asked evenly: after
    eleven right answers at most, some six weeks (measured here). A new miss takes it back under that.
    """
    if memory is None or (memory.stability or 0.0) >= curve.CAP:
        return None
    clear = [Harder(one[0], other[0]) for one, other in _pairs(memory.orders) if _is_clear(one, other)]
    return clear[0] if clear and _are_its_orders(memory.card, clear[0]) else None


def asked_more(known: Mapping[str, CardMemory], cards: Iterable[str]) -> dict[str, str]:
    """Of these cards, those of which one order is asked more often, and which."""
    found = {key: harder(known.get(key)) for key in cards}
    return {key: one.asked for key, one in found.items() if one}


def by_chance(tries: int, misses: int, others: int, missed: int) -> float:
    """How likely at least so many of all the misses are of the one order, if which order it is says nothing:
    Fisher's exact test, one-sided."""
    every = misses + missed
    ways = sum(comb(tries, n) * comb(others, every - n) for n in range(misses, min(every, tries) + 1))
    return ways / comb(tries + others, every)


def _pairs(tally: tuple[Count, ...]) -> tuple[tuple[Count, Count], ...]:
    """Both ways round; none where it was not asked in just two."""
    if len(tally) != 2:
        return ()
    one, other = tally
    return (one, other), (other, one)


def _is_clear(one: Count, other: Count) -> bool:
    (_, tries, misses), (_, others, missed) = one, other
    often = misses >= MISSES and misses * others >= TIMES * missed * tries
    return often and by_chance(tries, misses, others, missed) <= BY_CHANCE


def _are_its_orders(card: str, found: Harder) -> bool:
    """A bond has four forms, and a row from elsewhere may say that a card asked anything."""
    from review.core.skills.fact_cards import showings  # few cards come so far

    return set(showings(card)) == {*found}
