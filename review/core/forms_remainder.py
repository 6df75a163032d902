"""A quotient with what is left over: "72 r 5", and "72" where nothing is."""

import re
from collections.abc import Mapping
from typing import NamedTuple

from review.core.forms import WHOLE, Form, integer, plain


class Shared(NamedTuple):
    quotient: int
    remainder: int


LEFT = r"remainder|remaining|remain|rem|rest|left ?over|left|over|r"
LINK = r"(?: (?:of|is))? ?[.:=]? ?"
NUMBER_LAST = rf"(?:(?:with|and) )?(?:an? )?(?:{LEFT}){LINK}(?P<after>{WHOLE})"  # r 5, and a remainder of 5
NUMBER_FIRST = rf"(?:with |and )?(?P<before>{WHOLE}) ?(?:{LEFT})"  # 5 left over
ANSWER = re.compile(
    rf"(?P<quotient>{WHOLE})(?: ?[,;]? ?(?:{NUMBER_LAST}|(?<=[ ,;]){NUMBER_FIRST}))?\.?",
    re.ASCII | re.IGNORECASE,
)


def read_remainder(text: str, unit: str = "") -> Shared | None:
    """72 r 5, 72r5, 72 remainder 5, 72 and 5 left over; 72 alone is 72 r 0. Not 72 5 and not 72 r."""
    found = ANSWER.fullmatch(plain(text))
    if not found:
        return None
    quotient = integer(found["quotient"])
    remainder = integer(found["after"] or found["before"] or "0")
    return None if quotient is None or remainder is None else Shared(quotient, remainder)


FORMS: Mapping[str, Form] = {
    "remainder": Form("Type it like 8 r 2.", read_remainder, "8 r 2", "9 r 1"),
}
