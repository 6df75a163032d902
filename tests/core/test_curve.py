import csv
from hashlib import sha256
from importlib.metadata import version

import pytest
from fsrs.scheduler import DEFAULT_PARAMETERS
from hypothesis import given
from hypothesis import strategies as st

from review.core import curve
from tests.tables import DATA

LINES = list(csv.reader((DATA / "fsrs_curve.csv").read_text().splitlines()))[1:]
PUBLISHED = {
    (line[0], line[1]): line[2] for line in csv.reader((DATA / "fsrs_published.csv").read_text().splitlines())
}

stabilities = st.floats(0.01, 5000)


# Values of two independent libraries, ts-fsrs 5.4.2 (8 decimals) and fsrs-rs-python 0.9.3 (32-bit).
@pytest.mark.parametrize("line", LINES, ids=lambda line: "-".join(line[:3]))
def test_curve_against_other_libraries(line: list[str]) -> None:
    a, b, formula, theirs = (float(line[n]) for n in (1, 2, 3, 5))
    ours = curve.interval(a, b) if line[0].startswith("interval") else curve.recall(b, a)
    assert ours == pytest.approx(formula, rel=1e-12)
    assert ours == pytest.approx(theirs, rel=2e-6, abs=6e-9)


# Published in the tests of fsrs-rs, src/model.rs and src/inference.rs (32-bit).
def test_curve_against_published_values() -> None:
    told = PUBLISHED[
        "fsrs-rs src/model.rs test_power_forgetting_curve", "R(0,1) R(1,2) R(2,3) R(3,4) R(4,4) R(5,2)"
    ]
    points = ((0, 1), (1, 2), (2, 3), (3, 4), (4, 4), (5, 2))
    assert [curve.recall(s, t) for t, s in points] == pytest.approx(
        [float(v) for v in told.split()], rel=2e-6
    )
    key = (
        "fsrs-rs src/inference.rs test_next_interval",
        "S=1, desired retention 0.1..1.0, rounded, at least 1",
    )
    gaps = [max(1, round(curve.interval(1, n / 10))) for n in range(1, 11)]
    assert gaps == pytest.approx([int(v) for v in PUBLISHED[key].split()], rel=1e-5)


def test_constants_are_those_installed() -> None:
    assert curve.PARAMETERS == DEFAULT_PARAMETERS
    assert version("fsrs") == curve.LIBRARY
    digest = sha256(",".join(map(repr, DEFAULT_PARAMETERS)).encode()).hexdigest()[:8]
    assert digest == curve.DIGEST
    assert f"{curve.FOLD_RULE}/{version('fsrs')}/{digest}" == curve.FOLD_VERSION


@given(stabilities, st.floats(0.3, 0.99))
def test_interval_undoes_recall(stability: float, target: float) -> None:
    assert curve.recall(stability, curve.interval(stability, target)) == pytest.approx(target)


@given(stabilities, st.integers(0, 4000), st.integers(0, 4000))
def test_recall_falls_with_days(stability: float, a: int, b: int) -> None:
    soon, late = sorted((a, b))
    assert 0 < curve.recall(stability, late) <= curve.recall(stability, soon) <= 1
    assert curve.recall(stability, -3) == 1


def test_longest_gaps_are_earned_by_three_rights_each() -> None:
    assert [curve.longest(n) for n in range(9)] == [14, 14, 14, 60, 60, 60, 120, 120, 120]
    assert [curve.longest(n, 90) for n in (0, 3, 6)] == [90, 90, 120]
    assert curve.longest(0, 10) == 10
