"""A slip of the keys or of the mind? What looks like a slip is asked once more before it counts.

Only digits are looked at: letters lie differently on the keyboards of the world, and a Roman numeral with
one letter more is another numeral. All of this is our judgement but where a source stands.

A child must not learn that being asked once more means "not that". So an answer that is as it should be is
now and then asked once more too, about as often as a slip is; it stands, whatever is typed then.
"""

import re
from collections.abc import Iterable, Iterator
from random import Random

from review.core import judging, skills
from review.core.forms import plain
from review.core.keys import kind_of
from review.core.model import FOUND, RIGHT, Answer, Problem

MOST_SLIPS = 2  # of one sitting that are asked once more
MOST_CHECKS = 1  # answers of one sitting that are as they should be, and asked once more
CHECKED = 1 / 40  # of such answers; copy typing has a stray key in one to three of a hundred (from memory)
SETTLED_IN = 5  # cards answered before that; a child first finds into the sitting

FORMS = frozenset({
    "whole", "list", "parts", "quantity", "counted", "numbers", "money", "coins", "time-span", "percent",
    "decimal", "decimals", "about", "square-cm", "cubic-cm", "degrees", "remainder", "temperature",
    "clock-time", "clock-digits", "clock-24", "fraction", "fraction-lowest", "fraction-mixed",
    "mixed-quantity",
})  # fmt: skip
"""Answers written in digits. Signs, choices, words and letters are left alone."""

NEIGHBOURS = frozenset(map(frozenset, ("74", "41", "85", "52", "96", "63", "02", "09")))
"""Keys above each other on the number pad of a computer (789 over 456 over 123 over a wide 0), and the ends
of the number row that meet, 9 and 0. All other neighbours are one more or one less, which a child who counts
writes as well: those are never taken for a slip."""

PLACED = frozenset({"place-value", "number-name"})
"""Kinds whose idea is which digit stands where: digits turned round are no slip there."""

DIGITS = re.compile(r"\d+", re.ASCII)
THOUSANDS = re.compile(r"(?<=\d)[, ](?=\d{3}(?!\d))", re.ASCII)
WORDS = re.compile(r"[^\d.:/+-]+", re.ASCII)
NUMBER = re.compile(r"\d+(?:\.\d+)?", re.ASCII)


# --- what looks like a slip ---------------------------------------------------------------------------


def looks_like_slip(problem: Problem, text: str) -> bool:
    """Whether a wrong answer is one key away from the expected one, and no way of reckoning leads to it."""
    if problem.form not in FORMS or skills.traits(problem.card).choices:
        return False
    expected, typed = _digits_only(problem.expected), _digits_only(text)
    if _shape(expected) != _shape(typed):
        return False
    pairs = [
        (one, other)
        for one, other in zip(DIGITS.findall(expected), DIGITS.findall(typed), strict=True)
        if one != other
    ]
    return (
        len(pairs) == 1
        and _one_key_off(*pairs[0], swaps=kind_of(problem.card) not in PLACED)
        and not _reckoned(problem, *pairs[0])
        and not predicted(problem, text)
    )


def predicted(problem: Problem, text: str) -> bool:
    """Whether an error rule of the card's kind leads to this answer: it must reach the search for rules."""
    found = skills.kind(problem.card).predict(problem.card, problem.asked).values()
    return any(_same(problem, one, text) for one in found)


def _same(problem: Problem, one: str, text: str) -> bool:
    return judging.judge(problem._replace(expected=one), text) == "right"


def _digits_only(text: str) -> str:
    """Without the commas and spaces between thousands, without units and other words."""
    return " ".join(WORDS.sub(" ", THOUSANDS.sub("", plain(text))).split())


def _shape(text: str) -> str:
    return DIGITS.sub("0", text)


def _one_key_off(expected: str, typed: str, swaps: bool) -> bool:
    if len(typed) == len(expected) + 1:
        return typed in {made for key in "23456789" for made in _with(expected, key)}
    if len(typed) != len(expected) or len(expected) == 1:  # of one digit, each other digit may be meant
        return False
    differ = [(one, other) for one, other in zip(expected, typed, strict=True) if one != other]
    if len(differ) == 1:
        return frozenset(differ[0]) in NEIGHBOURS
    return swaps and typed in _turned(expected)


def _with(digits: str, key: str) -> Iterator[str]:
    """One key more, anywhere, also pressed twice. Never a 0 or a 1: a nought too many, or an exchanged one
    that was written out, is a way of thinking of its own."""
    return (digits[:at] + key + digits[at:] for at in range(len(digits) + 1))


def _turned(digits: str) -> Iterator[str]:
    """Two digits side by side turned round."""
    return (
        digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :]
        for at in range(len(digits) - 1)
        if digits[at] != digits[at + 1]
    )


def _reckoned(problem: Problem, expected: str, typed: str) -> bool:
    """Off by one in one place, as a count or an exchange goes amiss; off by a number of the problem, as when
    a step is left out; or such a number itself."""
    numbers = {part.lstrip("0") for part in NUMBER.findall(problem.asked)}
    off = str(abs(int(expected) - int(typed)))
    return off.strip("0") == "1" or off in numbers or typed.lstrip("0") in numbers


# --- the sitting --------------------------------------------------------------------------------------


def asks_slip(problem: Problem, row: Answer, so_far: int) -> bool:
    """Whether to ask once more, after so many times in the sitting. `row` is what it would be kept as."""
    return row.mark == "not_yet" and so_far < MOST_SLIPS and looks_like_slip(problem, row.given)


def asks_check(problem: Problem, row: Answer, so_far: int, cards: int, random: Random) -> bool:
    """Whether an answer that is as it should be is asked once more, so that being asked tells nothing."""
    plain_right = row.mark in RIGHT and problem.form in FORMS
    return plain_right and so_far < MOST_CHECKS and cards >= SETTLED_IN and random.random() < CHECKED


def settled(first: Answer, last: Answer) -> Answer:
    """The row of an answer that was asked once more. Right at once: it stands, with its time. Right after a
    slip: right, and no time is known. `slipped` keeps what was typed first."""
    if first.mark in FOUND:
        return first._replace(given=last.given or first.given, slipped=first.given)
    if last.mark in FOUND:
        mark = "right_helped" if last.mark == "right_helped" else "right"
        last = last._replace(mark=mark, first_ms=0, end_ms=0)  # type: ignore[arg-type]
    return last._replace(slipped=first.given)


def first_given(answer: Answer) -> str:
    """What was typed first: this is what a search for error rules reads."""
    return answer.slipped or answer.given


def was_right(cards: Iterable[str], answer: Answer) -> bool:
    """Whether what was typed first was as it should be, beside the child's other cards."""
    problem = skills.among(skills.problem(answer.card, answer.asked), cards)
    return judging.judge(problem, first_given(answer)) == "right"
