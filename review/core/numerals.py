"""Roman numerals in both forms: strict to read, plain to write.

`subtractive` is today's form (IV, IX, XL); `additive` is the early one (IIII, VIIII, XXXX), which only
ever adds letters up, largest first. Both reach from 1 to 3,999: past that the letters need a bar.
"""

import re
from typing import Literal

RomanForm = Literal["additive", "subtractive"]

LETTERS: dict[RomanForm, tuple[tuple[int, str], ...]] = {
    "additive": ((1000, "M"), (500, "D"), (100, "C"), (50, "L"), (10, "X"), (5, "V"), (1, "I")),
    "subtractive": (
        (1000, "M"), (900, "CM"), (500, "D"), (400, "CD"), (100, "C"), (90, "XC"), (50, "L"), (40, "XL"),
        (10, "X"), (9, "IX"), (5, "V"), (4, "IV"), (1, "I"),
    ),
}  # fmt: skip

# One group a decimal place. A numeral is well formed if it is what `write_roman` would write.
SHAPES: dict[RomanForm, re.Pattern[str]] = {
    "additive": re.compile(r"M{0,3}D?C{0,4}L?X{0,4}V?I{0,4}"),
    "subtractive": re.compile(r"M{0,3}(?:C[MD]|D?C{0,3})(?:X[CL]|L?X{0,3})(?:I[XV]|V?I{0,3})"),
}

VALUES = {letter: value for value, letter in LETTERS["additive"]}
LARGEST = 3999


def write_roman(value: int, form: RomanForm) -> str:
    """The numeral of a whole number from 1 to 3,999; ValueError outside."""
    if not 1 <= value <= LARGEST:
        raise ValueError(f"Roman numerals reach from 1 to {LARGEST}, not {value}")
    written = ""
    for worth, letters in LETTERS[form]:
        count, value = divmod(value, worth)
        written += letters * count
    return written


def read_roman(text: str, form: RomanForm) -> int | None:
    """The value of a well-formed numeral in capitals; None for anything else."""
    if not text or not SHAPES[form].fullmatch(text):
        return None
    values = [VALUES[letter] for letter in text]
    following = [*values[1:], 0]
    return sum(-one if one < after else one for one, after in zip(values, following, strict=True))
