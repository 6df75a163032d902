"""Placement: kind in what it asks, and the same whether stopped or not. What it found: `test_placed`."""

from math import exp

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import ability, item_choice, marking, memory, placement, sayings, skills
from review.core.answer_bodies import answer_body
from review.core.model import Answer, CardMemory, Event
from review.core.warmup import (
    AskAgain,
    AskHelp,
    End,
    Heard,
    Note,
    PassOn,
    Record,
    Say,
    Show,
    Stop,
    Summary,
    Typed,
)
from tests.core.probes import DAY, SURE, a_probing, knows, knows_all, knows_none, sat

MANY = "subtraction-totals-20"


# --- kindness -------------------------------------------------------------------------------------------


def test_two_misses_running_end_it_with_a_kind_word() -> None:
    done = sat(a_probing(), knows_none)
    assert len(done.answers) == item_choice.MISSES
    assert [one.text for one in done.effects if isinstance(one, Note)] == ["We'll leave that for later."]
    assert isinstance(done.effects[-1], End)


def test_a_later_day_that_ends_after_one_miss_ends_kindly_and_on_what_was_known_before() -> None:
    """On the first day 11 × 3 and 11 × 4 were right, then two were missed: nothing is likely any more."""
    probing = a_probing("times-11-12", age=10)
    first = sat(probing, lambda show: knows_all(show) if show.n <= 2 else knows_none(show))
    assert [item_choice.is_well(answer) for answer in first.answers[:4]] == [True, True, False, False]
    left = tuple(key for key in probing.open if key not in {*first.keys})
    later = sat(
        probing._replace(day=DAY + 1, open=left, earlier=first.answers),
        lambda show: knows_none(show) if show.n == 1 else knows_all(show),
    )
    assert len(later.answers) == 2
    assert later.keys[1] in first.keys[:2]
    order = ["Show", "Record", "Note", "Show", "Record", "End"]
    assert [type(one).__name__ for one in later.effects] == order
    assert [one.text for one in later.effects if isinstance(one, Note)] == ["We'll leave that for later."]
    shown = [one for one in later.effects if isinstance(one, Show)]
    assert [one.first_meeting for one in shown] == [True, False]
    again = probing._replace(day=DAY + 1, open=left, earlier=first.answers)
    assert sat(again, knows_all, so_far=later.answers[:1]).answers == later.answers


def test_nothing_is_said_of_any_answer() -> None:
    told = [*sat(a_probing(), knows_all).effects, *sat(a_probing(), knows_none).effects]
    assert not any(isinstance(one, Say) for one in told)


def test_at_most_25_items_and_eight_a_day_for_the_young() -> None:
    # 25 and 8: what the design of placement promises a family
    many = a_probing(MANY)
    assert len(sat(many, knows_all).answers) == 25
    assert len(sat(many._replace(age=7), knows_all).answers) in (7, 8)
    assert len(sat(many._replace(age=7, sure=SURE), knows_all).answers) == 8


