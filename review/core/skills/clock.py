"""Telling the time: from a drawn face, in words, and by the 12-hour and the 24-hour clock.

A class is a step of minutes and all the times of it, on twelve hours: to the hour 12, to the half hour 24,
to five minutes 144, to the minute 720. Between the two clocks it is the afternoon and evening, where they
differ, or the whole day.
"""

from collections.abc import Callable, Iterator, Mapping
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Problem, Skill, Traits
from review.core.pictures import ClockFace
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import word
from review.core.skills.wording import EQUALS, MINUS, PLUS, TIMES, in_words, sentence
from review.core.skills.worked import worked

STEPS: Mapping[str, int] = {"hour": 60, "half-hour": 30, "quarter": 15, "five-minutes": 5, "minute": 1}
STEP_TITLES = {
    60: "the hour",
    30: "the half hour",
    15: "the quarter hour",
    5: "five minutes",
    1: "the minute",
}
TITLES = {
    "read": "a clock face, to {}",
    "digits": "time in words to digits, to {}",
    "words": "time in digits to words, to {}",
    "to-24": "pm to the 24-hour clock, to {}",
    "to-12": "the 24-hour clock to pm, to {}",
    "day-to-24": "am and pm to the 24-hour clock, to {}",
    "day-to-12": "the 24-hour clock to am and pm, to {}",
}
SECONDS = {  # our judgement
    "read": 7.0, "digits": 8.0, "words": 14.0,
    "to-24": 8.0, "to-12": 9.0, "day-to-24": 9.0, "day-to-12": 10.0,
}  # fmt: skip
TO_THE_MINUTE = 8.0  # more, for counting single marks


# --- times in all their writings ----------------------------------------------------------------------


class Moment(NamedTuple):
    hour: int  # 0 to 23
    minute: int

    @property
    def on_the_face(self) -> int:
        return (self.hour - 1) % 12 + 1

    @property
    def pm(self) -> bool:
        return self.hour >= 12


def moment(asked: str) -> Moment:
    hour, _, minute = asked.partition(":")
    return Moment(int(hour), int(minute))


def twelve(time: Moment) -> str:
    """3:25"""
    return f"{time.on_the_face}:{time.minute:02}"


def with_half(time: Moment) -> str:
    """3:25 pm"""
    return f"{twelve(time)} {'pm' if time.pm else 'am'}"


def twenty_four(time: Moment) -> str:
    """15:25"""
    return f"{time.hour:02}:{time.minute:02}"


def after(hour: int) -> int:
    """The next hour on a face."""
    return hour % 12 + 1


def _count(minutes: int) -> str:
    """Minutes that are no multiple of five are called minutes."""
    name = {15: "quarter", 30: "half"}.get(minutes, in_words(minutes))
    return name if minutes % 5 == 0 else f"{name} minute{'s' if minutes > 1 else ''}"


def in_time_words(time: Moment) -> str:
    """Quarter past three, twenty-five to four, nine o'clock, one minute past twelve."""
    hour, minute = time.on_the_face, time.minute
    if minute == 0:
        return f"{in_words(hour)} o'clock"
    if minute <= 30:
        return f"{_count(minute)} past {in_words(hour)}"
    return f"{_count(60 - minute)} to {in_words(after(hour))}"


# --- classes ------------------------------------------------------------------------------------------


def _class(key: str) -> tuple[str, int]:
    ask, _, step = content_of(key).partition("/")
    return ask, int(step)


def hours(ask: str) -> range:
    """Of the day, as they stand in `asked`: a face has those from one to twelve."""
    if ask in ("to-24", "to-12"):
        return range(13, 24)
    return range(24) if ask.startswith("day") else range(1, 13)


def belongs(key: str, time: Moment) -> bool:
    ask, step = _class(key)
    return time.hour in hours(ask) and time.minute in range(0, 60, step)


def draw(key: str, random: Random) -> str:
    ask, step = _class(key)
    return twenty_four(Moment(random.choice(hours(ask)), random.choice(range(0, 60, step))))


# --- help ---------------------------------------------------------------------------------------------

BUILD = Help("build", "Set it on a toy clock.")


def _past_equation(time: Moment) -> str:
    """What both hands say together: 25 past 3 = 3:25."""
    if not time.minute:
        return f"{time.on_the_face} o'clock {EQUALS} {twelve(time)}"
    return f"{time.minute} past {time.on_the_face} {EQUALS} {twelve(time)}"


def _minute_steps(minute: int) -> tuple[str, ...]:
    """From the number the long hand is at, or the last one it has passed; to the minute, a face is read by
    those who know the table of 5."""
    number, more = divmod(minute, 5)
    where = "at" if not more else "past"
    if not minute:
        return ("The long hand is at 12.",)
    if not number:
        return (f"The long hand is {more} past 12.",)
    fives = f"{number} {TIMES} 5 {EQUALS} {number * 5}"
    rest = (f"{number * 5} {PLUS} {more} {EQUALS} {minute}",) if more else ()
    return f"The long hand is {where} {number}.", fives, *rest


