"""Amounts in another unit: 7 m = □ cm, 700 cm = □ m, 3 m 20 cm = □ cm, 320 cm = □ m □ cm, 0.5 m = □ cm.

A class is two units and the numbers from one to another that are asked; where the answer would not be whole,
the multiples for which it is; where a step is given, its multiples. With two units on the left, the second
the one that is asked for, the first takes the range and the second what is short of one of the first, in
steps of one or as given, all of it or what stands `beside`. With two units on the right, no number comes out
even. A decimal step, 0.1 or 0.01, is one of the greater unit on either side, and then whole numbers of it are
left out.

Metric units stand as their signs in an equation, all others in words; sentences have words only.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from random import Random

from review.core.model import BOX, Help, Problem, Skill, Traits
from review.core.skills.conversions import (
    LARGEST_IN_TABLES,
    Class,
    class_of,
    expected_seconds,
    firsts,
    seconds,
)
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import whole, wholes, word, yes
from review.core.skills.units import (
    NAMES,
    Name,
    amount,
    bare,
    called,
    factor,
    figure,
    short,
    shown,
    unit,
)
from review.core.skills.wording import DIVIDED, EQUALS, MINUS, ONES, PLUS, TIMES, grouped, in_words
from review.core.skills.worked import worked

COLUMNS = 40  # of the screen a child reads
MOST = 1_000_000  # of one unit in another, and less than it asked: numbers have words up to there

TOOLS = {  # what a family has at hand that shows both units
    "Find both on a tape measure.": {"mm", "cm", "m", "in", "ft", "yd"},
    "Find both on the kitchen scales.": {"g", "kg", "oz", "lb"},
    "Find both on a measuring jug.": {"ml", "cl", "l"},
    "Find both on a clock.": {"s", "min", "h"},
    "Find both on a calendar.": {"d", "wk", "mo", "yr"},
}


# --- a showing ----------------------------------------------------------------------------------------


def draw(key: str, random: Random) -> str:
    of = class_of(key)
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
    return f"{_number_in_words(number)} {called(symbol, number)}"


def known(source: str, target: str, times: int = 1, name: Name = shown) -> str:
    """The fact to start from, the greater unit first, or twice it: 1 m = 100 cm."""
    ratio = factor(source, target)
    if ratio < 1:
        source, target, ratio = target, source, 1 / ratio
    return f"{amount(times, source, name)} {EQUALS} {amount(times * ratio, target, name)}"


def _on_lines(text: str, before: str) -> str:
    """On two lines, where one has no room for it."""
    return text if len(text) <= COLUMNS else text.replace(f" {before} ", f"\n{before} ", 1)


def _calculation(number: Fraction | int, of: Class) -> str:
    sign = TIMES if of.ratio >= 1 else DIVIDED
    return f"{figure(number)} {sign} {grouped(of.apart)} {EQUALS} {figure(number * of.ratio)}"


def _calculations(number: Fraction | int, of: Class) -> tuple[str, ...]:
    """Times a number beyond the tables in two parts: 7 × 24 as 7 × 20 and 7 × 4."""
    tens, ones = of.apart // 10 * 10, of.apart % 10
    if of.ratio < 1 or of.apart <= LARGEST_IN_TABLES or not ones or number % 10 == 0:
        return (_calculation(number, of),)
    parts = [f"{figure(number)} {TIMES} {part} {EQUALS} {figure(number * part)}" for part in (tens, ones)]
    both = f"{figure(number * tens)} {PLUS} {figure(number * ones)} {EQUALS} {figure(number * of.apart)}"
    return *parts, both


def _amounts(first: tuple[Fraction | int, str], second: tuple[int, str], name: Name) -> str:
    """3 m 20 cm; without the second, where there is none of it."""
    return " ".join(amount(number, symbol, name) for number, symbol in (first, second)[: 1 + bool(second[0])])


def _told(left: str, right: str, one: bool) -> str:
    return _on_lines(f"{left} {'makes' if one else 'make'} {right}.", "makes" if one else "make")


def _say(of: Class, first: Fraction | int, second: int) -> str:
    left = _in_words(first, of.source) + (f" and {_in_words(second, of.target)}" if second else "")
    many = called(of.target) + (f" and {called(of.source)}" if of.mixed and not second else "")
    return f"How many {many} {'is' if first == 1 and not second else 'are'} {left}?"


def _tools(of: Class) -> list[Help]:
    return [Help("build", tool) for tool, units in TOOLS.items() if {of.source, of.target} <= units]


def _helps(of: Class, name: Name, steps: Sequence[str]) -> tuple[Help, ...]:
    small, great = sorted((of.source, of.target), key=lambda symbol: unit(symbol).size)
    question = _on_lines(f"How many {called(small)} make one {called(great, 1)}?", "make")
    start = known(of.source, of.target, name=name)
    return Help("question", question), *_tools(of), Help("neighbour", start), *worked(start, *steps, at=-2)


def _one_helps(of: Class, name: Name, first: Fraction | int) -> tuple[Help, ...]:
    """Where the fact to start from is the answer itself, half of twice as much leads to it; where two are
    asked for, twice the half."""
    up = of.ratio > 1
    if up and of.apart == 2:
        near, take = f"half a {called(of.source, 1)}", "Take that twice."
        start = f"half a {name(of.source, 1)} {EQUALS} {amount(1, of.target, name)}"
        calculation = f"1 {PLUS} 1 {EQUALS} 2"
    else:
        near, take = f"{'two' if up else figure(2 * first)} {called(of.source)}", "Take half of that."
        start, twice = known(of.source, of.target, 2, name), 2 * first * of.ratio
        calculation = f"{figure(twice)} {DIVIDED} 2 {EQUALS} {figure(first * of.ratio)}"
    closing = f"{amount(first, of.source, name)} {EQUALS} {amount(first * of.ratio, of.target, name)}"
    asks = Help("question", _on_lines(f"How many {called(of.target)} are {near}?", "are") + f"\n{take}")
    return asks, *_tools(of), Help("neighbour", start), *worked(start, calculation, closing, at=-2)


def _parted(key: str, asked: str, of: Class, first: int, name: Name) -> Problem:
    """320 cm = 3 m 20 cm."""
    whole, rest = divmod(first, of.apart)
    even, left = whole * of.apart, amount(first, of.source, name)
    parts = (whole, of.target), (rest, of.source)
    answer = _amounts(*parts, name)
    steps = (
        *([f"{amount(even, of.source, name)} {EQUALS} {amount(whole, of.target, name)}"] * (whole > 1)),
        f"{figure(first)} {MINUS} {figure(even)} {EQUALS} {figure(rest)}",
        f"{left} {EQUALS} {answer}",
    )
    boxes = " ".join(f"{BOX} {name(symbol, 2)}" for symbol in (of.target, of.source))
    told = _told(amount(first, of.source, called), _amounts(*parts, called), False)
    return Problem(
        key, "convert", asked, f"{left} {EQUALS} {boxes}", _say(of, first, 0), "mixed-quantity", answer,
        told, _helps(of, name, steps), f"{of.target}+{of.source}",
    )  # fmt: skip


def _whole(key: str, asked: str, of: Class, first: Fraction | int, second: int, name: Name) -> Problem:
    changed, parts = first * of.ratio, ((first, of.source), (second, of.target))
    total, left = changed + second, _amounts(*parts, name)
    together = f"{figure(changed)} {PLUS} {figure(second)} {EQUALS} {figure(total)}"
    closing = f"{left} {EQUALS} {amount(total, of.target, name)}"
    if {first, changed} == {1, of.apart} and not second:
        helps = _one_helps(of, name, first)
    elif second:
        helps = _helps(of, name, (*([_calculation(first, of)] * (first != 1)), together, closing))
    else:
        helps = _helps(of, name, (*_calculations(first, of), closing))
    told = _told(_amounts(*parts, called), amount(total, of.target, called), first == 1 and not second)
    return Problem(
        key, "convert", asked, f"{left} {EQUALS} {BOX} {name(of.target, 2)}", _say(of, first, second),
        "quantity", bare(total), told, helps, of.target,
    )  # fmt: skip


def _numbers(key: str, asked: str) -> tuple[Class, Fraction | int, int]:
    """The class, and the two numbers of a showing; ValueError if they do not belong to it."""
    of = class_of(key)
    written, _, rest = asked.partition("+")
    first, second = Fraction(written), int(rest or 0)
    if first not in firsts(of) or second not in seconds(of) or _plainly(first, second) != asked:
        raise ValueError(f"{asked} does not belong to {key}")
    return of, int(first) if first.denominator == 1 else first, second


def _plainly(first: Fraction, second: int) -> str:
    return f"{bare(first)}+{second}" if second else bare(first)


def _worded(key: str, asked: str, name: Name) -> Problem:
    of, first, second = _numbers(key, asked)
    if of.mixed and of.ratio < 1:
        return _parted(key, asked, of, int(first), name)
    return _whole(key, asked, of, first, second, name)


def _fits(problem: Problem) -> bool:
    helps = "\n".join(help.text for help in problem.helps)
    return max(map(len, (problem.prompt, *helps.split("\n")))) <= COLUMNS


def problem(key: str, asked: str) -> Problem:
    """In words, unless a line would be too long for a child's screen."""
    found = _worded(key, asked, shown)
    return found if _fits(found) else _worded(key, asked, short)


