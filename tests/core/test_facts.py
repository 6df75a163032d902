"""Facts: whole spaces counted against published closed forms; every problem is worked out from its prompt.
Their help has a room of its own, `test_fact_help`."""

import re
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.keys import content_of, well_formed
from review.core.model import Problem, Traits
from review.core.skills.fact_cards import RULES, digit_pairs, showings
from review.core.skills.facts import KINDS
from review.core.skills.kinds import Kind
from tests.core.arithmetic import ungrouped, value
from tests.core.fact_space import ALL, BY_NAME, keys, problem, shown
from tests.core.shown import assert_uniform, blank_fits, for_a_child, gives_away, in_order, refuses
from tests.tables import published

# --- how many there are -------------------------------------------------------------------------------


def orders(some: list[str]) -> int:
    return sum(len(showings(key)) for key in some)


def test_products_are_as_many_as_published() -> None:
    to_9 = keys("product", tables=tuple(range(2, 10)), times=(2, 9))
    to_12 = keys("product", tables=tuple(range(2, 13)), times=(2, 12))
    assert len(to_9) == published("products 2-9 x 2-9", "unordered")
    assert orders(to_9) == published("products 2-9 x 2-9", "ordered")
    assert len(to_12) == published("products 2-12 x 2-12", "unordered")
    assert orders(to_12) == published("products 2-12 x 2-12", "ordered")
    answers = {problem(key, content_of(key)).expected for key in to_9}
    assert len(answers) == published("products 2-9 x 2-9", "distinct products")


def test_tables_of_a_year() -> None:
    """3, 4 and 8 times 0 to 12 are 39 facts by the table; two of each table are rule cards here."""
    facts = [key for table in (3, 4, 8) for key in keys("product", tables=(table,), times=(2, 12))]
    whole = published("table by year: 3,4,8 x 0..12 (England Y3)", "ordered n x table")
    assert len(facts) + 3 * len(("times 0", "times 1")) == whole
    assert len(keys("product", tables=(3, 4, 8), times=(2, 12))) == len(facts) - len(("3x4", "3x8", "4x8"))


def test_quotients_are_the_products_both_ways() -> None:
    """10 x 10 division facts, less those with a one in them."""
    whole = published(
        "division facts from products 1-10 x 1-10 (non-zero divisor, quotient 1-10)",
        "ordered (dividend, divisor)",
    )  # fmt: skip
    assert len(keys("quotient", tables=tuple(range(2, 11)), times=(2, 10))) == whole - 19


def test_sums_past_ten_are_as_many_as_published() -> None:
    past = keys("sum", addends=(1, 9), total=(11, 18))
    assert orders(past) == published("sums of two one-digit numbers 0-9", "sum > 10, ordered")


@pytest.mark.parametrize("whole", [5, 20, 100])
def test_bonds_are_as_many_as_published(whole: int) -> None:
    name = f"number bonds to {whole} (a+b={whole}, a,b>=0)"
    shows = {asked for key in keys("bond", wholes=(whole,), zero=True) for asked in showings(key)}
    assert len(shows) == 2 * published(name, "ordered")  # the missing part on either side


def test_differences_are_the_sums_turned_round() -> None:
    turned = {f"{a + b}-{a}" for a in range(1, 11) for b in range(1, 11)}
    assert {content_of(key) for key in keys("difference", whole=(2, 20))} == turned


@given(st.sampled_from(KINDS), st.randoms(use_true_random=False))
def test_options_narrow_and_never_widen(kind: Kind, random: Random) -> None:
    """Whatever ranges one writes, only known facts come out, each once, and the rules first."""
    options: dict[str, object] = {}
    for name, option in kind.options.items():
        low, high = option.low, option.high
        pick = sorted(random.randint(low, high) for _ in range(2)) if high else [0, 0]
        options[name] = {
            "range": tuple(pick),
            "wholes": tuple(dict.fromkeys(pick)),
            "whole": pick[0],
            "yes-no": random.random() < 0.5,
            "words": option.choices[: random.randint(1, 3)],
        }[option.type]
    found = keys(kind.name, **options)
    assert len(set(found)) == len(found)
    assert all(well_formed(key, asked) for key in found[:50] for asked in showings(key))
    assert [key in RULES for key in found] == sorted((key in RULES for key in found), reverse=True)


def test_tables_come_in_the_order_written() -> None:
    assert keys("product", tables=(10, 2), times=(2, 3)) == [
        "product:2x10",
        "product:3x10",
        "product:2x2",
        "product:2x3",
    ]
    assert keys("product", tables=(2,), times=(2, 2), zero=True, one=True)[:2] == [
        "product:nx0",
        "product:nx1",
    ]
    assert keys("sum", one_of=(9,), total=(11, 13)) == ["sum:2+9", "sum:3+9", "sum:4+9"]
    assert keys("sum", apart=(1, 1), total=(2, 7)) == ["sum:1+2", "sum:2+3", "sum:3+4"]
    assert keys("half", numbers=(1, 7), step=1) == ["half:2", "half:4", "half:6"]


