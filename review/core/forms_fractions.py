"""Fractions, decimals and percents as children type them, and amounts of square and cubic units.

A comma in place of the point cannot be read: half the world means another number by 1,500. Commas and spaces
may stand between thousands, as in whole numbers.
"""

import re
import unicodedata
from collections.abc import Callable, Mapping
from fractions import Fraction
from math import gcd
from typing import NamedTuple

from review.core.forms import MOST_PLACES, WHOLE, Form, Verdict, integer, plain

# --- fractions ----------------------------------------------------------------------------------------

SLASHES = dict.fromkeys("\u2044\u2215\uff0f\u29f8", "/")  # fraction slash, division slash, full width, big
PART = r"(?P<top>\d+) ?/ ?(?P<under>\d+)"
FRACTION = re.compile(
    rf"(- ?|\+)?(?:(?:(?P<whole>{WHOLE})(?: and | ?\+ ?| ))?{PART}|(?P<only>{WHOLE}))\.?", re.ASCII
)


TOPS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11,
}  # fmt: skip
UNDERS = {
    "half": 2, "halve": 2, "third": 3, "quarter": 4, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7,
    "eighth": 8, "ninth": 9, "tenth": 10, "twelfth": 12,
}  # fmt: skip
IN_WORDS = re.compile(rf"(?:(an?|{'|'.join(TOPS)}|\d{{1,2}})[ -]?)?({'|'.join(UNDERS)})s?\.?", re.ASCII)


def _in_digits(text: str) -> str:
    """Half, "a quarter", "two thirds", "3 eighths" as 1/2, 1/4, 2/3, 3/8; any other text as it is."""
    found = IN_WORDS.fullmatch(text)
    if not found:
        return text
    top = found[1] or "a"
    return f"{top if top.isdecimal() else TOPS.get(top, 1)}/{UNDERS[found[2]]}"


class Written(NamedTuple):
    """A fraction, and how it was written."""

    value: Fraction
    lowest: bool  # no number divides both, or it is whole
    mixed: bool  # whole, or a whole number beside a part less than one


def _one_line(text: str) -> str:
    """¾ as 3/4, 1½ as 1 1/2, "3 over 4" and "three quarters" as 3/4."""
    spread = "".join(
        f" {unicodedata.normalize('NFKC', sign)}" if "VULGAR" in unicodedata.name(sign, "") else sign
        for sign in plain(text)
    )
    slashed = "".join(SLASHES.get(sign, sign) for sign in spread).casefold()
    return _in_digits(plain(slashed.replace(" over ", "/")))


def read_written(text: str) -> Written | None:
    found = FRACTION.fullmatch(_one_line(text))
    if not found:
        return None
    names = ("only", "whole", "top", "under")
    only, whole, top, under = (integer(found[name] or "") if found[name] else None for name in names)
    minus = -1 if (found[1] or "").startswith("-") else 1
    if only is not None:
        return Written(Fraction(minus * only), True, True)
    if top is None or not under or (whole is None and found["whole"]):
        return None
    part = Fraction(top, under)
    return Written(minus * ((whole or 0) + part), gcd(top, under) == 1, whole is not None and part < 1)


def read_fraction(text: str, unit: str = "") -> Fraction | None:
    """3/4, 6/8, 1 1/2, 3/2, 2: the value is meant, however it is written."""
    found = read_written(text)
    return found.value if found else None


def read_lowest(text: str, unit: str = "") -> tuple[Fraction, bool] | None:
    """The value, and whether it stands in lowest terms."""
    found = read_written(text)
    return (found.value, found.lowest) if found else None


def read_mixed(text: str, unit: str = "") -> tuple[Fraction, bool] | None:
    """The value, and whether it stands as a mixed number."""
    found = read_written(text)
    return (found.value, found.mixed) if found else None


def weigh_mixed(expected: object, given: object) -> Verdict:
    """The same value written as it was asked, 7/4, is no mixed number yet: it is asked again."""
    if expected == given:
        return "right"
    if not (isinstance(expected, tuple) and isinstance(given, tuple)):
        return "other"
    return "unreadable" if expected[0] == given[0] else "other"


# --- decimals and percents ----------------------------------------------------------------------------

