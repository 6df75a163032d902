"""Roman numerals, read and written, in today's form (IV) and in the early additive one (IIII).

A class is a form, a direction and a range of numbers, every number of it equally likely.
"""

from collections.abc import Iterator
from functools import lru_cache
from random import Random
from typing import NamedTuple, cast

from review.core.keys import content_of
from review.core.model import Help, Problem, Skill, Traits
from review.core.numerals import LARGEST, RomanForm, write_roman
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import ranges, word, words
from review.core.skills.places import parts
from review.core.skills.roman_rules import VALUES, predictions
from review.core.skills.wording import EQUALS, MINUS, PLUS, grouped, in_words
from review.core.skills.worked import without_echo, worked

OF_STICKS = frozenset("IVXL")  # letters one can lay with straight sticks


class Class(NamedTuple):
    form: RomanForm
    direction: str
    low: int
    high: int


def _class(key: str) -> Class:
    form, direction, span = content_of(key).split("/")
    low, high = map(int, span.split(".."))
    return Class(cast(RomanForm, form), direction, low, high)


def draw(key: str, random: Random) -> str:
    of = _class(key)
    return str(random.randint(of.low, of.high))


# --- groups of letters, one a decimal place -----------------------------------------------------------


def _letter_sum(letters: str) -> str:
    """The letters of one group as a sum: IX -> "10 − 1", VIII -> "5 + 3", XX -> "10 + 10"."""
    first, *rest = [VALUES[letter] for letter in letters]
    if rest and first < rest[-1]:
        return f"{grouped(rest[-1])} {MINUS} {grouped(first)}"
    if rest and first != rest[-1]:
        return f"{grouped(first)} {PLUS} {grouped(sum(rest))}"
    return f" {PLUS} ".join(map(grouped, [first, *rest]))


def _group_line(group: int, form: RomanForm) -> str:
    letters = write_roman(group, form)
    middle = [_letter_sum(letters)] if len(letters) > 1 else []
    return f" {EQUALS} ".join([letters, *middle, grouped(group)])


def _read_steps(value: int, form: RomanForm) -> tuple[str, ...]:
    groups = parts(value)
    each = tuple(_group_line(group, form) for group in groups)
    whole = f" {PLUS} ".join(map(grouped, groups)) + f" {EQUALS} {grouped(value)}"
    return (*each, whole) if len(groups) > 1 else each


def _write_steps(value: int, form: RomanForm) -> tuple[str, ...]:
    groups = parts(value)
    numeral = write_roman(value, form)
    if len(groups) == 1:
        middle = [_letter_sum(numeral)] if len(numeral) > 1 else []
        return (f" {EQUALS} ".join([grouped(value), *middle, numeral]),)
    split = f"{grouped(value)} {EQUALS} " + f" {PLUS} ".join(map(grouped, groups))
    each = (f"{grouped(group)} {EQUALS} {write_roman(group, form)}" for group in groups)
    return (split, *each, f"{grouped(value)} {EQUALS} {numeral}")


# --- problems -----------------------------------------------------------------------------------------


def _question(value: int, of: Class) -> str:
    numeral = write_roman(value, of.form)
    takes_away = numeral != write_roman(value, "additive")
    if of.direction == "read":
        return "Is a letter taken away from another?" if takes_away else "What is each letter worth?"
    if len(parts(value)) > 1:
        return "What is each digit worth?"
    if len(numeral) == 1:
        return "Is there a letter for it?"
    return f"Which letter is {VALUES[numeral[0]]} more?" if takes_away else "Which letters add up to it?"


def _helps(value: int, of: Class) -> tuple[Help, ...]:
    steps = (_read_steps if of.direction == "read" else _write_steps)(value, of.form)
    sticks = set(write_roman(value, of.form)) <= OF_STICKS
    build = (Help("build", _build(value, of)),) if sticks else ()
    given = write_roman(value, of.form) if of.direction == "read" else grouped(value)
    return (
        Help("question", _question(value, of)),
        *build,
        *without_echo(f"{given} {EQUALS}", worked(*steps)),
    )


def _build(value: int, of: Class) -> str:
    if len(parts(value)) == 1:
        return "Lay it with sticks."
    return "Lay it with sticks, group by group." if of.direction == "read" else "Lay each part with sticks."


def _write_prompt(value: int, form: RomanForm) -> str:
    early = ", only adding" if form == "additive" else ""
    return f"{grouped(value)} in Roman numerals{early}:"


def problem(key: str, asked: str) -> Problem:
    of, value = _class(key), int(asked)
    if not of.low <= value <= of.high:
        raise ValueError(f"{asked} does not belong to {key}")
    numeral, helps = write_roman(value, of.form), _helps(value, of)
    if of.direction == "read":
        say = f"Which number is this: {', '.join(numeral)}?"
        told = f"{numeral} is {grouped(value)}."
        return Problem(key, "roman", asked, f"{numeral} {EQUALS}", say, "whole", str(value), told, helps)
    say = f"Write {in_words(value)} in Roman numerals."
    prompt, told = _write_prompt(value, of.form), f"{grouped(value)} is {numeral}."
    return Problem(key, "roman", asked, prompt, say, f"roman-{of.form}", numeral, told, helps)


def predict(key: str, asked: str) -> dict[str, str]:
    of = _class(key)
    return predictions(of.form, of.direction, int(asked))


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    """A direction for each range, lower ranges first: what is read is written next."""
    for low, high in ranges(skill, "ranges"):
        for direction in words(skill, "direction"):
            yield f"roman:{word(skill, 'form')}/{direction}/{low}..{high}"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for low, high in ranges(skill, "ranges"):
        if not 1 <= low <= high <= LARGEST:
            yield (
                "ranges",
                f"Roman numerals reach from 1 to {grouped(LARGEST)}",
                "write ranges inside it, like [1, 12]",
            )


TITLES = {
    ("subtractive", "read"): "Roman numerals {} to {} read",
    ("subtractive", "write"): "Roman numerals {} to {} written",
    ("additive", "read"): "early Roman numerals {} to {} read",
    ("additive", "write"): "early Roman numerals {} to {} written",
}


def traits(key: str) -> Traits:
    of = _class(key)
    title = TITLES[of.form, of.direction].format(grouped(of.low), grouped(of.high))
    likeness = frozenset({f"procedure-{key}", f"roman-{of.direction}"})
    return Traits(title, False, _seconds(of), likeness)


@lru_cache(maxsize=256)
def _seconds(of: Class) -> float:
    """4 s and 1 s a letter to read, half as much again to write, by the middle length (our judgement)."""
    lengths = [len(write_roman(value, of.form)) for value in range(of.low, of.high + 1)]
    letters = sum(lengths) / len(lengths)
    return round((4.0 + letters) * (1.5 if of.direction == "write" else 1.0), 1)


KINDS: tuple[Kind, ...] = (
    Kind(
        "roman",
        "Roman numerals, read and written",
        {
            "form": Option(
                "word", "subtractive: IV, today's form; additive: IIII, the early one",
                default="subtractive", choices=("subtractive", "additive"), example='"subtractive"',
            ),
            "direction": Option(
                "words", "read (XIV, what number?) and write (14, in letters)",
                default=("read",), choices=("read", "write"), example='["read", "write"]',
            ),
            "ranges": Option(
                "ranges", "from which number to which; a card each", low=1, high=LARGEST,
                example="[[1, 12], [13, 20]]",
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
