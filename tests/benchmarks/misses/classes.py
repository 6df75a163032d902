"""The families of the catalogue: their cards, and the rules their problems can show."""

from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from random import Random
from typing import NamedTuple

from review import catalogue
from review.core import readings, skills
from review.core.card_sets import cards

TRIED = 40  # problems a card on which its rules are looked for


class Family(NamedTuple):
    name: str
    cards: tuple[str, ...]
    rules: tuple[str, ...]


@cache
def families() -> dict[str, Family]:
    """Those in which some rule can show."""
    keys: dict[str, dict[str, None]] = defaultdict(dict)
    for key in every_card():
        keys[readings.family_of(key)][key] = None
    found = {name: Family(name, tuple(own), rules_of(tuple(own))) for name, own in keys.items()}
    return {name: family for name, family in found.items() if family.rules}


def every_card() -> Iterator[str]:
    for name in catalogue.names():
        yield from (card.key for card in cards([catalogue.shipped(name)]))


@cache
def rules_of(keys: tuple[str, ...]) -> tuple[str, ...]:
    """In the order in which the kind has them."""
    return tuple(dict.fromkeys(rule for key in keys for rule in shown_by(key)))


@cache
def shown_by(key: str) -> tuple[str, ...]:
    random = Random(key)
    tries = 1 if skills.traits(key).fact else TRIED
    return tuple(
        dict.fromkeys(
            rule for _ in range(tries) for rule in readings.predictions(key, skills.draw(key, random))
        )
    )
