"""Ways of working out a product or a quotient of the tables, the most helpful first.

A product is worked from one of its factors, the pivot: from groups of the other that one knows. A quotient
asks how many groups there are, and is worked from groups one knows as well.
"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from review.core.model import BOX, Way
from review.core.skills.hints import Idea, added, multiplied, suiting, taken, you_know
from review.core.skills.wording import counted, in_words

# --- products -----------------------------------------------------------------------------------------

# Which factor to work from, the most helpful first: 6 × 7 from five 7s, 8 × 12 from ten 8s (our judgement).
PIVOTS = (10, 2, 5, 11, 9, 12, 3, 4, 6, 8, 7, *range(13, 21))


class Groups(NamedTuple):
    """So many groups of the other number, written in the order asked."""

    pivot: int
    other: int
    turned: bool  # the pivot is asked second

    def times(self, groups: int) -> str:
        return multiplied(self.other, groups) if self.turned else multiplied(groups, self.other)


def groups_of(left: int, right: int) -> tuple[Groups, ...]:
    """From the more helpful factor first."""
    both = (Groups(left, right, False), Groups(right, left, True))
    return tuple(sorted(both, key=lambda one: PIVOTS.index(one.pivot)))


Then = Callable[[Groups], str]
Steps = Callable[[Groups], tuple[str, ...]]


def _from(
    strategy: str, pivots: range | tuple[int, ...], anchor: Callable[[int], int], then: Then, steps: Steps
) -> Idea:
    """From so many groups that one knows: what is left to do with them."""
    return Idea(
        strategy,
        lambda of: of.pivot in pivots,
        lambda of: f"What is {of.times(anchor(of.pivot)).partition(' =')[0]}?\n{then(of)}",
        lambda of: you_know(of.times(anchor(of.pivot)), then(of)),
        steps,
    )


def _more(groups: int, other: int) -> str:
    count = {1: "One", 2: "Two"}.get(groups, str(groups))
    return f"{count} more {other}{'s' if groups > 1 else ''}."


def _anchored(anchor: int) -> Steps:
    """The groups one knows, the others, all of them: 5 × 8 = 40, 2 × 8 = 16, 40 + 16 = 56."""

    def steps(of: Groups) -> tuple[str, ...]:
        more = of.pivot - anchor
        rest = (of.times(more),) if more > 1 else ()
        return (of.times(anchor), *rest, added(anchor * of.other, more * of.other))

    return steps


def _doubling(of: Groups) -> tuple[str, ...]:
    """8 × 7: 2 × 7 = 14, 14 + 14 = 28, 28 + 28 = 56; 6 × 7: 3 × 7 = 21, 21 + 21 = 42."""
    known = of.pivot
    while known % 2 == 0 and known > 2:
        known //= 2
    steps = [of.times(known)]
    while known < of.pivot:
        steps.append(added(known * of.other, known * of.other))
        known *= 2
    return tuple(steps)


def tens_before(count: int) -> str:
    """Counted in tens to the third at most, and never so far that the answer is said."""
    return ", ".join([*map(str, range(10, 10 * min(count, 4), 10)), "..."])


PRODUCT: tuple[Idea, ...] = (
    Idea(
        "by-units", lambda of: of.pivot == 10,
        lambda of: f"How much are {of.other} tens?",
        lambda of: f"{tens_before(of.other)}\nCount {of.other} tens.",
        lambda of: (f"{of.other} tens: {10 * of.other}.",),
    ),
    Idea(
        "doubles", lambda of: of.pivot == 2,
        lambda of: f"What is {of.other} and {of.other}?",
        lambda of: f"It is double {of.other}.",
        lambda of: (added(of.other, of.other),),
    ),
    Idea(
        "half-of-ten", lambda of: of.pivot == 5 and of.other > 2,
        lambda of: f"What is {of.times(10).partition(' =')[0]}?\nTake half of it.",
        lambda of: you_know(of.times(10), "Take half of it."),
        lambda of: (of.times(10), f"{10 * of.other} ÷ 2 = {5 * of.other}"),
    ),
    _from(
        "ten-less-one", (9,), lambda pivot: 10, lambda of: f"One {of.other} fewer.",
        lambda of: (of.times(10), taken(10 * of.other, of.other)),
    ),
    _from("five-as-anchor", (6, 7), lambda pivot: 5, lambda of: _more(of.pivot - 5, of.other), _anchored(5)),
    _from("doubles", (4, 6, 8), lambda pivot: pivot // 2, lambda of: "Double it.", _doubling),
    _from("one-more-group", (11,), lambda pivot: 10, lambda of: _more(1, of.other), _anchored(10)),
    _from("one-more-group", (3,), lambda pivot: 2, lambda of: _more(1, of.other), _anchored(2)),
    _from("one-more-group", (6,), lambda pivot: 5, lambda of: _more(1, of.other), _anchored(5)),
    _from("five-as-anchor", (8,), lambda pivot: 5, lambda of: _more(3, of.other), _anchored(5)),
    _from(
        "partitioning", range(12, 21), lambda pivot: 10, lambda of: _more(of.pivot - 10, of.other),
        _anchored(10),
    ),
)  # fmt: skip


def product_ideas(left: int, right: int) -> Iterator[tuple[Idea, Groups]]:
    """Each strategy once, from the factor that comes first in the table of ways; the best of all is the first
    of the more helpful factor."""
    found: dict[str, tuple[int, Idea, Groups]] = {}
    for of in groups_of(left, right):
        for idea in suiting(PRODUCT, of):
            place = PRODUCT.index(idea)
            if idea.strategy not in found or place < found[idea.strategy][0]:
                found[idea.strategy] = (place, idea, of)
    return ((idea, of) for _, idea, of in found.values())


def product_ways(left: int, right: int) -> tuple[Way, ...]:
    return tuple(idea.way(of) for idea, of in product_ideas(left, right))


# --- quotients ----------------------------------------------------------------------------------------


def _divided(dividend: int, divisor: int) -> str:
    return f"{dividend} ÷ {divisor} = {dividend // divisor}"


def _known(anchor: int) -> Callable[[int, int], str]:
    return lambda dividend, divisor: you_know(
        multiplied(anchor, divisor), f"How many more {divisor}s make {dividend}?"
    )


def _known_question(anchor: int) -> Callable[[int, int], str]:
    return lambda dividend, divisor: f"What do {in_words(anchor)} {divisor}s make?"


def _built_up(anchor: int) -> Callable[[int, int], tuple[str, ...]]:
    """The groups one knows, what is left, the groups in it, all groups."""

    def steps(dividend: int, divisor: int) -> tuple[str, ...]:
        more = dividend // divisor - anchor
        return (
            multiplied(anchor, divisor),
            taken(dividend, anchor * divisor),
            multiplied(more, divisor),
            added(anchor, more),
        )

    return steps


def _answers(*answers: int) -> Callable[[int, int], bool]:
    return lambda dividend, divisor: dividend // divisor in answers


def _reached(anchor: int, *answers: int) -> Callable[[int, int], bool]:
    """One of these answers, which the groups one knows do not make by chance: 2 × 2 = 4 tells 8 ÷ 2."""
    return lambda dividend, divisor: dividend // divisor in answers and anchor * divisor * divisor != dividend


def _from_groups(strategy: str, anchor: int, *answers: int) -> Idea:
    return Idea(
        strategy, _reached(anchor, *answers), _known_question(anchor), _known(anchor), _built_up(anchor)
    )


def _doubled_groups(dividend: int, divisor: int) -> tuple[str, ...]:
    """36 ÷ 9: two 9s are 18, as many again are 36, two and two are 4."""
    half = dividend // divisor // 2
    return multiplied(half, divisor), added(half * divisor, half * divisor), added(half, half)


def _halved_again(dividend: int, divisor: int) -> tuple[str, ...]:
    steps = []
    while divisor > 1:
        steps.append(_divided(dividend, 2))
        dividend, divisor = dividend // 2, divisor // 2
    return tuple(steps)


QUOTIENT: tuple[Idea, ...] = (
    Idea(
        "by-units", lambda dividend, divisor: divisor == 10,
        lambda dividend, divisor: f"How many tens make {dividend}?",
        lambda dividend, divisor: f"{tens_before(dividend // 10)}\nHow many tens make {dividend}?",
        lambda dividend, divisor: (
            f"{dividend} is {counted(dividend // 10, 'ten')}.", _divided(dividend, divisor)
        ),
        lambda dividend, divisor: (f"{dividend} is {BOX} tens.",),
    ),
    Idea(
        "doubles", lambda dividend, divisor: divisor == 2,
        lambda dividend, divisor: f"What is half of {dividend}?",
        lambda dividend, divisor: f"Think of doubles.\nWhich double makes {dividend}?",
        lambda dividend, divisor: (
            f"{dividend} = {dividend // 2} + {dividend // 2}", _divided(dividend, divisor)
        ),
        lambda dividend, divisor: (f"{dividend} = {BOX} + {BOX}",),
    ),
    Idea(
        "by-units", _answers(10),
        lambda dividend, divisor: f"{divisor} times what makes {dividend}?",
        lambda dividend, divisor: you_know(_divided(divisor, divisor), "Now in tens."),
        lambda dividend, divisor: (
            f"{dividend} is {counted(divisor, 'ten')}.", _divided(divisor, divisor),
            _divided(dividend, divisor),
        ),
    ),
    Idea(
        "doubles", _answers(2),
        lambda dividend, divisor: f"{divisor} times what makes {dividend}?",
        lambda dividend, divisor: f"What is {divisor} and {divisor}?",
        lambda dividend, divisor: (
            added(divisor, divisor), f"{dividend} is 2 times {divisor}.", _divided(dividend, divisor)
        ),
        lambda dividend, divisor: (added(divisor, divisor), f"{dividend} is {BOX} times {divisor}."),
    ),
    Idea(
        "half-of-ten", _answers(5), _known_question(10),
        lambda dividend, divisor: you_know(multiplied(10, divisor), f"{dividend} is half of it."),
        lambda dividend, divisor: (
            multiplied(10, divisor), _divided(10 * divisor, 2), _divided(10, 2)
        ),
    ),
    Idea(
        "ten-less-one", _answers(9), _known_question(10),
        lambda dividend, divisor: you_know(multiplied(10, divisor), f"{dividend} is one {divisor} fewer."),
        lambda dividend, divisor: (multiplied(10, divisor), taken(10 * divisor, divisor), taken(10, 1)),
    ),
    Idea("doubles", _reached(2, 4), _known_question(2), _known(2), _doubled_groups),
    _from_groups("five-as-anchor", 5, 6, 7, 8),
    _from_groups("one-more-group", 10, 11),
    _from_groups("one-more-group", 2, 3),
    _from_groups("partitioning", 10, *range(12, 21)),
    Idea(
        "halving", lambda dividend, divisor: divisor in (4, 8) and dividend != 2 * divisor,
        lambda dividend, divisor: f"What is half of {dividend}?",
        lambda dividend, divisor: f"Half of {dividend} is {dividend // 2}.\nThen halve again.", _halved_again,
    ),
    Idea("doubles", _reached(3, 6), _known_question(3), _known(3), _doubled_groups),
    Idea("doubles", _reached(4, 8), _known_question(4), _known(4), _doubled_groups),
)  # fmt: skip
