"""Facts: whole spaces counted against published closed forms; every equation shown is worked out again."""

import ast
import csv
import operator
import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.keys import content_of, well_formed
from review.core.model import Kind, Problem, Skill, Traits
from review.core.skills.fact_cards import RULES, digit_pairs, showings
from review.core.skills.facts import KINDS, LARGEST_FACTOR, LARGEST_TOTAL
from tests.core.shown import assert_uniform, blank_fits, for_a_child, gives_away, in_order, refuses

BY_NAME = {kind.name: kind for kind in KINDS}
COUNTS = Path(__file__).parents[1] / "data" / "counts.csv"


def skill(kind: str, **options: object) -> Skill:
    defaults = {name: option.default for name, option in BY_NAME[kind].options.items()}
    return Skill("s", "S", kind, "fluency", {**defaults, **options})


def keys(kind: str, **options: object) -> list[str]:
    return list(BY_NAME[kind].keys(skill(kind, **options)))


def problem(key: str, asked: str) -> Problem:
    return BY_NAME[key.partition(":")[0]].problem(key, asked)


def published(name: str, what: str, key: str) -> int:
    """A number of problems of a class, from counts.csv: brute force and a closed form agree there."""
    with COUNTS.open(encoding="utf-8", newline="") as file:
        found = [
            row
            for row in csv.DictReader(file)
            if (row["class"], row["what"], row["key"]) == (name, what, key)
        ]
    assert len(found) == 1, (name, what, key)
    return int(found[0]["count"])


def everything() -> dict[str, list[str]]:
    """Every fact any set can ask for, in every place; of the wholes of bonds those to 50 and some beyond."""
    tables = tuple(range(2, LARGEST_FACTOR + 1))
    wide, times = (1, LARGEST_TOTAL), (2, LARGEST_FACTOR)
    places = ("result", "first", "second")
    return {
        "sum": keys("sum", addends=wide, total=(2, LARGEST_TOTAL), zero=True, unknown=places),
        "difference": keys(
            "difference", whole=(2, LARGEST_TOTAL), take=wide, left=wide, zero=True, unknown=places
        ),
        "product": keys("product", tables=tables, times=times, zero=True, one=True, unknown=places),
        "quotient": keys("quotient", tables=tables, times=times, one=True, unknown=places),
        "bond": keys("bond", wholes=(*range(2, 51), 99, 100, 700, 1000), zero=True),
        "double": keys("double", numbers=(1, 100)),
        "half": keys("half", numbers=(2, 200)),
    }


ALL = everything()


def shown(kind: str) -> Iterator[Problem]:
    return (problem(key, asked) for key in ALL[kind] for asked in showings(key))


# --- how many there are -------------------------------------------------------------------------------


def orders(some: list[str]) -> int:
    return sum(len(showings(key)) for key in some)


def test_products_are_as_many_as_published() -> None:
    to_9 = keys("product", tables=tuple(range(2, 10)), times=(2, 9))
    to_12 = keys("product", tables=tuple(range(2, 13)), times=(2, 12))
    assert len(to_9) == published("products 2-9 x 2-9", "count", "unordered")
    assert orders(to_9) == published("products 2-9 x 2-9", "count", "ordered")
    assert len(to_12) == published("products 2-12 x 2-12", "count", "unordered")
    assert orders(to_12) == published("products 2-12 x 2-12", "count", "ordered")
    answers = {problem(key, content_of(key)).expected for key in to_9}
    assert len(answers) == published("products 2-9 x 2-9", "count", "distinct products")


def test_tables_of_a_year() -> None:
    """3, 4 and 8 times 0 to 12 are 39 facts by the table; two of each table are rule cards here."""
    facts = [key for table in (3, 4, 8) for key in keys("product", tables=(table,), times=(2, 12))]
    whole = published("table by year: 3,4,8 x 0..12 (England Y3)", "count", "ordered n x table")
    assert len(facts) + 3 * len(("times 0", "times 1")) == whole
    assert len(keys("product", tables=(3, 4, 8), times=(2, 12))) == len(facts) - len(("3x4", "3x8", "4x8"))


def test_quotients_are_the_products_both_ways() -> None:
    """10 x 10 division facts, less those with a one in them."""
    whole = published(
        "division facts from products 1-10 x 1-10 (non-zero divisor, quotient 1-10)", "count",
        "ordered (dividend, divisor)",
    )  # fmt: skip
    assert len(keys("quotient", tables=tuple(range(2, 11)), times=(2, 10))) == whole - 19


