from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import correction
from review.core.learner import Learner
from review.core.model import Card, Problem, Settings, Traits
from review.core.practice import Practice
from tests.core.stock import DAY, UNCORRECTED, card, plain

CARDS = tuple(card(n) for n in range(12))
FLUENT = tuple(card(n, "fluency") for n in range(12))
NINE = Settings(9)
KEY = CARDS[1].key
LONG = "sum:9+9"  # much to count
TIMED = Settings(9, timed=frozenset({"sums"}))


def practice(cards: Sequence[Card] = CARDS, chosen: Settings = NINE) -> Practice:
    return Practice(cards, 5, 1, chosen, traits=plain)


def stability(of: Practice, key: str = KEY) -> float:
    return of.memory[key].stability or 0.0


def test_plan_ranks_only() -> None:
    one = practice()
    first = one.plan(DAY)
    assert first == one.plan(DAY) == practice().plan(DAY)
    assert one.plan(DAY + 40) == first  # a later day was looked at, not lived
    assert one.plan(DAY) == first
    assert one.memory == {}
    assert first == [card.key for card in CARDS[:3]]


def test_to_look_at_tomorrow_leaves_today_as_it_is() -> None:
    one = practice()
    for later in range(0, 12, 2):
        for n, card_ in enumerate(CARDS[:8]):
            one.answer(card_.key, (n + later) % 5 > 0, 3, "", DAY + later)
            today = one.plan(DAY + later), one.warmup(DAY + later)
            one.plan(DAY + later + 1)
            assert (one.plan(DAY + later), one.warmup(DAY + later)) == today


def test_tomorrow_is_planned_by_what_was_learned_since_it_was_looked_at() -> None:
    """Also of cards that were not asked meanwhile: the habits by which they stand have moved."""
    one, other = practice(), practice()
    for later in range(0, 20, 2):
        for n, card_ in enumerate(CARDS[:10]):
            right, took = (n + later) % 3 > 0, 3 + n % 4
            one.plan(DAY + later + 1)
            for each in (one, other):
                each.answer(card_.key, right, took, "", DAY + later)
            assert one.plan(DAY + later + 1) == other.plan(DAY + later + 1)
            other.plan(DAY + later)


@pytest.mark.parametrize("first", [0, -1, -400, 1, 5])
def test_a_day_is_any_integer(first: int) -> None:
    """Only how far days lie apart counts."""
    one, other = practice(), practice()
    for later in (0, 0, 1, 4, 9, 9, 30):
        for n, card_ in enumerate(CARDS[:8]):
            right = (n + later) % 3 > 0
            again = one.answer(card_.key, right, 3, "", first + later)
            assert again == other.answer(card_.key, right, 3, "", DAY + later)
        assert one.plan(first + later) == other.plan(DAY + later)
        assert one.plan(first + later + 2) == other.plan(DAY + later + 2)
        assert one.warmup(first + later).day == first + later
    assert all(one.recall(c.key, first + 40) == other.recall(c.key, DAY + 40) for c in CARDS)
    with pytest.raises(ValueError, match=f"Day {first + 29} comes before day {first + 30}"):
        one.plan(first + 29)


def test_plan_reflects_todays_answers() -> None:
    one = practice()
    one.answer(CARDS[0].key, True, 2, "", DAY)
    assert one.plan(DAY) == [card.key for card in CARDS[1:4]]  # what proves known does not count as new
    one.answer(CARDS[1].key, False, 2, "", DAY)
    assert one.plan(DAY) == [card.key for card in CARDS[2:4]]


@pytest.mark.parametrize(("help", "comes"), [("", True), ("question", True), ("picture", False)])
def test_a_procedure_done_after_a_question_lets_new_cards_in_as_in_a_sitting(help: str, comes: bool) -> None:
    cards = [card(n) for n in range(40)]
    one = Practice(cards, 5, 1, NINE, traits=lambda key: Traits(key, False, 6.0))
    for known in cards[:20]:
        one.answer(known.key, True, 3, "", DAY - 2)
    for known in cards[:20]:
        one.answer(known.key, True, 6, help, DAY - 1)
    assert any(key in one.plan(DAY) for key in [card.key for card in cards[20:]]) == comes


