"""Which totals the sums of a class can have: its ends, and conditions that no sum can meet."""

from collections.abc import Callable
from itertools import product

import pytest

from review.core.skills import mental
from review.core.skills.mental import FITS
from tests.core.test_mental import CLASSES, MENTAL, ON_TWO_DIGITS, skill


def test_impossible_conditions_are_told_in_words() -> None:
    assert list(MENTAL.check(skill(digits="2+2", classes=ON_TWO_DIGITS))) == []
    (low,) = MENTAL.check(skill(digits="2+2", classes=("regroup-ones",), total=(5, 15)))
    assert low == (
        "total",
        "“2-digit + 2-digit, regroup the ones” has no such total",
        "write 30 to 98",
    )
    (empty,) = MENTAL.check(skill(digits="2+1", classes=("regroup-tens",)))
    assert empty[:2] == ("classes", "no numbers fit “2-digit + 1-digit, regroup the tens”")


@pytest.mark.parametrize("name", ["tens", "tens-across"])
def test_that_no_number_of_three_digits_is_a_round_ten_is_known_without_trying(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """810,000 pairs took a second of `set check`."""
    monkeypatch.setattr(mental, "FITS", {})
    (empty,) = MENTAL.check(skill(digits="3+3", classes=(name,)))
    assert empty[0] == "classes"
    with pytest.raises(KeyError):  # where some number is round, the pairs are tried
        list(MENTAL.check(skill(digits="3+2", classes=(name,))))


SMALL = [f"{digits}/{name}" for digits in ("2+1", "1+2", "2+2", "3+1") for name in CLASSES]


@pytest.mark.parametrize("key", [*SMALL, "3+2/tens", "3+2/hundreds", "3+3/all-tens", "3+3/all-hundreds"])
def test_the_ends_of_a_class_are_those_of_all_its_sums(key: str) -> None:
    """Held against every pair of numbers of that size."""
    of = mental._class(f"mental-sum:{key}")
    totals = [a + b for a, b in product(of.first, of.second) if FITS[of.name](a, b)]
    assert mental.ends(of) == ((min(totals), max(totals)) if totals else None)
    assert [a + b for a, b in mental.pairs(of)] == totals


def test_from_a_thousand_on_the_hundreds_pass_ten() -> None:
    """So only classes that ask for nothing but round numbers have such totals."""
    thousand = [(a, b) for a, b in product(range(100, 1000, 7), range(1, 1000)) if a + b >= 1000]
    assert {name for name in CLASSES for a, b in thousand if FITS[name](a, b)} <= set(mental.ROUND)


@pytest.mark.parametrize(
    ("name", "least", "most"),
    [
        ("none", 200, 999),
        ("regroup-ones", 210, 998),
        ("regroup-tens", 300, 989),
        ("regroup-both", 300, 998),
        ("near-ten", 210, 998),
        ("near-hundred", 301, 998),
        ("hundreds", 201, 999),
        ("all-tens", 200, 1980),
        ("all-hundreds", 200, 1800),
    ],
)
def test_a_total_that_no_sum_has_is_told_without_trying_them_all(
    name: str, least: int, most: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """810,000 pairs took 1.4 seconds of `set check`. The totals are those of a walk over every pair."""
    tried: list[int] = []

    def fits(a: int, b: int, whole: Callable[[int, int], bool] = FITS[name]) -> bool:
        tried.append(a + b)
        return whole(a, b)

    monkeypatch.setattr(mental, "FITS", {name: fits})
    (low,) = MENTAL.check(skill(digits="3+3", classes=(name,), total=(2, 199)))
    assert low[2] == f"write {least} to {most}"
    assert len(tried) < 20_000
