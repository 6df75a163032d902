import json
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import asked, curve, memory
from review.core.answer_bodies import answer_body, event_answer
from review.core.model import MARKS, Answer, CardMemory, Event, Mark, Role, Traits, TraitsOf
from tests.core.stock import DAY, event, plain, row, told
from tests.core.test_strength import walk


def fold(*events: Event) -> CardMemory:
    return memory.fold(events, plain)["sum:1+1"]


# --- answers in the log ---

answers = st.builds(
    Answer,
    st.just("sum:1+1"),
    *([st.text(max_size=4)] * 3),
    st.sampled_from(MARKS),
    st.sampled_from(["ask", "intro", "copy", "probe"]),
    *([st.integers(0, 99_999)] * 2),
    st.sampled_from(["", "written", "question", "picture", "steps"]),
    st.sampled_from(["typed", "aloud", "paper"]),
    st.sampled_from(["familiarity", "accuracy", "fluency"]),
    *([st.integers(0, 9999)] * 3),
    st.sampled_from(["", "yes", "no"]),
    *([st.integers(0, 3)] * 2),
    st.integers(0, 1),
)


@given(answers)
def test_an_answer_survives_the_log(answer: Answer) -> None:
    body = json.loads(json.dumps(answer_body(answer)))
    assert all(type(value) in (str, int) for value in body.values())
    assert event_answer(row(1, DAY, {**body, "added later": 1})) == answer


def test_defaults_of_the_log_never_change() -> None:
    bare = Answer("sum:1+1", "1+1", "2", "3", "not_yet")
    kept = {"asked": "1+1", "expected": "2", "given": "3", "mark": "not_yet"}
    assert answer_body(bare) == kept
    assert event_answer(row(1, DAY, dict(kept))) == Answer(
        "sum:1+1", "1+1", "2", "3", "not_yet", "ask", 0, 0, "", "typed", "accuracy", 0, 0, 0, "", 0, 1, 0
    )


def test_what_was_expected_is_written_only_where_something_else_was_given() -> None:
    """Rows of the first two versions of the schema had it always, and say the same."""
    right = Answer("sum:1+1", "1+1", "2", "2", "right")
    lean = {"asked": "1+1", "given": "2", "mark": "right"}
    assert answer_body(right) == lean
    assert event_answer(row(1, DAY, dict(lean))) == right
    assert event_answer(row(1, DAY, {**lean, "expected": "2"})) == right
    other = right._replace(given="02")
    assert answer_body(other) == {**lean, "given": "02", "expected": "2"}
    assert event_answer(row(1, DAY, dict(answer_body(other)))) == other


# --- first tries and second looks ---


def test_the_first_try_measures_and_one_right_second_look_counts() -> None:
    missed = fold(told(1, DAY, "not_yet"))
    looked = fold(told(1, DAY, "not_yet"), told(2, DAY))
    again = fold(told(1, DAY, "not_yet"), told(2, DAY), told(3, DAY))
    assert (missed.stability, missed.difficulty) == walk("1@0")
    assert (looked.stability, looked.difficulty) == walk("1@0 3@0")
    assert (again.stability, again.looked, again.tries) == (looked.stability, True, 1)


def test_each_day_has_its_own_second_look() -> None:
    days = [told(1, DAY, "not_yet"), told(2, DAY), told(3, DAY + 2, "not_yet"), told(4, DAY + 2)]
    found = fold(*days)
    assert (found.stability, found.difficulty) == walk("1@0 3@0 1@2 3@0")
    assert fold(*days[:3]).looked is False


def test_later_misses_of_the_day_move_nothing() -> None:
    once = fold(told(1, DAY), told(2, DAY + 9, "not_yet"))
    more = fold(told(1, DAY), told(2, DAY + 9, "not_yet"), told(3, DAY + 9, "not_yet"))
    assert (more.stability, more.difficulty) == (once.stability, once.difficulty)
    assert (more.seen_day_misses, more.tries, more.miss_days) == (2, 2, 1)


def test_void_answers_and_copies_are_no_memory() -> None:
    alone = fold(told(5, DAY))
    around = fold(told(2, DAY, "not_yet", "copy"), told(5, DAY), told(6, DAY, role="copy"))
    assert around.stability == alone.stability
    assert (around.tries, around.right_days, around.seen_day_shows) == (1, 1, 1)
    assert around.last_mark == "right"
    assert fold(told(1, DAY, "right", "copy")).met_day == 0


