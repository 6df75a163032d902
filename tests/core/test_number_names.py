"""Number names both ways: against the published table, whole small ranges, uniform draws."""

import re
from functools import partial
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.keys import well_formed
from review.core.skills.number_names import KINDS
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses, seen
from tests.core.spaces import skill_of
from tests.tables import rows

(NAMES,) = KINDS
skill = partial(skill_of, NAMES)


def published() -> list[tuple[int, str, str]]:
    return [(int(row["n"]), row["with_and"], row["without_and"]) for row in rows("number_names_en.csv")]


@pytest.mark.parametrize(("number", "name", "short"), published())
def test_a_name_is_the_published_one(number: int, name: str, short: str) -> None:
    """number_names_en.csv: Unicode's ICU, num2words and inflect agree on each."""
    read = NAMES.problem("number-name:read/1..10000", str(number))
    assert " ".join(seen(read)) == name
    assert read.expected == str(number)
    write = NAMES.problem("number-name:write/1..10000", str(number))
    assert write.expected == name
    assert judge(write, short) == "right"


@pytest.mark.parametrize(("number", "name", "short"), published())
def test_a_name_without_and_is_the_published_one(number: int, name: str, short: str) -> None:
    """number_names_en.csv, column without_and; the other name counts all the same."""
    read = NAMES.problem("number-name:read/1..10000/no-and", str(number))
    write = NAMES.problem("number-name:write/1..10000/no-and", str(number))
    assert (" ".join(seen(read)), read.expected) == (short, str(number))
    assert (write.expected, judge(write, name)) == (short, "right")
    shown = [read.say, read.told, read.helps[-1].text, write.told, write.helps[-1].text]
    assert not re.search(r"\band\b", " ".join(shown))


def test_the_choice_without_and_makes_cards_of_its_own() -> None:
    keys = [list(NAMES.keys(skill(ranges=((100, 999),), **{"and": joined}))) for joined in (True, False)]
    assert keys == [
        ["number-name:read/100..999", "number-name:write/100..999"],
        ["number-name:read/100..999/no-and", "number-name:write/100..999/no-and"],
    ]
    assert all(well_formed(key, "345") for some in keys for key in some)


KEYS = [
    f"number-name:{task}/{span}"
    for task in ("read", "write")
    for span in ("0..20", "21..99", "100..999", "100..999/full", "100..999/zero", "1000..9999/zero",
                 "10000..99999", "100000..999999", "100000..999999/full",
                 "100..999/no-and", "1000..9999/zero/no-and")
]  # fmt: skip


@given(st.sampled_from(KEYS), SOURCES)
def test_what_is_drawn_is_sound(key: str, random: Random) -> None:
    asked = NAMES.draw(key, random)
    assert_sound(NAMES.problem(key, asked))
    which = key.removesuffix("/no-and").rpartition("/")[2]
    assert which not in ("full", "zero") or ("0" in asked) == (which == "zero")


@pytest.mark.parametrize("task", ["read", "write"])
def test_every_number_to_999_is_sound(task: str) -> None:
    for number in range(1000):
        assert_sound(NAMES.problem(f"number-name:{task}/0..999", str(number)))


@pytest.mark.parametrize(
    ("span", "count"), [("100..999/full", 9**3), ("100..999/zero", 900 - 9**3), ("21..99", 79)]
)
def test_a_class_has_as_many_members_as_its_closed_form_says(span: str, count: int) -> None:
    members = refuses(NAMES, f"number-name:read/{span}", map(str, range(1200)))
    assert len(members) == count
    assert_uniform(NAMES, f"number-name:read/{span}", members)


def test_as_a_teacher_would_write_it() -> None:
    problem = NAMES.problem("number-name:read/100..999", "417")
    assert (problem.prompt, problem.expected) == ("four hundred and seventeen =", "417")
    assert problem.helps[-1].text == "four hundred: 400\nseventeen: 17\n400 + 17 = 417"
    problem = NAMES.problem("number-name:write/20..99", "42")
    assert (problem.prompt, problem.told) == ("42 in words:", "42 is forty-two.")
    assert judge(problem, "fourty two") == "right"
    assert judge(problem, "fourteen two") == "unreadable"
    assert judge(problem, "twenty-four") == "other"
    problem = NAMES.problem("number-name:read/1000..9999", "7777")
    assert seen(problem) == ("seven thousand seven hundred and", "seventy-seven")
    assert problem.prompt == "In digits:"


def test_strangers_are_refused() -> None:
    assert refuses(NAMES, "number-name:read/100..999/zero", ["417", "99", "1001", "0407"]) == []


def test_a_class_is_empty_where_none_of_its_numbers_belongs() -> None:
    for which in ("full", "zero"):
        for low in (*range(130), 195, 901, 999, 1000, 1091, 1099, 1101):
            for high in (low, low + 1, low + 12):
                key = f"number-name:read/{low}..{high}/{which}"
                keys = list(NAMES.keys(skill(ranges=((low, high),), task=("read",), which=(which,))))
                assert keys == [key] * bool(refuses(NAMES, key, map(str, range(low, high + 1))))


def test_keys_and_conditions() -> None:
    assert list(NAMES.keys(skill(ranges=((1, 10), (11, 20))))) == [
        "number-name:read/1..10", "number-name:write/1..10", "number-name:read/11..20",
        "number-name:write/11..20",
    ]  # fmt: skip
    zeros = skill(ranges=((20, 99),), task=("read",), which=("full", "zero"))
    assert list(NAMES.keys(zeros)) == ["number-name:read/20..99/full"]
    (told,) = NAMES.check(zeros)
    assert told[0] == "ranges"


def test_long_names_to_write_are_for_paper() -> None:
    """Over 60 seconds expected: nobody types such a name in a sitting."""
    assert NAMES.traits("number-name:write/100000..999999").seconds > 60
    assert 30 < NAMES.traits("number-name:write/1000..9999").seconds <= 60
    titles = [NAMES.traits(key).title for key in KEYS]
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize("task", ["read", "write"])
def test_a_blank_does_not_say_the_answer(task: str) -> None:
    for number in range(1, 100):
        one = NAMES.problem(f"number-name:{task}/1..99", str(number))
        blank = next(help.text for help in one.helps if help.step == "blank")
        assert one.expected not in re.findall(r"[\w-]+", blank) or (task == "read" and one.expected == "1"), (
            number
        )
