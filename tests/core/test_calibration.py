import tomllib
from collections.abc import Sequence
from math import log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import calibration, correction, memory
from review.core.calibration import Promise, bands, promises, wilson
from review.core.model import Habits
from tests.core.scores import Scored, log_loss, recency, rmse_bins
from tests.core.stock import DAY, event, plain, told
from tests.tables import DATA, rows

LINES = rows("fsrs_metric.csv")
SCORES = tomllib.loads((DATA / "fsrs_metric.toml").read_text())


def promise(line: dict[str, str]) -> Scored:
    """A history like `3@0 1@2`, rating @ days since the one before; the last review is the one predicted."""
    reviews = [
        tuple(map(int, one.split("@")))
        for one in line["history_rating@days (last review is the one predicted)"].split()
    ]
    later = [rating for rating, days in reviews[:-1] if days > 0]
    return Scored(
        float(line["predicted"]), float(line["recalled"]), reviews[-1][1], len(later) + 2, later.count(1)
    )


METRIC = [promise(line) for line in LINES]


# --- scores ---


# 300 reviews with the scores of our own float64 reckoning and of fsrs-rs-python 0.9.3 `evaluate()`, 32-bit.
def test_scores_against_another_library() -> None:
    exact, close = SCORES["tolerance"], 1e-6
    heavy = recency(len(METRIC))
    assert len(METRIC) == SCORES["reviews"]
    assert log_loss(METRIC) == pytest.approx(SCORES["log_loss_unweighted"], abs=exact)
    assert log_loss(METRIC, heavy) == pytest.approx(SCORES["log_loss_recency_weighted"], abs=exact)
    assert log_loss(METRIC, heavy) == pytest.approx(SCORES["log_loss_fsrs_rs_python"], abs=close)
    assert rmse_bins(METRIC) == pytest.approx(SCORES["rmse_bins_unweighted"], abs=exact)
    assert rmse_bins(METRIC, heavy) == pytest.approx(SCORES["rmse_bins_recency_weighted"], abs=exact)
    assert rmse_bins(METRIC, heavy) == pytest.approx(SCORES["rmse_bins_fsrs_rs_python"], abs=close)


def test_what_an_answer_costs() -> None:
    assert calibration.surprise(0.8, 1) == pytest.approx(-log(0.8))
    assert calibration.surprise(0.8, 0) == pytest.approx(-log(0.2))
    assert calibration.surprise(0.8, 0.5) == pytest.approx(-log(0.8) / 2 - log(0.2) / 2)
    assert calibration.surprise(0.0, 1) == pytest.approx(-log(1e-7))
    assert calibration.surprise(1.0, 1) < 1e-6


def test_nothing_to_score_is_said() -> None:
    for score in (log_loss, rmse_bins):
        with pytest.raises(ValueError, match="no answer"):
            score([])


chances = st.floats(0.01, 0.99)
told_of = st.lists(st.builds(Promise, st.integers(1, 99), chances, st.sampled_from([0.0, 1.0])), min_size=1)


# A proper score: over a group, no other promise does better than the share that came (Good 1952).
@given(told_of, chances)
def test_the_share_that_came_is_the_best_promise(made: list[Promise], other: float) -> None:
    share = sum(one.right for one in made) / len(made)
    best = log_loss([one._replace(promised=share) for one in made])
    assert best <= log_loss([one._replace(promised=other) for one in made]) + 1e-6


# --- the table ---


# The score interval of Wilson (1927); values as in Newcombe (1998), Statistics in Medicine 17, table I,
# method 3: 81 of 263, 15 of 148, 0 of 20, 1 of 29 (from memory).
@pytest.mark.parametrize(
    ("right", "n", "low", "high"),
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718)],
)
def test_intervals_of_a_share(right: int, n: int, low: float, high: float) -> None:
    assert wilson(right, n) == pytest.approx((low, high), abs=5e-5)


