"""The kind of fractions: its tasks, and what a set may write of them."""

from collections.abc import Iterator, Mapping

from review.core.model import Skill
from review.core.skills import (
    fraction_decimals,
    fraction_mixed_sums,
    fraction_pictures,
    fraction_sums,
    fractions_of,
)
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import wholes, words
from review.core.skills.tasks import Task, Tasks

ROOMS = (fraction_pictures, fractions_of, fraction_decimals, fraction_sums, fraction_mixed_sums)
TABLE: Mapping[str, Task] = {name: task for room in ROOMS for name, task in room.TASKS.items()}
TASKS = Tasks(TABLE)

FINEST = 1000  # thousandths: as far as decimals go in these years
MOST_UNDER = 20  # of a sum or a comparison; our judgement
MOST_ENTRIES = 12  # of one class; our judgement
LARGEST = {  # what fits a picture of 40 columns; what has a decimal
    "shaded": 12, "line": 12, "line-past-one": 9, "to-decimal": FINEST, "from-decimal": FINEST,
}  # fmt: skip


def keys(skill: Skill) -> Iterator[str]:
    sizes = "-".join(map(str, sorted(wholes(skill, "denominators"))))
    return (f"fraction:{task}/{sizes}" for task in words(skill, "task"))


def _unfit_sizes(task: str, sizes: tuple[int, ...]) -> Iterator[tuple[str, str]]:
    most = LARGEST.get(task, MOST_UNDER)
    if max(sizes) > most:
        yield f"{max(sizes)} is too large for {task}", f"write {most} or less"
    strange = [size for size in sizes if "decimal" in task and FINEST % size]
    if strange:
        yield (
            f"fractions with {strange[0]} have no short decimal",
            "take from 2, 4, 5, 8, 10, 20, 25, 50, 100",
        )


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    sizes = wholes(skill, "denominators")
    if len(sizes) > MOST_ENTRIES:
        yield "denominators", f"{len(sizes)} denominators are too many", f"write {MOST_ENTRIES} at most"
        return
    for task, key in zip(words(skill, "task"), keys(skill), strict=True):
        unfit = list(_unfit_sizes(task, sizes))
        yield from (("denominators", *what) for what in unfit)
        if not unfit and not TASKS.possible(key):
            yield "denominators", f"no problem of {task} has these", "add a multiple of one of them"


KINDS: tuple[Kind, ...] = (
    Kind(
        "fraction",
        "parts of a whole: named, of a number, compared, equal ones, sums and differences",
        {
            "task": Option(
                "words", "what is asked; a card each", choices=tuple(TABLE), example='["shaded", "of"]'
            ),
            "denominators": Option(
                "wholes", "which denominators there may be", low=2, high=FINEST, example="[2, 4, 8]"
            ),
        },
        keys,
        TASKS.traits,
        TASKS.draw,
        TASKS.problem,
        check,
        predict=TASKS.predict,
    ),
)
