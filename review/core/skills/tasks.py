"""Kinds that are made of tasks.

A key is `kind:task/sizes`, the sizes whole numbers with hyphens between them: `fraction:compare/2-4-8`. The
members of a class are those tuples of whole numbers, one from each range, that fit; each has one `asked`.
"""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import product
from random import Random
from typing import NamedTuple

from review.core.keys import content_of, kind_of
from review.core.model import Help, Problem, Traits
from review.core.pictures import Picture

TRIES = 5000  # our judgement: then so few fit that listing them all costs no more than trying on

Numbers = tuple[int, ...]


class Space(NamedTuple):
    """The tuples with a number from each range that fit."""

    ranges: tuple[Sequence[int], ...]
    fits: Callable[..., bool] = lambda *numbers: True
    half: Callable[..., bool] | None = None  # of what is drawn, half is so, however few members are


def span(sizes: Numbers) -> range:
    """From the first size to the second, both included."""
    return range(sizes[0], sizes[1] + 1)


class Shown(NamedTuple):
    """What a kind makes of the numbers it asks: all of a problem but which one it is."""

    prompt: str
    say: str
    expected: str
    told: str
    helps: tuple[Help, ...]
    form: str = "whole"
    picture: Picture | None = None
    unit: str = ""

    def problem(self, key: str, asked: str) -> Problem:
        return Problem(
            key, kind_of(key), asked, self.prompt, self.say, self.form, self.expected, self.told,
            self.helps, self.unit, self.picture,
        )  # fmt: skip


class Writing(NamedTuple):
    """How a member stands in `asked`, and back; None for what is no member of any such class."""

    write: Callable[[Numbers, Numbers], str]  # (sizes, member)
    read: Callable[[Numbers, str], Numbers | None]  # (sizes, asked)


class Task(NamedTuple):
    title: Callable[[Numbers], str]  # for a parent, of the sizes
    seconds: float  # our judgement
    writing: Writing
    space: Callable[[Numbers], Space]
    shown: Callable[[Numbers, Numbers], Shown]  # (sizes, member)
    group: str  # tasks of one group do not follow each other
    predict: Callable[[Numbers, Numbers], Mapping[str, str]] = lambda sizes, member: {}
    choices: int = 0


# --- how members are written --------------------------------------------------------------------------


def no_places(sizes: Numbers) -> Numbers:
    return ()


def pattern(text: str, places: Callable[[Numbers], Numbers] = no_places) -> Writing:
    """A number at each `#`, `<0>` the first size: "#/#,_/#". With `places`, each is a decimal of exactly so
    many, and the member counts its smallest place."""

    def template(sizes: Numbers) -> str:
        return re.sub(r"<(\d)>", lambda found: str(sizes[int(found[1])]), text)

    def write(sizes: Numbers, member: Numbers) -> str:
        wanted = places(sizes) or (0,) * len(member)
        rest = iter(as_asked(number, many) for number, many in zip(member, wanted, strict=True))
        return re.sub("#", lambda _: next(rest), template(sizes))

    def read(sizes: Numbers, asked: str) -> Numbers | None:
        found = re.fullmatch(re.escape(template(sizes)).replace(r"\#", r"(-?\d+(?:\.\d+)?)"), asked, re.ASCII)
        return tuple(int(part.replace(".", "")) for part in found.groups()) if found else None

    return Writing(write, read)


def as_asked(number: int, places: int) -> str:
    """345, 2 -> "3.45"."""
    if not places:
        return str(number)
    whole, rest = divmod(number, 10**places)
    return f"{whole}.{rest:0{places}}"


# --- what the kinds are made of -----------------------------------------------------------------------


def task_of(key: str) -> str:
    return content_of(key).split("/")[0]


def sizes_of(key: str) -> Numbers:
    """Also of a range: its two ends."""
    return tuple(map(int, re.findall(r"\d+", content_of(key).split("/")[1])))


def members(space: Space) -> Iterator[Numbers]:
    """Every one of them, in order."""
    return (numbers for numbers in product(*space.ranges) if space.fits(*numbers))


def _drawn(space: Space, random: Random) -> Numbers | None:
    """Each member equally likely, or each of its half: any tuple is drawn, and what does not fit is drawn
    again."""
    if not all(space.ranges):
        return None
    half = space.half and random.random() < 0.5
    for _ in range(TRIES):
        numbers = tuple(random.choice(numbers) for numbers in space.ranges)
        if space.fits(*numbers) and (not space.half or space.half(*numbers) == half):
            return numbers
    few = list(members(space))
    return random.choice(few) if few else None


class Tasks(NamedTuple):
    """The functions of a kind that follow from its tasks."""

    table: Mapping[str, Task]

    @staticmethod
    @lru_cache(maxsize=1024)
    def space(task: Task, sizes: Numbers) -> Space:
        return task.space(sizes)

    def space_of(self, key: str) -> Space:
        return self.space(self.table[task_of(key)], sizes_of(key))

    def possible(self, key: str) -> bool:
        return next(members(self.space_of(key)), None) is not None

    def draw(self, key: str, random: Random) -> str:
        member = _drawn(self.space_of(key), random)
        if member is None:
            raise ValueError(f"no problem belongs to {key}")
        return self.table[task_of(key)].writing.write(sizes_of(key), member)

    def member(self, key: str, asked: str) -> Numbers:
        """ValueError for what belongs to another class, or is written in another way."""
        task, sizes, space = self.table[task_of(key)], sizes_of(key), self.space_of(key)
        found = task.writing.read(sizes, asked)
        inside = found is not None and all(n in some for n, some in zip(found, space.ranges, strict=True))
        if found is None or not inside or not space.fits(*found) or task.writing.write(sizes, found) != asked:
            raise ValueError(f"{asked} does not belong to {key}")
        return found

    def problem(self, key: str, asked: str) -> Problem:
        shown = self.table[task_of(key)].shown(sizes_of(key), self.member(key, asked))
        return shown.problem(key, asked)

    def predict(self, key: str, asked: str) -> Mapping[str, str]:
        from review.core.answers import judge  # all forms of answers: 15 ms, and no card needs them

        member = self.member(key, asked)
        task, sizes = self.table[task_of(key)], sizes_of(key)
        problem = self.problem(key, asked)
        found = task.predict(sizes, member).items()
        return {rule: given for rule, given in found if judge(problem, given) != "right"}

    def traits(self, key: str) -> Traits:
        task, sizes = self.table[task_of(key)], sizes_of(key)
        groups = frozenset({f"procedure-{key}", f"{kind_of(key)}-{task.group}"})
        return Traits(task.title(sizes), False, task.seconds, groups, choices=task.choices)
