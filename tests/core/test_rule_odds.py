"""How likely each error rule is, against the same model reckoned path by path.

The room carries eight numbers a hypothesis from answer to answer. Here every path is written out: which rules
the child holds, how often it slips, and before which answer a rule began; the figures are those of the
project's design lab.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import rule_odds
from review.core.readings import Reading
from review.core.rule_odds import Rules
from tests.core.test_misses import DIFFERENCE, SUM, by_rule, reading

SLIPS = (0.03, 0.08, 0.18, 0.35)


def hypotheses(rows: Sequence[Reading]) -> Iterator[tuple[Rules, float]]:
    """.85 that there is none; .15 of the rest for pairs; the rules of the family are alike before any answer,
    and those that led to none are left out."""
    family = {rule for row in rows for rule in row.says}
    led = sorted({rule for row in rows for rule in row.fits})
    pairs = len(family) * (len(family) - 1) // 2
    yield frozenset(), 0.85
    for rule in led:
        yield frozenset({rule}), (0.15 * 0.85 if pairs else 0.15) / len(family)
    for pair in combinations(led, 2):
        yield frozenset(pair), 0.15 * 0.15 / pairs


def likely(row: Reading, held: Rules, slip: float) -> float:
    """Of an answer. A rule that shows is followed .8 of the time, and two that show by turns; of slips .65
    fall on what some rule predicts, .26 on twelve numbers near the answer, and elsewhere alike."""
    show = [rule for rule in held if rule in row.says]
    if row.right:
        return (1 - slip) * (0.2 if show else 1.0)
    astray = 1.0
    if row.fits:
        near = abs(int(row.given) - int(row.expected)) in (1, 10)
        astray = 0.65 / len({*row.says.values()}) + (0.26 / 12 if near else 0.0)
    followed = sum(0.8 / len(show) for rule in show if rule in row.fits)
    return slip * astray + (1 - slip) * followed


def path_by_path(rows: Sequence[Reading]) -> dict[Rules, float]:
    """A rule that is ever held is held from the beginning in .8; else it begins before each answer with
    .02."""
    n, nothing = len(rows), frozenset[str]()
    weights: dict[Rules, float] = {nothing: 0.0}
    for held, prior in hypotheses(rows):
        begins = [0.2 * 0.98**k * 0.02 for k in range(n)] if held else []
        starts = [*begins, 1 - sum(begins) - (0.8 if held else 0.0)]
        starts[0] += 0.8 if held else 0.0
        for start, chance in enumerate(starts):
            for slip in SLIPS:
                came = prod(
                    likely(row, held if at >= start else nothing, slip) for at, row in enumerate(rows)
                )
                holds = held if held and start < n else nothing
                weights[holds] = weights.get(holds, 0.0) + prior * chance * came / 4
    return {held: weight / sum(weights.values()) for held, weight in weights.items()}


TOLD = {
    SUM: ("sums_whole", "carry_dropped", "digits_added", "none"),
    DIFFERENCE: ("smaller_from_larger", "not_reduced", "none"),
}


@st.composite
def answers(draw: st.DrawFn) -> list[Reading]:
    key = draw(st.sampled_from(sorted(TOLD)))
    told = draw(st.lists(st.sampled_from((*TOLD[key], "slip")), min_size=1, max_size=6))
    rows = list[Reading]()
    for n, what in enumerate(told):
        (row,) = by_rule(key, "none" if what == "slip" else what, [n], f"{n}")
        off = draw(st.sampled_from((1, 10, 3)))
        rows.append(reading(key, row.asked, str(int(row.expected) + off), n) if what == "slip" else row)
    return rows


@given(answers())
@settings(max_examples=80, deadline=None)
def test_the_odds_are_those_of_all_paths_together(rows: list[Reading]) -> None:
    *_, last = rule_odds.follow(rows)
    found, expected = rule_odds.odds(last), path_by_path(rows)
    assert found.keys() == expected.keys()
    assert [found[held] for held in expected] == pytest.approx([*expected.values()], rel=1e-9, abs=1e-12)


def test_rules_of_which_one_writes_a_number_near_the_answer() -> None:
    """The dropped exchange of 47 + 25 is ten less than its total: a slip comes there sooner."""
    key = "column-sum:2+2/1-within"
    near, far = reading(key, "47+25", "62", 1), reading(key, "47+25", "612", 1)
    assert near.fits
    assert far.fits
    slips = [rule_odds.likelihoods(row, rule_odds.NONE)[0] for row in (near, far)]
    assert slips[0] - slips[1] == pytest.approx(0.03 * 0.26 / 12)
