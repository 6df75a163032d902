"""Telling the time: the drawn face read back, words and angles against an outside table, whole spaces."""

import re
from collections import Counter
from datetime import datetime, time
from fractions import Fraction
from importlib import import_module
from math import atan2, cos, degrees, hypot, radians, sin
from random import Random
from typing import Any

import pytest
from babel.dates import format_time
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.drawn.clock_face import (
    HOUR_SIGN,
    LARGE,
    MARK,
    MIDDLE,
    MINUTE_SIGN,
    SMALL,
    Face,
    drawn,
    hour_angle,
    minute_angle,
)  # fmt: skip
from review.core.model import Skill
from review.core.skills.clock import KINDS, STEPS, TITLES, in_time_words, moment
from review.signs import fit
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses, seen
from tests.tables import rows

(CLOCK,) = KINDS
num2words: Any = import_module("num2words").num2words  # the library has no types
KEYS = [f"clock:{ask}/{step}" for ask in TITLES for step in STEPS.values()]


def skill(**options: object) -> Skill:
    return Skill("s", "S", "clock", "accuracy", options)


PARTS = {"half past": 30, "quarter past": 15, "quarter to": -15}


def clock_term(term: str) -> Fraction:
    """Times in minutes of the day, by Python's own reading of them; other terms as numbers."""
    if past := re.fullmatch(r"(\d+) past (\d+)", term):
        return Fraction(int(past[2]) * 60 + int(past[1]))
    if oclock := re.fullmatch(r"(\d+) o'clock", term):
        return Fraction(int(oclock[1]) * 60)
    if part := re.fullmatch(r"(half past|quarter past|quarter to) (\d+)", term):
        return Fraction((int(part[2]) * 60 + PARTS[part[1]] - 60) % 720 + 60)  # from 1:00 to 12:59
    for form in ("%I:%M %p", "%H:%M"):
        try:
            read = datetime.strptime(term, form)
        except ValueError:
            continue
        return Fraction(read.hour * 60 + read.minute)
    return Fraction(term)


# --- what is shown ------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", KEYS)
def test_every_time_of_a_class_is_sound_to_five_minutes(key: str) -> None:
    for asked in members(key):
        if int(asked[3:]) % 5 == 0 or asked[:2] == "11":
            assert_sound(CLOCK.problem(key, asked), clock_term)


@given(st.sampled_from(KEYS), SOURCES)
def test_what_is_drawn_is_sound(key: str, random: Random) -> None:
    problem = CLOCK.problem(key, CLOCK.draw(key, random))
    assert_sound(problem, clock_term)
    assert all(len(line) <= 40 for line in seen(problem))


def test_as_a_teacher_would_write_it() -> None:
    read = CLOCK.problem("clock:read/5", "03:25")
    assert (read.prompt, read.expected) == ("The time is", "3:25")
    assert [judge(read, text) for text in ("3:25", "15:25", "25 past 3", "3.25 pm", "3:35", "3")] == [
        "right", "right", "right", "right", "other", "unreadable",
    ]  # fmt: skip
    digits = CLOCK.problem("clock:digits/15", "09:45")
    assert (digits.prompt, digits.expected) == ("Quarter to ten =", "9:45")
    assert [judge(digits, text) for text in ("9:45", "quarter to ten", "10:45")] == [
        "right", "unreadable", "other",
    ]  # fmt: skip
    words = CLOCK.problem("clock:words/15", "03:15")
    assert (words.prompt, words.expected) == ("3:15 in words:", "quarter past three")
    assert [judge(words, text) for text in ("a quarter past 3", "three fifteen", "3:15", "quarter to 3")] == [
        "right", "right", "unreadable", "other",
    ]  # fmt: skip
    later = CLOCK.problem("clock:to-24/5", "15:25")
    assert (later.prompt, later.expected) == ("3:25 pm, by 24 hours:", "15:25")
    assert [judge(later, text) for text in ("15:25", "1525", "3:25", "3:25 pm")] == [
        "right", "right", "other", "unreadable",
    ]  # fmt: skip
    halves = CLOCK.problem("clock:to-12/5", "15:25")
    assert [judge(halves, text) for text in ("3:25 pm", "3.25 p.m.", "3:25 am", "3:25", "15:25")] == [
        "right", "right", "other", "unreadable", "unreadable",
    ]  # fmt: skip