def test_after_a_void_answer_nothing_more_of_the_day_is_memory() -> None:
    """It was told or shown meanwhile: typing it then is no recall. What was missed would gain most by it."""
    for before in ((), (told(1, DAY - 9),), (told(1, DAY - 9, "not_yet"),)):
        void = [told(5, DAY, "void"), told(6, DAY, "right", "copy"), told(7, DAY)]
        assert fold(*before, *void).stability == (fold(*before).stability if before else None)
        assert fold(*before, *void, told(8, DAY + 1)).stability is not None


def test_help_on_a_problem_left_open_is_no_answer() -> None:
    asked = told(5, DAY, "void", help="question")
    left = asked._replace(body={**asked.body, "given": ""})
    before = fold(told(1, DAY - 9))
    assert fold(told(1, DAY - 9), left)._replace(at=before.at) == before
    assert fold(left, told(6, DAY)).stability == fold(told(6, DAY)).stability


def test_a_new_fact_not_known_is_unrated_until_the_next_day() -> None:
    first = [told(1, DAY, "not_yet", "intro"), told(2, DAY), told(3, DAY, "not_yet")]
    met = fold(*first)
    assert (met.stability, met.intro_day, met.met_day, met.tries, met.miss_days) == (None, DAY, DAY, 0, 0)
    for mark, history in (("right", "3@0"), ("not_yet", "1@0")):
        after = fold(*first, told(4, DAY + 1, mark))  # type: ignore[arg-type]
        assert (after.stability, after.difficulty) == walk(history)
        assert (after.tries, after.placed, after.last_day) == (1, 0, DAY + 1)


def test_a_probe_that_misses_leaves_the_card_unmet() -> None:
    missed = fold(told(1, DAY, "not_yet", "probe"))
    assert (missed.stability, missed.met_day, missed.intro_day, missed.tries) == (None, 0, 0, 0)
    assert fold(told(1, DAY, "right", "probe")).stability == 7


def test_a_procedure_met_with_a_guiding_question_is_rated() -> None:
    guided = fold(told(1, DAY, "right", "intro", help="question"))
    assert (guided.stability, guided.placed, guided.intro_day) == (walk("3@0").stability, 0, 0)
    pictured = fold(told(1, DAY, "right_helped", "intro", help="picture"))
    assert (pictured.stability, pictured.intro_day) == (None, DAY)


# --- first sight ---


def test_right_at_first_sight_starts_at_seven_days_then_twenty_eight() -> None:
    first, soon, due = told(1, DAY, "right", "intro"), told(2, DAY + 2), told(2, DAY + 7)
    assert (fold(first).stability, fold(first).placed) == (7, 1)
    assert (fold(first, soon).stability, fold(first, soon).placed) == (28, 2)
    assert (fold(first, due).stability or 0) > 28
    missed = fold(first, told(2, DAY + 7, "not_yet"), told(3, DAY + 8))
    assert missed.placed == 0
    assert (missed.stability or 0) < 7


def test_first_sight_must_be_quick_for_fluency_and_no_guess() -> None:
    slow = told(1, DAY, "right", "intro", aim="fluency", end_ms=9000)
    assert fold(slow).stability == walk("3@0").stability
    guessed = memory.fold([told(1, DAY, "right", "intro")], lambda key: Traits(key, False, 5, choices=2))
    assert guessed["sum:1+1"].stability == walk("3@0").stability

    def unheard(key: str) -> Traits:
        raise KeyError(key)

    assert memory.fold([told(1, DAY, "right", "intro")], unheard)["sum:1+1"].stability == 7


