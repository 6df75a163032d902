"""Spans of time: later by, earlier by, from one time to another, and timetables.

A class is what is asked, where the span goes, and a step of minutes:
- within: minutes that stay in the hour; hour: under an hour, into the next one
- hours: one to three hours and minutes that stay in the hour; hours-across: minutes that do not
- noon: from a morning to an afternoon, by am and pm, up to four hours
- day: by the 24-hour clock, from 05:00 to 23:00, up to three hours
Spans are of one step at least. All but the last two are on a face from one o'clock to before one again.
"""

from collections.abc import Callable, Iterator, Mapping
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import BOX, Help, Problem, Skill, Traits
from review.core.pictures import Lines
from review.core.skills.clock import (
    STEP_TITLES,
    STEPS,
    Moment,
    by_24_hours,
    in_the_day,
    in_time_words,
    twelve,
    twenty_four,
    with_half,
)
from review.core.skills.duration_errors import between, earlier, later
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import word
from review.core.skills.wording import EQUALS, MINUS, PLUS, in_words, lines
from review.core.skills.worked import worked

HOUR, NOON = 60, 720


class Reach(NamedTuple):
    """Where a span of minutes may begin and end, in minutes of the day, and what it is like."""

    first: int
    last: int  # the latest end
    longest: int
    fits: Callable[[int, int], bool]  # (start, span)
    shown: Callable[[Moment], str]
    title: str
    seconds: float  # our judgement


def _passes(start: int, span: int) -> bool:
    """Whether the minutes reach a new hour, beside the hours of the span."""
    return start % HOUR + span % HOUR >= HOUR


REACHES: Mapping[str, Reach] = {
    "within": Reach(
        60, 779, 59, lambda start, span: not _passes(start, span), twelve, "within the hour", 10.0
    ),
    "hour": Reach(60, 779, 59, _passes, twelve, "into the next hour", 14.0),
    "hours": Reach(
        60, 779, 239,
        lambda start, span: span > HOUR and span % HOUR > 0 and not _passes(start, span),
        twelve, "hours and minutes", 14.0,
    ),
    "hours-across": Reach(
        60, 779, 239, lambda start, span: span > HOUR and _passes(start, span),
        twelve, "hours, past the hour", 20.0,
    ),
    "noon": Reach(
        420, 1020, 240, lambda start, span: start < NOON < start + span, with_half, "across noon", 22.0
    ),
    "day": Reach(300, 1380, 180, lambda start, span: True, twenty_four, "by the 24-hour clock", 20.0),
}  # fmt: skip
ASKS = {
    "later": "a later time, {}",
    "earlier": "an earlier time, {}",
    "between": "how long it is, {}",
    "timetable": "a timetable, {}",
}
WHOLE = ("within", "hour")  # spans that are asked for in minutes alone


class Class(NamedTuple):
    ask: str
    over: str
    step: int

    @property
    def reach(self) -> Reach:
        return REACHES[self.over]


def _class(key: str) -> Class:
    name, _, step = content_of(key).partition("/")
    ask, _, over = name.partition("-")
    return Class(ask, over, int(step))


def belongs(of: Class, start: int, span: int) -> bool:
    reach = of.reach
    return (
        reach.first <= start < start + span <= reach.last
        and of.step <= span <= reach.longest
        and start % of.step == span % of.step == 0
        and reach.fits(start, span)
    )


def members(of: Class) -> Iterator[tuple[int, int]]:
    """Every start and span, in minutes."""
    for start in range(of.reach.first, of.reach.last, of.step):
        for span in range(of.step, of.reach.longest + 1, of.step):
            if belongs(of, start, span):
                yield start, span


def draw(key: str, random: Random) -> str:
    """Every start with every span is tried until one belongs: no class is under a tenth of them."""
    of = _class(key)
    starts = range(of.reach.first, of.reach.last, of.step)
    spans = range(of.step, of.reach.longest + 1, of.step)
    while True:
        start, span = random.choice(starts), random.choice(spans)
        if belongs(of, start, span):
            return _asked(of, start, span)


# --- times and spans as they are written --------------------------------------------------------------


def _moment(minutes: int) -> Moment:
    return Moment(*divmod(minutes, HOUR))


def _colon(minutes: int) -> str:
    return f"{minutes // HOUR}:{minutes % HOUR:02}"


def _asked(of: Class, start: int, span: int) -> str:
    if of.ask == "later":
        return f"{twenty_four(_moment(start))}+{_colon(span)}"
    end = twenty_four(_moment(start + span))
    return f"{end}-{_colon(span)}" if of.ask == "earlier" else f"{twenty_four(_moment(start))}>{end}"


def _minutes(written: str) -> int:
    hours, _, minutes = written.partition(":")
    return int(hours) * HOUR + int(minutes)


