"""What a fact card is: its showings, and what the planner knows of it.

6 × 7 and 7 × 6 are one card, shown in either order: practice of one order transfers to the other, while
quotients and differences are cards of their own with no inherited credit (Rickard & Bourne 1996).
+ 0, × 0 and × 1 are one rule card each, shown with varied numbers: practice on these spreads (Campbell 2015).
"""

import re
from collections.abc import Callable, Iterable, Mapping
from itertools import combinations
from random import Random

from review.core.keys import content_of
from review.core.model import BOX, Traits
from review.core.skills.wording import DIVIDED, EQUALS, MINUS, PLUS, TIMES, grouped

RULE_SUMS = range(1, 21)  # the numbers a rule card may have shown, which the log keeps; our judgement
RULE_PRODUCTS = range(1, 13)
RULE_MOST = 10  # the largest one it shows: the rules are met in sets that go to ten

# Expected seconds to the end until the child's own are known; our judgement.
SECONDS = {
    "sum": 4.0,
    "difference": 5.0,
    "product": 5.0,
    "quotient": 5.5,
    "bond": 5.0,
    "double": 4.0,
    "half": 4.5,
    "rule": 3.5,
}


_NUMBERS = re.compile(r"\d+").findall
_SIGNS = re.compile(r"[-+x/]").split


def numbers(text: str) -> tuple[int, int]:
    """The two numbers of a fact as it stands in a key or in `asked`; the right one 0 if there is one only."""
    found = _NUMBERS(text)
    return int(found[0]), int(found[1]) if len(found) > 1 else 0


# --- the showings of each card ------------------------------------------------------------------------


def _orders(left: int, sign: str, right: int) -> tuple[str, ...]:
    return tuple(dict.fromkeys((f"{left}{sign}{right}", f"{right}{sign}{left}")))


RULES: Mapping[str, tuple[str, ...]] = {
    "sum:n+0": tuple(asked for n in RULE_SUMS for asked in _orders(n, "+", 0)),
    "difference:n-0": tuple(f"{n}-0" for n in RULE_SUMS),
    "difference:n-n": tuple(f"{n}-{n}" for n in RULE_SUMS),
    "product:nx0": tuple(asked for n in RULE_PRODUCTS for asked in _orders(n, "x", 0)),
    "product:nx1": tuple(asked for n in RULE_PRODUCTS for asked in _orders(n, "x", 1)),
    "quotient:n/1": tuple(f"{n}/1" for n in RULE_PRODUCTS),
    "quotient:n/n": tuple(f"{n}/{n}" for n in RULE_PRODUCTS),
}


RULES_SHOWN: Mapping[str, tuple[str, ...]] = {
    key: tuple(asked for asked in some if max(numbers(asked)) <= RULE_MOST) for key, some in RULES.items()
}


def belongs(key: str, asked: str) -> bool:
    """Whether a card shows that, or once did."""
    return asked in RULES.get(key, showings(key))


def showings(key: str) -> tuple[str, ...]:
    """Every `asked` of a card, each once."""
    if key in RULES:
        return RULES_SHOWN[key]
    kind, _, content = key.partition(":")
    if content.startswith("_") and kind in ("sum", "product"):
        sign, known, result = content[1], *numbers(content)
        return f"_{sign}{known}={result}", f"{known}{sign}_={result}"
    if kind in ("sum", "product"):
        return _orders(numbers(content)[0], "+" if kind == "sum" else "x", numbers(content)[1])
    return _bond_showings(content) if kind == "bond" else (content,)


def _bond_showings(content: str) -> tuple[str, ...]:
    """Either part may be missing, on either side."""
    total, _, parts = content.partition("=")
    known = dict.fromkeys(parts.split("+"))
    return tuple(shown for part in known for shown in (f"{total}={part}+_", f"{total}=_+{part}"))


def draw(key: str, random: Random) -> str:
    return random.choice(showings(key))


# --- what the planner knows ---------------------------------------------------------------------------


def _sum_family(left: int, right: int) -> str:
    return f"{min(left, right)}+{max(left, right)}={left + right}"


def _product_family(left: int, right: int) -> str:
    return f"{min(left, right)}x{max(left, right)}={left * right}"


def _groups(answers: Iterable[int], *tables: str) -> frozenset[str]:
    return frozenset([*(f"answer-{answer}" for answer in answers), *tables])


def digit_pairs(left: int, right: int) -> frozenset[str]:
    """The pairs of digits within a product and its factors: 6 × 7 = 42 holds 24, 26, 27, 46, 47 and 67.

    Facts that share many are confused with each other: the index of De Visscher & Noël 2014, its rule from
    memory.
    """
    digits = sorted(f"{left}{right}{left * right}")
    return frozenset("".join(pair) for pair in combinations(digits, 2))


