"""Slips to cut out, a fact on the front and its answer on the back: two-sided, the backs in mirror order.

Turned over along its long edge, the left column of a page lies behind its right one.
"""

from collections.abc import Iterable, Sequence
from random import Random

from review.core import skills
from review.core.model import Card, Problem, Pupil
from review.core.paper import ROOM, WIDTH, Page, Sheet, Side, Slips, fitted
from review.core.standing import standing

GRIDS = {False: (8, 3), True: (5, 2)}
"""Rows and columns of a page, by large print: slips of 59 × 29 mm fill a small hand (our judgement)."""
PAD = 5.0  # around what stands on a slip
LARGEST = {False: 11.0, True: 16.0}  # letters
LEFT_OUT = ("untaught", "holding")


def facts(cards: Iterable[Card]) -> list[Card]:
    """Those that have one problem for ever, and each fact once."""
    once = {card.key: card for card in cards}
    return [card for card in once.values() if skills.traits(card.key).fact]


def wanted(pupil: Pupil, cards: Iterable[Card]) -> list[Card]:
    """What was taught and does not hold yet."""
    found = [(card, standing(card, pupil.memory.get(card.key), pupil.settings, pupil.day)) for card in cards]
    return [card for card, where in found if where.state not in LEFT_OUT]


def problems(cards: Iterable[Card], source: Random) -> list[Problem]:
    return [skills.problem(card.key, skills.draw(card.key, source)) for card in cards]


def sheet(some: Sequence[Problem], name: str, foot: str, large: bool) -> Sheet:
    """Fronts and backs by turns."""
    rows, columns = GRIDS[large]
    starts = range(0, len(some), rows * columns)
    pages = [
        Page((block,), side=f"sheet {n} of {len(starts)}, {side}")
        for n, start in enumerate(starts, 1)
        for side, block in zip(
            ("front", "back"), two_sides(some[start : start + rows * columns], large), strict=True
        )
    ]
    return Sheet(name, foot, tuple(pages), large)


def two_sides(some: Sequence[Problem], large: bool) -> tuple[Slips, Slips]:
    rows, columns = GRIDS[large]
    width, height = round(WIDTH / columns, 2), round((ROOM - 1) / rows, 2)

    def slips(sides: Sequence[Side | None], mirrored: bool) -> Slips:
        lines = [sides[n : n + columns] for n in range(0, len(sides), columns)]
        turned = [tuple(line[::-1]) if mirrored else tuple(line) for line in lines]
        return Slips(tuple(turned), width, height, round(len(lines) * height, 2))

    def side(text: str) -> Side:
        return Side(*fitted(text, width - 2 * PAD, height - 2 * PAD, LARGEST[large]))

    empty = [None] * (-len(some) % columns)
    fronts = [side(problem.prompt.removesuffix(" =")) for problem in some]
    backs = [side(skills.shown_answer(problem)) for problem in some]
    return slips([*fronts, *empty], False), slips([*backs, *empty], True)
