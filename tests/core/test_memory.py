import csv
import json
from itertools import pairwise
from typing import Any, Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import curve, memory
from review.core.amendments import place
from review.core.model import MARKS, Answer, CardMemory, Event, Habits, Traits
from review.core.strength import Strength, moved, rounded
from tests.conftest import DATA
from tests.core.stock import DAY, event, plain, row, told

VECTORS = [
    line
    for line in csv.DictReader((DATA / "fsrs_vectors.csv").read_text().splitlines())
    if not {one[0] for one in line["history_rating@days"].split()} - {"1", "3"}  # we give no others
]
PUBLISHED = {line[1]: line[2] for line in csv.reader((DATA / "fsrs_published.csv").read_text().splitlines())}


def walk(history: str, parameters: tuple[float, ...] = curve.PARAMETERS) -> Strength:
    """A history like `3@0 1@2`: rating @ days since the one before; 1 not retrieved, 3 retrieved."""
    strength: Strength | None = None
    for one in history.split():
        rating, days = map(int, one.split("@"))
        strength = rounded(*moved(strength, days, rating == 3, parameters))
    assert strength is not None
    return strength


def fold(*events: Event) -> CardMemory:
    return memory.fold(events, plain)["sum:1+1"]


# --- the model's step ---


# States of three independent libraries: fsrs 6.3.2, fsrs-rs-python 0.9.3 (32-bit), ts-fsrs 5.4.2 (8 places).
# Ours are rounded to 6 decimals after each step, which small stabilities feel most.
@pytest.mark.parametrize("line", VECTORS, ids=lambda line: line["history_rating@days"])
def test_states_against_three_libraries(line: dict[str, str]) -> None:
    ours = walk(line["history_rating@days"])
    for name in ("py_fsrs_6.3.2", "fsrs_rs_python_0.9.3", "ts_fsrs_5.4.2"):
        assert ours.stability == pytest.approx(float(line[f"stability_{name}"]), rel=1e-5, abs=2e-6)
        assert ours.difficulty == pytest.approx(float(line[f"difficulty_{name}"]), rel=2e-6, abs=2e-6)


# Published in the tests of fsrs-rs (src/inference.rs, src/model.rs), py-fsrs and ts-fsrs.
def test_states_against_published_ones() -> None:
    history = "1@0 3@0 3@1 3@3 3@8 3@21"
    told = PUBLISHED["ratings 1,3,3,3,3,3 after 0,0,1,3,8,21 days: S D"].split()
    assert walk(history) == pytest.approx(tuple(map(float, told)), rel=1e-5)
    told = PUBLISHED["same, w17=w18=w19=0: S D"].split()
    no_same_day = (*curve.PARAMETERS[:17], 0.0, 0.0, 0.0, curve.PARAMETERS[20])
    assert walk(history, no_same_day) == pytest.approx(tuple(map(float, told)), rel=1e-5)


def test_single_steps_against_published_ones() -> None:
    told = PUBLISHED["same-day branch S=5, ratings 1..4"].split()
    steps = [moved(Strength(5.0, 5.0), 0, retrieved).stability for retrieved in (False, True)]
    assert steps == pytest.approx([float(told[0]), float(told[2])], rel=2e-6)
    told = PUBLISHED["D=5, ratings 1..4, after mean reversion"].split()
    steps = [moved(Strength(5.0, 5.0), 1, retrieved).difficulty for retrieved in (False, True)]
    assert steps == pytest.approx([float(told[0]), float(told[2])], rel=2e-6)


# Published in py-fsrs tests/test_basic.py and ts-fsrs: the days it leaves when every review comes when due.
def test_intervals_against_published_ones() -> None:
    told = [*map(int, PUBLISHED["due when due, ratings 3x6 then 1,1 then 3x5, default steps: days"].split())]
    strength: Strength | None = None
    days, gaps = 0, list[int]()
    for rating, steps in zip((3, 3, 3, 3, 3, 3, 1, 1, 3, 3, 3, 3, 3), told, strict=True):
        strength = rounded(*moved(strength, days, rating == 3))
        days = round(curve.interval(strength.stability, 0.9)) if steps else 0  # 0: a step of minutes
        gaps.append(days)
    assert gaps == told


