from collections.abc import Sequence
from functools import cache
from math import log
from random import Random
from typing import NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import calibration, curve, memory, moves, own_parameters, parameter_search, strength, trace
from review.core.calibration import Promise
from review.core.histories import histories, step_of
from review.core.model import MARKS, Event
from review.core.parameter_search import Fitted, Numbers, judge, scaled
from review.core.strength import Parameters, Strength
from review.core.trace import History, Step
from tests.core.scores import log_loss
from tests.core.stock import DAY, event, plain, told

CARD = "sum:1+1"

# --- a simulated child, whose memory has known parameters ---


class Seen(NamedTuple):
    steps: list[Step]
    true: Strength | None = None  # by the child's own parameters
    believed: Strength | None = None  # by the published defaults, which plan


def child(seed: int, w: Parameters, days: int, cards: int) -> list[History]:
    """Histories of a child who sees up to ten cards a day as the published defaults would plan it."""
    random, known = Random(seed), dict[int, Seen]()
    for day in range(DAY, DAY + days):
        due = [card for card, seen in known.items() if day >= planned(seen)][:10]
        fresh = range(len(known), min(cards, len(known) + 10 - len(due)))
        for card in [*due, *fresh]:
            known[card] = shown(known.get(card, Seen([])), day, w, random)
    return [tuple(seen.steps) for seen in known.values()]


def shown(seen: Seen, day: int, w: Parameters, random: Random) -> Seen:
    """One try, and after a miss a look at it."""
    gap = day - seen.steps[-1].day if seen.steps else 0
    right = random.random() < (curve.recall(seen.true.stability, gap, w[20]) if seen.true else 0.6)
    for step in [Step(day, gap, "try", float(right)), *([] if right else [Step(day, 0, "look")])]:
        true, believed = trace.after(w, seen.true, step), trace.after(curve.PARAMETERS, seen.believed, step)
        seen = Seen([*seen.steps, step], true, believed)
    return seen


def planned(seen: Seen) -> int:
    assert seen.believed is not None
    gap = round(curve.interval(seen.believed.stability, 0.9, curve.DECAY))
    return seen.steps[-1].day + min(max(1, gap), 21)


def end(w: Parameters, history: History) -> float:
    state = None
    for step in history:
        state = trace.after(w, state, step)
    return state.stability if state else 0.0


WEAK: Numbers = (-1.2, -0.9, 0.3)
CHILD = child(1, scaled(WEAK), 90, 60)


@cache
def far() -> Fitted:
    return parameter_search.fit(CHILD)


MANY = child(1, scaled(WEAK), 120, 90)


# --- histories ---


@st.composite
def logs(draw: st.DrawFn) -> list[Event]:
    """Some weeks of a child's answers to one card, with all that can move memory."""
    events, day = [], DAY
    for seq in range(1, draw(st.integers(2, 16))):
        day += draw(st.sampled_from([0, 1, 2, 6, 25]))
        mark = draw(st.sampled_from([*MARKS, "right", "right"]))
        kept = told(
            seq,
            day,
            mark,
            draw(st.sampled_from(["ask", "ask", "intro"])),
            aim=draw(st.sampled_from(["accuracy", "fluency"])),
            help=draw(st.sampled_from(["", "", "question", "picture"])),
            slow_ms=draw(st.sampled_from([0, 3000])),
            end_ms=draw(st.sampled_from([1500, 4000, 9000])),
            age=draw(st.sampled_from([6, 9])),
        )
        said = event(seq, day, "known", {"cards": [CARD]})
        events.append(said if draw(st.integers(0, 9)) == 0 else kept)
    return events


def test_what_was_known_at_first_sight_and_comes_back_is_not_known_again() -> None:
    """Set aside after two misses of a day, it begins anew: not as far out as what was right again."""
    missed = [told(seq, DAY, "not_yet", age=6, end_ms=1500) for seq in (2, 3)]
    rows = [told(1, DAY, age=6, end_ms=1500), *missed, told(4, DAY + 6, age=6, end_ms=1500)]
    folded, found = memory.fold(rows, plain)[CARD], histories(rows, plain)
    assert (len(found), folded.placed) == (2, 0)
    assert end(curve.PARAMETERS, found[-1]) == pytest.approx(folded.stability)


