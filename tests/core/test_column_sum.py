"""Column sums: exact class counts, and what is shown of each.

The oracle for columns that pass ten is Legendre's and Kummer's: carries of a + b in base ten are
(s(a) + s(b) - s(a + b)) / 9 with s the sum of the digits.
"""

import re
from collections import Counter
from itertools import product
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.skills.column_sum import CLASSES, DIGITS, KINDS, _class, asked_of, belongs, parts, possible
from review.core.skills.places import with_digits
from review.core.skills.walks import pick, size
from tests.core.on_paper import assert_on_paper, digit_sum, layout, read_row
from tests.core.shown import SOURCES, assert_uniform, refuses, seen
from tests.core.spaces import skill_of
from tests.tables import published

(COLUMN_SUM,) = KINDS
NAMES = [f"{name}{within}" for name in CLASSES for within in ("", "-within")]
EVERY = [f"column-sum:{digits}/{name}" for digits, name in product(DIGITS, NAMES)]
POSSIBLE = [key for key in EVERY if possible(_class(key))]


def carries(a: int, b: int) -> int:
    many, left = divmod(digit_sum(a) + digit_sum(b) - digit_sum(a + b), 9)
    assert not left
    return many


def meets_zero(a: int, b: int) -> bool:
    """A ten goes to a column where one of the numbers shows a zero, told from their endings."""
    return any(
        a % 10**at + b % 10**at >= 10**at and "0" in (str(a)[-1 - at], str(b)[-1 - at : len(str(b)) - at][:1])
        for at in range(1, len(str(a)))
    )


def told(key: str, a: int, b: int) -> bool:
    """Whether the pair belongs, from the name of the class alone."""
    name = key.rpartition("/")[2]
    if name.endswith("-within") and len(str(a + b)) > len(str(a)):
        return False
    name = name.removesuffix("-within")
    return meets_zero(a, b) if name == "zero" else carries(a, b) == int(name)


def every_pair(digits: str) -> list[tuple[int, int]]:
    upper, lower = map(int, digits.split("+"))
    return list(product(with_digits(upper), with_digits(lower)))


# --- exact counts -------------------------------------------------------------------------------------


@pytest.mark.parametrize("digits", ["2+1", "2+2", "3+1"])
def test_a_class_is_what_its_name_says(digits: str) -> None:
    """Each pair of so many digits against the oracle, its count, and each place against each pair."""
    pairs = every_pair(digits)
    for name in NAMES:
        key = f"column-sum:{digits}/{name}"
        members = {f"{a}+{b}" for a, b in pairs if told(key, a, b)}
        assert members == {f"{a}+{b}" for a, b in pairs if belongs(_class(key), a, b)}
        assert {asked_of(*pick(parts(key), place)) for place in range(size(parts(key)))} == members
        assert size(parts(key)) == len(members)


def test_three_and_two_digits_are_counted() -> None:
    counts = Counter(carries(a, b) for a, b in every_pair("3+2"))
    assert [size(parts(f"column-sum:3+2/{many}")) for many in range(5)] == [counts[n] for n in range(5)]


PUBLISHED = [
    ("2+2", 0), ("2+2", 1), ("3+3", 1), ("3+3", 2), ("3+3", 3),
    ("4+4", 0), ("4+4", 1), ("4+4", 2), ("4+4", 3), ("4+4", 4),
]  # fmt: skip


@pytest.mark.parametrize(("digits", "many"), PUBLISHED)
def test_a_class_has_the_published_number_of_sums(digits: str, many: int) -> None:
    """counts.csv: brute force and transfer matrix; the carries process is Holte's (1997)."""
    name = f"{digits[0]}-digit + {digits[0]}-digit (no leading zero), ordered pairs"
    assert size(parts(f"column-sum:{digits}/{many}")) == published(name, str(many))


