"""Facts as an addition or multiplication square, a sign a cell."""

from collections.abc import Iterable, Mapping
from typing import Literal, NamedTuple

from review.core.keys import content_of
from review.core.looks import is_stuck
from review.core.standing import Look, State

Sign = Literal[".", "+", "#", "o", "?"]

WORDS: Mapping[Sign, str] = {
    "#": "holding: known on three days, trusted for two weeks or more",
    "+": "growing: met, and asked again within two weeks",
    "o": "fading: past its day, and not sure any more",
    "?": "to teach: it did not stick",
    ".": "not taught, or not met yet",
}
"""The legend, in the order it is told."""

SHORT: Mapping[Sign, str] = {
    "#": "holding", "+": "growing", "o": "fading", "?": "to teach", ".": "not taught or not met",
}  # fmt: skip

SIGNS: Mapping[State, Sign] = {
    "untaught": ".",
    "new": ".",
    "waiting": ".",
    "introduced": "+",
    "growing": "+",
    "holding": "#",
    "fading": "o",
    "overdue": "o",
    "aside": "?",
}

LARGEST = 12  # a square goes to 12 (the trade's); larger facts are told below it


class Fact(NamedTuple):
    """One fact of a square; a rule has no second number."""

    card: str
    left: int
    right: int
    sign: Sign


class Rule(NamedTuple):
    """Adding 0, times 0, times 1: one card for a whole row."""

    card: str
    title: str
    sign: Sign


class Square(NamedTuple):
    """A child's addition or multiplication facts."""

    name: Literal["addition", "multiplication"]
    numbers: range  # of both sides
    cells: Mapping[tuple[int, int], Sign]  # either order; a fact the child does not have is left out
    facts: tuple[Fact, ...]  # each once, the smaller number first
    rules: tuple[Rule, ...]
    beyond: int  # facts with a number over twelve, which the square does not show


NAMES: Mapping[str, tuple[Literal["addition", "multiplication"], str, int]] = {
    "sum": ("addition", "+", 1),
    "product": ("multiplication", "x", 2),
}
"""Kind -> the square's name, the sign in a card's key, the first number of its sides."""


def squares(found: Iterable[Look]) -> tuple[Square, ...]:
    """One for each of addition and multiplication that the child has facts of."""
    every = list(found)
    made = (square(kind, [look for look in every if look.card.kind == kind]) for kind in NAMES)
    return tuple(one for one in made if one.facts)


def square(kind: str, found: Iterable[Look]) -> Square:
    name, sign, first = NAMES[kind]
    facts, rules = list[Fact](), list[Rule]()
    for look in found:
        content, cell = content_of(look.card.key), cell_sign(look)
        left, _, right = content.partition(sign)
        if left.isdigit() and right.isdigit():
            facts.append(Fact(look.card.key, int(left), int(right), cell))
        elif left == "n":
            rules.append(Rule(look.card.key, look.traits.title, cell))
    shown = [fact for fact in facts if max(fact.left, fact.right) <= LARGEST]
    most = max((max(fact.left, fact.right) for fact in shown), default=first)
    cells = {pair: fact.sign for fact in shown for pair in _either_way(fact)}
    return Square(name, range(first, most + 1), cells, tuple(facts), tuple(rules), len(facts) - len(shown))


def _either_way(fact: Fact) -> tuple[tuple[int, int], tuple[int, int]]:
    return (fact.left, fact.right), (fact.right, fact.left)


def cell_sign(look: Look) -> Sign:
    """A card that is stuck is to be taught, wherever else it stands."""
    return "?" if is_stuck(look) else SIGNS[look.standing.state]
