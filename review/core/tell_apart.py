"""Which problem of a class tells most about the rules that are suspected."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from math import log
from random import Random

from review.core import readings, rule_odds, skills
from review.core.warmup import Suspicion

PROBLEMS = 12  # drawn, of which the most telling one is asked (design lab)


def drawn(key: str, random: Random, suspected: Suspicion, before: Collection[str] = ()) -> str:
    """What a procedure card asks while rules are suspected behind it; nothing of what it asked just before,
    where it has others."""
    askeds = [skills.draw(key, random) for _ in range(PROBLEMS)]
    return most_telling(key, [asked for asked in askeds if asked not in before] or askeds, suspected)


def most_telling(key: str, askeds: Iterable[str], suspected: Suspicion) -> str:
    """Of these problems of a card; the first of those that tell as much."""
    return max(askeds, key=lambda asked: round(told(readings.predictions(key, asked), suspected), 9))


def told(says: Mapping[str, str], suspected: Suspicion) -> float:
    """What the answer is expected to tell about which rule is held, in nats: the entropy of the answer less
    what is left of it once the rule is known. Slips are left out: they are the same everywhere."""
    whole = max(1000, sum(chance for _, chance in suspected))
    chances = [(rule, chance / whole) for rule, chance in suspected if rule in says]
    answers: dict[str, float] = defaultdict(float)
    for rule, chance in chances:
        answers[says[rule]] += chance * rule_odds.HOLDS
    mixed = [*answers.values(), 1 - sum(answers.values())]
    left = sum(chance for _, chance in chances) * _entropy((rule_odds.HOLDS, 1 - rule_odds.HOLDS))
    return _entropy(mixed) - left


def _entropy(chances: Iterable[float]) -> float:
    return -sum(chance * log(chance) for chance in chances if chance > 0)
