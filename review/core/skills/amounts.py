"""Fractions and decimals as they are written and as they are said.

A decimal is a whole number of its smallest place: 3.45 is (345, 2).
"""

import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from math import gcd, lcm

from review.core.model import BOX
from review.core.skills.wording import EQUALS, SIGN_WORDS, grouped, in_words

ONE_PART = {2: "half", 3: "third", 4: "quarter", 5: "fifth", 8: "eighth", 9: "ninth", 12: "twelfth",
            20: "twentieth", 100: "hundredth", 1000: "thousandth"}  # fmt: skip


# --- fractions ----------------------------------------------------------------------------------------


def part_name(under: int) -> str:
    """What one of so many equal parts is called: 4 -> "quarter", 25 -> "twenty-fifth"."""
    if under in ONE_PART:
        return ONE_PART[under]
    if 20 < under < 100 and under % 10:
        return f"{in_words(under - under % 10)}-{_last(under % 10)}"
    if 20 < under < 100:
        return in_words(under)[:-1] + "ieth"
    return _last(under)


def _last(number: int) -> str:
    """The ending of an ordinal: fifth, sixth, hundredth."""
    return {1: "first", 2: "second"}.get(number) or ONE_PART.get(number, in_words(number) + "th")


def part_names(under: int) -> str:
    """Several of them: "halves", "quarters"."""
    return "halves" if under == 2 else part_name(under) + "s"


def said(top: int, under: int) -> str:
    """3, 4 -> "three quarters"."""
    return f"{in_words(top)} {part_name(under) if top == 1 else part_names(under)}"


def said_mixed(whole: int, top: int, under: int) -> str:
    return f"{in_words(whole)} and {said(top, under)}"


def over(top: int, under: int) -> str:
    """3, 4 -> "3/4"."""
    return f"{top}/{under}"


def percent_parts(percent: int, number: int) -> int:
    """How many equal parts a percent of a number is found by: 60% of 640 is six tenths, as 10% comes first
    where tens of percent are met; of 55, which has no whole tenth, it is three fifths."""
    if percent % 10 == 0 and percent not in (50, 100) and number % 10 == 0:
        return 10
    return 100 // gcd(percent, 100)


def made_alike(a: int, b: int, c: int, d: int) -> tuple[str, ...]:
    """How a/b and c/d are written in parts of one kind: 1/2, 1/4 -> "1/2 = 2/4"."""
    common = lcm(b, d)
    return tuple(
        f"{over(top, under)} {EQUALS} {over(top * common // under, common)}"
        for top, under in ((a, b), (c, d))
        if under != common
    )


def mixed(top: int, under: int) -> str:
    """As one writes it with the wholes apart: 7, 4 -> "1 3/4"; 8, 4 -> "2"; 3, 4 -> "3/4"."""
    whole, rest = divmod(top, under)
    return " ".join([*([str(whole)] if whole or not rest else []), *([over(rest, under)] if rest else [])])


def lowest(top: int, under: int) -> str:
    value = Fraction(top, under)
    return over(value.numerator, value.denominator)


# --- decimals -----------------------------------------------------------------------------------------


def point(number: int, places: int) -> str:
    """With exactly so many places: 340, 2 -> "3.40"; thousands apart."""
    if number < 0:
        return "−" + point(-number, places)
    whole, rest = divmod(number, 10**places)
    return grouped(whole) + (f".{rest:0{places}}" if places else "")


def trimmed(number: int, places: int) -> str:
    """Without the zeros that say nothing: 340, 2 -> "3.4"."""
    while places and number % 10 == 0:
        number, places = number // 10, places - 1
    return point(number, places)


def said_point(number: int, places: int) -> str:
    """3405, 3 -> "three point four zero five"."""
    whole, _, rest = point(number, places).replace(",", "").partition(".")
    return " ".join([in_words(int(whole)), *(["point"] if rest else []), *(in_words(int(d)) for d in rest)])


PLACE_PARTS = ("ones", "tenths", "hundredths", "thousandths")


def listed(names: Sequence[object], last: str = "and") -> str:
    """2, 4 and 8."""
    words = [str(name) for name in names]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {last} {words[-1]}"


def place_count(*places: int) -> str:
    """How many decimal places numbers of a class have: "1 and 2 decimal places"."""
    several = sorted(set(places))
    return f"{listed(several)} decimal {'place' if several == [1] else 'places'}"


def places_named(*places: int) -> str:
    """The same, where "decimals" stands before it: "1 and 2 places"."""
    return place_count(*places).replace("decimal ", "")


def titled(what: str) -> Callable[[tuple[int, ...]], str]:
    """The title of a class of fractions, of its parts: "halves", "halves and thirds", "up to tenths"."""
    return lambda sizes: f"{what}, {parts_named(sizes)}"


def parts_named(sizes: Sequence[int]) -> str:
    few = listed([part_names(size) for size in sizes])
    return few if len(sizes) <= 2 else f"up to {part_names(max(sizes))}"


# --- a text of which a part is numbers ----------------------------------------------------------------

SIGN = re.compile("[" + "".join(sign for sign in SIGN_WORDS if sign != BOX) + "]")
OF_NUMBERS = re.compile(r"(?<![\w.,:/£$€-])(\d{1,3})/(\d{1,2})(?![\w-]|[.,:/]\d)", re.ASCII)
WHOLE = re.compile(r"(?<![\w.,:/£$€-])(?:\d{1,3}(?:,\d{3}){1,2}|\d{1,9})(?![\w-]|[.,:/]\d)", re.ASCII)
"""A fraction and a whole number that stand by themselves: no part of a time, a date, a decimal or a name."""


def read_out(text: str) -> str:
    """A line as one reads it out: "The half of 14 is" -> "The half of fourteen is"."""
    signs = SIGN.sub(lambda sign: f" {SIGN_WORDS[sign[0]]} ", text)
    parts = OF_NUMBERS.sub(_part_read, signs)
    return " ".join(WHOLE.sub(lambda number: in_words(int(number[0].replace(",", ""))), parts).split())


def _part_read(found: re.Match[str]) -> str:
    top, under = int(found[1]), int(found[2])
    return said(top, under) if under > 1 else found[0]
