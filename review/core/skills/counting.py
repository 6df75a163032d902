"""Counting in equal steps, up and down: 14, 21, 28, □, □, □.

`on` asks for the next three, `gaps` for two left out, `next` for one number after one. Every number of a
showing is a multiple of the step within the range of the card.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import combinations
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, HelpStep, Kind, Option, Problem, Skill, Traits
from review.core.skills.options import wholes, words
from review.core.skills.wording import BOX, EQUALS, MINUS, PLUS, grouped, in_words, several

FORMS = ("on", "gaps", "next")
SHOWN = {"on": 6, "gaps": 6, "next": 2}  # numbers and blanks together
BLANKS = {
    "on": ((3, 4, 5),),
    "gaps": tuple(pair for pair in combinations((1, 2, 3, 4), 2) if pair[1] - pair[0] > 1),
    "next": ((1,),),
}
SECONDS = {"on": 12.0, "gaps": 12.0, "next": 5.0}  # our judgement
TITLES = {"on": "the next three", "gaps": "two gaps", "next": "the next one"}

# How a step is taken in two, or what all its multiples have in common (common practice, no source).
KNACKS = {
    2: ("All of them are even.",) * 2,
    3: ("Two more, then one more.", "Two less, then one less."),
    4: ("Two more, then two more.", "Two less, then two less."),
    5: ("They end in 5 or 0.",) * 2,
    6: ("Five more, then one more.", "Five less, then one less."),
    7: ("Five more, then two more.", "Five less, then two less."),
    8: ("Ten more, then two less.", "Ten less, then two more."),
    9: ("Ten more, then one less.", "Ten less, then one more."),
    10: ("All of them end in 0.",) * 2,
    11: ("Ten more, then one more.", "Ten less, then one less."),
    12: ("Ten more, then two more.", "Ten less, then two less."),
    25: ("Four 25s make 100.",) * 2,
    50: ("Two 50s make 100.",) * 2,
    100: ("Only the hundreds change.",) * 2,
}


class Count(NamedTuple):
    """What a card key says."""

    step: int
    form: str
    down: bool
    low: int
    high: int


def _count(key: str) -> Count:
    step, form, direction, span = content_of(key).split("/")
    low, _, high = span.partition("..")
    return Count(int(step), form, direction == "down", int(low), int(high))


# --- cards and showings -------------------------------------------------------------------------------


def _keys(skill: Skill) -> Iterator[str]:
    """Each step in turn; a card that the range has no room for is left out."""
    first, last = wholes(skill, "times")
    for step in wholes(skill, "steps"):
        for direction in words(skill, "directions"):
            for form in words(skill, "forms"):
                if last - first >= SHOWN[form] - 1:
                    yield f"count-by:{step}/{form}/{direction}/{first * step}..{last * step}"


@lru_cache(maxsize=512)
def showings(key: str) -> tuple[str, ...]:
    """Every `asked` of a card, each once."""
    count = _count(key)
    reach = (SHOWN[count.form] - 1) * count.step
    first = -(-count.low // count.step) * count.step
    starts = range(first, count.high - reach + 1, count.step)
    return tuple(_asked(count, start, blanks) for start in starts for blanks in BLANKS[count.form])


def _asked(count: Count, start: int, blanks: tuple[int, ...]) -> str:
    """`start` is the smallest number of the showing."""
    numbers = [start + count.step * place for place in range(SHOWN[count.form])]
    ordered = numbers[::-1] if count.down else numbers
    return ",".join("_" if place in blanks else str(number) for place, number in enumerate(ordered))


def _draw(key: str, random: Random) -> str:
    return random.choice(showings(key))


def _numbers(count: Count, asked: str) -> list[int]:
    """All numbers of a showing, those left out filled in."""
    first = int(asked.partition(",")[0])
    step = -count.step if count.down else count.step
    return [first + step * place for place in range(SHOWN[count.form])]


# --- what the planner knows ---------------------------------------------------------------------------


def _traits(key: str) -> Traits:
    count = _count(key)
    back = " back" if count.down else ""
    title = f"count{back} in {grouped(count.step)}s: {TITLES[count.form]}"
    groups = frozenset({f"table-{count.step}", f"count-{count.form}"})
    return Traits(title, False, SECONDS[count.form], groups)


# --- what is shown ------------------------------------------------------------------------------------


def _problem(key: str, asked: str) -> Problem:
    if asked not in showings(key):
        raise ValueError(f"{asked!r} does not belong to {key!r}")
    count, shown = _count(key), asked.split(",")
    numbers = _numbers(count, asked)
    missing = [number for number, text in zip(numbers, shown, strict=True) if text == "_"]
    return Problem(
        card=key,
        kind="count-by",
        asked=asked,
        prompt=_prompt(count, shown),
        say=_say(count, shown),
        form="whole" if len(missing) == 1 else "list",
        expected=", ".join(map(str, missing)),
        told=_told(numbers, missing),
        helps=_helps(count, numbers, shown),
    )


def _prompt(count: Count, shown: list[str]) -> str:
    """One number alone does not show the step: there it is said."""
    numbers = ", ".join(BOX if text == "_" else grouped(int(text)) for text in shown)
    if count.form != "next":
        return numbers
    return f"Count {'back ' if count.down else ''}in {grouped(count.step)}s: {numbers}"


def _say(count: Count, shown: list[str]) -> str:
    spoken = ", ".join("what" if text == "_" else in_words(int(text)) for text in shown)
    return f"count {'back' if count.down else 'on'} in {several(count.step)}: {spoken}"


def _told(numbers: list[int], missing: list[int]) -> str:
    """All of the row where a line has room for it."""
    row = f"{', '.join(map(grouped, numbers))}."
    return row if len(row) <= 40 else f"{', '.join(map(grouped, missing))}."


def _helps(count: Count, numbers: list[int], shown: list[str]) -> tuple[Help, ...]:
    texts: tuple[tuple[HelpStep, str], ...] = (
        ("question", f"How much {'less' if count.down else 'more'} is each number?"),
        ("build", _build(count)),
        ("neighbour", _knack(count)),
        ("blank", "\n".join(_jumps(count, numbers, shown, blank=True))),
        ("steps", "\n".join(_jumps(count, numbers, shown))),
    )
    return tuple(Help(step, text) for step, text in texts)


def _build(count: Count) -> str:
    """Without a number, which might be the one asked for."""
    if count.step > 12:  # more counters than a table top takes (our judgement)
        return "Draw a number line.\nJump in equal steps."
    if count.down:
        return "Lay out equal rows of counters.\nTake one row away each time."
    return "Lay out equal rows of counters.\nCount after each row."


def _knack(count: Count) -> str:
    less = "less" if count.down else "more"
    return KNACKS.get(count.step, (f"Each one is {grouped(count.step)} {less}.",) * 2)[count.down]


def _jumps(count: Count, numbers: list[int], shown: list[str], blank: bool = False) -> list[str]:
    """The step to each missing number as an equation; with `blank`, the last one's result is left out."""
    sign = MINUS if count.down else PLUS
    jumps = [
        (before, after)
        for before, after, text in zip(numbers, numbers[1:], shown[1:], strict=False)
        if text == "_"
    ]
    last = jumps[-1]
    return [
        f"{grouped(before)} {sign} {grouped(count.step)} {EQUALS} "
        + (BOX if blank and (before, after) == last else grouped(after))
        for before, after in jumps
    ]


OPTIONS = {
    "steps": Option("wholes", "what to count in, in order", None, 1, 1000, example="[2, 10, 5]"),
    "forms": Option(
        "words",
        "what is asked: the next three (on), two left out (gaps), or one (next)",
        ("on",),
        choices=FORMS,
        example='["on", "gaps"]',
    ),
    "directions": Option("words", "up or down", ("up",), choices=("up", "down"), example='["up", "down"]'),
    "times": Option(
        "range", "how many steps from 0 the counting reaches", (0, 12), 0, 100, example="[0, 12]"
    ),
}

KINDS: tuple[Kind, ...] = (
    Kind(
        "count-by", "counting in equal steps: 14, 21, 28, □, □, □", OPTIONS, _keys, _traits, _draw, _problem
    ),
)
