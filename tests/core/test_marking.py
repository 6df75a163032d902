from itertools import product
from typing import Literal, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import marking
from review.core.model import AIMS, HELP_STEPS, MARKS, Aim, Answer, Card, CardMemory, Mark, Settings, Traits

ORDER = ["not retrieved", "halve", "hold", "weighed", "retrieved"]
HELPS = ("", *HELP_STEPS)


def mark(
    verdict: Literal["right", "other"] = "right",
    *,
    help: str = "",
    first_ms: int = 1000,
    end_ms: int = 3000,
    slow_ms: int = 3000,
    suspended: bool = False,
    fact: bool = True,
) -> Mark:
    return marking.mark(
        verdict, help=help, first_ms=first_ms, end_ms=end_ms, copy_ms=2000, slow_ms=slow_ms,
        suspended=suspended, fact=fact,
    )  # fmt: skip


def answer(mark: Mark = "right", **fields: object) -> Answer:
    return Answer("sum:1+1", "1+1", "2", "2", mark)._replace(**fields)  # type: ignore[arg-type]


# --- times ---


# Our judgement from published typing aims; between ages and lengths it must at least be orderly.
def test_copying_time_by_age_and_length() -> None:
    assert [marking.copying_ms(age, 2) for age in (6, 7, 8, 9, 10, 11, 14)] == [
        3500, 3500, 2900, 2300, 1900, 1700, 1700,
    ]  # fmt: skip
    assert [marking.copying_ms(8, n) for n in range(1, 5)] == [2175, 2900, 3625, 4350]


# 118 students copy-typing a number of mostly two digits (Soh Mei Ling 2025, open data, MIT licence): the
# middle half of their medians.
def test_copying_at_eleven_is_within_the_middle_half_of_adults() -> None:
    assert 1461 <= marking.copying_ms(11, 2) <= 1740


def test_own_copying_time_comes_first() -> None:
    own = (1400, 1800, 2000)
    assert [marking.copying_ms(7, n, own) for n in (1, 2, 3)] == [1400, 1800, 2000]
    assert marking.copying_ms(7, 4, own) == 2400


@pytest.mark.parametrize(("age", "limit"), [(6, 4500), (7, 4500), (8, 3600), (9, 3000), (11, 3000)])
def test_slow_by_age(age: int, limit: int) -> None:
    assert marking.slow_ms(age) == limit


def test_a_time_is_believed_from_a_quarter_of_a_second_on() -> None:
    """Simple reactions take about a fifth of a second (common practice): a quarter is nobody's answer yet."""
    assert [marking.is_believable(*times) for times in ((0, 250), (250, 900))] == [True, True]
    assert not any(marking.is_believable(*times) for times in ((0, 249), (249, 900), (0, 0)))


# --- marks ---


@pytest.mark.parametrize("help", HELPS)
@pytest.mark.parametrize("fact", [True, False])
def test_help_and_what_is_none(help: str, fact: bool) -> None:
    unaided = help in ("", "written") or (help == "question" and not fact)
    assert mark(help=help, fact=fact) == ("right" if unaided else "right_helped")
    assert mark("other", help=help, fact=fact) == "not_yet"


@pytest.mark.parametrize(
    ("first_ms", "end_ms", "slow_ms", "expected"),
    [
        (1000, 5000, 3000, "right"),
        (1000, 5001, 3000, "right_slow"),
        (1000, 5001, 0, "right"),  # time does not count
        (249, 9000, 3000, "right"),  # the key was under way before: the answer stands, its time does not
        (250, 9000, 3000, "right_slow"),
        (0, 9000, 3000, "right_slow"),  # the first key was not timed
        (0, 0, 3000, "right"),  # no time at all
        (1000, 30_001, 99_000, "right_slow"),
        (1000, 30_000, 99_000, "right"),
        (1000, 30_001, 0, "right"),
    ],
)
def test_right_is_slow_where_a_time_is_over_the_limit(
    first_ms: int, end_ms: int, slow_ms: int, expected: Mark
) -> None:
    assert mark(first_ms=first_ms, end_ms=end_ms, slow_ms=slow_ms) == expected


@given(st.sampled_from(("right", "other")), st.sampled_from(HELPS), st.integers(0, 90_000), st.booleans())
def test_a_suspended_process_voids(
    verdict: Literal["right", "other"], help: str, end_ms: int, fact: bool
) -> None:
    assert mark(verdict, help=help, end_ms=end_ms, suspended=True, fact=fact) == "void"


def test_time_counts_by_evidence_and_the_parents_yes() -> None:
    card = Card("sum:1+1", "sum", "sums", "set", "fluency", 1)
    traits, memory = Traits("", True, 4), CardMemory("sum:1+1", right_days=3)
    settings = Settings(9, timed=frozenset({"sums"}))
    assert marking.timed(card, traits, memory, settings)
    assert marking.timed(card, traits, memory, settings._replace(age=6))  # not by a birthday
    assert not marking.timed(card._replace(aim="accuracy"), traits, memory, settings)
    assert not marking.timed(card, traits._replace(choices=3), memory, settings)
    assert not marking.timed(card, traits, memory._replace(right_days=2), settings)
    assert not marking.timed(card, traits, None, settings)
    assert not marking.timed(card, traits, memory, settings._replace(untimed=True))
    assert not marking.timed(card, traits, memory, settings._replace(timed=frozenset()))


