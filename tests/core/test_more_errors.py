"""Error rules of fractions, percents, shapes and products in the head, over whole classes.

tests/data/error_rules_more.csv: every rule from memory, with the published work that describes it where one
is known. What a rule makes is reckoned here again with `fractions`, from the numbers a child sees.
"""

import re
from collections.abc import Callable
from fractions import Fraction
from math import lcm

import pytest

from review.core.answers import judge
from review.core.model import Problem
from review.core.skills import KINDS, problem
from review.core.skills import fractions as fraction_kind
from review.core.skills import percents as percent_kind
from review.core.skills import shapes as shape_kind
from review.core.skills.mental_times import members
from review.core.skills.tasks import Tasks
from tests.core.shown import seen
from tests.core.spaces import amount, every, tried
from tests.tables import rows

ROWS = rows("error_rules_more.csv")


def predicted(key: str, asked: str) -> dict[str, str]:
    return dict(KINDS[kind_of(key)].predict(key, asked))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['family']}-{row['rule']}")
def test_every_rule_shows_as_in_its_example(row: dict[str, str]) -> None:
    assert problem(row["key"], row["example"]).expected == row["right"]
    assert predicted(row["key"], row["example"])[row["rule"]] == row["predicted"]


def kind_of(key: str) -> str:
    return key.partition(":")[0]


@pytest.mark.parametrize("kind", sorted({kind_of(row["key"]) for row in ROWS}))
def test_the_table_has_every_rule_of_these_kinds(kind: str) -> None:
    keys = [key for key in ALL_KEYS if kind_of(key) == kind]
    shown = {rule for key in keys for asked in tried(KINDS[kind], key, 40) for rule in predicted(key, asked)}
    assert shown == {row["rule"] for row in ROWS if kind_of(row["key"]) == kind}


# --- reckoned again, from the prompt ------------------------------------------------------------------

Made = Fraction | str | None  # None: the rule shows nothing there
Rules = dict[str, Callable[..., Made]]


def numbers(one: Problem) -> list[int]:
    return [int(found.replace(",", "")) for found in re.findall(r"\d[\d,]*", one.prompt)]


def sides(one: Problem) -> list[int]:
    """In the picture from the top, then those of the prompt; a square has one."""
    drawn = [int(found) for line in seen(one) for found in re.findall(r"(\d+) ", line)]
    return [*drawn, *numbers(one)]


def signs(first: Fraction, second: Fraction) -> str:
    return "=<>"[(first < second) + 2 * (first > second)]


def over(top: Fraction | int, under: Fraction | int) -> Made:
    return Fraction(top) / under if under > 0 and top > 0 else None


