"""How likely each error rule is behind a child's answers: a Bayesian comparison, one answer at a time.

The hypotheses: no rule, each rule that led to an answer at least once, each pair of those. A rule may have
been held from the first answer looked at, or start before any later one. How often the child slips is not
known: a few rates are carried along and summed out. The figures were settled on simulated children (design
lab); no written answers by children are open to set them by.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from itertools import combinations

from review.core.readings import Reading

ANY_RULE = 0.15  # that a child holds some rule of the family
TWO_RULES = 0.15  # that it is a pair, where there is a rule
HOLDS = 0.8  # of the time a child who holds a rule follows it
SLIP_RATES = (0.03, 0.08, 0.18, 0.35)  # equally likely
STARTS = 0.02  # that a rule starts before a given answer
STILL = 1 - STARTS  # that one which has not started does not
AT_FIRST = 0.8  # that a rule which is ever held is held from the first answer read (bench of misses)

ON_RULES, NEAR_BY = 0.65, 0.26
"""Of slips: on an answer that some rule predicts; on typing neighbours and numbers off by 1 or 10. Where
other slips fall is the same under every hypothesis."""
NEAR_ANSWERS = 12  # so many answers are near one of two digits: four off by 1 or 10, eight of typing
NEAR = (1, 10)

Rules = frozenset[str]
NONE: Rules = frozenset()


Weight = tuple[float, float, float, float, float, float, float, float]
"""Of one hypothesis, at each of the slip rates: that the rule has not started; that it is held."""

Weights = Mapping[Rules, Weight]  # in proportion
Odds = Mapping[Rules, float]  # hypothesis -> its chance now; `NONE`: no rule, or none that has started


NO_RULE: Weights = {NONE: (1.0, *(0.0,) * 7)}


def follow(readings: Sequence[Reading]) -> Iterator[Weights]:
    """What the odds are made of, after each reading: they themselves are seldom asked for."""
    weights, whole = _at_first(readings), 1.0
    for reading in readings:
        plain = [chance / whole for chance in likelihoods(reading, NONE)]
        weights = {of: _after(some, of, reading, plain, whole) for of, some in weights.items()}
        whole = sum(map(sum, weights.values()))  # divided out with the next reading, or nothing is left
        yield weights


def chance(odds: Odds, rules: Rules) -> float:
    """That one of these rules is held."""
    return sum(weight for held, weight in odds.items() if held & rules)


def likeliest(odds: Odds, rule: str) -> Rules:
    """The likeliest hypothesis in which this rule is held."""
    return max((held for held in odds if rule in held), key=lambda held: odds[held])


# --- the prior ----------------------------------------------------------------------------------------


def _at_first(readings: Sequence[Reading]) -> Weights:
    known = {rule for reading in readings for rule in reading.says}
    prior = _prior(sorted({rule for reading in readings for rule in reading.fits}), len(known))
    begun = {held: AT_FIRST if held else 0.0 for held in prior}
    some = {held: (weight * (1 - begun[held]), weight * begun[held]) for held, weight in prior.items()}
    return {held: (*pair, *pair, *pair, *pair) for held, pair in some.items()}


def _prior(rules: Sequence[str], of: int) -> dict[Rules, float]:
    """Rules that never led to an answer are left out: they explain less than no rule does."""
    pairs = of * (of - 1) / 2
    two = ANY_RULE * TWO_RULES if pairs else 0.0
    return {
        NONE: 1 - ANY_RULE,
        **{frozenset({rule}): (ANY_RULE - two) / of for rule in rules},
        **{frozenset(pair): two / pairs for pair in combinations(rules, 2)},
    }


# --- one answer ---------------------------------------------------------------------------------------


def _after(weight: Weight, held: Rules, reading: Reading, plain: Sequence[float], whole: float) -> Weight:
    """`plain`: the chances of the answer where no rule is held, and where the rules say nothing of it, as
    parts of the whole of all weights."""
    a, a_on, b, b_on, c, c_on, d, d_on = weight  # written out: most of a report's time is spent here
    p, q, r, s = plain
    if not held:
        return a * p, 0.0, b * q, 0.0, c * r, 0.0, d * s, 0.0
    t, u, v, w = plain
    if not reading.says.keys().isdisjoint(held):
        t, u, v, w = likelihoods(reading, held)
        t, u, v, w = t / whole, u / whole, v / whole, w / whole
    return (
        a * STILL * p, (a_on + a * STARTS) * t,
        b * STILL * q, (b_on + b * STARTS) * u,
        c * STILL * r, (c_on + c * STARTS) * v,
        d * STILL * s, (d_on + d * STARTS) * w,
    )  # fmt: skip


def likelihoods(reading: Reading, held: Rules, rates: Sequence[float] = SLIP_RATES) -> Sequence[float]:
    """The chance of the answer where these rules are held, at each rate of slips. Rules that lead to
    different answers share the times one of them is followed."""
    at_work = [rule for rule in held if rule in reading.says]
    if reading.right:
        return _right(bool(at_work), rates)
    followed = sum(rule in reading.fits for rule in at_work) / len(at_work) if at_work else 0.0
    astray = _slip_to(reading)
    return [slips * astray + HOLDS * followed * (1 - slips) for slips in rates]


@cache
def _right(shows: bool, rates: Sequence[float]) -> Sequence[float]:
    left = 1 - HOLDS if shows else 1.0
    return tuple((1 - slips) * left for slips in rates)


def _slip_to(reading: Reading) -> float:
    """The share of slips that fall on the answer given. Where no rule led to it, only how often matters."""
    if not reading.fits:
        return 1.0
    near = NEAR_BY / NEAR_ANSWERS if _is_near(reading) else 0.0
    return ON_RULES / len(set(reading.says.values())) + near


def _is_near(reading: Reading) -> bool:
    expected, given = reading.expected, reading.given
    whole = expected.isdecimal() and given.isdecimal() and len(given) <= 9
    return whole and abs(int(expected) - int(given)) in NEAR


def odds(weights: Weights) -> Odds:
    whole = sum(map(sum, weights.values()))
    held = {of: sum(some[1::2]) / whole for of, some in weights.items()}
    return {**held, NONE: sum(sum(some[::2]) for some in weights.values()) / whole}
