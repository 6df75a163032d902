"""Spans of time: by Python's own datetime, whole classes where they are small, the table of error rules."""

import re
from datetime import datetime, timedelta
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import skills
from review.core.answers import judge
from review.core.drawn import drawn
from review.core.model import Skill
from review.core.skills.clock import STEPS
from review.core.skills.duration import ASKS, KINDS, REACHES, start_and_span
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses, seen
from tests.tables import rows

(DURATION,) = KINDS


def skill(**options: object) -> Skill:
    return Skill("s", "S", "duration", "accuracy", options)


KEYS = [
    key
    for ask in ASKS
    for over in REACHES
    for step in STEPS
    for one in [skill(ask=ask, over=over, step=step)]
    if not list(DURATION.check(one))
    for key in DURATION.keys(one)
]


def span_term(term: str) -> Fraction:
    """Minutes: of a time of the day, of a span, or a bare number."""
    if span := re.fullmatch(r"(?:(\d+) h)? ?(?:(\d+) min)?", term):
        return Fraction(int(span[1] or 0) * 60 + int(span[2] or 0))
    for form in ("%I:%M %p", "%H:%M"):
        try:
            read = datetime.strptime(term, form)
        except ValueError:
            continue
        return Fraction(read.hour * 60 + read.minute)
    return Fraction(term)


# --- what is shown ------------------------------------------------------------------------------------


@given(st.sampled_from(KEYS), SOURCES)
def test_what_is_drawn_is_sound(key: str, random: Random) -> None:
    problem = DURATION.problem(key, DURATION.draw(key, random))
    assert_sound(problem, span_term)
    assert all(len(line) <= 40 for line in seen(problem))


STEP_MINUTES = {"1 minute": 1, "5 minutes": 5, "1 hour": 60}


@given(st.sampled_from(KEYS), SOURCES)
def test_steps_along_a_line_can_be_counted(key: str, random: Random) -> None:
    """From 10:20 to 12:20 they were 24 strokes of five minutes side by side. Now each has a gap before it,
    and so many of what is said make the span."""
    asked = DURATION.draw(key, random)
    (help,) = (help for help in skills.problem(key, asked).helps if help.picture)
    said = re.search("Each step is (.+)[.]", help.text)
    assert help.picture
    line = next(line for line in drawn(help.picture) if line.strip().startswith("|"))
    assert "||" not in line
    assert "'" not in line
    if said:
        assert (line.count("|") - 1) * STEP_MINUTES[said[1]] == start_and_span(asked)[1]


def test_hours_on_a_line_are_steps_that_are_told() -> None:
    (help,) = (help for help in skills.problem("duration:later-day/60", "09:00+3:00").helps if help.picture)
    assert "Each step is 1 hour." in help.text


def _parsed(text: str, over: str) -> datetime:
    form = {"noon": "%I:%M %p", "day": "%H:%M"}.get(over, "%I:%M")
    found = datetime.strptime(text, form)
    return found + timedelta(hours=12 * (over not in ("noon", "day") and found.hour == 0))


def _span(text: str) -> timedelta:
    hours, minutes = re.search(r"(\d+) h", text), re.search(r"(\d+) min", text)
    return timedelta(hours=int(hours[1]) if hours else 0, minutes=int(minutes[1]) if minutes else 0)


@given(st.sampled_from(KEYS), SOURCES)
def test_spans_are_those_of_datetime(key: str, random: Random) -> None:
    """The datetime module of Python, on the prompt and the answer as they are read."""
    problem = DURATION.problem(key, DURATION.draw(key, random))
    ask, over = key[9:].partition("/")[0].split("-", 1)
    text = r"\d+:\d\d(?: [ap]m)?"
    if ask in ("later", "earlier"):
        (given_time,) = re.findall(text, problem.prompt)
        moved = _span(problem.prompt) * (1 if ask == "later" else -1)
        assert _parsed(given_time, over) + moved == _parsed(problem.expected, over)
    else:
        begin, end = re.findall(text, problem.prompt + "\n" + "\n".join(seen(problem)))
        span = _span(problem.expected + (" min" if problem.unit else ""))
        assert _parsed(end, over) - _parsed(begin, over) == span
        assert problem.told.endswith(f"is {problem.expected}{' min' if problem.unit else ''}.")


