"""What one would write for a Roman numeral under each error rule. The rules are from memory (no source)."""

from collections.abc import Callable, Mapping, Sequence

from review.core.numerals import LARGEST, RomanForm, write_roman

VALUES = {"I": 1, "V": 5, "X": 10, "L": 50, "C": 100, "D": 500, "M": 1000}
PAIRS = {"IV": "VI", "IX": "XI", "XL": "LX", "XC": "CX", "CD": "DC", "CM": "MC"}
UNITS = ((1000, "M"), (100, "C"), (10, "X"), (1, "I"))


def _worth(numeral: str, swapped: str = "") -> list[int]:
    """The letters' values; two letters may have changed places in the reader's mind."""
    other = dict(zip(swapped, reversed(swapped), strict=True))
    return [VALUES[other.get(letter, letter)] for letter in numeral]


def _pairwise(values: Sequence[int]) -> int:
    following = [*values[1:], 0]
    return sum(-one if one < after else one for one, after in zip(values, following, strict=True))


def _always_less(numeral: str) -> int:
    """Smaller letters are taken away, whichever side they stand on: VI read as 4."""
    values = _worth(numeral)
    largest = max(values)
    return sum(value if value == largest else -value for value in values)


READ: Mapping[str, Callable[[str], int]] = {
    "additive": lambda numeral: sum(_worth(numeral)),
    "always_less": _always_less,
    "five_ten": lambda numeral: sum(_worth(numeral, "VX")),
    "fifty_hundred": lambda numeral: _pairwise(_worth(numeral, "LC")),
}


def _turned(value: int) -> str:
    """Pairs turned round: VI for IV."""
    numeral = write_roman(value, "subtractive")
    for pair, turned in PAIRS.items():
        numeral = numeral.replace(pair, turned.lower())
    return numeral.upper()


def _before_all(value: int) -> str:
    """A small letter before any larger one: IC for 99."""
    one_less = value % 10 == 9 and value < LARGEST
    return "I" + write_roman(value + 1, "subtractive") if one_less else ""


def _no_five(value: int) -> str:
    """No letter for five: IIIIII for 6."""
    return "".join(letter * (value // unit % 10) for unit, letter in UNITS)


WRITE: Mapping[str, Callable[[int], str]] = {
    "additive": lambda value: write_roman(value, "additive"),
    "wrong_order": _turned,
    "before_all": _before_all,
    "no_five": _no_five,
}


def predictions(form: RomanForm, direction: str, value: int) -> dict[str, str]:
    """Rule -> what it writes, where that is not the expected answer. Early forms are only read by them."""
    numeral = write_roman(value, form)
    if direction == "read":
        found = {rule: str(said(numeral)) for rule, said in READ.items()}
        return {rule: text for rule, text in found.items() if text != str(value) and int(text) > 0}
    written = {rule: wrote(value) for rule, wrote in WRITE.items()} if form == "subtractive" else {}
    return {rule: text for rule, text in written.items() if text not in ("", numeral)}
