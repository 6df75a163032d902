"""When an error rule is named, and when it is taken back.

The method and its figures come from the project's own design lab (simulated children); the published patterns
are those of error_rules.csv, where the source of each row stands.
"""

from math import log
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import misses, rule_odds, skills, tell_apart
from review.core.answers import judge
from review.core.model import Answer
from review.core.readings import NEVER_NAMED, Reading, leads_to, predictions
from review.core.skills.column_errors import sum_errors
from tests.benchmarks.misses.classes import families
from tests.tables import rows

SUM, DIFFERENCE = "column-sum:3+3/1-within", "column-difference:3-3/1"


def reading(key: str, asked: str, text: str, day: int) -> Reading:
    problem, says = skills.problem(key, asked), predictions(key, asked)
    right = judge(problem, text) == "right"
    fits = frozenset(rule for rule, one in says.items() if not right and leads_to(problem, one, text))
    return Reading(day, key, asked, problem.expected, text, right, says, fits)


def by_rule(key: str, rule: str, days: list[int], seed: str = "a") -> list[Reading]:
    """A child who follows it whenever it shows."""
    random = Random(seed)
    askeds = [skills.draw(key, random) for _ in days]
    return [
        reading(key, asked, predictions(key, asked).get(rule, skills.problem(key, asked).expected), day)
        for asked, day in zip(askeds, days, strict=True)
    ]


def right(key: str, days: list[int], seed: str = "right") -> list[Reading]:
    return by_rule(key, "none", days, seed)


def named(rows: list[Reading]) -> set[str]:
    return {rule for found in misses.of_family("a family", rows) for rule in found.rules}


# --- the published patterns ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("a", "b", "written"),
    [
        (47, 25, {"sums_whole": "612", "left_to_right": "612", "digits_added": "18", "carry_far": "162",
                  "carry_dropped": "62", "wrong_digit": "81", "took_away": "22"}),
        (265, 378, {"sums_whole": "51313", "left_to_right": "5314", "digits_added": "31", "carry_far": "1633",
                    "carry_dropped": "533", "wrong_digit": "1111", "took_away": "113"}),
        (42, 25, {"digits_added": "13", "carry_always": "77", "took_away": "23"}),
        (47, 5, {"sums_whole": "412", "left_to_right": "412", "digits_added": "16", "ones_to_all": "912",
                 "carry_far": "142", "carry_dropped": "42", "wrong_digit": "61", "took_away": "42"}),
    ],
)  # fmt: skip
def test_the_published_patterns_of_sums(a: int, b: int, written: dict[str, str]) -> None:
    """Cox 1974 and Ashlock for the rules; each worked by hand here, column by column."""
    assert sum_errors(a, b) == written


FAMILIES = {
    "add_column": "column-sum", "add_mental": "mental-sum", "sub_column": "column-difference",
    "sub_mental": "mental-difference", "add_fact": "sum", "mul_fact": "product", "div_fact": "quotient",
    "mul_column": "column-product", "skip": "count-by", "write": "number-name", "value": "place-value/value",
    "more_less": "place-value/more", "roman_read": "roman/read", "roman_write": "roman/write",
    "convert": "convert", "clock": "clock", "span": "duration/later", "round": "rounding", "order": "decimal",
    "compare": "compare decimal", "money": "money/add", "change": "money/change",
}  # fmt: skip
ELSEWHERE = {
    ("div_fact", "remainder_dropped"): "division-written", ("div_fact", "to_next"): "division-written",
    ("div_fact", "step_short"): "division-written", ("div_fact", "step_over"): "division-written",
    ("add_column", "ones_to_all"): "",  # of sums with one digit, which no shipped set has
}  # fmt: skip


