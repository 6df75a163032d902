"""What one would say of a clock under each rule of error, against the table of rules."""

import pytest

from review.core.answers import judge
from tests.core.test_clock import CLOCK, KEYS, members
from tests.tables import rows


def rules() -> list[dict[str, str]]:
    return [row for row in rows("error_rules.csv") if row["family"] == "clock"]


@pytest.mark.parametrize("row", rules(), ids=lambda row: row["rule"])
def test_every_rule_of_the_table_shows_as_in_its_example(row: dict[str, str]) -> None:
    """error_rules.csv: Siegler & McGilly 1989 for the hour; the others from memory (Friedman & Laycock)."""
    hour, _, minute = row["right"].partition(":")
    assert CLOCK.predict("clock:read/5", f"{int(hour):02}:{minute}")[row["rule"]] == row["predicted"]


@pytest.mark.parametrize(
    ("key", "asked", "predicted"),
    [
        ("read/60", "03:00", {"hands_swapped": "12:15"}),
        ("read/30", "02:30", {"hands_swapped": "6:10"}),
        ("read/5", "12:25", {"hands_swapped": "5:00"}),
        ("read/1", "02:31", {}),
        ("read/5", "01:05", {}),  # both hands at one number
        ("to-24/60", "15:00", {"ten_for_twelve": "13:00", "hour_as_it_stands": "03:00"}),
        ("day-to-24/1", "00:39", {"hour_as_it_stands": "12:39"}),
        ("day-to-24/1", "03:06", {}),
        ("day-to-24/1", "12:06", {}),
        ("to-12/60", "15:00", {"ten_for_twelve": "5:00 pm"}),
        ("to-12/60", "12:00", {}),
        ("day-to-12/1", "12:06", {}),
        ("day-to-12/1", "23:05", {}),  # 13 is no hour of a face
        ("day-to-12/1", "09:05", {}),
    ],
)
def test_what_else_is_believed_of_clocks(key: str, asked: str, predicted: dict[str, str]) -> None:
    """One hand read for the other, ten hours for twelve: common practice, no source. By hand: at 2:30 the
    short hand is at 2, which is 10 minutes, and the long one at 6."""
    others = {"hour_ahead", "hour_ahead_always", "minute_face", "past_to"}
    found = CLOCK.predict(f"clock:{key}", asked)
    assert {rule: text for rule, text in found.items() if rule not in others} == predicted


@pytest.mark.parametrize("row", rules(), ids=lambda row: row["rule"])
def test_a_rule_shows_on_the_share_of_problems_the_table_says(row: dict[str, str]) -> None:
    """Of all times to five minutes; the table rounds to hundredths, and counts its own sample."""
    times = members("clock:read/5")
    shows = sum(row["rule"] in CLOCK.predict("clock:read/5", asked) for asked in times)
    assert shows / len(times) == pytest.approx(float(row["share_of_problems_where_it_shows"]), abs=0.1)


@pytest.mark.parametrize("key", KEYS)
def test_what_is_predicted_is_another_time(key: str) -> None:
    for asked in members(key):
        problem = CLOCK.problem(key, asked)
        assert {judge(problem, text) for text in CLOCK.predict(key, asked).values()} <= {"other"}
