"""Lives no one plans for: the sensible outcome is stated first, then lived.

What is sensible is our judgement throughout; there is no outside source for it. Each life is lived with the
real plan, the real sitting and the real fold.
"""

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest

from review import catalogue, clock, gather
from review.app import giving, profiles
from review.book import store
from review.core import correction, looks, memory, plan, reports, standing
from review.core.answer_bodies import event_answer
from review.core.model import SkillSet
from review.core.warmup import Heard, Show
from review.gather import DoubtfulClock, Outside
from tests.core.lives import Day, Life, gives_up, lost, sure
from tests.core.sittings import Child as Answering

DAY = 739_000
TABLES = ("times-2-5-10", "times-3-4-8", "times-6-7-9")
FIRST = ("number-bonds-10", "addition-facts-10")
PLACES = ("place-value-to-99",)
TEN = (
    "number-bonds-10", "addition-facts-10", "place-value-to-99", "subtraction-facts-10", "telling-time-hours",
    "doubles-halves-20", "coins-pounds", "times-2-5-10", "times-3-4-8", "roman-early",
)  # fmt: skip


def days_of(life: Life, count: int, answering: Answering, start: int = DAY) -> list[Day]:
    return [life.live(start + n, answering) for n in range(count)]


def missing(share: float, seed: int = 1) -> Answering:
    """Misses that share of what is asked."""
    random = Random(seed)

    def answer(show: Show) -> Sequence[Heard]:
        return lost(show) if not show.copying and random.random() < share else sure(show)

    return answer


def whys(day: Day) -> Counter[str]:
    return Counter(item.why for item in day.planned.items)


def shown(day: Day) -> Counter[str]:
    """How often each card was asked."""
    return Counter(answer.card for answer in day.answers if answer.role != "copy")


# --- all right for a year -------------------------------------------------------------------------------


def test_all_right_for_a_year() -> None:
    """Everything is met within a month, gaps grow to months, the warm-ups shrink to a minute, no card comes
    every day, and there is always something to succeed at."""
    life = Life(TABLES)
    year = days_of(life, 365, sure)
    assert {card.key for card in life.cards} <= set().union(*(day.asked for day in year[:30]))
    settings = life.pupil(DAY + 365).settings
    gaps = [standing.gap(life.memory[card.key], settings, card.aim) for card in life.cards]
    assert min(gaps) >= 28
    last = year[-90:]
    assert all(0 < day.minutes <= 1 for day in last)
    assert sum(whys(day)["due"] for day in last) <= len(last)
    for card in life.cards:
        asked = [day.day for day in last if card.key in day.asked]
        assert all(later - earlier >= 7 for earlier, later in pairwise(asked))


# --- all wrong, and only giving up ----------------------------------------------------------------------


@pytest.mark.parametrize("answering", [lost, gives_up])
@pytest.mark.parametrize(
    ("sets", "age", "pace"), [(TABLES, 9, 3), (FIRST, 6, 2), (("place-value-to-99",), 7, 2)]
)
def test_nothing_right_for_a_month(answering: Answering, sets: tuple[str, ...], age: int, pace: int) -> None:
    """A bad month stays small: at most three looks at a card and four times the pace of misses in a day, no
    more new cards begun than the pace, at most two minutes, and hardly a day with nothing to do: when all
    that was met rests until it has been taught again."""
    life = Life(sets, age, 4)
    days = days_of(life, 30, answering)
    assert sum(not day.planned.items for day in days) <= 5
    for day in (day for day in days if day.planned.items):
        before = {answer.card for row in life.log if row.day < day.day for answer in [event_answer(row)]}
        assert day.answers
        assert max(shown(day).values()) <= 3
        assert len(day.missed) <= 4 * pace
        assert len(day.asked - before) <= pace
        assert day.minutes <= 2


@pytest.mark.parametrize("answering", [lost, gives_up])
def test_what_is_missed_from_the_first_is_set_aside_and_comes_back(answering: Answering) -> None:
    """At 6 two misses of a day set a card aside for the parent to teach; it rests five days, then returns."""
    life = Life(FIRST[1:], 6, 4)
    first = life.live(DAY, answering)
    assert {life.memory[key].aside_day for key in first.asked} == {DAY}
    others = days_of(life, 40, answering, DAY + 1)
    rests = [day for day in others[:4] if first.asked & day.asked]
    assert rests == []
    assert any(first.asked & day.asked for day in others[4:])


def test_a_bad_month_is_told_to_the_parent() -> None:
    life = Life(TABLES, 9)
    days_of(life, 30, lost)
    found = reports.report(life.pupil(DAY + 30)).decision
    assert any(one.reason == "stuck" for one in found.table)


