"""Sheets of every sort, for the pages they become."""

from collections.abc import Callable, Iterator
from functools import cache, partial
from random import Random

from review import catalogue
from review.core import blanks, card_sets, fact_slips, fact_square, pages, skills
from review.core.paper import Sheet
from review.core.sheets import Made, Part, Task
from review.render import svg
from tests.core.test_boxes import every

DAY = 739_999
NASTY = "<b>&\"'O’Brien</b> $x$ #set #[] \\"


def week(name: str = "Orla", large: bool = False) -> Sheet:
    tasks = [task for task, _ in every()[::60]]
    parts = tuple(
        Part(DAY + n, tuple(task._replace(role="intro" if k == 4 else "ask") for k, task in enumerate(some)))
        for n, some in enumerate(tasks[k : k + 8] for k in range(0, 40, 8))
    )
    return pages.sheet(Made(4711, "week", "c", DAY, parts), name, large, svg.extent)


def today(name: str = "Orla", large: bool = False) -> Sheet:
    part = Part(DAY, tuple(task for task, _ in every()[5::200]))
    return pages.sheet(Made(4712, "today", "c", DAY, (part,)), name, large, svg.extent)


@cache
def everything(large: bool = False) -> Sheet:
    """A problem of every skill of the catalogue."""
    tasks = []
    for found in catalogue.whole():
        first = {card.skill: card.key for card in card_sets.cards([found])}
        tasks += [Task(key, skills.draw(key, Random(7))) for key in first.values()]
    words = pages.Printed("Practice", "", "Sheet 4713", ("To make it again: review sheet",))
    return pages.problem_sheet((Part(0, tuple(tasks)),), words, large, svg.extent, strips=False, dots=False)


def slips(large: bool = False) -> Sheet:
    cards = card_sets.cards([catalogue.shipped("times-3-4-8"), catalogue.shipped("words-of-arithmetic")])
    return fact_slips.sheet(
        fact_slips.problems(fact_slips.facts(cards), Random(1)), "Slips", "Slips 4711", large
    )


def _made_by() -> Iterator[tuple[str, Callable[[], Sheet]]]:
    for large in (False, True):
        print_size = "large" if large else "normal"
        yield f"week, {print_size}", partial(week, large=large)
        yield f"today, {print_size}", partial(today, large=large)
        yield f"slips, {print_size}", partial(slips, large)
        for sort in blanks.BLANKS:
            yield f"{sort}, {print_size}", partial(blanks.sheet, sort, 3, large)
    for fill in fact_square.FILLS:
        for facts, high in (("products", 12), ("sums", 20)):
            for large in (False, True):
                yield (
                    f"{facts}, {fill}{', large' if large else ''}",
                    partial(
                        fact_square.sheet,
                        facts,  # type: ignore[arg-type]
                        fill,
                        high,
                        "Square",
                        "Orla",
                        {(2, 3)},
                        large,
                    ),
                )
    yield "a name that is markup", partial(week, NASTY)


SMALL = dict(_made_by())
"""By name, without the whole catalogue. None is made before it is asked for."""


@cache
def small(name: str) -> Sheet:
    return SMALL[name]()


def small_ones() -> Iterator[tuple[str, Sheet]]:
    yield from ((name, small(name)) for name in SMALL)
