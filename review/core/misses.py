"""Why a child misses: the error rules that explain a child's answers, named only on evidence.

A rule is named when it is 98% likely, led to answers of at least two problems on at least two days, and
explains three in five of the last wrong answers of its family. It stays named until right answers, where it
would have shown, say otherwise. Hints for teaching, not a diagnosis.
"""

from collections import deque
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from review.core import readings, rule_odds, skills
from review.core.amendments import amended
from review.core.findings import Found
from review.core.model import Event, TraitsOf
from review.core.readings import Reading, Row, base, family_of
from review.core.rule_odds import Odds, Rules, Weights
from review.core.warmup import Suspicion

SURE = (
    0.98  # chance from which a rule is named; "two of the last three" names one falsely for 14% (design lab)
)
PROBLEMS, DAYS = 2, 2  # different ones on which it led to the answer
LAST, EXPLAINED = 20, 0.6  # of the last wrong answers of the family, the share it must explain

SPEAKS_AGAINST = 1.56  # a right answer where the rule would have shown: log odds that it is gone
SPEAKS_FOR = -2.77  # the rule's own answer
GONE, GONE_DAYS = 6.0, 2  # the running sum, and the days, at which a name is taken back (design lab)

SUSPECTED = 0.3  # chance from which problems are drawn so that rules can be told apart (design lab)
ALIKE = 0.1  # the share of the likeliest rule's chance from which another that fits as well is told too
THOUSAND = 1000


class Held(NamedTuple):
    """A name while answers are followed."""

    rules: Rules  # raw names that could not be told apart
    since: int
    against: float = 0.0  # the running sum
    days: frozenset[int] = frozenset()  # on which it grew, since it was last at nothing


class State(NamedTuple):
    """After some answers of a family."""

    weights: Weights  # of the odds
    held: tuple[Held, ...]


# --- reports ------------------------------------------------------------------------------------------


def found(answers: Mapping[str, Sequence[Event]]) -> tuple[Found, ...]:
    """Of one child's answers by family, as `readings.by_family` gives them: what is named now, the freshest
    evidence first."""
    families = {family: readings.read(rows, may_be_named, may_be_evident) for family, rows in answers.items()}
    every = [one for family, rows in families.items() for one in of_family(family, rows)]
    return tuple(sorted(every, key=lambda one: -one.evidence[-1].day))


def of_family(family: str, rows: Sequence[Reading]) -> tuple[Found, ...]:
    last = _last(rows)
    if last is None or not last.held:
        return ()
    odds = rule_odds.odds(last.weights)
    return tuple(_found(family, rows, held, odds) for held in last.held)


def _found(family: str, rows: Sequence[Reading], held: Held, odds: Odds) -> Found:
    kept = told(held, odds)
    wrong = [row for row in rows if not row.right][-LAST:]
    return Found(
        family,
        tuple(dict.fromkeys(map(base, kept))),
        held.since,
        tuple(row.evidence for row in rows if leads(row, kept[0])),
        len(wrong),
        sum(leads(row, kept[0]) for row in wrong),
    )


def told(held: Held, odds: Odds) -> tuple[str, ...]:
    """Of rules that could not be told apart when they were named, those that still fit."""
    chances = {rule: rule_odds.chance(odds, frozenset({rule})) for rule in held.rules}
    ordered = sorted(held.rules, key=lambda rule: (-chances[rule], rule))
    return tuple(rule for rule in ordered if chances[rule] >= ALIKE * chances[ordered[0]])


def leads(row: Reading, rule: str) -> bool:
    """Whether the rule, or a variant of it, leads to what was given."""
    return any(base(one) == base(rule) for one in row.fits)


# --- following answers --------------------------------------------------------------------------------


def _last(rows: Sequence[Reading]) -> State | None:
    return next(iter(deque(steps(rows), maxlen=1)), None)


def steps(rows: Sequence[Reading]) -> Iterator[State]:
    """The state after each answer. When a name is taken back, what led to it no longer counts."""
    held: tuple[Held, ...] = ()
    start, begun = 0, True
    while begun:
        begun = False
        for n, weights in enumerate(rule_odds.follow(rows[start:]), start):
            watched = tuple(_watched(one, rows[n]) for one in held)
            held = tuple(one for one in watched if not _is_gone(one))
            begun = len(held) < len(watched)
            if begun:
                yield State(rule_odds.NO_RULE, held)
                start = n + 1
                break
            if rows[n].fits:
                held = (*held, *_named(rows[start : n + 1], rule_odds.odds(weights), held))
            yield State(weights, held)


def _watched(held: Held, row: Reading) -> Held:
    """The running sum after one answer more."""
    shows = held.rules & row.says.keys()
    if not shows or not (row.right or held.rules & row.fits):
        return held
    against = max(0.0, held.against + (SPEAKS_AGAINST if row.right else SPEAKS_FOR))
    return held._replace(against=against, days=held.days | {row.day} if against else frozenset())