# What the missing number is, from the two that are there in their order: first left out, second left out.
MISSING: Mapping[str, tuple[Callable[[int, int], int], Callable[[int, int], int]]] = {
    "sum": (lambda known, result: result - known, lambda known, result: result - known),
    "difference": (lambda part, left: left + part, lambda whole, left: whole - left),
    "product": (lambda known, result: result // known, lambda known, result: result // known),
    "quotient": (lambda divisor, result: result * divisor, lambda dividend, result: dividend // result),
}


def is_open(text: str) -> bool:
    """Whether a number before the equal sign is missing, in a key or an `asked` of these four kinds."""
    return "_" in text


def missing(kind: str, text: str) -> int:
    """7 of "5+_=12"."""
    return MISSING[kind][not text.startswith("_")](*numbers(text))


def filled(kind: str, text: str) -> tuple[int, int]:
    """The two numbers before the equal sign: (5, 7) of "5+_=12"."""
    known, _ = numbers(text)
    return (missing(kind, text), known) if text.startswith("_") else (known, missing(kind, text))


def _open_traits(kind: str, content: str) -> Traits:
    """As the whole fact, which is known first; the answer is the missing number."""
    pair = filled(kind, content)
    whole = TRAITS[kind](*pair)
    small, large = sorted(pair)
    sign = {"sum": "+", "product": "x"}.get(kind)
    tables = {group for group in whole.groups if not group.startswith("answer-")}
    return Traits(
        SHOWN_SIGN[kind].join(_boxed(content)),
        True,
        whole.seconds + MORE_FOR_OPEN,
        frozenset({*tables, f"answer-{pair[not content.startswith('_')]}"}),
        whole.family,
        f"{kind}:{small}{sign}{large}" if sign else whole.partner,
    )


SHOWN_SIGN = {
    "sum": f" {PLUS} ",
    "difference": f" {MINUS} ",
    "product": f" {TIMES} ",
    "quotient": f" {DIVIDED} ",
}
MORE_FOR_OPEN = 2.0  # seconds; our judgement


def _boxed(content: str) -> tuple[str, str]:
    """What stands left and right of the sign: "_-5=7" -> "□", "5 = 7"."""
    left, right = _SIGNS(content)
    return left.replace("_", BOX), right.replace("_", BOX).replace("=", f" {EQUALS} ")


def traits(key: str) -> Traits:
    if key in RULES:
        return _rule_traits(key)
    kind, _, content = key.partition(":")
    if is_open(content):
        return _open_traits(kind, content)
    return TRAITS[kind](*numbers(content))


RULE_TITLES = {
    "sum:n+0": "adding 0",
    "difference:n-0": "taking 0 away",
    "difference:n-n": "taking all away",
    "product:nx0": "times 0",
    "product:nx1": "times 1",
    "quotient:n/1": "divided by 1",
    "quotient:n/n": "divided by itself",
}
RULE_PARTNERS = {
    "difference:n-0": "sum:n+0",
    "difference:n-n": "sum:n+0",
    "quotient:n/1": "product:nx1",
    "quotient:n/n": "product:nx1",
}


def _rule_traits(key: str) -> Traits:
    """The answer varies, so that the rule itself is the group."""
    rule = frozenset({f"rule-{content_of(key)}"})
    return Traits(RULE_TITLES[key], True, SECONDS["rule"], rule, partner=RULE_PARTNERS.get(key, ""))


def _sum_traits(left: int, right: int) -> Traits:
    groups = _groups([left + right], f"add-{left}", f"add-{right}")
    return Traits(f"{left} {PLUS} {right}", True, SECONDS["sum"], groups, _sum_family(left, right))


def _difference_traits(total: int, part: int) -> Traits:
    left = total - part
    small, large = sorted((left, part))
    return Traits(
        f"{total} {MINUS} {part}",
        True,
        SECONDS["difference"],
        _groups([left], f"take-{part}"),
        _sum_family(small, large),
        f"sum:{small}+{large}",
    )


def _product_traits(left: int, right: int) -> Traits:
    return Traits(
        f"{left} {TIMES} {right}",
        True,
        SECONDS["product"],
        _groups([left * right], f"table-{left}", f"table-{right}"),
        _product_family(left, right),
        digit_pairs=digit_pairs(left, right),
    )


def _quotient_traits(dividend: int, divisor: int) -> Traits:
    answer = dividend // divisor
    small, large = sorted((answer, divisor))
    return Traits(
        f"{dividend} {DIVIDED} {divisor}",
        True,
        SECONDS["quotient"],
        _groups([answer], f"table-{divisor}"),
        _product_family(small, large),
        f"product:{small}x{large}",
    )


MORE_FOR_DIGIT = 3.0  # seconds for each digit that is worked on after the first; our judgement
KNOWN_WHOLE = 20  # up to it parts are known, not worked out; our judgement


def _worked_digits(*parts: int) -> int:
    """Of the number with most, without the noughts at its end: 2 of 350 and 650, 1 of 300 and 700."""
    return max(len(str(part).rstrip("0")) for part in parts)


def _bond_seconds(total: int, part: int) -> float:
    if total <= KNOWN_WHOLE:
        return SECONDS["bond"]
    return SECONDS["bond"] + 1.0 + MORE_FOR_DIGIT * (_worked_digits(part, total - part) - 1)


def _bond_traits(total: int, part: int) -> Traits:
    other = total - part
    groups = _groups([part, other], f"bond-{total}")
    return Traits(
        f"{grouped(total)} = {part} {PLUS} {other}", True, _bond_seconds(total, part), groups,
        _sum_family(part, other),
    )  # fmt: skip


def _doubled_seconds(kind: str, number: int) -> float:
    """Of a double or half, by the number that is doubled."""
    return SECONDS[kind] + (
        MORE_FOR_DIGIT * (_worked_digits(number) - 1) if number > KNOWN_WHOLE / 2 else 0.0
    )


def _double_traits(number: int, _: int = 0) -> Traits:
    groups = _groups([2 * number], "double")
    seconds = _doubled_seconds("double", number)
    return Traits(f"double {number}", True, seconds, groups, _sum_family(number, number))


def _half_traits(number: int, _: int = 0) -> Traits:
    half = number // 2
    groups, family = _groups([half], "half"), _sum_family(half, half)
    return Traits(f"half of {number}", True, _doubled_seconds("half", half), groups, family, f"double:{half}")


TRAITS: Mapping[str, Callable[[int, int], Traits]] = {
    "sum": _sum_traits,
    "difference": _difference_traits,
    "product": _product_traits,
    "quotient": _quotient_traits,
    "bond": _bond_traits,
    "double": _double_traits,
    "half": _half_traits,
}