def test_sums_past_ten_are_as_many_as_published() -> None:
    past = keys("sum", addends=(1, 9), total=(11, 18))
    assert orders(past) == published("sums of two one-digit numbers 0-9", "count", "sum > 10, ordered")


@pytest.mark.parametrize("whole", [5, 20, 100])
def test_bonds_are_as_many_as_published(whole: int) -> None:
    name = f"number bonds to {whole} (a+b={whole}, a,b>=0)"
    shows = {asked for key in keys("bond", wholes=(whole,), zero=True) for asked in showings(key)}
    assert len(shows) == 2 * published(name, "count", "ordered")  # the missing part on either side


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


# --- every problem and its help -----------------------------------------------------------------------

OPERATORS: dict[type[ast.operator], Callable[[Fraction, Fraction], Fraction]] = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv,
}  # fmt: skip


def ungrouped(text: str) -> str:
    """1,000 as 1000; a list like "9, 10, 11" stays as it is."""
    return re.sub(r"(?<=\d),(?=\d{3})", "", text)


def worth(node: ast.expr) -> Fraction:
    if isinstance(node, ast.BinOp):
        return OPERATORS[type(node.op)](worth(node.left), worth(node.right))
    assert isinstance(node, ast.Constant)
    assert isinstance(node.value, int)
    return Fraction(node.value)


def value(side: str) -> Fraction:
    plain = ungrouped(side).replace("×", "*").replace("÷", "/").replace("−", "-").strip()
    return worth(ast.parse(plain, mode="eval").body)


EQUATION = re.compile(r"[0-9][0-9 +−×÷]*(?: = [0-9 +−×÷]*[0-9])+")


def equations(text: str) -> list[list[Fraction]]:
    return [[value(side) for side in found.split("=")] for found in EQUATION.findall(ungrouped(text))]


def counted_rightly(text: str) -> bool | None:
    """Start at 8. 9, 10, 11. That is 3 steps. / 3 tens: 30. / Share 2 at a time. 2, 4, 6. Each gets 3."""
    shared = re.fullmatch(r"Share 2 at a time\.\n([\d, ]+)\.\nEach gets (\d+)\.", text)
    if shared:
        return [int(n) for n in shared[1].split(", ")] == [2 * n for n in range(1, int(shared[2]) + 1)]
    halves = re.fullmatch(r"Half of (\d+) is (\d+)\.\nHalf of (\d+) is (\d+)\.", text)
    if halves:  # of ones and of as many tens
        few, half, tens, answer = map(int, halves.groups())
        return (2 * half, tens, answer) == (few, 10 * few, 10 * half)
    if re.fullmatch(r"You have all \d+\.\nNothing is missing: 0\.", text):
        return True
    start = re.fullmatch(r"Start at (\d+)\.\n([\d, ]+)\.(?:\nThat is (\d+) steps?\.)?", text)
    if start:
        row = [int(start[1]), *map(int, start[2].split(", "))]
        even = {after - before for before, after in pairwise(row)} in ({1}, {-1})
        return even and (start[3] is None or int(start[3]) == len(row) - 1)
    units = re.fullmatch(r"(\d+ (?:tens?|ones?)(?: and \d+ (?:tens?|ones?))*): (\d+)\.", text)
    if units:
        sizes = re.findall(r"(\d+) (ten|one)", units[1])
        return sum(int(count) * (10 if unit == "ten" else 1) for count, unit in sizes) == int(units[2])
    return None


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


@pytest.mark.parametrize("kind", ALL)
def test_every_line_of_help_is_true_and_the_last_one_ends_at_the_answer(kind: str) -> None:
    for one in shown(kind):
        text = "\n".join(help.text for help in one.helps)
        for sides in equations(text):
            assert len(set(sides)) == 1, (one.card, one.asked, text)
        steps = ungrouped(one.helps[-1].text)
        assert re.findall(r"\d+", steps)[-1] == one.expected, (one.card, one.asked, steps)
        assert equations(steps) or counted_rightly(steps), (one.card, one.asked, steps)


@pytest.mark.parametrize("kind", ALL)
def test_a_half_in_words_is_half(kind: str) -> None:
    """Halves and doubles come before the signs for times and division: none in their help."""
    said = 0
    for one in shown(kind):
        text = "\n".join(help.text for help in one.helps)
        halves = re.findall(r"Half of (\d+) is (\d+)\.", text)
        said += len(halves)
        assert all(int(whole) == 2 * int(half) for whole, half in halves), (one.asked, text)
        assert kind not in ("sum", "difference", "bond", "double", "half") or not re.search("[×÷]", text)
    assert (said > 0) is (kind == "half")


