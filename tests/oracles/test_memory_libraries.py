"""Our step of the memory model against independent libraries on random histories.

fsrs 6.3.2 in Python (64-bit) and fsrs-rs-python 0.9.3 in Rust (32-bit) run here; of ts-fsrs 5.4.2 in
TypeScript (8 decimals a step) the states of the first 400 stand in tests/data/memory_states.csv. All 3,000
were compared when it was made: 1.8e-7 apart at most.
"""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from functools import cache
from random import Random

import fsrs_rs_python as rust
import pytest
from fsrs import Card, Rating, Scheduler, State
from fsrs.scheduler import LOWER_BOUNDS_PARAMETERS, UPPER_BOUNDS_PARAMETERS

from review.app import full_fit
from review.core import curve, parameter_search, strength, trace
from review.core.strength import Parameters, Strength
from review.core.trace import Step
from tests.core.scores import log_loss
from tests.core.test_parameter_search import child
from tests.tables import rows

NOON = datetime(2026, 1, 1, 12, tzinfo=UTC)
RATINGS = {False: Rating(1), True: Rating(3)}
LINES = rows("memory_states.csv")

History = Sequence[tuple[int, int]]
"""Ratings of 1 and 3, with the days since the one before."""


@cache
def random_histories(count: int = 3000) -> tuple[History, ...]:
    """Up to twelve answers each, two in three retrieved, from the same day to a year apart."""
    random = Random(20261126)
    gaps = (0, 0, 1, 1, 2, 3, 5, 8, 13, 21, 34, 60, 120, 365)
    return tuple(
        tuple(
            (random.choice((1, 3, 3)), random.choice(gaps) if n else 0) for n in range(random.randint(1, 12))
        )
        for _ in range(count)
    )


def ours(history: History, w: Parameters = curve.PARAMETERS) -> Strength:
    strength: Strength | None = None
    for rating, days in history:
        strength = trace.after(w, strength, Step(0, days, "try", float(rating == 3)))
    assert strength is not None
    return strength


def python(history: History, w: Parameters = curve.PARAMETERS) -> Strength:
    scheduler = Scheduler(w, learning_steps=(), relearning_steps=(), enable_fuzzing=False)
    card, now = Card(1, State.Learning, 0, None, None, NOON, None), NOON
    for rating, days in history:
        now += timedelta(days=days)
        card, _ = scheduler.review_card(card, Rating(rating), now)
    assert card.stability is not None
    assert card.difficulty is not None
    return Strength(card.stability, card.difficulty)


def test_histories_have_the_bits_of_the_library() -> None:
    for history in random_histories():
        assert ours(history) == python(history)


def any_parameters(random: Random) -> Parameters:
    """Anywhere within what is allowed."""
    return tuple(random.uniform(least, most) for least, most in strength.BOUNDS)


@pytest.mark.parametrize("seed", range(5))
def test_steps_have_the_bits_of_the_library(seed: int) -> None:
    """100,000 in all, half of them by the published defaults, from any strength as memory keeps it: so that
    values rounded to 6 decimals are the same ones, whichever of the two reckoned them."""
    random = Random(seed)
    for w in (curve.PARAMETERS, any_parameters(random)):
        scheduler = Scheduler(w, learning_steps=(), relearning_steps=(), enable_fuzzing=False)
        for _ in range(10_000):
            old = strength.rounded(random.lognormvariate(1.5, 2) + 0.001, random.uniform(1, 10))
            days, retrieved = random.choice((0, 1, 2, 3, 5, 8, 14, 40, 120, 1000)), random.random() < 0.7
            card = Card(1, State.Review, None, old.stability, old.difficulty, NOON, NOON)
            new, _ = scheduler.review_card(card, RATINGS[retrieved], NOON + timedelta(days=days))
            assert strength.moved(old, days, retrieved, w) == (new.stability, new.difficulty)