# The ends of the interval are where the share lies z standard errors off: what defines it (Wilson 1927).
@given(st.integers(1, 500), st.data())
def test_the_ends_of_an_interval_are_z_errors_away(n: int, data: st.DataObject) -> None:
    right = data.draw(st.integers(0, n))
    for end in wilson(right, n):
        off = (right / n - end) ** 2
        assert off == pytest.approx(1.959964**2 * end * (1 - end) / n, abs=1e-9)


@given(told_of)
def test_the_table_holds_every_try_once(made: list[Promise]) -> None:
    table = bands([*made, Promise(1, 1.0, 1.0), Promise(1, 0.0, 0.0)])
    assert sum(band.n for band in table) == len(made) + 2
    assert all(band.low - 1e-12 <= band.promised <= band.high + 1e-12 for band in table)
    assert all(band.within[0] - 1e-12 <= band.right <= band.within[1] + 1e-12 for band in table)
    assert [band.low for band in table] == sorted({band.low for band in table})


# --- from the log ---


def days(told: Sequence[Promise]) -> list[tuple[int, float]]:
    return [(one.day - DAY, one.right) for one in told]


def test_first_tries_that_were_promised_something() -> None:
    events = [
        told(1, DAY), told(2, DAY + 3), told(3, DAY + 3, "not_yet"), told(4, DAY + 9, "not_yet"),
        told(5, DAY + 9), told(6, DAY + 11, "right_helped", help="picture"), told(7, DAY + 14, "shown"),
        told(8, DAY + 20),
    ]  # fmt: skip
    found = promises(events, plain)
    assert days(found) == [(3, 1), (9, 0), (11, 0), (14, 0), (20, 1)]
    before = memory.fold(events[:1], plain)["sum:1+1"]
    assert found[0].promised == correction.recall(Habits(), before, DAY + 3)


def test_what_says_neither_is_left_out() -> None:
    first, later = told(1, DAY), told(3, DAY + 9)
    for between in (
        told(2, DAY + 4, help="question"),  # holds
        told(2, DAY + 4, aim="familiarity"),
        told(2, DAY + 4, "void"),
        told(2, DAY + 4, "not_yet", "copy"),
    ):
        assert [one.day for one in promises([first, between, later], plain)] == [DAY + 9]
    assert promises([told(1, DAY, aim="familiarity"), told(2, DAY + 3, aim="familiarity")], plain) == []
    assert promises([told(1, DAY, "not_yet", "intro"), told(2, DAY + 1)], plain) == []


def test_what_was_undone_or_corrected_counts_as_it_stands() -> None:
    events = [told(1, DAY), told(2, DAY + 3, "not_yet"), told(3, DAY + 5)]
    undo = event(9, DAY + 6, "undo", {"device": 1, "seq": 2})
    right = event(9, DAY + 6, "correct", {"device": 1, "seq": 2})
    assert days(promises([*events, undo], plain)) == [(5, 1)]
    assert days(promises([*events, right], plain)) == [(3, 1), (5, 1)]


def test_a_card_that_comes_back_as_new_is_promised_nothing() -> None:
    away = [told(1, DAY - 9, age=7), told(2, DAY, "not_yet", age=7), told(3, DAY, "not_yet", age=7)]
    back = [told(4, DAY + 5, "right", "intro", age=7), told(5, DAY + 8, age=7)]
    assert [one.day for one in promises([*away, *back], plain)] == [DAY, DAY + 8]


def test_known_cards_are_promised_something_from_the_next_day() -> None:
    said = event(1, DAY, "known", {"cards": ["sum:1+1"]})
    assert promises([said, told(2, DAY, "not_yet")], plain) == []
    assert days(promises([said, told(2, DAY + 5)], plain)) == [(5, 1)]


@settings(deadline=None, max_examples=40)
@given(st.lists(st.tuples(st.integers(0, 9), st.booleans()), max_size=12))
def test_the_walk_ends_where_the_fold_does(tries: list[tuple[int, bool]]) -> None:
    day, events = DAY, []
    for n, (gap, right) in enumerate(tries):
        day += gap
        events.append(told(n + 1, day, "right" if right else "not_yet"))
    walked = {moved.event.card: moved.after for moved in calibration.moves(events, plain)}
    assert walked == memory.fold(events, plain)
