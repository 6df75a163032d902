"""Sums in the head: exact class counts, every two-digit sum, and what is shown of each."""

import re
import tomllib
from fractions import Fraction
from functools import partial
from itertools import product
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.skills.mental import DIGITS, FITS, KINDS
from review.core.skills.mental_sum_ways import METHODS, best, carries
from tests.core.shown import (
    SOURCES,
    assert_sound,
    assert_uniform,
    blank_fits,
    gives_away,
    holds,
    refuses,
    value_of,
)
from tests.core.spaces import skill_of
from tests.tables import DATA, published, rows

(MENTAL,) = KINDS
TOP = Path(__file__).parents[2]
CLASSES = tuple(FITS)
ON_TWO_DIGITS = tuple(name for name in CLASSES if not name.endswith("hundreds"))
skill = partial(skill_of, MENTAL)


def every_sum(digits: str, step: int = 1) -> list[str]:
    first, second = (range(10 ** (int(many) - 1), 10 ** int(many)) for many in digits.split("+"))
    return [f"{a}+{b}" for a, b in product(first[::step], second[::step])]


def members(key: str) -> list[str]:
    every = every_sum(key.partition(":")[2].split("/")[0], 5 if key.endswith("all-hundreds") else 1)
    taken = set(refuses(MENTAL, key, every))
    return [asked for asked in every if asked in taken]


EMPTY = {
    "2+1": {"regroup-tens", "hundreds", "tens-across", "all-tens", "all-hundreds"},
    "1+2": {"regroup-tens", "hundreds", "tens-across", "all-tens", "all-hundreds"},
    "2+2": {"hundreds", "all-hundreds"},
    "3+1": {"regroup-tens", "tens", "tens-across", "all-tens", "all-hundreds"},
    "3+2": {"all-hundreds"},
    "3+3": {"tens", "tens-across"},
}
"""Classes to which no sum belongs. To find them takes seconds, so they are held against the kind below."""
NON_EMPTY = [
    f"mental-sum:{digits}/{name}" for digits in DIGITS for name in CLASSES if name not in EMPTY[digits]
]


@pytest.mark.parametrize("digits", DIGITS)
def test_the_empty_classes_are_those_without_a_sum(digits: str) -> None:
    found = {name for name in CLASSES if list(MENTAL.check(skill(digits=digits, classes=(name,))))}
    assert found == EMPTY[digits]


# --- exact counts -------------------------------------------------------------------------------------


BELOW_100 = "2-digit + 2-digit with sum <= 99"
WHERE = "2-digit + 2-digit, where the carry falls"
BY_ONE = "2-digit + 1-digit (1-9)"


@pytest.mark.parametrize(
    ("key", "name", "row"),
    [
        ("2+2/none", BELOW_100, "0"),
        ("2+2/regroup-ones", BELOW_100, "1"),
        ("2+2/none", WHERE, "none"),
        ("2+2/regroup-tens", WHERE, "tens only"),
        ("2+2/regroup-both", WHERE, "ones and tens"),
        ("2+1/none", BY_ONE, "0"),
        ("2+1/regroup-both", BY_ONE, "2"),
    ],
)
def test_a_class_has_the_published_number_of_sums(key: str, name: str, row: str) -> None:
    """counts.csv: brute force and transfer matrix, or closed form (see its last column); the carries
    process is Holte's (1997)."""
    assert len(members(f"mental-sum:{key}")) == published(name, row)


