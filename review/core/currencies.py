"""Currencies: their signs, names, coins and notes.

Apart from the reading of answers, so that the kinds which make cards of money do not pay for it.
"""

from collections.abc import Mapping
from typing import NamedTuple


class Currency(NamedTuple):
    """Amounts are in the minor unit. Coins and notes as the three issuing banks and mints have them in use
    (from memory); those that are seldom met are read and never drawn."""

    sign: str
    minor: str  # as it stands behind a number
    major_names: tuple[str, str]  # one, many
    minor_names: tuple[str, str]
    coins: tuple[int, ...]
    notes: tuple[int, ...]
    seldom: tuple[int, ...] = ()
    coin_names: Mapping[str, int] = {}


CURRENCIES: Mapping[str, Currency] = {
    "GBP": Currency(
        "£", "p", ("pound", "pounds"), ("penny", "pence"),
        (1, 2, 5, 10, 20, 50, 100, 200), (500, 1000, 2000, 5000),
    ),
    "USD": Currency(
        "$", "c", ("dollar", "dollars"), ("cent", "cents"),
        (1, 5, 10, 25), (100, 500, 1000, 2000, 5000), (50, 200, 10_000),
        {"penny": 1, "nickel": 5, "dime": 10, "quarter": 25, "half dollar": 50},
    ),
    "EUR": Currency(
        "€", "c", ("euro", "euros"), ("cent", "cents"),
        (1, 2, 5, 10, 20, 50, 100, 200), (500, 1000, 2000, 5000), (10_000, 20_000),
    ),
}  # fmt: skip
