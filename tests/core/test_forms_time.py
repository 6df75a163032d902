"""Times, spans and amounts in two units as they are typed: whole spaces of times, and any string."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import forms_time
from review.core.answers import FORMS, judge
from review.core.model import Problem
from review.core.skills.clock import Moment, in_time_words
from tests.core.shown import NEVER
from tests.core.test_slips import edits

TIME_FORMS = (
    "clock-time",
    "clock-digits",
    "clock-words",
    "clock-24",
    "clock-am-pm",
    "time-span",
    "mixed-quantity",
)
TIMES = [(hour, minute) for hour in range(1, 13) for minute in range(60)]
CLOCK_TIMES = st.sampled_from(TIMES)


def problem(form: str, expected: str, unit: str = "") -> Problem:
    return Problem("clock:x", "clock", "1", "?", "?", form, expected, "?", unit=unit)


def digits(hour: int, minute: int) -> list[str]:
    half = ["", " am", " pm", "pm", " a.m.", " p.m.", " PM"]
    written = [f"{at}{mark}{minute:02}" for at in (hour, f"{hour:02}") for mark in (":", ".", " ", " : ", "")]
    full = f"{hour}:{minute:02}".translate({ord(str(one)): chr(ord("０") + one) for one in range(10)})
    oclock = [f"{hour} o'clock", f"{hour} oclock", f"{hour} O’Clock", f"{hour}pm"] if not minute else []
    return (
        [one + end for one in written for end in half]
        + [full, full.replace(":", "：")]
        + [f"= {hour}:{minute:02}", *oclock]
    )


def words(hour: int, minute: int) -> list[str]:
    usual = in_time_words(Moment(hour, minute))
    variants = [usual, usual.upper(), usual.replace("-", " "), f"{usual}.", f"{usual} pm"]
    variants += [usual.replace("past", "after")] if "past" in usual else []
    variants += [usual.replace("quarter", "a quarter")]
    return variants


@pytest.mark.parametrize(("hour", "minute"), TIMES)
def test_every_way_of_writing_a_time_is_it(hour: int, minute: int) -> None:
    expected = f"{hour}:{minute:02}"
    for form, ways in (
        ("clock-time", digits(hour, minute) + words(hour, minute)),
        ("clock-digits", digits(hour, minute)),
        ("clock-words", words(hour, minute)),
    ):
        value = in_time_words(Moment(hour, minute)) if form == "clock-words" else expected
        told = {way: judge(problem(form, value), way) for way in ways}
        assert {way for way, verdict in told.items() if verdict != "right"} == set()


@given(CLOCK_TIMES, CLOCK_TIMES)
def test_another_time_is_another(one: tuple[int, int], other: tuple[int, int]) -> None:
    asked = problem("clock-time", f"{one[0]}:{one[1]:02}")
    verdicts = {judge(asked, way) for way in digits(*other) + words(*other)}
    assert verdicts == {"right" if one == other else "other"}


def test_in_digits_and_in_words_are_two_tasks() -> None:
    assert judge(problem("clock-digits", "3:15"), "quarter past three") == "unreadable"
    assert judge(problem("clock-words", "quarter past three"), "3:15") == "unreadable"


@given(CLOCK_TIMES)
def test_an_hour_alone_is_that_hour_or_asked_again(at: tuple[int, int]) -> None:
    hour, minute = at
    asked = problem("clock-time", f"{hour}:{minute:02}")
    assert judge(asked, str(hour)) == ("unreadable" if minute else "right")


@pytest.mark.parametrize(
    "text",
    ["", "3:5", "25:00", "15:25 am", "half three", "half to four", "quarter", "3:255", "thirteen o'clock"],
)
def test_what_is_no_time_is_asked_again(text: str) -> None:
    assert FORMS["clock-time"].read(text) is None


@pytest.mark.parametrize(
    "text", ["fiveteen past three", "quater past 3", "quarter passed three", "Three fifteen"]
)
def test_words_may_be_misspelt(text: str) -> None:
    assert judge(problem("clock-words", "quarter past three"), text) == "right"


# --- the two clocks -----------------------------------------------------------------------------------

DAY = st.builds(divmod, st.integers(0, 1439), st.just(60))


def halves(hour: int, minute: int) -> str:
    return f"{(hour - 1) % 12 + 1}:{minute:02} {'pm' if hour >= 12 else 'am'}"


@given(DAY, DAY)
def test_times_by_24_hours(one: tuple[int, int], other: tuple[int, int]) -> None:
    asked = problem("clock-24", f"{one[0]:02}:{one[1]:02}")
    for way in ("{:02}:{:02}", "{:02}{:02}", "{}:{:02}", "{} {:02}", "{:02}.{:02}", "{:02}{:02}h"):
        assert judge(asked, way.format(*other)) == ("right" if one == other else "other")
    assert judge(asked, halves(*one)) == "unreadable"


@given(DAY, DAY)
def test_times_with_am_or_pm(one: tuple[int, int], other: tuple[int, int]) -> None:
    asked = problem("clock-am-pm", halves(*one))
    written = halves(*other)
    for way in (
        written,
        written.replace(" ", ""),
        written.upper(),
        written.replace("m", ".m.").replace(":", "."),
    ):
        assert judge(asked, way) == ("right" if one == other else "other")
    assert judge(asked, halves(*one)[:-3]) == "unreadable"


def test_noon_and_midnight() -> None:
    assert judge(problem("clock-am-pm", "12:00 pm"), "noon") == "right"
    assert judge(problem("clock-am-pm", "12:00 am"), "midnight") == "right"
    assert judge(problem("clock-am-pm", "12:00 pm"), "midnight") == "other"


# --- spans --------------------------------------------------------------------------------------------


def spans(minutes: int) -> list[str]:
    hours, rest = divmod(minutes, 60)
    alone = [f"{minutes} min", f"{minutes} minutes", f"{minutes}", f"{minutes}m"]
    both = [
        f"{hours} h {rest} min",
        f"{hours}h{rest}",
        f"{hours} hours and {rest} minutes",
        f"{hours}:{rest:02}",
    ]
    return alone + both * (hours > 0)


@given(st.integers(1, 600), st.integers(1, 600))
def test_every_way_of_writing_a_span_is_it(one: int, other: int) -> None:
    asked = problem("time-span", f"{one} min")
    for way in spans(other):
        alone = way.isdecimal() and one == other * 60
        assert judge(asked, way) == ("right" if one == other else "unreadable" if alone else "other")


@pytest.mark.parametrize(("text", "minutes"), [("an hour", 60), ("half an hour", 30), ("2 hours", 120)])
def test_spans_in_words(text: str, minutes: int) -> None:
    assert judge(problem("time-span", f"{minutes} min"), text) == "right"


@pytest.mark.parametrize(
    "way",
    ["{} and a half hours", "{} 1/2 hours", "{}½ h", "{}.5 hours", "{} hours and a half", "{} and a half h"],
)
@pytest.mark.parametrize(("number", "minutes"), [("3", 210), ("three", 210), ("1", 90), ("12", 750)])
def test_hours_and_a_half_are_a_span(way: str, number: str, minutes: int) -> None:
    """As they are said; a number and a half without its hours is read by nobody."""
    asked = problem("time-span", f"{minutes} min")
    assert judge(asked, way.format(number)) == "right"
    assert judge(problem("time-span", f"{minutes + 60} min"), way.format(number)) == "other"
    assert judge(asked, f"{number} 1/2") == judge(asked, "some and a half hours") == "unreadable"


# --- two units ----------------------------------------------------------------------------------------


@given(st.integers(1, 99), st.integers(1, 99), st.integers(1, 99), st.integers(1, 99))
def test_every_way_of_writing_two_units_is_the_amount(m: int, cm: int, n: int, dm: int) -> None:
    asked = problem("mixed-quantity", f"{m} m {cm} cm", "m+cm")
    verdict = "right" if (m, cm) == (n, dm) else "other"
    for way in ("{} m {} cm", "{}m{}cm", "{} {}", "{} metres and {} centimetres", "{} m, {} cm", "{}m {}"):
        assert judge(asked, way.format(n, dm)) == verdict
    assert judge(asked, f"{cm} cm {m} m") == "right"
    assert judge(asked, f"{100 * m + cm} cm") == "unreadable"


@given(st.text(), st.sampled_from(TIME_FORMS))
def test_any_string_is_survived(text: str, form: str) -> None:
    FORMS[form].read(text, "m+cm")


@given(st.text(alphabet="0123456789:.apmhc oclknterquf'-", max_size=20), st.sampled_from(TIME_FORMS))
def test_any_string_of_their_letters_is_judged(text: str, form: str) -> None:
    unit = "m+cm" if form == "mixed-quantity" else ""
    judge(problem(form, FORMS[form].example, unit), text)


@pytest.mark.parametrize("name", TIME_FORMS)
def test_what_is_said_to_a_child(name: str) -> None:
    form = FORMS[name]
    assert len(form.asks.split()) < 8
    assert not NEVER.search(form.asks)
    assert form.read(form.example) != form.read(form.another) is not None


def test_every_misspelling_is_of_a_word_that_is_read_and_none_is_such_a_word_itself() -> None:
    """And near it: "passed" for past is the furthest."""
    read = {*forms_time.SMALL, *forms_time.ROUND, "quarter", "half", "past", "to", "minutes", "oclock"}
    assert set(forms_time.MISSPELT.values()) <= read
    assert not read & set(forms_time.MISSPELT)
    assert max(edits(*pair) for pair in forms_time.MISSPELT.items() if pair[0] != "passed") <= 2