@pytest.mark.parametrize(
    ("key", "count"),
    [
        # ones 0 and 1-9 in either order, tens 1-9 that stay below ten: 36 pairs
        ("2+2/tens", 2 * 9 * 36),
        # ones that pass ten with an 8 or 9 among them: 9 + 8 in each place less 4 with both, 30; tens that
        # leave room for one more: 28
        ("2+2/near-ten", 30 * 28),
        # ones pass ten in 45 of 81 pairs, tens up to 8 leave room
        ("2+1/regroup-ones", 45 * 8),
        # both whole tens; both whole hundreds
        ("2+2/all-tens", 9 * 9),
        ("3+3/all-hundreds", 9 * 9),
        # a whole ten and a number that is none, in either order, whose tens pass: 45 pairs of tens, ones 1-9
        ("2+2/tens-across", 2 * 45 * 9),
        # hundreds 1 to 8, the ones none of them 0, tens that pass: 45 pairs
        ("3+2/tens-across", 8 * 9 * 45),
        # a round hundred and any number of two digits
        ("3+2/hundreds", 9 * 90),
    ],
)
def test_a_class_has_as_many_sums_as_its_closed_form_says(key: str, count: int) -> None:
    assert len(members(f"mental-sum:{key}")) == count


@pytest.mark.parametrize("key", ["2+1/regroup-both", "2+2/tens", "2+2/regroup-ones/20..40", "2+2/all-tens"])
def test_every_sum_is_equally_likely(key: str) -> None:
    assert_uniform(MENTAL, f"mental-sum:{key}", members(f"mental-sum:{key}"))


@pytest.mark.parametrize("key", ["2+1/none", "2+2/none", "2+2/none/50..60", "3+1/none/120..130"])
def test_whole_tens_are_left_to_their_own_cards(key: str) -> None:
    every = members(f"mental-sum:{key}")
    drawn = [asked for asked in every if not re.search(r"0(\+|$)", asked)]
    assert 0 < len(drawn) < len(every)
    assert_uniform(MENTAL, f"mental-sum:{key}", drawn)


def test_whole_tens_come_where_there_is_nothing_else() -> None:
    assert_uniform(MENTAL, "mental-sum:2+2/none/20..21", ["10+10", "10+11", "11+10"])


def test_a_small_class_is_listed_rather_than_tried_for_ever() -> None:
    key = "mental-sum:3+1/none/998..998"
    assert members(key) == [f"{998 - ones}+{ones}" for ones in range(8, 0, -1)]
    assert_uniform(MENTAL, key, members(key)[1:])
    with pytest.raises(ValueError, match="no sum"):
        MENTAL.draw("mental-sum:2+2/none/5..6", Random(1))


# --- the evaluator of these tests ---------------------------------------------------------------------


def test_a_false_line_is_seen() -> None:
    lines = ("2 + 2 = 4", "2 + 3 × 4 = 14", "9 − 2 − 3 = 4", "12 ÷ 4 = 3", "tens: 4 < 6", "1 = 2 − 1 = 1")
    assert all(holds(line) for line in lines)
    assert not any(holds(line) for line in ("2 + 2 = 5", "9 − 2 − 3 = 10", "4 < 4", "1 = 1 + 1 = 2"))
    assert holds("Build both.") is None


def test_a_help_that_says_too_much_is_seen() -> None:
    problem = MENTAL.problem("mental-sum:2+2/regroup-ones", "47+25")
    (question, *others), (*first, blank, steps) = problem.helps, problem.helps
    assert gives_away(problem._replace(helps=(question._replace(text="Is it 72?"), *others)))
    assert not blank_fits(problem._replace(helps=(*first, blank._replace(text=steps.text), steps)))
    assert not blank_fits(problem._replace(helps=(*first, blank._replace(text="47 + 2 = □"), steps)))


# --- problems -----------------------------------------------------------------------------------------


def test_carries_fall_as_in_the_published_process() -> None:
    """carries.toml, after Holte 1997: the share of sums in which a column passes into the next. Tens and ones
    of two numbers run over 00 to 99, as in the process; the hundreds before them change nothing."""
    with (DATA / "carries.toml").open("rb") as file:
        process = tomllib.load(file)["two_addends_2_columns"]
    found = [carries(100 + a, 100 + b) for a, b in product(range(100), repeat=2)]
    assert [Fraction(sum(place in one for one in found), 10_000) for place in (1, 10)] == [
        Fraction(share) for share in process["p_carry_out_of_column"]
    ]
    many = [Fraction(sum(len(one) == count for one in found), 10_000) for count in range(3)]
    assert many == [Fraction(share) for share in process["carries_distribution"]]