@pytest.mark.parametrize("kind", ALL)
def test_one_of_a_thing_is_one(kind: str) -> None:
    for one in shown(kind):
        text = "\n".join(help.text for help in one.helps)
        assert not re.search(r"\b1 (counters|plates|dots|children|tens|ones|steps)\b", text), text


# What is still to be done after "You know ...", as a step from the known result.
STEPS: list[tuple[str, Callable[[Fraction, list[int]], Fraction]]] = [
    (r"One more\. And one more\.", lambda known, n: known + 2),
    (r"One more\.", lambda known, n: known + 1),
    (r"One less\.", lambda known, n: known - 1),
    (r"Two more\.", lambda known, n: known + 2),
    (r"Then double (\d+)\.", lambda known, n: known + 2 * n[0]),
    (r"Ten more\.", lambda known, n: known + 10),
    (r"(\d+) tens? more\.", lambda known, n: known + 10 * n[0]),
    (r"Then (\d+) more\.", lambda known, n: known + n[0]),
    (r"9 is one less than 10\.", lambda known, n: known - 1),
    (r"8 is two less than 10\.", lambda known, n: known - 2),
    (r"Move 1 from (\d+) to (\d+)\.", lambda known, n: known if n[0] - n[1] == 2 else known + 99),
    (r"That is one too many\.", lambda known, n: known + 1),
    (r"That is two too many\.", lambda known, n: known + 2),
    (r"(\d+) is (\d+) more than 10\.", lambda known, n: known + n[0] - 10),
    (r"\d+ and \d+ have ten more\.", lambda known, n: known),
    (r"Take one more\.", lambda known, n: known - 1),
    (r"Take (\d+) (?:more|away)\.", lambda known, n: known - n[0]),
    (r"One more (\d+)\.", lambda known, n: known + n[0]),
    (r"Two more (\d+)s\.", lambda known, n: known + 2 * n[0]),
    (r"(\d+) more (\d+)s\.", lambda known, n: known + n[0] * n[1]),
    (r"One (\d+) fewer\.", lambda known, n: known - n[0]),
    (r"Double it\.", lambda known, n: known * 2),
    (r"Take half of it\.", lambda known, n: known / 2),
]


def reached(neighbour: str) -> Fraction | None:
    """From a known neighbour, by what is said to be left to do; None where nothing is known."""
    found = re.fullmatch(r"You know (.+?)\.\n(.+)", neighbour)
    if not found:
        return None
    known = value(found[1].split("=")[1])
    for pattern, step in STEPS:
        rest = re.fullmatch(pattern, found[2])
        if rest:
            return step(known, [int(number) for number in rest.groups()])
    raise AssertionError(neighbour)


@pytest.mark.parametrize("kind", ["sum", "difference", "product", "double"])
def test_a_known_neighbour_leads_to_the_answer(kind: str) -> None:
    led = 0
    for one in shown(kind):
        if one.card in RULES or "_" in one.card:  # what is missing is found by the operation that undoes
            continue
        neighbour = next(help.text for help in one.helps if help.step == "neighbour")
        if reached(neighbour) is not None:
            led += 1
            assert reached(neighbour) == int(one.expected), (one.asked, neighbour)
    assert led > sum("_" not in key for key in ALL[kind]) / 2


@pytest.mark.parametrize(
    ("card", "asked", "question"),
    [
        ("sum:n+0", "0+7", "What does adding nothing do?"),
        ("sum:n+0", "7+0", "What does adding nothing do?"),
        ("difference:n-0", "7-0", "What does taking nothing do?"),
        ("difference:n-n", "7-7", "How many are left when all go?"),
        ("product:nx0", "7x0", "How many are on empty plates?"),
        ("product:nx1", "1x7", "How many are in one group?"),
    ],
)
def test_a_rule_of_0_or_1_has_a_question_of_its_own_and_no_harder_fact_beside_it(
    card: str, asked: str, question: str
) -> None:
    helps = problem(card, asked).helps
    assert helps[0].text == question
    assert "neighbour" not in [help.step for help in helps]
    assert not [help for help in helps if "You know" in help.text]
    assert [help.step for help in helps][-2:] == ["blank", "steps"]


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