def test_facts_tell_whether_they_are_worked_out() -> None:
    """A first sight tells it once, and so does a first try of a day soon after."""

    def told_by(*events: Event, traits: TraitsOf = plain) -> tuple[tuple[float, float], ...]:
        ways = memory.remembered(events, traits).habits
        return ways.at_sight, ways.soon

    def of(seq: int, day: int, mark: Mark, role: Role = "ask") -> Event:
        return told(seq, day, mark, role, aim="fluency", key="sum:3+4", asked="3+4")

    missed = of(1, DAY, "not_yet", "intro")
    assert told_by(missed) == told_by(of(1, DAY, "not_yet", "probe")) == ((0, 1), (0, 0))
    assert told_by(missed, of(2, DAY, "right")) == ((0, 1), (0, 0))
    later = of(3, DAY + 1, "not_yet"), of(4, DAY + 1, "right"), of(5, DAY + 2, "right")
    assert told_by(missed, *later) == ((0, 1), (1, 1))
    days = [of(n, DAY + 9 * n, "right") for n in range(3, 8)]
    assert told_by(missed, *days) == ((0, 1), (2, 0))  # recalled on two days, it tells of memory
    said = event(0, DAY - 1, "known", {})._replace(card="sum:3+4")
    assert told_by(said, missed) == ((0, 0), (0, 0))
    beside = missed._replace(body={**missed.body, "sitting": "more"})
    assert told_by(beside) == ((0, 0), (0, 0))
    assert told_by(missed, traits=lambda key: Traits(key, False, 5.0)) == ((0, 0), (0, 0))  # no fact


# --- hold, halve, fall ---


def timed(n: int, day: int, end_ms: int, said: Literal["", "yes", "no"] = "") -> Event:
    return told(
        n, day, "right", aim="fluency", slow_ms=3000, copy_ms=1000, end_ms=end_ms, recalled=said, asked="9+9"
    )  # fmt: skip


def test_a_timed_answer_lies_between_one_from_memory_and_none() -> None:
    grown = [told(1, DAY, "not_yet", "intro"), told(2, DAY + 1), told(3, DAY + 3), told(4, DAY + 13)]
    missed = fold(*grown, told(5, DAY + 30, "not_yet"))
    known = fold(*grown, told(5, DAY + 30))
    found = [fold(*grown, timed(5, DAY + 30, ms)).stability or 0 for ms in (1500, 3000, 5000, 9000)]
    assert found == sorted(found, reverse=True)
    assert (missed.stability or 0) < found[-1] < found[0] < (known.stability or 0)
    assert found[0] > 2 * found[2]


def test_the_childs_own_word_comes_before_the_time() -> None:
    grown = [told(1, DAY, "not_yet", "intro"), told(2, DAY + 1), told(3, DAY + 3), told(4, DAY + 13)]
    words: tuple[Literal["", "yes", "no"], ...] = ("yes", "no", "")
    said = {word: fold(*grown, timed(5, DAY + 30, 4000, word)).stability for word in words}
    assert said["yes"] == fold(*grown, told(5, DAY + 30)).stability
    assert said["no"] == fold(*grown, told(5, DAY + 30, "not_yet")).stability
    assert (said["no"] or 0) < (said[""] or 0) < (said["yes"] or 0)


def test_help_on_an_accuracy_card_halves() -> None:
    base = fold(told(1, DAY), told(2, DAY + 3))
    helped = fold(told(1, DAY), told(2, DAY + 3), told(3, DAY + 9, "right_helped", help="picture"))
    assert helped.stability == pytest.approx(min(base.stability or 0, curve.CAP) / 2)
    assert (helped.right, helped.tries, helped.miss_days) == (2, 3, 0)


def test_nothing_to_hold_begins_as_after_a_right_answer() -> None:
    assert fold(told(1, DAY, "right", help="question")).stability == walk("3@0").stability


def test_familiarity_counts_meetings_and_nothing_else() -> None:
    met = fold(*(told(n, DAY + n, mark, aim="familiarity") for n, mark in enumerate(MARKS)))
    assert (met.stability, met.tries, met.last_day, met.aside_day) == (None, 5, DAY + 4, 0)


# --- caps, tallies, means ---


def test_rights_at_the_longest_gap_earn_a_longer_one() -> None:
    days = [DAY, DAY + 7, DAY + 28, DAY + 49, DAY + 70]
    rights = [told(n, day) for n, day in enumerate(days)]
    assert [fold(*rights[:n]).capped for n in range(1, 6)] == [0, 0, 1, 2, 3]
    assert fold(*rights, told(9, DAY + 100)).capped == 3  # 30 days are no longer the longest gap
    assert fold(*rights, told(9, DAY + 130)).capped == 4
    assert fold(*rights, told(9, DAY + 130, "not_yet")).capped == 0


def test_a_card_is_known_since_it_was_first_right_unaided_whatever_came_later() -> None:
    rows = [
        told(1, DAY, "right_helped", help="picture"), told(2, DAY + 1, "not_yet"), told(3, DAY + 2),
        told(4, DAY + 9), told(5, DAY + 19, "not_yet"),
    ]  # fmt: skip
    assert [fold(*rows[:n]).known_day for n in range(1, 6)] == [0, 0, DAY + 2, DAY + 2, DAY + 2]


