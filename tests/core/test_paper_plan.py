"""What a child's own sheet asks: the plan's order, fewer new cards, a week that hangs together."""

from functools import cache
from itertools import pairwise
from random import Random

import pytest

from review import catalogue
from review.core import card_sets, family, skills
from review.core.model import Card, CardMemory, Child, Event, Pupil, Settings
from review.core.paper_plan import (
    DAYS,
    LEAST,
    MOST_TODAY,
    MOST_WEEK,
    by_need,
    paper_plan,
    practice,
    sittings,
    week_days,
)
from review.core.sheets import Made, Part, Task, made_body, made_of, new_number
from tests.core.stock import UNCORRECTED, grown

MONDAY = 739_999  # such ordinals are 1 modulo 7
BOOK = "a-book"


@cache
def cards_of(*names: str) -> tuple[Card, ...]:
    return card_sets.cards([catalogue.shipped(name) for name in names])


def pupil(
    *names: str, known: int = 0, age: int = 8, stability: float = 4.0, day: int = MONDAY, pace: int = 0
) -> Pupil:
    """A child with those sets, of which the first `known` cards were met and some are due."""
    cards = cards_of(*names)
    memory: dict[str, CardMemory] = {
        card.key: grown(card.key, stability + n % 17, day - 2 - n % 9) for n, card in enumerate(cards[:known])
    }
    found = {skill.id: skill for name in names for skill in catalogue.shipped(name).skills}
    child = Child("c" * 32, "Mira", age, day - 100)
    settings = Settings(age, pace, taught=frozenset(found), habits=UNCORRECTED)
    return Pupil(child, day, cards, found, memory, settings, (True,) * 10)


SETS = ("addition-facts-20", "times-2-5-10", "place-value-to-99", "mental-sums-to-99")


def week(who: Pupil, book: str = BOOK) -> list[Part]:
    return [one.part for one in sittings(who, week_days(who.day), 5.0, MOST_WEEK, book)]


def test_the_same_seed_gives_the_same_sheet_and_another_book_another() -> None:
    who = pupil(*SETS, known=60)
    assert week(who) == week(who)
    assert week(who, "another-book") != week(who)


@pytest.mark.parametrize(("first", "gaps"), [(0, 0), (2, 2), (5, 2), (6, 1)])
def test_a_week_is_five_weekdays(first: int, gaps: int) -> None:
    days = week_days(MONDAY + first)
    assert len(days) == DAYS
    assert all(day % 7 not in (0, 6) for day in days), "neither Saturday nor Sunday"
    assert days == sorted(set(days))
    assert days[0] - (MONDAY + first) == (gaps if first > 4 else 0)


@pytest.mark.parametrize("known", [0, 5, 30, 90])
def test_a_sitting_has_room_on_its_strip_and_every_card_once(known: int) -> None:
    for part in week(pupil(*SETS, known=known)):
        keys = [task.card for task in part.tasks]
        assert 0 < len(keys) <= MOST_WEEK
        assert len(keys) == len(set(keys)), "no second looks on paper"
        families = [skills.traits(key).family for key in keys if skills.traits(key).family]
        assert len(families) == len(set(families))


def test_new_cards_keep_to_the_pace_and_stand_neither_first_nor_last() -> None:
    who = pupil(*SETS, known=60, stability=30.0)
    found = sittings(who, [who.day], 5.0, MOST_TODAY, BOOK)[0].part.tasks
    new = [n for n, task in enumerate(found) if task.role == "intro"]
    assert 1 <= len(new) <= max(3, LEAST)
    assert min(new) >= 3
    assert max(new) < len(found) - 1


def test_a_child_who_begins_has_a_sheet_worth_the_paper() -> None:
    found = sittings(pupil(*SETS), [MONDAY], 5.0, MOST_TODAY, BOOK)[0].part.tasks
    assert {task.role for task in found} == {"intro"}
    assert len(found) == LEAST


def test_what_is_new_on_one_day_comes_again_on_the_next() -> None:
    """Each day is planned as if the ones before went as hoped: what was met is measured the day after."""
    first, second, *_ = week(pupil(*SETS))
    met = {task.card for task in first.tasks if task.role == "intro"}
    again = {task.card for task in second.tasks if task.role == "ask"}
    assert met
    assert met <= again


def test_what_was_asked_early_in_the_week_is_not_asked_as_the_same_problem_again() -> None:
    parts = week(pupil("mental-sums-to-99", known=12, stability=1.0))
    asked = [task for part in parts for task in part.tasks if not skills.traits(task.card).fact]
    assert len(asked) > 10
    assert len({(task.card, task.asked) for task in asked}) == len(asked)


def test_long_work_comes_on_paper() -> None:
    """Work of over a minute is for paper only, where it may come."""
    who = pupil("column-products-by-two-digits", known=10, age=10, stability=1.0)
    long = [card.key for card in who.cards if skills.traits(card.key).seconds > 60]
    todays = paper_plan(who, 10.0, MOST_TODAY, BOOK)
    assert {item.key for item in todays.items} & set(long)


# --- practice -----------------------------------------------------------------------------------------


def test_practice_takes_what_holds_least_first() -> None:
    who = pupil("times-2-5-10", known=10)
    shaky = who.cards[7]
    memory = {**who.memory, shaky.key: grown(shaky.key, 0.5, who.day - 20)}
    ranked = by_need(who._replace(memory=memory), who.cards)
    assert ranked[0].key == shaky.key
    met = [card.key in memory for card in ranked]
    assert met == sorted(met, reverse=True), "what was met before what is new"


@pytest.mark.parametrize("count", [1, 5, 20, 60])
def test_practice_has_so_many_problems_and_takes_turns(count: int) -> None:
    cards = cards_of("times-2-5-10")[:8]
    tasks = practice(cards, count, Random(1))
    assert len(tasks) == count
    assert practice(cards, count, Random(1)) == tasks
    assert all(a.card != b.card for a, b in pairwise(tasks))
    often = [sum(task.card == card.key for task in tasks) for card in cards[:count]]
    assert max(often) - min(often) <= 1


# --- a sheet as an event ------------------------------------------------------------------------------


def test_a_sheet_comes_back_from_its_event_as_it_was() -> None:
    made = Made(4711, "week", "ab" * 16, MONDAY, tuple(week(pupil(*SETS, known=9))), "", ("sum:1+2",), 3000)
    event = Event(1, 1, made.child, "sitting", MONDAY, 0, 0, 0, "", made_body(made))
    assert made_of(event) == made
    assert not list(family.children([event]))


def test_a_number_is_never_given_twice() -> None:
    source, taken = Random(3), set[int]()
    for _ in range(3000):
        number = new_number(source, taken)
        assert number not in taken
        assert 1000 <= number <= 9999
        taken.add(number)
    taken |= set(range(5000))
    assert 10_000 <= new_number(source, taken) <= 99_990


def test_a_task_is_four_plain_words() -> None:
    assert list(Task("sum:1+2", "2+1")) == ["sum:1+2", "2+1", "ask", "accuracy"]