@settings(deadline=None, max_examples=80)
@given(logs())
def test_histories_end_where_the_fold_does(events: list[Event]) -> None:
    """The closed form and the library behind `memory` agree; the fold rounds to 6 decimals a step."""
    folded, found = memory.fold(events, plain)[CARD], histories(events, plain)
    if folded.stability is not None:
        assert end(curve.PARAMETERS, found[-1]) == pytest.approx(folded.stability, rel=2e-3)


@settings(deadline=None, max_examples=80)
@given(logs())
def test_the_curve_alone_promises_what_memory_does(events: list[Event]) -> None:
    """Halves are left out: they move memory by a rule of their own, and none is fitted to."""
    walked = [
        (moved.after.last_day, calibration.outcome(moved), memory.recall(moved.before, moved.after.last_day))
        for moved in calibration.moves(events, plain)
        if calibration.is_first_try(moved)
        and moved.after.last_day > moved.before.last_day
        and step_of(moved) is not None
        and step_of(moved).way == "try"  # type: ignore[union-attr]
    ]
    wanted = [(day, right, recall) for day, right, recall in walked if recall is not None]
    found = parameter_search.promised(curve.PARAMETERS, histories(events, plain))
    assert [(one.day, one.right) for one in found] == [(day, right) for day, right, _ in wanted]
    assert [one.promised for one in found] == pytest.approx([recall for *_, recall in wanted], abs=2e-3)


def test_a_history_step_by_step() -> None:
    events = [
        told(1, DAY, "right", "intro"),
        told(2, DAY + 7),
        told(3, DAY + 30, help="question"),
        told(4, DAY + 40, "right_helped", help="picture"),
        told(5, DAY + 45, "not_yet"),
        told(6, DAY + 45),
        told(7, DAY + 45),
        event(8, DAY + 50, "known", {"cards": [CARD]}),
    ]
    assert histories(events, plain) == [
        (
            Step(DAY, 0, "try", 1, moves.PLACED_FIRST),
            Step(DAY + 7, 7, "try", 1, moves.PLACED_AGAIN),
            Step(DAY + 30, 23, "hold"),
            Step(DAY + 40, 10, "halve", longest=float(curve.CAP)),
            Step(DAY + 45, 5, "try", 0),
            Step(DAY + 45, 0, "look"),
            Step(DAY + 50, 0, "known", least=moves.PLACED_FIRST),
        )
    ]


def test_a_card_set_aside_begins_another_history() -> None:
    away = [told(n, DAY, "not_yet", age=7) for n in (1, 2)]
    back = [told(3, DAY + 5, "right", "intro", age=7)]
    assert [len(one) for one in histories([*away, *back], plain)] == [1, 1]


# --- the curve for any decay ---

decays, stabilities = st.floats(0.1, 0.8), st.floats(0.01, 5000)


@given(stabilities, decays)
def test_recall_is_nine_tenths_after_the_stability(stability: float, decay: float) -> None:
    assert curve.recall(stability, stability, decay) == pytest.approx(0.9)
    assert curve.recall(stability, 0, decay) == curve.recall(stability, -2, decay) == 1


@given(stabilities, decays, st.floats(0, 4000), st.floats(0, 4000))
def test_recall_falls_with_days_and_rises_with_stability(s: float, decay: float, a: float, b: float) -> None:
    soon, late = sorted((a, b))
    assert 0 < curve.recall(s, late, decay) <= curve.recall(s, soon, decay) <= 1
    assert curve.recall(s, late, decay) <= curve.recall(s * 1.5, late, decay)


@given(stabilities, decays, st.floats(0.3, 0.99))
def test_interval_undoes_recall(stability: float, decay: float, target: float) -> None:
    days = curve.interval(stability, target, decay)
    assert curve.recall(stability, days, decay) == pytest.approx(target)


# --- three numbers ---


def test_nothing_moved_is_the_published_defaults() -> None:
    assert scaled((0.0, 0.0, 0.0)) == pytest.approx(curve.PARAMETERS, rel=1e-12)
    w = scaled((log(2), log(1.5), log(0.8)))
    assert w[:4] == pytest.approx([2 * value for value in curve.PARAMETERS[:4]])
    assert w[20] == pytest.approx(0.8 * curve.DECAY)
    old = Strength(5.0, 5.0)
    growth = [strength.later(v, old, 5, True).stability / 5 - 1 for v in (w, curve.PARAMETERS)]
    assert growth[0] == pytest.approx(1.5 * growth[1])  # both at a recall of 0.9, whatever the decay


