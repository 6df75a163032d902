"""The memory model's step against what others publish and reckon."""

import csv

import pytest

from review.core import curve, memory
from review.core.model import CardMemory
from review.core.strength import Strength, moved, rounded
from tests.core.stock import DAY
from tests.tables import DATA, rows

VECTORS = [
    line
    for line in rows("fsrs_vectors.csv")
    if not {one[0] for one in line["history_rating@days"].split()} - {"1", "3"}  # we give no others
]
PUBLISHED = {line[1]: line[2] for line in csv.reader((DATA / "fsrs_published.csv").read_text().splitlines())}


def walk(history: str, parameters: tuple[float, ...] = curve.PARAMETERS) -> Strength:
    """A history like `3@0 1@2`: rating @ days since the one before; 1 not retrieved, 3 retrieved."""
    strength: Strength | None = None
    for one in history.split():
        rating, days = map(int, one.split("@"))
        strength = rounded(*moved(strength, days, rating == 3, parameters))
    assert strength is not None
    return strength


# States of three independent libraries: fsrs 6.3.2, fsrs-rs-python 0.9.3 (32-bit), ts-fsrs 5.4.2 (8 places).
# Ours are rounded to 6 decimals after each step, which small stabilities feel most.
@pytest.mark.parametrize("line", VECTORS, ids=lambda line: line["history_rating@days"])
def test_states_against_three_libraries(line: dict[str, str]) -> None:
    ours = walk(line["history_rating@days"])
    for name in ("py_fsrs_6.3.2", "fsrs_rs_python_0.9.3", "ts_fsrs_5.4.2"):
        assert ours.stability == pytest.approx(float(line[f"stability_{name}"]), rel=1e-5, abs=2e-6)
        assert ours.difficulty == pytest.approx(float(line[f"difficulty_{name}"]), rel=2e-6, abs=2e-6)


# Published in the tests of fsrs-rs (src/inference.rs, src/model.rs), py-fsrs and ts-fsrs.
def test_states_against_published_ones() -> None:
    history = "1@0 3@0 3@1 3@3 3@8 3@21"
    told = PUBLISHED["ratings 1,3,3,3,3,3 after 0,0,1,3,8,21 days: S D"].split()
    assert walk(history) == pytest.approx(tuple(map(float, told)), rel=1e-5)
    told = PUBLISHED["same, w17=w18=w19=0: S D"].split()
    no_same_day = (*curve.PARAMETERS[:17], 0.0, 0.0, 0.0, curve.PARAMETERS[20])
    assert walk(history, no_same_day) == pytest.approx(tuple(map(float, told)), rel=1e-5)


def test_single_steps_against_published_ones() -> None:
    told = PUBLISHED["same-day branch S=5, ratings 1..4"].split()
    steps = [moved(Strength(5.0, 5.0), 0, retrieved).stability for retrieved in (False, True)]
    assert steps == pytest.approx([float(told[0]), float(told[2])], rel=2e-6)
    told = PUBLISHED["D=5, ratings 1..4, after mean reversion"].split()
    steps = [moved(Strength(5.0, 5.0), 1, retrieved).difficulty for retrieved in (False, True)]
    assert steps == pytest.approx([float(told[0]), float(told[2])], rel=2e-6)


# Published in py-fsrs tests/test_basic.py and ts-fsrs: the days it leaves when every review comes when due.
def test_intervals_against_published_ones() -> None:
    told = [*map(int, PUBLISHED["due when due, ratings 3x6 then 1,1 then 3x5, default steps: days"].split())]
    strength: Strength | None = None
    days, gaps = 0, list[int]()
    for rating, steps in zip((3, 3, 3, 3, 3, 3, 1, 1, 3, 3, 3, 3, 3), told, strict=True):
        strength = rounded(*moved(strength, days, rating == 3))
        days = round(curve.interval(strength.stability, 0.9)) if steps else 0  # 0: a step of minutes
        gaps.append(days)
    assert gaps == told


def test_recall_is_the_librarys_own() -> None:
    from datetime import UTC, datetime, timedelta

    from fsrs import Card, Scheduler, State

    noon = datetime(2026, 1, 1, 12, tzinfo=UTC)
    its = Card(1, State.Review, None, 7.5, 5.0, noon, noon)
    for days in (0, 1, 30, 400):
        ours = memory.recall(CardMemory("k", 7.5, 5.0, last_day=DAY), DAY + days)
        theirs = Scheduler().get_card_retrievability(its, noon + timedelta(days=days))
        assert ours == pytest.approx(theirs, rel=1e-12)
    assert memory.recall(CardMemory("k"), DAY) is None
