"""Facts: sums, differences, products, quotients, bonds, doubles, halves: options, cards, problems."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from review.core.keys import content_of, kind_of
from review.core.model import BOX, Problem, Skill, Way
from review.core.skills.bond_ways import BOND
from review.core.skills.doubled_ways import DOUBLE, HALF
from review.core.skills.fact_cards import RULES, belongs, draw, is_open, numbers, traits
from review.core.skills.fact_help import (
    bond_hints,
    difference_hints,
    double_hints,
    half_hints,
    sum_hints,
)
from review.core.skills.fact_ways import DIFFERENCE, SUM
from review.core.skills.hints import Hints, helps
from review.core.skills.hints import ways as ways_of
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import whole, wholes, words, yes
from review.core.skills.table_help import product_hints, quotient_hints, rule_hints
from review.core.skills.table_ways import QUOTIENT, product_ways
from review.core.skills.unknowns import asked_before, contents, open_problem, predict, undone
from review.core.skills.wording import DIVIDED, EQUALS, MINUS, PLUS, TIMES, grouped, in_words, spoken

LARGEST_TOTAL = 24  # 12 + 12; larger sums are no facts (our judgement)
LARGEST_FACTOR = 20  # our judgement


def _once(keys: Iterable[str]) -> Iterator[str]:
    yield from dict.fromkeys(keys)


def _range(skill: Skill, name: str) -> range:
    low, high = wholes(skill, name)
    return range(low, high + 1)


# --- what is shown ------------------------------------------------------------------------------------


def _shown(key: str, asked: str) -> str:
    """ValueError if the card has no such showing."""
    if not belongs(key, asked):
        raise ValueError(f"{asked!r} does not belong to {key!r}")
    return asked


def _belongs(key: str, asked: str) -> tuple[int, int]:
    """The numbers of a showing; ValueError if the card has no such showing."""
    return numbers(_shown(key, asked))


def _fact(key: str, asked: str, sign: str, answer: int, hints: Hints) -> Problem:
    left, right = numbers(asked)
    return Problem(
        card=key,
        kind=key.partition(":")[0],
        asked=asked,
        prompt=f"{left} {sign} {right} {EQUALS}",
        say=spoken(left, sign, right),
        form="whole",
        expected=str(answer),
        told=f"{left} {sign} {right} {'leaves' if sign == MINUS else 'makes'} {answer}.",
        helps=helps(hints),
    )


def _rule(key: str, left: int, right: int) -> Hints:
    """The number that varies is the larger one: 0 and 1 are the rule's own."""
    return rule_hints(content_of(key), max(left, right))


def _sum(key: str, asked: str) -> Problem:
    if is_open(key):
        return open_problem(key, _shown(key, asked))
    left, right = _belongs(key, asked)
    hints = _rule(key, left, right) if key in RULES else sum_hints(left, right)
    return _fact(key, asked, PLUS, left + right, hints)


def _difference(key: str, asked: str) -> Problem:
    if is_open(key):
        return open_problem(key, _shown(key, asked))
    total, part = _belongs(key, asked)
    hints = _rule(key, total, part) if key in RULES else difference_hints(total, part)
    return _fact(key, asked, MINUS, total - part, hints)


def _product(key: str, asked: str) -> Problem:
    if is_open(key):
        return open_problem(key, _shown(key, asked))
    left, right = _belongs(key, asked)
    hints = _rule(key, left, right) if key in RULES else product_hints(left, right)
    return _fact(key, asked, TIMES, left * right, hints)