def test_a_card_is_held_since_it_was_first_trusted_for_two_weeks_whatever_came_later() -> None:
    """On the third day right: after two its 28 days are not yet believed. Reports tell it as reached once."""
    rows = [*(told(n, DAY + day) for n, day in enumerate((0, 7, 28, 49))), told(9, DAY + 70, "not_yet")]
    assert [fold(*rows[:n]).held_day for n in range(1, 6)] == [0, 0, DAY + 28, DAY + 28, DAY + 28]


def test_orders_of_a_fact_are_tallied() -> None:
    asked = [("6x7", "right"), ("7x6", "not_yet"), ("7x6", "right"), ("6x7", "right"), ("7x6", "not_yet")]
    events = [
        row(n, DAY + n, {"asked": ask, "mark": mark, "age": 9}, "product:6x7")
        for n, (ask, mark) in enumerate(asked)
    ]
    folded = memory.fold(events, plain)["product:6x7"]
    assert folded.orders == (("6x7", 2, 0), ("7x6", 3, 2))
    assert memory.fold(events[1:], plain)["product:6x7"].orders == (("6x7", 1, 0), ("7x6", 3, 2))
    rule = [row(n, DAY + n, {"asked": f"{n}x0", "mark": "right"}, "product:nx0") for n in range(9)]
    assert memory.fold(rule, plain)["product:nx0"].orders == ()


@settings(deadline=None)  # the first to run imports the library
@given(st.lists(st.integers(1, 200_000), min_size=1, max_size=20))
def test_means_of_seconds_stay_within_what_was_seen(times: list[int]) -> None:
    folded = fold(*(told(n, DAY + n, end_ms=ms) for n, ms in enumerate(times)))
    seen = [min(ms, 60_000) for ms in times]
    assert min(seen) - 1 <= folded.passed_ms <= max(seen)
    assert (folded.passed_n, folded.other_n) == (min(len(times), 8), 0)


def test_means_are_apart_for_right_and_other() -> None:
    folded = fold(
        told(1, DAY, end_ms=2000), told(2, DAY + 2, end_ms=4000), told(3, DAY + 4, "not_yet", end_ms=9000)
    )
    assert (folded.passed_ms, folded.passed_n, folded.other_ms, folded.other_n) == (3000, 2, 9000, 1)


# --- set aside ---


@pytest.mark.parametrize(("age", "misses"), [(6, 2), (7, 2), (8, 3), (11, 3)])
def test_misses_of_a_day_set_the_card_aside(age: int, misses: int) -> None:
    rows = [told(n, DAY, "not_yet", age=age) for n in range(misses)]
    assert fold(*rows[:-1]).aside_day == 0
    aside = fold(*rows)
    assert (aside.aside_day, aside.miss_days) == (DAY, 0)
    spread = [told(n, DAY + n, "not_yet", age=age) for n in range(2)]
    assert (fold(*spread).aside_day, fold(*spread).miss_days) == (0, 2)


def test_three_first_tries_missed_running_set_the_card_aside() -> None:
    missed = [told(n, DAY + 3 * n, "not_yet") for n in range(3)]
    assert fold(*missed[:2], told(9, DAY + 5), *missed[2:]).aside_day == 0
    assert fold(*missed).aside_day == DAY + 6
    assert fold(*missed).miss_run == 0


def test_a_card_set_aside_begins_again_as_new() -> None:
    away = [told(n, DAY, "not_yet", age=7) for n in (1, 2)]
    back = fold(*away, told(3, DAY + 5, "not_yet", "intro", age=7))
    assert (back.stability, back.aside_day, back.intro_day, back.tries) == (None, 0, DAY + 5, 1)
    soon = fold(*away, told(3, DAY + 4, "not_yet", age=7))
    assert soon.aside_day == DAY
    assert fold(*away, told(3, DAY + 4, age=7)).aside_day == 0


def test_of_a_card_that_begins_again_only_the_tallies_stay() -> None:
    before = CardMemory(
        "sum:1+1", 9.0, 5.0, last_day=DAY - 9, intro_day=DAY - 9, met_day=DAY - 60, aside_day=DAY - 5,
        placed=2, gap=12, capped=4, known=True, tries=7, right=5, held_day=DAY - 30, miss_days=1,
    )  # fmt: skip
    again = CardMemory(
        "sum:1+1", met_day=DAY - 60, tries=7, right=5, held_day=DAY - 30, miss_days=1,
    )  # fmt: skip
    assert memory.returned(before, DAY) == again
    assert memory.returned(before, DAY - 1) == before


