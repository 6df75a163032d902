"""Temperatures: read from a drawn thermometer, warmer and colder, and how many degrees lie between.

The sizes of a class are how far its thermometer goes below zero and above it, and the degrees from mark to
mark; where nothing is drawn, its numbers are so many degrees apart. Degrees Celsius and degrees Fahrenheit
are classes of their own, and nothing is turned from one into the other.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import NamedTuple

from review.core.model import BOX, Help, Skill
from review.core.pictures import Thermometer
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import whole, word, words
from review.core.skills.sign_errors import of_apart, of_move
from review.core.skills.tasks import Numbers, Shown, Space, Task, Tasks, pattern
from review.core.skills.wording import EQUALS, MINUS, PLUS, counted, grouped, in_words, lines, on_lines
from review.core.skills.worked import worked

SCALES = {"C": "Celsius", "F": "Fahrenheit"}
NAMED = {1: 5, 2: 10, 5: 10, 10: 20}  # degrees from mark to mark -> from number to number
MOST_MARKS = 16  # our judgement: with its scale and bulb it stays on a screen of 24, and help below it


class Range(NamedTuple):
    below: int  # degrees under zero
    above: int
    marks: int  # degrees from one to the next

    @property
    def degrees(self) -> range:
        """From the second mark up: under the first nothing would be seen."""
        return range(self.marks - self.below, self.above + 1, self.marks)

    @property
    def lowest_first(self) -> range:
        return range(-self.below, self.above + 1, self.marks)


def _range(sizes: Numbers) -> Range:
    return Range(*sizes)


def _shown(degrees: int, scale: str) -> str:
    return f"{grouped(degrees)} °{scale}"


def _said(degrees: int, scale: str) -> str:
    return f"{in_words(degrees)} degree{'s' * (abs(degrees) != 1)} {SCALES[scale]}"


# --- a thermometer ------------------------------------------------------------------------------------


def thermometer(of: Range, at: int, scale: str) -> Thermometer:
    return Thermometer(-of.below, of.above, of.marks, NAMED[of.marks], at, scale)


def _counted_from(of: Range, at: int) -> tuple[int, int]:
    """The nearest number on the way from zero, and how many marks it is from there; from the number before
    where it has one of its own."""
    named = NAMED[of.marks]
    if at > 0:
        start = (at - 1) // named * named
        return start, (at - start) // of.marks
    start = -((-at - 1) // named * named) if at else named
    return start, (start - at) // of.marks


def _read(scale: str, sizes: Numbers, member: Numbers) -> Shown:
    (at,) = member
    of = _range(sizes)
    start, marks = _counted_from(of, at)
    way, sign = ("above", PLUS) if at > start else ("below", MINUS)
    helps = (
        Help("question", "What does one mark stand for?"),
        Help("build", "Find the place on a real thermometer."),
        *worked(
            f"1 mark: {counted(of.marks, 'degree')}",
            *([f"{marks} marks: {marks * of.marks} degrees"] * (marks > 1)),
            f"{grouped(start)} {sign} {marks * of.marks} {EQUALS} {grouped(at)}",
        ),
    )
    say = (
        f"A thermometer has a mark every {'degree' if of.marks == 1 else in_words(of.marks) + ' degrees'}. "
        f"It is full to {in_words(marks)} mark{'s' * (marks > 1)} {way} {in_words(start)}. What does it show?"
    )
    return Shown(
        "The thermometer shows", say, str(at), f"The thermometer shows {_shown(at, scale)}.", helps,
        "temperature", thermometer(of, at, scale), f"°{scale}",
    )  # fmt: skip


def _read_space(sizes: Numbers) -> Space:
    """Half below zero, where the thermometer goes there: it is what the card is for."""
    of = _range(sizes)
    return Space((of.degrees,), half=(lambda at: at < 0) if of.below > of.marks else None)


def _read_errors(sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    """Each mark taken for one degree, counted from the nearest number towards zero; the minus left out. At a
    number of its own there is nothing to count."""
    (at,) = member
    of = _range(sizes)
    start, marks = _counted_from(of, at)
    ones = (
        {} if at % NAMED[of.marks] == 0 else {"marks_as_ones": str(start + (marks if at > start else -marks))}
    )
    return {**ones, **({"sign_lost": str(-at)} if at < 0 else {})}


# --- warmer and colder --------------------------------------------------------------------------------


def _move_space(sign: int, sizes: Numbers) -> Space:
    """Across zero, where the range has degrees below it."""
    of = _range(sizes)

    def fits(start: int, by: int) -> bool:
        end = start + sign * by
        return end in of.lowest_first and (not of.below or start * end < 0)

    return Space((of.lowest_first, range(of.marks, of.below + of.above + 1, of.marks)), fits)


def _move_steps(start: int, sign: str, by: int, end: int) -> tuple[str, ...]:
    """To zero first, then on."""
    if start * end >= 0:
        return (f"{start} {sign} {by} {EQUALS} {end}",)
    return (
        f"{by} {EQUALS} {abs(start)} {PLUS} {abs(end)}",
        f"{grouped(start)} {sign} {abs(start)} {EQUALS} 0",
        f"0 {sign} {abs(end)} {EQUALS} {grouped(end)}",
    )


def _moved(warmer: bool, scale: str, sizes: Numbers, member: Numbers) -> Shown:
    start, by = member
    way, sign, end = ("warmer", PLUS, start + by) if warmer else ("colder", MINUS, start - by)
    question = "How far is it to zero?" if start * end < 0 else "Does the column go up or down?"
    helps = (
        Help("question", question),
        Help("build", "Walk it on a real thermometer."),
        *worked(*_move_steps(start, sign, by, end)),
    )
    degrees = f"{counted(by, 'degree')} {way}"
    told = f"{degrees.capitalize()} than {_shown(start, scale)}\nis {_shown(end, scale)}."
    say = f"It is {_said(start, scale)}. It gets {in_words(by)} degree{'s' * (by > 1)} {way}. What is it now?"
    return Shown(
        f"{_shown(start, scale)}, then {degrees}:",
        say,
        str(end),
        told,
        helps,
        "temperature",
        unit=f"°{scale}",
    )


def _move_errors(warmer: bool, sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    start, by = member
    found = of_move(start, by if warmer else -by)
    return found if sizes[0] else {"wrong_way": found["wrong_way"]}


# --- how many degrees between -------------------------------------------------------------------------


def _apart_space(sizes: Numbers) -> Space:
    """One below zero, one above it."""
    of = _range(sizes)
    return Space((range(-of.below, 0, of.marks), range(of.marks, of.above + 1, of.marks)))


def _apart(scale: str, sizes: Numbers, member: Numbers) -> Shown:
    low, high = member
    total = high - low
    helps = (
        Help("question", "How far is each from zero?"),
        Help("build", "Find both on a real thermometer."),
        *worked(f"{-low} {PLUS} {high} {EQUALS} {total}"),
    )
    both = f"from {_shown(low, scale)} up to {_shown(high, scale)}"
    say = f"How many degrees is it from {_said(low, scale)} up to {_said(high, scale)}?"
    told = f"From {_shown(low, scale)} up to {_shown(high, scale)}\nis {counted(total, 'degree')}."
    return Shown(f"Degrees {both}:", say, str(total), told, helps, "temperature", unit=f"°{scale}")


# --- which of two -------------------------------------------------------------------------------------


def _which_space(sizes: Numbers) -> Space:
    """Of two, at least one below zero where the range goes there."""
    of = _range(sizes)

    def fits(first: int, second: int) -> bool:
        return first != second and (not of.below or min(first, second) < 0)

    return Space((of.lowest_first, of.lowest_first), fits)


def _which(warmer: bool, scale: str, sizes: Numbers, member: Numbers) -> Shown:
    low, high = sorted(member)
    found, other = (high, low) if warmer else (low, high)
    way, place = ("warmer", "Higher up") if warmer else ("colder", "Lower down")
    where = f"{place} is {way}."
    helps = (
        Help("question", f"Which is {place.lower()} on a thermometer?"),
        Help("build", "Find both on a real thermometer."),
        Help("blank", lines([where, f"{grouped(member[0])} {BOX} {grouped(member[1])}"])),
        Help("steps", lines([where, _compared(*member)])),
    )
    first, second = (_shown(one, scale) for one in member)
    say = f"Which is {way}: {_said(member[0], scale)} or {_said(member[1], scale)}?"
    told = on_lines(f"{_shown(found, scale)} is {way} than {_shown(other, scale)}.")
    prompt = f"{way.capitalize()}: {first} or {second}?"
    return Shown(prompt, say, str(found), told, helps, "temperature", unit=f"°{scale}")


def _compared(first: int, second: int) -> str:
    return f"{grouped(first)} {'<' if first < second else '>'} {grouped(second)}"


def _other(warmer: bool, sizes: Numbers, member: Numbers) -> Mapping[str, str]:
    """Further from zero taken for warmer, or the other way round."""
    return {"reversed": str(min(member) if warmer else max(member))}


# --- the kind -----------------------------------------------------------------------------------------


def _titled(what: str, scale: str) -> Callable[[Numbers], str]:
    return lambda sizes: f"{what}, {grouped(-sizes[0])} to {sizes[1]} °{scale}"


def _tasks(scale: str) -> dict[str, Task]:
    """Those of one scale. Seconds are our judgement."""
    return {
        "read": Task(
            _titled("reading a thermometer", scale), 9.0, pattern("#"), _read_space, partial(_read, scale),
            "read", _read_errors,
        ),
        "which-warmer": Task(
            _titled("which is warmer", scale), 5.0, pattern("#?#"), _which_space,
            partial(_which, True, scale), "which", partial(_other, True), 2,
        ),
        "which-colder": Task(
            _titled("which is colder", scale), 5.0, pattern("#?#"), _which_space,
            partial(_which, False, scale), "which", partial(_other, False), 2,
        ),
        "warmer": Task(
            _titled("getting warmer", scale), 9.0, pattern("#+#"), partial(_move_space, 1),
            partial(_moved, True, scale), "move", partial(_move_errors, True),
        ),
        "colder": Task(
            _titled("getting colder", scale), 9.0, pattern("#-#"), partial(_move_space, -1),
            partial(_moved, False, scale), "move", partial(_move_errors, False),
        ),
        "apart": Task(
            _titled("degrees from below zero to above", scale), 9.0, pattern("#,#"), _apart_space,
            partial(_apart, scale), "apart", lambda sizes, member: of_apart(*member),
        ),
    }  # fmt: skip


TABLE: Mapping[str, Task] = {
    f"{name}-{scale.casefold()}": task for scale in SCALES for name, task in _tasks(scale).items()
}
TASKS = Tasks(TABLE)
ASKS = tuple(_tasks("C"))


def keys(skill: Skill) -> Iterator[str]:
    scale, sizes = (
        word(skill, "scale").casefold(),
        (whole(skill, name) for name in ("below", "above", "marks")),
    )
    span = "-".join(map(str, sizes))
    return (f"temperature:{task}-{scale}/{span}" for task in words(skill, "task"))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    of = Range(*(whole(skill, name) for name in ("below", "above", "marks")))
    if of.marks not in NAMED:
        yield "marks", f"no thermometer has a mark every {of.marks} degrees", "write 1, 2, 5 or 10"
        return
    for name, degrees in (("below", of.below), ("above", of.above)):
        if degrees % of.marks:
            yield name, f"{degrees} is no multiple of {of.marks}", f"write {degrees // of.marks * of.marks}"
    if "read" in words(skill, "task") and of.above < NAMED[of.marks]:
        yield "above", "no number but zero would stand on it", f"write at least {NAMED[of.marks]}"
    if "read" in words(skill, "task") and len(of.lowest_first) > MOST_MARKS:
        wrong = f"{len(of.lowest_first)} marks do not fit on the picture"
        yield "marks", wrong, f"take wider marks, or a shorter range: at most {MOST_MARKS} marks"
    for task, key in zip(words(skill, "task"), keys(skill), strict=True):
        if not TASKS.possible(key):
            yield "below", f"no temperatures of {task} are in it", "go below zero, like 10"


KINDS: tuple[Kind, ...] = (
    Kind(
        "temperature",
        "reading a thermometer, warmer and colder, degrees between",
        {
            "task": Option("words", "what is asked; a card each", choices=ASKS, example='["read"]'),
            "scale": Option("word", "the scale", "C", choices=tuple(SCALES), example='"C"'),
            "below": Option("whole", "how far it goes below zero", 0, high=100, example="10"),
            "above": Option("whole", "how far it goes above zero", low=1, high=250, example="30"),
            "marks": Option("whole", "degrees from mark to mark", low=1, high=10, example="2"),
        },
        keys, TASKS.traits, TASKS.draw, TASKS.problem, check, predict=TASKS.predict,
    ),
)  # fmt: skip
