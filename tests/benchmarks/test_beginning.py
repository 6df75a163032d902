"""The fit of the weights that a child's correction begins with."""

from random import Random

import pytest

from review.core import correction
from tests.benchmarks.learning.beginning import Played, Seen, apart, fitted, played, said, solved

TRUE = (-0.4, 0.3, -0.2, 0.8, 0.1)


def drawn(seed: int, count: int) -> Played:
    """Cards of one child for whom these weights are the whole truth."""
    random = Random(seed)
    seen = []
    for _ in range(count):
        one = Seen((1.0, *(random.uniform(-1, 1) for _ in TRUE[1:])), random.uniform(-1, 3), 0.0, 0.0)
        seen.append(one._replace(true=correction.sigmoid(said(one, TRUE))))
    return Played("", seed, 400, 5.0, tuple(seen))


def test_weights_that_are_the_whole_truth_are_found() -> None:
    """But for the ridge, which pulls a little: 3 against ten seasons of 1,000."""
    assert fitted([drawn(n, 30 * n) for n in range(1, 11)]) == pytest.approx(TRUE, abs=0.01)


def test_a_season_weighs_the_same_however_many_cards_it_met() -> None:
    few, many = drawn(1, 50), drawn(2, 50)
    twice = many._replace(seen=(*many.seen, *many.seen))
    assert fitted([few, twice]) == pytest.approx(fitted([few, many]))


def test_the_truth_tells_cards_apart_wholly() -> None:
    seasons = [drawn(3, 80), drawn(4, 80)]
    assert apart(seasons, TRUE) == pytest.approx(1)
    assert apart(seasons, (0.0,) * len(TRUE)) < 0.95


def test_linear_equations_are_solved() -> None:
    assert solved([[4, 1, 0], [1, 3, 1], [0, 1, 2]], [6, 10, 8]) == pytest.approx([1, 2, 3])


def test_a_season_tells_of_every_measured_card_each_tenth_morning() -> None:
    first, *_ = played(("strengths", 1, 100, 2.5)).seen
    assert len(first.features) == len(correction.PRIOR_MEAN)
    assert first.features[0] == 1
    assert 0 < first.true < 1