def _five_steps(minute: int) -> tuple[str, ...]:
    """Counted in fives, as before any table is known; past the half from the half on."""
    half = ("At 6 it is 30.",) if minute >= 30 else ()
    fives = [str(five) for five in range(35 if half else 5, minute + 1, 5)]
    counted = (f"In 5s: {', '.join(fives)}",) if fives else ()
    return (f"The long hand is at {minute // 5 or 12}.", *half, *counted)


PARTS = {15: "quarter past", 30: "half past", 45: "quarter to"}


def _part_steps(time: Moment) -> tuple[str, ...]:
    """A part of the hour has a name, and no minutes need be counted."""
    part, hour = PARTS[time.minute], time.on_the_face
    following = (f"The next hour is {after(hour)}.",) if part == "quarter to" else ()
    named = f"{part} {after(hour) if following else hour} {EQUALS} {twelve(time)}"
    return f"The long hand is at {time.minute // 5}.", f"That is {part}.", *following, named


def _read_steps(time: Moment, step: int) -> tuple[str, ...]:
    """By what is known where a face is read so exactly: parts of the hour, counting in fives, the table."""
    if step > 5 and time.minute:
        return _part_steps(time)
    minutes = _minute_steps(time.minute) if step == 1 else _five_steps(time.minute)
    return (*minutes, _past_equation(time))


def _read_helps(time: Moment, step: int) -> tuple[Help, ...]:
    short = f"The short hand is {'past' if time.minute else 'at'} {time.on_the_face}."
    steps = _read_steps(time, step)
    calculated = steps[-2][-1].isdigit()  # or else a sentence: then what it comes to is asked
    question = "Which number has the short hand passed?" if time.minute else "Where does each hand point?"
    return Help("question", question), BUILD, *worked(short, *steps, at=-2 if calculated else -1)


def _digit_helps(time: Moment) -> tuple[Help, ...]:
    """After half past, the words say what is missing to the next hour."""
    steps = [_past_equation(time)]
    if time.minute > 30:
        before = f"The hour before is {time.on_the_face}."
        steps = [before, f"60 {MINUS} {60 - time.minute} {EQUALS} {time.minute}", *steps]
    asks = "Before the hour, or after it?" if time.minute else "Where is the long hand?"
    return Help("question", asks), BUILD, *worked(*steps, at=-2 if len(steps) > 1 else -1)


def _word_helps(time: Moment) -> tuple[Help, ...]:
    hour, minute, closing = time.on_the_face, time.minute, sentence(in_time_words(time))
    steps = [f"{twelve(time)} {EQUALS} {minute} past {hour}", closing]
    if not minute:
        steps = [f"{twelve(time)} {EQUALS} {hour} o'clock", closing]
    elif minute > 30:
        following = f"The next hour is {in_words(after(hour))}."
        steps = [f"60 {MINUS} {minute} {EQUALS} {60 - minute}", following, closing]
    asks = "Is it more than half past?" if minute else "Where is the long hand?"
    return Help("question", asks), BUILD, *worked(*steps, at=0)


def _clock_helps(time: Moment, to_24: bool) -> tuple[Help, ...]:
    """Between the clocks: twelve more or twelve less in the afternoon."""
    halves, whole = with_half(time), twenty_four(time)
    closing = f"{halves} {EQUALS} {whole}" if to_24 else f"{whole} {EQUALS} {halves}"
    step: tuple[str, ...] = ()
    if time.hour > 12:
        a, sign, b = (time.on_the_face, PLUS, time.hour) if to_24 else (time.hour, MINUS, time.on_the_face)
        step = (f"{a} {sign} 12 {EQUALS} {b}",)
    elif time.hour == 0 and time.minute:  # at midnight itself it would be the answer
        step = ("The day begins at 00:00.",)
    asks = "Is it after noon?" if to_24 else "How many hours after noon?"
    asks = asks if time.pm else "Is it before noon?"
    build = Help("build", "Count the hours round a clock.")
    return Help("question", asks), build, *worked(*step, closing, at=0 if time.hour > 12 else -1)


# --- problems -----------------------------------------------------------------------------------------


def _read(key: str, asked: str, time: Moment) -> Problem:
    step = _class(key)[1]
    face = ClockFace(time.hour, time.minute, marked=step == 1)
    told = f"{sentence(in_time_words(time))}\nThat is {twelve(time)}."
    return Problem(
        key, "clock", asked, "The time is", "What time does the clock show?", "clock-time", twelve(time),
        told, _read_helps(time, step), picture=face,
    )  # fmt: skip


def _digits(key: str, asked: str, time: Moment) -> Problem:
    said = in_time_words(time)
    return Problem(
        key, "clock", asked, f"{sentence(said).rstrip('.')} {EQUALS}", f"{said}, in digits", "clock-digits",
        twelve(time), f"{sentence(said)}\nThat is {twelve(time)}.", _digit_helps(time),
    )  # fmt: skip


def _words(key: str, asked: str, time: Moment) -> Problem:
    said = in_time_words(time)
    minutes = _after_the_hour(time.minute) or "o'clock"
    return Problem(
        key, "clock", asked, f"{twelve(time)} in words:", f"{in_words(time.on_the_face)} {minutes}, in words",
        "clock-words", said, f"{twelve(time)} is\n{said}.", _word_helps(time),
    )  # fmt: skip


