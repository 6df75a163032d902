"""Counting in steps: classes counted by their closed form, every showing checked, draws uniform."""

import re
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.keys import well_formed
from review.core.skills.counting import FORMS, KINDS, showings
from tests.core.shown import assert_sound, assert_uniform, refuses
from tests.core.spaces import skill_of
from tests.tables import rows

(COUNT_BY,) = KINDS


def keys(**options: object) -> list[str]:
    return list(COUNT_BY.keys(skill_of(COUNT_BY, **options)))


def test_cards_of_a_skill() -> None:
    assert keys(steps=(7,)) == ["count-by:7/on/up/0..84"]
    assert keys(steps=(2, 10), forms=("on", "next"), directions=("up", "down"), times=(0, 10)) == [
        f"count-by:{step}/{form}/{way}/0..{step * 10}"
        for step in (2, 10) for way in ("up", "down") for form in ("on", "next")
    ]  # fmt: skip
    assert keys(steps=(7,), forms=("on", "next"), times=(0, 4)) == ["count-by:7/next/up/0..28"]


@pytest.mark.parametrize(
    ("step", "top"), [(3, 100), (4, 100), (6, 100), (7, 100), (9, 100), (10, 100), (25, 1000), (100, 1000)]
)
def test_multiples_are_as_many_as_published(step: int, top: int) -> None:
    """counts.csv: floor(top / step). Every multiple but the last is asked what comes next."""
    row = rows("counts.csv", **{"class": f"multiples of {step} in 1..{top}"})[0]
    assert len(showings(f"count-by:{step}/next/up/1..{top}")) == int(row["count"]) - 1


@pytest.mark.parametrize(("form", "each"), [("on", 1), ("gaps", 3)])
@pytest.mark.parametrize("way", ["up", "down"])
def test_rows_of_six(form: str, each: int, way: str) -> None:
    """Of thirteen multiples eight rows of six can be made; two gaps apart inside four places: three ways."""
    assert len(showings(f"count-by:7/{form}/{way}/0..84")) == 8 * each


ALL = [
    key
    for times in ((0, 12), (3, 20), (80, 100))
    for key in keys(
        steps=(*range(1, 21), 25, 50, 75, 100, 250, 1000), forms=FORMS, directions=("up", "down"), times=times
    )
]


@pytest.mark.parametrize("times", [(0, 12), (80, 100)])
def test_every_showing_is_sound(times: tuple[int, int]) -> None:
    for key in keys(
        steps=(*range(1, 21), 25, 50, 100, 250, 1000), forms=FORMS, directions=("up", "down"), times=times
    ):
        for asked in showings(key):
            assert_sound(COUNT_BY.problem(key, asked))


@pytest.mark.parametrize("key", ALL[::7])
def test_a_row_goes_up_or_down_in_equal_steps(key: str) -> None:
    step = int(re.findall(r"\d+", key)[0]) * (-1 if "/down/" in key else 1)
    low, high = map(int, re.findall(r"(\d+)\.\.(\d+)", key)[0])
    for asked in showings(key):
        one = COUNT_BY.problem(key, asked)
        answers = iter(one.expected.split(", "))
        row = [int(next(answers) if text == "_" else text) for text in asked.split(",")]
        assert {after - before for before, after in pairwise(row)} == {step}
        assert low <= min(row) <= max(row) <= high
        assert all(number % step == 0 for number in row)
        assert next(answers, None) is None
        assert judge(one, one.expected.replace(",", "")) == "right"


def test_a_problem_in_words() -> None:
    one = COUNT_BY.problem("count-by:7/on/up/0..84", "14,21,28,_,_,_")
    assert (one.prompt, one.expected, one.form) == ("14, 21, 28, □, □, □", "35, 42, 49", "list")
    assert one.told == "14, 21, 28, 35, 42, 49."
    one = COUNT_BY.problem("count-by:6/next/down/0..72", "18,_")
    assert (one.prompt, one.expected, one.form) == ("Count back in 6s: 18, □", "12", "whole")
    assert one.say == "count back in sixes: eighteen, what"


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("way", ["up", "down"])
def test_draws_are_uniform(form: str, way: str) -> None:
    key = f"count-by:4/{form}/{way}/0..48"
    assert_uniform(COUNT_BY, key, showings(key))


@given(st.integers(1, 1000), st.sampled_from(FORMS), st.sampled_from(["up", "down"]), st.randoms())
def test_whatever_is_drawn_belongs(step: int, form: str, way: str, random: Random) -> None:
    key = f"count-by:{step}/{form}/{way}/0..{step * 12}"
    asked = COUNT_BY.draw(key, random)
    assert well_formed(key, asked)
    assert COUNT_BY.problem(key, asked).asked == asked


