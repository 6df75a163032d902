"""Roman numerals in both forms, read and written, against published readers and writers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.numerals import LARGEST, RomanForm, read_roman, write_roman
from tests.tables import rows

ROMAN: tuple[RomanForm, ...] = ("additive", "subtractive")


@pytest.mark.parametrize("row", rows("roman_strict.csv"), ids=lambda row: row["text"] or "empty")
def test_well_formed_or_not(row: dict[str, str]) -> None:
    """Against a table made from four published readers of Roman numerals and, where they differ, from the
    rules of the two forms."""
    for form in ROMAN:
        well_formed = row[f"{form}_valid"] == "1"
        assert read_roman(row["text"], form) == (int(row["value"]) if well_formed else None)


@pytest.mark.parametrize("row", rows("roman.csv"), ids=lambda row: row["value"])
def test_numerals_are_written_as_published(row: dict[str, str]) -> None:
    """Against the forms that the package roman 5.2, ICU 72 and R's as.roman write (named in the table)."""
    for form in ROMAN:
        assert write_roman(int(row["value"]), form) == row[form]


@pytest.mark.parametrize("form", ROMAN)
def test_every_numeral_is_read_back_and_no_two_are_alike(form: RomanForm) -> None:
    written = [write_roman(value, form) for value in range(1, LARGEST + 1)]
    assert len(set(written)) == LARGEST
    assert [read_roman(text, form) for text in written] == list(range(1, LARGEST + 1))


@given(st.text("IVXLCDM", max_size=12))
def test_what_is_read_is_what_would_be_written(text: str) -> None:
    for form in ROMAN:
        value = read_roman(text, form)
        assert value is None or write_roman(value, form) == text


@pytest.mark.parametrize("value", [0, -1, 4000])
def test_no_numeral_outside_one_to_3999(value: int) -> None:
    with pytest.raises(ValueError, match="Roman"):
        write_roman(value, "subtractive")
