"""How many: the prompt is a picture. Dots on ten-frames and in equal rows, teen numbers as ten and some,
number lines.

Ten-frames fill by row, five then five. A class of `dots`, `teens` or `ten-and` is every number of its range;
one of `rows` every two numbers of it, rows and how many are in each; one of `line` every mark inside a line
of ten jumps; one of `halfway` every point halfway between two marks of a line of five jumps.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Problem, Skill, Traits
from review.core.pictures import Array, Mark, NumberLine, TenFrames
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import ranges, word
from review.core.skills.tasks import Shown
from review.core.skills.wording import EQUALS, MINUS, PLUS, TIMES, counted, grouped, in_words, sentence
from review.core.skills.worked import worked

LARGEST = 999_999  # our judgement
JUMPS = {"line": 10, "halfway": 5}
BOUNDS = {"dots": (1, 10), "teens": (11, 20), "ten-and": (11, 19), "rows": (1, 6)}


class Class(NamedTuple):
    task: str
    low: int
    high: int

    @property
    def jump(self) -> int:
        """From one mark of the line to the next."""
        return (self.high - self.low) // JUMPS[self.task]


def _class(key: str) -> Class:
    task, span = content_of(key).split("/")
    low, _, high = span.partition("..")
    return Class(task, int(low), int(high))


def members(of: Class) -> Sequence[str]:
    """Every `asked` of a class."""
    if of.task == "line":
        return [str(number) for number in range(of.low + of.jump, of.high, of.jump)]
    if of.task == "halfway":
        return [str(number) for number in range(of.low + of.jump // 2, of.high, of.jump)]
    numbers = range(of.low, of.high + 1)
    return (
        [f"{rows}x{each}" for rows in numbers for each in numbers]
        if of.task == "rows"
        else [*map(str, numbers)]
    )


def draw(key: str, random: Random) -> str:
    return random.choice(members(_class(key)))


# --- pictures -----------------------------------------------------------------------------------------


def _line(of: Class, number: int) -> NumberLine:
    """Ends named, jumps marked, an arrow above the number."""
    ends = (of.low, of.high)
    marks = range(of.low, of.high + 1, of.jump)
    return NumberLine(tuple(Mark(at, grouped(at) if at in ends else "") for at in marks), arrow=number)


# --- problems -----------------------------------------------------------------------------------------


def _dots_steps(number: int) -> tuple[str, ...]:
    """One more than few; else from a full row or a full frame, whichever is nearer."""
    if number in (1, 2, 3, 5):
        return (f"{number - 1} {PLUS} 1 {EQUALS} {number}",)
    if number in (4, 9):
        full = "A full row has 5." if number == 4 else "A full frame has 10."
        return full, f"{number + 1} {MINUS} 1 {EQUALS} {number}"
    return "A full row has 5.", f"5 {PLUS} {number - 5} {EQUALS} {number}"


def _dots(of: Class, asked: str) -> Shown:
    number = int(asked)
    rows = "Is the first row full?\nA row has five places."
    return Shown(
        "How many dots?",
        "How many dots are there?",
        str(number),
        f"There {'is' if number == 1 else 'are'} {counted(number, 'dot')}.",
        (
            Help("question", rows),
            Help("build", "Lay the same with counters."),
            *worked(*_dots_steps(number)),
        ),
        picture=TenFrames(number),
    )


def _teens(of: Class, asked: str) -> Shown:
    number = int(asked)
    return Shown(
        "How many dots?",
        "How many dots are there?",
        str(number),
        f"10 and {number - 10} make {number}.",
        (
            Help("question", "Is one frame full?"),
            Help("build", "Lay the same with counters."),
            *worked("A full frame has 10.", f"10 {PLUS} {number - 10} {EQUALS} {number}"),
        ),
        picture=TenFrames(number),
    )


def _ten_and(of: Class, asked: str) -> Shown:
    number = int(asked)
    return Shown(
        f"{number} is 10 and",
        f"{in_words(number)} is ten and what?",
        str(number - 10),
        f"{number} is 10 and {number - 10}.",
        (
            Help("question", "What is over ten?"),
            Help("build", "Lay the number with counters.\nFill one ten-frame first."),
            *worked(f"{number} {MINUS} 10 {EQUALS} {number - 10}"),
        ),
    )


def _rows(of: Class, asked: str) -> Shown:
    rows, each = map(int, asked.split("x"))
    total, lying = rows * each, f"{in_words(rows)} row{'s' * (rows > 1)}"
    counted_up = [f"{each * at} {PLUS} {each} {EQUALS} {each * (at + 1)}" for at in range(1, rows)]
    return Shown(
        "How many dots?",
        sentence(f"{lying} of dots, {in_words(each)} in each. How many dots are there?"),
        str(total),
        f"{counted(rows, 'row')} of {each} {'makes' if rows == 1 else 'make'} {total}.",
        (
            Help("question", "How many are in one row?\nHow many rows are there?"),
            Help("build", "Lay the same rows with counters.\nCount after each row."),
            *worked(*(counted_up or [f"1 {TIMES} {each} {EQUALS} {each}"])),
        ),
        picture=Array(rows, each),
    )


def _line_steps(of: Class, number: int) -> tuple[str, ...]:
    """How long a jump is, then the jumps to the mark; halfway, half a jump more. Without × and ÷, which a
    child meets after the first number lines."""
    jumps, rest = divmod(number - of.low, of.jump)
    before = of.low + jumps * of.jump
    steps = [f"1 jump: {grouped(of.jump)}"]
    walked = jumps if of.low or rest else jumps - 1  # from zero the last jump is an equation of its own
    if walked > 1:
        steps.append(f"{walked} jumps: {grouped(walked * of.jump)}")
    if walked < jumps:
        last = number - of.jump
        steps.append(f"{grouped(last)} {PLUS} {grouped(of.jump)} {EQUALS} {grouped(number)}")
    if of.low and jumps:
        steps.append(f"{grouped(of.low)} {PLUS} {grouped(jumps * of.jump)} {EQUALS} {grouped(before)}")
    if rest:
        steps.append(f"{grouped(before)} {PLUS} {grouped(rest)} {EQUALS} {grouped(number)}")
    return tuple(steps)


def _mark(of: Class, asked: str) -> Shown:
    number = int(asked)
    ends = f"{in_words(of.low)} to {in_words(of.high)}"
    jumps, half = (number - of.low) // of.jump, of.task == "halfway"
    where = f"after {in_words(jumps)}{' and a half' if half else ''} jump{'s' * (half or jumps > 1)}"
    where = "after half a jump" if half and not jumps else where
    return Shown(
        "The arrow is at",
        f"A line from {ends} has {in_words(JUMPS[of.task])} jumps. What is there {where}?",
        str(number),
        f"The arrow is at {grouped(number)}.",
        (
            Help("question", "How many jumps from end to end?\nHow long is one jump?"),
            Help("build", "Draw the line.\nJump to the arrow with a finger."),
            *worked(*_line_steps(of, number)),
        ),
        picture=_line(of, number),
    )


SHOWN: Mapping[str, Callable[[Class, str], Shown]] = {
    "dots": _dots,
    "rows": _rows,
    "teens": _teens,
    "ten-and": _ten_and,
    "line": _mark,
    "halfway": _mark,
}


def problem(key: str, asked: str) -> Problem:
    of = _class(key)
    if asked not in members(of):
        raise ValueError(f"{asked} does not belong to {key}")
    return SHOWN[of.task](of, asked).problem(key, asked)


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    task = word(skill, "task")
    return (f"quantity:{task}/{low}..{high}" for low, high in ranges(skill, "ranges"))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    task = word(skill, "task")
    for low, high in ranges(skill, "ranges"):
        if task in JUMPS:
            jumps = JUMPS[task] * (2 if task == "halfway" else 1)
            if low == high or (high - low) % jumps:
                wrong = f"a line from {low:,} to {high:,} has no {jumps} equal parts of whole numbers"
                yield "ranges", wrong, f"write [{low}, {low + 10 * jumps}]"
        elif not BOUNDS[task][0] <= low <= high <= BOUNDS[task][1]:
            wrong = f"{low:,} to {high:,} does not fit on the picture"
            yield "ranges", wrong, f"take from {BOUNDS[task][0]} to {BOUNDS[task][1]}"


TITLES = {
    "dots": "dots on a ten-frame",
    "rows": "dots in equal rows",
    "teens": "dots on two ten-frames",
    "ten-and": "a teen number as ten and some",
    "line": "marks on a number line",
    "halfway": "halfway between marks of a number line",
}
SECONDS = {
    "dots": 4.0,
    "rows": 7.0,
    "teens": 6.0,
    "ten-and": 5.0,
    "line": 9.0,
    "halfway": 13.0,
}  # our judgement


def traits(key: str) -> Traits:
    of = _class(key)
    title = f"{TITLES[of.task]}, {grouped(of.low)} to {grouped(of.high)}"
    return Traits(title, False, SECONDS[of.task], frozenset({f"procedure-{key}", f"quantity-{of.task}"}))


KINDS: tuple[Kind, ...] = (
    Kind(
        "quantity",
        "how many dots, ten and some, and what a number line shows",
        {
            "task": Option("word", "what the picture is", choices=tuple(SHOWN), example='"dots"'),
            "ranges": Option(
                "ranges", "which numbers, or from where to where the line goes; a card each",
                low=0, high=LARGEST, example="[[1, 5], [6, 10]]",
            ),
        },
        keys, traits, draw, problem, check,
    ),
)  # fmt: skip
