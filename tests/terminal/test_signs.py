"""What a screen shows that cannot show everything."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.signs import fit


@pytest.mark.parametrize(
    ("text", "encoding", "shown"),
    [
        ("6 × 7 − □ ÷ 2", "ascii", "6 x 7 - _ / 2"),
        ("●●○", "ascii", "##-"),
        ("27 □ 29", "ascii", "27 _ 29"),
        ("6 × 7", "latin-1", "6 × 7"),  # ISO 8859-1 has the sign at D7
        ("13 − 6", "latin-1", "13 - 6"),  # and no minus sign
        ("●○ ×", "cp437", "●○ ×".replace("●", "#").replace("○", "-").replace("×", "x")),
        ("6 × 7", "utf-8", "6 × 7"),
        ("6 × 7", None, "6 x 7"),
        ("é ○", "latin-1", "é -"),
        ("é — ○", "cp850", "é - -"),
    ],
)
def test_where_a_sign_is_lacking_all_are_written_in_ascii(
    text: str, encoding: str | None, shown: str
) -> None:
    assert fit(text, encoding) == shown


@given(st.text(), st.sampled_from(["ascii", "latin-1", "cp437", "cp1252", "utf-8"]))
def test_whatever_is_fitted_can_be_shown(text: str, encoding: str) -> None:
    fit(text, encoding).encode(encoding)
