"""How a child comes along: spans, weeks, what grew, what was promised."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import days, family, memory
from review.core.model import CardMemory, Event, Habits, Mark, Pupil, Remembered
from review.core.progress import Progress, held_by_week, progress, weeks
from review.core.tries import first_tries
from review.core.warmup import Plan, PlanItem
from review.render.progress_lines import cards_line, states
from tests.core.stock import event, told
from tests.core.test_reports import DAY, learned, pupil

KEY = "product:2x7"


def seen(some: Pupil, rows: list[Event], since: int = DAY - 27) -> Progress:
    return progress(some, rows, since, DAY)


# --- skill by skill ---


def test_a_skill_is_told_with_what_is_met_and_what_holds() -> None:
    memory = {
        "product:2x3": learned("product:2x3", 1, stability=60.0),
        "product:2x4": learned("product:2x4", 1),
        "product:2x5": learned("product:2x5", 60),
    }
    memory = {key: one._replace(known_day=DAY - 30) for key, one in memory.items()}
    found = seen(pupil("times-2-5-10", memory=memory), [])
    table_of_2 = next(one for one in found.skills if one.skill.id == "table-of-2")
    assert (table_of_2.cards, table_of_2.met, table_of_2.holding, table_of_2.overdue) == (11, 3, 1, 1)
    assert table_of_2.known_day == DAY - 30
    assert [one.skill.id for one in found.skills] == ["table-of-2", "table-of-5"]  # 2 × 5 is in both


def test_cards_that_stand_with_two_skills_are_told() -> None:
    """2 × 5 is in the table of 2 and in that of 5, so its parts add up to more than the whole."""
    cards = ("product:2x3", "product:2x5", "product:5x7")
    found = seen(pupil("times-2-5-10", memory={key: learned(key, 60) for key in cards}), [])
    assert [one.met for one in found.skills] == [2, 2]
    assert (found.now.met, found.now.shared) == (3, 1)
    line = "Cards: 3 met, 0 holding, 3 overdue. 1 of them stands with more than one skill below."
    assert cards_line(found) == line
    alone = seen(pupil("times-2-5-10", memory={cards[0]: learned(cards[0], 60)}), [])
    assert cards_line(alone) == "Cards: 1 met, 0 holding, 1 overdue."


def test_a_skill_is_known_since_its_first_card_was_and_has_the_tries_of_its_cards() -> None:
    known = {KEY: DAY - 10, "product:2x3": DAY - 30, "product:2x4": 0, "product:5x7": DAY - 90}
    memory = {key: learned(key, 1)._replace(known_day=day) for key, day in known.items()}
    given: tuple[tuple[str, Mark], ...] = (
        (KEY, "right"), (KEY, "not_yet"), ("product:2x3", "right"), ("product:5x7", "not_yet"),
    )  # fmt: skip
    rows = [told(n, DAY - n, mark, key=key) for n, (key, mark) in enumerate(given, 1)]
    twos, fives = seen(pupil("times-2-5-10", memory=memory), rows).skills
    assert (twos.known_day, twos.tally.tries, twos.tally.right) == (DAY - 30, 3, 2)
    assert (fives.known_day, fives.tally.tries, fives.tally.right) == (DAY - 90, 1, 0)


def test_what_only_is_to_be_met_neither_holds_nor_fails_to() -> None:
    (one,) = seen(pupil("times-2-5-10", memory={KEY: learned(KEY, 1)}), []).skills
    assert "not holding yet" in states(one)
    only = one._replace(skill=one.skill._replace(aim="familiarity"))
    assert states(only) == f"1 of {one.cards} cards met"
    assert states(only._replace(cards=1)) == "1 of 1 card met"


def test_a_card_that_is_said_to_be_known_was_not_met() -> None:
    memory = {
        KEY: CardMemory(KEY, 7.0, 5.0, known=True, known_day=DAY),
        "product:2x3": learned("product:2x3", 1),
    }
    assert seen(pupil("times-2-5-10", memory=memory), []).skills[0].met == 1


def test_fluent_holds_and_takes_little_time() -> None:
    held = learned("product:2x3", 1, stability=60.0, passed_n=5)
    for ms, fluent in ((3000, 1), (9000, 0)):
        memory = {held.card: held._replace(passed_ms=ms)}
        assert seen(pupil("times-2-5-10", memory=memory), []).skills[0].fluent == fluent
    untimed = pupil("times-2-5-10", memory={held.card: held})
    untimed = untimed._replace(settings=untimed.settings._replace(untimed=True))
    assert seen(untimed, []).skills[0].fluent is None


def test_what_grew_is_of_the_last_seven_days() -> None:
    def grew(**days: object) -> list[str]:
        one = learned(KEY, 1, stability=60.0, **days)
        found = seen(pupil("times-2-5-10", memory={KEY: one}), []).grown
        held = [f"held {look.card.key}" for look in found.holding]
        return held + [f"known {look.card.key}" for look in found.known]

    assert grew(held_day=DAY - 6) == [f"held {KEY}"]
    assert grew(held_day=DAY - 7) == []
    assert grew(known_day=DAY) == []  # it holds already: said once
    fresh = CardMemory(KEY, 3.0, 5.0, DAY, DAY, DAY, tries=1, right=1, right_days=1, known_day=DAY)
    found = seen(pupil("times-2-5-10", memory={KEY: fresh}), []).grown
    assert [look.card.key for look in found.known] == [KEY]


def test_what_is_only_to_be_recognised_is_not_said_to_have_grown() -> None:
    key = pupil("roman-early").cards[0].key
    met = CardMemory(key, None, None, DAY, DAY, DAY, tries=1, right=1, known_day=DAY)
    found = seen(pupil("roman-early", memory={key: met}), []).grown
    assert (found.holding, found.known) == ((), ())


def test_both_ends_belong_to_the_span() -> None:
    rows = [told(n, day, key=KEY) for n, day in enumerate((DAY - 28, DAY - 27, DAY, DAY + 1))]
    found = seen(pupil("times-2-5-10"), rows)
    assert (found.tally.tries, found.days) == (2, 2)


def test_rows_outside_the_span_and_rows_taken_back_do_not_count() -> None:
    rows = [told(n, DAY - n, key=KEY) for n in (1, 5, 40)]
    undo = event(9, DAY, "undo", {"device": 1, "seq": 5})
    assert seen(pupil("times-2-5-10"), rows).tally.tries == 2
    assert seen(pupil("times-2-5-10"), [*rows, undo]).tally.tries == 1


# --- weeks ---


@given(st.dates())
def test_weeks_begin_on_monday_as_iso_8601_has_it(when: date) -> None:
    monday = days.date_of(days.monday(days.day_of(when))) if when.toordinal() > 6 else when
    assert when.toordinal() <= 6 or monday == when - timedelta(days=when.isoweekday() - 1)


def test_weeks_without_practice_stand_in_the_row() -> None:
    monday = days.monday(DAY)
    rows = [told(n, monday + after, key=KEY) for n, after in enumerate((-21, -15, 6))]
    found = list(weeks(rows, first_tries(rows), monday + 6))
    assert [(week.days, week.tally.tries) for week in found] == [(2, 2), (0, 0), (0, 0), (1, 1)]
    assert [days.date_of(week.monday).isoweekday() for week in found] == [1, 1, 1, 1]
    assert list(weeks([], [], monday)) == []


def test_a_pause_at_the_end_stands_in_the_row_week_by_week_as_it_is_over() -> None:
    monday = days.monday(DAY)
    rows = [told(1, monday, key=KEY)]
    lasts = [(0, 1), (6, 1), (12, 1), (13, 2), (14, 2), (41, 6)]  # days after that monday, weeks told
    for until, count in lasts:
        found = [*weeks(rows, first_tries(rows), monday + until)]
        assert [week.days for week in found] == [1, *[0] * (count - 1)], until


def test_held_cards_week_by_week_end_where_the_pupil_is() -> None:
    gaps = (0, 1, 4, 9, 15, 20)
    rows = [told(n + 1, DAY - 60 + sum(gaps[: n + 1]), key=KEY, aim="fluency") for n in range(len(gaps))]
    some = pupil("times-2-5-10")
    found = held_by_week(Remembered({}, Habits()), rows, some, DAY - 70, DAY)
    sundays = [day for day in range(DAY - 70, DAY) if days.date_of(day).isoweekday() == 7]
    assert [one.day for one in found] == [*sundays, DAY]
    assert [one.met for one in found][-1] == 1
    assert [one.met for one in found] == sorted(one.met for one in found)
    assert (found[0].met, found[0].holding, found[-1].holding) == (0, 0, 1)


@pytest.mark.parametrize("back", [0, 1, 3, 70])
def test_held_cards_are_the_same_from_whatever_was_remembered_on_the_way(back: int) -> None:
    """From the beginning of the log, and from a day before the span."""
    asked = [(day, n) for day in range(DAY - 120, DAY + 1) for n in range(2, 10) if (day * n) % 13 < 3]
    rows = [
        told(at, day, key=f"product:2x{n}", aim="fluency", mark="not_yet" if at % 7 == 0 else "right")
        for at, (day, n) in enumerate(asked)
    ]
    known = memory.remembered(rows)
    some = pupil("times-2-5-10", memory=dict(known.cards))
    start = memory.remembered(row for row in rows if row.day < DAY - 30 - back)
    whole = held_by_week(Remembered({}, Habits()), rows, some, DAY - 30, DAY)
    assert held_by_week(start, rows, some, DAY - 30, DAY) == whole
    assert len({(one.met, one.holding) for one in whole}) > 1


# --- promised and come ---


def plan(day: int, *items: tuple[str, float | None]) -> Event:
    made = Plan(day, 5.0, tuple(PlanItem(key, "due", 4.0, recall) for key, recall in items))
    return event(100 + day, day, "sitting", family.sitting_body(made))


def test_what_the_morning_promised_meets_what_came() -> None:
    rows = [
        plan(DAY - 2, (KEY, 0.92), ("product:2x3", None)),
        told(1, DAY - 2, "not_yet", key=KEY),
        told(2, DAY - 2, key="product:2x3"),  # promised nothing
        plan(DAY - 1, (KEY, 0.91)),
        told(3, DAY - 1, key=KEY),
        told(4, DAY, key=KEY),  # without a plan
    ]
    (band,) = seen(pupil("times-2-5-10"), rows).bands
    assert (band.low, band.high, band.n) == (0.9, 0.95, 2)
    assert band.promised == pytest.approx(0.915)
    assert band.right == 0.5
