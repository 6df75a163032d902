"""Decimals against `decimal.Decimal`, and what one would write of them under each rule of error."""

import re
from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.model import Problem
from review.core.pictures import Table
from review.core.skills import problem
from review.core.skills.amounts import point, said_point, trimmed
from review.core.skills.decimals import KINDS, TABLE, TASKS
from tests.core.shown import assert_uniform, refuses
from tests.core.spaces import disagreements, every, shows_soundly, skill_of, tried

(DECIMAL,) = KINDS
LENGTHS = ((0,), (1,), (2,), (3,), (0, 1), (1, 2), (2, 3), (1, 2, 3))
KEYS = sorted(
    {
        key
        for task in TABLE
        for places in LENGTHS
        for key in DECIMAL.keys(skill_of(DECIMAL, task=(task,), places=places))
    }
)


# --- the oracle ---------------------------------------------------------------------------------------


def number(text: str) -> Decimal:
    return Decimal(text.replace(",", ""))


def calculated(answer: Callable[[Decimal, Decimal], Decimal], signs: str) -> Callable[[Problem], bool]:
    def oracle(problem: Problem) -> bool:
        found = re.fullmatch(rf"([\d.,]+) {signs} ([\d.,]+) =", problem.prompt)
        return found is not None and answer(number(found[1]), number(found[2])) == number(problem.expected)

    return oracle


def completed(problem: Problem) -> bool:
    part, whole = problem.prompt.split(" + □ = ")
    return number(part) + number(problem.expected) == number(whole)


def signed(problem: Problem) -> bool:
    first, second = map(number, problem.prompt.split(" □ "))
    return problem.expected == ("<" if first < second else ">" if first > second else "=")


def ordered(problem: Problem) -> bool:
    numbers = problem.prompt.removeprefix("Smallest first: ").removesuffix(":").split(", ")
    return problem.expected == " ".join(sorted(numbers, key=Decimal))


STEPS = {"whole number": Decimal("1"), "tenth": Decimal("0.1"), "hundredth": Decimal("0.01")}


def nearest(problem: Problem) -> bool:
    """ROUND_HALF_UP, as schools round."""
    found = re.fullmatch(r"([\d.]+) to the nearest (.+) is", problem.prompt)
    return found is not None and (
        number(found[1]).quantize(STEPS[found[2]], ROUND_HALF_UP) == number(problem.expected)
    )


def worth(problem: Problem) -> bool:
    """The number without the digit is less by what it is worth."""
    found = re.fullmatch(r"What is the (\d) worth in ([\d.]+)\?", problem.prompt)
    return found is not None and (
        number(found[2]) - number(found[2].replace(found[1], "0")) == number(problem.expected)
    )


ORACLES: dict[str, Callable[[Problem], bool]] = {
    "value": worth,
    **dict.fromkeys(("compare", "compare-longer", "compare-shorter", "compare-equal"), signed),
    "order": ordered,
    "round": nearest,
    **dict.fromkeys(("bond-one", "bond-ten"), completed),
    **dict.fromkeys(("add", "add-regroup"), calculated(Decimal.__add__, r"\+")),
    **dict.fromkeys(("subtract", "subtract-regroup"), calculated(Decimal.__sub__, "−")),
    "times": calculated(Decimal.__mul__, "×"),
    "divide": calculated(Decimal.__truediv__, "÷"),
}


def oracle_of(key: str) -> Callable[[Problem], bool]:
    return ORACLES[key.partition(":")[2].split("/")[0]]


def test_every_task_has_an_oracle() -> None:
    assert set(ORACLES) == set(TABLE)
    assert {key.partition(":")[2].split("/")[0] for key in KEYS} == set(TABLE)


@pytest.mark.parametrize("key", KEYS)
def test_drawn_problems_have_the_answer_of_the_standard_library(key: str) -> None:
    assert disagreements(DECIMAL, key, tried(DECIMAL, key, 150), oracle_of(key)) == []


