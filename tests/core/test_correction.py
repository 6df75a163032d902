"""What the forgetting curve misses: corrected recall, and what first tries teach of it."""

from operator import mul
from random import Random

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from review.core import correction, curve, habits, marking
from review.core.correction import logit, sigmoid
from review.core.memory import answered
from review.core.model import CardMemory, Habits
from tests.core.stock import DAY, UNCORRECTED, grown
from tests.core.weighed import KEY, strengths, timed, weights


@given(weights, strengths)
def test_corrected_recall_falls_with_the_days(found: tuple[float, ...], stability: float) -> None:
    ways, memory = Habits(weights=found), grown(KEY, stability, DAY)
    recalls = [correction.recall(ways, memory, DAY + day) or 0.0 for day in range(0, 200, 5)]
    assert recalls == sorted(recalls, reverse=True)
    assert all(0 <= recall <= 1 for recall in recalls)


def test_without_weights_recall_is_the_curves() -> None:
    memory = grown(KEY, 9.0, DAY)
    assert correction.recall(UNCORRECTED, memory, DAY + 5) == pytest.approx(curve.recall(9.0, 5))
    assert correction.recall(UNCORRECTED, CardMemory(KEY), DAY) is None


def test_the_curve_is_that_of_the_childs_own_fit() -> None:
    """The decay is the last of the model's 21 parameters."""
    fitted = Habits(weights=UNCORRECTED.weights, parameters=(*curve.PARAMETERS[:20], 0.5))
    found = correction.recall(fitted, grown(KEY, 9.0, DAY), DAY + 90)
    assert found == pytest.approx(curve.recall(9.0, 90, 0.5))
    assert found != pytest.approx(curve.recall(9.0, 90), abs=0.01)


@pytest.mark.parametrize("odds", [-1e6, -800.0, -31.0, 31.0, 800.0, 1e6])
def test_no_odds_are_too_long_for_a_chance(odds: float) -> None:
    assert sigmoid(odds) == pytest.approx(float(odds > 0))


def test_before_anything_was_learned_days_of_recall_tell_cards_apart() -> None:
    """Recalled on three days, a card that keeps for ten is at nine tenths after ten, as the curve says; on
    fewer it is less sure, on more it is surer. What a parent says is known is as if recalled on three."""
    days = [grown(KEY, 10.0, DAY)._replace(right_days=n) for n in range(9)]
    told = [correction.recall(Habits(), one, DAY + 10) or 0.0 for one in days]
    assert told == sorted(told)
    assert told[correction.USUAL_DAYS] == pytest.approx(0.9)
    assert told[0] < 0.8
    assert told[-1] > 0.94
    said = [correction.recall(Habits(), one._replace(known=True), DAY + 10) for one in days]
    assert said == [max(told[correction.USUAL_DAYS], other) for other in told]


def row_of(lower: tuple[float, ...], i: int) -> list[float]:
    """A row of a covariance kept as its lower half."""
    return [lower[max(i, j) * (max(i, j) + 1) // 2 + min(i, j)] for j in range(correction.SIZE)]


@given(weights, strengths, st.integers(0, 3), st.integers(0, 9), st.floats(0.3, 0.99))
def test_the_level_of_a_card_is_what_the_weights_weigh(
    found: tuple[float, ...], stability: float, right_days: int, right: int, promised: float
) -> None:
    """The quick way for many cards, against the features that are learned from."""
    lens = correction.lens(Habits(weights=found))
    memory = grown(KEY, stability, DAY, right_days=right_days)._replace(tries=9, right=right)
    whole = logit(promised) + sum(map(mul, found, correction.features(memory, promised)))
    assume(1 + found[1] > correction.LEAST_SLOPE)
    assert lens.slope * logit(promised) + correction.level(lens, memory) == pytest.approx(whole, abs=1e-9)


def along(lower: tuple[float, ...], x: tuple[float, ...]) -> list[float]:
    return [sum(map(mul, row_of(lower, i), x)) for i in range(correction.SIZE)]


@given(st.randoms(use_true_random=False))
def test_the_correction_learns_by_the_published_step(random: Random) -> None:
    """Sequential logistic regression (Spiegelhalter & Lauritzen 1990, from memory). With S and T the
    covariance before and after, p the chance, q what came: T⁻¹ = S⁻¹ + p(1-p)xxᵀ, and the mean moves by
    T x (q - p). The first is checked without an inverse, as T + p(1-p)(T x)(S x)ᵀ = S."""
    begun = [
        0.8 * PRIOR[i] * (i == j) for i in range(correction.SIZE) for j in range(i + 1)
    ]  # no row is capped
    ways = Habits(weights=(0.0,) * correction.SIZE, spread=tuple(begun))
    for _ in range(12):
        memory = grown(KEY, random.uniform(0.5, 60), DAY, right_days=random.randrange(3))
        memory = memory._replace(tries=9, right=random.randrange(10))
        promised, came = random.uniform(0.3, 0.99), random.choice((0.0, 0.4, 1.0))
        x = correction.features(memory, promised)
        chance = sigmoid(logit(promised) + sum(map(mul, ways.weights, x)))
        after = habits.learned(ways, memory, timed(1000, slow_ms=0), came, promised)
        shrunk = tuple(value / correction.DRIFT for value in after.spread)
        before, now = along(ways.spread, x), along(shrunk, x)
        mean = [m + t * (came - chance) for m, t in zip(ways.weights, now, strict=True)]
        assert after.weights == pytest.approx(mean, abs=1e-4)
        steep = max(1e-4, chance * (1 - chance))
        whole = [
            [row_of(shrunk, i)[j] + steep * now[i] * before[j] for j in range(correction.SIZE)]
            for i in range(5)
        ]
        assert whole == [pytest.approx(row_of(ways.spread, i), abs=1e-4) for i in range(correction.SIZE)]
        ways = after


PRIOR = [sd**2 for sd in correction.PRIOR_SD]


def variances(ways: Habits) -> list[float]:
    return [row_of(ways.spread, i)[i] for i in range(correction.SIZE)]


def test_years_of_right_answers_leave_it_as_sure_as_it_was() -> None:
    """What no answer says anything of, as the share of misses of a child who has none, does not become ever
    less certain: or one miss in years would move every card."""
    keys, ways, cards = [f"sum:{a}+9" for a in range(2, 202)], Habits(), dict[str, CardMemory]()
    for n in range(20_000):
        key, day = keys[n % len(keys)], DAY + n // 20
        told = timed(1000, slow_ms=0)._replace(card=key, aim="accuracy")
        ways, cards[key] = answered(ways, cards.get(key), told, (day, n, 0, n))
    assert all(now <= prior + 1e-6 for now, prior in zip(variances(ways), PRIOR, strict=True))
    before = {key: correction.recall(ways, known, day + 1) or 0.0 for key, known in cards.items()}
    missed = timed(1000, mark="not_yet", slow_ms=0)._replace(card=key, aim="accuracy")
    ways, _ = answered(ways, cards[key], missed, (day + 1, n + 1, 0, n + 1))
    moved = [(correction.recall(ways, cards[other], day + 1) or 0.0) - before[other] for other in keys[:-1]]
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
        x = tuple(random.gauss(0, 1) for _ in range(correction.SIZE))
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
        told, right = correction.recall(ways, memory, DAY + days) or 0.0, random.random() < true
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
    told = [correction.recall(ways, one, DAY + 9) or 0 for one in (often, once)]
    assert told[0] > told[1] + 0.4
    before = [correction.recall(Habits(), one, DAY + 9) or 0 for one in (often, once)]
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