# --- what one would write under an error rule ---------------------------------------------------------


def _errors(of: Class, first: Fraction | int, second: int) -> Iterator[tuple[str, Fraction | int]]:
    up = of.ratio > 1

    def by(apart: int) -> Fraction:
        return first * Fraction(apart) + second if up else first / Fraction(apart)

    if second:
        yield "second_ignored", first * of.ratio
        yield "added", first + second
        yield from _zero_errors(of, int(first), second)
    else:
        yield "wrong_way", first / of.ratio
    if set(str(of.apart)) == {"0", "1"}:
        yield "power_large", by(of.apart * 10)
    else:
        yield "hundred", by(100)
        yield "ten", by(10)


def _zero_errors(of: Class, first: int, second: int) -> Iterator[tuple[str, int]]:
    """3 m 5 cm as 35 and as 350 cm: no nought holds the empty place, or it stands behind."""
    places = len(str(of.apart)) - 1
    if of.apart == 10**places and len(str(second)) < places:
        yield "zero_dropped", int(f"{first}{second}")
        yield "zero_behind", int(f"{first}{second}".ljust(len(str(first)) + places, "0"))


def _parted_errors(of: Class, first: int) -> Iterator[tuple[str, str]]:
    """A hundred or ten taken for what makes one of the greater unit."""
    for rule, apart in (("hundred", 100), ("ten", 10)):
        whole, rest = divmod(first, apart)
        if whole and of.apart not in (10, 100, 1000):
            yield rule, _amounts((whole, of.target), (rest, of.source), shown)


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
    beside = "..".join(map(str, wholes(skill, "beside")))
    yield f"convert:{source}>{target}/{low}..{high}" + "".join(f"/{part}" for part in (step, beside) if part)


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
    of = class_of(next(keys(skill)))
    unfit = _unfit(of)
    if unfit:
        yield unfit
    elif firsts(of).first() is None:
        yield "range", *_no_numbers(of)
    elif of.beside and (not of.mixed or of.ratio < 1):
        wrong = "no smaller unit stands beside the greater one here"
        yield "beside", wrong, "leave it out, or write mixed = true with the greater unit in from"
    elif not seconds(of):
        yield _nothing_beside(of)


