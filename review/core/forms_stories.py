"""Answers to stories and to questions about words: a number with what was counted, a word of arithmetic."""

import re
import unicodedata
from collections.abc import Mapping

from review.core.forms import LONGEST, Form, plain, read_text, read_whole


def _folded(text: str) -> str:
    """Small letters, wide ones narrow; superscripts stay, for 4² is not 42."""
    wide = "".join(
        unicodedata.normalize("NFKC", sign) if sign > "\uff00" else sign for sign in text[: LONGEST + 1]
    )
    return wide.casefold()


# --- a number, with or without what was counted -------------------------------------------------------

COUNTED = re.compile(r"(?P<number>[^a-z]*[0-9.,])(?P<noun> ?[a-z]+)", re.ASCII)

ONE = {"loaves": "loaf", "geese": "goose"}


def read_counted(text: str, unit: str = "") -> int | None:
    """12, or 12 eggs where eggs are counted; not 12 hens, which is asked again.

    `unit` is the noun for many; the noun for one is taken too.
    """
    written = plain(_folded(text)).rstrip(". ")
    found = COUNTED.fullmatch(written)
    if found is None:
        return read_whole(written)
    noun = found["noun"].strip()
    return read_whole(found["number"]) if noun in _one_and_many(unit) else None


def _one_and_many(noun: str) -> set[str]:
    return {noun, noun.removesuffix("s"), noun.removesuffix("es"), ONE.get(noun, noun)} - {""}


# --- a word -------------------------------------------------------------------------------------------

TOLERANT = 6  # letters of a word from which one slip of spelling counts (our judgement)

# Words of arithmetic that are no misspelling of one another (common practice, no source)
KNOWN = frozenset({
    "add", "addend", "area", "denominator", "difference", "different", "digit", "divide", "divided",
    "dividend", "dividing", "division", "divisor", "double", "equal", "estimate", "even", "factor",
    "half", "minus", "multiple", "multiplied", "multiply", "multiplying", "numerator", "odd", "perimeter",
    "plus", "prime", "product", "quotient", "remainder", "round", "square", "subtract", "subtraction",
    "sum", "times", "total",
})  # fmt: skip
ARTICLES = re.compile(r"^(?:it is |it's |is |called )?(?:a |an |the )?")


def read_term(text: str, unit: str = "") -> str | None:
    """A word, with or without its article; `unit` is every word for the thing, apart by semicolons.

    Any of them is read as the first, also with a final s, or with one slip of spelling in a long word that is
    no other word of arithmetic. What has no letter is no word.
    """
    word = ARTICLES.sub("", plain(_folded(text)).rstrip(".")).strip()
    if not re.search(r"[^\W\d_]", word):
        return None
    names = [name for name in unit.casefold().split(";") if name]
    return names[0] if any(_same(word, name) for name in names) else word


def _same(word: str, name: str) -> bool:
    if word in (name, f"{name}s", name.removesuffix("s")):
        return True
    singular = word.removesuffix("s")
    return len(name) >= TOLERANT and not {word, singular} & KNOWN and one_slip(word, name)


# Words that are one letter apart and mean something else (common practice, no source)
LOOK_ALIKE = frozenset({
    "affect", "altitude", "billion", "complement", "compliment", "desert", "dessert", "effect", "eighth",
    "eighty", "latitude", "million", "minuet", "minute", "quarter", "quartet", "radium", "radius",
    "seventh", "seventy", "stationary", "stationery", "thirsty", "thirty", "trillion", "vertex", "vortex",
})  # fmt: skip


# The calendar's names as they are written short, and one as many hear it (common practice, no source)
SHORT = {
    "mon": "monday", "tue": "tuesday", "tues": "tuesday", "wed": "wednesday", "weds": "wednesday",
    "thu": "thursday", "thur": "thursday", "thurs": "thursday", "fri": "friday", "sat": "saturday",
    "sun": "sunday", "jan": "january", "feb": "february", "mar": "march", "apr": "april", "jun": "june",
    "jul": "july", "aug": "august", "sep": "september", "sept": "september", "oct": "october",
    "nov": "november", "dec": "december", "wensday": "wednesday", "wendsday": "wednesday",
}  # fmt: skip


def read_spelt(text: str, unit: str = "") -> str | None:
    """A text of a parent's own list, with one slip of spelling in a long word of it. `unit` is every answer
    of the child's lists, a line each: a slip counts only where it leads to one of them, or to one only that
    begins alike. A day or a month of them may be written short."""
    written = read_text(text)
    answers = {answer for answer in map(read_text, unit.split("\n")) if answer}
    if written is None or written in answers:
        return written
    if SHORT.get(written) in answers:
        return SHORT[written]
    near = [answer for answer in answers if _one_slip_in_a_word(written, answer)]
    alike = [answer for answer in near if answer[0] == written[0]]
    return near[0] if len(near) == 1 else alike[0] if len(alike) == 1 else written


def _one_slip_in_a_word(written: str, answer: str) -> bool:
    words, wanted = written.split(), answer.split()
    slips = [(word, name) for word, name in zip(words, wanted, strict=False) if word != name]
    if len(words) != len(wanted) or len(slips) != 1:
        return False
    word, name = slips[0]
    long = len(name) >= TOLERANT and name.isalpha()
    return long and word not in KNOWN | LOOK_ALIKE and one_slip(word, name)


def one_slip(word: str, name: str) -> bool:
    """One letter more, less, other, or two neighbours swapped (Damerau 1964)."""
    if abs(len(word) - len(name)) > 1:
        return False
    start = next(
        (n for n, (a, b) in enumerate(zip(word, name, strict=False)) if a != b), min(len(word), len(name))
    )
    a, b = word[start:], name[start:]
    swapped = len(a) > 1 and len(b) > 1 and a[:2] == b[1::-1] and a[2:] == b[2:]
    return swapped or a[1:] == b[1:] or a[1:] == b or a == b[1:]


FORMS: Mapping[str, Form] = {
    "counted": Form("Type a number, like 42.", read_counted, "42", "35"),
    "term": Form("Type a word.", read_term),
    "spelt": Form("Type your answer.", read_spelt),
}
