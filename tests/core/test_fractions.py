"""Fractions against the standard library's, over whole classes, reading what a child sees."""

import re
from collections.abc import Callable
from fractions import Fraction
from itertools import product
from math import gcd
from random import Random

import pytest

from review.core.answers import judge
from review.core.model import Problem
from review.core.skills.amounts import mixed, part_name, said
from review.core.skills.fractions import KINDS, LARGEST, TABLE, TASKS
from tests.core.shown import assert_uniform, refuses, seen
from tests.core.spaces import amount, disagreements, every, shows_soundly, skill_of

(FRACTION,) = KINDS
PARTS = (2, 3, 4, 5, 6, 8, 10, 12)
SMALL = (2, 3, 4, 6)
TENTHS = (2, 4, 5, 8, 10, 20, 25, 50, 100)


def key_of(task: str) -> str:
    parts = SMALL if "mixed" in task and "to-" not in task else PARTS
    sizes = TENTHS if "decimal" in task else [size for size in parts if size <= LARGEST.get(task, 20)]
    return f"fraction:{task}/{'-'.join(map(str, sizes))}"


# --- the oracle ---------------------------------------------------------------------------------------

Oracle = Callable[[Problem], bool]


def has(answer: Callable[..., Fraction], pattern: str) -> Oracle:
    """The answer follows from the numbers of the prompt."""

    def oracle(problem: Problem) -> bool:
        found = re.fullmatch(pattern, problem.prompt)
        return found is not None and answer(*map(amount, found.groups())) == amount(problem.expected)

    return oracle


def signed(problem: Problem) -> bool:
    first, second = map(amount, problem.prompt.split(" □ "))
    return problem.expected == ("<" if first < second else ">" if first > second else "=")


def shaded(problem: Problem) -> bool:
    cells = seen(problem)[1].strip("|").split("|")
    return Fraction(sum("▓" in cell for cell in cells), len(cells)) == Fraction(problem.expected)


def at_arrow(problem: Problem) -> bool:
    """How far the arrow is along, by columns."""
    arrow, marks, names = seen(problem)
    at, zero, one = arrow.index("v"), names.index("0"), names.index("1")
    along = Fraction(at - zero, one - zero)
    return along == amount(problem.expected) and marks[at] == marks[zero] == marks[one] == "|"


ORACLES: dict[str, Oracle] = {
    "shaded": shaded,
    "line": at_arrow,
    "line-past-one": at_arrow,
    "equivalent": has(lambda value, under: value * under, r"(\d+/\d+) = □/(\d+)"),
    "equivalent-under": has(lambda value, top: top / value, r"(\d+/\d+) = (\d+)/□"),
    "equivalent-down": has(lambda value, under: value * under, r"(\d+/\d+) = □/(\d+)"),
    "simplest": has(lambda value: value, r"(\d+/\d+) in simplest form is"),
    "unit-of": has(lambda part, number: part * number, r"(1/\d+) of (\d+) ="),
    "of": has(lambda part, number: part * number, r"(\d+/\d+) of (\d+) ="),
    "compare-like": signed,
    "compare-same-top": signed,
    "compare": signed,
    "to-mixed": has(lambda value: value, r"(\d+/\d+) as a mixed number is"),
    "to-improper": has(lambda value, under: value * under, r"(\d+ \d+/\d+) = □/(\d+)"),
    "to-decimal": has(lambda value: value, r"(\d+/\d+) as a decimal is"),
    "from-decimal": has(lambda value: value, r"(0\.\d+) as a fraction is"),
    "to-one": has(lambda value: 1 - value, r"(\d+/\d+) \+ □ = 1"),
    **dict.fromkeys(
        ("add-like", "add-like-over", "add-multiple", "add-unlike"),
        has(lambda left, right: left + right, r"(\d+/\d+) \+ (\d+/\d+) ="),
    ),
    **dict.fromkeys(
        ("subtract-like", "subtract-multiple", "subtract-unlike"),
        has(lambda left, right: left - right, r"(\d+/\d+) − (\d+/\d+) ="),
    ),
    **{
        f"{name}-mixed{tail}": has(answer, rf"(\d \d/\d) {sign} (\d \d/\d) =")
        for name, sign, answer in (
            ("add", r"\+", lambda left, right: left + right),
            ("subtract", "−", lambda left, right: left - right),
        )
        for tail in ("", "-over", "-unlike", "-unlike-over")
    },
    "times": has(lambda times, value: times * value, r"(\d) × (\d+/\d+) ="),
}