def test_a_bad_month_ends() -> None:
    """Once it goes well again, everything comes within three weeks, and nothing is left behind for ever."""
    life = Life(FIRST, 6, 4)
    days_of(life, 30, lost)
    well = days_of(life, 42, sure, DAY + 30)
    assert {card.key for card in life.cards} <= set().union(*(day.asked for day in well))
    settings = life.pupil(DAY + 72).settings
    found = [standing.gap(life.memory[card.key], settings, card.aim) for card in life.cards]
    assert min(found) >= 7


# --- away -----------------------------------------------------------------------------------------------


def test_four_hundred_days_away() -> None:
    """Coming back: nothing new for two practised days; of what is due the most remembered first, within the
    minutes; the parent hears how many warm-ups it takes; and a week later all is caught up."""
    life = Life(TABLES)
    days_of(life, 40, missing(0.1))
    life.minutes = 2
    back = DAY + 40 + 400
    todays = life.plan(back)
    due = [item.recall for item in todays.items if item.why == "due" and item.recall is not None]
    planned = {item.key for item in todays.items}
    left = [
        m
        for key, m in life.memory.items()
        if key not in planned and m.stability is not None and not m.aside_day
    ]
    pupil = life.pupil(back)
    assert todays.waiting > 0
    others = max(correction.recall(pupil.settings.habits, m, back) or 0 for m in left)
    assert min(due) >= others - 0.1  # each family once
    every = looks.looks(pupil)
    told = plan.choice(pupil, every, life.minutes, Random(0))
    assert any("to catch up" in line for line in reports.rest_lines(pupil, told, every))
    days = days_of(life, 14, sure, back)
    assert [whys(day)["new"] for day in days[:2]] == [0, 0]
    assert all(day.minutes <= 3 for day in days)
    met = {key for key, m in life.memory.items() if m.last_day >= back}
    assert {m.card for m in left} <= met


def test_a_break_that_begins_again_the_next_day() -> None:
    """One warm-up, then another week away: the two days of coming back begin anew."""
    life = Life(TABLES)
    days_of(life, 10, missing(0.3))
    assert whys(life.live(DAY + 30, sure))["new"] == 0
    assert whys(life.live(DAY + 60, sure))["new"] == 0
    assert whys(life.live(DAY + 61, sure))["new"] == 0


# --- days and logs out of order -------------------------------------------------------------------------


def test_a_log_in_any_order_gives_the_same_memory() -> None:
    """Merged from two devices, or read backwards: the log's own order decides, not the order of reading."""
    life = Life(TABLES)
    days_of(life, 30, missing(0.2))
    for seed in range(3):
        shuffled = list(life.log)
        Random(seed).shuffle(shuffled)
        found = memory.remembered(shuffled)
        assert (found.cards, found.habits) == (life.memory, life.habits)
    assert memory.remembered([*life.log, *life.log[:50]]).cards.keys() == life.memory.keys()


def test_two_sittings_on_one_day() -> None:
    """The second goes on where the first ended: nothing is asked that had its turn, no new card beyond the
    day's, and what is already known does not move again."""
    life = Life(TABLES)
    days_of(life, 20, missing(0.2))
    for n in range(20, 30):
        first, before = life.live(DAY + n, missing(0.2, n)), dict(life.memory)
        second = life.live(DAY + n, missing(0.2, n))
        assert first.asked.isdisjoint(second.asked)
        assert all(life.memory[key] == before[key] for key in first.asked)
        begun = sum(m.intro_day == DAY + n == m.met_day for m in life.memory.values())
        assert begun <= 3 * 3


def test_a_second_try_on_another_device_is_a_second_look() -> None:
    """Two devices, one day, the same plan: the later answers teach and do not count as recall."""
    one, both = Life(TABLES), Life(TABLES)
    days_of(one, 20, missing(0.1))
    days_of(both, 20, missing(0.1))
    day = both.live(DAY + 20, sure)
    both.remember(DAY + 20, day.answers)
    one.live(DAY + 20, sure)
    assert {key: m.tries for key, m in both.memory.items()} == {key: m.tries for key, m in one.memory.items()}


def test_a_clock_that_was_set_back(tmp_path: Path) -> None:
    """A few days back: a person is asked; with their yes the day stays the last one, and no time runs
    backwards. A night back, as on a journey west, is not worth a question."""
    now = clock.now_ms()
    outside = Outside(tmp_path / "family.book", tmp_path / "state", now)
    child = profiles.add_child(outside, "Tove", 9, 5, "UTC", False)
    last = gather.today(outside, child)
    back = outside._replace(now_ms=now - 3 * 86_400_000)
    with pytest.raises(DoubtfulClock):
        gather.writing_day(back, child)
    assert gather.writing_day(back._replace(trusted=True), child) == last
    assert gather.writing_day(outside._replace(now_ms=now - 86_400_000), child) == last
    giving.give_set(
        back._replace(trusted=True), "times-2-5-10", "Tove", "", lambda found: [s.id for s in found.skills]
    )
    with store.open_book(outside.book, outside.state, write=False) as book:
        rows = list(book.events(child=child.key))
        assert [row.at_ms for row in rows] == sorted(row.at_ms for row in rows)
        assert [row.day for row in rows] == [last] * len(rows)
        assert list(book.verify(gather.remember())) == []


