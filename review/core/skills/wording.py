"""Words shared by the kinds: numbers in words, signs, and sentences a child can read."""

from collections.abc import Iterable
from typing import Any

from review.core.model import BOX

PLUS, MINUS, TIMES, DIVIDED, EQUALS = "+", "−", "×", "÷", "="

SIGN_WORDS = {
    PLUS: "plus",
    MINUS: "minus",
    TIMES: "times",
    DIVIDED: "divided by",
    EQUALS: "equals",
    BOX: "what",
}

ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
TENS = ("zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def in_words(number: int) -> str:
    """A whole number under a thousand million in English words, with "and": "four hundred and seventeen"."""
    if number < 0:
        return "minus " + in_words(-number)
    if number < 100:
        return _under_hundred(number)
    if number < 1000:
        return _joined(number // 100, "hundred", number % 100)
    if number < 1_000_000:
        return _joined(number // 1000, "thousand", number % 1000)
    if number < 1_000_000_000:
        return _joined(number // 1_000_000, "million", number % 1_000_000)
    raise ValueError(f"no words for {number}: the largest is 999,999,999")


def _under_hundred(number: int) -> str:
    if number < 20:
        return ONES[number]
    tens, ones = divmod(number, 10)
    return TENS[tens] + (f"-{ONES[ones]}" if ones else "")


def _joined(count: int, unit: str, rest: int) -> str:
    """The "and" stands before the last part under a hundred: 1,005 and 1,205, but not 1,200."""
    head = f"{in_words(count)} {unit}"
    if not rest:
        return head
    return f"{head} and {in_words(rest)}" if rest < 100 else f"{head} {in_words(rest)}"


def as_title(prompt: str) -> str:
    """A prompt as it stands in a list: without the colon that waits for an answer."""
    return prompt.removesuffix(":") or prompt


def several(number: int) -> str:
    """A number as something one counts in: "sevens", "sixes", "twenties"."""
    words = in_words(number)
    if words.endswith("y"):
        return words[:-1] + "ies"
    return words + ("es" if words.endswith("x") else "s")


def grouped(number: int) -> str:
    """A whole number as it is printed, thousands apart: 3,456."""
    return f"{number:,}".replace("-", MINUS)


def counted(number: int, one: str, many: str = "") -> str:
    """A number and its noun: "1 ten", "3 tens"."""
    return f"{grouped(number)} {one if number == 1 else many or one + 's'}"


def blocks_for(*numbers: int) -> str:
    """What numbers are built with: "tens and ones", or what they are round in."""
    most = max(numbers)
    hundreds = ["hundreds"] if most > 100 else []
    tens = ["tens"] if most >= 10 and (not hundreds or any(number % 100 for number in numbers)) else []
    ones = ["ones"] if any(number % 10 for number in numbers) else []
    found = [*hundreds, *tens, *ones]
    return ", ".join(found) if len(found) > 2 else " and ".join(found)


def spoken(*parts: int | str) -> str:
    """Numbers and signs read aloud: 6, "×", 7 -> "six times seven"."""
    return " ".join(in_words(part) if isinstance(part, int) else SIGN_WORDS.get(part, part) for part in parts)


def equation(left: int | str, sign: str, right: int | str, result: int | str) -> str:
    """As one writes it: "6 × 7 = 42". Any part may be a box."""
    return f"{left} {sign} {right} {EQUALS} {result}"


SIGN_SENTENCES = {"<": "is less than", "=": "is the same as", ">": "is greater than"}


def sign_between(first: Any, second: Any) -> str:
    """The sign that belongs between two numbers of one sort: "<", "=" or ">"."""
    return "<" if first < second else ">" if first > second else "="


def sentence(text: str) -> str:
    """With a capital and a full stop."""
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")


def on_lines(told: str, columns: int = 40) -> str:
    """A sentence with "is" in it on two lines, where one has no room for it."""
    return told if len(told) <= columns else told.replace(" is ", "\nis ", 1)


def lines(parts: Iterable[str]) -> str:
    """One idea a line."""
    return "\n".join(part for part in parts if part)
