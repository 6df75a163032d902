"""What a simulated child remembers: nine accounts of memory, held to what all of memory is known to do."""

from itertools import pairwise, product
from math import isclose, log

import pytest
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st

from tests.benchmarks.learning.memories import Activation
from tests.benchmarks.learning.outsiders import ACCOUNTS, Fragility, Halving, Windows

USUAL = [0.0]
HOWS = st.sampled_from(["retrieved", "worked", "shown"])
MODELS = pytest.mark.parametrize("model", ACCOUNTS)


def after(model: str, days: list[float], delay: float) -> float:
    """Recall some days after the last of these practices, of a usual card and child."""
    memory = ACCOUNTS[model](USUAL, 0.0)
    for day in days:
        memory.practise(0, day, "retrieved")
    return memory.recall(0, days[-1] + delay)


@MODELS
@given(
    history=st.lists(st.tuples(st.floats(0.001, 40), HOWS), min_size=1, max_size=12), able=st.floats(-2, 2)
)
@examples(max_examples=60, deadline=None)
def test_recall_is_a_chance_and_falls(model: str, history: list[tuple[float, str]], able: float) -> None:
    memory, now = ACCOUNTS[model]([able / 2], able), 0.0
    for gap, how in history:
        now += gap
        memory.practise(0, now, how)  # type: ignore[arg-type]
    chances = [memory.recall(0, now + delay) for delay in (0.001, 1, 3, 10, 30, 100, 300)]
    assert all(0 <= chance <= 1 for chance in chances)
    assert all(later <= earlier + 1e-9 for earlier, later in pairwise(chances))


@MODELS
def test_nothing_is_recalled_of_a_card_never_met(model: str) -> None:
    assert ACCOUNTS[model](USUAL, 0.0).recall(0, 5.0) < 0.01


@MODELS
@pytest.mark.parametrize("delay", [1, 7, 30])
def test_practice_on_more_days_is_better(model: str, delay: float) -> None:
    chances = [after(model, [float(day) for day in range(n)], delay) for n in range(1, 10)]
    assert all(more > fewer or more == 1 for fewer, more in pairwise(chances))


SPACED = [(1, 7), (11, 35), (21, 70)]


@pytest.mark.parametrize(
    ("model", "gap", "delay"),
    [
        (model, *pair)
        for model, pair in product(ACCOUNTS, SPACED)
        if model != "halving" or pair == SPACED[0]  # by halves nothing is left after eleven days, either way
    ],
)
def test_spaced_practice_lasts_longer(model: str, gap: float, delay: float) -> None:
    """Gaps that were best for these delays, against none (Cepeda, Vul, Rohrer, Wixted & Pashler 2008; the
    pairs from memory)."""
    massed = [0, 0.001, 0.002]
    assert after(model, [0, gap, 2 * gap], delay) > after(model, massed, delay) + 0.02


@MODELS
@pytest.mark.parametrize("days", [[0.0], [0.0, 1.0], [0.0, 1.0, 3.0, 7.0]])
def test_a_part_of_a_practice_helps_and_helps_less_than_all(model: str, days: list[float]) -> None:
    def recall(share: float, delay: float) -> float:
        memory = ACCOUNTS[model](USUAL, 0.0)
        for day in days:
            memory.practise(0, day, "retrieved")
        if share:
            memory.practise(0, days[-1] + 5, "retrieved", share)
        return memory.recall(0, days[-1] + 5 + delay)

    for delay in (0.5, 2, 10, 40):
        assert recall(0, delay) < recall(0.2, delay) < recall(1, delay) or recall(0, delay) == 1


@MODELS
def test_the_able_and_the_simple_are_recalled_better(model: str) -> None:
    def recall(hard: float, able: float) -> float:
        memory = ACCOUNTS[model]([hard], able)
        memory.practise(0, 1.0, "retrieved")
        memory.practise(0, 3.0, "retrieved")
        return memory.recall(0, 6.0)

    if model != "strengths":  # where the shape of a child's curve goes with the child
        assert recall(0, 1) > recall(0, 0) > recall(0, -1)
    assert recall(-1, 0) > recall(0, 0) > recall(1, 0)


def test_activation_is_that_of_the_paper() -> None:
    """By hand: a first trace decays with a alone; after 100 s, m = -.177 ln 100 (Pavlik & Anderson 2005,
    the equations from memory)."""
    memory = Activation(USUAL, 0.0)
    memory.practise(0, 1.0, "retrieved")
    m = -0.177 * log(100) + Activation.LESSON
    odds = memory.recall(0, 1.0 + 100 / 86_400)
    assert isclose(log(odds / (1 - odds)), (m + 0.704) / 0.255, rel_tol=1e-6)


def test_half_is_recalled_after_a_half_life() -> None:
    memory = Halving(USUAL, 0.0)
    memory.practise(0, 1.0, "shown")
    assert memory.recall(0, 1.0 + Halving.FIRST) == pytest.approx(0.5)
    assert memory.recall(0, 1.0 + 3 * Halving.FIRST) == pytest.approx(0.125)


def test_windows_are_those_of_the_paper() -> None:
    """Each counts the practices within it: log odds fall where one leaves it, and nowhere else (Lindsey,
    Shroyer, Pashler & Mozer 2014; the windows from memory)."""
    memory = Windows(USUAL, 0.0)
    memory.practise(0, 0.0, "retrieved")
    chances = [memory.recall(0, at) for at in (0.5 / 24, 2 / 24, 0.9, 1.1, 6.9, 7.1, 29.9, 30.1, 300.0)]
    falls = [later < earlier for earlier, later in pairwise(chances)]
    assert falls == [True, False, True, False, True, False, True, False]


def test_a_trace_falls_along_a_power_of_its_age() -> None:
    """Wickelgren 1974, from memory: where 1 + 4 · age doubles, strength falls by the same share."""
    memory = Fragility(USUAL, 0.0)
    memory.practise(0, 0.0, "shown")
    strengths = [-log(1 - memory.recall(0, (2**n - 1) / 4)) for n in range(6)]
    assert [later / earlier for earlier, later in pairwise(strengths)] == pytest.approx([2**-0.75] * 5)