def test_one_yes_is_enough_for_a_card_of_two_skills() -> None:
    """The sets of a child may share cards: whichever was given first, the parent's yes holds."""
    traits, memory = Traits("2 + 2", True, 3), CardMemory("sum:2+2", right_days=3)
    card = Card("sum:2+2", "sum", "sums", "set", "fluency", 0, also=("doubles",))
    for skill, counts in (("sums", True), ("doubles", True), ("bonds", False)):
        assert marking.timed(card, traits, memory, Settings(9, timed=frozenset({skill}))) == counts


# --- the table ---


def every_effect() -> list[tuple[Answer, str]]:
    """The whole space: aims, marks, help steps, timed or not, what was said."""
    space = product(AIMS, MARKS, HELPS, (0, 3000), ("", "yes", "no"))
    rows = [
        answer(mark, aim=aim, help=help, slow_ms=slow, recalled=said) for aim, mark, help, slow, said in space
    ]
    return [(row, marking.effect(row)) for row in rows]


def test_every_case_has_an_effect() -> None:
    assert {effect for _, effect in every_effect()} == set(get_args(marking.Effect))


def test_what_never_moves_memory() -> None:
    still = [row for row, effect in every_effect() if effect == ""]
    assert all(row.mark == "void" or row.aim == "familiarity" for row in still)
    assert len(still) == len(
        [row for row, _ in every_effect() if row.mark == "void" or row.aim == "familiarity"]
    )


def test_misses_and_shown_answers_fall_and_slow_ones_never_do() -> None:
    for row, effect in every_effect():
        if effect and row.mark in ("not_yet", "shown"):
            assert effect == "not retrieved"
        if row.mark in ("right", "right_slow") and row.help in ("", "written") and row.aim != "familiarity":
            assert effect != "not retrieved"


def test_a_right_answer_is_weighed_where_time_counts() -> None:
    for mark in ("right", "right_slow"):
        timed = answer(mark, aim="fluency", slow_ms=3000)
        assert marking.effect(timed) == "weighed"
        assert marking.effect(timed._replace(aim="accuracy")) == "retrieved"
    assert marking.effect(answer("right", aim="fluency")) == "retrieved"  # time does not count yet


def test_more_help_is_never_worth_more() -> None:
    for aim, slow in product(("accuracy", "fluency"), (0, 3000)):
        worth = [
            ORDER.index(
                marking.effect(answer("right_helped" if help else "right", aim=aim, slow_ms=slow, help=help))
            )
            for help in ("", "question", "picture", "steps")
        ]
        assert worth == sorted(worth, reverse=True)


def test_a_guiding_question_holds_a_procedure() -> None:
    for aim in ("accuracy", "fluency"):
        assert marking.effect(answer("right", aim=aim, help="question")) == "hold"


def test_pictures_are_not_yet_independent() -> None:
    for step in ("picture", "build", "neighbour", "blank"):
        assert marking.effect(answer("right_helped", aim="fluency", help=step)) == "not retrieved"
        assert marking.effect(answer("right_helped", aim="accuracy", help=step)) == "halve"


def test_what_the_child_says_decides_for_fluency() -> None:
    counted = answer("right", aim="fluency", recalled="no")
    assert marking.effect(counted) == "hold"  # time does not count yet
    assert marking.effect(counted._replace(aim="accuracy")) == "retrieved"


def test_time_that_was_turned_off_moves_nothing() -> None:
    slow = answer("right_slow", aim="fluency", slow_ms=3000, untimed=1)
    assert marking.effect(slow) == "retrieved"
    assert marking.effect(slow._replace(recalled="no")) == "hold"  # the child's own word, not a time


@pytest.mark.parametrize(
    ("fields", "quick"),
    [
        ({"aim": "fluency", "end_ms": 4999}, True),
        ({"aim": "fluency", "end_ms": 5001}, False),
        ({"aim": "fluency", "end_ms": 5001, "untimed": 1}, True),
        ({"aim": "fluency", "end_ms": 5001, "taken": "aloud"}, True),
        ({"aim": "fluency", "end_ms": 5001, "taken": "aloud", "recalled": "no"}, False),
        ({"aim": "fluency", "end_ms": 5001, "recalled": "yes"}, True),
        ({"aim": "accuracy", "end_ms": 25_000}, True),
        ({"aim": "fluency", "slipped": "3", "end_ms": 0}, False),  # a slip of the keys: no time is known
        ({"aim": "accuracy", "slipped": "3", "end_ms": 0}, False),
        ({"aim": "fluency", "slipped": "2", "end_ms": 4999}, True),  # right at once, and asked once more
    ],
)
def test_quick_at_first_sight(fields: dict[str, object], quick: bool) -> None:
    assert marking.quick(answer(age=9, copy_ms=2000)._replace(**fields)) == quick  # type: ignore[arg-type]


@pytest.mark.parametrize("aim", AIMS)
@pytest.mark.parametrize(
    ("mark", "recalled", "said"),
    [
        ("right", "no", "right_slow"),  # a dot on paper, as it was kept once
        ("right_slow", "no", "right_slow"),
        ("right_slow", "yes", "right"),
        ("right", "", "right"),
        ("right_slow", "", "right_slow"),
        ("right_helped", "no", "right_helped"),
        ("not_yet", "", "not_yet"),
    ],
)
def test_a_mark_is_told_by_what_was_said_of_it(
    aim: Aim, mark: Mark, recalled: Literal["", "yes", "no"], said: Mark
) -> None:
    one = answer(mark, aim=aim)._replace(recalled=recalled)
    assert marking.as_said(one) == said
