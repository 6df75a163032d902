"""The ways of working a problem out, by their names in research, and which of them help follows.

A strategy is a name and its words; a way is what it makes of one problem. Each kind lists the ways that suit
the numbers at hand, the best first. A skill may name some, and help keeps to those that suit; among them it
follows the one a child likes, else the best. One way that is mastered is enough.

The names, and the notations of research beside them (1010, N10, A10, N10C: Beishuizen 1993 and after;
indirect addition, compensation: Torbeyns and others 2009), are from memory.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from review.core.keys import content_of, kind_of
from review.core.model import HELP_STEPS, Help, Way


class Strategy(NamedTuple):
    child: str  # under 8 words, for one who is to choose
    parent: str  # with an example
    kinds: tuple[str, ...]  # whose help can follow it


STRATEGIES: Mapping[str, Strategy] = {
    "doubles": Strategy(
        "Think of doubles.",
        "doubles one knows: 8 × 6 is double 4 × 6",
        ("sum", "difference", "product", "quotient", "half", "mental-product", "bond"),
    ),
    "near-doubles": Strategy(
        "Use a double close by.",
        "a double close by: 6 + 7 is 6 + 6 and 1 more",
        ("sum", "difference", "double", "bond"),
    ),
    "make-ten": Strategy("Make a ten first.", "a ten made first: 8 + 5 is 8 + 2 and 3 more", ("sum",)),  # A10
    "tens-and-ones": Strategy(
        "See the ten and the ones.",
        "the ten and the ones seen apart: 17 is 10 and 7",
        ("sum", "difference", "bond"),
    ),
    "five-as-anchor": Strategy(
        "Start from five.",
        "five as an anchor: 7 × 6 is 5 × 6 and 2 × 6",
        ("sum", "product", "quotient", "double", "bond"),
    ),
    "one-more-group": Strategy(
        "Add one more group.", "one more group: 3 × 8 is 2 × 8 and 8", ("product", "quotient")
    ),
    "ten-less-one": Strategy(
        "Ten groups, then one fewer.",
        "ten groups less one: 9 × 7 is 10 × 7 less 7",
        ("product", "quotient", "mental-product"),
    ),
    "half-of-ten": Strategy(
        "Ten groups, then half of them.",
        "half of ten groups: 5 × 7 is half of 10 × 7",
        ("product", "quotient", "mental-product"),
    ),
    "halving": Strategy(
        "Halve it, then halve again.",
        "halving again and again: 36 ÷ 4 is half of half of 36",
        ("quotient", "mental-quotient"),
    ),
    "sharing": Strategy("Share out two at a time.", "sharing out two at a time: half of 6", ("half",)),
    "partitioning": Strategy(  # 1010
        "Split into tens and ones.",
        "tens and ones apart: 47 + 25 is 60 and 12",
        ("sum", "product", "quotient", "double", "half", "mental-sum", "mental-difference", "mental-product",
         "mental-quotient"),
    ),
    "counting-on": Strategy(  # N10
        "Go on from the bigger number.",
        "on from the bigger number, in parts: 47 + 20 = 67, then 5 more",
        ("sum", "double", "mental-sum"),
    ),
    "counting-back": Strategy("Count back.", "counting back: 9 − 2 is 8, 7", ("difference", "bond")),
    "counting-up": Strategy(  # indirect addition
        "Go up from the smaller number.",
        "up from the smaller number: from 68 to 71 is 2 and 1",
        ("difference", "mental-difference", "bond"),
    ),
    "taking-off": Strategy(  # N10
        "Take off the biggest part first.",
        "taken off part by part: 73 − 20 = 53, then 5 less",
        ("difference", "mental-difference", "bond"),
    ),
    "bridging": Strategy(  # A10
        "Go to the next ten first.",
        "to the next ten first: 47 + 5 is 47 + 3 and 2 more",
        ("sum", "difference", "mental-sum", "mental-difference", "bond"),
    ),
    "opening": Strategy(
        "Open a ten and take.",
        "taken from a ten that is opened: 52 − 7 is 10 − 7 and 42",
        ("difference", "mental-difference", "bond"),
    ),
    "rounding": Strategy(  # N10C
        "Use a round number, then mend it.",
        "rounded, then adjusted: 58 + 27 is 60 + 27 less 2",
        ("sum", "difference", "double", "half", "mental-sum", "mental-difference", "mental-product",
         "mental-quotient", "bond"),
    ),
    "compensating": Strategy(  # compensation between addends
        "One number fills the other up.",
        "one number fills the other up: 58 + 27 is 60 + 25",
        ("mental-sum",),
    ),
    "constant-difference": Strategy(  # equal additions
        "Move both numbers up alike.",
        "both numbers moved up alike: 52 − 29 is 53 − 30",
        ("mental-difference",),
    ),
    "by-units": Strategy(
        "Count tens like ones.",
        "tens and hundreds counted like ones: 7 + 5, so 70 + 50",
        ("product", "quotient", "double", "half", "mental-sum", "mental-difference", "mental-product",
         "mental-quotient", "bond"),
    ),
}  # fmt: skip

UNDONE: Mapping[str, tuple[str, str]] = {
    "sum": ("bond", "bond"),
    "difference": ("sum", "bond"),
    "product": ("quotient", "quotient"),
    "quotient": ("product", "quotient"),
}
"""Of a fact with its first, its second number missing: the kind it is worked out as."""

OF_A_WAY = ("question", "neighbour", "blank", "steps")
"""The steps of help that follow a way; counters and pictures go with any, unless the way has its own."""


def choice(ways: Sequence[Way], named: Iterable[str] = ()) -> tuple[Way, ...]:
    """Those a skill names, or all where it names none of them."""
    names = {*named}
    return tuple(way for way in ways if way.strategy in names) or tuple(ways)


def chosen(ways: Sequence[Way], named: Iterable[str] = (), liked: str = "") -> Way | None:
    """The way help follows; None for a problem with no ways of its own."""
    open_ = choice(ways, named)
    return next((way for way in open_ if way.strategy == liked), open_[0] if open_ else None)


def followed(helps: Iterable[Help], way: Way) -> tuple[Help, ...]:
    """The help of a problem with the steps of that way in the place of its own."""
    own = {*OF_A_WAY, *(help.step for help in way.helps)}
    merged = [*(help for help in helps if help.step not in own), *way.helps]
    return tuple(sorted(merged, key=lambda help: HELP_STEPS.index(help.step)))


def worked_as(key: str) -> str:
    """The kind whose ways a card goes by, and whose liking holds for it: 7 + □ = 12 is worked as a bond."""
    kind, content = kind_of(key), content_of(key)
    if kind not in UNDONE or "_" not in content:
        return kind
    return UNDONE[kind][not content.startswith("_")]


def likes(strategy: str) -> dict[str, str]:
    """What a child likes who likes that strategy: kind -> strategy."""
    return dict.fromkeys(STRATEGIES[strategy].kinds, strategy)