def test_as_a_teacher_would_write_it() -> None:
    later = DURATION.problem("duration:later-hour/5", "03:50+0:25")
    assert (later.prompt, later.expected) == ("25 min later than 3:50:", "4:15")
    assert later.helps[-1].text == "3:50 + 10 min = 4:00\n4:00 + 15 min = 4:15"
    assert [judge(later, text) for text in ("4:15", "16:15", "quarter past 4", "3:75", "4:51")] == [
        "right", "right", "right", "other", "other",
    ]  # fmt: skip
    back = DURATION.problem("duration:earlier-hour/5", "04:15-0:25")
    assert (back.prompt, back.expected) == ("25 min earlier than 4:15:", "3:50")
    noon = DURATION.problem("duration:between-noon/5", "10:40>13:15")
    assert (noon.prompt, noon.expected) == ("10:40 am to 1:15 pm =", "2 h 35 min")
    assert [judge(noon, text) for text in ("2 h 35 min", "2:35", "155 min", "2 hours 35", "35")] == [
        "right", "right", "right", "right", "other",
    ]  # fmt: skip
    afternoon = DURATION.problem("duration:later-noon/5", "10:40+2:35")
    assert [judge(afternoon, text) for text in ("1:15 pm", "1:15", "13:15", "1:15 am")] == [
        "right", "right", "right", "other",
    ]  # fmt: skip
    within = DURATION.problem("duration:between-within/5", "03:10>03:35")
    assert (within.prompt, within.expected, within.unit) == ("3:10 to 3:35 = □ min", "25", "min")
    ride = DURATION.problem("duration:timetable-day/5", "14:35>15:10")
    assert seen(ride) == ("Market   14:35", "Harbour  15:10")
    assert (ride.prompt, ride.expected) == ("The ride takes", "35 min")
    assert [judge(ride, text) for text in ("35", "35 minutes", "0:35", "75")] == [
        "right", "right", "right", "other",
    ]  # fmt: skip


# --- classes ------------------------------------------------------------------------------------------


def minutes(hours: int, minute: int) -> int:
    return hours * 60 + minute