def test_every_row_of_the_table_of_error_rules_can_be_named() -> None:
    table = [(row["family"], row["rule"]) for row in rows("error_rules.csv")]
    shown: dict[str, set[str]] = {}
    for name, family in families().items():
        for place in (name, name.partition("/")[0]):
            shown.setdefault(place, set()).update(rule.partition("/")[0] for rule in family.rules)
    lost = [
        (family, rule)
        for family, rule in table
        if not any(
            rule in shown.get(place, ()) or (place, rule) in NEVER_NAMED
            for place in ELSEWHERE.get((family, rule), FAMILIES[family]).split()
        )
    ]
    assert lost == [("add_column", "ones_to_all")]


# --- naming -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("rule", ["sums_whole", "digits_added", "carry_far", "carry_dropped"])
def test_a_rule_that_always_leads_to_the_answers_is_named(rule: str) -> None:
    assert rule in named(by_rule(SUM, rule, [1, 1, 1, 2, 2, 2]))


def test_one_day_is_not_enough() -> None:
    rows = by_rule(DIFFERENCE, "smaller_from_larger", [1] * 12)
    assert named(rows) == set()
    later = by_rule(DIFFERENCE, "smaller_from_larger", [2], "later")
    assert named([*rows, *later]) == {"smaller_from_larger"}


def test_the_same_problem_again_is_not_enough() -> None:
    one = by_rule(DIFFERENCE, "not_reduced", [1])[0]
    assert named([one._replace(day=day) for day in range(1, 9)]) == set()


def test_who_is_always_right_has_no_rule() -> None:
    assert misses.of_family("a family", right(SUM, list(range(30)))) == ()


def test_two_rules_at_once_are_both_named() -> None:
    """One in the ones, one in the noughts: each where it shows."""
    key = "column-difference:3-3/zero"
    one = by_rule(key, "smaller_from_larger", [1, 2, 3, 4, 5, 6], "one")
    two = by_rule(key, "stops_at_zero", [1, 2, 3, 4, 5, 6], "two")
    mixed = [row for pair in zip(one, two, strict=True) for row in pair]
    assert {"smaller_from_larger", "stops_at_zero"} <= named(mixed)


def test_what_cannot_be_told_apart_is_told_as_one_of_two() -> None:
    """In two-digit sums to 99, whole column sums and working from the left write the same."""
    rows = by_rule("column-sum:2+2/1-within", "sums_whole", [1, 1, 2, 2, 3])
    (found,) = misses.of_family("column-sum", rows)
    assert set(found.rules) == {"sums_whole", "left_to_right"}
    told_apart = by_rule(SUM, "sums_whole", [4, 4, 5, 5], "apart")
    (found,) = misses.of_family("column-sum", [*rows, *told_apart])
    assert found.rules == ("sums_whole",)


def test_a_rule_that_explains_little_of_what_is_missed_is_not_named() -> None:
    """Its answers among as many others that no rule leads to."""
    rows = by_rule(SUM, "digits_added", [1, 2, 3, 4])
    strays = [row._replace(given="7", right=False, fits=frozenset()) for row in right(SUM, [0, 1, 2, 3, 4])]
    mixed = sorted([*strays, *rows], key=lambda row: row.day)
    assert named(mixed) == set()


def test_the_evidence_is_the_answers_the_rule_leads_to() -> None:
    rows = [*right(SUM, [1, 1]), *by_rule(SUM, "digits_added", [1, 2, 2, 3])]
    (found,) = misses.of_family("column-sum", rows)
    assert [row.given for row in found.evidence] == [row.given for row in rows[2:]]
    assert (found.missed, found.explained) == (4, 4)
    assert all(predictions(row.card, row.asked)["digits_added"] == row.given for row in found.evidence)


# --- taken back ---------------------------------------------------------------------------------------


def test_right_answers_on_two_days_take_a_name_back() -> None:
    """Four in a row, as 4 × 1.56 is over 6."""
    rows = by_rule(SUM, "sums_whole", [1, 2, 3, 4])
    assert named([*rows, *right(SUM, [5, 5, 5, 6])]) == set()
    assert named([*rows, *right(SUM, [5, 5, 5, 5, 5])]) == {"sums_whole"}
    assert named([*rows, *right(SUM, [5, 5, 6])]) == {"sums_whole"}


