"""A clock face for a time in words or figures, a line of a day's hours, jumps along a line of minutes."""

from itertools import pairwise

from review.core.model import BOX, Help, Problem
from review.core.pictures import ClockFace, Jump, Mark, NumberLine
from review.core.skills.duration import span_of, start_and_span
from review.core.skills.picture_help import Pictures, how_long, pictured, stops, task_of
from review.core.skills.wording import MINUS, PLUS

HOUR, NOON, DAY = 60, 12, 24
STEPS = {1: "1 minute", 5: "5 minutes", HOUR: "1 hour"}  # that a line is counted along in, minutes each
MOST_STEPS = 17  # with two columns each, so that they can be counted (our judgement)
END = ("Where does the last jump end?", "Where does the jump end?")


def _clock(problem: Problem) -> tuple[Help, ...]:
    hour, minute = int(problem.asked[:2]), int(problem.asked[3:])
    if task_of(problem) in ("digits", "words"):
        face = ClockFace(hour, minute, marked=minute % 5 != 0)
        return pictured(face, "The short hand shows the hour.")
    names = {0: "0", NOON: str(NOON), DAY: str(DAY)}
    hours = (Mark(at, names.get(at, "")) for at in range(DAY + 1))
    return pictured(NumberLine(tuple(hours), arrow=hour), "All hours of a day.", "The arrow is at the hour.")


# --- jumps along a line of minutes --------------------------------------------------------------------


def _jumps(to_hour: int, span: int) -> list[int]:
    """Whole hours, then to the hour, which is so far away, then what is left."""
    hours, rest = divmod(span, HOUR)
    parts = [hours * HOUR, to_hour, rest - to_hour] if to_hour < rest else [hours * HOUR, rest]
    return [part for part in parts if part]


def _duration(problem: Problem) -> tuple[Help, ...]:
    start, span = start_and_span(problem.asked)
    task = task_of(problem)
    if task.startswith("earlier"):
        end = start + span
        back = [-jump for jump in _jumps(end % HOUR, span)]
        return _line(problem, stops(end, back), sized=True)
    at = stops(start, _jumps(-start % HOUR, span))
    return _line(problem, at, sized=task.startswith("later"))


def _line(problem: Problem, at: list[int], sized: bool) -> tuple[Help, ...]:
    """With sizes, the end is asked for; without, it is known and they are. One jump alone has steps to count
    along it."""
    step = _step(problem, abs(at[-1] - at[0])) if len(at) == 2 else 0
    steps = range(min(at), max(at) + 1, step) if step else []
    names = {place: _shown(problem, place) for place in at[:-1] if place == at[0] or place % HOUR == 0}
    names[at[-1]] = BOX if sized else _shown(problem, at[-1])
    if not sized:
        names |= {place: _shown(problem, place) for place in at}
    jumps = (Jump(a, b, _size(b - a) if sized else "") for a, b in pairwise(at))
    marks = (Mark(place, names.get(place, "")) for place in sorted({*at, *steps}))
    ask = END[len(at) == 2] if sized else how_long(at)
    each = f"Each step is {STEPS[step]}." if step else ""
    return pictured(NumberLine(tuple(marks), tuple(jumps)), ask, each)


def _step(problem: Problem, span: int) -> int:
    """The shortest, from the problem's own on, that goes into the span, few enough times; 0 for none."""
    least = int(problem.card.rpartition("/")[2])
    fits = (step for step in STEPS if step >= least and span % step == 0 and span // step <= MOST_STEPS)
    return next(fits, 0)


def _size(minutes: int) -> str:
    return f"{PLUS if minutes > 0 else MINUS}{span_of(abs(minutes))}"


def _shown(problem: Problem, minutes: int) -> str:
    """As the prompt writes times: by 24 hours, or by 12."""
    hour, minute = divmod(minutes % (DAY * HOUR), HOUR)
    if "-day" in problem.card:
        return f"{hour:02}:{minute:02}"
    return f"{hour % NOON or NOON}:{minute:02}"


PICTURES: Pictures = {"clock": _clock, "duration": _duration}