def spans(over: str, step: int) -> list[tuple[int, int]]:
    """The classes told again, by hours and minutes apart."""
    moments = [minutes(h, m) for h in range(24) for m in range(0, 60, step)]
    pairs = [(a, b) for a in moments for b in moments if a < b]
    face = [(a, b) for a, b in pairs if a >= 60 and b < 780]
    carried = {pair: pair[0] % 60 + (pair[1] - pair[0]) % 60 >= 60 for pair in face}
    members = {
        "within": [(a, b) for a, b in face if a // 60 == b // 60],
        "hour": [(a, b) for a, b in face if b - a < 60 and a // 60 != b // 60],
        "hours": [(a, b) for a, b in face if 60 < b - a < 240 and (b - a) % 60 and not carried[a, b]],
        "hours-across": [(a, b) for a, b in face if 60 < b - a < 240 and carried[a, b]],
        "noon": [(a, b) for a, b in pairs if 420 <= a < 720 < b <= 1020 and b - a <= 240],
        "day": [(a, b) for a, b in pairs if a >= 300 and b <= 1380 and b - a <= 180],
    }
    return members[over]


@pytest.mark.parametrize("over", REACHES)
@pytest.mark.parametrize("ask", ASKS)
def test_every_span_of_a_class_is_equally_likely(ask: str, over: str) -> None:
    step = 15

    def asked(a: int, b: int) -> str:
        begin, end = f"{a // 60:02}:{a % 60:02}", f"{b // 60:02}:{b % 60:02}"
        span = f"{(b - a) // 60}:{(b - a) % 60:02}"
        return {"later": f"{begin}+{span}", "earlier": f"{end}-{span}"}.get(ask, f"{begin}>{end}")

    assert_uniform(DURATION, f"duration:{ask}-{over}/{step}", [asked(a, b) for a, b in spans(over, step)], 15)


def test_a_span_of_another_class_is_refused() -> None:
    taken = [
        *refuses(DURATION, "duration:later-hour/5", ["03:10+0:25", "03:52+0:25", "03:50+1:25", "13:50+0:25"]),
        *refuses(DURATION, "duration:later-within/5", ["03:50>03:55", "03:50-0:25", "03:50+0:00"]),
    ]
    assert taken == []


@pytest.mark.parametrize(
    ("options", "found"),
    [
        ({"ask": "later", "over": "within", "step": "hour"}, ["step"]),
        ({"ask": "later", "over": "hours", "step": "hour"}, ["step"]),
        ({"ask": "later", "over": "hour", "step": "five-minutes"}, []),
    ],
)
def test_impossible_conditions_are_told(options: dict[str, object], found: list[str]) -> None:
    assert [where for where, *_ in DURATION.check(skill(**options))] == found


def test_keys_say_the_class_and_asked_says_the_numbers() -> None:
    assert list(DURATION.keys(skill(ask="later", over="hours-across", step="minute"))) == [
        "duration:later-hours-across/1"
    ]
    assert start_and_span("04:15-0:25") == (230, 25)


# --- error rules --------------------------------------------------------------------------------------


@pytest.mark.parametrize("row", rows("error_rules.csv", family="span"), ids=lambda row: row["rule"])
def test_every_rule_of_the_table_shows_as_in_its_example(row: dict[str, str]) -> None:
    """error_rules.csv: from memory (Earnest)."""
    found = re.fullmatch(r"(\d+):(\d\d) plus (\d+) h (\d+) min", row["example"])
    assert found
    hour, minute, hours, span = map(int, found.groups())
    over = "hour" if not hours else "hours"
    key, asked = f"duration:later-{over}/5", f"{hour:02}:{minute:02}+{hours}:{span:02}"
    assert DURATION.problem(key, asked).expected == row["right"]
    assert DURATION.predict(key, asked)[row["rule"]] == row["predicted"]


SPANS = [
    ("earlier-hour/5", "05:25-0:45", {"base_100": "4:80", "hour_kept": "5:40",
     "smaller_from_larger": "5:20"}),
    ("earlier-hours/5", "05:50-1:20", {"hour_part_lost": "5:30", "minutes_lost": "4:50"}),
    ("between-hour/5", "01:50>02:10", {"base_100": "60", "smaller_from_larger": "40"}),
    ("between-hour/5", "02:30>03:00", {"base_100": "70"}),
    ("between-hours/5", "06:25>09:55", {}),
    ("between-hours-across/5", "01:25>03:15", {"base_100": "1 h 90 min", "hour_kept": "2 h 50 min",
     "smaller_from_larger": "2 h 10 min"}),
    ("timetable-day/5", "07:45>08:30", {"base_100": "85 min", "hour_kept": "1 h 45 min",
     "smaller_from_larger": "1 h 15 min"}),
    ("between-noon/5", "09:05>13:00", {}),
]  # fmt: skip


@pytest.mark.parametrize(("key", "asked", "predicted"), SPANS, ids=lambda one: str(one)[:30])
def test_what_is_believed_of_earlier_and_how_long(key: str, asked: str, predicted: dict[str, str]) -> None:
    """A hundred minutes in an hour, the hour left as it was: as of later, from memory (Earnest). Less from
    more: as in columns, common practice, no source. By hand: 3:15 less 1:25 is 315 less 125, so 190."""
    assert dict(DURATION.predict(f"duration:{key}", asked)) == predicted


@given(st.sampled_from([key for key in KEYS if "-hour" in key]), SOURCES)
def test_an_hour_of_a_hundred_minutes_is_a_number_as_it_stands(key: str, random: Random) -> None:
    asked = DURATION.draw(key, random)
    found = re.fullmatch(r"(\d\d:\d\d)([-+>])(\d+:\d\d)", asked)
    assert found
    one, other = (int(found[at].replace(":", "")) for at in (1, 3))
    made = {"+": one + other, "-": one - other, ">": other - one}[found[2]]
    text = dict(DURATION.predict(key, asked)).get("base_100")
    assert text is None or int("".join(re.findall(r"\d+", text))) == made


@given(st.sampled_from(KEYS), SOURCES)
def test_what_is_predicted_can_be_read_and_differs(key: str, random: Random) -> None:
    asked = DURATION.draw(key, random)
    problem = DURATION.problem(key, asked)
    assert {judge(problem, text) for text in DURATION.predict(key, asked).values()} <= {"other"}


def test_a_blank_holds_back_what_is_asked_for_not_its_unit() -> None:
    def blank(key: str, asked: str) -> str:
        return next(help.text for help in DURATION.problem(key, asked).helps if help.step == "blank")

    assert blank("duration:between-hours/5", "02:10>03:30") == "2:10 + 1 h = 3:10\n3:10 + □ min = 3:30"
    assert blank("duration:timetable-day/5", "06:00>09:00") == "06:00 + □ h = 09:00"
    assert (
        blank("duration:later-noon/5", "11:50+0:30")
        == "11:50 am + 10 min = 12:00 pm\n12:00 pm + 20 min = □ pm"
    )
    assert blank("duration:between-within/5", "03:10>03:35") == "35 − 10 = □"


@pytest.mark.parametrize(
    ("asked", "question"),
    [
        ("09:15+2:25", "Where do the whole hours end?"),
        ("14:40+0:25", "How far to the next hour?"),
        ("14:10+0:25", "Does it stay in the hour?"),
    ],
)
def test_a_question_fits_the_span(asked: str, question: str) -> None:
    assert DURATION.problem("duration:later-day/5", asked).helps[0].text == question


def test_earlier_goes_into_the_hour_before() -> None:
    assert (
        DURATION.traits("duration:earlier-hour/5").title
        == "an earlier time, into the hour before, to five minutes"
    )
