"""Rules that were tried against our own, as in `trials`: several accounts of one child at once, each
weighed by how well it foretold what the child answered.

partners        a practice of a partner fact counts a little, by as much as this child's answers say
growth          several children's growths at once; the one that foretold this child best makes the plan
"""

from collections.abc import Sequence
from math import exp, log

from review.core import correction
from review.core.model import CardMemory, Habits, Settings
from review.core.parameter_search import scaled
from review.core.practice import Practice
from tests.benchmarks.learning.strategies import Setup

# --- partners -----------------------------------------------------------------------------------------


class Partners(Practice):
    """A card's stability is as if longer by a share for each time a partner was recalled since its own last
    try; the share is what explains this child's first tries best, of a few, with a prior towards none."""

    SHARES = (0.0, 0.05, 0.1, 0.2, 0.4)
    PRIOR = (0.5, 0.2, 0.15, 0.1, 0.05)
    MOST = 3

    kin: dict[str, tuple[str, ...]]
    since: dict[str, int]
    weight: list[float]

    def plan(self, day: int) -> list[str]:
        own, self._memory = self._memory, {key: self._lifted(key, m) for key, m in self._memory.items()}
        self._kept = {}
        try:
            return super().plan(day)
        finally:
            self._memory, self._kept = own, {}

    def recall(self, key: str, day: int) -> float | None:
        known = self._memory.get(key)
        return known and correction.recall(self._habits, self._lifted(key, known), day)

    def _share(self) -> float:
        total = sum(map(exp, self.weight))
        return sum(share * exp(w) for share, w in zip(self.SHARES, self.weight, strict=True)) / total

    def _lifted(self, key: str, known: CardMemory, share: float | None = None) -> CardMemory:
        times = min(self.MOST, self.since.get(key, 0))
        if not times or known.stability is None:
            return known
        by = self._share() if share is None else share
        return known._replace(stability=known.stability * (1 + by * times))

    def answer(
        self, key: str, right: bool, seconds: float, help: str | int, day: int,
        copy_seconds: float = 0.0, recalled: bool | None = None,
    ) -> bool:  # fmt: skip
        known = self._memory.get(key)
        first = known is None or known.seen_day != day
        if first and known is not None and known.stability is not None and self.since.get(key, 0):
            self._learn(key, known, day, right and not help)
        again = super().answer(key, right, seconds, help, day, copy_seconds, recalled)
        if first:
            self.since[key] = 0
            if right and not help:
                for other in self.kin.get(key, ()):
                    self.since[other] = self.since.get(other, 0) + 1
        return again

    def _learn(self, key: str, known: CardMemory, day: int, right: bool) -> None:
        for n, share in enumerate(self.SHARES):
            chance = correction.recall(self._habits, self._lifted(key, known, share), day) or 0.5
            self.weight[n] += log(max(0.02, chance if right else 1 - chance))
        top = max(self.weight)
        self.weight = [w - top for w in self.weight]


def with_partners(practice: Practice, setup: Setup) -> Practice:
    made = Partners(
        setup.course.cards, setup.minutes, setup.seed, practice.settings,
        traits=setup.course.traits.__getitem__,
    )  # fmt: skip
    keys = [card.key for card in setup.course.cards]
    made.kin = {key: tuple(keys[n] for n in setup.course.kin[place]) for place, key in enumerate(keys)}
    made.since, made.weight = {}, [log(p) for p in made.PRIOR]
    return made


# --- growth -------------------------------------------------------------------------------------------


class Growth:
    """Practices side by side, each with other parameters of the memory model; the one whose corrected recall
    foretold the first tries best makes the plan."""

    STEPS = ((0.0, 0.0, 0.0), (0.0, 0.35, 0.0), (0.0, -0.35, 0.0), (0.7, 0.0, 0.0), (-0.7, 0.0, 0.0))
    PRIOR = (0.4, 0.15, 0.15, 0.15, 0.15)

    def __init__(self, setup: Setup, settings: Settings) -> None:
        self.each = [
            Practice(
                setup.course.cards, setup.minutes, setup.seed,
                settings._replace(habits=Habits(parameters=scaled(step) if any(step) else ())),
                traits=setup.course.traits.__getitem__,
            )
            for step in self.STEPS
        ]  # fmt: skip
        self.weight = [log(p) for p in self.PRIOR]

    @property
    def best(self) -> Practice:
        return self.each[max(range(len(self.each)), key=self.weight.__getitem__)]

    def plan(self, day: int) -> list[str]:
        return self.best.plan(day)

    def recall(self, key: str, day: int) -> float | None:
        return self.best.recall(key, day)

    def answer(
        self, key: str, right: bool, seconds: float, help: str, day: int, copy_seconds: float = 0.0
    ) -> bool:
        known = self.best.memory.get(key)
        if known is None or known.seen_day != day:
            self._learn([one.recall(key, day) for one in self.each], right and not help)
        first, *_ = [one.answer(key, right, seconds, help, day, copy_seconds) for one in self.each]
        return first

    def _learn(self, chances: Sequence[float | None], right: bool) -> None:
        if None in chances:
            return
        for n, chance in enumerate(chances):
            held = min(0.98, max(0.02, chance or 0.0))
            self.weight[n] += log(held if right else 1 - held)
