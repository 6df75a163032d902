"""Every way that help can follow: sound over whole spaces; which one is followed, and in which words."""

import re
from collections.abc import Callable, Iterator
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import skills
from review.core.model import Help, Problem, Way
from review.core.skills import mental_difference, mental_times
from review.core.skills.strategies import STRATEGIES, choice, chosen, followed, likes, worked_as
from review.core.skills.wording import in_words
from tests.core.arithmetic import counted_rightly, equations, ungrouped
from tests.core.shown import COLUMNS, NEVER, SOURCES, assert_sound, for_a_child, gives_away, holds, in_order
from tests.core.test_mental import NON_EMPTY as SUMS
from tests.core.way_spaces import by_way, facts, missing_numbers, two_digits

FACTS = ("sum", "difference", "product", "quotient", "bond", "double", "half")
OPEN = ("sum", "difference", "product", "quotient")


TIMES = [
    f"{family.kind}:{digits}{family.mark}{len(str(sort.others[0]))}/{name}"
    for family in mental_times.FAMILIES.values()
    for name, sort in family.sorts.items()
    for digits in (2, 3)
]


def members(key: str) -> tuple[str, ...]:
    return mental_times.members(key)


def small_times(kind: str) -> Iterator[Problem]:
    for key in TIMES:
        if key.startswith(f"{kind}:") and ":2" in key:
            yield from (skills.problem(key, asked) for asked in members(key))


def last_number(text: str) -> str:
    *_, last = re.finditer(r"\d+", ungrouped(text))
    return last[0]


def assert_way(way: Way, shown: Problem) -> None:
    """What holds of each way besides being sound."""
    told = f"{shown.card} {shown.asked} {way.strategy}"
    assert worked_as(shown.card) in STRATEGIES[way.strategy].kinds, told
    assert last_number(shown.helps[-1].text) == shown.expected, told
    blanks = [help.text for help in shown.helps if help.step == "blank"]
    assert shown.prompt.removesuffix(" =") not in [blank.removesuffix(" = □") for blank in blanks], told
    assert blanks or "\n" not in shown.helps[-1].text, told
    widest = max(map(len, shown.helps[-1].text.split("\n")))
    assert widest <= COLUMNS - len("1  "), told  # where a child chooses, steps are indented


# --- whole spaces -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "space"),
    [*((kind, facts) for kind in FACTS), *((kind, missing_numbers) for kind in OPEN)],
)
def test_every_way_of_every_fact_is_sound(kind: str, space: Callable[[str], Iterator[Problem]]) -> None:
    for problem in space(kind):
        assert skills.ways(problem), problem.card
        for way, shown in by_way(problem):
            told = f"{shown.card} {shown.asked} {way.strategy}"
            steps = shown.helps[-1].text
            assert_way(way, shown)
            assert in_order(shown), told
            assert for_a_child(shown), told
            assert not gives_away(shown), told
            texts = [help.text for help in shown.helps]
            assert all(len(set(sides)) == 1 for text in texts for sides in equations(text)), told
            assert equations(steps) or counted_rightly(ungrouped(steps)), (told, steps)


@pytest.mark.parametrize("kind", ["mental-sum", "mental-difference"])
def test_every_way_of_every_two_digit_pair_is_sound(kind: str) -> None:
    """Of the best ways that they are sound is shown with their kinds."""
    for problem in two_digits(kind):
        for n, (way, shown) in enumerate(by_way(problem)):
            assert_way(way, shown)
            if n:
                assert_sound(shown)


@pytest.mark.parametrize("kind", ["mental-product", "mental-quotient"])
def test_every_way_of_every_number_of_two_digits_is_sound(kind: str) -> None:
    for problem in small_times(kind):
        for way, shown in by_way(problem):
            assert_sound(shown)
            assert_way(way, shown)


LARGE = [
    *(key for key in SUMS if not key.startswith("mental-sum:2+1/")),
    *(
        f"mental-difference:{digits}/{name}"
        for digits in ("3-1", "3-2", "3-3")
        for name in mental_difference.FITS
    ),
    *(key for key in TIMES if ":3" in key),
]


def is_empty(key: str) -> bool:
    try:
        skills.draw(key, Random(1))
    except ValueError:
        return True
    return False


@given(st.sampled_from([key for key in LARGE if not is_empty(key)]), SOURCES)
def test_every_way_of_other_numbers_is_sound(key: str, random: Random) -> None:
    problem = skills.problem(key, skills.draw(key, random))
    for way, shown in by_way(problem):
        assert_sound(shown)
        assert_way(way, shown)


SPACES: dict[str, Callable[[str], Iterator[Problem]]] = {
    **dict.fromkeys(FACTS, facts),
    **dict.fromkeys(("mental-sum", "mental-difference"), two_digits),
    **dict.fromkeys(("mental-product", "mental-quotient"), small_times),
}


@pytest.mark.parametrize("kind", SPACES)
def test_a_kind_goes_by_the_strategies_that_say_so_and_by_each_of_them(kind: str) -> None:
    found = {way.strategy for problem in SPACES[kind](kind) for way in skills.ways(problem)}
    assert found == {name for name, one in STRATEGIES.items() if kind in one.kinds}


def test_the_best_way_is_the_help_of_the_problem() -> None:
    opened = [problem for kind in OPEN for problem in missing_numbers(kind)]
    for problem in [
        *opened,
        *facts("sum"),
        *facts("quotient"),
        *facts("bond"),
        *two_digits("mental-difference"),
    ]:
        first = skills.ways(problem)[0]
        assert followed(problem.helps, first) == problem.helps, (problem.card, problem.asked)


