"""Counting in equal steps, up and down: 14, 21, 28, □, □, □.

`on` asks for the next three, `gaps` for two left out, `next` for one number after one. Every number of a
showing is a multiple of the step within the range of the card; on a card that ends in `/any`, none is:
there the count starts from any other number.
"""

from collections.abc import Iterator, Mapping
from functools import lru_cache
from itertools import combinations
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import BOX, Help, HelpStep, Problem, Skill, Traits
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import wholes, words
from review.core.skills.wording import EQUALS, MINUS, PLUS, grouped, in_words, several

MOST_STEPS = 1000  # our judgement
LARGEST = 999_999  # our judgement
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
    100: ("The tens and the ones stay.",) * 2,
    1000: ("The last three digits stay.",) * 2,
}
ANY_KNACKS = {
    **{step: knack for step, knack in KNACKS.items() if step not in (2, 5, 10, 25, 50)},
    10: ("The ones stay.",) * 2,
}
"""From any other number: what is told of multiples alone does not hold."""


class Count(NamedTuple):
    """What a card key says."""

    step: int
    form: str
    down: bool
    low: int
    high: int
    anywhere: bool = False  # from any number that is no multiple of the step

    @property
    def starts(self) -> range:
        """The smallest numbers of its showings; with `anywhere`, the multiples among them are none of it."""
        last = self.high - (SHOWN[self.form] - 1) * self.step
        if self.anywhere:
            return range(self.low, last + 1)
        return range(-(-self.low // self.step) * self.step, last + 1, self.step)


def _count(key: str) -> Count:
    step, form, direction, span, *anywhere = content_of(key).split("/")
    low, _, high = span.partition("..")
    return Count(int(step), form, direction == "down", int(low), int(high), bool(anywhere))


# --- cards and showings -------------------------------------------------------------------------------


def _keys(skill: Skill) -> Iterator[str]:
    """Each step in turn; a card that the range has no room for is left out."""
    first, last = wholes(skill, "times")
    for step in wholes(skill, "steps"):
        for direction in words(skill, "directions"):
            for form in words(skill, "forms"):
                for start in words(skill, "starts"):
                    key = f"count-by:{step}/{form}/{direction}/{first * step}..{last * step}"
                    key += "/any" if start == "any" else ""
                    yield from (key for _ in range(_possible(_count(key))))


def _check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    _, last = wholes(skill, "times")
    for step in wholes(skill, "steps"):
        if step * last > LARGEST:
            wrong = f"{last:,} steps of {step:,} go beyond {LARGEST:,}"
            yield "times", wrong, f"write [0, {LARGEST // step}] at most"


def _possible(count: Count) -> bool:
    """From any number but a multiple takes a step of two or more."""
    return any(_belongs(count, start) for start in count.starts[:2])


def _belongs(count: Count, start: int) -> bool:
    return start in count.starts and not (count.anywhere and start % count.step == 0)


@lru_cache(maxsize=512)
def showings(key: str) -> tuple[str, ...]:
    """Every `asked` of a card, each once."""
    count = _count(key)
    starts = [start for start in count.starts if _belongs(count, start)]
    return tuple(_asked(count, start, blanks) for start in starts for blanks in BLANKS[count.form])


def _asked(count: Count, start: int, blanks: tuple[int, ...]) -> str:
    """`start` is the smallest number of the showing."""
    numbers = [start + count.step * place for place in range(SHOWN[count.form])]
    ordered = numbers[::-1] if count.down else numbers
    return ",".join("_" if place in blanks else str(number) for place, number in enumerate(ordered))


def _draw(key: str, random: Random) -> str:
    """Without a list of them all: from any number there may be thousands."""
    count = _count(key)
    start = random.choice(count.starts)
    while not _belongs(count, start):
        start = random.choice(count.starts)
    return _asked(count, start, random.choice(BLANKS[count.form]))


def _is_showing(count: Count, asked: str) -> bool:
    first, blanks = (
        asked.partition(",")[0],
        tuple(place for place, text in enumerate(asked.split(",")) if text == "_"),
    )
    if not first.isdecimal() or blanks not in BLANKS[count.form]:
        return False
    start = min(_numbers(count, asked))
    return _belongs(count, start) and _asked(count, start, blanks) == asked


def _numbers(count: Count, asked: str) -> list[int]:
    """All numbers of a showing, those left out filled in."""
    first = int(asked.partition(",")[0])
    step = -count.step if count.down else count.step
    return [first + step * place for place in range(SHOWN[count.form])]


# --- what the planner knows ---------------------------------------------------------------------------


def _traits(key: str) -> Traits:
    count = _count(key)
    back = " back" if count.down else ""
    start = " from any number" if count.anywhere else ""
    span = f", {grouped(count.low)} to {grouped(count.high)}" if count.step == 1 else ""  # told apart by it
    title = f"count{back} in {grouped(count.step)}s{start}{span}: {TITLES[count.form]}"
    groups = frozenset({f"table-{count.step}", f"count-{count.form}"})
    return Traits(title, False, SECONDS[count.form], groups)


# --- what is shown ------------------------------------------------------------------------------------


def _problem(key: str, asked: str) -> Problem:
    count, shown = _count(key), asked.split(",")
    if not _is_showing(count, asked):
        raise ValueError(f"{asked!r} does not belong to {key!r}")
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
        told=_told(count, numbers),
        helps=_helps(count, numbers, shown),
    )


def _prompt(count: Count, shown: list[str]) -> str:
    """One number alone does not show the step: there it is said."""
    return _introduced(count, ", ".join(BOX if text == "_" else grouped(int(text)) for text in shown))


def _introduced(count: Count, row: str) -> str:
    return (
        row
        if count.form != "next"
        else f"Count {'back ' if count.down else ''}in {grouped(count.step)}s: {row}"
    )


def _say(count: Count, shown: list[str]) -> str:
    spoken = ", ".join("what" if text == "_" else in_words(int(text)) for text in shown)
    steps = several(count.step).removeprefix("one ")  # in hundreds, not in one hundreds
    return f"count {'back' if count.down else 'on'} in {steps}: {spoken}"


def _told(count: Count, numbers: list[int]) -> str:
    """All of the row, which also stands alone at the end of a sitting; on two lines where one has no room."""
    row = _introduced(count, f"{', '.join(map(grouped, numbers))}.")
    if len(row) <= 40:
        return row
    half = len(numbers) // 2
    return ",\n".join(", ".join(map(grouped, part)) for part in (numbers[:half], numbers[half:])) + "."


def _helps(count: Count, numbers: list[int], shown: list[str]) -> tuple[Help, ...]:
    texts: tuple[tuple[HelpStep, str], ...] = (
        ("question", f"How much {'less' if count.down else 'more'} is each number?"),
        ("build", _build(count)),
        ("neighbour", _knack(count)),
        ("blank", "\n".join(_jumps(count, numbers, shown, blank=True))),
        ("steps", "\n".join(_jumps(count, numbers, shown))),
    )
    return tuple(Help(step, text) for step, text in texts)


MOST_LAID = 60  # counters a table top takes; our judgement


def _build(count: Count) -> str:
    """Without a number, which might be the one asked for."""
    if count.step == 1:
        return "Point to them on a number line."
    if count.high > MOST_LAID or count.anywhere:  # too many to lay, or no equal rows
        return "Draw a number line.\nJump in equal steps."
    if count.down:
        return "Lay out equal rows of counters.\nTake one row away each time."
    return "Lay out equal rows of counters.\nCount after each row."


def _knack(count: Count) -> str:
    less = "less" if count.down else "more"
    knacks = ANY_KNACKS if count.anywhere else KNACKS
    return knacks.get(count.step, (f"Each one is {grouped(count.step)} {less}.",) * 2)[count.down]


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


# --- what one would write -----------------------------------------------------------------------------


def _slips(step: int, last: int, many: int) -> dict[str, list[int]]:
    """So many numbers after `last`, as each error rule has them; `step` is below zero on the way down."""
    right = [last + step * at for at in range(1, many + 1)]
    own, over = last - last % abs(step), step + (1 if step > 0 else -1)
    return {
        "own_start": [own + step * at for at in range(1, many + 1)],
        "repeated": [last, *right][:many],
        "skipped": [number + step for number in right],
        "step_over": [last + over * at for at in range(1, many + 1)],
        "by_ones": [last + at * (1 if step > 0 else -1) for at in range(1, many + 1)],
        "wrong_way": [last - step * at for at in range(1, many + 1)],
        "ten_not_moved": [last - last % 10 + number % 10 for number in right],
    }


def _runs(shown: list[str]) -> Iterator[tuple[int, int]]:
    """The number before each run of blanks, and how many blanks there are."""
    for place, text in enumerate(shown):
        blanks = [after == "_" for after in (*shown[place + 1 :], "")]
        if text != "_" and blanks[0]:
            yield int(text), blanks.index(False)


def predict(key: str, asked: str) -> Mapping[str, str]:
    count, shown = _count(key), asked.split(",")
    step = -count.step if count.down else count.step
    found: dict[str, list[int]] = {}
    for last, many in _runs(shown):
        for rule, slips in _slips(step, last, many).items():
            found[rule] = [*found.get(rule, []), *slips]
    numbers = zip(_numbers(count, asked), shown, strict=True)
    missing = [number for number, text in numbers if text == "_"]
    return {
        rule: ", ".join(map(str, slips))
        for rule, slips in found.items()
        if slips != missing and min(slips) >= 0
    }


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
    "starts": Option(
        "words",
        "from multiples of the step, or from any other number (any) as a card of its own",
        ("multiples",),
        choices=("multiples", "any"),
        example='["multiples", "any"]',
    ),
    "times": Option(
        "range", "how many steps from 0 the counting reaches", (0, 12), 0, MOST_STEPS, example="[0, 12]"
    ),
}

KINDS: tuple[Kind, ...] = (
    Kind(
        "count-by", "counting in equal steps: 14, 21, 28, □, □, □",
        OPTIONS, _keys, _traits, _draw, _problem, _check, predict=predict,
    ),
)  # fmt: skip
