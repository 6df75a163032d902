from operator import mul

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import correction, curve
from review.core.model import Aim, CardMemory, Habits, Settings
from review.core.standing import (
    due_below,
    due_day,
    gap,
    is_back,
    is_beginning,
    last_before_pause,
    leeway,
    practised,
    standing,
    target,
)
from tests.core.stock import DAY, UNCORRECTED, card, grown

SIX, NINE = (Settings(age, habits=UNCORRECTED) for age in (6, 9))
KEY = card(1).key


def state(memory: CardMemory | None, day: int = DAY, settings: Settings = NINE, *, ready: bool = True) -> str:
    return standing(card(1, "fluency"), memory, settings, day, ready=ready).state


def test_targets_by_age_or_as_set() -> None:
    assert [target(Settings(age)) for age in (6, 7, 8, 11)] == [0.9, 0.9, 0.87, 0.87]
    assert target(Settings(6, target=0.8)) == 0.8


# Due at .9, the gap is the stability, which is how stability is defined (FSRS-6).
@pytest.mark.parametrize(("stability", "days"), [(0.2, 1), (2.3065, 2), (8.2956, 8), (12.6, 13), (300, 14)])
def test_gap_is_the_stability_at_nine_tenths(stability: float, days: int) -> None:
    assert gap(grown(KEY, stability, DAY), NINE, "accuracy") == days


def test_longer_gaps_are_earned() -> None:
    gaps = [gap(grown(KEY, 600, DAY, capped=n), NINE, "fluency") for n in (0, 2, 3, 5, 6)]
    assert gaps == [14, 14, 60, 60, 120]
    assert gap(grown(KEY, 25, DAY, capped=6), SIX, "fluency") == 14


# Measured on simulated children: beyond the first cap a card must be sure to the end of its gap.
def test_a_longer_gap_ends_while_recall_is_high() -> None:
    for stability in range(20, 400, 7):
        days = gap(grown(KEY, stability, DAY, capped=6), NINE, "fluency")
        assert days == min(120, max(14, round(curve.interval(stability, 0.97))))


# Our judgement, from the rule: about six meetings in eight weeks, then monthly.
def test_familiarity_goes_by_meetings() -> None:
    gaps = [gap(CardMemory(KEY, tries=n), NINE, "familiarity") for n in range(1, 9)]
    assert sum(gaps[:5]) == 56
    assert gaps[5:] == [30, 30, 30]


def test_what_was_measured_under_another_aim_goes_by_meetings_too() -> None:
    measured = grown(KEY, 200, DAY)  # three first tries: the third gap
    assert standing(card(1, "familiarity"), measured, NINE, DAY).gap == 11
    assert standing(card(1, "accuracy"), measured, NINE, DAY).gap == 14


@given(st.floats(0.001, 2000), st.integers(6, 11), st.integers(0, 9))
def test_recall_on_the_planned_day_is_about_the_target(stability: float, age: int, capped: int) -> None:
    settings = Settings(age, habits=UNCORRECTED)
    days = gap(grown(KEY, stability, DAY, capped=capped), settings, "accuracy")
    assert 1 <= days <= 120
    if 1 < days < curve.CAP:
        asked = due_below(settings)
        assert asked == pytest.approx(target(settings) + 0.03)
        assert curve.recall(stability, days + 0.5) <= asked <= curve.recall(stability, days - 0.5)


@given(st.tuples(*[st.floats(-0.7, 1.5)] * correction.SIZE), st.floats(0.3, 400))
def test_the_gap_ends_where_corrected_recall_meets_the_target(
    weights: tuple[float, ...], stability: float
) -> None:
    settings = Settings(9, habits=Habits(weights=weights))
    memory = grown(KEY, stability, DAY)
    days = gap(memory, settings, "accuracy")
    sooner, later = (corrected(memory, weights, days + half) for half in (-0.5, 0.5))
    if days > 1:
        assert sooner >= due_below(settings) - 1e-6
    if days < curve.CAP:
        assert later <= due_below(settings) + 1e-6


def corrected(memory: CardMemory, weights: tuple[float, ...], days: float) -> float:
    """What the weights make of the curve on a part of a day, by the features that are learned from."""
    promised = curve.recall(memory.stability or 0.0, days)
    off = sum(map(mul, weights, correction.features(memory, promised)))
    return correction.sigmoid(correction.logit(promised) + off)


def test_leeway_is_two_days_or_a_quarter() -> None:
    assert [leeway(days) for days in (1, 8, 11, 12, 21, 60)] == [2, 2, 2, 3, 5, 15]


def test_states_of_a_growing_card() -> None:
    memory = grown(KEY, 7, DAY, gap=4)
    days = gap(memory, NINE, "accuracy")
    due = due_day(memory, days)
    assert due == DAY + days
    states = [state(memory, due + late) for late in (-1, 0, 1, leeway(days), leeway(days) + 1)]
    assert states == ["growing", "growing", "fading", "fading", "overdue"]
    found = standing(card(1, "fluency"), memory, NINE, due + 9)
    assert (found.due_in, found.days_overdue, found.gap) == (-9, 9, days)
    assert found.recall == pytest.approx(curve.recall(7, days + 9))


# Our judgement: fluency asks for a recall of .90, accuracy for .85; the longest gap alone worries nobody.
def test_a_card_surer_than_its_aim_asks_is_not_fading() -> None:
    sure = grown(KEY, 200, DAY)
    aims: tuple[tuple[Aim, float], ...] = (("fluency", 0.90), ("accuracy", 0.85))
    for aim, asked in aims:
        for late in range(0, 400, 3):
            found = standing(card(1, aim), sure, NINE, DAY + 14 + late)
            assert (found.state == "holding") == (found.recall is not None and found.recall >= asked)
            assert (found.due_in, found.days_overdue) == (-late, late)