def test_a_day_never_falls() -> None:
    one = practice()
    one.answer(KEY, True, 2, "", DAY)
    with pytest.raises(ValueError, match="comes before"):
        one.plan(DAY - 1)
    with pytest.raises(ValueError, match="comes before"):
        one.answer(KEY, True, 2, "", DAY - 1)
    with pytest.raises(KeyError):
        one.answer("sum:9+9", True, 2, "", DAY)


def test_a_new_card_not_known_gets_two_more_looks() -> None:
    one = practice(chosen=Settings(9, habits=UNCORRECTED))
    assert [one.answer(KEY, right, 4, "", DAY) for right in (False, True, True)] == [True, True, False]
    assert one.recall(KEY, DAY) is None
    assert one.memory[KEY].tries == 0
    assert not one.answer(KEY, True, 4, "", DAY + 1)
    assert one.recall(KEY, DAY + 1) == pytest.approx(correction.HIGHEST)  # asked just now


def test_not_knowing_a_new_card_is_no_miss() -> None:
    one = practice(chosen=Settings(9, pace=12))
    for card_ in CARDS[:10]:
        one.answer(card_.key, False, 4, "", DAY)
    assert one.plan(DAY) == [card.key for card in CARDS[10:]]


def test_a_miss_is_looked_at_again_until_it_is_set_aside() -> None:
    one = practice(chosen=Settings(7))
    assert not one.answer(KEY, True, 4, "", DAY)
    assert [one.answer(KEY, False, 4, "", DAY + 3) for _ in range(2)] == [True, False]
    assert one.memory[KEY].aside_day == DAY + 3
    assert KEY not in one.plan(DAY + 7)
    assert KEY in one.plan(DAY + 8)


def test_help_in_both_spellings() -> None:
    for help in ("picture", 5):
        one = practice()
        one.answer(KEY, True, 4, "", DAY)
        before = stability(one)
        assert one.answer(KEY, True, 4, help, DAY + 7)
        assert stability(one) == pytest.approx(before / 2)
    assert practice().answer(KEY, True, 4, 1, DAY) is False  # the problem written again is no help


def fluent(days: int = 4, key: str = KEY) -> Practice:
    """A fluency card that was right on so many days."""
    one = practice((*FLUENT, card(9, "fluency")._replace(key=LONG)), TIMED)
    for n in range(days):
        one.answer(key, True, 2, "", DAY + 30 * n)
    return one


def test_time_counts_once_there_is_evidence() -> None:
    early, late = fluent(2, LONG), fluent(3, LONG)
    before, unmoved = stability(late, LONG), stability(early, LONG)
    early.answer(LONG, True, 8, "", DAY + 60, copy_seconds=2)
    late.answer(LONG, True, 8, "", DAY + 90, copy_seconds=2)
    assert early.memory[LONG].last_mark == "right"
    assert late.memory[LONG].last_mark == "right_slow"
    assert stability(late, LONG) < before
    assert stability(early, LONG) > unmoved
    late.answer(LONG, True, 21, "", DAY + 120, copy_seconds=20)
    assert late.memory[LONG].last_mark == "right"


def test_a_slow_answer_to_a_small_sum_keeps_less_than_a_quick_one() -> None:
    slow, quick = fluent(3), fluent(3)
    slow.answer(KEY, True, 6, "", DAY + 90, copy_seconds=2)
    quick.answer(KEY, True, 3, "", DAY + 90, copy_seconds=2)
    assert stability(slow) < 0.8 * stability(quick)


def test_what_the_child_says_is_taken() -> None:
    said, counted = fluent(3), fluent(3)
    before = stability(said)
    said.answer(KEY, True, 20, "", DAY + 90, recalled=True)
    counted.answer(KEY, True, 2, "", DAY + 90, recalled=False)
    assert stability(said) > before > stability(counted)


def test_untimed_children_are_judged_by_right_and_wrong_only() -> None:
    slow, quick = (practice(FLUENT, TIMED._replace(untimed=True)) for _ in range(2))
    for n in range(5):
        slow.answer(KEY, True, 55, "", DAY + 20 * n)
        quick.answer(KEY, True, 1, "", DAY + 20 * n)
    assert stability(slow) == stability(quick)