def _after_the_hour(minutes: int) -> str:
    """As they are read after the hour: "oh five", "twenty-five"; "" for none."""
    return f"{'oh ' * (minutes < 10)}{in_words(minutes)}" if minutes else ""


def by_24_hours(time: Moment) -> str:
    """Fourteen thirty-five, fourteen oh five, fourteen hundred hours."""
    return f"{in_words(time.hour)} {_after_the_hour(time.minute) or 'hundred hours'}"


def in_the_day(time: Moment) -> str:
    if time.hour % 12 == 0 and not time.minute:
        return "noon" if time.pm else "midnight"
    half = "in the afternoon" if 12 <= time.hour < 18 else "in the evening" if time.pm else "in the morning"
    return f"{in_time_words(time)} {half}"


def _to_24(key: str, asked: str, time: Moment) -> Problem:
    halves, whole = with_half(time), twenty_four(time)
    return Problem(
        key, "clock", asked, f"{halves}, by 24 hours:", f"{in_the_day(time)}, by the 24-hour clock",
        "clock-24", whole, f"{halves} is {whole}.", _clock_helps(time, True),
    )  # fmt: skip


def _to_12(key: str, asked: str, time: Moment) -> Problem:
    halves, whole = with_half(time), twenty_four(time)
    return Problem(
        key, "clock", asked, f"{whole}, with am or pm:", f"{by_24_hours(time)}, with am or pm", "clock-am-pm",
        halves, f"{whole} is {halves}.", _clock_helps(time, False),
    )  # fmt: skip


PROBLEMS: Mapping[str, Callable[[str, str, Moment], Problem]] = {
    "read": _read,
    "digits": _digits,
    "words": _words,
    "to-24": _to_24,
    "to-12": _to_12,
    "day-to-24": _to_24,
    "day-to-12": _to_12,
}


def problem(key: str, asked: str) -> Problem:
    time = moment(asked)
    if not belongs(key, time):
        raise ValueError(f"{asked} does not belong to {key}")
    return PROBLEMS[_class(key)[0]](key, asked, time)


# --- what one would write under an error rule ---------------------------------------------------------


def _face_errors(hour: int, minute: int) -> Mapping[str, tuple[int, int]]:
    """The hour read too late, minutes as the printed number, one hand taken for the other."""
    swapped = (minute // 5 or 12, hour * 5 % 60) if minute % 5 == 0 else (hour, minute)
    return {
        "hour_ahead": (after(hour) if minute > 30 else hour, minute),
        "hour_ahead_always": (after(hour) if minute else hour, minute),
        "minute_face": (hour, minute // 5 if minute % 5 == 0 else minute),
        "hands_swapped": swapped,
    }


def _clock_errors(ask: str, time: Moment) -> Mapping[str, str]:
    """Ten for twelve in the afternoon, hours as they stand on a face (common practice, no source)."""
    if ask.endswith("to-12"):
        return {"ten_for_twelve": f"{time.hour - 10}:{time.minute:02} pm"} if 13 <= time.hour <= 22 else {}
    afternoon = time.hour > 12
    tens = {"ten_for_twelve": twenty_four(Moment(time.hour - 2, time.minute))} if afternoon else {}
    same = {"hour_as_it_stands": twenty_four(Moment(time.on_the_face, time.minute))}
    return {**tens, **(same if afternoon or not time.hour else {})}


def predict(key: str, asked: str) -> Mapping[str, str]:
    """For a face, for words turned to digits (past and to exchanged), and from clock to clock."""
    ask, time = _class(key)[0], moment(asked)
    if ask.endswith(("to-24", "to-12")):
        return _clock_errors(ask, time)
    hour, minute = time.on_the_face, time.minute
    turned = {"past_to": (hour, (60 - minute) % 60)}
    rules = {"read": {**_face_errors(hour, minute), **turned}, "digits": turned}.get(ask, {})
    return {rule: f"{h}:{m:02}" for rule, (h, m) in rules.items() if (h, m) != (hour, minute)}


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    yield f"clock:{word(skill, 'ask')}/{STEPS[word(skill, 'step')]}"


def traits(key: str) -> Traits:
    ask, step = _class(key)
    groups = frozenset({f"procedure-{key}", f"clock-{ask.removeprefix('day-')}"})
    seconds = SECONDS[ask] + (TO_THE_MINUTE if step == 1 and ask == "read" else 0)
    return Traits(TITLES[ask].format(STEP_TITLES[step]), False, seconds, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "clock",
        "telling the time, from a face, in words and by both clocks",
        {
            "ask": Option(
                "word",
                "read a face; words to digits or back; from clock to clock, from 1 pm on or all day",
                choices=tuple(TITLES),
                example='"read"',
            ),
            "step": Option("word", "how exact the times are", choices=tuple(STEPS), example='"five-minutes"'),
        },
        keys,
        traits,
        draw,
        problem,
        predict=predict,
    ),
)