def test_every_task_has_an_oracle() -> None:
    assert set(ORACLES) == set(TABLE)


@pytest.mark.parametrize("task", TABLE)
def test_every_problem_of_a_class_has_the_answer_of_the_standard_library(task: str) -> None:
    """`fractions.Fraction`, on each member, of a class with eight or nine denominators."""
    found = every(TASKS, key_of(task))
    assert len(found) >= 15
    assert disagreements(FRACTION, key_of(task), found, ORACLES[task]) == []


@pytest.mark.parametrize("task", TABLE)
def test_what_is_shown_is_sound(task: str) -> None:
    shows_soundly(FRACTION, key_of(task))


# --- which problems belong ----------------------------------------------------------------------------


def fractions() -> list[tuple[int, int]]:
    """Proper ones of the small denominators."""
    return [(top, under) for under in SMALL for top in range(1, under)]


def pairs(fits: Callable[[Fraction, int, Fraction, int], bool], sign: str) -> set[str]:
    return {
        f"{a}/{b}{sign}{c}/{d}"
        for (a, b), (c, d) in product(fractions(), repeat=2)
        if fits(Fraction(a, b), b, Fraction(c, d), d)
    }


def mixed_pairs(fits: Callable[[Fraction, int, Fraction, int], bool], sign: str) -> set[str]:
    """Wholes of 1 to 5; a difference is of more wholes than are taken away."""
    return {
        f"{m} {pair.replace(sign, f'{sign}{n} ')}"
        for pair in pairs(fits, sign)
        for m, n in product(range(1, 6), repeat=2)
        if sign == "+" or m > n
    }


def divides(b: int, d: int) -> bool:
    return b != d and (b % d == 0 or d % b == 0)


@pytest.mark.parametrize(
    ("task", "expected"),
    [
        ("shaded", {f"{a}/{b}" for a, b in fractions()}),
        ("simplest", {f"{a}/{b}" for a, b in fractions() if gcd(a, b) > 1}),
        ("equivalent", {f"{a}/{b},_/{e}" for a, b in fractions() for e in SMALL if e > b and e % b == 0}),
        (
            "equivalent-under",
            {f"{a}/{b},{a * e // b}/_" for a, b in fractions() for e in SMALL if e > b and e % b == 0},
        ),
        (
            "equivalent-down",
            {f"{a * e // b}/{e},_/{b}" for a, b in fractions() for e in SMALL if e > b and e % b == 0},
        ),
        ("unit-of", {f"1/{b}x{b * times}" for b in SMALL for times in range(2, 13)}),
        ("to-improper", {f"{w}+{a}/{b}" for w in (1, 2, 3) for a, b in fractions()}),
        ("add-like", pairs(lambda one, b, two, d: b == d and one + two <= 1, "+")),
        ("add-like-over", pairs(lambda one, b, two, d: b == d and one + two > 1, "+")),
        ("add-multiple", pairs(lambda one, b, two, d: divides(b, d), "+")),
        ("add-unlike", pairs(lambda one, b, two, d: b != d and not divides(b, d), "+")),
        ("subtract-multiple", pairs(lambda one, b, two, d: divides(b, d) and one > two, "-")),
        ("subtract-unlike", pairs(lambda one, b, two, d: b != d and not divides(b, d) and one > two, "-")),
        ("add-mixed", mixed_pairs(lambda p, b, q, d: b == d and p + q < 1, "+")),
        ("add-mixed-over", mixed_pairs(lambda p, b, q, d: b == d and p + q >= 1, "+")),
        ("add-mixed-unlike", mixed_pairs(lambda p, b, q, d: b != d and p + q < 1, "+")),
        ("add-mixed-unlike-over", mixed_pairs(lambda p, b, q, d: b != d and p + q >= 1, "+")),
        ("subtract-mixed", mixed_pairs(lambda p, b, q, d: b == d and p > q, "-")),
        ("subtract-mixed-over", mixed_pairs(lambda p, b, q, d: b == d and p < q, "-")),
        ("subtract-mixed-unlike", mixed_pairs(lambda p, b, q, d: b != d and p > q, "-")),
        ("subtract-mixed-unlike-over", mixed_pairs(lambda p, b, q, d: b != d and p < q, "-")),
        ("compare-like", pairs(lambda one, b, two, d: b == d and one != two, "?")),
        ("compare", pairs(lambda one, b, two, d: b != d and one * b != two * d, "?")),
    ],
)
def test_a_class_is_what_its_name_says(task: str, expected: set[str]) -> None:
    """Each class built again from `Fraction`s."""
    key = f"fraction:{task}/{'-'.join(map(str, SMALL))}"
    found = every(TASKS, key)
    assert len(found) == len(set(found))
    assert set(found) == expected