# --- sets that come, go and change ----------------------------------------------------------------------


def test_a_set_that_was_dropped_comes_back_as_it_was() -> None:
    """What was learned of it stays: given again, nothing of it that was measured is new. Between, none of it
    is asked."""
    life = Life(TABLES[:1])
    days_of(life, 20, missing(0.1))
    known = dict(life.memory)
    life.give(TABLES[1:2])
    own = {card.key for card in life.cards}
    between = days_of(life, 16, sure, DAY + 20)
    assert set().union(*(day.asked for day in between)) <= own
    life.give(TABLES[:2])
    assert all(life.memory[key] == m for key, m in known.items() if key not in own)
    todays = life.plan(DAY + 36)
    measured = {key for key, m in known.items() if m.stability is not None and not m.aside_day}
    new = {item.key for item in todays.items if item.why == "new"}
    assert new.isdisjoint(measured)
    assert measured & {item.key for item in todays.items if item.why == "due"}


def test_answers_before_the_set_was_added() -> None:
    """A book that was merged, or a set that shares its facts: what the log knows of a card counts from the
    first day the child has it."""
    first, later = Life(TABLES[:1]), Life([])
    days_of(first, 20, sure)
    later.log, later.memory, later.habits = first.log, first.memory, first.habits
    assert later.plan(DAY + 21).items == ()
    later.give(TABLES[:1])
    assert whys(later.live(DAY + 21, sure))["new"] == 0


def edited(found: SkillSet, removed: str, renamed: str) -> SkillSet:
    """The set without one skill, and with another under a new id."""
    kept = [
        skill._replace(id="another-id") if skill.id == renamed else skill
        for skill in found.skills
        if skill.id != removed
    ]
    return found._replace(skills=tuple(skill._replace(after=()) for skill in kept))


def test_a_set_that_was_edited_in_mid_course() -> None:
    """What was taken out is asked no more; what has another id waits until it is said to be taught, and then
    goes on from what is remembered; the rest does not notice."""
    whole = catalogue.shipped(TABLES[0])
    out, other = whole.skills[0].id, whole.skills[1].id
    life = Life([whole], taught=[skill.id for skill in whole.skills])
    days_of(life, 25, missing(0.1))
    life.give([edited(whole, out, other)])
    days = days_of(life, 10, sure, DAY + 25)
    asked = {key for day in days for key in day.asked}
    kept = {skill.id for skill in whole.skills[2:]}
    assert asked <= {card.key for card in life.cards if kept.intersection((card.skill, *card.also))}
    own = {card.key for card in life.cards if (card.skill, *card.also) == ("another-id",)}
    known = {
        key for key in own if (m := life.memory.get(key)) and m.stability is not None and not m.aside_day
    }
    assert asked
    assert known
    life.taught = [*(skill.id for skill in whole.skills), "another-id"]
    again = days_of(life, 21, sure, DAY + 35)
    items = [item for day in again for item in day.planned.items if item.key in known]
    assert known == {item.key for item in items}
    assert "new" not in {item.why for item in items}


# --- too much at once -----------------------------------------------------------------------------------


@pytest.mark.parametrize("share", [0.0, 0.05, 0.1])
def test_ten_sets_with_three_minutes_a_day(share: float) -> None:
    """A child who is mostly right gets cards of each set within four weeks, and no day is longer than the
    minutes and one last card."""
    life = Life(TEN, 8, 3)
    days = days_of(life, 28, missing(share))
    sets = {card.key: card.set_id for card in life.cards}
    first = {sets[key]: day.day - DAY for day in reversed(days) for key in day.asked}
    assert first.keys() == {*TEN}
    assert max(first.values()) <= 27
    assert all(day.minutes <= 3.5 for day in days)


def test_ten_sets_for_a_child_who_misses_often() -> None:
    """One in five is missed: new cards wait, the parent hears why, and the warm-up keeps to its minutes."""
    life = Life(TEN, 8, 3)
    days = days_of(life, 60, missing(0.2))
    assert sum(day.planned.too_much for day in days) > 20
    assert all(day.minutes <= 3.5 for day in days)
    assert all(len(day.missed) <= len(shown(day)) for day in days[7:])
