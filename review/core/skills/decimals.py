"""The kind of decimals: its tasks, and what a set may write of them."""

from collections.abc import Callable, Iterator, Mapping

from review.core.model import Skill
from review.core.skills import decimal_sums, decimals_shown
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import wholes, words
from review.core.skills.tasks import Numbers, Task, Tasks

TABLE: Mapping[str, Task] = {**decimals_shown.TASKS, **decimal_sums.TASKS}
TASKS = Tasks(TABLE)

MOST_PLACES = 3  # thousandths
FACTORS = (10, 100, 1000)
IN_ORDER = 3  # numbers to put in order

# --- the sizes of a task, by the decimal places a set names -------------------------------------------


def _each(places: Numbers) -> Iterator[Numbers]:
    yield from ((many,) for many in places if many)


def _pair(places: Numbers) -> Iterator[Numbers]:
    """Two numbers: of two lengths where a set names two, else of one; not both whole."""
    if any(places) and len(places) <= 2:
        yield places if len(places) == 2 else places * 2


def _alike(places: Numbers) -> Iterator[Numbers]:
    yield from ((many, many) for many in places if many)


def _unlike(places: Numbers) -> Iterator[Numbers]:
    yield from ((few, many) for few in places for many in places if 0 < few < many)


def _three(places: Numbers) -> Iterator[Numbers]:
    """One length, two or three: the longest fills up."""
    if 0 not in places and len(places) <= IN_ORDER:
        yield places + places[-1:] * (IN_ORDER - len(places))


def _digits(places: Numbers) -> Iterator[Numbers]:
    yield from ((many, at) for many in places for at in range(1, many + 1))


def _nearest(places: Numbers) -> Iterator[Numbers]:
    yield from ((many, to) for many in places for to in range(many - 1, -1, -1))


SIZES: Mapping[str, Callable[[Numbers], Iterator[Numbers]]] = {
    "value": _digits,
    "compare": _alike,
    "compare-longer": _unlike,
    "compare-shorter": _unlike,
    "compare-equal": _unlike,
    "order": _three,
    "round": _nearest,
    "bond-one": _each,
    "bond-ten": _each,
    "add": _pair,
    "add-regroup": _pair,
    "subtract": _pair,
    "subtract-regroup": _pair,
}


def _scaled(task: str, places: Numbers, factors: Numbers) -> Iterator[Numbers]:
    """Quotients have three decimal places at most."""
    for factor in factors:
        for many in places:
            if task == "times" or many + len(str(factor)) - 1 <= MOST_PLACES:
                yield factor, many


def _sizes(skill: Skill, task: str) -> Iterator[Numbers]:
    places = tuple(sorted(wholes(skill, "places")))
    if task in SIZES:
        return SIZES[task](places)
    return _scaled(task, places, wholes(skill, "by") or FACTORS)


def _keys_of(skill: Skill, task: str) -> Iterator[str]:
    return (f"decimal:{task}/{'-'.join(map(str, sizes))}" for sizes in _sizes(skill, task))


def keys(skill: Skill) -> Iterator[str]:
    return (key for task in words(skill, "task") for key in _keys_of(skill, task))


NEEDS = {
    "compare-longer": "two lengths", "compare-shorter": "two lengths", "compare-equal": "two lengths",
    "order": "one, two or three lengths, none of them 0", "add": "one or two lengths",
    "add-regroup": "one or two lengths", "subtract": "one or two lengths",
    "subtract-regroup": "one or two lengths", "divide": "so few that three places hold the quotient",
}  # fmt: skip


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for factor in wholes(skill, "by"):
        if factor not in FACTORS:
            yield "by", f"{factor} is not 10, 100 or 1000", "take from 10, 100, 1000"
    for task in words(skill, "task"):
        if next(_keys_of(skill, task), None) is None:
            wrong = f"no numbers of {task} have these decimal places"
            yield "places", wrong, f"write {NEEDS.get(task, 'one to three')}"


KINDS: tuple[Kind, ...] = (
    Kind(
        "decimal",
        "decimals: what digits are worth, compared, rounded, added, ten times more or less",
        {
            "task": Option(
                "words", "what is asked; a card each", choices=tuple(TABLE), example='["value", "compare"]'
            ),
            "places": Option(
                "wholes",
                "how many decimal places the numbers have",
                low=0,
                high=MOST_PLACES,
                example="[1, 2]",
            ),
            "by": Option(
                "wholes",
                "for times and divide: 10, 100, 1000; all if left out",
                default=(),
                low=10,
                high=1000,
                example="[10, 100]",
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
