"""What every rule offers, and where one gets it by its name."""

from collections.abc import Callable
from typing import NamedTuple, Protocol, runtime_checkable

from tests.benchmarks.learning.children import Given, Pupil
from tests.benchmarks.learning.courses import Course


class Strategy(Protocol):
    """As `review.core.practice.Practice`: cards best first, then each answer; True shows it again today."""

    def plan(self, day: int) -> list[str]: ...

    def answer(
        self, key: str, right: bool, seconds: float, help: str, day: int, copy_seconds: float = 0.0
    ) -> bool: ...

    def recall(self, key: str, day: int) -> float | None: ...


Try = tuple[str, bool, float | None, Given]
"""A first try: the card, whether it was met before that day, the predicted recall, what the child gave."""


class Day(NamedTuple):
    seconds: float
    answers: int
    tries: tuple[Try, ...]


@runtime_checkable
class Sits(Protocol):
    """A rule that has a way of its own through a day; the others are walked from the top of their ranking."""

    def sit(self, day: int, met: set[str]) -> Day: ...


class Setup(NamedTuple):
    """What a rule starts from. Only those that see the truth look at the pupil."""

    course: Course
    minutes: float
    seed: str
    pupil: Pupil


Make = Callable[[Setup], Strategy]


def named(name: str) -> Make:
    """The maker of a rule; ValueError with all names for one there is not."""
    from tests.benchmarks.learning.baselines import ALSO, BASELINES
    from tests.benchmarks.learning.variants import VARIANTS

    made = {**BASELINES, **ALSO, **VARIANTS}
    if name not in made:
        raise ValueError(f"There is no strategy “{name}”. There are: {', '.join(sorted(made))}.")
    return made[name]


def names() -> list[str]:
    from tests.benchmarks.learning.baselines import BASELINES

    return ["review", *BASELINES]
