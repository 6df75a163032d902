"""Fractions, decimals, percents and units as children type them."""

from decimal import Decimal
from fractions import Fraction
from math import gcd

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.forms_fractions import FORMS
from review.core.model import Problem

Typed = st.text(max_size=250)


def problem(form: str, expected: str) -> Problem:
    return Problem("sum:1+1", "sum", "1+1", "?", "?", form, expected, "?")


def judged(form: str, expected: str, *texts: str) -> set[str]:
    return {judge(problem(form, expected), text) for text in texts}


# --- every form ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", FORMS)
def test_a_form_asks_in_a_childs_words_and_reads_its_own_example(name: str) -> None:
    form = FORMS[name]
    assert len(form.asks.split()) < 8
    assert form.example in form.asks
    assert not form.example or form.read(form.example) is not None
    assert not form.another or form.read(form.another) not in (None, form.read(form.example))


EXPECTED = {"decimals": "0.25 0.5 1", "fraction": "3/4", "fraction-lowest": "3/4", "fraction-mixed": "1 3/4"}


@pytest.mark.parametrize("name", FORMS)
@given(text=Typed | st.text("0123456789/., -+%°²½¾⁄andover cm", max_size=20))
def test_any_text_is_survived(name: str, text: str) -> None:
    assert judge(problem(name, EXPECTED.get(name, "25")), text) in ("right", "other", "unreadable")


@pytest.mark.parametrize("name", FORMS)
@pytest.mark.parametrize(
    "text", ["", " ", "?", "purple", "0,5", "1,5", "1.2.3", "5/", "/5", "--5", "1e3", "²", "5%5"]
)
def test_what_cannot_be_read_is_asked_again(name: str, text: str) -> None:
    assert judge(problem(name, EXPECTED.get(name, "25")), text) == "unreadable"


# --- fractions ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "3/4", " 3 / 4 ", "6/8", "75/100", "3\u20444", "3\u22154", "\u00be", "3 over 4", "3/4.", "= 3/4",
        "+3/4", "03/4", "\uff13\uff0f\uff14", "\u0663/\u0664", "0 3/4", "three quarters", "Three-quarters.",
        "3 fourths", "six eighths",
    ],
)  # fmt: skip
def test_three_quarters_in_many_hands(text: str) -> None:
    assert judge(problem("fraction", "3/4"), text) == "right"


@pytest.mark.parametrize("text", ["half", "a half", "One half", "1 half", "two quarters", "five tenths"])
def test_a_half_in_words(text: str) -> None:
    assert judge(problem("fraction", "1/2"), text) == "right"


@pytest.mark.parametrize("text", ["a third", "quarter", "two halves"])
def test_another_fraction_in_words_is_another(text: str) -> None:
    assert judge(problem("fraction", "1/2"), text) == "other"


@pytest.mark.parametrize(
    "text",
    ["1 1/2", "1 and 1/2", "1 + 1/2", "1\u00bd", "1 \u00bd", "3/2", "6/4", "1 2/4", "1  1 / 2", "0 3/2"],
)
def test_one_and_a_half_in_many_hands(text: str) -> None:
    assert judge(problem("fraction", "1 1/2"), text) == "right"


def test_what_is_no_fraction_is_asked_again() -> None:
    assert judged(
        "fraction", "3/4", "3/0", "0.75", "75%", "3-4", "1-1/2", "3/4/5", "1 2 3/4", "9" * 16 + "/4"
    ) == {"unreadable"}


@given(st.integers(0, 60), st.integers(1, 60), st.integers(1, 9))
def test_equal_fractions_are_taken_and_others_refused(top: int, under: int, times: int) -> None:
    value = Fraction(top, under)
    expected = f"{value.numerator}/{value.denominator}"
    whole, rest = divmod(top, under)
    ways = [f"{top * times}/{under * times}", f"{whole} {rest * times}/{under * times}"]
    assert judged("fraction", expected, *ways) == {"right"}
    assert judged(
        "fraction", expected, f"{top + 1}/{under}", f"{whole + 1} {rest}/{under}", f"-{top + 1}/{under}"
    ) == {"other"}


@given(st.integers(1, 60), st.integers(1, 60), st.integers(2, 9))
def test_lowest_terms_where_they_are_the_skill(top: int, under: int, times: int) -> None:
    value = Fraction(top, under)
    expected = f"{value.numerator}/{value.denominator}"
    whole, rest = divmod(value.numerator, value.denominator)
    assert judged("fraction-lowest", expected, expected, f"{whole} {rest}/{value.denominator}") == {"right"}
    assert judged("fraction-lowest", expected, f"{top * times}/{under * times}") == {"other"}
    assert judged("fraction-lowest", expected, f"{top}/{under}") == {
        "right" if gcd(top, under) == 1 else "other"
    }