ANY = keys(steps=(2, 5, 7, 10, 25, 50, 100, 1000), forms=FORMS, directions=("up", "down"), starts=("any",))


@pytest.mark.parametrize("key", ANY[::4] + ANY[1::9])
def test_from_any_other_number_no_number_is_a_multiple(key: str) -> None:
    step = int(key.removeprefix("count-by:").partition("/")[0])
    for asked in showings(key)[:: max(1, len(showings(key)) // 60)]:
        one = COUNT_BY.problem(key, asked)
        assert_sound(one)
        row = [int(text) for text in asked.split(",") if text != "_"]
        assert {number % step for number in row} == {row[0] % step} != {0}
        assert well_formed(key, asked)


@pytest.mark.parametrize("form", FORMS)
def test_any_start_and_the_multiples_share_out_all_numbers(form: str) -> None:
    """Of 0 to 60 in sevens: every start that leaves room for the row, seven-fold in all."""
    room = 61 - 7 * {"on": 5, "gaps": 5, "next": 1}[form]
    ways = {"on": 1, "gaps": 3, "next": 1}[form]
    key = f"count-by:7/{form}/up/0..60"
    assert len(showings(key)) + len(showings(f"{key}/any")) == room * ways
    assert_uniform(COUNT_BY, f"{key}/any", showings(f"{key}/any"))


def test_what_belongs_is_told_without_a_list() -> None:
    """The list of showings and the check of one agree, strangers among them."""
    for key in ("count-by:4/gaps/down/0..40", "count-by:4/gaps/down/0..40/any", "count-by:3/next/up/2..20"):
        everything = [asked for way in ("up", "down") for tail in ("", "/any") for form in FORMS
                      for asked in showings(f"count-by:4/{form}/{way}/0..44{tail}")]  # fmt: skip
        everything += showings("count-by:3/next/up/0..30")
        assert set(refuses(COUNT_BY, key, everything)) == set(everything) & set(showings(key))


@pytest.mark.parametrize(
    ("key", "asked", "told"),
    [
        ("count-by:10/next/up/0..120/any", "46,_", "Count in 10s: 46, 56."),
        (
            "count-by:1000/on/up/0..20000",
            "8000,9000,10000,_,_,_",
            "8,000, 9,000, 10,000,\n11,000, 12,000, 13,000.",
        ),
    ],
)
def test_what_is_told_stands_alone(key: str, asked: str, told: str) -> None:
    assert COUNT_BY.problem(key, asked).told == told


def test_impossible_conditions_are_told_in_words() -> None:
    assert keys(steps=(1,), starts=("any",)) == []
    assert keys(steps=(1,), times=(95, 120)) == ["count-by:1/on/up/95..120"]
    far = skill_of(COUNT_BY, steps=(1000,), times=(0, 1000))
    (told,) = COUNT_BY.check(far)
    assert told == ("times", "1,000 steps of 1,000 go beyond 999,999", "write [0, 999] at most")


def test_strangers_are_refused() -> None:
    strangers = ["15,22,29,_,_,_", "14,21,28,35,_,_", "84,91,98,_,_,_", "28,21,14,_,_,_", "14,_", ""]
    assert refuses(COUNT_BY, "count-by:7/on/up/0..84", strangers) == []


def test_what_the_planner_knows() -> None:
    traits = COUNT_BY.traits("count-by:7/on/down/0..84")
    assert not traits.fact
    assert traits.title == "count back in 7s: the next three"
    assert traits.groups == {"table-7", "count-on"}


def test_what_is_laid_out_fits_the_count() -> None:
    def build(key: str, asked: str) -> str:
        return next(help.text for help in COUNT_BY.problem(key, asked).helps if help.step == "build")

    assert build("count-by:1/on/up/1..20", "4,5,6,_,_,_") == "Point to them on a number line."
    assert build("count-by:10/next/up/0..120/any", "64,_").startswith("Draw a number line.")
    assert build("count-by:10/next/up/0..120", "60,_").startswith("Draw a number line.")
    assert build("count-by:5/next/up/0..60", "40,_").startswith("Lay out equal rows")


def test_one_counts_in_hundreds_not_in_one_hundreds() -> None:
    said = COUNT_BY.problem("count-by:100/next/up/0..2000", "400,_").say
    assert said == "count on in hundreds: four hundred, what"
