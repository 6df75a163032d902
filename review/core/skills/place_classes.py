"""The classes of place-value: the numbers of so many digits that fit the task.

`value/4/100` are those whose hundreds digit is not zero and stands nowhere else in the number, so that
"the 4" is one digit only; `expand/4` and `compose/4` those without a zero, `.../zero` those with one;
`more/4/10` those where one digit changes, `more/4/10/across` those where the next place changes too.
"""

from collections.abc import Callable, Iterator, Mapping
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Skill
from review.core.skills.options import whole, wholes, words, yes
from review.core.skills.places import digit_at, parts, with_digits

MOST_PARTS = 5  # of expand and compose: six parts do not fit a line of 40 columns


class Class(NamedTuple):
    task: str
    digits: int
    place: int = 0  # 1, 10, 100, ...; 0 where the task has none
    apart: bool = False  # `/zero` or `/across`: the harder class of the two

    @property
    def numbers(self) -> range:
        return with_digits(self.digits)


def class_of(key: str) -> Class:
    task, digits, *rest = content_of(key).split("/")
    place = int(rest[0]) if rest and rest[0].isdigit() else 0
    return Class(task, int(digits), place, rest[-1:] in (["zero"], ["across"]))


def key_of(of: Class) -> str:
    place = f"/{of.place}" if of.place else ""
    apart = "" if not of.apart else "/across" if of.place else "/zero"
    return f"place-value:{of.task}/{of.digits}{place}{apart}"


def classes(skill: Skill) -> Iterator[Class]:
    """Every class a skill names, also those that are empty."""
    digits = whole(skill, "digits")
    places = wholes(skill, "places") or tuple(10**at for at in range(digits))
    for task in words(skill, "task"):
        if task == "value":
            yield from (Class(task, digits, place) for place in places)
        elif task in ("more", "less"):
            yield from (Class(task, digits, place) for place in places)
            yield from (Class(task, digits, place, True) for place in places if yes(skill, "across"))
        else:
            yield Class(task, digits)
            yield from (Class(task, digits, 0, True) for _ in range(yes(skill, "zero")))


# --- which numbers belong -----------------------------------------------------------------------------


def _stands_once(of: Class, number: int) -> bool:
    digit = digit_at(number, of.place)
    return digit != 0 and str(number).count(str(digit)) == 1


def _has_parts(of: Class, number: int) -> bool:
    return len(parts(number)) >= 2 and ("0" in str(number)) == of.apart


def _can_grow(of: Class, number: int) -> bool:
    return (digit_at(number, of.place) == 9) == of.apart and number + of.place < of.numbers.stop


def _can_shrink(of: Class, number: int) -> bool:
    return (digit_at(number, of.place) == 0) == of.apart and number >= of.place


BELONGS: Mapping[str, Callable[[Class, int], bool]] = {
    "value": _stands_once,
    "expand": _has_parts,
    "compose": _has_parts,
    "more": _can_grow,
    "less": _can_shrink,
}


def is_possible(of: Class) -> bool:
    """Whether any number belongs."""
    if of.place:
        return of.place * (10 if of.apart else 1) < of.numbers.stop
    return of.digits <= MOST_PARTS and (of.digits > 2 or not of.apart)


def draw(key: str, random: Random) -> str:
    of = class_of(key)
    if not is_possible(of):
        raise ValueError(f"no number belongs to {key}")
    number = random.choice(of.numbers)
    while not BELONGS[of.task](of, number):
        number = random.choice(of.numbers)
    return f"{number}@{of.place}" if of.task == "value" else str(number)
