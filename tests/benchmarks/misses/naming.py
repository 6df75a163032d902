"""Answers one by one until a rule is named.

Three answers of a family a sitting, as a warm-up of five minutes has them (our judgement). A child works on
a few classes at a time: up to four cards of the family are drawn, for a rule at least one that shows it.
"""

from random import Random
from typing import NamedTuple

from review.core import misses, rule_odds, skills, tell_apart
from review.core.readings import Reading, base
from review.core.warmup import Suspicion
from tests.benchmarks.misses.children import Child, reading
from tests.benchmarks.misses.classes import Family, shown_by

A_DAY = 3
CARDS = 4
MOST = 36


class Named(NamedTuple):
    """What came of one child."""

    rightly: int  # answers after which a held rule was named; 0: never
    wrongly: int  # answers after which another was; 0: never
    every: int  # answers after which all held rules had been named; 0: never
    misses: int  # wrong answers by then; 0: it was not rightly named
    every_misses: int
    shows: float  # share of the problems on which a held rule showed


def cards_of(family: Family, rules: tuple[str, ...], random: Random) -> list[str]:
    fit = [key for key in family.cards if set(rules) <= set(shown_by(key))]
    fit = fit or [key for key in family.cards if set(rules) & set(shown_by(key))]
    first = random.choice(fit or list(family.cards))
    if skills.traits(first).fact:  # facts come one by one
        return list(family.cards)
    return [first, *(random.choice(family.cards) for _ in range(random.randrange(CARDS)))]


def answers(
    child: Child, family: Family, random: Random, most: int = MOST, telling: bool = True
) -> list[Reading]:
    """`telling`: problems are chosen so that rules can be told apart."""
    cards = cards_of(family, child.rules, random)
    given: list[Reading] = []
    suspicion: Suspicion = ()
    for n in range(most):
        if telling and n % A_DAY == 0:
            suspicion = misses.suspicion(given)
        key = random.choice(cards)
        given.append(reading(child, key, asked(key, suspicion, random), 1 + n // A_DAY, random))
    return given


def asked(key: str, suspicion: Suspicion, random: Random) -> str:
    drawn = [skills.draw(key, random) for _ in range(tell_apart.PROBLEMS if suspicion else 1)]
    return tell_apart.most_telling(key, drawn, suspicion) if suspicion else drawn[0]


def played(child: Child, family: Family, seed: str, most: int = MOST, telling: bool = True) -> Named:
    random = Random(seed)
    given = answers(child, family, random, most, telling)
    own = {base(rule) for rule in child.rules}
    rightly = wrongly = every = 0
    known: set[str] = set()
    for n, state in enumerate(misses.steps(given), 1):
        for held in state.held:
            told = {base(rule) for rule in misses.told(held, rule_odds.odds(state.weights))}
            if told & own and len(told - own) <= 1:
                rightly = rightly or n
                known |= told & own
            elif not told & own:
                wrongly = wrongly or n
        every = every or n * (known == own and bool(own))
    shows = sum(bool(own & set(map(base, one.says))) for one in given) / len(given)
    missed = [sum(not one.right for one in given[:n]) for n in (rightly, every)]
    return Named(rightly, wrongly, every, missed[0], missed[1], shows)
