"""Marks of a sheet as they are typed: what they are read as, what is refused, what answers they become."""

from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import marking
from review.core.answer_bodies import answer_body
from review.core.model import Aim, Words
from review.core.paper_marks import HOWS, SIGNS, How, Marked, Unread, answers_of, read
from review.core.sheets import Made, Part, Task

TASKS = (
    *(Task(f"sum:{n}+8", f"8+{n}", aim="fluency") for n in range(1, 8)),
    Task("product:6x7", "6x7", "intro", "fluency"),
    Task("difference:15-8", "15-8"),
    Task("number-name:write/10..99", "47"),
)
COUNT = len(TASKS)
TYPED: dict[How, str] = {"from memory": "v", "worked out": ".", "not yet": "o", "left out": "x"}


def hows(line: str) -> list[How]:
    return [one.how for one in read(line, TASKS)]


def test_everything_that_is_not_named_counts_as_ticked() -> None:
    found = hows("3. 7o")
    assert (found[2], found[6]) == ("worked out", "not yet")
    assert found.count("from memory") == COUNT - 2


@pytest.mark.parametrize("line", ["all", " ALL ", "v", "vvvvvvvvvv", "✓✓✓✓✓ ✓✓✓✓✓", "1v 2v"])
def test_a_line_may_tick_all_of_them(line: str) -> None:
    assert hows(line) == ["from memory"] * COUNT


@pytest.mark.parametrize(
    "line",
    [
        "3. 7o",
        "7o, 3.",
        "3.;7o",
        " 7O  3• ",
        "3·,7○",
        "vv.vvvovvv",
        "vv.vv vovvv",
        "✓✓•✓✓✓○✓✓✓",
        "3 . 7 o",
        "3. and 7o",
    ],
)
def test_one_thing_is_typed_in_many_ways(line: str) -> None:
    assert hows(line) == hows("3. 7o")


def test_left_out_from_a_number_on_or_one_alone() -> None:
    assert hows("2x 8-") == ["from memory", "left out", *["from memory"] * 5, *["left out"] * 3]
    assert hows("vvvvvvv---") == ["from memory"] * 7 + ["left out"] * 3


def test_what_stands_on_the_paper_is_kept() -> None:
    found = read('7o=62 10o="fourty six" 9o=4', TASKS)
    assert [(one.n, one.given) for one in found if one.how == "not yet"] == [
        (7, "62"), (9, "4"), (10, "fourty six"),
    ]  # fmt: skip


@pytest.mark.parametrize("line", ["7o=62", "7=62", "7 o = 62", "7 = 62,"])
def test_a_number_with_what_stands_there_has_a_ring(line: str) -> None:
    assert [one for one in read(line, TASKS) if one.how != "from memory"] == [Marked(7, "not yet", "62")]


def test_a_comma_after_it_does_not_stand_on_the_paper() -> None:
    found = read("7o=62, 9o=1,000; 3.", TASKS)
    assert [(one.n, one.given) for one in found if one.how == "not yet"] == [(7, "62"), (9, "1,000")]


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("3", "3 has no sign. Was it worked out, 3. with a dot, or not yet, 3o with the letter o?"),
        ("7o 62", "“62” is no mark"),
        ("3. 70", "70 has no sign. Was it worked out, 7."),
        ("3. seven", "“seven” is no mark"),
        ("11o", "no number 11 in this sitting: it has 10"),
        ("0o", "no number 0"),
        ("3. 3o", "Number 3 stands there twice"),
        ("8- 9o", "Number 9 stands there twice"),
        ("vv.", "These are 3 signs for 10 problems"),
        (".", "This is 1 sign for 10 problems"),
        (" ", "There are no marks in it"),
        ("7o=15", "Number 7: 15 is what is asked for"),
        ("7.=62", "is no mark"),
        ("3.7o", "is no mark"),
        ("1-", "Every problem is left out"),
        ("xxxxxxxxxx", "Every problem is left out"),
        ("\x1b[31m", "is no mark"),
        ("²o", "is no mark"),
        ("³.", "is no mark"),
    ],
)
def test_what_cannot_be_meant_is_told(line: str, says: str) -> None:
    with pytest.raises(Unread) as error:
        read(line, TASKS)
    assert says in str(error.value)
    assert "\x1b" not in str(error.value)


