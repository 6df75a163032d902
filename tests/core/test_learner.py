import statistics
from math import log
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import learner
from review.core.learner import Learner, plausible, slipped
from review.core.model import Problem
from tests.core.stock import DAY
from tests.tables import rows


def problem(asked: str, expected: str) -> Problem:
    kind = "product" if "x" in asked else "sum"
    return Problem(f"{kind}:{asked}", kind, asked, "", "", "whole", expected, "")


SEVENS = problem("6x7", "42")
SMALL = problem("2+3", "5")


def chances(days: list[int], asked_on: int, seeds: int = 60) -> float:
    """Mean chance over children who met a fact once on each of some days."""
    told = []
    for seed in range(seeds):
        child = Learner(seed, 8, prior=0)
        for day in days:
            child.taught("product:6x7", day)
        told.append(child.chance("product:6x7", asked_on))
    return statistics.mean(told)


def test_the_same_seed_is_the_same_child() -> None:
    one, two, other = Learner(1, 8), Learner(1, 8), Learner(2, 8)
    runs = [
        [child.answer(SEVENS, "product:6x7", DAY + n, True) for n in range(20)] for child in (one, two, other)
    ]
    assert runs[0] == runs[1] != runs[2]


def test_what_was_never_met_is_not_recalled() -> None:
    assert Learner(1, 8, prior=0).chance("product:6x7", DAY) == 0
    known = sum(Learner(seed, 8, prior=0.3).chance("product:6x7", DAY) > 0 for seed in range(400))
    assert 0.2 < known / 400 < 0.4


def test_memory_fades_and_practice_mends_it() -> None:
    fading = [chances([DAY], DAY + n) for n in (0, 1, 3, 10, 40)]
    assert fading == sorted(fading, reverse=True)
    assert fading[0] > 0.9 > 0.3 > fading[-1]
    assert chances([DAY, DAY + 1, DAY + 3], DAY + 10) > fading[3]


# Pavlik & Anderson (2005): spaced practice is forgotten more slowly than massed practice.
def test_spaced_practice_lasts_longer() -> None:
    massed, spaced = [DAY + 8] * 4, [DAY, DAY + 3, DAY + 5, DAY + 8]
    assert chances(spaced, DAY + 30) > chances(massed, DAY + 30) + 0.05


# Ebbinghaus' savings of 1880 fall steeply first, then slowly, about as the logarithm of time. The simulated
# memory must fall so too.
def test_forgetting_has_the_published_shape() -> None:
    lines = rows("savings_1880.csv")
    published = [float(line["savings"]) for line in lines]
    trace = [(0.0, learner.DECAY_BASE)]
    hours = [float(line["delay_hours"]) for line in lines]
    ours = [Learner._activation(trace, learner.DAY_S * hour / 24) for hour in hours]
    assert ours == sorted(ours, reverse=True)
    assert statistics.correlation(ours, published) > 0.95
    assert statistics.correlation([log(hour) for hour in hours], published) < -0.95


def test_ability_speed_and_age_tell() -> None:
    def mean_time(child: Learner) -> float:
        child.taught("sum:2+3", DAY)
        return statistics.mean(child.answer(SMALL, "sum:2+3", DAY, True).end_ms for _ in range(40))

    assert mean_time(Learner(1, 8, speed=2)) < mean_time(Learner(1, 8, speed=1)) / 1.2
    assert mean_time(Learner(1, 11)) < mean_time(Learner(1, 7))
    weak, able = (Learner(3, 8, ability=a, prior=0) for a in (-0.5, 0.5))
    for child in (weak, able):
        child.taught("product:6x7", DAY)
    assert able.chance("product:6x7", DAY + 3) > weak.chance("product:6x7", DAY + 3)


# Groen & Parkman (1972): first-graders take about 0.4 s more for each unit of the smaller addend.
def test_working_out_takes_a_counting_step_a_unit() -> None:
    means = {}
    for small in (2, 6):
        asked = problem(f"9+{small}", str(9 + small))
        times = []
        for seed in range(300):
            heard = Learner(seed, 8, prior=0).answer(asked, asked.card, DAY, True)
            times.append(heard.first_ms / 1000)
        means[small] = statistics.mean(times)
    assert (means[6] - means[2]) / 4 == pytest.approx(0.44, abs=0.1)


def test_what_takes_too_long_is_left_empty_or_guessed() -> None:
    heard = [Learner(seed, 7, prior=0).answer(SEVENS, "product:6x7", DAY, True).text for seed in range(200)]
    assert 0.5 < heard.count("") / 200 < 0.9
    assert "42" not in heard


def test_copies_are_mostly_right() -> None:
    child = Learner(1, 8)
    right = sum(child.copied(SEVENS, DAY).text == "42" for _ in range(500))
    assert 470 <= right < 500


def test_procedures_are_learned() -> None:
    hard = problem("47+25", "72")
    shares = []
    for lessons in (0, 6):
        heard = []
        for seed in range(150):
            child = Learner(seed, 8, prior=0)
            for n in range(lessons):
                child.taught("mental-sum:2+2/regroup-ones", DAY + n)
            heard.append(child.answer(hard, "mental-sum:2+2/regroup-ones", DAY + 7, False).text == "72")
        shares.append(statistics.mean(heard))
    assert shares[0] < 0.6 < 0.8 < shares[1]


@given(st.integers(0, 9), st.integers(0, 9), st.randoms(use_true_random=False))
def test_wrong_answers_are_wrong_and_plausible(a: int, b: int, random: Random) -> None:
    asked = problem(f"{a}x{b}", str(a * b))
    wrong = plausible(asked, random)
    assert wrong not in ("", asked.expected)
    assert wrong.isdigit()


@given(st.text(alphabet="0123456789<>=:/ rabcXIV", min_size=1, max_size=9), st.randoms(use_true_random=False))
def test_a_slip_is_never_the_same_nor_a_word_that_means_something(text: str, random: Random) -> None:
    slip = slipped(text, random)
    assert slip != text
    assert slip not in ("", "?", "pass", "stop")


# Wrong products are often those of a neighbouring row or column (Campbell & Graham 1985). Here a quarter of
# the wrong answers is made so.
def test_wrong_products_are_often_neighbours() -> None:
    random = Random(5)
    wrong = [plausible(SEVENS, random) for _ in range(400)]
    assert 0.15 < sum(text in ("35", "36", "48", "49") for text in wrong) / 400 < 0.4


def test_times_are_in_order() -> None:
    child = Learner(9, 9)
    for n in range(200):
        heard = child.answer(SMALL, "sum:2+3", DAY + n // 10, True)
        assert 250 <= heard.first_ms < heard.end_ms < 60_000
