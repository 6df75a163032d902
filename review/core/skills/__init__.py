"""The table of kinds, and the questions everyone asks of a card key."""

from collections.abc import Mapping
from functools import lru_cache
from random import Random

from review.core.keys import kind_of
from review.core.model import Kind, Problem, Traits
from review.core.skills import counting, facts, measures, mental, pairs, place_value, roman

KINDS: Mapping[str, Kind] = {
    kind.name: kind
    for room in (facts, counting, place_value, roman, mental, measures, pairs)
    for kind in room.KINDS
}


def kind(key_or_name: str) -> Kind:
    """The kind of a card key, or of that name; KeyError for one there is not."""
    return KINDS[kind_of(key_or_name)]


@lru_cache(maxsize=8192)  # the planner asks for every card of a child again and again
def traits(key: str) -> Traits:
    return kind(key).traits(key)


def draw(key: str, random: Random) -> str:
    """A fresh showing of a card: its `asked`, every member of its class equally likely."""
    return kind(key).draw(key, random)


def problem(key: str, asked: str) -> Problem:
    """What is shown; ValueError if `asked` does not belong to the card."""
    return kind(key).problem(key, asked)