@pytest.mark.parametrize(
    "key",
    [
        "add-mixed-over/2-3",
        "subtract-mixed-unlike-over/2-3",
        "shaded/2-3-4-6",
        "equivalent/2-4-8",
        "add-unlike/2-3",
        "of/3-4",
        "compare/3-6",
    ],
)
def test_every_problem_is_equally_likely(key: str) -> None:
    assert_uniform(FRACTION, f"fraction:{key}", every(TASKS, f"fraction:{key}"))


def test_a_problem_of_another_class_is_refused() -> None:
    strangers = ["4/4", "5/4", "1/3", "0/4", "01/4", "1/4 ", "1/4x8", ""]
    assert refuses(FRACTION, "fraction:shaded/2-4", strangers) == []
    assert refuses(FRACTION, "fraction:add-like/2-4", ["1/2+1/4", "3/4+3/4", "1/4-1/4"]) == []


# --- forms --------------------------------------------------------------------------------------------


def test_simplest_form_is_asked_for_where_it_is_the_skill() -> None:
    problem = FRACTION.problem("fraction:simplest/8", "6/8")
    assert (problem.form, problem.expected) == ("fraction-lowest", "3/4")
    assert FRACTION.problem("fraction:add-like/8", "3/8+3/8").form == "fraction"


def test_mixed_numbers_are_answered_in_any_equal_form() -> None:
    problem = FRACTION.problem("fraction:subtract-mixed-over/4", "3 1/4-1 3/4")
    equal, others = ("1 2/4", "1 1/2", "6/4", "1 and 1/2", "1½"), ("2 2/4", "1 3/4", "1")
    assert {judge(problem, text) for text in equal} == {"right"}
    assert {judge(problem, text) for text in others} == {"other"}
    assert problem.helps[-1].text == "3 1/4 = 2 + 5/4\n2 − 1 = 1\n5/4 − 3/4 = 2/4\n1 + 2/4 = 1 2/4"
    whole = FRACTION.problem("fraction:add-mixed-unlike-over/2-6", "1 1/2+2 3/6")
    assert (whole.expected, whole.told) == ("4", "1 1/2 + 2 3/6 = 4")
    assert whole.helps[-1].text == "1 1/2 = 1 3/6\n1 + 2 = 3\n3/6 + 3/6 = 6/6\n6/6 = 1\n3 + 1 = 4"


