"""How one child answers: the mixture of times, the correction of the curve, copying."""

from math import exp, log
from operator import mul
from random import Random
from typing import Literal

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from review import rows
from review.core import curve, habits, marking
from review.core.habits import logit, sigmoid
from review.core.memory import answered
from review.core.model import Answer, CardMemory, Habits, Mark, Remembered
from tests.core.stock import DAY, UNCORRECTED, grown

KEY = "product:6x7"


def timed(
    net_ms: int, said: Literal["", "yes", "no"] = "", mark: Mark = "right", slow_ms: int = 3000
) -> Answer:
    return Answer(
        KEY, "6x7", "42", "42", mark, "ask", 900, 2000 + net_ms, aim="fluency", age=9, copy_ms=2000,
        slow_ms=slow_ms, recalled=said,
    )  # fmt: skip


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


def test_two_means_never_become_one() -> None:
    random = Random(6)
    ways = taught(Habits(), [round(2000 * exp(random.gauss(0, 0.2))) for _ in range(300)])
    assert ways.slow[1] - ways.fast[1] > 0 or ways.slow[0] < habits.PRIOR_N


def test_the_right_answers_of_who_does_not_count_come_from_memory() -> None:
    does_not = Habits(at_sight=(3.0, 20.0), soon=(20.0, 20.0))
    for net in (1500, 3000, 5000):
        assert habits.sureness(does_not, timed(net), 0.7) > habits.sureness(Habits(), timed(net), 0.7)
    assert habits.sureness(does_not, timed(3000), 0.7) > 0.8


# --- the correction ---

weights = st.tuples(*[st.floats(-1.5, 1.5)] * habits.SIZE)
strengths = st.floats(0.3, 400)


@given(weights, strengths)
def test_corrected_recall_falls_with_the_days(found: tuple[float, ...], stability: float) -> None:
    ways, memory = Habits(weights=found), grown(KEY, stability, DAY)
    recalls = [habits.recall(ways, memory, DAY + day) or 0.0 for day in range(0, 200, 5)]
    assert recalls == sorted(recalls, reverse=True)
    assert all(0 <= recall <= 1 for recall in recalls)


def test_without_weights_recall_is_the_curves() -> None:
    memory = grown(KEY, 9.0, DAY)
    assert habits.recall(UNCORRECTED, memory, DAY + 5) == pytest.approx(curve.recall(9.0, 5))
    assert habits.recall(UNCORRECTED, CardMemory(KEY), DAY) is None


def test_before_anything_was_learned_days_of_recall_tell_cards_apart() -> None:
    """Recalled on three days, a card that keeps for ten is at nine tenths after ten, as the curve says; on
    fewer it is less sure, on more it is surer. What a parent says is known is as if recalled on three."""
    days = [grown(KEY, 10.0, DAY)._replace(right_days=n) for n in range(9)]
    told = [habits.recall(Habits(), one, DAY + 10) or 0.0 for one in days]
    assert told == sorted(told)
    assert told[habits.USUAL_DAYS] == pytest.approx(0.9)
    assert told[0] < 0.8
    assert told[-1] > 0.94
    said = [habits.recall(Habits(), one._replace(known=True), DAY + 10) for one in days]
    assert said == [max(told[habits.USUAL_DAYS], other) for other in told]


