"""A quotient with its remainder: every way of writing it, no other value, and nothing that breaks it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.forms_remainder import FORMS, read_remainder
from review.core.model import Problem

WAYS = (
    "{q} r {r}", "{q}r{r}", "{q} R {r}", "{q} R{r}", "{q}r {r}", "{q} rem {r}", "{q} rem. {r}", "{q} r. {r}",
    "{q} remainder {r}", "{q} Remainder of {r}", "{q}, remainder {r}", "{q} with remainder {r}", "{q}; r {r}",
    "{q} with a remainder of {r}", "{q} and {r} left over", "{q} with {r} left", "{q}, {r} left over",
    "{q} left over {r}", "{q} remainder: {r}", "{q} r = {r}", "= {q} r {r}", "={q} r {r}.", "  {q}  r  {r} ",
    "{q} remainder is {r}", "{q} {r} left over", "{q} rest {r}",
)  # fmt: skip
NUMBERS = st.integers(0, 9999)


def problem(expected: str) -> Problem:
    return Problem(
        "division-written:3/1/remainder", "division-written", "437/6", "?", "?", "remainder", expected, "?"
    )


@given(st.sampled_from(WAYS), NUMBERS, NUMBERS, st.booleans())
def test_every_way_of_writing_it_is_read(way: str, quotient: int, left: int, grouped: bool) -> None:
    q, r = (f"{number:,}" if grouped else str(number) for number in (quotient, left))
    assert judge(problem(f"{quotient} r {left}"), way.format(q=q, r=r)) == "right"


@given(NUMBERS, NUMBERS, NUMBERS, NUMBERS)
def test_another_value_is_another_answer(q: int, r: int, other_q: int, other_r: int) -> None:
    verdict = judge(problem(f"{q} r {r}"), f"{other_q} r {other_r}")
    assert verdict == ("right" if (q, r) == (other_q, other_r) else "other")


@given(NUMBERS, st.integers(1, 9))
def test_nothing_left_over_need_not_be_said(quotient: int, left: int) -> None:
    assert judge(problem(str(quotient)), f"{quotient} r 0") == "right"
    assert judge(problem(str(quotient)), f"{quotient:,}") == "right"
    assert judge(problem(f"{quotient} r {left}"), str(quotient)) == "other"
    assert judge(problem(str(quotient)), f"{quotient} r {left}") == "other"


@pytest.mark.parametrize(
    "text",
    ["", "r", "r 5", "72 r", "72 remainder", "72 5", "72, 5", "72.5", "72 5/6", "seventy", "72 r 5 r 5",
     "72 r five", "-72 r 5", "72 r -5", "72 cm", "9" * 40, "72 left over", "72 r 5 left"],
)  # fmt: skip
def test_what_is_unclear_is_asked_again(text: str) -> None:
    assert read_remainder(text) is None


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("\uff17\uff12 r \uff15", (72, 5)),
        ("1 072 r 5", (1072, 5)),
        ("72\u00a0r\u00a05", (72, 5)),
        ("072", (72, 0)),
    ],
)
def test_what_other_keyboards_write(text: str, value: tuple[int, int]) -> None:
    assert read_remainder(text) == value


@given(st.text() | st.text("0123456789 r,.=elft", max_size=40))
def test_any_string_is_survived(text: str) -> None:
    found = read_remainder(text)
    assert found is None or min(found) >= 0
    assert judge(problem("72 r 5"), text) in ("right", "other", "unreadable")


def test_what_is_asked_for_is_a_childs_sentence() -> None:
    form = FORMS["remainder"]
    assert len(form.asks.split()) < 8
    assert form.read(form.example) == (8, 2)
    assert form.read(form.another) == (9, 1)
