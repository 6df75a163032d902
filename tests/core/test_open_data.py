"""Our order of facts and our slow mark against open data: adults typing products.

Soh Mei Ling 2025, MIT licence: 122 university students, 26,352 trials; by fact, and by seconds net of each
person's own copying time in bins of half a second (the last bin is 10 s and more). They are adults, so only
the order of things can be compared with children.
"""

from statistics import fmean

import pytest

from review import catalogue
from review.core import habits, marking, working_out
from review.core.card_sets import cards
from review.core.model import Answer, Habits
from tests.tables import rows

FACTS = {
    (int(row["lo"]), int(row["hi"])): float(row["median_rt_correct_s"])
    for row in rows("adult_production_by_fact.csv")
}
TIMES = [
    (float(row["from_net_s"]), int(row["n"]), int(row["not_right"])) for row in rows("adult_net_times.csv")
]


def ranks(values: list[float]) -> list[float]:
    """Ranks from 0, ties shared."""
    ordered = sorted(values)
    return [ordered.index(value) + (ordered.count(value) - 1) / 2 for value in values]


def correlation(one: list[float], other: list[float]) -> float:
    """Of ranks (Spearman 1904)."""
    x, y = ranks(one), ranks(other)
    a, b = fmean(x), fmean(y)
    top = sum((p - a) * (q - b) for p, q in zip(x, y, strict=True))
    return float(top / (sum((p - a) ** 2 for p in x) * sum((q - b) ** 2 for q in y)) ** 0.5)


def seconds(table: int) -> float:
    return fmean(time for pair, time in FACTS.items() if table in pair)


def test_the_tables_taught_first_are_the_quicker_ones() -> None:
    first, second, third = (fmean(map(seconds, tables)) for tables in ((2, 5), (3, 4, 8), (6, 7, 9)))
    assert first < second < third


def test_cards_come_in_the_order_of_difficulty_by_and_large() -> None:
    sets = [catalogue.shipped(name) for name in ("times-2-5-10", "times-3-4-8", "times-6-7-9")]
    place: dict[tuple[int, int], float] = {}
    for card in cards(sets):
        numbers = card.key.partition(":")[2].split("x")
        if all(number.isdigit() for number in numbers):
            low, high = sorted(map(int, numbers))
            place[low, high] = card.order
    both = [pair for pair in FACTS if pair in place]
    assert len(both) >= 30
    assert correlation([place[pair] for pair in both], [FACTS[pair] for pair in both]) > 0.4


def test_the_simulated_child_counts_longer_where_people_take_longer() -> None:
    steps = [float(working_out.steps(f"{low}x{high}")) for low, high in FACTS]
    assert correlation(steps, list(FACTS.values())) > 0.5


def test_slow_answers_are_the_doubtful_ones() -> None:
    """Over the slow limit from nine, answers are wrong at least twice as often."""
    limit = marking.slow_ms(11) / 1000
    quick = [(n, wrong) for start, n, wrong in TIMES if start < limit]
    slow = [(n, wrong) for start, n, wrong in TIMES if start >= limit]
    share = [sum(wrong for _, wrong in some) / sum(n for n, _ in some) for some in (quick, slow)]
    assert share[1] > 2 * share[0]


def typed(net_s: float) -> Answer:
    """A right answer from the middle of a bin."""
    answer = Answer("product:6x7", "6x7", "42", "42", "right", end_ms=round(1000 * net_s) + 1850)
    return answer._replace(aim="fluency", age=11, copy_ms=1600, slow_ms=3000)


@pytest.mark.parametrize("recall", [0.5, 0.8, 0.95])
def test_sureness_falls_as_people_err_more(recall: float) -> None:
    """From nothing to four seconds: the longer it took the more people erred, and the less sure we are."""
    bins = [(start, wrong / n) for start, n, wrong in TIMES if start < 4.0]
    sure = [habits.sureness(Habits(), typed(start), recall) for start, _ in bins]
    assert correlation(sure, [wrong for _, wrong in bins]) < -0.8
