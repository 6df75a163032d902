"""What a skill set would bring: some of its problems, how many cards, how long it will take."""

from itertools import islice
from math import ceil
from random import Random
from typing import NamedTuple

from review.core import card_sets, new_cards, skills
from review.core.model import Card, Problem, Settings, SkillSet

SOME = 10  # problems besides the first and the last
ASKINGS = (
    8  # of a card until it holds: 5.5 for a simulated child who is never lost, with room (our judgement)
)
WEEKS_TO_HOLD = 6  # from the last first meeting; measured in the same run
DAYS_A_WEEK = 5  # our judgement: school days


class Preview(NamedTuple):
    cards: int
    first: Problem
    last: Problem
    some: tuple[Problem, ...]
    minutes: float
    new_a_day: int  # at most, at the youngest age of the set
    weeks_to_meet: int
    weeks_to_hold: int = WEEKS_TO_HOLD
    days_a_week: int = DAYS_A_WEEK
    askings: int = ASKINGS


def preview(found: SkillSet, minutes: float) -> Preview:
    """Of a set without mistakes; the same set gives the same problems."""
    cards, random = card_sets.cards([found]), Random(found.id)
    new_a_day = new_cards.pace(Settings(found.ages[0]))
    return Preview(
        len(cards),
        _problem(cards[0], random),
        _problem(cards[-1], random),
        _some(cards, random),
        minutes,
        new_a_day,
        weeks_to_meet(cards, minutes, new_a_day),
    )


def _problem(card: Card, random: Random) -> Problem:
    return skills.problem(card.key, skills.draw(card.key, random))


def _some(cards: tuple[Card, ...], random: Random) -> tuple[Problem, ...]:
    """Facts once each, the first and last not again; procedures as often as it takes, never alike."""
    between = list(cards[1:-1])
    chosen = random.sample(between, min(SOME, len(between)))
    fresh = [card for card in cards if not skills.traits(card.key).fact]
    more = [random.choice(fresh) for _ in range(5 * SOME) if fresh]
    drawn = {(one.card, one.asked): one for one in (_problem(card, random) for card in (*chosen, *more))}
    return tuple(islice(drawn.values(), SOME))


def weeks_to_meet(cards: tuple[Card, ...], minutes: float, new_a_day: int) -> int:
    """Until the last card was met: as many new ones a day as the pace and the minutes allow."""
    seconds = sum(skills.traits(card.key).seconds for card in cards) / len(cards)
    a_day = min(new_a_day, minutes * 60 / (ASKINGS * seconds))
    return ceil(len(cards) / a_day / DAYS_A_WEEK)
