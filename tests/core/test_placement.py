"""Placement: kind in what it asks, right in what it finds, the same whether stopped or not."""

from collections.abc import Callable, Sequence
from math import exp
from random import Random
from typing import NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review import catalogue
from review.core import ability, card_sets, item_choice, marking, memory, model, placed, placement, skills
from review.core.answer_bodies import answer_body
from review.core.item_choice import Probing
from review.core.model import Answer, Card, CardMemory, Event, Habits, Settings
from review.core.placed import Found, Ticks
from review.core.warmup import (
    AskAgain,
    AskHelp,
    Effect,
    End,
    Heard,
    Note,
    PassOn,
    Record,
    Say,
    Show,
    Stop,
    Typed,
)
from tests.core.stock import grown

Child = Callable[[Show], Heard]
DAY = 738000
TIMES, MANY = "times-2-5-10", "subtraction-totals-20"
SURE = ("sum:2+2", "double:5")


def a_probing(name: str = TIMES, **changes: object) -> Probing:
    found = catalogue.find(name)
    cards = card_sets.cards([found])
    items = item_choice.items(cards, {card.key: skills.traits(card.key) for card in cards})
    by_key = {card.key: card for card in cards}
    open_keys = tuple(key for key in items if item_choice.may_ask(items[key], by_key[key], None))
    elsewhere = {key: Card(key, key.partition(":")[0], "a-skill", "a-set", "fluency", 0) for key in SURE}
    whole = Probing("a-book", "a-child", "Tove", 9, DAY, items, open_keys, {**elsewhere, **by_key})
    return whole._replace(**changes)  # type: ignore[arg-type]


class Sat(NamedTuple):
    effects: tuple[Effect, ...]
    answers: tuple[Answer, ...]

    @property
    def keys(self) -> list[str]:
        return [answer.card for answer in self.answers]

    @property
    def misses(self) -> int:
        return sum(not item_choice.is_well(answer) for answer in self.answers)


def sat(probing: Probing, child: Child, so_far: Sequence[Answer] = (), most: int = 100) -> Sat:
    """Played to its end, or until so many answers were given."""
    state, effects = placement.start(probing, so_far)
    everything, kept = list(effects), list(so_far)
    for _ in range(most):
        if state.ended:
            break
        show = next(one for one in reversed(everything) if isinstance(one, Show))
        state, effects = placement.step(state, child(show))
        everything += effects
        kept += [one.answer for one in effects if isinstance(one, Record)]
    return Sat(tuple(everything), tuple(kept))


def knows_all(show: Show) -> Heard:
    return Typed(show.problem.expected, 900, 2000)


def knows_none(show: Show) -> Heard:
    return Typed("", 0, 1500)


def knows(keys: set[str]) -> Child:
    return lambda show: knows_all(show) if show.problem.card in keys else knows_none(show)


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


@given(known=st.sets(st.sampled_from(sorted(a_probing().items))), cut=st.integers(0, 24))
@settings(max_examples=40, deadline=None)
def test_stopped_and_gone_on_equals_never_stopped(known: set[str], cut: int) -> None:
    probing = a_probing(sure=SURE)
    whole = sat(probing, knows(known))
    assert sat(probing, knows(known), so_far=whole.answers[:cut]).answers == whole.answers


def test_no_sentence_to_a_child_has_more_than_eight_words() -> None:
    for text in (placement.LATER, placement.AGAIN, placement.DONE, placement.GO_ON):
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


# --- what is suggested ----------------------------------------------------------------------------------


def a_found(lists: dict[str, int], chance: float = 0.9) -> Found:
    skill = catalogue.find(TIMES).skills[0]
    keys = {name: tuple(f"product:2x{n}" for n in range(count)) for name, count in lists.items()}
    return Found(skill, "ask", False, **keys, chance=chance)


@pytest.mark.parametrize(
    ("lists", "taught", "rest"),
    [
        ({"known": 4, "unasked": 4}, True, True),
        ({"known": 3, "unasked": 4}, True, False),
        ({"known": 2, "not_yet": 1, "unasked": 4}, True, False),
        ({"known": 1, "not_yet": 2, "unasked": 4}, False, False),
        ({"known": 1, "unasked": 4}, False, False),
        ({"known": 1}, True, False),
        ({"worked_out": 6, "not_yet": 1, "unasked": 1}, True, True),
        ({"known": 4, "not_yet": 1, "unasked": 1}, True, False),
        ({"unasked": 9}, False, False),
    ],
)
def test_what_is_suggested_to_the_parent(lists: dict[str, int], taught: bool, rest: bool) -> None:
    one = a_found(lists)
    assert (placed.seems_taught(one), placed.rest_likely(one)) == (taught, rest)


def test_a_rest_that_is_harder_than_what_was_asked_is_not_suggested() -> None:
    assert not placed.rest_likely(a_found({"known": 5, "unasked": 4}, chance=0.8))


# --- a check from outside -------------------------------------------------------------------------------