@pytest.mark.parametrize(
    ("key", "count"),
    [
        ("bond-one/1", 9),
        ("bond-one/2", 90),
        ("bond-ten/1", 90),
        ("round/1-0", 20 * 9),
        ("round/2-1", 20 * 90),
        ("round/2-0", 20 * 90),
        ("times/100-1", 100 * 9),
        ("compare-equal/1-2", 2 * 90),
        # two tenths whose digits, ones and tenths, stay under ten: ones 55 pairs of 0-9, tenths 36 of 1-9
        ("add/1-1", 55 * 36),
        # all the others
        ("add-regroup/1-1", 90 * 90 - 55 * 36),
    ],
)  # fmt: skip
def test_whole_classes(key: str, count: int) -> None:
    found = every(TASKS, f"decimal:{key}")
    assert len(found) == count
    assert disagreements(DECIMAL, f"decimal:{key}", found, oracle_of(f"decimal:{key}")) == []


def test_the_digit_that_is_asked_for_stands_once_and_is_not_zero() -> None:
    """Counted again over every number of one whole digit and two places."""
    texts = [f"{n / 100:.2f}" for n in range(100, 1000)]
    for at in (1, 2):
        expected = [t for t in texts if t[-1] != "0" and t[1 + at] != "0" and t.count(t[1 + at]) == 1]
        assert every(TASKS, f"decimal:value/2-{at}") == expected


def test_compared_numbers_are_those_their_class_names() -> None:
    """`longer`: more digits and greater; `shorter`: fewer digits and greater (Stacey and Steinle's two
    kinds of item, from memory)."""
    for task, longer_greater in (("compare-longer", True), ("compare-shorter", False)):
        for asked in tried(DECIMAL, f"decimal:{task}/1-2", 300):
            first, second = sorted(asked.split("?"), key=len)
            assert (len(first), len(second)) == (3, 4)
            assert (Decimal(second) > Decimal(first)) == longer_greater
            assert first[0] == second[0]


def columns_pass(sign: str, first: str, second: str) -> bool:
    """Whether a column passes ten, or has less on top: the columns one by one, as text."""
    places = max(len(text.partition(".")[2]) for text in (first, second))
    rows = [f"{Decimal(text):.{places}f}".zfill(places + 3) for text in (first, second)]
    columns = [(int(a), int(b)) for a, b in zip(*rows, strict=True) if a != "."]
    return any(a + b > 9 if sign == "+" else a < b for a, b in columns)


@pytest.mark.parametrize("places", ["1-1", "2-2", "1-2"])
@pytest.mark.parametrize(("task", "sign"), [("add", "+"), ("subtract", "-")])
def test_where_columns_are_exchanged(task: str, sign: str, places: str) -> None:
    for name, expected in ((task, False), (f"{task}-regroup", True)):
        for asked in tried(DECIMAL, f"decimal:{name}/{places}", 200):
            first, second = asked.split(sign)
            assert columns_pass(sign, first, second) == expected, asked


@pytest.mark.parametrize("key", KEYS)
def test_what_is_shown_is_sound(key: str) -> None:
    shows_soundly(DECIMAL, key, 30)


@pytest.mark.parametrize("key", ["bond-one/1", "round/1-0", "compare-equal/1-2", "value/1-1", "divide/10-0"])
def test_every_problem_is_equally_likely(key: str) -> None:
    assert_uniform(DECIMAL, f"decimal:{key}", every(TASKS, f"decimal:{key}"))


def test_each_order_of_three_numbers_is_equally_likely() -> None:
    shown = [tuple(map(len, asked.split(","))) for asked in tried(DECIMAL, "decimal:order/1-2-3", 1200)]
    counts = [shown.count(one) for one in set(shown)]
    assert len(counts) == 6
    assert min(counts) > 140  # of 200 expected; five standard deviations are 65


def test_a_problem_of_another_class_is_refused() -> None:
    assert (
        refuses(DECIMAL, "decimal:add/1-2", ["0.4+0.3", "0.45+0.38", "0.4+0.3x", "0.7+0.45", "0.40+0.5"])
        == []
    )
    assert refuses(DECIMAL, "decimal:value/2-1", ["3.405", "3.40", "3.04", "03.45", "3.44", "-3.45"]) == []
    assert refuses(DECIMAL, "decimal:order/1-2-3", ["0.5,0.25", "0.5,0.50,0.125", "1.5,0.25,0.125"]) == []