@given(st.tuples(*[st.floats(-9, 9)] * 3))
def test_parameters_stay_within_their_bounds(numbers: Numbers) -> None:
    within = zip(scaled(numbers), strength.BOUNDS, strict=True)
    assert all(least <= value <= most for value, (least, most) in within)


def test_without_answers_the_prior_decides() -> None:
    assert parameter_search.likeliest_three([]) == pytest.approx(curve.PARAMETERS, rel=0.03)
    few = child(3, scaled(WEAK), 4, 10)
    assert parameter_search.likeliest_three(few)[0] == pytest.approx(curve.PARAMETERS[0], rel=0.5)


def test_the_fit_explains_as_well_as_the_truth() -> None:
    """On simulated answers, no parameters do much better than those that made them."""
    found, truth = parameter_search.likeliest_three(CHILD), scaled(WEAK)
    losses = [log_loss(parameter_search.promised(w, CHILD)) for w in (found, truth, curve.PARAMETERS)]
    assert losses[0] < losses[1] + 0.003 < losses[2]
    assert log(found[0] / curve.PARAMETERS[0]) < -0.3


# --- kept only if the later days agree ---


def test_a_child_far_from_the_defaults_is_fitted() -> None:
    found = far()
    assert found.how == "three"
    assert found.parameters == parameter_search.likeliest_three(CHILD)
    assert found.verdict is not None
    assert found.verdict.gain > found.verdict.error > 0
    assert len(found.before) == len(found.after) == found.verdict.tries
    assert log_loss(found.before) == pytest.approx(found.verdict.before)
    assert log_loss(found.after) == pytest.approx(found.verdict.after)
    assert min(one.day for one in found.before) >= found.since
    assert parameter_search.fit(CHILD) == found


def test_a_child_at_the_defaults_is_left_as_it_is() -> None:
    """By chance one in six would pass a gate of one standard error if fits gained nothing; fits cost."""
    fits = [parameter_search.fit(child(seed, curve.PARAMETERS, 60, 60)) for seed in range(4)]
    left = [one for one in fits if one.how == "as it is"]
    assert len(left) >= 3
    assert all(one.parameters == curve.PARAMETERS for one in left)


def test_once_fitted_there_is_nothing_to_gain() -> None:
    found = far()
    again = parameter_search.fit(CHILD, found.parameters)
    assert (again.how, again.parameters) == ("as it is", found.parameters)


def test_too_few_answers_change_nothing() -> None:
    few = child(2, scaled(WEAK), 12, 30)
    found = parameter_search.fit(few)
    assert (found.how, found.parameters, found.verdict) == ("too few", curve.PARAMETERS, None)
    assert found.tries == len(found.before) == len(parameter_search.promised(curve.PARAMETERS, few))
    assert parameter_search.fit([]) == Fitted("too few", curve.PARAMETERS, 0, 0)


def test_a_fit_of_all_numbers_waits_for_many_answers() -> None:
    asked: list[int] = []

    def full(given: object) -> Parameters:
        asked.append(1)
        return scaled(WEAK)

    assert (
        len(parameter_search.promised(curve.PARAMETERS, MANY))
        >= 1000
        > parameter_search.fit(CHILD, full=full).tries
    )
    assert not asked
    assert parameter_search.fit(MANY, full=full).how in ("all", "three")
    assert asked
    assert parameter_search.fit(MANY, full=lambda given: None).how in ("three", "as it is")


def test_bad_numbers_are_not_kept() -> None:
    awful = strength.clamped([100.0] * 21)
    found = parameter_search.fit(MANY, full=lambda given: awful)
    assert found.parameters != awful


def test_progress_only_grows() -> None:
    seen: list[tuple[int, int]] = []
    parameter_search.fit(CHILD, progress=lambda done, of: seen.append((done, of)))
    done = [one for one, _ in seen]
    assert done == sorted(done)
    assert max(done) <= seen[0][1]
    assert {of for _, of in seen} == {3 * parameter_search.LOOKS}


# --- earlier and later ---