SUM: Rules = {
    "tops_and_bottoms": lambda a, b, c, d: over(a + c, b + d),
    "tops_only": lambda a, b, c, d: over(a + c, max(b, d)) if b != d else None,
    "tops_kept": lambda a, b, c, d: over(a + c, lcm(b, d)) if b != d else None,
}
DIFFERENCE: Rules = {
    "tops_and_bottoms": lambda a, b, c, d: over(abs(a - c), abs(b - d)),
    "tops_only": lambda a, b, c, d: over(abs(a - c), max(b, d)) if b != d else None,
    "added": lambda a, b, c, d: Fraction(a, b) + Fraction(c, d),
}
COMPARE: Rules = {
    "bigger_bottom": lambda a, b, c, d: signs(b, d) if b != d else None,
    "bigger_top": lambda a, b, c, d: signs(a, c) if a != c else None,
    "smaller_gap": lambda a, b, c, d: signs(-(b - a), -(d - c)),
    "reversed": lambda a, b, c, d: signs(Fraction(c, d), Fraction(a, b)) if a * d != b * c else None,
}
ADD_MIXED: Rules = {
    "wholes_ignored": lambda m, a, b, n, c, d: Fraction(a, b) + Fraction(c, d),
    "parts_ignored": lambda m, a, b, n, c, d: Fraction(m + n),
    "tops_and_bottoms": lambda m, a, b, n, c, d: m + n + Fraction(a + c, b + d),
    "whole_left_out": lambda m, a, b, n, c, d: m + n + (Fraction(a, b) + Fraction(c, d)) % 1,
}
LESS_MIXED: Rules = {
    "wholes_ignored": lambda m, a, b, n, c, d: abs(Fraction(a, b) - Fraction(c, d)),
    "parts_ignored": lambda m, a, b, n, c, d: Fraction(m - n),
    "smaller_from_larger": lambda m, a, b, n, c, d: m - n + abs(Fraction(a, b) - Fraction(c, d)),
    "not_reduced": lambda m, a, b, n, c, d: m - n + (Fraction(a, b) - Fraction(c, d)) % 1,
}
RULES: dict[str, tuple[Callable[[Problem], list[int]], Rules]] = {
    "fraction:add-like/3-4-6": (numbers, SUM),
    "fraction:add-like-over/3-4-6": (numbers, SUM),
    "fraction:add-multiple/2-4-6-12": (numbers, SUM),
    "fraction:add-unlike/3-4-5-6": (numbers, SUM),
    "fraction:subtract-like/3-4-6": (numbers, DIFFERENCE),
    "fraction:subtract-multiple/2-4-6-12": (numbers, DIFFERENCE),
    "fraction:subtract-unlike/3-4-5-6": (numbers, DIFFERENCE),
    "fraction:compare-like/3-4-6": (numbers, COMPARE),
    "fraction:compare-same-top/3-4-6-8": (numbers, COMPARE),
    "fraction:compare/2-3-4-6-8": (numbers, COMPARE),
    **{
        f"fraction:add-mixed{tail}/2-3-4-6": (numbers, ADD_MIXED)
        for tail in ("", "-over", "-unlike", "-unlike-over")
    },
    **{
        f"fraction:subtract-mixed{tail}/2-3-4-6": (numbers, LESS_MIXED)
        for tail in ("", "-over", "-unlike", "-unlike-over")
    },
    "fraction:equivalent/2-3-4-6-8-12": (
        numbers,
        {"top_kept": lambda a, b, e: Fraction(a), "added_alike": lambda a, b, e: over(a + (e - b), 1)},
    ),
    "fraction:equivalent-down/2-3-4-6-8-12": (
        numbers,
        {"top_kept": lambda a, b, e: Fraction(a), "added_alike": lambda a, b, e: over(a - (b - e), 1)},
    ),
    "fraction:equivalent-under/2-3-4-6-8-12": (
        numbers,
        {"bottom_kept": lambda a, b, e: Fraction(b), "added_alike": lambda a, b, e: Fraction(b + (e - a))},
    ),
    "fraction:to-mixed/2-3-4-5": (
        numbers,
        {
            "wholes_ignored": lambda a, b: Fraction(a, b) % 1,
            "rest_as_bottom": lambda a, b: a // b + Fraction(1, a % b),
        },
    ),
    "fraction:to-improper/2-3-4-5": (
        numbers,
        {
            "wholes_ignored": lambda w, a, b, _: Fraction(a),
            "whole_added": lambda w, a, b, _: Fraction(w + a),
            "whole_times_top": lambda w, a, b, _: Fraction(w * a),
            "not_added": lambda w, a, b, _: Fraction(w * b),
        },
    ),
    "fraction:times/2-3-4-5": (
        numbers,
        {
            "both_multiplied": lambda n, a, b: Fraction(a, b),
            "bottom_multiplied": lambda n, a, b: Fraction(a, b) / n,
        },
    ),
    "fraction:to-one/3-4-5-8": (numbers, {"bottom_dropped": lambda a, b, _: Fraction(b - a)}),
    **{
        f"fraction:{task}/2-3-4-5": (
            numbers,
            {"one_part": lambda a, b, n: Fraction(n, b), "bottom_taken_off": lambda a, b, n: Fraction(n - b)},
        )
        for task in ("of", "unit-of")
    },
    "fraction:to-decimal/2-4-5-10-100": (
        numbers,
        {
            "point_between": lambda a, b: a + Fraction(b, 10 ** len(str(b))),
            "bottom_after_point": lambda a, b: Fraction(b, 10 ** len(str(b))),
        },
    ),
    "fraction:from-decimal/2-4-5-10-100": (
        lambda one: [int(one.prompt.split(" ")[0].partition(".")[2])],
        {"always_tenths": lambda n: Fraction(n, 10), "digits_below_one": lambda n: Fraction(1, n)},
    ),
    "percent:of/20-30-50": (
        numbers,
        {
            "number_off": lambda p, n: over(n - p, 1),
            "percent_itself": lambda p, n: Fraction(p),
            "divided_by_percent": lambda p, n: Fraction(n, p) if n % p == 0 else None,
            "rest": lambda p, n: n * (1 - Fraction(p, 100)),
        },
    ),
    "percent:from-fraction/2-4-5-10-20": (
        numbers,
        {
            "bottom_itself": lambda a, b: Fraction(b),
            "digits_joined": lambda a, b: Fraction(f"{a}{b}"),
            "one_part": lambda a, b: Fraction(100, b),
        },
    ),
    "percent:from-decimal/2": (
        lambda one: [int(one.prompt[2:4])],
        {"point_dropped": lambda n: Fraction(n), "by_ten": lambda n: Fraction(n, 10)},
    ),
    "percent:to-decimal/2": (
        numbers,
        {"point_in_front": lambda p: Fraction(f"0.{p}"), "by_ten": lambda p: Fraction(p, 10)},
    ),
    "shape-measure:perimeter/2..12": (
        sides,
        {"area_for_around": lambda a, b: Fraction(a * b), "half_around": lambda a, b: Fraction(a + b)},
    ),
    "shape-measure:perimeter-square/2..12": (
        sides,
        {"area_for_around": lambda a: Fraction(a * a), "half_around": lambda a: Fraction(a + a)},
    ),
    "shape-measure:area/2..12": (
        sides,
        {
            "around_for_area": lambda a, b: Fraction(a + b + a + b),
            "sides_added": lambda a, b: Fraction(a + b),
        },
    ),
    "shape-measure:area-square/2..12": (
        sides,
        {"around_for_area": lambda a: Fraction(a + a + a + a), "sides_added": lambda a: Fraction(a + a)},
    ),
    "shape-measure:volume/2..6": (
        sides,
        {
            "sides_added": lambda h, d, w: Fraction(h + d + w),
            "one_layer": lambda h, d, w: Fraction(d * w),
            "faces_for_inside": lambda h, d, w: Fraction(2 * h * d + 2 * d * w + 2 * w * h),
        },
    ),
}
TABLES: dict[str, Tasks] = {
    "fraction": fraction_kind.TASKS, "percent": percent_kind.TASKS, "shape-measure": shape_kind.TASKS,
}  # fmt: skip