@pytest.mark.parametrize(
    ("key", "asked", "heads", "text"),
    [
        ("times/10-2", "25.25x10", "hundreds tens ones tenths hundredths", "ones to tens"),
        ("times/100-1", "57.6x100", "thousands hundreds tens ones tenths", "ones to hundreds"),
        ("divide/10-0", "2/10", "ones tenths", "ones to tenths"),
        ("divide/1000-0", "40/1000", "tens ones tenths hundredths thousandths", "ones to thousandths"),
    ],
)
def test_digits_that_move_have_a_place_to_move_to(key: str, asked: str, heads: str, text: str) -> None:
    """Of 2 ÷ 10 the table had no tenths; that digits go up or down said nothing beside a row of places."""
    (help,) = [help for help in problem(f"decimal:{key}", asked).helps if help.picture]
    assert isinstance(help.picture, Table)
    assert " ".join(help.picture.heads) == heads
    assert help.text == f"Move each digit: {text}."


# --- how numbers are written --------------------------------------------------------------------------


@given(st.integers(0, 10**6), st.integers(0, 3))
def test_written_as_the_standard_library_has_it(whole: int, places: int) -> None:
    value = Decimal(whole).scaleb(-places)
    assert point(whole, places) == f"{value:,.{places}f}"
    assert Decimal(trimmed(whole, places).replace(",", "")) == value
    assert places == 0 or not re.search(r"\.\d*0$", trimmed(whole, places))


def test_said_digit_by_digit_after_the_point() -> None:
    assert said_point(3405, 3) == "three point four zero five"
    assert said_point(50, 2) == "zero point five zero"
    assert said_point(12, 0) == "twelve"
    assert point(-345, 2) == "−3.45"


# --- the kind -----------------------------------------------------------------------------------------


def test_keys_name_task_and_places() -> None:
    def keys(*task: str, **options: object) -> list[str]:
        return [key.removeprefix("decimal:") for key in DECIMAL.keys(skill_of(DECIMAL, task=task, **options))]

    assert keys("value", places=(2,)) == ["value/2-1", "value/2-2"]
    assert keys("compare", "compare-longer", places=(1, 2)) == [
        "compare/1-1",
        "compare/2-2",
        "compare-longer/1-2",
    ]
    assert keys("order", places=(2, 1)) == ["order/1-2-2"]
    assert keys("round", places=(2,)) == ["round/2-1", "round/2-0"]
    assert keys("add", places=(2, 1)) == ["add/1-2"]
    assert keys("times", places=(1,)) == ["times/10-1", "times/100-1", "times/1000-1"]
    assert keys("divide", places=(0, 2), by=(10, 100)) == ["divide/10-0", "divide/10-2", "divide/100-0"]


@pytest.mark.parametrize(
    ("task", "places", "instead"),
    [
        ("compare-longer", (2,), "write two lengths"),
        ("add", (1, 2, 3), "write one or two lengths"),
        ("bond-one", (0,), "write one to three"),
        ("divide", (3,), "write so few that three places hold the quotient"),
    ],
)
def test_impossible_conditions_are_told_in_words(task: str, places: tuple[int, ...], instead: str) -> None:
    (told,) = DECIMAL.check(skill_of(DECIMAL, task=(task,), places=places))
    assert told == ("places", f"no numbers of {task} have these decimal places", instead)


def test_factors_are_powers_of_ten() -> None:
    (told,) = DECIMAL.check(skill_of(DECIMAL, task=("times",), places=(1,), by=(20,)))
    assert told == ("by", "20 is not 10, 100 or 1000", "take from 10, 100, 1000")


def test_titles_tell_classes_apart() -> None:
    titles = [DECIMAL.traits(key).title for key in KEYS]
    assert len(set(titles)) == len(titles)
    assert DECIMAL.traits("decimal:compare/1-1").choices == 3