# --- draws --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "members"),
    [
        ("sum:6+7", {"6+7", "7+6"}),
        ("sum:6+6", {"6+6"}),
        ("product:6x7", {"6x7", "7x6"}),
        ("difference:13-6", {"13-6"}),
        ("quotient:42/6", {"42/6"}),
        ("bond:10=3+7", {"10=3+_", "10=_+3", "10=7+_", "10=_+7"}),
        ("bond:10=5+5", {"10=5+_", "10=_+5"}),
        ("double:7", {"7"}),
        ("half:14", {"14"}),
        ("sum:n+0", {f"{n}+0" for n in range(1, 11)} | {f"0+{n}" for n in range(1, 11)}),
        ("product:nx0", {f"{n}x0" for n in range(1, 11)} | {f"0x{n}" for n in range(1, 11)}),
        ("product:nx1", {f"{n}x1" for n in range(1, 11)} | {f"1x{n}" for n in range(1, 11)}),
        ("difference:n-n", {f"{n}-{n}" for n in range(1, 11)}),
        ("quotient:n/1", {f"{n}/1" for n in range(1, 11)}),
    ],
)
def test_every_showing_is_equally_likely(key: str, members: set[str]) -> None:
    assert set(showings(key)) == members
    assert len(showings(key)) == len(members)
    assert_uniform(BY_NAME[key.partition(":")[0]], key, members)


@pytest.mark.parametrize(
    ("key", "strangers"),
    [
        ("sum:6+7", ["6+8", "7", "", "6-7"]),
        ("product:6x7", ["42", "6x6", "7*6"]),
        ("product:nx0", ["13x0", "3x1"]),
        ("bond:10=3+7", ["10=4+_", "10=3+7"]),
        ("difference:13-6", ["13-7"]),
        ("half:14", ["7", "15"]),
    ],
)
def test_what_belongs_to_another_card_is_refused(key: str, strangers: list[str]) -> None:
    assert refuses(BY_NAME[key.partition(":")[0]], key, strangers) == []


# --- every problem ------------------------------------------------------------------------------------


def holds_with(prompt: str, number: int) -> bool:
    """Whether a number that is tried in the box makes both sides equal."""
    left, right = prompt.replace("□", str(number)).split(" = ")
    return "÷ 0" not in left and value(left) == value(right)


def answer_of(problem: Problem) -> Fraction:
    """From the prompt alone."""
    prompt = problem.prompt
    if prompt.startswith("Double"):
        return 2 * value(prompt.split()[1])
    if prompt.startswith("Half"):
        return value(prompt.split()[2]) / 2
    if problem.kind == "bond":
        whole, _, parts = prompt.partition(" = ")
        return value(whole) - value(re.sub(r"\D", "", parts))
    if "□" in prompt:
        return Fraction(next(n for n in range(1001) if holds_with(prompt, n)))
    return value(prompt.removesuffix("="))


@pytest.mark.parametrize("kind", ALL)
def test_every_problem_of_the_whole_space(kind: str) -> None:
    for one in shown(kind):
        told = f"{one.card} {one.asked}"
        assert well_formed(one.card, one.asked), told
        assert answer_of(one) == int(one.expected), told
        assert judge(one, one.expected) == "right", told
        assert one.expected in re.findall(r"\d+", ungrouped(one.told)), told
        assert for_a_child(one), told
        assert in_order(one), told
        assert blank_fits(one), told
        assert not gives_away(one), told


def test_a_fact_in_words() -> None:
    one = problem("product:6x7", "7x6")
    assert (one.prompt, one.say, one.told, one.expected) == (
        "7 × 6 =",
        "seven times six",
        "7 × 6 makes 42.",
        "42",
    )
    assert problem("bond:10=3+7", "10=_+7").prompt == "10 = □ + 7"
    assert problem("half:14", "14").prompt == "Half of 14 is"
    assert problem("difference:13-6", "13-6").told == "13 − 6 leaves 7."


# --- what the planner knows ---------------------------------------------------------------------------


def traits(key: str) -> Traits:
    return BY_NAME[key.partition(":")[0]].traits(key)


def test_a_family_shares_its_name() -> None:
    assert {traits(key).family for key in ("product:6x7", "quotient:42/6", "quotient:42/7")} == {"6x7=42"}
    sums = ("sum:6+7", "difference:13-6", "difference:13-7", "bond:13=6+7")
    assert {traits(key).family for key in sums} == {"6+7=13"}
    assert {traits(key).family for key in ("double:7", "half:14", "sum:7+7", "bond:14=7+7")} == {"7+7=14"}


@pytest.mark.parametrize("kind", ["difference", "quotient", "half"])
def test_a_partner_is_a_card_of_the_same_family(kind: str) -> None:
    known = {key for some in ALL.values() for key in some}
    for key in ALL[kind]:
        partner = traits(key).partner
        assert partner in known, key
        assert traits(partner).family == traits(key).family, key


def test_what_is_not_shown_one_after_the_other() -> None:
    assert traits("product:6x7").groups == {"answer-42", "table-6", "table-7"}
    assert traits("quotient:42/6").groups & traits("product:6x8").groups == {"table-6"}
    assert traits("sum:6+7").groups & traits("difference:15-2").groups == {"answer-13"}
    for some in ALL.values():
        for key in some:
            assert traits(key).fact
            assert traits(key).groups
            assert traits(key).choices == 0
            assert 0 < traits(key).seconds < 13


def test_likeness_of_products() -> None:
    """Worked out by hand from the rule: pairs of digits among factors and product."""
    assert digit_pairs(6, 7) == {"24", "26", "27", "46", "47", "67"}
    assert digit_pairs(2, 2) == {"22", "24"}
    assert len(digit_pairs(6, 7) & digit_pairs(4, 6)) == 3  # 24, 26, 46: both hold 2, 4 and 6
    assert traits("product:6x7").digit_pairs == digit_pairs(6, 7)