@pytest.mark.parametrize(
    "name",
    [
        "none", "regroup-ones", "regroup-tens", "regroup-both", "near-ten", "tens", "tens-across",
        "near-hundred", "all-tens",
    ],
)  # fmt: skip
def test_every_two_digit_sum_is_sound(name: str) -> None:
    for digits in ("2+2", "2+1"):
        for asked in members(f"mental-sum:{digits}/{name}"):
            assert_sound(MENTAL.problem(f"mental-sum:{digits}/{name}", asked))


@given(st.sampled_from(NON_EMPTY), SOURCES)
def test_what_is_drawn_is_sound_and_adds_up(key: str, random: Random) -> None:
    problem = MENTAL.problem(key, MENTAL.draw(key, random))
    assert_sound(problem)
    assert value_of(problem.prompt.removesuffix(" =")) == int(problem.expected)
    digits = key.partition(":")[2].split("/")[0]
    assert "+".join(str(len(number)) for number in problem.asked.split("+")) == digits


WANTED = {
    "regroup-ones": ["1"], "near-ten": ["1"], "regroup-tens": ["10"], "tens-across": ["10"],
    "regroup-both": ["1", "10"],
}  # fmt: skip


@given(st.sampled_from(NON_EMPTY), SOURCES)
def test_columns_pass_ten_where_the_class_says(key: str, random: Random) -> None:
    """Told from the digits of the numbers and of the total: a column carries where its digit fell short."""
    a, b = map(int, MENTAL.draw(key, random).split("+"))
    name = key.rpartition("/")[2]
    fell = [
        str(place) for place in (1, 10, 100) if (a // place % 10 + b // place % 10) > (a + b) // place % 10
    ]
    if name == "near-hundred":
        assert "10" in fell
        assert "100" not in fell
    elif not name.startswith("all"):
        assert fell == WANTED.get(name, [])


@pytest.mark.parametrize(
    ("asked", "name", "steps"),
    [
        ("32+45", "partitioning", ["30 + 40 = 70", "2 + 5 = 7", "70 + 7 = 77"]),
        ("47+35", "partitioning", ["40 + 30 = 70", "7 + 5 = 12", "70 + 12 = 82"]),
        ("47+25", "counting-on", ["47 + 20 = 67", "67 + 5 = 72"]),
        ("47+5", "bridging", ["5 = 3 + 2", "47 + 3 = 50", "50 + 2 = 52"]),
        ("46+4", "bridging", ["6 + 4 = 10", "40 + 10 = 50"]),
        ("47+9", "rounding", ["9 + 1 = 10", "47 + 10 = 57", "57 − 1 = 56"]),
        ("59+27", "rounding", ["59 + 1 = 60", "60 + 27 = 87", "87 − 1 = 86"]),
        ("398+57", "compensating", ["398 + 2 = 400", "57 − 2 = 55", "400 + 55 = 455"]),
        ("345+70", "partitioning", ["40 + 70 = 110", "300 + 110 + 5 = 415"]),
        ("70+50", "by-units", ["7 + 5 = 12", "70 + 50 = 120"]),
        ("300+400", "by-units", ["3 + 4 = 7", "300 + 400 = 700"]),
        ("58+27", "compensating", ["58 + 2 = 60", "27 − 2 = 25", "60 + 25 = 85"]),
    ],
)
def test_a_way_suits_its_numbers(asked: str, name: str, steps: list[str]) -> None:
    """The ways by their names in research on mental sums (common practice, from memory: Beishuizen;
    Heirdsfield; McIntosh)."""
    a, b = map(int, asked.split("+"))
    assert (best(a, b), list(METHODS[name].steps(a, b))) == (name, steps)


def test_every_way_leads_to_the_total_whatever_the_numbers() -> None:
    """Also where it would not be chosen: the last number of its last step is the total."""
    for a, b in product(range(11, 100, 4), range(12, 100, 3)):
        if a % 10 + b % 10 > 10 and a % 10 and b % 10:
            for name, each in METHODS.items():
                assert each.steps(a, b)[-1].split()[-1].replace(",", "") == str(a + b), (name, a, b)


def test_as_a_teacher_would_write_it() -> None:
    problem = MENTAL.problem("mental-sum:2+2/regroup-ones", "47+25")
    assert (problem.prompt, problem.expected, problem.say) == (
        "47 + 25 =",
        "72",
        "forty-seven plus twenty-five",
    )
    assert problem.told == "47 + 25 makes 72."


def test_a_sum_of_another_class_is_refused() -> None:
    assert refuses(MENTAL, "mental-sum:2+2/none", ["47+25", "147+21", "7+2", "80+30"]) == []
    assert refuses(MENTAL, "mental-sum:2+2/none/20..50", ["40+30", "10+9"]) == []


# --- what one would write under an error rule ----------------------------------------------------------


def test_an_error_rule_gives_what_its_example_says() -> None:
    """error_rules.csv, add_mental: a ten dropped is McIntosh's, the others from memory (see there)."""
    table = rows("error_rules.csv", family="add_mental")
    assert len(table) == 9
    for row in table:
        found = MENTAL.predict("mental-sum:2+2/regroup-ones", row["example"].replace(" ", ""))
        assert found[row["rule"]] == row["predicted"], row
    assert set(found) == {row["rule"] for row in table}


@given(st.sampled_from(NON_EMPTY), SOURCES)
def test_error_rules_never_say_the_total(key: str, random: Random) -> None:
    one = MENTAL.problem(key, MENTAL.draw(key, random))
    assert one.expected not in MENTAL.predict(key, one.asked).values()


# --- the kind -----------------------------------------------------------------------------------------


def test_keys_name_class_and_totals() -> None:
    assert list(MENTAL.keys(skill(digits="2+2", classes=("none", "tens")))) == [
        "mental-sum:2+2/none",
        "mental-sum:2+2/tens",
    ]
    held = skill(digits="2+2", classes=("regroup-ones",), total=(20, 50))
    assert list(MENTAL.keys(held)) == ["mental-sum:2+2/regroup-ones/20..50"]


def test_cards_that_regroup_do_not_follow_each_other() -> None:
    ones, near, none = (
        MENTAL.traits(f"mental-sum:2+2/{name}") for name in ("regroup-ones", "near-ten", "none")
    )
    assert ones.groups & near.groups
    assert not ones.groups & none.groups
    assert ones.title == "2-digit + 2-digit, regroup the ones"
    titles = [MENTAL.traits(key).title for key in NON_EMPTY]
    assert len(set(titles)) == len(titles)


# --- the catalogue's set and the standards ------------------------------------------------------------


def test_the_set_stays_within_100_as_its_standards_do() -> None:
    """standards.csv: CCSS-M 2010, 1.NBT.C.4 and 2.NBT.B.5, both within 100; England 2013, Y2: two digits and
    ones, tens, two digits."""
    text = (TOP / "card_sets" / "mental-sums-to-99.toml").read_text(encoding="utf-8")
    skills = tomllib.loads(text)["skill"]
    keys = [
        key for found in skills for key in MENTAL.keys(skill(**{k: found[k] for k in ("digits", "classes")}))
    ]
    totals = {sum(map(int, asked.split("+"))) for key in keys for asked in members(key)}
    assert max(totals) < 100
    assert {found["digits"] for found in skills} == {"2+1", "2+2"}
    assert {name for found in skills for name in found["classes"]} == {
        "none",
        "regroup-ones",
        "near-ten",
        "tens",
    }