def test_the_first_parts_of_a_number_are_shared_into_groups() -> None:
    """At 6 and 7 the sign of division has not been met."""
    half = FRACTION.problem("fraction:unit-of/2", "1/2x18")
    assert half.helps[-1].text == "Share 18 into 2 equal groups.\nEach group: 9\n9 + 9 = 18"
    assert half.helps[-2].text == "Share 18 into 2 equal groups.\nEach group: □"
    firsts = [FRACTION.problem(f"fraction:unit-of/{under}", f"1/{under}x{under * 12}") for under in (2, 3, 4)]
    assert not any("÷" in help.text for one in firsts for help in one.helps)
    assert FRACTION.problem("fraction:unit-of/8", "1/8x16").helps[-1].text == "16 ÷ 8 = 2"


def test_as_a_teacher_would_write_it() -> None:
    problem = FRACTION.problem("fraction:add-unlike/2-3", "1/2+1/3")
    assert (problem.prompt, problem.expected) == ("1/2 + 1/3 =", "5/6")
    assert problem.say == "one half plus one third"
    assert problem.told == "1/2 + 1/3 makes 5/6."
    assert problem.helps[-1].text == "1/2 = 3/6\n1/3 = 2/6\n3/6 + 2/6 = 5/6"
    assert problem.helps[-2].text == "1/2 = 3/6\n1/3 = 2/6\n3/6 + 2/6 = □"
    strip = FRACTION.problem("fraction:shaded/4", "3/4")
    assert seen(strip)[1] == "|▓▓▓▓▓|▓▓▓▓▓|▓▓▓▓▓|     |"


def test_names_of_parts() -> None:
    """Common practice, no source."""
    assert [said(1, 2), said(3, 4), said(2, 3), said(5, 12)] == [
        "one half", "three quarters", "two thirds", "five twelfths",
    ]  # fmt: skip
    assert [part_name(under) for under in (20, 25, 50, 100, 1000, 11, 32)] == [
        "twentieth", "twenty-fifth", "fiftieth", "hundredth", "thousandth", "eleventh", "thirty-second",
    ]  # fmt: skip
    assert [mixed(7, 4), mixed(8, 4), mixed(3, 4), mixed(0, 4)] == ["1 3/4", "2", "3/4", "0"]


# --- the kind -----------------------------------------------------------------------------------------


def test_keys_name_task_and_denominators() -> None:
    asked = skill_of(FRACTION, task=("shaded", "of"), denominators=(8, 2, 4))
    assert list(FRACTION.keys(asked)) == ["fraction:shaded/2-4-8", "fraction:of/2-4-8"]


@pytest.mark.parametrize(
    ("task", "denominators", "told"),
    [
        ("shaded", (2, 16), ("denominators", "16 is too large for shaded", "write 12 or less")),
        ("equivalent", (3, 4), ("denominators", "no problem of equivalent has these",
                                "add a multiple of one of them")),
        ("to-decimal", (3,), ("denominators", "fractions with 3 have no short decimal",
                              "take from 2, 4, 5, 8, 10, 20, 25, 50, 100")),
        ("add-like", tuple(range(2, 20)), ("denominators", "18 denominators are too many",
                                           "write 12 at most")),
    ],
)  # fmt: skip
def test_impossible_conditions_are_told_in_words(
    task: str, denominators: tuple[int, ...], told: tuple[str, str, str]
) -> None:
    assert list(FRACTION.check(skill_of(FRACTION, task=(task,), denominators=denominators))) == [told]


def test_what_can_be_met_is_not_complained_of() -> None:
    for task in TABLE:
        sizes = tuple(map(int, key_of(task).partition("/")[2].split("-")))
        assert list(FRACTION.check(skill_of(FRACTION, task=(task,), denominators=sizes))) == []


def test_titles_tell_classes_apart() -> None:
    titles = {FRACTION.traits(key_of(task)).title for task in TABLE}
    assert len(titles) == len(TABLE)
    assert FRACTION.traits("fraction:of/4").title == "parts of a number, like 3/4 of 8"


def test_a_class_without_problems_cannot_be_drawn_from() -> None:
    with pytest.raises(ValueError, match="no problem belongs"):
        FRACTION.draw("fraction:equivalent/3-4", Random(1))