@given(st.integers(1, 9), st.integers(1, 11), st.integers(2, 12))
def test_a_mixed_number_where_it_is_the_skill(whole: int, top: int, under: int) -> None:
    if top < under:
        expected, written = f"{whole} {top}/{under}", f"{whole * under + top}/{under}"
        assert judged("fraction-mixed", expected, expected, f"{whole} {top * 2}/{under * 2}") == {"right"}
        assert judged("fraction-mixed", expected, written) == {"unreadable"}
        assert judged(
            "fraction-mixed", expected, f"{whole + 1} {top}/{under}", f"{whole * under + top + 1}/{under}"
        ) == {"other"}


# --- decimals and percents ----------------------------------------------------------------------------


@pytest.mark.parametrize("text", ["0.5", ".5", "0.50", "00.5", " 0.500 ", "= 0.5", "+.5", "0\uff0e5", "0.5."])
def test_a_half_in_many_hands(text: str) -> None:
    assert judge(problem("decimal", "0.5"), text) == "right"


def test_a_decimal_may_be_whole_and_large() -> None:
    assert judged("decimal", "3,450", "3450", "3 450", "3450.0", "3450.") == {"right"}
    assert judged("decimal", "3.45", "3,450", "345", "34.5") == {"other"}
    assert judged("decimal", "0.5", "0,5", "1/2", ".", "-", "0.5 m", "0.0000001") == {"unreadable"}


@given(st.decimals(0, 9999, places=3), st.integers(0, 3))
def test_every_way_to_write_a_decimal(value: Decimal, zeros: int) -> None:
    expected = f"{value:.3f}"
    ways = [expected + "0" * zeros, f"{value:,.3f}", expected.lstrip("0") if value else "0"]
    assert judged("decimal", expected, *ways) == {"right"}
    assert judged("decimal", expected, f"{value + Decimal('0.001'):.3f}", f"-{value + 1}") == {"other"}


@pytest.mark.parametrize(
    "text", ["25", "25%", "25 %", "25.0%", "25 percent", "25 per cent", "25\uff05", "25PERCENT."]
)
def test_a_quarter_in_percent(text: str) -> None:
    assert judge(problem("percent", "25"), text) == "right"


def test_another_percent() -> None:
    assert judged("percent", "25", "0.25", "75%", "2.5", "250%") == {"other"}
    assert judged("percent", "25", "%", "1/4", "25%%", "25 points") == {"unreadable"}


@pytest.mark.parametrize(
    "text",
    [
        "0.125 0.25 0.5", "0.125, 0.25, 0.5", ".125,.25,.5", "0.125; 0.250; 0.50", "0.125 < 0.25 < 0.5",
        "0.125, 0.25 and 0.5", "0.125  .25   .5",
    ],
)  # fmt: skip
def test_decimals_in_a_row(text: str) -> None:
    assert judge(problem("decimals", "0.125 0.25 0.5"), text) == "right"


def test_decimals_in_another_row() -> None:
    assert judged("decimals", "0.125 0.25 0.5", "0.5 0.25 0.125", "0.125 0.5 0.25", "1 2 3") == {"other"}
    unread = judged(
        "decimals", "0.125 0.25 0.5", "0.125", "0.125 0.25", "0,125 0,25 0,5", "0.1 0.2 0.3 0.4", "a b c"
    )
    assert unread == {"unreadable"}


@given(
    st.lists(st.decimals(0, 10, places=2), min_size=2, max_size=4), st.sampled_from([" ", ", ", "; ", ","])
)
def test_any_row_is_read_back(values: list[Decimal], between: str) -> None:
    texts = [str(value) for value in values]
    assert FORMS["decimals"].read(between.join(texts)) == tuple(map(Fraction, texts))


# --- units --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("form", "texts"),
    [
        ("square-cm", ["24", "24 square cm", "24 sq cm", "24 sq. cm", "24cm2", "24 cm^2", "24 cm²",
                       "24 Square Centimetres", "24 square centimeters", "24 cm squared", "24.0"]),
        ("cubic-cm", ["24", "24 cubic cm", "24 cu cm", "24cm3", "24 cm^3", "24 cm³",
                      "24 cubic centimetres", "24 cc", "24 cm cubed"]),
        ("degrees", ["24", "24°", "24 °", "24 degrees", "24 deg", "24 degree", "24º"]),
    ],
)  # fmt: skip
def test_a_unit_may_stand_behind(form: str, texts: list[str]) -> None:
    assert judged(form, "24", *texts) == {"right"}
    assert judged(form, "24", "25", "-24", "2.4") == {"other"}
    assert judged(form, "24", "24 cm", "24 apples", "cm", "24 24") == {"unreadable"}