class Pupil:
    """A child whose knowledge is fixed, and is not the placement's own model.

    Products grow harder with their size, those of five and ties are easier (problem-size effect: Campbell &
    Graham 1985; from memory); each table stands where the child's lessons left it. A known fact is typed
    within two or three seconds, and one in 25 is mistyped. Of the others some are worked out by counting on,
    slowly; the rest are left empty or guessed (shares: our judgement).
    """

    def __init__(self, seed: int, probing: Probing) -> None:
        self._random = Random(f"placement|{seed}")
        usual = self._random.gauss(0.5, 1.4)
        lessons = {item.skill: self._random.gauss(0, 1.2) for item in probing.items.values()}
        self.known = {
            key
            for key, item in probing.items.items()
            if self._random.random() < 1 / (1 + exp(self._size(key) - usual - lessons[item.skill]))
        }
        self.counted = {
            key for key in probing.items if key not in self.known and self._random.random() < 0.25
        }

    @staticmethod
    def _size(key: str) -> float:
        numbers = [int(n) for n in key.partition(":")[2].split("x") if n.isdigit()]
        if len(numbers) < 2:
            return -1.0
        easier = 0.8 * (numbers[0] == numbers[1]) + 0.6 * (5 in numbers) + 1.2 * (10 in numbers)
        return numbers[0] * numbers[1] / 25 - 1 - easier

    def truth(self, key: str) -> str:
        return "known" if key in self.known else "worked_out" if key in self.counted else "not_yet"

    def __call__(self, show: Show) -> Heard:
        key, expected = show.problem.card, show.problem.expected
        if key in self.known:
            return Typed(expected if self._random.random() > 0.04 else expected + "1", 900, 2500)
        if key in self.counted:
            return Typed(expected, 6000, 9000)
        return Typed("" if self._random.random() < 0.5 else str(int(expected) + 1), 1500, 4000)


class Went(NamedTuple):
    """What one child went through, and what was found."""

    items: int
    misses: int
    asked: int
    rightly: int  # of those asked: known far out, worked out near, unknown unmet
    known_found: int
    known: int
    rest: int  # suggested to the parent as known too
    rest_known: int


def went(name: str, seed: int, days: int) -> Went:
    probing, cards = a_probing(name), card_sets.cards([catalogue.find(name)])
    child, events = Pupil(seed, probing), list[Event]()
    for day in range(DAY, DAY + days):
        done = sat(probing._replace(day=day), child)
        events += [
            Event(1, n, "c", "answer", day, n, n, 0, a.card, answer_body(a))
            for n, a in enumerate(done.answers)
        ]
        met = {*done.keys}
        left = tuple(key for key in probing.open if key not in met)
        probing = probing._replace(earlier=(*probing.earlier, *done.answers), open=left)
    after = memory.fold(events)
    found = placed.found(catalogue.find(name).skills, cards, after, events, Ticks(), ())
    sorts = {key: sort for one in found for sort in placed.SORTS for key in getattr(one, sort)}
    asked = {answer.card for answer in probing.earlier}
    rest = [key for one in found if placed.rest_likely(one) for key in one.unasked]
    return Went(
        len(probing.earlier),
        sum(not item_choice.is_well(answer) for answer in probing.earlier),
        len(asked),
        sum(sorts[key] == child.truth(key) for key in asked),
        len(asked & child.known),
        len(child.known),
        len(rest),
        len(child.known.intersection(rest)),
    )


@pytest.mark.parametrize("name", [TIMES, "times-6-7-9"])
def test_two_hundred_children_are_placed_rightly_and_kindly(name: str) -> None:
    """A hundred for each of two sets, in sittings on as many as three days."""
    every = [went(name, seed, days=3) for seed in range(100)]
    total = Went(*map(sum, zip(*every, strict=True)))
    print(
        f"{name}: {total.items / 100:.1f} items a child, {total.misses / 100:.1f} not known; "
        f"{total.asked / 100:.1f} facts asked, {total.rightly / total.asked:.0%} of them placed rightly; "
        f"{total.known_found / total.known:.0%} of known facts found, "
        f"{total.rest / 100:.1f} suggested besides, {total.rest_known} of {total.rest} rightly"
    )
    assert max(one.items for one in every) <= 25
    assert total.misses <= 0.35 * total.items
    assert total.rightly >= 0.9 * total.asked  # slips and lucky guesses are the rest
    assert total.known_found >= 0.5 * total.known
    assert total.rest_known >= 0.8 * total.rest


def test_a_sure_card_to_end_on_is_sure_by_this_childs_own_correction() -> None:
    """What the curve alone promises is too much for this child."""
    one, today, weak = (Card(f"sum:2+{n}", "sum", "s", "set", "accuracy", n) for n in (3, 4, 5))
    memory = {
        one.key: grown(one.key, 60.0, DAY - 5),
        today.key: grown(today.key, 60.0, DAY, seen_day=DAY),
        weak.key: grown(weak.key, 2.0, DAY - 5),
    }
    pupil = model.Pupil(model.Child("", "Tove", 8, 0), DAY, (one, today, weak), {}, memory, Settings(8))
    assert placed.sure(pupil, ()) == (one.key,)
    assert placed.sure(pupil, (one.key,)) == ()
    doubtful = Settings(8, habits=Habits(weights=(-2.0, 0.0, 0.0, 0.0, 0.0)))
    assert placed.sure(pupil._replace(settings=doubtful), ()) == ()


def test_what_a_parent_says_later_of_a_skill_stands_over_what_was_said_before() -> None:
    before = placed.Ticks(known=("a", "b"), untaught=("c", "d"))
    assert placed.amended_by(before, placed.Ticks(known=("c",), untaught=("b",))) == placed.Ticks(
        known=("a", "c"), untaught=("d", "b")
    )