@pytest.mark.parametrize("step", [60, 30, 15, 5])
def test_a_face_is_read_without_a_table_until_it_is_read_to_the_minute(step: int) -> None:
    """Half past is read at six and seven (1.MD.B.3, Y1), the tables come later (Y2, 3.OA.C.7)."""
    for asked in members(f"clock:read/{step}"):
        steps = CLOCK.problem(f"clock:read/{step}", asked).helps[-1].text
        assert "×" not in steps


def test_a_face_is_read_as_far_as_the_hour_is_parted() -> None:
    steps = {
        ("clock:read/30", "02:30"): "The long hand is at 6.|That is half past.|half past 2 = 2:30",
        ("clock:read/15", "12:45"): "The long hand is at 9.|That is quarter to.|The next hour is 1."
        "|quarter to 1 = 12:45",
        ("clock:read/5", "08:25"): "The long hand is at 5.|In 5s: 5, 10, 15, 20, 25|25 past 8 = 8:25",
        ("clock:read/5", "08:50"): "The long hand is at 10.|At 6 it is 30.|In 5s: 35, 40, 45, 50"
        "|50 past 8 = 8:50",
        ("clock:read/1", "08:47"): "The long hand is past 9.|9 × 5 = 45|45 + 2 = 47|47 past 8 = 8:47",
    }
    for (key, asked), expected in steps.items():
        hour = int(asked[:2])
        text = CLOCK.problem(key, asked).helps[-1].text
        assert text == "\n".join([f"The short hand is past {hour}.", *expected.split("|")])


def test_of_a_full_hour_no_help_asks_for_half_past() -> None:
    questions = {asked: CLOCK.problem("clock:words/15", asked).helps[0].text for asked in ("09:00", "09:45")}
    assert questions == {"09:00": "Where is the long hand?", "09:45": "Is it more than half past?"}


@pytest.mark.parametrize("key", KEYS)
def test_no_help_before_the_steps_says_the_answer(key: str) -> None:
    for asked in members(key):
        problem = CLOCK.problem(key, asked)
        answer = re.compile(rf"(?<!\d){re.escape(problem.expected)}(?!\d)")
        early = "\n".join(help.text for help in problem.helps[:-1])
        assert answer.search(problem.prompt) or not answer.search(early)


# --- against outside sources --------------------------------------------------------------------------


@pytest.mark.parametrize("row", rows("clock.csv"), ids=lambda row: row["h24"])
def test_words_and_angles_are_those_of_the_table(row: dict[str, str]) -> None:
    """clock.csv: angles by 30h + m/2 and 6m, words by the rule of past and to; noon stands by itself."""
    at = moment(row["h24"])
    assert hour_angle(at.hour, at.minute) == float(row["hour_hand_deg"])
    assert minute_angle(at.minute) == float(row["minute_hand_deg"])
    apart = abs(hour_angle(at.hour, at.minute) - minute_angle(at.minute))
    assert min(apart, 360 - apart) == float(row["angle_between_deg"])
    spoken = row["spoken_rule_past_to"]
    assert in_time_words(at) == spoken.replace("noon", "twelve o'clock")
    face = CLOCK.problem("clock:words/1", f"{(at.hour - 1) % 12 + 1:02}:{at.minute:02}")
    assert judge(face, spoken) == "right"
    there, back = (CLOCK.problem(f"clock:day-to-{hours}/1", row["h24"]) for hours in (24, 12))
    assert there.expected == row["h24"]
    assert judge(back, row["h12"]) == "right"


def test_hours_of_the_day_are_those_of_the_babel_library() -> None:
    """babel (BSD licence, CLDR data): 12-hour times in American English, every minute of the day."""
    for minutes in range(1440):
        asked = f"{minutes // 60:02}:{minutes % 60:02}"
        halves = format_time(time(*divmod(minutes, 60)), "h:mm a", locale="en_US")
        assert CLOCK.problem("clock:day-to-12/1", asked).expected == halves.lower()