def test_going_on_from_a_childs_own_memory() -> None:
    one = practice()
    for n, card_ in enumerate(CARDS[:6]):
        one.answer(card_.key, n % 2 == 0, 3, "", DAY + n)
    other = Practice.resume(one.memory, CARDS, 5, 1, Settings(9, habits=one.habits), traits=plain)
    assert other.plan(DAY + 9) == one.plan(DAY + 9)
    assert other.memory == one.memory
    with pytest.raises(ValueError, match="comes before"):
        other.plan(DAY)
    other.answer(KEY, True, 3, "", DAY + 9)
    assert one.memory[KEY] != other.memory[KEY]


def test_the_warmup_is_the_plan_in_showing_order() -> None:
    one = practice()
    for n, card_ in enumerate(CARDS[:9]):
        one.answer(card_.key, n % 2 == 0, 3, "", DAY)
    found = one.warmup(DAY + 3)
    assert {item.key for item in found.items} <= {card.key for card in CARDS}
    assert found == one.warmup(DAY + 3)
    assert one.settings == Settings(9)


def season(seed: int, days: int) -> tuple[Learner, list[bool], list[int]]:
    """A simulated child of nine, the 28 products of 2 to 8: first tries, and new cards not known by day."""
    pairs = [(a, b) for b in range(2, 9) for a in range(2, b + 1)]
    cards = [
        Card(f"product:{a}x{b}", "product", "tables", "set", "fluency", n) for n, (a, b) in enumerate(pairs)
    ]
    one, child = Practice(cards, 5, seed, NINE, traits=plain), Learner(seed, 9)
    firsts, new = [], []
    for day in range(DAY, DAY + days):
        waiting, unknown = one.plan(day), 0
        while waiting:
            key = waiting.pop(0)
            measured, first = one.recall(key, day) is not None, key not in one.memory
            asked = key.removeprefix("product:")
            a, b = map(int, asked.split("x"))
            problem = Problem(key, "product", asked, "", "", "whole", str(a * b), "")
            heard = child.answer(problem, key, day, True)
            again = one.answer(key, heard.text == problem.expected, heard.end_ms / 1000, "", day)
            child.taught(key, day)
            unknown += again and first
            if measured and one.memory[key].seen_day_shows == 1:
                firsts.append(heard.text == problem.expected)
            if again:
                waiting.insert(min(3, len(waiting)), key)
        new.append(unknown)
    return child, firsts, new


# No outside figure: a child whose memory is not the scheduler's learns nearly all, and mostly succeeds.
def test_a_simulated_child_learns_and_mostly_succeeds() -> None:
    for seed in range(3):
        child, firsts, new = season(seed, 90)
        known = sum(
            child.chance(f"product:{a}x{b}", DAY + 90) > 0.8 for b in range(2, 9) for a in range(2, b + 1)
        )
        assert known >= 24
        assert sum(firsts) / len(firsts) > 0.85
        assert max(new) <= 9  # three a day at nine, and three times as many where it goes well
        assert all(sum(new[n : n + 7]) <= 12 for n in range(len(new)))  # four products a week, likewise


runs = st.lists(
    st.tuples(st.integers(0, 3), st.integers(0, 5), st.booleans(), st.integers(1, 9)), max_size=25
)


@settings(deadline=None)
@given(runs)
def test_the_same_answers_give_the_same_run(run: list[tuple[int, int, bool, int]]) -> None:
    one, two = practice(), practice()
    day = DAY
    for later, number, right, seconds in run:
        day += later
        two.plan(day)  # changes nothing
        key = CARDS[number].key
        assert one.answer(key, right, seconds, "", day) == two.answer(key, right, seconds, "", day)
    assert one.memory == two.memory
    assert one.plan(day) == two.plan(day)
    assert all(one.recall(c.key, day) is None or 0 <= (one.recall(c.key, day) or 0) <= 1 for c in CARDS)


def test_choices_are_guessed_and_start_near() -> None:
    one = Practice(CARDS, 5, 1, Settings(9), traits=lambda key: Traits(key, False, 5.0, choices=2))
    one.answer(KEY, True, 2, "", DAY)
    assert stability(one) < 7