def test_half_and_three_quarters_of_the_days_come_before() -> None:
    assert parameter_search.later(range(100)) == [(50, 75), (75, 100)]
    assert parameter_search.later([1, 1, 2, 3, 4, 4]) == [(3, 4), (4, 5)]
    assert parameter_search.later([7]) == [(7, 7), (7, 8)]


def test_no_day_is_judged_by_what_was_fitted_to_it() -> None:
    asked: list[int] = []

    def full(given: Sequence[History]) -> Parameters:
        asked.append(max(step.day for one in given for step in one))
        return curve.PARAMETERS

    parameter_search.fit(MANY, full=full)
    days = [one.day for one in parameter_search.promised(curve.PARAMETERS, MANY)]
    assert asked[:2] == [span.first - 1 for span in parameter_search.later(days)]


def test_the_verdict_by_hand() -> None:
    before = [Promise(1, 0.9, 1), Promise(1, 0.9, 0)]
    after = [Promise(1, 0.8, 1), Promise(1, 0.8, 0)]
    gains = [log(0.8 / 0.9), log(0.2 / 0.1)]
    found = judge(before, after)
    assert found.gain == pytest.approx(sum(gains) / 2)
    assert found.error == pytest.approx(abs(gains[0] - gains[1]) / 2)  # of two values: half their distance
    assert found.before - found.after == pytest.approx(found.gain)
    assert not found.better
    assert not judge([], []).better
    assert judge(after, after).gain == 0


@given(st.lists(st.tuples(st.floats(0.1, 0.9), st.floats(0.1, 0.9), st.booleans()), min_size=2, max_size=9))
def test_the_verdict_changes_sign_with_the_sides(told: list[tuple[float, float, bool]]) -> None:
    one, other = ([Promise(1, told[n][side], told[n][2]) for n in range(len(told))] for side in (0, 1))
    there, back = judge(one, other), judge(other, one)
    assert there.gain == pytest.approx(-back.gain, abs=1e-12)
    assert there.error == pytest.approx(back.error, abs=1e-12)


# --- in the log ---


def test_parameters_survive_the_log() -> None:
    found = far()
    kept = parameter_search.body(found)
    assert all(type(number) is int for number in kept["numbers"])  # type: ignore[attr-defined]
    assert own_parameters.read(kept["numbers"]) == pytest.approx(found.parameters, abs=5e-7)
    assert own_parameters.read(
        own_parameters.millionths(own_parameters.read(kept["numbers"]))
    ) == own_parameters.read(kept["numbers"])
    odd: object
    for odd in ([], None, "", [1, 2], ["a"] * 21, [0.5] * 21, {}):
        assert own_parameters.read(odd) == curve.PARAMETERS


def test_the_last_standing_fit_decides() -> None:
    one, other = own_parameters.millionths(scaled(WEAK)), own_parameters.millionths(scaled((0.1, 0.1, 0.1)))
    first, second = event(1, DAY, "fit", {"numbers": one}), event(2, DAY + 1, "fit", {"numbers": other})
    default = event(3, DAY + 2, "fit", dict(parameter_search.DEFAULT_BODY))
    undo = event(4, DAY + 3, "undo", {"device": 1, "seq": 3})
    assert own_parameters.standing([]) == own_parameters.standing([told(1, DAY)]) == curve.PARAMETERS
    assert own_parameters.standing([second, first]) == own_parameters.read(other)
    assert own_parameters.standing([first, second, default]) == curve.PARAMETERS
    assert own_parameters.standing([first, second, default, undo]) == own_parameters.read(other)
    gone = event(5, DAY + 3, "undo", {"device": 1, "seq": 2})
    assert own_parameters.standing([first, second, gone]) == own_parameters.read(one)


def test_a_card_that_comes_back_is_weighed_as_a_new_one() -> None:
    """Three first tries missed running set it aside; six days later nothing is promised of it."""
    missed = [told(n, DAY + n, "not_yet", aim="fluency", age=6) for n in range(3)]
    back = told(9, DAY + 8, "right", aim="fluency", age=6, slow_ms=3000, end_ms=1500)
    folded, found = memory.fold([*missed, back], plain)[CARD], histories([*missed, back], plain)
    assert end(curve.PARAMETERS, found[-1]) == pytest.approx(folded.stability, rel=2e-3)