def test_numbers_in_words_are_those_of_the_num2words_library() -> None:
    """num2words (LGPL): the hour of every o'clock, the minutes of every time up to half past."""
    for hour in range(1, 13):
        assert in_time_words(moment(f"{hour:02}:00")) == f"{num2words(hour)} o'clock"
        for minute in set(range(1, 30)) - {15}:
            words = in_time_words(moment(f"{hour:02}:{minute:02}"))
            assert re.sub(" minutes?", "", words) == f"{num2words(minute)} past {num2words(hour)}"
            to = in_time_words(moment(f"{hour:02}:{60 - minute:02}"))
            assert re.sub(" minutes?", "", to) == f"{num2words(minute)} to {num2words(hour % 12 + 1)}"


# --- the face read back -------------------------------------------------------------------------------


def direction(face: Face, line: int, column: int) -> float:
    """Degrees from 12, clockwise, of a place on the face."""
    across, up = (column - face.across) / face.across, (face.down - line) / face.down
    return degrees(atan2(across, up)) % 360


def tip(face: Face, lines: tuple[str, ...], sign: str) -> float:
    """The direction of the sign that is farthest from the middle."""
    places = [
        (row, column) for row, line in enumerate(lines) for column, one in enumerate(line) if one == sign
    ]
    far = max(places, key=lambda at: ((at[1] - face.across) / face.across) ** 2
              + ((at[0] - face.down) / face.down) ** 2)  # fmt: skip
    return direction(face, *far)


def off(one: float, other: float) -> float:
    return min((one - other) % 360, (other - one) % 360)


FACES = [(SMALL, minute) for minute in range(0, 60, 5)] + [(LARGE, minute) for minute in range(60)]


@pytest.mark.parametrize(("face", "minute"), FACES)
def test_both_hands_point_where_the_time_has_them(face: Face, minute: int) -> None:
    """The long hand within half of what two neighbouring minutes, or five of them, lie apart; the short one
    nearer to its place than to the place of any other hour."""
    for hour in range(1, 13):
        lines = drawn(hour, minute, face)
        assert off(tip(face, lines, MINUTE_SIGN), minute_angle(minute)) < (4 if face.marked else 6)
        assert off(tip(face, lines, HOUR_SIGN), hour_angle(hour, minute)) < 8


def places(lines: tuple[str, ...], sign: str) -> list[tuple[int, int]]:
    return [(row, column) for row, line in enumerate(lines) for column, one in enumerate(line) if one == sign]


def right_of_middle(face: Face, angle: float) -> tuple[float, float]:
    """Columns right of the middle and lines above it of the rim in that direction, by sine and cosine."""
    return face.across * sin(radians(angle)), face.down * cos(radians(angle))


def on_the_side(face: Face, at: tuple[int, int], angle: float) -> bool:
    """Whether a tip lies left or right, above or below as its direction says; within half a cell of a line it
    may lie on the line."""
    across, up = right_of_middle(face, angle)
    column, line = at[1] - face.across, face.down - at[0]
    return all(
        found * exact > 0 or (found == 0 and abs(exact) < 2)
        for found, exact in ((column, across), (line, up))
    )


@pytest.mark.parametrize(("face", "minute"), FACES)
def test_both_hands_end_on_their_side_and_can_be_seen(face: Face, minute: int) -> None:
    """All 720 faces to the minute and all 144 to five: the ends lie on the side where the hands point, the
    long hand reaches farther, and enough of each is to be seen (three and two signs: our judgement)."""
    for hour in range(1, 13):
        lines = drawn(hour, minute, face)
        short, long = places(lines, HOUR_SIGN), places(lines, MINUTE_SIGN)
        assert (len(short) >= 3, len(long) >= 2) == (True, True)
        ends = [max(hand, key=lambda at: middle_to(face, at)) for hand in (short, long)]
        assert on_the_side(face, ends[0], hour_angle(hour, minute))
        assert on_the_side(face, ends[1], minute_angle(minute))
        assert middle_to(face, ends[1]) > middle_to(face, ends[0]) + 0.15


def middle_to(face: Face, at: tuple[int, int]) -> float:
    """How far from the middle, the rim being 1."""
    return hypot((at[1] - face.across) / face.across, (face.down - at[0]) / face.down)