@given(st.text(max_size=30))
def test_any_line_is_read_whole_or_refused(line: str) -> None:
    try:
        found = read(line, TASKS)
    except Unread:
        return
    assert [one.n for one in found] == [*range(1, COUNT + 1)]


@given(
    st.lists(st.sampled_from(HOWS), min_size=COUNT, max_size=COUNT).filter(
        lambda some: set(some) != {"left out"}
    )
)
def test_both_ways_of_typing_mean_the_same(wanted: list[How]) -> None:
    in_order = "".join(TYPED[how] for how in wanted)
    by_number = " ".join(f"{n}{TYPED[how]}" for n, how in enumerate(wanted, 1))
    assert hows(in_order) == hows(by_number) == wanted
    assert {SIGNS[TYPED[how]] for how in HOWS} == set(HOWS)


# --- as answers ---------------------------------------------------------------------------------------


def made(*timed: str) -> Made:
    return Made(
        4711, "week", "child", 740_000, (Part(740_001, TASKS[:1]), Part(740_002, TASKS)), "", timed, 3600
    )


def test_a_mark_becomes_an_answer_without_a_time() -> None:
    tick, dot, ring = answers_of(made(), 2, read("2. 3o=99 4-", TASKS), 7, True)
    assert [one.mark for one in (tick, dot, ring)] == ["right", "right_slow", "not_yet"]  # as aloud
    assert [one.recalled for one in (tick, dot, ring)] == ["yes", "no", ""]
    assert [(one.given, one.expected) for one in (tick, dot, ring)] == [
        ("9", "9"),
        ("10", "10"),
        ("99", "11"),
    ]
    assert {(one.first_ms, one.end_ms, one.help, one.taken) for one in (tick, dot, ring)} == {
        (0, 0, "", "paper")
    }
    assert {(one.age, one.untimed, one.sheet, one.part) for one in (tick, dot, ring)} == {(7, 1, 4711, 2)}
    assert tick.role == "ask"
    assert answer_body(tick)["sheet"] == 4711


def test_a_first_meeting_stays_one() -> None:
    found = answers_of(made(), 2, read("8o", TASKS), 8, False)
    assert [one.role for one in found][7] == "intro"


EFFECTS: list[tuple[How, Aim, bool, marking.Effect]] = [
    ("from memory", "fluency", False, "retrieved"),
    ("worked out", "fluency", False, "hold"),
    ("not yet", "fluency", False, "not retrieved"),
    ("from memory", "fluency", True, "weighed"),
    ("worked out", "fluency", True, "weighed"),
    ("from memory", "accuracy", False, "retrieved"),
    ("worked out", "accuracy", False, "retrieved"),
    ("not yet", "accuracy", False, "not retrieved"),
    ("from memory", "familiarity", False, ""),
]


@pytest.mark.parametrize(("how", "aim", "timed", "effect"), EFFECTS)
def test_what_the_three_words_do_to_memory(
    how: How, aim: Aim, timed: bool, effect: Literal["retrieved", "weighed", "hold", "not retrieved", ""]
) -> None:
    """As the same words do at the computer: worked out holds a gap, and once time counts is no recall."""
    task = TASKS[0]._replace(aim=aim)
    sheet = made(*([task.card] if timed else []))._replace(parts=(Part(1, (task,)),))
    (answer,) = answers_of(sheet, 1, [Marked(1, how)], 9, False)
    assert marking.effect(answer) == effect


def test_worked_out_where_time_counts_falls_and_from_memory_grows() -> None:
    from review.core.habits import sureness
    from review.core.model import Habits

    task = TASKS[0]
    sheet = made(task.card)._replace(parts=(Part(1, (task,)),))
    for how, sure in (("from memory", 1.0), ("worked out", 0.0)):
        (answer,) = answers_of(sheet, 1, [Marked(1, how)], 9, False)  # type: ignore[arg-type]
        assert sureness(Habits(), answer, 0.5) == sure


def test_what_stands_there_with_a_comma_is_kept_with_a_point() -> None:
    """And what is asked for is still found to be so."""
    tasks = (Task("decimal:times/10-2", "68.04x10"),)
    comma = Words(decimals="comma")
    assert read("1o=68,4", tasks, comma)[0].given == "68.4"
    assert read("1o=68,4", tasks)[0].given == "68,4"
    with pytest.raises(Unread, match="680,4 is what is asked for"):
        read("1o=680,4", tasks, comma)
