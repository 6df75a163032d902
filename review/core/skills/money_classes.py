"""The classes of money: which coins and amounts belong to one, and how they stand in a key and in an `asked`.

Amounts are in the minor unit, pence or cents; in a key they stand as pounds: 0.05..5. What a range means:
- count, make: coins from the first amount on, totals to the second
- same: coins of the first amount, totals to the second
- to-minor, to-major, add: amounts in steps of the first, totals to the second
- change: prices in steps of the first, paid with the second
"""

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from random import Random
from typing import NamedTuple

from review.core.currencies import CURRENCIES, Currency
from review.core.keys import content_of

MOST_COINS = 8  # our judgement: more is a test of patience


class Class(NamedTuple):
    """What a key says; amounts in the minor unit."""

    ask: str
    coins: int  # at most so many, for count
    code: str
    low: int
    high: int

    @property
    def currency(self) -> Currency:
        return CURRENCIES[self.code]


@lru_cache(maxsize=256)
def class_of(key: str) -> Class:
    ask, code, span = content_of(key).split("/")
    name, _, many = ask.rpartition("-")
    counted = many.isdecimal()
    low, _, high = span.partition("..")
    return Class(name if counted else ask, int(many) if counted else 0, code, _minor(low), _minor(high))


def _minor(written: str) -> int:
    major, _, part = written.partition(".")
    return int(major) * 100 + int(part.ljust(2, "0"))


def plain(amount: int) -> str:
    """As it stands in a key: 235 -> 2.35, 50 -> 0.5."""
    return f"{amount / 100:.2f}".rstrip("0").rstrip(".")


# --- members of a class -------------------------------------------------------------------------------


def pieces(of: Class) -> tuple[int, ...]:
    """Coins and notes a class may use, the greatest first; amounts are laid in coins alone."""
    every = of.currency.coins + (of.currency.notes if of.ask != "make" else ())
    return tuple(sorted((piece for piece in every if of.low <= piece <= of.high), reverse=True))


def hands(choice: tuple[int, ...], most: int, total: int) -> Iterator[tuple[int, ...]]:
    """Every hand of up to so many coins and up to that total, the empty one too, greatest coin first."""
    yield ()
    for place, coin in enumerate(choice if most else ()):
        if coin <= total:
            for rest in hands(choice[place:], most - 1, total - coin):
                yield coin, *rest


def fewest(amount: int, choice: tuple[int, ...]) -> tuple[int, ...]:
    """The coins that make an amount, always the greatest that fits: for these currencies the fewest."""
    coins = []
    for coin in choice:
        coins += [coin] * (amount // coin)
        amount %= coin
    return tuple(coins) if not amount else ()


def _steps(of: Class) -> range:
    """The multiples of the first amount, up to the second."""
    return range(of.low, of.high + 1, of.low)


def _made(of: Class) -> Iterator[tuple[int, ...]]:
    """Amounts that take two coins or more, and no more than a hand holds."""
    for amount in range(1, of.high + 1):
        if 2 <= len(fewest(amount, pieces(of))) <= MOST_COINS:
            yield (amount,)


MEMBERS: Mapping[str, Callable[[Class], Iterator[tuple[int, ...]]]] = {
    "count": lambda of: (hand for hand in hands(pieces(of), of.coins, of.high) if len(hand) > 1),
    "same": lambda of: ((of.low,) * many for many in range(2, of.high // of.low + 1)),
    "make": _made,
    "to-minor": lambda of: ((amount,) for amount in _steps(of) if amount > 100),
    "to-major": lambda of: ((amount,) for amount in _steps(of) if amount > 9),
    "add": lambda of: ((a, b) for a in _steps(of) for b in range(of.low, of.high - a + 1, of.low)),
    "change": lambda of: ((of.high, price) for price in range(of.low, of.high, of.low)),
}


@lru_cache(maxsize=32)  # a class is drawn from again and again
def members(of: Class) -> tuple[tuple[int, ...], ...]:
    return tuple(MEMBERS[of.ask](of))


# --- as they are asked --------------------------------------------------------------------------------


SIGN = {"add": "+", "change": "-"}  # between the amounts of an `asked`; a comma for the others


def draw(key: str, random: Random) -> str:
    """Coins to be counted come greatest first, as they are best counted (common practice, no source)."""
    of = class_of(key)
    if of.ask != "add":
        return asked_as(of, random.choice(members(of)))
    steps = of.high // of.low  # pairs under a total are as many as two of them at random, in order
    first, second = sorted(random.sample(range(1, steps + 1), 2))
    return asked_as(of, (first * of.low, (second - first) * of.low))


def asked_as(of: Class, amounts: tuple[int, ...]) -> str:
    return SIGN.get(of.ask, ",").join(map(plain, amounts))


def amounts_of(of: Class, asked: str) -> tuple[int, ...]:
    return tuple(_minor(part) for part in asked.split(SIGN.get(of.ask, ",")))


def belongs(of: Class, amounts: tuple[int, ...]) -> bool:
    if of.ask == "add":
        return len(amounts) == 2 and all(
            amount > 0 and amount % of.low == 0 for amount in amounts
        ) and sum(amounts) <= of.high  # fmt: skip
    return amounts in members(of)