def test_against_a_library_of_32_bits() -> None:
    items = [rust.FSRSItem([rust.FSRSReview(*one) for one in history]) for history in random_histories()]
    theirs = rust.FSRS(list(curve.PARAMETERS)).memory_state_batch(items)
    for history, state in zip(random_histories(), theirs, strict=True):
        assert ours(history) == pytest.approx((state.stability, state.difficulty), rel=1e-5)


@pytest.mark.parametrize("n", range(0, 400, 40))
def test_against_a_library_in_another_language(n: int) -> None:
    assert len(LINES) == 400
    for line, history in zip(LINES[n : n + 40], random_histories()[n : n + 40], strict=True):
        assert line["history_rating@days"] == " ".join(f"{rating}@{days}" for rating, days in history)
        theirs = float(line["stability_ts_fsrs_5.4.2"]), float(line["difficulty_ts_fsrs_5.4.2"])
        assert ours(history) == pytest.approx(theirs, rel=1e-6, abs=5e-8)


def test_other_parameters_against_the_library_that_memory_keeps() -> None:
    random = Random(7)
    for history in random_histories()[:300]:
        three = parameter_search.scaled(tuple(random.gauss(0, 0.6) for _ in range(3)))
        for w in (three, any_parameters(random)):
            assert ours(history, w) == python(history, w)


def test_recall_for_any_decay_against_the_library() -> None:
    for decay in (0.1, 0.1542, 0.3, 0.5, 0.8):
        scheduler = Scheduler((*curve.PARAMETERS[:20], decay))
        for stability in (0.01, 0.5, 3.0, 40.0, 900.0):
            card = Card(1, State.Review, None, stability, 5.0, NOON, NOON)
            for days in (0, 1, 7, 21, 120, 2000):
                theirs = scheduler.get_card_retrievability(card, NOON + timedelta(days=days))
                assert curve.recall(stability, days, decay) == pytest.approx(theirs, rel=1e-12)


def test_bounds_are_the_librarys() -> None:
    assert tuple(zip(LOWER_BOUNDS_PARAMETERS, UPPER_BOUNDS_PARAMETERS, strict=True)) == strength.BOUNDS
    assert strength.clamped(curve.PARAMETERS) == curve.PARAMETERS


# --- the library that fits them all ---


def test_a_history_in_its_terms() -> None:
    history = (
        Step(1, 0, "try", 1, 7.0), Step(8, 7, "hold"), Step(20, 12, "try", 0.0), Step(20, 0, "look"),
        Step(21, 1, "halve"), Step(25, 4, "try", 0.7), Step(25, 0, "known", least=7.0),
    )  # fmt: skip
    told = list(full_fit.tries(history))
    assert told == [
        (20, [(4, 0), (1, 12)]),
        (25, [(4, 0), (1, 12), (3, 0), (3, 4)]),
    ]
    assert list(full_fit.tries((Step(1, 0, "known", least=7.0), Step(9, 8, "try")))) == [
        (9, [(4, 0), (3, 8)])
    ]
    assert list(full_fit.tries((Step(1, 0, "halve"),))) == []


def test_items_come_in_the_order_of_the_days() -> None:
    one = (Step(1, 0, "try"), Step(9, 8, "try"), Step(30, 21, "try"))
    other = (Step(2, 0, "try"), Step(5, 3, "try"))
    assert [reviews[-1] for reviews in full_fit.in_order([one, other])] == [(3, 3), (3, 8), (3, 21)]
    assert len(full_fit.items([one, other])) == 3


def test_what_it_finds_explains_more_and_stays_within_bounds() -> None:
    histories = child(1, parameter_search.scaled((-1.2, -0.9, 0.3)), 120, 90)
    found = full_fit.every_parameter(histories)
    assert found is not None
    assert found == full_fit.every_parameter(histories) == strength.clamped(found)
    losses = [log_loss(parameter_search.promised(w, histories)) for w in (found, curve.PARAMETERS)]
    assert losses[0] < losses[1] - 0.01