def value(text: str) -> Made:
    return text if text in "<=>" else amount(text)


@pytest.mark.parametrize("key", RULES)
def test_what_each_rule_makes_over_a_whole_class(key: str) -> None:
    """Also that nothing is left out: a rule that makes another answer than the right one is predicted."""
    read, rules = RULES[key]
    for asked in every(TABLES[kind_of(key)], key):
        one, found = problem(key, asked), predicted(key, asked)
        made = {rule: make(*read(one)) for rule, make in rules.items()}
        right = value(one.expected)
        wanted = {rule: given for rule, given in made.items() if given is not None and given != right}
        assert {rule: value(text) for rule, text in found.items()} == wanted, asked


ALL_KEYS = sorted({*RULES, *(row["key"] for row in ROWS)})


@pytest.mark.parametrize("key", ALL_KEYS)
def test_what_is_predicted_can_be_read_and_differs(key: str) -> None:
    for asked in tried(KINDS[kind_of(key)], key, 40):
        one = problem(key, asked)
        for rule, text in predicted(key, asked).items():
            assert judge(one, text) == "other", (asked, rule, text)


# --- products in the head -----------------------------------------------------------------------------


def head_product(a: int, b: int) -> dict[str, int]:
    """By the digits as they are written."""
    digits = [int(digit) * 10**at for at, digit in enumerate(reversed(str(a))) if digit != "0"]
    made = {"added": a + b}
    if len(digits) > 1 and b < 10:
        made["first_part_only"] = sum(digits[:-1]) + digits[-1] * b
        made["last_part_only"] = digits[0] * b + sum(digits[1:])
        made["rest_left_out"] = digits[-1] * b
    if str(a).endswith("0") or str(b).endswith("0"):
        made["zero_dropped"] = int(str(a * b)[:-1])
        made["zero_extra"] = int(f"{a * b}0")
    if str(a)[-1] in "89" and b < 10 and a > 10:
        up = 10 - int(str(a)[-1])
        made["not_adjusted"] = (a + up) * b
        made["adjusted_once"] = (a + up) * b - up
    return {rule: number for rule, number in made.items() if number != a * b}


@pytest.mark.parametrize(
    "key",
    [
        "2x1/none",
        "2x1/regroup-both",
        "2x1/near-ten",
        "2x1/tens",
        "3x1/hundreds",
        "2x2/by-10",
        "3x1/regroup-ones",
    ],
)
def test_products_in_the_head_over_whole_classes(key: str) -> None:
    found = members(f"mental-product:{key}")
    assert found
    for asked in found:
        a, b = map(int, asked.split("x"))
        made = {rule: str(number) for rule, number in head_product(a, b).items()}
        assert predicted(f"mental-product:{key}", asked) == made, asked


@pytest.mark.parametrize("key", ["3/1/by-place", "2/1/regroup", "3/1/half-none"])
def test_quotients_in_the_head(key: str) -> None:
    """Written again as text: a nought struck off or put on."""
    for asked in members(f"mental-quotient:{key}"):
        a, b = map(int, asked.split("/"))
        made = {"took_away": str(a - b), "divisor": str(b)}
        if (right := str(a // b)).endswith("0"):
            made |= {"zero_dropped": right[:-1], "zero_extra": f"{right}0"}
        made = {rule: text for rule, text in made.items() if text != right}
        assert predicted(f"mental-quotient:{key}", asked) == made, asked
