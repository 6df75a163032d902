"""Problems of a parent's own with letters for numbers: what is shown, what is the answer, which numbers fit.

A class is every choice of numbers from the letters' ranges for which the condition holds and the answer is a
number one can type. Each is equally likely: numbers are drawn until some fit. Classes of up to `LISTED`
choices are looked through whole before they are taken; of larger ones `SAMPLED` are, and one in a hundred
must fit, so that drawing never goes on for ever.

The whole template stands in the key: a mended answer is a new card, with no memory of the old one. Behind the
answer stands, after ~, the form it is written in, where that is not a plain number: a%2Fb~fraction.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
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
from review.core.model import Help, Kind, Option, Problem, Skill, Traits
from review.core.skills.amounts import mixed
from review.core.skills.options import word
from review.core.skills.template_lines import (
    MOST,
    SHOWN,
    Values,
    barred,
    plain,
    shown_tokens,
    spoken,
    written,
)
from review.core.skills.wording import BOX, EQUALS, MINUS, as_title, grouped, in_words

LISTED = 1000  # choices; our judgement: looked through in a few milliseconds
SAMPLED = 300  # likewise
FIT = 3  # of `SAMPLED`, at least
TRIES = 5000  # where one in a hundred fits, all fail once in 10^21 showings
WIDEST = 40  # columns of the screen a child reads
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
    def names(self) -> frozenset[str]:
        return frozenset(name for name, _ in self.letters)

    @property
    def choices(self) -> int:
        return prod(len(span) for _, span in self.letters)


# --- a template as a key ------------------------------------------------------------------------------


def _show(skill: Skill) -> tuple[str, ...]:
    show = skill.options["show"]
    return (show,) if isinstance(show, str) else tuple(filter(None, cast(Iterable[str], show)))


def _letters(skill: Skill) -> tuple[tuple[str, range], ...]:
    written = cast(Iterable[tuple[str, tuple[int, int]]], skill.options["letters"])
    return tuple((name, range(low, high + 1)) for name, (low, high) in written)


def _key(skill: Skill, answer: str, where: str) -> str:
    show, form = _show(skill), word(skill, "as")
    parts = show if len(show) > 1 else ("".join(_spaced_tokens(show[0], form != "number")),)
    spans = ",".join(f"{name}={span[0]}..{span[-1]}" for name, span in _letters(skill))
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


def _holds(of: Template, values: Values) -> bool:
    try:
        return of.where is None or of.where.holds(values)
    except ArithmeticError:
        return False


def _answer(of: Template, values: Values) -> str:
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
    return _holds(of, values) and _answer(of, values) != ""


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


def _values(of: Template, asked: str) -> Values:
    found = {name: int(number) for name, number in (part.split("=") for part in asked.split(","))}
    inside = [*found] == [name for name, _ in of.letters] and all(
        found[name] in span for name, span in of.letters
    )
    if not (inside and _asked(found) == asked and _fits(of, found)):
        raise ValueError(f"{asked} does not belong to the template")
    return found


# --- what is shown ------------------------------------------------------------------------------------


def prompt(of: Template, values: Values) -> str:
    """It ends where the answer goes: a sum with =, unless a box says where."""
    if len(of.show) == 1:
        text = written(shown_tokens(of.show[0], of.bars), values, of.bars)
        return text if BOX in text or text.endswith(EQUALS) else f"{text} {EQUALS}"
    text = _spaced(grouped(values[part]) if part in values else part for part in of.show)
    return text.replace(" / ", "/") if of.bars else text


def _spaced(parts: Iterable[str]) -> str:
    return re.sub(r" (?=[.,:;?!])", "", " ".join(parts))


def _say(of: Template, values: Values) -> str:
    if len(of.show) > 1 and of.bars:
        return _spaced([spoken(of.show, values, True)])
    if len(of.show) > 1:
        return _spaced(in_words(values[part]) if part in values else part for part in of.show)
    return spoken(shown_tokens(of.show[0], of.bars), values, of.bars)


def _told(line: str, answer: str) -> str:
    if BOX in line:
        whole = line.replace(BOX, answer)
    elif line.endswith(EQUALS):
        whole = f"{line.removesuffix(EQUALS)}makes {answer}."
    else:
        whole = f"{line} {answer}" if line.endswith(("?", ":")) else ""
    return whole if whole and len(whole) <= WIDEST else f"It is {answer}."


def _helps(of: Template, values: Values, line: str, answer: str) -> tuple[Help, ...]:
    """The sum that makes the answer; a blank of it only where the prompt is not that sum already."""
    tokens = barred(of.answer.tokens) if of.bars else of.answer.tokens
    calculation = written(tokens, values, of.bars)
    step = f"{calculation} {EQUALS} {answer}"
    plain_sum = len(tokens) > 1 and not {"//", "%"} & set(tokens) and calculation != answer
    if not plain_sum or len(step) > WIDEST:
        return (Help("steps", _told(line, answer)),)
    steps = Help("steps", step)
    echo = f"{calculation} {EQUALS}" == line
    return (steps,) if echo else (Help("blank", f"{calculation} {EQUALS} {BOX}"), steps)


def problem(key: str, asked: str) -> Problem:
    of = template(key)
    values = _values(of, asked)
    line, typed = prompt(of, values), _answer(of, values)
    answer = typed.replace("-", MINUS)
    form = of.form or ("whole" if of.answer.whole else "quantity")
    told, helps = _told(line, answer), _helps(of, values, line, answer)
    return Problem(key, "template", asked, line, _say(of, values), form, typed, told, helps)


def traits(key: str) -> Traits:
    of = template(key)
    letters = (
        _spaced(of.show) if len(of.show) > 1 else written(shown_tokens(of.show[0], of.bars), {}, of.bars)
    )
    reading, reckoning = 0.5 * len(letters.split()), 1.5 * len(of.answer.tokens)
    return Traits(
        as_title(letters), False, min(30.0, 3.0 + reading + reckoning), frozenset({f"procedure-{key}"})
    )


# --- what cannot be -----------------------------------------------------------------------------------


def check(skill: Skill) -> Iterable[tuple[str, str, str]]:
    """Of texts that can be read, only then of the numbers."""
    readable = [*_unreadable(skill)]
    if readable:
        return readable
    (key,) = keys(skill)
    of = template(key)
    return [*_strangers(of)] or [*_misfits(of)]


def _unreadable(skill: Skill) -> Iterator[tuple[str, str, str]]:
    reads = {"answer": expression(word(skill, "answer"))}
    where = condition(word(skill, "where")) if word(skill, "where") else None
    for name, found in (*reads.items(), ("where", where)):
        if isinstance(found, Refusal):
            yield name, f"the {'answer' if name == 'answer' else 'condition'}: {found.wrong}", found.instead
    show = _show(skill)
    if len(show) == 1:
        bars = word(skill, "as") != "number"
        yield from (("show", wrong, instead) for wrong, instead in _unshowable(show[0], bars))


def _unshowable(text: str, bars: bool) -> Iterator[tuple[str, str]]:
    rest = SHOWN.sub("", plain(text, bars)).split()
    words = [token for token in shown_tokens(text, bars) if token.isalpha() and len(token) > 1]
    if rest or words:
        found = (rest or words)[0][:20]
        yield (
            f"“{found}” cannot stand in a sum",
            'write words and letters as a list, like ["Double", "a", ":"]',
        )


def _strangers(of: Template) -> Iterator[tuple[str, str, str]]:
    """Letters without a range, ranges without a use, nothing that ever changes."""
    shown = set(shown_tokens(of.show[0], of.bars)) if len(of.show) == 1 else set(of.show)
    shown_letters = {part for part in shown if len(part) == 1 and part.isalpha() and part.islower()}
    where = of.where.letters if of.where else frozenset()
    uses = {"answer": of.answer.letters, "where": where}
    if len(of.show) == 1:
        uses["show"] = frozenset(shown_letters)
    for option, letters in uses.items():
        for letter in sorted(letters - of.names):
            yield option, f"the letter {letter} has no range", f"add {letter} = [1, 10] to the letters"
    for letter in sorted(of.names - of.answer.letters - where - shown_letters):
        yield "letters", f"the letter {letter} is used nowhere", "take it out"
    if not of.names & shown_letters:
        yield "show", "it shows no letter, so it would always look alike", 'show one, like "a + b"'


def _misfits(of: Template) -> Iterator[tuple[str, str, str]]:
    held = [values for values in looked_at(of) if _holds(of, values)]
    least = 1 if of.choices <= LISTED else FIT
    if len(held) < least:
        few = "no numbers" if of.choices <= LISTED else "no numbers, or hardly any,"
        yield "where", f"{few} fit the condition", "loosen it, or change the ranges of the letters"
        return
    answers = [(values, _answer(of, values)) for values in held]
    unsayable = next((values for values, answer in answers if not answer), None)
    if unsayable is not None:
        yield "answer", f"for {_named(unsayable)} it cannot be typed", _tamed(of)
        return
    yield from _two_answers(of, answers)
    widest = max(len(prompt(of, values)) for values in held)
    if widest > WIDEST:
        yield "show", f"a line of {widest} characters", f"shorten it to {WIDEST} at most"


def _named(values: Values) -> str:
    return ", ".join(f"{name} = {number}" for name, number in values.items())


def _tamed(of: Template) -> str:
    if of.form:
        return f"keep the number below the line at {MOST_UNDER} or less, and never at 0"
    if "/" in of.answer.tokens:
        return 'let it come out whole, like where = "a % b == 0"'
    return f"keep it under 1,000,000,000,000, with {PLACES} decimals at most"


def _two_answers(of: Template, answers: Iterable[tuple[Values, str]]) -> Iterator[tuple[str, str, str]]:
    seen: dict[str, str] = {}
    for values, answer in answers:
        line = prompt(of, values)
        if seen.setdefault(line, answer) != answer:
            yield "show", f"“{line}” would have two answers", "show every letter that the answer needs"
            return


# --- the kind -----------------------------------------------------------------------------------------

OPTIONS: Mapping[str, Option] = {
    "show": Option(
        "phrase",
        "what is asked: a sum with letters, or a list of words and letters",
        None,
        1,
        200,
        example='"a + b"',
    ),
    "letters": Option(
        "letters", "a range for each letter", None, -MOST, MOST, example="{ a = [1, 9], b = [1, 9] }"
    ),
    "answer": Option("word", "the answer, as a sum with the letters", None, 1, 120, example='"a + b"'),
    "as": Option(
        "word", "the answer as a number, as any equal fraction, in simplest form, or as a mixed number",
        "number", choices=tuple(WRITTEN), example='"fraction"',
    ),
    "where": Option("word", "what the numbers must fit; any if left out", "", 0, 120, example='"a > b"'),
}  # fmt: skip

KINDS: tuple[Kind, ...] = (
    Kind(
        "template",
        "problems of your own, with letters for numbers",
        OPTIONS,
        keys,
        traits,
        draw,
        problem,
        check,
    ),
)