def test_within_is_all_but_the_sums_that_have_a_digit_more() -> None:
    """counts.csv: how many sums of 2 and of 4 digits have one more."""
    for many, every in ((2, 8100), (4, 81_000_000)):
        kept = sum(size(parts(f"column-sum:{many}+{many}/{n}-within")) for n in range(5))
        name = f"{many}-digit + {many}-digit (no leading zero), ordered pairs"
        assert kept == every - published(name, "")


def test_a_class_is_empty_only_where_the_check_says_so() -> None:
    for key in EVERY:
        assert bool(size(parts(key))) == possible(_class(key)), key
    options = {"digits": "2+2", "classes": ("0", "2", "zero"), "within": True}
    troubles = list(COLUMN_SUM.check(skill_of(COLUMN_SUM, **options)))
    assert [(name, instead) for name, _, instead in troubles] == [
        ("classes", 'leave "2" out'),
        ("classes", 'leave "zero" out'),
    ]


# --- draws --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", ["column-sum:2+1/2", "column-sum:3+1/zero"])
def test_every_sum_is_equally_likely(key: str) -> None:
    members = [f"{a}+{b}" for a, b in every_pair(key[11:14]) if told(key, a, b)]
    assert_uniform(COLUMN_SUM, key, members)


@given(st.sampled_from(POSSIBLE), SOURCES)
def test_what_is_drawn_is_of_its_class_and_sound(key: str, random: Random) -> None:
    asked = COLUMN_SUM.draw(key, random)
    a, b = map(int, asked.split("+"))
    assert told(key, a, b)
    assert_on_paper(COLUMN_SUM.problem(key, asked))


def test_strangers_are_refused() -> None:
    strangers = ["47+26", "4+5", "147+25", "47+125", "20+30"]
    assert refuses(COLUMN_SUM, "column-sum:2+2/2", strangers) == []
    assert refuses(COLUMN_SUM, "column-sum:3+3/1-within", ["999+100", "950+149", "478+256"]) == []


# --- what is shown ------------------------------------------------------------------------------------


def test_every_two_digit_sum_is_sound() -> None:
    for a, b in every_pair("2+2")[::7]:
        assert_on_paper(COLUMN_SUM.problem(f"column-sum:2+2/{carries(a, b)}", f"{a}+{b}"))


def test_as_a_teacher_would_write_it() -> None:
    problem = COLUMN_SUM.problem("column-sum:3+3/2-within", "478+256")
    assert problem.prompt == "478 + 256 ="
    assert problem.told == "478 + 256 makes 734."
    assert seen(problem) == ("  4 7 8", "+ 2 5 6", "-------")
    assert [help.step for help in problem.helps] == ["question", "build", "blank", "steps"]
    assert problem.helps[2].text.endswith("hundreds: 4 + 2 + 1 = □")
    assert problem.helps[3].text.split("\n") == [
        "    ones: 8 + 6 = 14",
        "14 ones = 1 ten + 4 ones",
        "    tens: 7 + 5 + 1 = 13",
        "13 tens = 1 hundred + 3 tens",
        "hundreds: 4 + 2 + 1 = 7",
        "  4 7 8",
        "+ 2 5 6",
        "-------",
        "  7 3 4",
    ]


def test_as_many_exchanges_are_written_as_columns_pass_ten_before_the_last() -> None:
    for a, b in every_pair("3+2")[::61]:
        problem = COLUMN_SUM.problem(f"column-sum:3+2/{carries(a, b)}", f"{a}+{b}")
        written = len(re.findall(r"(?:ones|tens) = 1 ", problem.helps[-1].text))
        assert written == carries(a, b) - (a + b >= 1000)
        assert read_row(layout(problem)[-1]) == a + b


def test_what_the_planner_is_told() -> None:
    titles = [COLUMN_SUM.traits(key).title for key in POSSIBLE]
    assert len(set(titles)) == len(titles)
    assert COLUMN_SUM.traits("column-sum:3+3/2-within").title == (
        "3-digit + 3-digit in columns, regroup twice"
    )
    assert COLUMN_SUM.traits("column-sum:2+2/0").seconds < COLUMN_SUM.traits("column-sum:4+4/3").seconds < 60
