"""How the sums of a template are written and said, with numbers in place of letters.

Where a set answers in fractions, / is the bar of one, so that a/b is shown as 3/4, and n a/b as 2 3/4; ÷ is
written for a division. Elsewhere both are a division.
"""

import re
from collections.abc import Iterator, Mapping, Sequence

from review.core.expressions import STANDS_FOR
from review.core.model import BOX
from review.core.skills.amounts import said
from review.core.skills.wording import DIVIDED, EQUALS, MINUS, PLUS, SIGN_WORDS, TIMES, grouped, in_words

SHOWN = re.compile(r"\d+(?:\.\d+)?|[a-z]+|[-+*/÷()=<>_]", re.ASCII)
PRETTY = {"*": TIMES, "+": PLUS, "-": MINUS, "_": BOX, "==": EQUALS, "=": EQUALS}
DIVIDING = {**PRETTY, "/": DIVIDED}
BRACKETS = {"(": "open bracket", ")": "close bracket"}
BARRED = str.maketrans({chr(sign): to for sign, to in STANDS_FOR.items() if chr(sign) != DIVIDED})
MOST = 999_999  # numbers beyond have no words here

Values = Mapping[str, int]


def plain(text: str, bars: bool) -> str:
    """Signs as they are typed; ÷ stays where / is a bar."""
    return text.translate(BARRED if bars else STANDS_FOR).replace(BOX, "_")


def shown_tokens(text: str, bars: bool = False) -> list[str]:
    return SHOWN.findall(plain(text, bars))


def barred(tokens: Sequence[str]) -> list[str]:
    """The divisions of an answer as bars and as ÷: a / b / c is a/b ÷ c, and (a + b) / c has no bar."""
    found: list[str] = []
    for at, token in enumerate(tokens):
        before, after = (tokens[at - 1] if at else "", tokens[at + 1] if at + 1 < len(tokens) else "")
        bar = before.isalnum() and after.isalnum() and found[-2:-1] not in (["/"], [DIVIDED])
        found.append(DIVIDED if token == "/" and not bar else token)
    return found


def written(tokens: Sequence[str], values: Values, bars: bool = False) -> str:
    """Each letter as its number, each sign as it is printed."""
    signs = PRETTY if bars else DIVIDING
    parts = (grouped(values[token]) if token in values else signs.get(token, token) for token in tokens)
    text = " ".join(parts).replace("( ", "(").replace(" )", ")")
    return text.replace(" / ", "/") if bars else text


def spoken(tokens: Sequence[str], values: Values, bars: bool = False) -> str:
    return " ".join(_spoken(tokens, values, bars))


def _spoken(tokens: Sequence[str], values: Values, bars: bool) -> Iterator[str]:
    """Three over four is said as three quarters, 2 3/4 as two and three quarters."""
    numbers = [*(_number(token, values) for token in tokens), None, None]
    skip = 0
    for at, token in enumerate(tokens):
        if at < skip:
            continue
        top, under = numbers[at], numbers[at + 2] if bars and [*tokens[at + 1 : at + 2]] == ["/"] else None
        if at and numbers[at - 1] is not None and top is not None:
            yield "and"
        if top is not None and under is not None and 2 <= under <= 100:
            yield said(top, under)
            skip = at + 3
        else:
            yield _spoken_part(token, top, bars)


def _number(token: str, values: Values) -> int | None:
    if token in values:
        return values[token]
    return int(token) if token.isdecimal() and int(token) <= MOST else None


def _spoken_part(token: str, number: int | None, bars: bool) -> str:
    if number is not None:
        return in_words(number)
    sign = "over" if bars and token == "/" else DIVIDING.get(token, token)
    return BRACKETS.get(token, SIGN_WORDS.get(sign, sign))