# --- what a parent says ---


def test_known_starts_far_out_and_never_weakens() -> None:
    said = event(2, DAY + 1, "known", {"cards": ["sum:1+1", "sum:2+2"]})
    both = memory.fold([said], plain)
    assert set(both) == {"sum:1+1", "sum:2+2"}
    assert all((m.stability, m.known, m.met_day) == (7, True, DAY + 1) for m in both.values())
    strong = [told(1, DAY - 30), told(2, DAY - 20), told(3, DAY)]
    assert fold(*strong, said).stability == fold(*strong).stability
    missed = fold(said, told(4, DAY + 1, "not_yet"))  # the same day: a first try all the same
    assert (missed.known, missed.tries) == (False, 1)
    assert (missed.stability or 9) < 7


def test_known_ends_being_set_aside() -> None:
    aside = [told(n, DAY, "not_yet", age=7) for n in (1, 2)]
    assert fold(*aside).aside_day == DAY
    assert fold(*aside, event(3, DAY + 1, "known", {"cards": ["sum:1+1"]})).aside_day == 0


def test_undo_by_id_applies_wherever_it_sorts() -> None:
    kept, gone = told(1, DAY), told(2, DAY + 3, "not_yet")
    for undo in (
        event(9, DAY + 9, "undo", {"device": 1, "seq": 2}),
        event(9, DAY - 9, "undo", {"device": 1, "seq": 2}),
        event(9, DAY + 9, "undo", {"rows": [[1, 2]]}),
        event(3, DAY + 3, "undo", {"day": DAY + 3, "device": 1}),
    ):
        assert fold(kept, gone, undo) == fold(kept)


def test_a_sitting_is_undone_as_far_as_it_had_come() -> None:
    rows = [told(1, DAY), told(2, DAY, "not_yet", device=2), told(4, DAY + 1)]
    later = told(5, DAY, "not_yet")
    undo = event(3, DAY, "undo", {"day": DAY, "device": 1})
    assert fold(*rows, later, undo) == fold(rows[1], rows[2], later)


def test_an_undo_can_be_taken_back() -> None:
    rows = [told(1, DAY), told(2, DAY + 3, "not_yet")]
    undo = event(3, DAY + 3, "undo", {"device": 1, "seq": 2})
    back = event(4, DAY + 4, "undo", {"device": 1, "seq": 3})
    assert fold(*rows, undo, back) == fold(*rows)


def test_a_typing_slip_is_put_right() -> None:
    missed = told(2, DAY + 3, "not_yet", end_ms=9000)
    put_right = event(3, DAY + 5, "correct", {"device": 1, "seq": 2})
    corrected, meant = fold(told(1, DAY), missed, put_right), fold(told(1, DAY), told(2, DAY + 3, end_ms=0))
    assert corrected == meant
    unsaid = event(4, DAY + 5, "undo", {"device": 1, "seq": 3})
    assert fold(told(1, DAY), missed, put_right, unsaid) == fold(told(1, DAY), missed)


def test_a_procedure_remembers_what_it_asked_and_a_fact_does_not() -> None:
    key = "mental-sum:2+2/none"
    rows = [row(n, DAY + n, {"asked": was, "mark": "right"}, key) for n, was in enumerate(("12+13", "24+31"))]
    found = memory.fold(rows)[key]
    assert asked.lately(found, DAY + 1) == ("12+13",)
    assert asked.lately(found, DAY + 2) == ("12+13", "24+31")
    fact = memory.fold([row(1, DAY, {"asked": "2+3", "mark": "right"}, "sum:2+3")])
    assert fact["sum:2+3"].recent == ()


def test_of_what_a_procedure_asked_the_last_ten_are_remembered() -> None:
    """Five that are not asked again, and as many of today (our judgement)."""
    rows = [
        row(n, DAY + n, {"asked": f"12+{n}", "mark": "right"}, "mental-sum:2+2/none") for n in range(10, 25)
    ]
    (found,) = memory.fold(rows).values()
    assert found.recent == tuple(f"{DAY + n} 12+{n}" for n in range(15, 25))