def test_recall_is_the_librarys_own() -> None:
    from datetime import UTC, datetime, timedelta

    from fsrs import Card, Scheduler, State

    noon = datetime(2026, 1, 1, 12, tzinfo=UTC)
    its = Card(1, State.Review, None, 7.5, 5.0, noon, noon)
    for days in (0, 1, 30, 400):
        ours = memory.recall(CardMemory("k", 7.5, 5.0, last_day=DAY), DAY + days)
        theirs = Scheduler().get_card_retrievability(its, noon + timedelta(days=days))
        assert ours == pytest.approx(theirs, rel=1e-12)
    assert memory.recall(CardMemory("k"), DAY) is None


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
    body = json.loads(json.dumps(memory.answer_body(answer)))
    assert all(type(value) in (str, int) for value in body.values())
    assert memory.event_answer(row(1, DAY, {**body, "added later": 1})) == answer


def test_defaults_of_the_log_never_change() -> None:
    bare = Answer("sum:1+1", "1+1", "2", "3", "not_yet")
    kept = {"asked": "1+1", "expected": "2", "given": "3", "mark": "not_yet"}
    assert memory.answer_body(bare) == kept
    assert memory.event_answer(row(1, DAY, dict(kept))) == Answer(
        "sum:1+1", "1+1", "2", "3", "not_yet", "ask", 0, 0, "", "typed", "accuracy", 0, 0, 0, "", 0, 1, 0
    )


# --- first tries and second looks ---


def test_the_first_try_measures_and_one_right_second_look_counts() -> None:
    missed = fold(told(1, DAY, "not_yet"))
    looked = fold(told(1, DAY, "not_yet"), told(2, DAY))
    again = fold(told(1, DAY, "not_yet"), told(2, DAY), told(3, DAY))
    assert (missed.stability, missed.difficulty) == walk("1@0")
    assert (looked.stability, looked.difficulty) == walk("1@0 3@0")
    assert (again.stability, again.looked, again.tries) == (looked.stability, True, 1)


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
    """It was told or shown meanwhile: typing it then is no recall."""
    for before in ((), (told(1, DAY - 9),)):
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


# --- hold, halve, fall ---


def timed(n: int, day: int, end_ms: int, said: Literal["", "yes", "no"] = "") -> Event:
    return told(n, day, "right", aim="fluency", slow_ms=3000, copy_ms=1000, end_ms=end_ms, recalled=said)


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


def test_orders_of_a_fact_are_tallied() -> None:
    asked = [("6x7", "right"), ("7x6", "not_yet"), ("7x6", "right"), ("6x7", "right"), ("7x6", "not_yet")]
    events = [
        row(n, DAY + n, {"asked": ask, "mark": mark, "age": 9}, "product:6x7")
        for n, (ask, mark) in enumerate(asked)
    ]
    folded = memory.fold(events, plain)["product:6x7"]
    assert folded.orders == (("6x7", 2, 0), ("7x6", 3, 2))
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


# --- properties of the fold ---


@st.composite
def logs(draw: st.DrawFn) -> list[Event]:
    """Some weeks of a child's answers on two devices, of two cards."""
    events, seqs = [], {1: 0, 2: 0}
    day = DAY
    for _ in range(draw(st.integers(0, 14))):
        day += draw(st.sampled_from([0, 0, 1, 2, 6, 25]))
        device = draw(st.sampled_from([1, 2]))
        seqs[device] += 1
        events.append(
            told(
                seqs[device],
                day,
                draw(st.sampled_from(MARKS)),
                draw(st.sampled_from(["ask", "ask", "intro", "copy", "probe"])),
                aim=draw(st.sampled_from(["accuracy", "fluency", "familiarity"])),
                help=draw(st.sampled_from(["", "question", "picture"])),
                slow_ms=draw(st.sampled_from([0, 3000])),
                age=draw(st.sampled_from([6, 9])),
                key=draw(st.sampled_from(["sum:1+1", "sum:2+2"])),
                device=device,
            )
        )
    return events


@settings(deadline=None)
@given(logs(), st.randoms(use_true_random=False))
def test_the_fold_is_repeated_steps_in_any_order(events: list[Event], random: object) -> None:
    stepped, ways = dict[str, CardMemory](), Habits()
    for one in sorted(events, key=place):
        ways, stepped[one.card] = memory.follow(ways, stepped.get(one.card), one, plain)
    shuffled = list(events)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assert memory.remembered(shuffled, plain) == memory.remembered(events, plain) == (stepped, ways)