def test_right_answers_where_the_rule_would_not_have_shown_say_nothing_of_it() -> None:
    """A sum without an exchange is the same with and without the dropped one."""
    rows = by_rule(SUM, "carry_dropped", [1, 2, 3, 4])
    plain = right("column-sum:3+3/0", [5, 5, 6, 6, 7, 7])
    assert not any("carry_dropped" in row.says for row in plain)
    assert "carry_dropped" in named([*rows, *plain])
    assert "carry_dropped" not in named([*rows, *right(SUM, [5, 5, 6, 6, 7, 7])])


def test_the_rules_own_answer_keeps_it() -> None:
    rows = by_rule(SUM, "sums_whole", [1, 2, 3, 4])
    again = by_rule(SUM, "sums_whole", [6], "again")
    assert named([*rows, *right(SUM, [5, 5]), *again, *right(SUM, [7, 7])]) == {"sums_whole"}


def test_a_rule_taken_back_can_come_again_on_new_evidence_only() -> None:
    rows = [*by_rule(SUM, "sums_whole", [1, 2, 3, 4]), *right(SUM, [5, 5, 6, 6])]
    once = by_rule(SUM, "sums_whole", [9], "once")
    assert named([*rows, *once]) == set()
    assert "sums_whole" in named([*rows, *once, *by_rule(SUM, "sums_whole", [9, 10, 11], "more")])


# --- the odds -----------------------------------------------------------------------------------------


@given(st.lists(st.sampled_from(["rule", "right", "stray"]), max_size=25))
@settings(max_examples=60, deadline=None)
def test_the_odds_are_a_distribution(kinds: list[str]) -> None:
    makers = {"rule": by_rule(SUM, "digits_added", [1], "r")[0], "right": right(SUM, [1])[0]}
    makers["stray"] = makers["right"]._replace(given="7", right=False)
    for odds in map(rule_odds.odds, rule_odds.follow([makers[kind] for kind in kinds])):
        assert sum(odds.values()) == pytest.approx(1)
        assert all(chance >= 0 for chance in odds.values())


def test_a_match_speaks_for_a_rule_and_a_right_answer_against_it() -> None:
    rows = [*by_rule(SUM, "digits_added", [1, 2]), *right(SUM, [3, 4])]
    chances = [
        rule_odds.chance(odds, frozenset({"digits_added"}))
        for odds in map(rule_odds.odds, rule_odds.follow(rows))
    ]
    assert chances[0] < chances[1] > chances[2] > chances[3]


def test_the_figures_of_the_running_sum_are_those_of_the_model() -> None:
    """Reckoned from the likelihoods of section "rule odds" at 5% slips and five predictions, to a tenth or
    two: right 1.56 for being gone, the rule's answer 2.77 against."""

    def likelihood(reading: Reading, held: frozenset[str]) -> float:
        return rule_odds.likelihoods(reading, held, (0.05,))[0]

    one = by_rule(SUM, "digits_added", [1])[0]
    held = frozenset({"digits_added"})
    well = one._replace(right=True, fits=frozenset())
    gone = log(likelihood(well, rule_odds.NONE) / likelihood(well, held))
    assert gone == pytest.approx(misses.SPEAKS_AGAINST, abs=0.1)
    assert likelihood(one, held) > 10 * likelihood(one, rule_odds.NONE)


# --- told apart ---------------------------------------------------------------------------------------


def test_the_problem_that_tells_two_rules_apart_is_chosen() -> None:
    """47 + 25: both write 612. 265 + 378: 51313 and 5314."""
    even = (("sums_whole", 480), ("left_to_right", 480))
    key = "column-sum:3+3/2"
    assert tell_apart.most_telling(key, ["265+378"], even) == "265+378"
    same = tell_apart.told({"sums_whole": "612", "left_to_right": "612"}, even)
    apart = tell_apart.told({"sums_whole": "51313", "left_to_right": "5314"}, even)
    shows_not = tell_apart.told({}, even)
    assert shows_not == pytest.approx(0)
    assert 0 < same < apart