def start_and_span(asked: str) -> tuple[int, int]:
    first, sign, second = _minutes(asked[:5]), asked[5], _minutes(asked[6:])
    return {"+": (first, second), "-": (first - second, second), ">": (first, second - first)}[sign]


def span_of(minutes: int) -> str:
    """25 min, 1 h 20 min, 2 h."""
    hours, rest = divmod(minutes, HOUR)
    return " ".join([f"{hours} h"] * bool(hours) + [f"{rest} min"] * bool(rest or not hours))


def _span_said(minutes: int) -> str:
    parts = ((minutes // HOUR, "hour"), (minutes % HOUR, "minute"))
    return " and ".join(f"{in_words(many)} {name}{'s' * (many > 1)}" for many, name in parts if many)


# --- help ---------------------------------------------------------------------------------------------


def jumps(start: int, span: int) -> list[int]:
    """Whole hours first, then to the next hour, then the rest."""
    hours, rest = span - span % HOUR, span % HOUR
    to_hour = -(start + hours) % HOUR
    split = [to_hour, rest - to_hour] if 0 < to_hour < rest else [rest]
    return [jump for jump in (hours, *split) if jump]


def _forward(of: Class, start: int, span: int) -> list[str]:
    steps = []
    for jump in jumps(start, span):
        before, after = (of.reach.shown(_moment(at)) for at in (start, start + jump))
        steps.append(f"{before} {PLUS} {span_of(jump)} {EQUALS} {after}")
        start += jump
    return steps


def _backward(of: Class, end: int, span: int) -> list[str]:
    """Whole hours first, then to the hour before, then the rest."""
    hours, rest = span - span % HOUR, span % HOUR
    to_hour = end % HOUR
    split = [to_hour, rest - to_hour] if 0 < to_hour < rest else [rest]
    steps = []
    for jump in filter(None, (hours, *split)):
        later, earlier = (of.reach.shown(_moment(at)) for at in (end, end - jump))
        steps.append(f"{later} {MINUS} {span_of(jump)} {EQUALS} {earlier}")
        end -= jump
    return steps


def _minutes_alone(minutes: int, sign: str, span: int) -> list[str]:
    """Within an hour the minutes alone tell it: 30 + 25 = 55."""
    after = minutes + span if sign == PLUS else minutes - span
    return [f"{minutes} {sign} {span} {EQUALS} {after}"] if minutes and 0 <= after < HOUR else []


def _time_left_out(steps: list[str]) -> tuple[Help, Help]:
    """The time at the end of the last step is held back, its am or pm not."""
    left, _, time = steps[-1].rpartition(f" {EQUALS} ")
    blank = " ".join([left, EQUALS, BOX, *time.split(" ")[1:]])
    return Help("blank", lines([*steps[:-1], blank])), Help("steps", lines(steps))


def between_steps(of: Class, start: int, span: int) -> tuple[Help, Help]:
    """Within an hour the minutes alone tell it; else counting up, the length of the last jump held back."""
    parts = jumps(start, span)
    minutes = [at % HOUR for at in (start + span, start)]
    if len(parts) == 1 and span < HOUR and minutes[0] >= minutes[1]:
        return worked(f"{minutes[0]} {MINUS} {minutes[1]} {EQUALS} {span}")
    *before, last = _forward(of, start, span)
    many, unit = span_of(parts[-1]).split(" ")
    blank = last.replace(f"{PLUS} {many} {unit}", f"{PLUS} {BOX} {unit}")
    together = [f"{f' {PLUS} '.join(map(span_of, parts))} {EQUALS} {span_of(span)}"] if parts[1:] else []
    return Help("blank", lines([*before, blank])), Help("steps", lines([*before, last, *together]))


QUESTIONS = {
    "within": "Does it stay in the hour?",
    "hour": "How far to the next hour?",
    "hours": "Where do the whole hours end?",
    "hours-across": "Where do the whole hours end?",
    "noon": "Where do the whole hours end?",
}
BACK = {"hour": "How far back to the hour?"}


def _like(start: int, span: int) -> str:
    """What a span of the day is like, for the question to fit it."""
    if span >= HOUR:
        return "hours"
    return "hour" if _passes(start, span) else "within"


def _helps(of: Class, start: int, span: int) -> tuple[Help, ...]:
    over = _like(start, span) if of.over == "day" else of.over
    question = QUESTIONS[over]
    if of.ask == "later":
        steps = _time_left_out([*_minutes_alone(start % HOUR, PLUS, span), *_forward(of, start, span)])
    elif of.ask == "earlier":
        question = BACK.get(over, question)
        end = start + span
        steps = _time_left_out([*_minutes_alone(end % HOUR, MINUS, span), *_backward(of, end, span)])
    else:
        steps = between_steps(of, start, span)
    return Help("question", question), Help("build", "Turn the hands of a toy clock."), *steps


# --- problems -----------------------------------------------------------------------------------------


def _spoken(of: Class, minutes: int) -> str:
    say = {"noon": in_the_day, "day": by_24_hours}.get(of.over, in_time_words)
    return say(_moment(minutes))


def _moved(key: str, asked: str, of: Class, start: int, span: int) -> Problem:
    """Later or earlier by a span."""
    later = of.ask == "later"
    given, found = (start, start + span) if later else (start + span, start)
    shown = of.reach.shown(_moment(given)), of.reach.shown(_moment(found))
    return Problem(
        key, "duration", asked, f"{span_of(span)} {of.ask} than {shown[0]}:",
        f"{_span_said(span)} {of.ask} than {_spoken(of, given)}",
        "clock-24" if of.over == "day" else "clock-time", shown[1],
        f"{span_of(span)} {of.ask} than {shown[0]}\nis {shown[1]}.", _helps(of, start, span),
    )  # fmt: skip


STOPS = ("Market", "Harbour")


def _span(key: str, asked: str, of: Class, start: int, span: int) -> Problem:
    """How long it is from one time to another."""
    begin, end = (of.reach.shown(_moment(at)) for at in (start, start + span))
    ride = of.ask == "timetable"
    whole = of.over in WHOLE
    ends = f" {BOX} min" if whole else ""
    prompt = f"The ride takes{ends}" if ride else f"{begin} to {end} {EQUALS}{ends}"
    question = "How long does the ride take" if ride else "How long is it"
    width = max(map(len, STOPS)) + max(len(begin), len(end)) + 2
    board = tuple(stop + at.rjust(width - len(stop)) for stop, at in zip(STOPS, (begin, end), strict=True))
    return Problem(
        key, "duration", asked, prompt,
        f"{question} from {_spoken(of, start)} to {_spoken(of, start + span)}?",
        "quantity" if whole else "time-span", str(span) if whole else span_of(span),
        f"{begin} to {end}\nis {span_of(span)}.", _helps(of, start, span), "min" if whole else "",
        Lines(board) if ride else None,
    )  # fmt: skip


def problem(key: str, asked: str) -> Problem:
    of = _class(key)
    start, span = start_and_span(asked)
    if not belongs(of, start, span) or _asked(of, start, span) != asked:
        raise ValueError(f"{asked} does not belong to {key}")
    make = _moved if of.ask in ("later", "earlier") else _span
    return make(key, asked, of, start, span)


# --- what one would write under an error rule ---------------------------------------------------------


def predict(key: str, asked: str) -> Mapping[str, str]:
    of = _class(key)
    start, span = start_and_span(asked)
    if of.ask in ("later", "earlier"):
        found = later(start, span) if of.ask == "later" else earlier(start + span, span)
        right = divmod(start + span if of.ask == "later" else start, HOUR)
        times = ((rule, (hour, minute)) for rule, hour, minute in found)
        return {rule: of.reach.shown(Moment(*time)) for rule, time in times if time != right}
    if of.over == "noon":  # 1:00 less 9:05: nobody takes it as it stands
        return {}
    return dict(_believed_spans(of, start, span))


def _believed_spans(of: Class, start: int, span: int) -> Iterator[tuple[str, str]]:
    """Where minutes alone are asked for, no hour is written."""
    for rule, hours, minutes in between(start, start + span):
        if of.over not in WHOLE:
            yield rule, " ".join([f"{hours} h"] * bool(hours) + [f"{minutes} min"])
        elif minutes != span:
            yield rule, str(minutes)


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    yield f"duration:{word(skill, 'ask')}-{word(skill, 'over')}/{STEPS[word(skill, 'step')]}"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    of = _class(next(keys(skill)))
    if next(members(of), None) is None:
        yield "step", "no span has such a step", 'write a smaller one, like "five-minutes"'


def traits(key: str) -> Traits:
    of = _class(key)
    groups = frozenset({f"procedure-{key}", f"duration-{of.ask}"})
    seconds = of.reach.seconds + (4.0 if of.step == 1 else 0.0)
    reach = "into the hour before" if (of.ask, of.over) == ("earlier", "hour") else of.reach.title
    title = ASKS[of.ask].format(reach)
    return Traits(f"{title}, to {STEP_TITLES[of.step]}", False, seconds, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "duration",
        "how long it is, and what time it will be or was",
        {
            "ask": Option("word", "what is asked for", choices=tuple(ASKS), example='"later"'),
            "over": Option("word", "where the span goes", choices=tuple(REACHES), example='"hour"'),
            "step": Option("word", "how exact the times are", choices=tuple(STEPS), example='"five-minutes"'),
        },
        keys,
        traits,
        draw,
        problem,
        check,
        predict=predict,
    ),
)