@settings(deadline=None)
@given(logs(), st.data())
def test_undone_rows_are_as_if_never_given(events: list[Event], data: st.DataObject) -> None:
    gone = (
        data.draw(st.lists(st.sampled_from(events), unique_by=lambda e: (e.device, e.seq))) if events else []
    )
    undos = [event(900 + n, DAY + 99, "undo", {"device": e.device, "seq": e.seq}) for n, e in enumerate(gone)]
    assert memory.fold([*undos, *events], plain) == memory.fold([e for e in events if e not in gone], plain)


@settings(deadline=None)
@given(logs())
def test_what_always_holds_of_memory(events: list[Event]) -> None:
    ordered = sorted(events, key=place)
    seen = [memory.fold(ordered[:n], plain).get("sum:1+1") for n in range(len(events) + 1)]
    for known in filter(None, seen):
        assert (known.stability is None) == (known.difficulty is None)
        assert known.stability is None or known.stability >= 0.001
        assert known.stability == (known.stability and round(known.stability, 6))
        assert known.difficulty is None or 1 <= known.difficulty <= 10
        assert known.right_days <= known.tries
        assert known.right <= known.tries
    assert all(a is None or (b is not None and b.tries >= a.tries) for a, b in pairwise(seen))


def test_a_procedure_remembers_what_it_asked_and_a_fact_does_not() -> None:
    key = "mental-sum:2+2/none"
    rows = [
        row(n, DAY + n, {"asked": asked, "mark": "right"}, key) for n, asked in enumerate(("12+13", "24+31"))
    ]
    found = memory.fold(rows)[key]
    assert memory.lately(found, DAY + 1) == ("12+13",)
    assert memory.lately(found, DAY + 2) == ("12+13", "24+31")
    fact = memory.fold([row(1, DAY, {"asked": "2+3", "mark": "right"}, "sum:2+3")])
    assert fact["sum:2+3"].recent == ()


def test_of_what_a_procedure_asked_the_last_ten_are_remembered() -> None:
    """Five that are not asked again, and as many of today (our judgement)."""
    rows = [
        row(n, DAY + n, {"asked": f"12+{n}", "mark": "right"}, "mental-sum:2+2/none") for n in range(10, 25)
    ]
    (found,) = memory.fold(rows).values()
    assert found.recent == tuple(f"{DAY + n} 12+{n}" for n in range(15, 25))


# --- from a place in the log on ---

ROWS = st.lists(
    st.tuples(
        st.integers(0, 6),  # days after the first
        st.sampled_from(["sum:1+1", "sum:2+2", "product:6x7"]),
        st.sampled_from(MARKS),
        st.sampled_from([800, 2500, 5000, 9000]),
        st.sampled_from(["ask", "ask", "intro", "copy"]),
    ),
    min_size=1,
    max_size=25,
)


@given(ROWS, st.lists(st.tuples(st.sampled_from(["undo", "correct"]), st.integers(0, 24)), max_size=4))
@settings(max_examples=150, deadline=None)
def test_from_a_morning_on_it_is_the_same_as_from_the_beginning(
    rows: list[tuple[int, str, Any, int, Any]], amends: list[tuple[str, int]]
) -> None:
    """Bit for bit, whatever of the last day was taken back or put right."""
    answers = [
        told(n, DAY + day, mark, role, aim="fluency", slow_ms=3000, end_ms=ms, key=key)
        for n, (day, key, mark, ms, role) in enumerate(sorted(rows))
    ]
    last = answers[-1].day
    todays = [one for one in answers if one.day == last]
    said = [
        event(100 + n, last, kind, {"device": 1, "seq": todays[place % len(todays)].seq})
        for n, (kind, place) in enumerate(amends)
    ]
    morning = memory.remembered([one for one in answers if one.day < last])
    whole = memory.remembered([*answers, *said])
    assert memory.remembered_on(morning, [*answers, *said]) == whole
    assert memory.remembered_on(morning, [*todays, *said]) == whole


def test_the_one_total_order() -> None:
    """Day, then instant, then device, then sequence: each outweighs all that follow it."""
    rows = [
        row(seq, day, {}, device=device)._replace(at_ms=at)
        for day in (1, 2) for at in (1, 2) for device in (1, 2) for seq in (1, 2)
    ]  # fmt: skip
    assert sorted(sorted(rows, key=lambda one: one[::-1]), key=place) == rows
