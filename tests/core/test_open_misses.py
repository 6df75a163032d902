"""Confused facts and the slow mark against open data: adults typing products.

Soh Mei Ling 2025, MIT licence: 122 university students, 26,352 trials. `adult_wrong_products.csv`: every
wrong answer; `adult_next_tries.csv`: of right tries, by seconds net of each person's own copying time, how
often the same person's next try of that fact was not right. `python -m tests.benchmarks.misses --adults` made
both. They are adults, so they say how answers hang together, not how children fare.
"""

from collections import defaultdict
from itertools import combinations
from typing import NamedTuple

from review.core import confusions, marking, misses, readings
from review.core.model import Answer
from tests.core.logged import logged
from tests.tables import rows

DAY = 72  # trials have no days: a third of a session counts as one


class Wrong(NamedTuple):
    person: int
    trial: int
    fact: tuple[int, int]
    typed: str

    @property
    def right(self) -> int:
        return self.fact[0] * self.fact[1]


def wrong(row: dict[str, str]) -> Wrong:
    a, b = sorted((int(row["a"]), int(row["b"])))
    return Wrong(int(row["person"]), int(row["trial"]), (a, b), row["typed"])


WRONG = [wrong(row) for row in rows("adult_wrong_products.csv")]
NEXT = [
    (float(row["from_net_s"]), int(row["n"]), int(row["not_right"])) for row in rows("adult_next_tries.csv")
]


def people() -> dict[int, list[tuple[int, Answer]]]:
    found: dict[int, list[tuple[int, Answer]]] = defaultdict(list)
    for one in WRONG:
        asked = "{}x{}".format(*one.fact)
        row = Answer(f"product:{asked}", asked, str(one.right), one.typed, "not_yet")
        found[one.person].append((one.trial // DAY, row))
    return found


def test_most_wrong_products_are_the_answer_of_another_fact() -> None:
    of_fact = [one for one in WRONG if one.typed.isdecimal() and confusions.others(one.fact, int(one.typed))]
    assert len(of_fact) / len(WRONG) > 0.7


def test_one_step_off_is_common_and_says_nothing_of_anyone() -> None:
    """38%: which is why it is never named."""
    steps = [one for one in WRONG if one.typed.isdecimal() and abs(int(one.typed) - one.right) in one.fact]
    assert 0.35 < len(steps) / len(WRONG) < 0.41


def test_who_confused_two_facts_does_so_again() -> None:
    """Two wrong answers to a fact are the same three times as often within a person as between two: what is
    told of a pair is that person's own."""
    by_fact: dict[tuple[int, int], list[tuple[int, str]]] = defaultdict(list)
    for wrong in WRONG:
        by_fact[wrong.fact].append((wrong.person, wrong.typed))
    same = {True: [0, 0], False: [0, 0]}
    for given in by_fact.values():
        for (one, first), (other, second) in combinations(given, 2):
            same[one == other][0] += first == second
            same[one == other][1] += 1
    within, between = (same[own][0] / same[own][1] for own in (True, False))
    assert within > 3 * between


def test_the_pairs_that_are_told_share_a_factor() -> None:
    """As operand errors do, which are most of all wrong products (Campbell 1987; from memory)."""
    told = [one for rows in people().values() for one in confusions.of_answers(rows)]
    assert len(told) > 50
    sharing = [one for one in told if any(set(other) & set(one.fact) for other in one.others)]
    assert len(sharing) / len(told) > 0.8


def test_no_error_rule_is_named_of_an_adult() -> None:
    """Wrong answers alone, without the many right ones that speak against a rule: the hardest case."""
    named = [
        (person, one.rules, one.explained)
        for person, rows in people().items()
        for one in misses.of_family("product", readings.read(logged(rows)))
    ]
    assert len(named) <= 1, named


def test_a_slow_right_answer_is_missed_more_often_the_next_time() -> None:
    """Twice as often and more: 6.9% against 2.4% at the limit for the oldest."""
    limit = marking.slow_ms(11) / 1000
    quick = [(n, missed) for start, n, missed in NEXT if start < limit]
    slow = [(n, missed) for start, n, missed in NEXT if start >= limit]
    share = [sum(missed for _, missed in some) / sum(n for n, _ in some) for some in (quick, slow)]
    assert share[1] > 2 * share[0]
    assert 0.03 < sum(n for n, _ in slow) / sum(n for _, n, _ in NEXT) < 0.06