def row_of(lower: tuple[float, ...], i: int) -> list[float]:
    """A row of a covariance kept as its lower half."""
    return [lower[max(i, j) * (max(i, j) + 1) // 2 + min(i, j)] for j in range(habits.SIZE)]


@given(weights, strengths, st.integers(0, 3), st.integers(0, 9), st.floats(0.3, 0.99))
def test_the_level_of_a_card_is_what_the_weights_weigh(
    found: tuple[float, ...], stability: float, right_days: int, right: int, promised: float
) -> None:
    """The quick way for many cards, against the features that are learned from."""
    lens = habits.lens(Habits(weights=found))
    memory = grown(KEY, stability, DAY, right_days=right_days)._replace(tries=9, right=right)
    whole = logit(promised) + sum(map(mul, found, habits.features(memory, promised)))
    assume(1 + found[1] > habits.LEAST_SLOPE)
    assert lens.slope * logit(promised) + habits.level(lens, memory) == pytest.approx(whole, abs=1e-9)


def along(lower: tuple[float, ...], x: tuple[float, ...]) -> list[float]:
    return [sum(map(mul, row_of(lower, i), x)) for i in range(habits.SIZE)]


@given(st.randoms(use_true_random=False))
def test_the_correction_learns_by_the_published_step(random: Random) -> None:
    """Sequential logistic regression (Spiegelhalter & Lauritzen 1990, from memory). With S and T the
    covariance before and after, p the chance, q what came: T⁻¹ = S⁻¹ + p(1-p)xxᵀ, and the mean moves by
    T x (q - p). The first is checked without an inverse, as T + p(1-p)(T x)(S x)ᵀ = S."""
    begun = [0.8 * PRIOR[i] * (i == j) for i in range(habits.SIZE) for j in range(i + 1)]  # no row is capped
    ways = Habits(weights=(0.0,) * habits.SIZE, spread=tuple(begun))
    for _ in range(12):
        memory = grown(KEY, random.uniform(0.5, 60), DAY, right_days=random.randrange(3))
        memory = memory._replace(tries=9, right=random.randrange(10))
        promised, came = random.uniform(0.3, 0.99), random.choice((0.0, 0.4, 1.0))
        x = habits.features(memory, promised)
        chance = sigmoid(logit(promised) + sum(map(mul, ways.weights, x)))
        after = habits.learned(ways, memory, timed(1000, slow_ms=0), came, promised)
        shrunk = tuple(value / habits.DRIFT for value in after.spread)
        before, now = along(ways.spread, x), along(shrunk, x)
        mean = [m + t * (came - chance) for m, t in zip(ways.weights, now, strict=True)]
        assert after.weights == pytest.approx(mean, abs=1e-4)
        steep = max(1e-4, chance * (1 - chance))
        whole = [
            [row_of(shrunk, i)[j] + steep * now[i] * before[j] for j in range(habits.SIZE)] for i in range(5)
        ]
        assert whole == [pytest.approx(row_of(ways.spread, i), abs=1e-4) for i in range(habits.SIZE)]
        ways = after


PRIOR = [sd**2 for sd in habits.PRIOR_SD]


def variances(ways: Habits) -> list[float]:
    return [row_of(ways.spread, i)[i] for i in range(habits.SIZE)]


def test_years_of_right_answers_leave_it_as_sure_as_it_was() -> None:
    """What no answer says anything of, as the share of misses of a child who has none, does not become ever
    less certain: or one miss in years would move every card."""
    keys, ways, cards = [f"sum:{a}+9" for a in range(2, 202)], Habits(), dict[str, CardMemory]()
    for n in range(20_000):
        key, day = keys[n % len(keys)], DAY + n // 20
        told = timed(1000, slow_ms=0)._replace(card=key, aim="accuracy")
        ways, cards[key] = answered(ways, cards.get(key), told, (day, n, 0, n))
    assert all(now <= prior + 1e-6 for now, prior in zip(variances(ways), PRIOR, strict=True))
    before = {key: habits.recall(ways, known, day + 1) or 0.0 for key, known in cards.items()}
    missed = timed(1000, mark="not_yet", slow_ms=0)._replace(card=key, aim="accuracy")
    ways, _ = answered(ways, cards[key], missed, (day + 1, n + 1, 0, n + 1))
    moved = [(habits.recall(ways, cards[other], day + 1) or 0.0) - before[other] for other in keys[:-1]]
    assert max(map(abs, moved)) < 0.03


@given(st.integers(0, 10_000))
def test_the_covariance_stays_one(seed: int) -> None:
    """No variance passes its prior, and none is that of something surer than sure: along any direction it is
    over 0."""
    random, ways = Random(seed), Habits()
    for _ in range(60):
        known = grown(KEY, random.uniform(0.5, 400), DAY, right_days=random.randrange(20))
        known = known._replace(tries=9, right=random.choice((9, 9, random.randrange(10))))
        ways = habits.learned(ways, known, timed(1000, slow_ms=0), 1.0, random.uniform(0.3, 0.999))
        assert all(now <= prior + 1e-6 for now, prior in zip(variances(ways), PRIOR, strict=True))
        x = tuple(random.gauss(0, 1) for _ in range(habits.SIZE))
        assert sum(map(mul, x, along(ways.spread, x))) > 0


@pytest.mark.parametrize("shift", [-1.2, 0.0, 0.9])
def test_a_curve_that_is_off_is_corrected(shift: float) -> None:
    """Children whose true log odds are the curve's and a constant more or less."""
    random, ways = Random(11), Habits()
    asked = []
    for _ in range(500):
        memory = grown(KEY, random.uniform(2, 40), DAY)
        days = random.randrange(1, 30)
        promised = curve.recall(memory.stability or 1, days)
        true = sigmoid(logit(promised) + shift)
        told, right = habits.recall(ways, memory, DAY + days) or 0.0, random.random() < true
        asked.append((told, true))
        answer = timed(1000, mark="right" if right else "not_yet", slow_ms=0)
        ways = habits.learned(ways, memory, answer, float(right), promised)
    late = asked[200:]
    assert abs(sum(told - true for told, true in late)) / len(late) < 0.05


def test_cards_recalled_on_more_days_are_surer_where_that_is_so() -> None:
    """Of a child who keeps what came on eight days and not what came on one, with the same by the curve."""
    often, once = (grown(KEY, 9, DAY)._replace(right_days=days) for days in (8, 1))
    ways = Habits()
    for _ in range(30):
        ways = habits.learned(ways, often, timed(1000, slow_ms=0), 1.0, 0.8)
        ways = habits.learned(ways, once, timed(1000, mark="not_yet", slow_ms=0), 0.0, 0.8)
    told = [habits.recall(ways, one, DAY + 9) or 0 for one in (often, once)]
    assert told[0] > told[1] + 0.4
    before = [habits.recall(Habits(), one, DAY + 9) or 0 for one in (often, once)]
    assert told[0] - told[1] > before[0] - before[1]


def test_what_needed_a_picture_was_promised_too_much() -> None:
    helped = timed(1000, mark="right_helped", slow_ms=0)._replace(help="picture")
    missed = timed(1000, mark="not_yet", slow_ms=0)
    after, other = (habits.learned(Habits(), grown(KEY, 9, DAY), one, 0.0, 0.8) for one in (helped, missed))
    assert after == other
    assert after.weights[0] < 0


def test_what_only_holds_a_gap_teaches_the_correction_nothing() -> None:
    guided = timed(1000, mark="right_helped", slow_ms=0)._replace(help="question", aim="accuracy")
    assert marking.effect(guided) == "hold"
    assert habits.learned(Habits(), grown(KEY, 9, DAY), guided, 0.0, 0.8) == Habits()


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