@given(st.integers(0, 10**6))
@settings(max_examples=40, deadline=None)
def test_what_is_drawn_belongs_to_the_card_and_follows_from_the_seed(seed: int) -> None:
    suspected = (("sums_whole", 500), ("digits_added", 300))
    first = tell_apart.drawn(SUM, Random(seed), suspected)
    assert first == tell_apart.drawn(SUM, Random(seed), suspected)
    assert skills.problem(SUM, first).asked == first
    assert tell_apart.drawn(SUM, Random(seed), suspected, {first}) != first


def test_a_rule_is_suspected_between_three_in_ten_and_sure() -> None:
    few, many = by_rule(SUM, "carry_dropped", [1, 1, 1]), by_rule(SUM, "carry_dropped", [1, 1, 2, 2, 3, 3, 4])
    assert dict(misses.suspicion(few[:1]))["carry_dropped"] >= 300
    assert misses.suspicion(many) == ()
    assert misses.suspicion(right(SUM, [1, 2, 3])) == ()


def test_the_likeliest_hypothesis_in_which_a_rule_is_held() -> None:
    alone, pair, other = frozenset({"a"}), frozenset({"a", "b"}), frozenset({"b"})
    odds = {rule_odds.NONE: 0.3, alone: 0.1, pair: 0.2, other: 0.4}
    assert rule_odds.likeliest(odds, "a") == pair
    assert rule_odds.likeliest(odds, "b") == other


# --- what need not be reckoned ------------------------------------------------------------------------


@given(
    st.lists(
        st.tuples(st.sampled_from(["sums_whole", "digits_added", "none", "stray"]), st.integers(1, 4)),
        max_size=12,
    )
)
@settings(max_examples=60, deadline=None)
def test_what_is_named_may_be_named_by_its_wrong_answers_alone(told: list[tuple[str, int]]) -> None:
    rows: list[Reading] = []
    for n, (what, day) in enumerate(sorted(told, key=lambda one: one[1])):
        (row,) = by_rule(SUM, "none" if what == "stray" else what, [day], str(n))
        stray = row._replace(given="7", right=False, fits=frozenset())
        rows.append(stray if what == "stray" else row)
    if named(rows):
        assert misses.may_be_named([row for row in rows if not row.right])


def test_one_day_one_problem_or_many_other_misses_are_no_evidence() -> None:
    rows = by_rule(SUM, "sums_whole", [1, 2, 3, 4])
    stray = right(SUM, [4])[0]._replace(given="7", right=False)
    assert misses.may_be_named(rows)
    assert misses.may_be_named(rows[:2])  # two problems on two days may be enough
    assert not misses.may_be_named([row._replace(day=1) for row in rows])
    assert not misses.may_be_named([rows[0], rows[0]._replace(day=2)])
    assert not misses.may_be_named([*[stray] * 9, *rows[:2]])
    assert not misses.may_be_named([])


def test_before_they_are_read_two_problems_on_two_days_may_be_evidence() -> None:
    """`sums_whole` of 47 + 25 is 612, and of 38 + 14 it is 412; 7 is what no rule leads to."""
    key = "column-sum:2+2/1-within"
    first, second, other = (
        Answer(key, asked, expected, given, "not_yet")
        for asked, expected, given in (("47+25", "72", "612"), ("38+14", "52", "412"), ("38+14", "52", "7"))
    )
    assert misses.may_be_evident([(1, first), (2, second)])
    assert not misses.may_be_evident([(1, first), (1, second)])
    assert not misses.may_be_evident([(1, first), (2, first)])
    assert not misses.may_be_evident([(1, first), (2, other)])
    assert not misses.may_be_evident([])
