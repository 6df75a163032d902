"""How likely a child knows each card of a set, judged from a few answers.

A logistic model of one ability and one difficulty (Rasch 1960), with an ability for the child and a shift of
it for each skill, so that a table that was taught lately may stand above the others. Beliefs are weights on a
small grid, moved by each answer after Bayes; the next item is chosen by them, as in computerised adaptive
testing (Weiss & Kingsbury 1984). Both from memory.
"""

from collections.abc import Iterable, Mapping, Sequence
from math import exp, log2
from typing import NamedTuple

from review.core.model import Card, Traits

ABILITIES = tuple(n / 2 for n in range(-8, 11))
SHIFTS = (-2.0, -1.0, 0.0, 1.0, 2.0)
"""Logits. The easiest card of a set stands at about -2 and the hardest at 2."""

USUAL, SPREAD = 0.5, 1.5
SHIFT_SPREAD = 1.0
"""What is believed before the first answer: of the easiest card 9 chances in 10, of the hardest 1 in 4; a
skill may well stand a logit above or below the others (our judgement)."""

SLIP = 0.05
"""A known fact is missed once in twenty (our judgement; adults typing products in open data slip about as
often)."""

LONGER = 0.5  # logits a doubling of the expected seconds makes a card harder (our judgement)


class Tried(NamedTuple):
    """One answer, as far as it tells of knowing."""

    skill: str
    hard: float
    guess: float  # chance to be right without knowing
    well: bool


Stand = Mapping[float, float]
"""Weights, which sum to 1, of where a child may stand in a skill: ability and shift together, in logits."""


class Belief(NamedTuple):
    """What is believed of each skill that was tried, and of any other."""

    skills: Mapping[str, Stand]
    other: Stand


def believed(tried: Iterable[Tried]) -> Belief:
    """What is believed of a child after these answers, in any order."""
    by_skill: dict[str, list[Tried]] = {}
    for one in tried:
        by_skill.setdefault(one.skill, []).append(one)
    joint = {skill: _of_skill(of) for skill, of in by_skill.items()}
    weights = [
        prior * _product(sum(rows[n]) for rows in joint.values()) for n, prior in enumerate(PRIOR_ABILITIES)
    ]
    abilities = _shares(weights)
    stands = {skill: _stand(abilities, [_shares(row) for row in rows]) for skill, rows in joint.items()}
    return Belief(stands, _stand(abilities, [PRIOR_SHIFTS] * len(ABILITIES)))


def _stand(abilities: Sequence[float], shifts: Sequence[Sequence[float]]) -> Stand:
    """Where a child may stand in a skill, from the weights of abilities and of shifts given the ability."""
    weights: dict[float, float] = {}
    for ability, weight, shares in zip(ABILITIES, abilities, shifts, strict=True):
        for shift, share in zip(SHIFTS, shares, strict=True):
            weights[ability + shift] = weights.get(ability + shift, 0.0) + weight * share
    return weights


def chance(belief: Belief, skill: str, hard: float) -> float:
    """The chance that a card is known."""
    stand = belief.skills.get(skill, belief.other)
    return sum(weight * known(at - hard) for at, weight in stand.items())


def hardness(cards: Sequence[Card], traits: Mapping[str, Traits]) -> dict[str, float]:
    """How hard each card of a set is, in logits: by the place of its skill in the set, by its own in the
    skill, and by how much longer than the others it takes."""
    mean = sum(traits[card.key].seconds for card in cards) / max(1, len(cards))
    skills = list(dict.fromkeys(card.skill for card in cards))
    mates = {skill: [card.key for card in cards if card.skill == skill] for skill in skills}
    of_skill = {skill: _place(n, len(skills)) for n, skill in enumerate(skills)}
    return {
        key: round(of_skill[skill] + _place(n, len(keys)) + LONGER * log2(traits[key].seconds / mean), 1)
        for skill, keys in mates.items()
        for n, key in enumerate(keys)
    }


def known(logit: float) -> float:
    return 1 / (1 + exp(-logit))


def _place(n: int, of: int) -> float:
    """The nth of so many, from -1 to 1; 0 for an only one."""
    return 2 * n / (of - 1) - 1 if of > 1 else 0.0


def _of_skill(tried: Sequence[Tried]) -> list[list[float]]:
    """For each ability and shift, the chance of the shift and of all the skill's answers."""
    return [
        [
            prior * _product(_likely(one, ability + shift) for one in tried)
            for shift, prior in zip(SHIFTS, PRIOR_SHIFTS, strict=True)
        ]
        for ability in ABILITIES
    ]


def _likely(tried: Tried, ability: float) -> float:
    """The chance of the answer: a known card may be missed by a slip, an unknown one guessed."""
    knows = known(ability - tried.hard)
    right = knows * (1 - SLIP) + (1 - knows) * tried.guess
    return right if tried.well else 1 - right


def _product(factors: Iterable[float]) -> float:
    total = 1.0
    for factor in factors:
        total *= factor
    return total


def _shares(weights: Sequence[float]) -> tuple[float, ...]:
    total = sum(weights)
    return tuple(weight / total for weight in weights)


def _bell(points: Sequence[float], mean: float, spread: float) -> tuple[float, ...]:
    return _shares([exp(-0.5 * ((point - mean) / spread) ** 2) for point in points])


PRIOR_ABILITIES = _bell(ABILITIES, USUAL, SPREAD)
PRIOR_SHIFTS = _bell(SHIFTS, 0.0, SHIFT_SPREAD)