def _nothing_beside(of: Class) -> tuple[str, str, str]:
    most = of.apart - 1
    if of.beside is None or of.step > most:
        return "step", f"{of.step} is more than {most} {of.target}", "write a smaller step"
    low, high = of.beside
    step = int(of.step) or 1
    return "beside", f"no number from {low} to {high} fits", f"take from {step} to {most // step * step}"


def _no_numbers(of: Class) -> tuple[str, str]:
    if of.mixed or of.decimal:
        wrong = f"every number from {of.low} to {of.high} comes out even, or is too small"
        return wrong, f"end above {of.apart if of.ratio < 1 else 1}"
    least = firsts(of._replace(low=1, high=10**9)).first()
    wrong = f"no number from {of.low} to {of.high} makes whole {NAMES[of.target][1]}"
    return wrong, f"take in {least} or a multiple of it"


PARTS = {10: "tenths", 100: "hundredths", 1000: "thousandths"}


def traits(key: str) -> Traits:
    of = class_of(key)
    left, right = NAMES[of.source][1], NAMES[of.target][1]
    if of.mixed and of.ratio > 1:
        few = "{} to {} ".format(*of.beside) if of.beside else ""
        left = f"{left} and {few}{right}"
    elif of.mixed:
        right = f"{right} and {left}"
    pair = "-".join(sorted((of.source, of.target)))
    groups = frozenset({f"procedure-{key}", f"convert-{pair}"})  # m to cm gives away cm to m
    title = f"{left} to {right}" + (f", with {PARTS[of.step.denominator]}" if of.decimal else "")
    return Traits(title, False, expected_seconds(of), groups)


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
            "beside": Option(
                "range",
                "of mixed: from which number to which stands beside the greater unit; any if left out",
                default=(),
                low=1,
                high=MOST - 1,
                example="[1, 9]",
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
