"""Amounts in another unit: 7 m = □ cm, 700 cm = □ m, 3 m 20 cm = □ cm, 320 cm = □ m □ cm, 0.5 m = □ cm.

A class is two units and the numbers from one to another that are asked; where the answer would not be whole,
the multiples for which it is; where a step is given, its multiples. With two units on the left, the second
the one that is asked for, the first takes the range and the second what is short of one of the first, in
steps of one or as given. With two units on the right, no number comes out even. A decimal step, 0.1 or 0.01,
is one of the greater unit on either side, and then whole numbers of it are left out.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import ceil, floor, lcm
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Kind, Option, Problem, Skill, Traits
from review.core.skills.options import whole, wholes, word, yes
from review.core.skills.units import NAMES, amount, bare, factor, figure, shown, unit
from review.core.skills.wording import BOX, DIVIDED, EQUALS, MINUS, ONES, PLUS, TIMES, grouped, in_words
from review.core.skills.worked import worked

MOST = 1_000_000  # of one unit in another, and less than it asked: numbers have words up to there

TOOLS = {  # what a family has at hand that shows both units
    "Find both on a tape measure.": {"mm", "cm", "m", "in", "ft", "yd"},
    "Find both on the kitchen scales.": {"g", "kg", "oz", "lb"},
    "Find both on a measuring jug.": {"ml", "cl", "l"},
    "Find both on a clock.": {"s", "min", "h"},
    "Find both on a calendar.": {"d", "wk", "mo", "yr"},
}


# --- classes ------------------------------------------------------------------------------------------


class Class(NamedTuple):
    source: str
    target: str
    mixed: bool  # some of the smaller unit stands beside the greater one: 3 m 20 cm
    low: int
    high: int
    step: Fraction  # 0: every number that has a whole answer

    @property
    def ratio(self) -> Fraction:
        return factor(self.source, self.target)

    @property
    def apart(self) -> int:
        """How many of the smaller unit make one of the greater."""
        return int(max(self.ratio, 1 / self.ratio))

    @property
    def decimal(self) -> bool:
        return 0 < self.step < 1


def _class(key: str) -> Class:
    units, span, *step = content_of(key).split("/")
    source, _, target = units.partition(">")
    low, high = map(int, span.split(".."))
    mixed = "+" in units
    every = Fraction(step[0] if step else 0)
    return Class(source.partition("+")[0], target.partition("+")[0], mixed, low, high, every)


class Numbers(NamedTuple):
    """So many times a step, without the multiples of another number."""

    counts: range
    step: Fraction
    without: Fraction  # 0: nothing is left out

    def __contains__(self, number: object) -> bool:
        times = Fraction(str(number)) / self.step
        return times.denominator == 1 and int(times) in self.counts and self._kept(int(times))

    def _kept(self, times: int) -> bool:
        return not self.without or (times * self.step / self.without).denominator > 1

    def first(self) -> Fraction | None:
        """The least; None where there is none. No two in a row are left out, unless all are."""
        near = (times for times in self.counts[:2] if self._kept(times))
        return next((times * self.step for times in near), None)

    def any(self, random: Random) -> Fraction:
        """Each equally likely."""
        while not self._kept(times := random.choice(self.counts)):
            pass
        return times * self.step


def firsts(of: Class) -> Numbers:
    """The numbers of the unit that is given."""
    if of.decimal:
        great = of.ratio if of.ratio < 1 else Fraction(1)  # one of what is given, in the greater unit
        return _between(of.low, of.high, of.step / great, 1 / great)
    if of.mixed and of.ratio < 1:
        return _between(max(of.low, of.apart), of.high, of.step or Fraction(1), Fraction(of.apart))
    every = lcm(of.ratio.denominator, 1 if of.mixed else int(of.step) or 1)
    return _between(of.low, of.high, Fraction(every), Fraction(0))


def _between(low: int, high: int, step: Fraction, without: Fraction) -> Numbers:
    return Numbers(range(max(1, ceil(low / step)), floor(high / step) + 1), step, without)


def seconds(of: Class) -> range:
    """The numbers beside it: more than none, less than one of the unit given. Without a second unit, 0."""
    step = int(of.step) or 1
    return range(step, of.apart, step) if of.mixed and of.ratio > 1 else range(1)


def draw(key: str, random: Random) -> str:
    of = _class(key)
    first, second = bare(firsts(of).any(random)), random.choice(seconds(of))
    return f"{first}+{second}" if second else first


# --- problems -----------------------------------------------------------------------------------------


def _number_in_words(number: Fraction | int) -> str:
    """Nought point nought five is read figure by figure: zero point zero five."""
    whole, _, part = bare(number).partition(".")
    return in_words(int(whole)) + "".join(
        f"{' point' * (not place)} {ONES[int(digit)]}" for place, digit in enumerate(part)
    )


def _in_words(number: Fraction | int, symbol: str) -> str:
    return f"{_number_in_words(number)} {NAMES[symbol][number != 1]}"


def known(source: str, target: str) -> str:
    """The fact to start from, the greater unit first: 1 m = 100 cm."""
    ratio = factor(source, target)
    if ratio < 1:
        source, target, ratio = target, source, 1 / ratio
    return f"{amount(1, source)} {EQUALS} {amount(ratio, target)}"


def _calculation(number: Fraction | int, of: Class) -> str:
    sign = TIMES if of.ratio >= 1 else DIVIDED
    return f"{figure(number)} {sign} {grouped(of.apart)} {EQUALS} {figure(number * of.ratio)}"


def _question(of: Class) -> str:
    small, great = sorted((of.source, of.target), key=lambda symbol: unit(symbol).size)
    return f"How many {shown(small)} make one {shown(great)}?"


def _left(of: Class, first: Fraction | int, second: int) -> str:
    return amount(first, of.source) + (f" {amount(second, of.target)}" if second else "")


def _say(of: Class, first: Fraction | int, second: int) -> str:
    left = _in_words(first, of.source) + (f" and {_in_words(second, of.target)}" if second else "")
    many = NAMES[of.target][1] + (f" and {NAMES[of.source][1]}" if of.mixed and not second else "")
    return f"How many {many} {'is' if first == 1 and not second else 'are'} {left}?"


def _helps(of: Class, steps: Sequence[str]) -> tuple[Help, ...]:
    start = known(of.source, of.target)
    tools = [Help("build", tool) for tool, units in TOOLS.items() if {of.source, of.target} <= units]
    return Help("question", _question(of)), *tools, Help("neighbour", start), *worked(start, *steps, at=-2)


def _parted(key: str, asked: str, of: Class, first: int) -> Problem:
    """320 cm = 3 m 20 cm."""
    whole, rest = divmod(first, of.apart)
    even, left = whole * of.apart, amount(first, of.source)
    answer = f"{whole} {shown(of.target)} {rest} {shown(of.source)}"
    steps = (
        f"{amount(even, of.source)} {EQUALS} {amount(whole, of.target)}",
        f"{figure(first)} {MINUS} {figure(even)} {EQUALS} {figure(rest)}",
        f"{left} {EQUALS} {answer}",
    )
    return Problem(
        key, "convert", asked, f"{left} {EQUALS} {BOX} {shown(of.target)} {BOX} {shown(of.source)}",
        _say(of, first, 0), "mixed-quantity", answer, f"{left} makes {answer}.", _helps(of, steps),
        f"{of.target}+{of.source}",
    )  # fmt: skip


def _whole(key: str, asked: str, of: Class, first: Fraction | int, second: int) -> Problem:
    changed, left = first * of.ratio, _left(of, first, second)
    total, together = changed + second, f"{figure(changed)} {PLUS} {figure(second)}"
    closing = f"{left} {EQUALS} {amount(total, of.target)}"
    sums = [f"{together} {EQUALS} {figure(total)}"] if second else []
    return Problem(
        key, "convert", asked, f"{left} {EQUALS} {BOX} {shown(of.target)}", _say(of, first, second),
        "quantity", bare(total), f"{left} makes {amount(total, of.target)}.",
        _helps(of, (_calculation(first, of), *sums, closing)), of.target,
    )  # fmt: skip


def _numbers(key: str, asked: str) -> tuple[Class, Fraction | int, int]:
    """The class, and the two numbers of a showing; ValueError if they do not belong to it."""
    of = _class(key)
    written, _, rest = asked.partition("+")
    first, second = Fraction(written), int(rest or 0)
    if first not in firsts(of) or second not in seconds(of) or _plainly(first, second) != asked:
        raise ValueError(f"{asked} does not belong to {key}")
    return of, int(first) if first.denominator == 1 else first, second


def _plainly(first: Fraction, second: int) -> str:
    return f"{bare(first)}+{second}" if second else bare(first)


def problem(key: str, asked: str) -> Problem:
    of, first, second = _numbers(key, asked)
    if of.mixed and of.ratio < 1:
        return _parted(key, asked, of, int(first))
    return _whole(key, asked, of, first, second)


# --- what one would write under an error rule ---------------------------------------------------------


def _errors(of: Class, first: Fraction | int, second: int) -> Iterator[tuple[str, Fraction | int]]:
    up = of.ratio > 1

    def by(apart: int) -> Fraction:
        return first * Fraction(apart) + second if up else first / Fraction(apart)

    if second:
        yield "second_ignored", first * of.ratio
        yield "added", first + second
    else:
        yield "wrong_way", first / of.ratio
    if set(str(of.apart)) == {"0", "1"}:
        yield "power_large", by(of.apart * 10)
    else:
        yield "hundred", by(100)
        yield "ten", by(10)


def _parted_errors(of: Class, first: int) -> Iterator[tuple[str, str]]:
    """A hundred or ten taken for what makes one of the greater unit."""
    for rule, apart in (("hundred", 100), ("ten", 10)):
        whole, rest = divmod(first, apart)
        if whole and of.apart not in (10, 100, 1000):
            yield rule, f"{whole} {shown(of.target)} {rest} {shown(of.source)}"


def predict(key: str, asked: str) -> Mapping[str, str]:
    of, first, second = _numbers(key, asked)
    if of.mixed and of.ratio < 1:
        return dict(_parted_errors(of, int(first)))
    right = first * of.ratio + second
    return {rule: bare(value) for rule, value in _errors(of, first, second) if bare(value) != bare(right)}


# --- the kind -----------------------------------------------------------------------------------------


def keys(skill: Skill) -> Iterator[str]:
    low, high = wholes(skill, "range")
    source, target, places = word(skill, "from"), word(skill, "to"), whole(skill, "places")
    step = f"0.{'0' * (places - 1)}1" if places else str(whole(skill, "step") or "")
    if yes(skill, "mixed"):  # the smaller unit goes beside the greater one
        smaller = unit(source).size < unit(target).size
        source, target = (source, f"{target}+{source}") if smaller else (f"{source}+{target}", target)
    yield f"convert:{source}>{target}/{low}..{high}" + (f"/{step}" if step else "")


def _go_together(one: str, other: str) -> bool:
    ratio = factor(one, other)
    return unit(one).family == unit(other).family and 1 in (ratio.numerator, ratio.denominator)


def _unfit(of: Class) -> tuple[str, str, str] | None:
    """What is impossible about the units of a class, if anything."""
    partners = [name for name in NAMES if name != of.source and _go_together(of.source, name)]
    great, small = sorted((of.source, of.target), key=lambda symbol: -unit(symbol).size)
    if of.target not in partners:
        wrong = f"{of.source} and {of.target} are no two units of one system, one a multiple of the other"
        return "to", wrong, f"take from {', '.join(partners)}"
    if factor(great, small) > MOST:
        return "to", f"one {great} is more {small} than there are words for", "take a unit nearer to it"
    if of.decimal and (of.mixed or (of.step * of.apart).denominator > 1):
        wrong = (
            "two units and decimals do not go together" if of.mixed else f"parts of {small} would be needed"
        )
        return "places", wrong, "write fewer places, or leave them out"
    return None


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    of = _class(next(keys(skill)))
    unfit = _unfit(of)
    if unfit:
        yield unfit
    elif firsts(of).first() is None:
        yield "range", *_no_numbers(of)
    elif not seconds(of):
        yield "step", f"{of.step} is more than {of.apart - 1} {of.target}", "write a smaller step"


def _no_numbers(of: Class) -> tuple[str, str]:
    if of.mixed or of.decimal:
        wrong = f"every number from {of.low} to {of.high} comes out even, or is too small"
        return wrong, f"end above {of.apart if of.ratio < 1 else 1}"
    least = firsts(of._replace(low=1, high=10**9)).first()
    wrong = f"no number from {of.low} to {of.high} makes whole {NAMES[of.target][1]}"
    return wrong, f"take in {least} or a multiple of it"


def traits(key: str) -> Traits:
    of = _class(key)
    left, right = NAMES[of.source][1], NAMES[of.target][1]
    if of.mixed and of.ratio > 1:
        left = f"{left} and {right}"
    elif of.mixed:
        right = f"{right} and {left}"
    pair = "-".join(sorted((of.source, of.target)))
    groups = frozenset({f"procedure-{key}", f"convert-{pair}"})  # m to cm gives away cm to m
    title = f"{left} to {right}" + (", with decimals" if of.decimal else "")
    return Traits(title, False, 10.0 if of.mixed or of.decimal else 7.0, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "convert",
        "amounts in another unit",
        {
            "from": Option("word", "the unit that is given", choices=tuple(NAMES), example='"m"'),
            "to": Option("word", "the unit that is asked for", choices=tuple(NAMES), example='"cm"'),
            "range": Option(
                "range", "from which number to which is given", low=0, high=MOST - 1, example="[1, 20]"
            ),
            "mixed": Option(
                "yes-no",
                "with some of the smaller unit beside the greater, as in 3 m 20 cm",
                default=False,
                example="true",
            ),
            "step": Option(
                "whole",
                "only multiples of it, of the smaller unit where there are two; 0 for any",
                default=0,
                high=MOST - 1,
                example="10",
            ),
            "places": Option(
                "whole",
                "so many decimals of the greater unit, as in 0.5 m; 0 for whole numbers",
                default=0,
                high=3,
                example="1",
            ),
        },
        keys,
        traits,
        draw,
        problem,
        check,
        predict=predict,
    ),
)
