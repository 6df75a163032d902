"""What every answer form stands on: plain text, whole numbers, and what a form is."""

import re
import unicodedata
from collections.abc import Callable
from typing import Literal, NamedTuple

Verdict = Literal["right", "other", "unreadable"]

LONGEST = 200  # characters; our judgement: no answer of any kind comes near, and a stuck key does
MOST_DIGITS = 15  # of one number; our judgement: a thousand times the largest number of these years
MOST_PLACES = 6  # decimals of a quantity; our judgement

# What keyboards, phones and pasted text put in place of the plain character. Digits of every script are
# read by their decimal value; superscripts have none and stay unreadable, which is meant: 4² is not 42.
STANDS_FOR = {
    **dict.fromkeys("\u2212\u2013\u2012\u2010\u2011\ufe63\uff0d", "-"),
    **dict.fromkeys("\u060c\u066c\ufe50\uff0c\u3001", ","),
    **dict.fromkeys("\uff0e\u3002", "."),
    **dict.fromkeys("\uff1b\u061b", ";"),
    **dict.fromkeys("\u2018\u2019\u02bc", "'"),
    "\uff1a": ":",
    "\uff1c": "<",
    "\uff1d": "=",
    "\uff1e": ">",
}


class Form(NamedTuple):
    """A way to write an answer."""

    asks: str  # a child's sentence for when it cannot be read
    read: Callable[..., object]  # (text, unit="") -> the value, or None
    example: str = ""  # the answer named in `asks`,
    another: str = ""  # and what stands in its place where it would give the answer away
    readings: Callable[[str], tuple[object, ...]] | None = (
        None  # every sensible value, where there are several
    )
    weigh: Callable[[object, object], Verdict] = lambda expected, given: (
        "right" if expected == given else "other"
    )


# --- plain text ---------------------------------------------------------------------------------------


def plain(text: str) -> str:
    """Digits and signs as ASCII, single spaces, no invisible characters; "" when too long to be an answer."""
    if len(text) > LONGEST:
        return ""
    return " ".join((text if text.isascii() else "".join(map(plain_character, text))).split())


def plain_character(character: str) -> str:
    if character.isascii():
        return character
    if character in STANDS_FOR:
        return STANDS_FOR[character]
    if character.isdecimal():
        return str(unicodedata.decimal(character))
    return "" if unicodedata.category(character) == "Cf" else character


def read_text(text: str, unit: str = "") -> str | None:
    """Capitals, spaces and a full stop, ! or ? behind a word make no difference."""
    folded = unicodedata.normalize("NFC", plain(unicodedata.normalize("NFC", text[: LONGEST + 1])).casefold())
    return folded.rstrip(" .!?") or folded.removesuffix(".").strip() or None  # a sign may be the answer


# --- numbers ------------------------------------------------------------------------------------------

WHOLE = r"\d{1,3}(?:,\d{3})+|\d{1,3}(?: \d{3})+|\d+"  # thousands apart by commas or by spaces, not by both
WHOLE_ANSWER = re.compile(rf"=? ?(- ?|\+|minus |negative )?({WHOLE})\.?", re.ASCII | re.IGNORECASE)


def integer(digits: str) -> int | None:
    digits = digits.replace(",", "").replace(" ", "")
    return int(digits) if len(digits) <= MOST_DIGITS else None


def signed(sign: str | None, digits: str) -> int | None:
    value = integer(digits)
    return -value if value is not None and (sign or "+") != "+" else value


def read_whole(text: str, unit: str = "") -> int | None:
    """1000, 1,000 and 1 000 are one number; 10,00 and 3.5 are none. -4 may be "minus 4" or "negative 4"."""
    found = WHOLE_ANSWER.fullmatch(plain(text))
    return signed(found[1], found[2]) if found else None
