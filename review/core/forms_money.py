"""Money as it is typed: 2.35, £2.35, $2.35, 2.35 pounds, 235p, 35 c; and lists of coins.

The unit of a problem is its currency, "GBP", where a number by itself means pounds, or "GBP-minor", where it
means pence: 235 is 235 pounds or 235 pence by what was asked for, and 2.35 is always pounds. An amount in
another currency cannot be read.
"""

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from review.core.currencies import CURRENCIES, Currency
from review.core.forms import MOST_PLACES, WHOLE, Form, integer, plain

MAJOR_WORDS = {
    "£": "GBP", "gbp": "GBP", "pound": "GBP", "pounds": "GBP", "quid": "GBP",
    "$": "USD", "usd": "USD", "dollar": "USD", "dollars": "USD", "us$": "USD",
    "€": "EUR", "eur": "EUR", "euro": "EUR", "euros": "EUR",
}  # fmt: skip
MINOR_WORDS = {
    **dict.fromkeys(("p", "pence", "penny", "pennies"), ("GBP",)),
    **dict.fromkeys(("c", "ct", "cts", "cent", "cents", "¢"), ("USD", "EUR")),
}
WIDE = str.maketrans({"\uffe1": "£", "\uff04": "$", "\uffe0": "¢", "\uff05": "%"})  # full-width signs


def _either(words: Mapping[str, object]) -> str:
    return "|".join(sorted(map(re.escape, words), key=len, reverse=True))


MAJOR, MINOR = _either(MAJOR_WORDS), _either(MINOR_WORDS)
POINT = rf"\.(?P<part>\d{{1,{MOST_PLACES}}})|,(?P<comma>\d\d)"  # 2,35 can be nothing else; 2,350 is thousands
NUMBER = rf"(?:(?P<whole>{WHOLE})(?:{POINT})?|\.(?P<only>\d{{1,{MOST_PLACES}}}))"
ONE = re.compile(rf"(?P<before>{MAJOR})? ?{NUMBER} ?(?P<after>{MAJOR}|{MINOR})?", re.ASCII)
TWO = re.compile(
    rf"(?P<before>{MAJOR})? ?(?P<major>\d{{1,9}}) ?(?P<after>{MAJOR})?,? ?(?:and )?"
    rf"(?P<cents>\d{{1,2}}) ?(?P<minor>{MINOR})?",
    re.ASCII,
)


class Money(NamedTuple):
    major: Fraction  # pounds, dollars, euros


def _written(text: str) -> str:
    return plain(text.translate(WIDE)).casefold().rstrip(". ")


def _fits(words: tuple[str | None, ...], currency: str) -> bool:
    """Whether the signs and names of an amount agree with each other and with the currency that is meant."""
    meant = {currency} if currency else set(CURRENCIES)
    for word in filter(None, words):
        meant &= {MAJOR_WORDS[word]} if word in MAJOR_WORDS else set(MINOR_WORDS[word])
    return bool(meant)


def read_money(text: str, unit: str = "") -> Money | None:
    currency, _, minor = unit.partition("-")
    written = _written(text)
    if one := ONE.fullmatch(written):
        return _one(one, currency, bool(minor))
    two = TWO.fullmatch(written)
    return _two(two, currency) if two else None


def _one(found: re.Match[str], currency: str, minor: bool) -> Money | None:
    """£2.35, 2.35 pounds, 235p, or a number by itself."""
    before, after = found["before"], found["after"]
    if (before and after) or not _fits((before, after), currency):
        return None
    whole, part = integer(found["whole"] or "0"), found["part"] or found["comma"] or found["only"] or ""
    if whole is None:
        return None
    amount = whole + Fraction(int(part or "0"), 10 ** len(part))
    in_minor = after in MINOR_WORDS if before or after else minor and not part
    return Money(amount / 100 if in_minor else amount)


def _two(found: re.Match[str], currency: str) -> Money | None:
    """£2 35p, 2 pounds 35, 2 dollars and 35 cents: at least one part says what it is."""
    words = (found["before"], found["after"], found["minor"])
    named = bool(found["before"]) != bool(found["after"])
    if not named or not _fits(words, currency):
        return None
    return Money(Fraction(int(found["major"]) * 100 + int(found["cents"]), 100))


# --- coins --------------------------------------------------------------------------------------------


class Coins(NamedTuple):
    total: int  # in the minor unit


MOST_COINS = 60  # our judgement
APART = re.compile(r" ?[,;+&] ?| and | ")
NAMED = re.compile(r"(?:(\d{1,2}) ?|a )?([a-z]+(?: dollar)?)")
CALLED = {"pennies": "penny", "half dollars": "half dollar"}


def read_coins(text: str, unit: str = "") -> Coins | None:
    """20 10 5 2, 20p + 10p, £1 and 50p, 2 dimes and a penny: each must be a coin or note there is."""
    currency = CURRENCIES.get(unit.partition("-")[0], CURRENCIES["GBP"])
    written = re.sub(r"(?<=\d) (?=(?:p|c|pence|cents?)\b)|(?<=[£$€]) ", "", _written(text))
    values = [_coins(part, currency) for part in _parts(written, currency)]
    found = [value for value in values if value is not None]
    return Coins(sum(found)) if values and len(found) == len(values) <= MOST_COINS else None


def _parts(written: str, currency: Currency) -> list[str]:
    """Where coins have names, a number belongs to the name behind it."""
    if not currency.coin_names:
        return APART.split(written)
    joined = re.sub(r"(\d|\ba|half) (?=[a-z])(?!and\b)", r"\1_", written)
    return [part.replace("_", " ") for part in APART.split(joined)]


def _coins(part: str, currency: Currency) -> int | None:
    named = NAMED.fullmatch(part)
    worth = currency.coin_names.get(CALLED.get(named[2], named[2].removesuffix("s"))) if named else None
    if named and worth:
        return worth * int(named[1] or 1)
    found = re.fullmatch(rf"([{currency.sign}])?(\d{{1,5}})({MINOR})?", part, re.ASCII)
    if not found or (found[1] and found[3]) or (found[3] and found[3][0] not in (currency.minor, "¢")):
        return None
    value = int(found[2]) * (100 if found[1] else 1)
    return value if value in (*currency.coins, *currency.notes, *currency.seldom) else None


FORMS: Mapping[str, Form] = {
    "money": Form("Type money, like 2.35.", read_money, "2.35", "4.20"),
    "coins": Form("Type each coin, like 10 5 5.", read_coins, "10 5 5", "20 10"),
}
