"""How one child answers: the mixture of times, copying, what is slow."""

from math import exp, log
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.book import rows
from review.core import habits, marking
from review.core.model import Answer, Habits, Remembered
from tests.core.stock import DAY, grown
from tests.core.weighed import KEY, timed, weights


def taught(ways: Habits, nets: list[int], recall: float = 0.7) -> Habits:
    for net in nets:
        answer = timed(net)
        sure = habits.sureness(ways, answer, recall)
        ways = habits.learned(ways, grown(KEY, 9.0, DAY), answer, sure, None)
    return ways


# --- sureness ---


@given(st.floats(0.02, 0.98))
def test_the_longer_it_took_the_less_it_came_from_memory(recall: float) -> None:
    found = [habits.sureness(Habits(), timed(net), recall) for net in range(700, 6000, 100)]
    assert all(0 <= sure <= 1 for sure in found)
    assert found == sorted(found, reverse=True)


@given(st.integers(300, 30_000))
def test_what_was_likely_known_is_more_likely_from_memory(net: int) -> None:
    found = [habits.sureness(Habits(), timed(net), recall / 100) for recall in range(10, 99, 4)]
    assert found == sorted(found)


def test_what_is_not_weighed() -> None:
    assert habits.sureness(Habits(), timed(9000, "yes"), 0.5) == 1.0
    assert habits.sureness(Habits(), timed(500, "no"), 0.5) == 0.0
    assert habits.sureness(Habits(), timed(9000, slow_ms=0), 0.5) == 1.0  # time does not count
    assert habits.sureness(Habits(), timed(500, mark="not_yet"), 0.5) == 0.0
    unclocked = timed(0)._replace(end_ms=0, first_ms=0)
    assert habits.sureness(Habits(), unclocked, 0.5) == 1.0


def test_a_child_who_looked_away_is_no_child_who_counted() -> None:
    """A very long time says little: both may have been distracted."""
    long, counted = (habits.sureness(Habits(), timed(net), 0.9) for net in (28_000, 6_000))
    assert 0.7 < long < 0.95
    assert counted < 0.6


def test_what_has_little_to_count_is_worked_out_sooner() -> None:
    """Three seconds tell of 6 × 7 that it was known, of 9 + 1 they do not; a second tells it of both."""
    long, short = timed(3000), timed(3000)._replace(asked="9+1")
    assert habits.sureness(Habits(), long, 0.8) > habits.sureness(Habits(), short, 0.8) + 0.1
    quick = timed(1000)._replace(asked="9+1")
    assert habits.sureness(Habits(), quick, 0.8) > 0.95


def test_where_the_problem_is_not_known_its_card_is_taken() -> None:
    asked = timed(3000)._replace(card="sum:1+9", asked="9+1")
    assert habits.sureness(Habits(), asked, 0.8) == habits.sureness(Habits(), asked._replace(asked=""), 0.8)


def test_what_was_nearly_certain_is_no_less_so_when_it_comes_at_once() -> None:
    """Else a card that is asked every day would sink by its right answers."""
    assert habits.sureness(Habits(), timed(1000), 0.999) > 0.998


# Our own children: log-normal times about the two means, as response times are (common practice).
@pytest.mark.parametrize(("fast", "slow"), [(1.0, 3.0), (1.5, 5.0), (2.8, 9.0)])
def test_the_mixture_finds_a_childs_own_times(fast: float, slow: float) -> None:
    random = Random(5)
    nets = [
        round(1000 * (fast if random.random() < 0.7 else slow) * exp(random.gauss(0, 0.25)))
        for _ in range(150)
    ]
    ways = taught(Habits(), nets)
    assert exp(ways.fast[1]) == pytest.approx(fast, rel=0.25)
    assert exp(ways.slow[1]) == pytest.approx(slow, rel=0.35)
    middle = (fast * slow) ** 0.5
    assert habits.sureness(ways, timed(round(1000 * fast)), 0.7) > 0.9
    assert habits.sureness(ways, timed(round(1000 * slow)), 0.7) < 0.25
    assert 0.1 < habits.sureness(ways, timed(round(1000 * middle)), 0.7) < 0.98


def middle(seen: tuple[float, float, float], usual: float) -> float:
    """The mean of logarithms, with what is usual counted as eight answers (our judgement)."""
    return (seen[0] * seen[1] + 8 * log(usual)) / (seen[0] + 8)


@pytest.mark.parametrize("usual", [1200, 2000, 3000, 4500])
def test_two_means_never_become_one(usual: int) -> None:
    """Of a child whose times are all of one sort: worked out takes .6 of a logarithm longer at least, 1.8
    times as long (our judgement). From 9 on it is 1.5 and 5 seconds before anything is known."""
    random = Random(6)
    ways, nearest = Habits(), 9.0
    for _ in range(300):
        ways = taught(ways, [round(usual * exp(random.gauss(0, 0.2)))])
        nearest = min(nearest, middle(ways.slow, 5.0) - middle(ways.fast, 1.5))
    assert nearest >= 0.6 - 1e-5
    assert ways.fast[0] + ways.slow[0] > 20


def test_the_right_answers_of_who_does_not_count_come_from_memory() -> None:
    does_not = Habits(at_sight=(3.0, 20.0), soon=(20.0, 20.0))
    for net in (1500, 3000, 5000):
        assert habits.sureness(does_not, timed(net), 0.7) > habits.sureness(Habits(), timed(net), 0.7)
    assert habits.sureness(does_not, timed(3000), 0.7) > 0.8


# --- copying and slow ---


def copied(end_ms: int, text: str = "42") -> Answer:
    return Answer(KEY, "6x7", text, text, "right", "copy", 700, end_ms, aim="fluency", age=9)


def test_the_childs_own_copying_time() -> None:
    ways = Habits()
    for _ in range(4):
        ways = habits.copied(ways, copied(4600))
    assert habits.copying_ms(ways, 9) == ()  # too few
    ways = habits.copied(ways, copied(4600))
    own = habits.copying_ms(ways, 9)
    assert own[1] == pytest.approx(2 * marking.copying_ms(9, 2), abs=2)
    assert list(own) == sorted(own)
    assert marking.copying_ms(9, 2, own) == own[1]


def test_one_who_left_the_table_does_not_copy_slowly_for_ever() -> None:
    ways = Habits()
    for end in (2300, 2300, 60_000, 2300, 2300, 2300, 2300):
        ways = habits.copied(ways, copied(end))
    assert habits.copying_ms(ways, 9)[1] < 1.25 * 2300
    assert habits.copied(Habits(), copied(2300, "ten")) == Habits()
    assert habits.copied(Habits(), copied(2300)._replace(role="ask")) == Habits()


def test_slow_is_never_less_than_by_age() -> None:
    assert habits.slow_ms(Habits(), 9) == 3000
    quick = Habits(fast=(50.0, log(0.8), 0.05))
    steady = Habits(fast=(50.0, log(4.0), 0.05))
    assert habits.slow_ms(quick, 9) == 3000
    assert habits.slow_ms(steady, 9) == pytest.approx(1500 * 4.0, rel=0.2)


# --- kept ---


@given(weights, st.floats(0, 100), st.floats(-2, 3))
def test_habits_survive_the_cache_bit_for_bit(found: tuple[float, ...], n: float, mean: float) -> None:
    ways = Habits(fast=(n, mean, 0.2), weights=found, at=(DAY, 5, 1, 2))
    body = rows.bodies(Remembered({}, ways))[rows.EVERY_CARD]
    assert rows.habits_of(body) == ways
