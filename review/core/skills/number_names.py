"""Number names: four hundred and seventeen = 417, and the other way round.

A class is every number of its range; `full` those without a zero, `zero` those of three digits or more with
a zero in them: 607, 650, 6,058. Names have an "and" before tens and ones, as they are read in Britain and
Ireland, or none, as many schools in North America have it (common practice, no source): cards of their own,
because a child learns one of them. Typed names count with and without it.
"""

import textwrap
from collections.abc import Iterator, Mapping
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Problem, Skill, Traits
from review.core.pictures import Lines
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import ranges, words, yes
from review.core.skills.places import parts, without_inner_zeros
from review.core.skills.wording import EQUALS, MINUS, PLUS, TIMES, grouped, in_words, lines
from review.core.skills.worked import worked

TASKS = ("read", "write")
WHICH = ("all", "full", "zero")
WITHOUT_AND = "no-and"  # at the end of a key
LARGEST = 999_999  # our judgement
COLUMNS = 40
LONG = 999  # names of greater numbers stand above the prompt: not all of them fit on its line


class Class(NamedTuple):
    task: str
    low: int
    high: int
    which: str
    joined: bool = True  # by "and"

    def name(self, number: int) -> str:
        return in_words(number) if self.joined else in_words(number).replace(" and ", " ")

    @property
    def numbers(self) -> range:
        return range(self.low, self.high + 1)


def _class(key: str) -> Class:
    task, span, *rest = content_of(key).split("/")
    low, _, high = span.partition("..")
    which = next((part for part in rest if part in WHICH), "all")
    return Class(task, int(low), int(high), which, WITHOUT_AND not in rest)


def _key(of: Class) -> str:
    tail = ("" if of.which == "all" else f"/{of.which}") + ("" if of.joined else f"/{WITHOUT_AND}")
    return f"number-name:{of.task}/{of.low}..{of.high}{tail}"


# --- which numbers belong -----------------------------------------------------------------------------


def _fits(of: Class, number: int) -> bool:
    has_zero = "0" in str(number)
    return of.which == "all" or (has_zero and number > 99 if of.which == "zero" else not has_zero)


def _possible(of: Class) -> bool:
    """Whether the first number from the low end on that fits lies within the range."""
    digits = str(of.low)
    kept = digits.partition("0")[0]
    full = int(kept + "1" * (len(digits) - len(kept)))
    zero = max(of.low, 100) if "0" in digits else -(-max(of.low, 100) // 10) * 10
    return {"all": of.low, "full": full, "zero": zero}[of.which] <= of.high


def draw(key: str, random: Random) -> str:
    of = _class(key)
    if not _possible(of):
        raise ValueError(f"no number belongs to {key}")
    number = random.choice(of.numbers)
    while not _fits(of, number):
        number = random.choice(of.numbers)
    return str(number)


# --- what is shown ------------------------------------------------------------------------------------


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, COLUMNS, break_on_hyphens=False)


def _pieces(number: int) -> list[int]:
    """The parts as they are named: 14,417 -> 14,000, 400, 17."""
    small = [number % 100] if number % 100 < 20 else parts(number % 100)
    return [part for part in (number - number % 1000, number % 1000 - number % 100, *small) if part]


def _sum(number: int) -> str:
    """How the number is made, without its name: by counting, from ten, of tens, of its parts."""
    if number < 11:
        return f"{number - 1} {PLUS} 1" if number else f"1 {MINUS} 1"
    if number < 20:
        return f"10 {PLUS} {number - 10}"
    if number < 100 and number % 10 == 0:
        return f"{number - 10} {PLUS} 10"
    pieces = _pieces(number)
    if len(pieces) > 1:
        return f" {PLUS} ".join(map(grouped, pieces))
    place = 1000 if number >= 1000 else 10 ** (len(str(number)) - 1)
    return f"{grouped(number // place)} {TIMES} {grouped(place)}"


def _told_by(number: int) -> list[int]:
    """The parts whose names tell its own; of a number of one part, those it is made from."""
    pieces = _pieces(number)
    if len(pieces) > 1:
        return pieces
    if number < 11:
        return [abs(number - 1)]
    if number < 20:
        return [10, number - 10]
    return [number - 10] if number < 100 else [int(str(number).rstrip("0"))]


def _names(of: Class, number: int) -> list[str]:
    """Each part with its name: what is given first, then what is asked for."""
    pieces = _told_by(number) if of.task == "read" else _pieces(number)
    if len(pieces) < 2 and of.task == "write" and 0 < number < 100:
        return [f"After {of.name(number - 1)} comes {of.name(number)}"]
    pieces = pieces or [0]
    named = [(of.name(piece), grouped(piece)) for piece in pieces]
    if len(": ".join(named[0])) > COLUMNS:
        count = pieces[0] // 1000
        named[:1] = [(of.name(count), str(count)), ("thousand", "000")]
    return [": ".join(pair if of.task == "read" else pair[::-1]) for pair in named]