@pytest.mark.parametrize(("age", "most", "of"), [(7, 8, 8), (9, 25, 20)])
def test_dots_fill_against_all_that_may_come_today_and_the_last_is_for_the_last(
    age: int, most: int, of: int
) -> None:
    """Two ten-frames at most, as in a warm-up."""
    effects = sat(a_probing(MANY, age=age, sure=SURE), knows_all).effects
    dots = [one.dots for one in effects if isinstance(one, Show)]
    assert len(dots) == most
    assert dots == [*((min(n * of // most, of - 1), of) for n in range(most - 1)), (of - 1, of)]


def test_at_most_four_minutes_and_never_more_than_the_childs_own() -> None:
    def slow(show: Show) -> Heard:
        return Typed(show.problem.expected, 900, 30_000)

    for minutes in (4, 2):
        done = sat(a_probing(most_ms=minutes * 60_000), slow)
        assert sum(answer.end_ms for answer in done.answers) <= (minutes + 0.5) * 60_000


def test_a_set_is_asked_25_items_over_all_its_days() -> None:
    probing, total = a_probing(MANY, age=6), 0
    for day in range(DAY, DAY + 10):
        done = sat(probing._replace(day=day), knows_all)
        total += len(done.answers)
        met = {*done.keys}
        probing = probing._replace(
            earlier=(*probing.earlier, *done.answers),
            open=tuple(key for key in probing.open if key not in met),
        )
    assert total == 25


def test_the_first_item_is_the_easiest_and_a_miss_is_followed_by_an_easier_one() -> None:
    probing = a_probing("times-6-7-9")
    hard = {key: item.hard for key, item in probing.items.items()}

    def misses_the_seventh(show: Show) -> Heard:
        return knows_none(show) if show.n == 7 else knows_all(show)

    done = sat(probing, misses_the_seventh)
    assert hard[done.keys[0]] == min(hard.values())
    chances = item_choice.chances(probing, done.answers[:7], [done.keys[6], done.keys[7]])
    assert chances[done.keys[7]] > chances[done.keys[6]]


@given(known=st.sets(st.sampled_from(sorted(a_probing().items))), age=st.sampled_from((6, 9)))
@settings(max_examples=40, deadline=None)
def test_it_ends_on_something_known_where_anything_was(known: set[str], age: int) -> None:
    done = sat(a_probing(age=age, sure=SURE), knows(known | {*SURE}))
    assert item_choice.is_well(done.answers[-1])
    running = [item_choice.is_well(answer) for answer in done.answers]
    assert all(any(running[n : n + 3]) for n in range(len(running) - 2))  # never three misses running
    assert len(done.answers) <= (8 if age == 6 else 25)


def test_partner_facts_do_not_meet_on_one_day() -> None:
    done = sat(a_probing("division-2-5-10"), knows_all)
    families = [skills.traits(key).family for key in {*done.keys}]
    named = [family for family in families if family]
    assert len(named) == len({*named})


# --- the same keys as in a warm-up ----------------------------------------------------------------------


def test_help_shows_the_problem_again_and_nothing_more() -> None:
    state, _ = placement.start(a_probing())
    again, said = placement.step(state, AskHelp())
    assert (again, said) == (state, (AskAgain("Here it is again.\nOr press Enter."),))


def test_pass_and_enter_are_not_yet_and_stop_ends_with_all_kept() -> None:
    state, _ = placement.start(a_probing())
    for heard in (PassOn(1200), Typed("", 0, 1200)):
        _, effects = placement.step(state, heard)
        assert isinstance(effects[0], Record)
        assert (effects[0].answer.mark, effects[0].answer.role) == ("not_yet", "probe")
        assert isinstance(effects[1], Show)
    stopped, effects = placement.step(state, Stop())
    assert stopped.ended
    assert isinstance(effects[0], End)
    assert not effects[0].summary.finished


def test_what_cannot_be_read_is_asked_again_once() -> None:
    state, _ = placement.start(a_probing())
    state, effects = placement.step(state, Typed("what?", 500, 900))
    assert isinstance(effects[0], AskAgain)
    _, effects = placement.step(state, Typed("what?", 500, 900))
    assert isinstance(effects[0], Record)
    assert (effects[0].answer.given, effects[0].answer.mark) == ("what?", "not_yet")


@given(st.integers(0, 999))
def test_a_number_typed_is_right_where_it_is_the_answer_and_nowhere_else(number: int) -> None:
    state, effects = placement.start(a_probing())
    show = effects[-1]
    assert isinstance(show, Show)
    for typed, mark in ((number, "not_yet"), (int(show.problem.expected), "right")):
        if mark == "right" or number != int(show.problem.expected):
            _, effects = placement.step(state, Typed(str(typed), 900, 2000))
            assert isinstance(effects[0], Record)
            assert (effects[0].answer.given, effects[0].answer.mark) == (str(typed), mark)


def test_who_types_what_is_not_right_is_asked_as_one_who_types_nothing() -> None:
    def not_right(show: Show) -> Heard:
        return Typed(str(int(show.problem.expected) + 3), 900, 2000)

    guessed, silent = sat(a_probing(), not_right), sat(a_probing(), knows_none)
    assert guessed.keys == silent.keys
    assert {answer.mark for answer in guessed.answers} == {"not_yet"}
    assert folded(guessed.answers[0]).met_day == 0


def test_a_card_that_closes_a_second_time_is_drawn_as_its_second_showing() -> None:
    """The one that was known is asked again at the end, and its row says which showing it is."""
    for known in sorted(a_probing().items):
        done = sat(a_probing(sure=()), knows({known}))
        for n, row in enumerate(done.answers):
            assert row.showing == done.keys[:n].count(row.card)


def test_the_summary_tells_minutes_tries_and_whether_it_was_finished() -> None:
    done = sat(a_probing(MANY, age=7, sure=SURE), knows_all)
    last = done.effects[-1]
    assert isinstance(last, End)
    assert last == End((sayings.DONE,), Summary(16.0, 8, 8, 0, finished=True))


@given(known=st.sets(st.sampled_from(sorted(a_probing().items))), cut=st.integers(0, 24))
@settings(max_examples=40, deadline=None)
def test_stopped_and_gone_on_equals_never_stopped(known: set[str], cut: int) -> None:
    probing = a_probing(sure=SURE)
    whole = sat(probing, knows(known))
    assert sat(probing, knows(known), so_far=whole.answers[:cut]).answers == whole.answers


def test_no_sentence_to_a_child_has_more_than_eight_words() -> None:
    for text in (placement.LATER, placement.AGAIN, sayings.DONE, sayings.GO_ON):
        assert len(text.split()) < 8
        assert len(text) <= 40


# --- what it does to memory -----------------------------------------------------------------------------


def folded(answer: Answer) -> CardMemory:
    body = answer_body(answer)
    return memory.fold([Event(1, 1, "c", "answer", DAY, 0, 0, 0, answer.card, body)])[answer.card]


def test_known_at_once_starts_far_out_worked_out_nearer_and_a_miss_stays_unmet() -> None:
    def first(ms: int, text: str | None = None) -> CardMemory:
        done = sat(
            a_probing(), lambda show: Typed(show.problem.expected if text is None else text, 500, ms), most=1
        )
        return folded(done.answers[0])

    far, near, unmet = first(2000), first(12_000), first(2000, "")
    assert (far.stability or 0) >= 7  # the design's days for right and quick at first sight
    assert 0 < (near.stability or 0) < 7
    assert (unmet.stability, unmet.met_day) == (None, 0)


# --- the estimate ---------------------------------------------------------------------------------------


def test_it_is_judged_by_the_childs_own_copying_time_where_that_is_known() -> None:
    """Seven seconds are slow by the age, and not for a child who copies a digit in five."""
    own = (5000, 5500, 6000)
    for copy_ms, placed_at_once in (((), False), (own, True)):
        (row, *_) = sat(
            a_probing(copy_ms=copy_ms), lambda show: Typed(show.problem.expected, 900, 7000)
        ).answers
        assert row.copy_ms == marking.copying_ms(9, len(row.expected), copy_ms)
        assert marking.quick(row) == placed_at_once


def test_the_estimate_follows_the_logistic_model() -> None:
    """With one ability and one difficulty the odds are e to their difference (Rasch 1960)."""
    assert ability.known(0.0) == 0.5
    assert abs(ability.known(1.0) / (1 - ability.known(1.0)) - exp(1.0)) < 1e-12