def test_no_difference_that_falls_short_is_split_into_its_columns() -> None:
    for problem in two_digits("mental-difference"):
        a, b = map(int, problem.asked.split("-"))
        if a % 10 < b % 10:
            assert "partitioning" not in [way.strategy for way in skills.ways(problem)], problem.asked


def test_near_doubles_are_one_or_two_apart() -> None:
    for problem in facts("sum"):
        a, b = map(int, problem.asked.split("+"))
        if "near-doubles" in [way.strategy for way in skills.ways(problem)]:
            assert abs(a - b) in (1, 2), problem.asked


# --- which one is followed ----------------------------------------------------------------------------


def name_of(problem: Problem, named: tuple[str, ...] = (), liked: str = "") -> str:
    """By its question and its steps; pictures may be of that way too."""
    helps = skills.helps(problem, named, liked)
    (way, *_) = [way for way in skills.ways(problem) if {*way.helps} <= {*helps}]
    return way.strategy


def test_what_suits_the_numbers_then_what_the_skill_names_then_what_is_liked() -> None:
    one = skills.problem("mental-sum:2+2/near-ten", "58+27")
    assert name_of(one) == "compensating"
    assert name_of(one, ("partitioning", "counting-on")) == "partitioning"
    assert name_of(one, ("partitioning", "counting-on"), "counting-on") == "counting-on"
    assert name_of(one, (), "rounding") == "rounding"
    assert name_of(one, ("partitioning",), "rounding") == "partitioning"  # the skill narrows the choice
    assert name_of(one, ("by-units",), "rounding") == "rounding"  # it names none that suits: any will do
    assert name_of(one, (), "near-doubles") == "compensating"  # a liking that does not suit these numbers


def test_a_problem_without_ways_keeps_its_help() -> None:
    one = skills.problem("bond:10=0+10", "10=0+_")
    assert skills.ways(one) == ()
    assert skills.helps(one, ("bridging",), "bridging") == one.helps
    assert chosen((), ("bridging",)) is None


def test_counters_and_pictures_stay_whatever_way_is_followed() -> None:
    helps = tuple(Help(step, step) for step in ("question", "build", "picture", "blank", "steps"))
    way = Way("bridging", (Help("question", "How far?"), Help("steps", "1 + 1 = 2")))
    assert [(help.step, help.text) for help in followed(helps, way)] == [
        ("question", "How far?"), ("build", "build"), ("picture", "picture"), ("steps", "1 + 1 = 2"),
    ]  # fmt: skip
    assert choice((way,), ("rounding",)) == (way,)


def test_whoever_likes_a_strategy_likes_it_wherever_it_is_one() -> None:
    assert likes("bridging") == dict.fromkeys(
        ("sum", "difference", "mental-sum", "mental-difference", "bond"), "bridging"
    )


@pytest.mark.parametrize(
    ("key", "kind"),
    [
        ("sum:_+5=12", "bond"), ("difference:_-5=7", "sum"), ("difference:12-_=7", "bond"),
        ("product:_x6=42", "quotient"), ("quotient:_/6=7", "product"), ("quotient:42/_=7", "quotient"),
        ("sum:5+7", "sum"), ("bond:12=5+7", "bond"),
    ],
)  # fmt: skip
def test_what_is_liked_holds_for_what_a_fact_is_worked_as(key: str, kind: str) -> None:
    """Making ten stays liked for sums, whatever is liked where a number is missing."""
    assert worked_as(key) == kind


# --- words --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", STRATEGIES)
def test_a_strategy_has_words_for_a_child_and_for_a_parent(name: str) -> None:
    one = STRATEGIES[name]
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", name)
    assert not NEVER.search(f"{one.child} {one.parent}")
    assert len(one.child.split()) < 8
    assert len(f"1  {one.child}") <= COLUMNS
    assert one.child.endswith(".")
    assert len({other.child for other in STRATEGIES.values()}) == len(STRATEGIES)


def test_what_a_parent_reads_is_true() -> None:
    """The examples in the words for a parent, with the words as signs: 58 + 27 is 60 + 27 less 2."""
    signs = {" is ": " = ", " less ": " − ", " and ": " + ", " more": ""}
    checked = 0
    for one in STRATEGIES.values():
        example = one.parent.partition(": ")[2]
        for word, sign in signs.items():
            example = example.replace(word, sign)
        if re.fullmatch(r"[0-9 +−×÷]+ = [0-9 +−×÷]+", example):
            checked += 1
            assert holds(example), one.parent
    assert checked > len(STRATEGIES) / 2


WORDS = {in_words(number): number for number in range(1, 13)}
MAKE = re.compile(r"What do (\w+) (\d+)s make\?")


def test_a_question_after_a_fact_and_the_fact_one_is_told_are_the_same() -> None:
    """Help is of one piece: asked what two 9s make, a child is told 2 × 9 and no other fact."""
    asked = 0
    for problem in facts("quotient"):
        for way, shown in by_way(problem):
            texts = {help.step: help.text for help in shown.helps}
            question = MAKE.match(texts["question"])
            if question and "neighbour" in texts:
                fact = f"You know {WORDS[question[1]]} × {question[2]} ="
                assert texts["neighbour"].startswith(fact), (problem.card, way.strategy)
                asked += 1
    assert asked > 100


@pytest.mark.parametrize(
    ("number", "near", "away"), [(29, "You know 30 + 30 = 60.", 2), (48, "You know 50 + 50 = 100.", 4)]
)
def test_a_double_near_a_ten_goes_by_the_double_of_that_ten(number: int, near: str, away: int) -> None:
    problem = skills.problem(f"double:{number}", str(number))
    (shown,) = [shown for way, shown in by_way(problem) if way.strategy == "rounding"]
    (told,) = [help.text for help in shown.helps if help.step == "neighbour"]
    assert told == f"{near}\nTake {away} away."
