"""The classes of a parent's own problems: a template as a key, and which numbers belong to it.

A class is every choice of numbers from the letters' ranges for which the condition holds and the answer is a
number one can type. Each is equally likely: numbers are drawn until some fit. Classes of up to `LISTED`
choices are looked through whole before they are taken; of larger ones `SAMPLED` are, and one in a hundred
must fit, so that drawing never goes on for ever.

The whole template stands in the key: a mended answer is a new card, with no memory of the old one. Behind the
answer stands, after ~, the form it is written in, where that is not a plain number: a%2Fb~fraction.
"""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import product
from math import prod
from random import Random
from typing import NamedTuple, cast

from review.core.expressions import (
    Condition,
    Expression,
    Number,
    Refusal,
    condition,
    expression,
    joined,
)
from review.core.keys import content_of, decode, encode
from review.core.model import Skill
from review.core.skills.amounts import mixed
from review.core.skills.options import word
from review.core.skills.template_lines import (
    MOST,
    Values,
    shown_tokens,
)

LISTED = 1000  # choices; our judgement: looked through in a few milliseconds
SAMPLED = 300  # likewise
FIT = 3  # of `SAMPLED`, at least
TRIES = 5000  # where one in a hundred fits, all fail once in 10^21 showings
PLACES = 3  # decimals of an answer; our judgement
MOST_UNDER = 200  # the number below the line of an answer; our judgement: twentieths and thirds fit, and more

WRITTEN = {  # how an answer may be written -> its form; "" is whole or decimal, as it comes out
    "number": "", "fraction": "fraction", "simplest": "fraction-lowest", "mixed": "fraction-mixed",
}  # fmt: skip


class Template(NamedTuple):
    show: tuple[str, ...]  # one part: a sum; several: words and letters
    letters: tuple[tuple[str, range], ...]
    answer: Expression
    where: Condition | None
    form: str = ""  # of `WRITTEN`

    @property
    def bars(self) -> bool:
        """Whether / is the bar of a fraction."""
        return bool(self.form)

    @property
    def choices(self) -> int:
        return prod(len(span) for _, span in self.letters)


# --- a template as a key ------------------------------------------------------------------------------


def parts_of(skill: Skill) -> tuple[str, ...]:
    show = skill.options["show"]
    return (show,) if isinstance(show, str) else tuple(filter(None, cast(Iterable[str], show)))


def letters_of(skill: Skill) -> tuple[tuple[str, range], ...]:
    written = cast(Iterable[tuple[str, tuple[int, int]]], skill.options["letters"])
    return tuple((name, range(low, high + 1)) for name, (low, high) in written)


def _key(skill: Skill, answer: str, where: str) -> str:
    show, form = parts_of(skill), word(skill, "as")
    parts = show if len(show) > 1 else ("".join(_spaced_tokens(show[0], form != "number")),)
    spans = ",".join(f"{name}={span[0]}..{span[-1]}" for name, span in letters_of(skill))
    behind = f"~{form}" if form != "number" else ""
    tail = f"/{encode(where)}" if where else ""
    return f"template:{','.join(map(encode, parts))}={encode(answer)}{behind}/{spans}{tail}"


def _spaced_tokens(text: str, bars: bool) -> Iterator[str]:
    """As short as it can be read again; of a mixed number, a space between whole and part."""
    before = ""
    for token in shown_tokens(text, bars):
        yield f" {token}" if before[-1:].isalnum() and token.isalnum() and bars else token
        before = token


def keys(skill: Skill) -> Iterator[str]:
    answer, where = expression(word(skill, "answer")), condition(word(skill, "where") or "0 == 0")
    if isinstance(answer, Expression) and isinstance(where, Condition):
        told = joined(where.tokens) if word(skill, "where") else ""
        yield _key(skill, joined(answer.tokens), told)


@lru_cache(maxsize=512)
def template(key: str) -> Template:
    """ValueError where the key holds no template."""
    shown, _, rest = content_of(key).partition("=")
    answer, *tail = rest.split("/")
    answer, _, form = answer.partition("~")
    ends = [re.fullmatch(r"([a-z])=(-?\d+)\.\.(-?\d+)", span) for span in tail[0].split(",")]
    letters = tuple((end[1], range(int(end[2]), int(end[3]) + 1)) for end in ends if end)
    read, where = expression(decode(answer)), condition(decode(tail[1])) if tail[1:] else None
    if isinstance(read, Refusal) or isinstance(where, Refusal):
        raise ValueError(f"no template: {key}")
    return Template(tuple(map(decode, shown.split(","))), letters, read, where, WRITTEN[form or "number"])


# --- which numbers belong -----------------------------------------------------------------------------


def holds(of: Template, values: Values) -> bool:
    try:
        return of.where is None or of.where.holds(values)
    except ArithmeticError:
        return False


def answer_of(of: Template, values: Values) -> str:
    """As one would type it; "" where it is no number of at most `PLACES` decimals, or no fraction that is
    small enough."""
    try:
        return (_typed_fraction if of.form else _typed)(of.answer.reckon(values))
    except ArithmeticError:
        return ""


def _typed(value: Number) -> str:
    thousandths = value * 10**PLACES
    if thousandths.denominator != 1:
        return ""
    sign, (whole, rest) = "-" if value < 0 else "", divmod(abs(int(thousandths)), 10**PLACES)
    return f"{sign}{whole}" + f".{rest:0{PLACES}d}".rstrip("0").rstrip(".")


def _typed_fraction(value: Number) -> str:
    if value.denominator > MOST_UNDER or not -MOST <= value <= MOST:
        return ""
    return ("-" if value < 0 else "") + mixed(abs(value.numerator), value.denominator)


def _fits(of: Template, values: Values) -> bool:
    return holds(of, values) and answer_of(of, values) != ""


def _all(of: Template) -> Iterator[Values]:
    names = [name for name, _ in of.letters]
    for numbers in product(*(span for _, span in of.letters)):
        yield dict(zip(names, numbers, strict=True))


def _some(of: Template, random: Random) -> Values:
    return {name: random.choice(span) for name, span in of.letters}


def looked_at(of: Template) -> Iterator[Values]:
    """All choices of a small class, a sample of a large one; the same at every look."""
    if of.choices <= LISTED:
        return _all(of)
    random = Random(SAMPLED)
    return (_some(of, random) for _ in range(SAMPLED))


def draw(key: str, random: Random) -> str:
    of = template(key)
    for _ in range(TRIES):
        values = _some(of, random)
        if _fits(of, values):
            return _asked(values)
    members = [values for values in looked_at(of) if _fits(of, values)]
    if not members:
        raise ValueError(f"no numbers fit {key}")
    return _asked(random.choice(members))


def _asked(values: Values) -> str:
    return ",".join(f"{name}={number}" for name, number in values.items())


def values_of(of: Template, asked: str) -> Values:
    found = {name: int(number) for name, number in (part.split("=") for part in asked.split(","))}
    inside = [*found] == [name for name, _ in of.letters] and all(
        found[name] in span for name, span in of.letters
    )
    if not (inside and _asked(found) == asked and _fits(of, found)):
        raise ValueError(f"{asked} does not belong to the template")
    return found