def _is_gone(held: Held) -> bool:
    return held.against >= GONE and len(held.days) >= GONE_DAYS


def _named(rows: Sequence[Reading], odds: Odds, held: Iterable[Held]) -> Iterator[Held]:
    """Rules that may be named after the last of these answers, and were not before."""
    row, taken = rows[-1], {base(rule) for one in held for rule in one.rules}
    for rule in sorted(row.fits, key=lambda rule: (-rule_odds.chance(odds, frozenset({rule})), rule)):
        if base(rule) not in taken and _is_sure(rows, odds, group := _alike(rows, rule)):
            taken |= {base(one) for one in group}
            yield Held(group, row.day)


def _alike(rows: Sequence[Reading], rule: str) -> Rules:
    """The rule, its variants, and those that would have written the same on every problem so far."""
    return frozenset(
        other
        for other in {one for row in rows for one in row.fits}
        if base(other) == base(rule) or all(row.says.get(other) == row.says.get(rule) for row in rows)
    )


def _is_sure(rows: Sequence[Reading], odds: Odds, group: Rules) -> bool:
    if rule_odds.chance(odds, group) < SURE:
        return False
    likely = max((rule_odds.likeliest(odds, rule) for rule in group), key=lambda of: odds[of])
    return _is_evident([row for row in rows if not row.right], group, group | likely)


def _is_evident(wrong: Sequence[Reading], group: Rules, explaining: Rules) -> bool:
    """Whether a group of rules led to enough wrong answers, and some rules explain enough of the last."""
    fitting, last = [row for row in wrong if row.fits & group], wrong[-LAST:]
    explained = sum(bool(row.fits & explaining) for row in last)
    return (
        len({row.problem for row in fitting}) >= PROBLEMS
        and len({row.day for row in fitting}) >= DAYS
        and explained >= EXPLAINED * len(last)
    )


def may_be_named(wrong: Sequence[Reading]) -> bool:
    """Whether the evidence would do for some rule, with any one beside it, were it sure: where not, neither
    the right answers nor the odds need be looked at (measured here: of more than half the families)."""
    others = {rule for row in wrong for rule in row.fits}
    return any(
        _is_evident(so_far, group, group | {other})
        for n, row in enumerate(wrong)
        for so_far in [wrong[: n + 1]]
        for group in {_alike(so_far, rule) for rule in row.fits}
        for other in others
    )


def may_be_evident(rows: Iterable[Row]) -> bool:
    """The same before they are read, or more than that. Two problems are never asked in the same words."""
    led = [(day, answer.asked) for day, answer in rows if readings.may_lead(answer)]
    return len({asked for _, asked in led}) >= PROBLEMS and len({day for day, _ in led}) >= DAYS


# --- what is suspected --------------------------------------------------------------------------------


def suspected(
    events: Iterable[Event], cards: Iterable[str], traits: TraitsOf = skills.traits
) -> dict[str, Suspicion]:
    """Of these cards, those whose problems can tell rules apart, and the rules. `events` of one child."""
    asked = [*cards]
    families = {family_of(key) for key in asked if not traits(key).fact}
    return of_cards(suspicions(events, families), asked, traits)


def of_cards(every: Mapping[str, Suspicion], cards: Iterable[str], traits: TraitsOf) -> dict[str, Suspicion]:
    """What is suspected by family, told of those of these cards that can tell rules apart."""
    wanted = {key: family_of(key) for key in cards if not traits(key).fact}
    return {key: every[family] for key, family in wanted.items() if family in every}


def suspicions(events: Iterable[Event], among: Collection[str] | None = None) -> dict[str, Suspicion]:
    """By family, all of them or those named, what is suspected in the answers of one child."""
    rows = readings.by_family(amended(events))
    asked = rows if among is None else rows.keys() & among
    every = {family: suspicion(readings.read(rows[family])) for family in asked}
    return {family: one for family, one in every.items() if one}


def suspicion(rows: Sequence[Reading]) -> Suspicion:
    """All rules with some chance, where one of them is suspected and neither sure nor the only one."""
    last = _last(rows)
    if last is None:
        return ()
    odds = rule_odds.odds(last.weights)
    chances = {rule: rule_odds.chance(odds, frozenset({rule})) for held in odds for rule in held}
    if not any(SUSPECTED <= chance < SURE for chance in chances.values()):
        return ()
    ordered = sorted(chances.items(), key=lambda one: (-one[1], one[0]))
    whole = ((rule, round(chance * THOUSAND)) for rule, chance in ordered)
    return tuple((rule, thousandths) for rule, thousandths in whole if thousandths)