def _question(of: Class, number: int) -> str:
    if number < 21:
        return "Can you count up to it?"
    gap = "0" in str(number) and number > 99
    parts = "Which parts do you hear in it?" if of.task == "read" else "How do you say it in parts?"
    return lines([parts, "Which place has nothing?" if gap else ""])


def _build(number: int) -> str:
    if number <= 10:
        return "Lay that many counters."
    return "Build it with tens and ones." if number < 100 else "Write it in a place table."


def _helps(of: Class, number: int) -> tuple[Help, ...]:
    """Names are told part by part; reading ends in the sum of the parts, writing in the last name."""
    if of.task == "read":
        steps = [*_names(of, number), f"{_sum(number)} {EQUALS} {grouped(number)}"]
    else:
        steps = [f"{grouped(number)} {EQUALS} {_sum(number)}", *_names(of, number)]
    return Help("question", _question(of, number)), Help("build", _build(number)), *worked(*steps)


def problem(key: str, asked: str) -> Problem:
    of, number = _class(key), int(asked)
    if number not in of.numbers or str(number) != asked or not _fits(of, number):
        raise ValueError(f"{asked} does not belong to {key}")
    name, digits, reads = of.name(number), grouped(number), of.task == "read"
    long = reads and of.high > LONG
    return Problem(
        card=key,
        kind="number-name",
        asked=asked,
        prompt=f"{digits} in words:" if not reads else "In digits:" if long else f"{name} {EQUALS}",
        say=f"Write in digits: {name}." if reads else f"Write {name} in words.",
        form="whole" if reads else "number-word",
        expected=asked if reads else name,
        told="\n".join(_wrapped(f"{name} is {digits}." if reads else f"{digits} is {name}.")),
        helps=_helps(of, number),
        picture=Lines(tuple(_wrapped(name))) if long else None,
    )


# --- what one would write -----------------------------------------------------------------------------


def _zero_extra(number: int) -> int:
    """345 -> 3,045: a zero after the first digit."""
    digits = str(number)
    return int(f"{digits[0]}0{digits[1:]}") if len(digits) > 1 else number


def teen_ty(number: int) -> int:
    """40 -> 14 and 14 -> 40, also behind hundreds and thousands; other numbers are left alone."""
    tens, ones = divmod(number % 100, 10)
    before = number - number % 100
    if tens == 1 and ones > 2:
        return before + 10 * ones
    return before + 10 + tens if tens > 2 and ones == 0 else number


def predict(key: str, asked: str) -> Mapping[str, str]:
    of, number = _class(key), int(asked)
    slips = {"teen_ty": teen_ty(number)}
    if of.task == "read":
        slips |= {"zero_dropped": without_inner_zeros(number), "zero_extra": _zero_extra(number)}
    written = str if of.task == "read" else of.name
    return {rule: written(slip) for rule, slip in slips.items() if slip != number}


# --- the kind -----------------------------------------------------------------------------------------


def _classes(skill: Skill) -> Iterator[Class]:
    for low, high in ranges(skill, "ranges"):
        for which in words(skill, "which"):
            yield from (Class(task, low, high, which, yes(skill, "and")) for task in words(skill, "task"))


def keys(skill: Skill) -> Iterator[str]:
    return (_key(of) for of in _classes(skill) if _possible(of))


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for of in _classes(skill):
        if not _possible(of):
            wrong = f"{of.low:,} to {of.high:,} has no number of that kind ({of.which})"
            yield "ranges", wrong, "write [100, 999], or leave this class out"


WHICH_ARE = {"all": "", "full": ", without a zero", "zero": ", with a zero"}


def _seconds(of: Class) -> float:
    """Our judgement: a look and a few digits to read; to write, about a second and a half a letter of a long
    name of the class, as typed by a child who can spell it."""
    digits = len(str(of.high))
    if of.task == "read":
        return 4.0 + 2.0 * digits
    return {1: 8.0, 2: 16.0, 3: 35.0, 4: 50.0}.get(digits, 75.0)


def traits(key: str) -> Traits:
    of = _class(key)
    verb = "read" if of.task == "read" else "written"
    title = f"number names {verb}, {grouped(of.low)} to {grouped(of.high)}{WHICH_ARE[of.which]}"
    title += "" if of.joined else ", no “and”"
    return Traits(title, False, _seconds(of), frozenset({f"procedure-{key}", f"number-name-{of.task}"}))


KINDS: tuple[Kind, ...] = (
    Kind(
        "number-name",
        "number names read as digits, and digits written in words",
        {
            "task": Option(
                "words", "read names as digits, or write digits in words", default=TASKS, choices=TASKS,
                example='["read"]',
            ),
            "ranges": Option(
                "ranges", "which numbers, a card each", low=0, high=LARGEST, example="[[20, 99], [100, 999]]"
            ),
            "which": Option(
                "words", "all, or those without (full) and those with a zero as cards of their own",
                default=("all",), choices=WHICH, example='["full", "zero"]',
            ),
            "and": Option(
                "yes-no", "names as in four hundred and seventeen; false: four hundred seventeen",
                default=True, example="false",
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