def test_holding_is_three_days_and_two_weeks() -> None:
    held = grown(KEY, 40, DAY)
    assert state(held) == "holding"
    assert state(held._replace(stability=9.0)) == "growing"
    assert state(held._replace(right_days=2)) == "growing"
    assert state(held._replace(stability=3.0)) == "growing"  # missed after a long gap
    assert state(held, DAY + 41) == "overdue"


def test_states_before_memory() -> None:
    assert state(None) == state(CardMemory(KEY, seen_day=DAY)) == "new"
    assert state(None, ready=False) == "waiting"
    assert state(None, settings=NINE._replace(taught=frozenset())) == "untaught"
    assert state(None, settings=NINE._replace(taught=frozenset({"sums"}))) == "new"
    introduced = CardMemory(KEY, met_day=DAY, intro_day=DAY)
    assert state(introduced) == "introduced"
    assert standing(card(1), introduced, NINE, DAY).due_in == 1
    again = introduced._replace(met_day=DAY - 60)  # set aside meanwhile, and shown once more
    assert standing(card(1), again, NINE, DAY).due_in == 1


def test_a_card_set_aside_comes_back_as_new() -> None:
    aside = grown(KEY, 2, DAY, aside_day=DAY)
    assert [state(aside, DAY + n) for n in (0, 1, 4, 5, 50)] == ["aside"] * 3 + ["new"] * 2


@given(st.integers(0, 400), st.integers(1, 12))
def test_familiarity_never_fades_and_never_holds(days: int, tries: int) -> None:
    met = CardMemory(KEY, met_day=DAY, last_day=DAY, tries=tries)
    found = standing(card(1, "familiarity"), met, NINE, DAY + days)
    assert found.state == "growing"
    assert found.recall is None


def test_two_practised_days_are_for_coming_back() -> None:
    before = {f"a{n}": grown(f"a{n}", 9, DAY - n, gap=2) for n in range(4)}
    assert not is_back([], DAY)
    assert not is_back(before.values(), DAY + 6)
    assert is_back(before.values(), DAY + 7)
    first = before | {"a0": grown("a0", 9, DAY + 8, gap=8)}
    assert is_back(first.values(), DAY + 8)  # later the same day
    assert is_back(first.values(), DAY + 9)
    second = first | {"a1": grown("a1", 9, DAY + 9, gap=10)}
    assert not is_back(second.values(), DAY + 10)


def test_the_last_practice_counts_as_before_a_pause_from_a_week_on() -> None:
    known = [grown("a0", 9, DAY, gap=2), grown("a1", 9, DAY - 3, gap=2)]
    assert [last_before_pause(known, DAY + ahead) for ahead in (0, 6, 7, 365)] == [0, 0, DAY, DAY]
    assert last_before_pause([], DAY) == 0


def test_a_gentle_warm_up_was_practice_and_a_parents_word_was_none() -> None:
    gentle = grown("a0", 9, DAY - 20, gap=2, beside_day=DAY)
    said = CardMemory("a1", 7.0, 5.0, last_day=DAY + 3, met_day=DAY + 3, known=True)
    assert last_before_pause([gentle, said], DAY + 10) == DAY
    assert last_before_pause([said], DAY + 20) == 0


def test_who_begins_a_week_after_a_parents_word_was_not_away() -> None:
    said = CardMemory("a1", 7.0, 5.0, last_day=DAY, met_day=DAY, known=True, known_day=DAY)
    assert not is_back([said], DAY + 9)
    first = said._replace(last_day=DAY + 9, seen_day=DAY + 9, tries=1, gap=9)
    assert not is_back([first], DAY + 10)
    assert is_back([first], DAY + 16)
    again = (
        grown("a0", 9, DAY, gap=2),
        first._replace(last_day=DAY + 5, known_day=DAY + 5, seen_day=0, tries=0),
    )
    assert is_back(again, DAY + 9)  # away since DAY, whatever was said in between


def test_three_practised_days_are_a_beginning() -> None:
    """Also where a parent said of every card that it is known, which memory does not count as practised."""
    daily = [grown(KEY, 1, DAY - 1, gap=1, met_day=DAY - days, tries=days) for days in (1, 2, 3, 4)]
    assert [is_beginning([one], DAY) for one in daily] == [True, True, False, False]
    said = [one._replace(known=True) for one in daily]
    assert [is_beginning([one], DAY) for one in said] == [True, True, False, False]
    each_once = [grown(f"a{n}", 1, DAY - n, gap=0, met_day=DAY - n, tries=1) for n in (1, 2, 3)]
    assert is_beginning(each_once[:2], DAY)
    assert not is_beginning(each_once, DAY)
    assert is_beginning([], DAY)


def test_today_is_no_day_practised_before_it() -> None:
    met_today = CardMemory("a1", met_day=DAY, seen_day=DAY, intro_day=DAY)
    assert practised([grown(KEY, 1, DAY, gap=2, met_day=DAY - 9), met_today], DAY) == {DAY - 2, DAY - 9}


def test_a_small_deck_seen_daily_is_no_coming_back() -> None:
    daily = [grown(f"a{n}", 1, DAY, gap=1, met_day=DAY - 30) for n in range(3)]
    assert not is_back(daily, DAY + 1)
