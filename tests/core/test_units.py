"""Units of measures: their sizes as published, and that no spelling means two of one family."""

from fractions import Fraction

from review.core.units import SPELLED, UNITS
from tests.tables import rows


def test_sizes_of_units_are_the_published_ones() -> None:
    """Against exact factors of SP 811, Handbook 44 and the UK act, agreed by pint, GNU units and UCUM."""
    seen = 0
    for row in rows("units.csv"):
        for big in SPELLED.get(row["from"].casefold(), ()):
            for small in SPELLED.get(row["to"].casefold(), ()):
                if big.family == small.family:
                    seen += 1
                    assert Fraction(big.size, small.size) == Fraction(
                        int(row["numerator"]), int(row["denominator"])
                    )
    assert seen >= 20


def test_no_spelling_means_two_units_of_one_family() -> None:
    for spelling, units in SPELLED.items():
        assert len({unit.family for unit in units}) == len(units), spelling
    assert {unit for units in SPELLED.values() for unit in units} == set(UNITS)