def _quotient(key: str, asked: str) -> Problem:
    if is_open(key):
        return open_problem(key, _shown(key, asked))
    dividend, divisor = _belongs(key, asked)
    hints = _rule(key, dividend, divisor) if key in RULES else quotient_hints(dividend, divisor)
    return _fact(key, asked, DIVIDED, dividend // divisor, hints)


def _bond(key: str, asked: str) -> Problem:
    total, known = _belongs(key, asked)
    missing = total - known
    first = asked.endswith("_")
    parts = (known, PLUS, BOX) if first else (BOX, PLUS, known)
    return Problem(
        card=key,
        kind="bond",
        asked=asked,
        prompt=f"{grouped(total)} {EQUALS} {parts[0]} {parts[1]} {parts[2]}",
        say=f"{in_words(total)} is {spoken(*parts)}",
        form="whole",
        expected=str(missing),
        told=f"{grouped(known)} and {grouped(missing)} make {grouped(total)}.",
        helps=helps(bond_hints(total, known)),
    )


def _double(key: str, asked: str) -> Problem:
    number, _ = _belongs(key, asked)
    return _in_words(
        key, asked, f"Double {number}", f"double {in_words(number)}", 2 * number, double_hints(number)
    )


def _half(key: str, asked: str) -> Problem:
    number, _ = _belongs(key, asked)
    return _in_words(
        key, asked, f"Half of {number}", f"half of {in_words(number)}", number // 2, half_hints(number)
    )


def _in_words(key: str, asked: str, text: str, say: str, answer: int, hints: Hints) -> Problem:
    return Problem(
        card=key,
        kind=key.partition(":")[0],
        asked=asked,
        prompt=f"{text} is",
        say=say,
        form="whole",
        expected=str(answer),
        told=f"{text} is {answer}.",
        helps=helps(hints),
    )


# --- ways of working it out ----------------------------------------------------------------------------


def ways(key: str, asked: str) -> Sequence[Way]:
    """None of a rule, nor of nothing as a part. Of a fact with a number missing those of the operation that
    undoes."""
    if key in RULES:
        return ()
    kind, left, right = undone(kind_of(key), _shown(key, asked))
    found = WAYS[kind](left, right)
    return asked_before(found) if key.startswith("difference:_") else found


def _bond_ways(whole: int, known: int) -> Sequence[Way]:
    return ways_of(BOND, whole, known) if 0 < known < whole else ()


WAYS: Mapping[str, Callable[[int, int], Sequence[Way]]] = {
    "sum": lambda left, right: ways_of(SUM, min(left, right), max(left, right)),
    "difference": lambda whole, part: ways_of(DIFFERENCE, whole, part),
    "product": product_ways,
    "quotient": lambda dividend, divisor: ways_of(QUOTIENT, dividend, divisor),
    "bond": _bond_ways,
    "double": lambda number, _: ways_of(DOUBLE, number),
    "half": lambda number, _: ways_of(HALF, number),
}


# --- the cards of a skill -----------------------------------------------------------------------------


def _sum_pairs(skill: Skill) -> Iterator[tuple[int, int]]:
    """Smaller number first, by total; what the options allow."""
    addends, total, apart = (_range(skill, name) for name in ("addends", "total", "apart"))
    named = set(wholes(skill, "one_of"))
    pairs = [(small, large) for large in addends for small in addends if small <= large]
    for small, large in sorted(pairs, key=lambda pair: (sum(pair), pair)):
        if small + large in total and large - small in apart and (not named or named & {small, large}):
            yield small, large


def _sum_keys(skill: Skill) -> Iterator[str]:
    if yes(skill, "zero") and "result" in words(skill, "unknown"):
        yield "sum:n+0"
    yield from _in_places(skill, "sum", lambda: _sum_pairs(skill))


def _difference_keys(skill: Skill) -> Iterator[str]:
    """By the number taken from, then the number taken."""
    if yes(skill, "zero") and "result" in words(skill, "unknown"):
        yield from ("difference:n-0", "difference:n-n")
    taken, left = _range(skill, "take"), _range(skill, "left")
    wholes = _range(skill, "whole")
    yield from _in_places(
        skill, "difference", lambda: ((w, part) for w in wholes for part in taken if w - part in left)
    )


def _table_pairs(skill: Skill) -> Iterator[tuple[int, int]]:
    return ((table, times) for table in wholes(skill, "tables") for times in _range(skill, "times"))


def _product_keys(skill: Skill) -> Iterator[str]:
    rules = [f"product:nx{factor}" for factor in (0, 1) if yes(skill, ("zero", "one")[factor])]
    facts = _in_places(skill, "product", lambda: ((min(pair), max(pair)) for pair in _table_pairs(skill)))
    return _once([*(rules if "result" in words(skill, "unknown") else []), *facts])


def _quotient_keys(skill: Skill) -> Iterator[str]:
    """For each product both its quotients: 42 ÷ 6 and 42 ÷ 7."""
    rules = ["quotient:n/1", "quotient:n/n"] if yes(skill, "one") else []
    facts = _in_places(
        skill,
        "quotient",
        lambda: (
            (table * times, divisor) for table, times in _table_pairs(skill) for divisor in (table, times)
        ),
    )
    return _once([*(rules if "result" in words(skill, "unknown") else []), *facts])


def _in_places(skill: Skill, kind: str, pairs: Callable[[], Iterable[tuple[int, int]]]) -> Iterator[str]:
    """A card of each fact for each place its missing number may have, place by place; of a sum or product
    the first and the second are one card."""
    return _once(
        f"{kind}:{content}"
        for place in words(skill, "unknown")
        for left, right in pairs()
        for content in contents(kind, place, left, right)
    )


def _bond_keys(skill: Skill) -> Iterator[str]:
    step, least = whole(skill, "step"), 0 if yes(skill, "zero") else 1
    for total in wholes(skill, "wholes"):
        for small in range(0, total // 2 + 1, step):
            if small >= least:
                yield f"bond:{total}={small}+{total - small}"


def _double_keys(skill: Skill) -> Iterator[str]:
    low, high = wholes(skill, "numbers")
    return (f"double:{number}" for number in range(low, high + 1, whole(skill, "step")))


def _half_keys(skill: Skill) -> Iterator[str]:
    low, high = wholes(skill, "numbers")
    return (f"half:{number}" for number in range(low, high + 1, whole(skill, "step")) if number % 2 == 0)


# --- the kinds ----------------------------------------------------------------------------------------

NO_NUMBERS: tuple[int, ...] = ()

TOTAL = Option("range", "the smallest and the largest total", (2, 20), 2, LARGEST_TOTAL, example="[2, 10]")
TABLES = Option(
    "wholes", "the tables, in the order to meet them", None, 2, LARGEST_FACTOR, example="[2, 10, 5]"
)
TIMES_OPTION = Option("range", "how far each table goes", (2, 12), 2, LARGEST_FACTOR, example="[2, 10]")

UNKNOWN = Option(
    "words",
    "which number is missing: the result, or the first or second of the two before it",
    ("result",),
    choices=("result", "first", "second"),
    example='["first", "second"]',
)

SUM_OPTIONS = {
    "addends": Option(
        "range", "the smallest and the largest number added", (1, 10), 1, LARGEST_TOTAL, example="[1, 10]"
    ),
    "total": TOTAL,
    "one_of": Option(
        "wholes", "one of the two numbers is one of these", NO_NUMBERS, 1, LARGEST_TOTAL, example="[9, 8]"
    ),
    "apart": Option(
        "range",
        "how far apart the two numbers are: [0, 0] for doubles, [1, 1] for near doubles",
        (0, LARGEST_TOTAL),
        0,
        LARGEST_TOTAL,
        example="[1, 1]",
    ),
    "zero": Option("yes-no", "also the rule that adding 0 changes nothing", False, example="true"),
    "unknown": UNKNOWN,
}
DIFFERENCE_OPTIONS = {
    "whole": Option("range", "the numbers to take from", (2, 20), 2, LARGEST_TOTAL, example="[2, 10]"),
    "take": Option("range", "the numbers to take", (1, 10), 1, LARGEST_TOTAL, example="[1, 2]"),
    "left": Option("range", "the answers", (1, 10), 1, LARGEST_TOTAL, example="[1, 10]"),
    "zero": Option("yes-no", "also the rules for taking 0 and for taking all", False, example="true"),
    "unknown": UNKNOWN,
}
PRODUCT_OPTIONS = {
    "tables": TABLES,
    "times": TIMES_OPTION,
    "zero": Option("yes-no", "also the rule for times 0", False, example="true"),
    "one": Option("yes-no", "also the rule for times 1", False, example="true"),
    "unknown": UNKNOWN,
}
QUOTIENT_OPTIONS = {
    "tables": TABLES,
    "times": TIMES_OPTION,
    "one": Option("yes-no", "also the rules for dividing by 1 and by itself", False, example="true"),
    "unknown": UNKNOWN,
}
BOND_OPTIONS = {
    "wholes": Option("wholes", "the wholes to split, in order", None, 2, 1000, example="[10]"),
    "step": Option("whole", "parts go up in steps of this", 1, 1, 500, example="1"),
    "zero": Option("yes-no", "also the whole and nothing", False, example="true"),
}
DOUBLE_OPTIONS = {
    "numbers": Option("range", "the numbers to double", None, 1, 100, example="[1, 10]"),
    "step": Option("whole", "numbers go up in steps of this", 1, 1, 100, example="1"),
}
HALF_OPTIONS = {
    "numbers": Option("range", "the even numbers to halve", None, 2, 200, example="[2, 20]"),
    "step": Option("whole", "numbers go up in steps of this", 2, 1, 200, example="2"),
}

Keys = Callable[[Skill], Iterator[str]]
Shown = Callable[[str, str], Problem]


def _kind(name: str, about: str, options: Mapping[str, Option], keys: Keys, problem: Shown) -> Kind:
    return Kind(name, about, options, keys, traits, draw, problem, predict=predict, ways=ways)


KINDS: tuple[Kind, ...] = (
    _kind("sum", "sums to know from memory: 6 + 7", SUM_OPTIONS, _sum_keys, _sum),
    _kind("difference", "differences to know: 13 − 6", DIFFERENCE_OPTIONS, _difference_keys, _difference),
    _kind("product", "the multiplication tables: 6 × 7", PRODUCT_OPTIONS, _product_keys, _product),
    _kind("quotient", "the tables backwards: 42 ÷ 6", QUOTIENT_OPTIONS, _quotient_keys, _quotient),
    _kind("bond", "the parts of a whole: 10 = 7 + □", BOND_OPTIONS, _bond_keys, _bond),
    _kind("double", "doubles: double 7", DOUBLE_OPTIONS, _double_keys, _double),
    _kind("half", "halves: half of 14", HALF_OPTIONS, _half_keys, _half),
)