DECIMAL = re.compile(rf"(- ?|\+)?({WHOLE})?(?:\.(\d{{0,{MOST_PLACES}}}))?\.?", re.ASCII)
PERCENT = re.compile(r" ?(?:%|per ?cent)\.?$", re.IGNORECASE)


def read_decimal(text: str, unit: str = "") -> Fraction | None:
    """0.5, .5, 0.50, 1,250.5, and 5 where it is whole; not 0,5."""
    found = DECIMAL.fullmatch(plain(text))
    if not found or not (found[2] or found[3]):
        return None
    whole = integer(found[2] or "0")
    if whole is None:
        return None
    places = found[3] or ""
    value = whole + Fraction(int(places or "0"), 10 ** len(places))
    return -value if (found[1] or "").startswith("-") else value


ABOUT = 50  # a number that is asked for roughly may be off by a fiftieth: 2.54 for 2.5 (our judgement)


def weigh_about(expected: object, given: object) -> Verdict:
    """Who knows it more exactly than was asked knows it."""
    if not (isinstance(expected, Fraction) and isinstance(given, Fraction)):
        return "other"
    return "right" if abs(given - expected) * ABOUT <= abs(expected) else "other"


def read_percent(text: str, unit: str = "") -> Fraction | None:
    """25, 25%, 25 %, 25 percent, 25 per cent, 12.5%."""
    return read_decimal(PERCENT.sub("", plain(text).replace("\uff05", "%")))


def read_decimals(text: str, unit: str = "") -> tuple[Fraction, ...] | None:
    """Apart by spaces, by commas or by signs. "0,5 0,25" has both kinds of comma, and cannot be read."""
    written = re.sub(r" (?:and|then) ", " , ", plain(text)).strip(" ,;")
    spaced, tight = re.search(r"[ ;<]", written), re.search(r"\d,\d", written)
    if spaced and tight:
        return None
    values = [read_decimal(part) for part in re.split(r"[ ,;<]+", written)]
    return None if None in values else tuple(value for value in values if value is not None)


def weigh_decimals(expected: object, given: object) -> Verdict:
    """A number left out or one too many is no order yet: it is asked again."""
    if expected == given:
        return "right"
    if not (isinstance(expected, tuple) and isinstance(given, tuple)):
        return "other"
    return "other" if len(expected) == len(given) else "unreadable"


# --- square and cubic units, degrees ------------------------------------------------------------------


CM = r"(?:cm|centimet(?:re|er)s?)"
SQUARE = rf"(?:sq(?:uare)?\.? ?{CM}|{CM} ?(?:\^? ?2|²|squared))"
CUBIC = rf"(?:cu(?:bic|be)?\.? ?{CM}|{CM} ?(?:\^? ?3|³|cubed)|cc)"
DEGREES = r"(?:°|º|deg(?:ree)?s?)"


def read_with(unit_words: str) -> Callable[..., object]:
    """A number, with or without that unit."""
    end = re.compile(rf" ?{unit_words}\.?$", re.IGNORECASE)

    def read(text: str, unit: str = "") -> Fraction | None:
        return read_decimal(end.sub("", plain(text)))

    return read


FORMS: Mapping[str, Form] = {
    "fraction": Form("Type a fraction, like 3/4.", read_fraction, "3/4", "2/5"),
    "fraction-lowest": Form("Type a fraction, like 3/4.", read_lowest, "3/4", "2/5"),
    "fraction-mixed": Form(
        "Type a mixed number, like 2 1/3.", read_mixed, "2 1/3", "3 1/2", weigh=weigh_mixed
    ),
    "decimal": Form("Type a number, like 0.5.", read_decimal, "0.5", "0.7"),
    "decimals": Form("Type all the numbers, like 0.5 0.7.", read_decimals, "0.5 0.7", weigh=weigh_decimals),
    "about": Form("Type a number, like 42.", read_decimal, "42", "35", weigh=weigh_about),
    "percent": Form("Type a number, like 25.", read_percent, "25", "40"),
    "square-cm": Form("How many square cm? Type a number.", read_with(SQUARE)),
    "cubic-cm": Form("How many cubic cm? Type a number.", read_with(CUBIC)),
    "degrees": Form("How many degrees? Type a number.", read_with(DEGREES)),
}