@pytest.mark.parametrize("hour", range(1, 13))
def test_a_minute_before_and_after_the_hour_is_told_from_the_hour(hour: int) -> None:
    """The figures of 12 stand on two columns: at 59 the long hand ends left of both, at 01 right of both, at
    00 under them; at 59 and 01 under their own marks."""
    faces = [drawn(hour, minute, LARGE) for minute in (59, 0, 1)]
    before, on, after = (
        max(places(face, MINUTE_SIGN), key=lambda at: middle_to(LARGE, at)) for face in faces
    )
    top = faces[1][0]
    assert before[0] == on[0] == after[0] == 1
    assert before[1] < top.index("1") <= on[1] <= top.index("2") < after[1]
    assert top[before[1]] == top[after[1]] == MARK


def test_every_time_has_a_face_of_its_own() -> None:
    """counts.csv: 720 times to the minute, 144 to five minutes."""
    counts = {row["what"]: int(row["count"]) for row in rows("counts.csv") if row["class"] == "clock times"}
    large = {drawn(hour, minute, LARGE) for hour in range(1, 13) for minute in range(60)}
    small = {drawn(hour, minute, SMALL) for hour in range(1, 13) for minute in range(0, 60, 5)}
    assert len(large) == counts["to the minute"]
    assert len(small) == counts["to five minutes"]
    assert max(len(line) for lines in large | small for line in lines) <= 40


def test_each_minute_has_a_place_on_the_large_face() -> None:
    """The long hand tells sixty minutes apart, and each but the twelve at the numbers has its mark."""
    tips = {round(tip(LARGE, drawn(6, minute, LARGE), MINUTE_SIGN), 3) for minute in range(60)}
    assert len(tips) == 60
    marks = "".join(drawn(12, 0, LARGE)).count(MARK)
    assert 46 <= marks <= 48  # two may lie under the numbers of two figures


def test_a_face_has_its_twelve_numbers_and_plain_stand_ins() -> None:
    for face in (SMALL, LARGE):
        lines = drawn(7, 20, face)
        assert sorted(map(int, re.findall(r"\d+", " ".join(lines)))) == list(range(1, 13))
        plain = "\n".join(fit(line, "ascii") for line in lines)
        assert plain.isascii()
        assert "?" not in plain
        signs = Counter("\n".join(lines))
        kept = Counter(plain)
        assert (kept["#"], kept["*"], kept["."]) == (signs[HOUR_SIGN], signs[MINUTE_SIGN], signs[MARK])
        assert signs[MIDDLE] == 1


# --- classes ------------------------------------------------------------------------------------------


def members(key: str) -> list[str]:
    ask, step = key[6:].split("/")
    hours = range(24) if "day" in ask else range(13, 24) if ask[:2] == "to" else range(1, 13)
    return [f"{hour:02}:{minute:02}" for hour in hours for minute in range(0, 60, int(step))]


@pytest.mark.parametrize("key", [key for key in KEYS if not key.endswith("/1")])
def test_every_time_is_equally_likely(key: str) -> None:
    assert_uniform(CLOCK, key, members(key))


@pytest.mark.parametrize(
    ("what", "step"),
    [("to the hour", 60), ("to the half hour", 30), ("to five minutes", 5), ("to the minute", 1)],
)
def test_there_are_as_many_times_as_the_table_counts(what: str, step: int) -> None:
    (count,) = (int(row["count"]) for row in rows("counts.csv") if row["what"] == what)
    assert len(members(f"clock:read/{step}")) == count


def test_a_time_of_another_class_is_refused() -> None:
    taken = [
        *refuses(CLOCK, "clock:read/5", ["00:00", "13:05", "03:01", "03:61"]),
        *refuses(CLOCK, "clock:to-24/15", ["12:15", "11:00", "13:05"]),
    ]
    assert taken == []


def test_keys_and_traits() -> None:
    assert list(CLOCK.keys(skill(ask="read", step="five-minutes"))) == ["clock:read/5"]
    one, other = CLOCK.traits("clock:to-24/5"), CLOCK.traits("clock:day-to-24/5")
    assert one.groups & other.groups
    assert one.title == "pm to the 24-hour clock, to five minutes"


def test_a_face_fits_a_terminal_of_24_lines() -> None:
    """With a row of dots and a gap above it, the two lines of a first meeting, and the prompt (VT100: 24)."""
    for face in (SMALL, LARGE):
        assert len(drawn(7, 20, face)) + 1 + 1 + 2 + 1 <= 24
