"""Rules that were tried for courses too large for the minutes; docs/learning.md has their figures.

There what a child works out is not told from what it recalls, and a card seems known that has faded.
"""

from typing import Any, NamedTuple

from review.core import habits, marking, plan, standing
from review.core.ground import Ground
from review.core.model import Answer, Habits
from review.core.practice import Practice
from review.core.warmup import PlanItem

_MUST_WAIT, _EFFECT, _SURENESS = plan._must_wait, marking.effect, habits.sureness


class Fewer(Practice):
    """New cards wait while less than `SHARE` of the day is expected right."""

    SHARE = 0.92

    def plan(self, day: int) -> list[str]:
        plan._must_wait = self._wait
        try:
            return super().plan(day)
        finally:
            plan._must_wait = _MUST_WAIT

    def _wait(self, ground: Ground, ends: list[PlanItem]) -> bool:
        asked = ground.basis.settings._replace(target=self.SHARE)
        return _MUST_WAIT(ground._replace(basis=ground.basis._replace(settings=asked)), ends)


class Fewest(Fewer):
    SHARE = 0.94


class ByLoad(Fewer):
    """New cards wait while the met ones, each asked once a gap, would fill over `LOAD` of the minutes."""

    LOAD = 0.7
    UNMEASURED_S, USUAL_MS = 10.0, 4000

    def _wait(self, ground: Ground, ends: list[PlanItem]) -> bool:
        full = self._load() > self.LOAD * ground.basis.minutes * 60
        return full or _MUST_WAIT(ground, ends)

    def _load(self) -> float:
        """Expected seconds a day."""
        return sum(self._seconds(key) for key in self._memory)

    def _seconds(self, key: str) -> float:
        known = self._memory[key]
        if known.stability is None:
            return self.UNMEASURED_S
        gap = standing.gap(known, self._morning, self._cards[key].aim)
        return (known.passed_ms or known.other_ms or self.USUAL_MS) / 1000 / gap


class HalfLoad(ByLoad):
    LOAD = 0.5


class Timing(NamedTuple):
    """By its time, how likely a right answer came from memory: how much that counts."""

    share: float

    def sureness(self, habits: Habits, answer: Answer, recall: float | None) -> float:
        limit = answer.slow_ms or marking.slow_ms(answer.age)
        sure = _SURENESS(habits, answer._replace(aim="fluency", slow_ms=limit), recall)
        return 1 - self.share * (1 - sure) if sure else 0.0


def _weighed(answer: Answer) -> marking.Effect:
    effect = _EFFECT(answer)
    return "weighed" if effect == "retrieved" else effect


class ByTime(Practice):
    """A right answer to any fact is weighed by its time, also where the aim is accuracy, after so many days
    on which it came; the marks stay."""

    DAYS, SHARE = marking.RETRIEVED_DAYS, 1.0

    def answer(self, key: str, *given: Any, **more: Any) -> bool:
        if not self._timed(key):
            return super().answer(key, *given, **more)
        habits.sureness = Timing(self.SHARE).sureness
        marking.effect = _weighed
        try:
            return super().answer(key, *given, **more)
        finally:
            habits.sureness, marking.effect = _SURENESS, _EFFECT

    def _timed(self, key: str) -> bool:
        known, traits = self._memory.get(key), self._traits(key)
        asked = known is not None and known.stability is not None and known.right_days >= self.DAYS
        return asked and traits.fact and not traits.choices and self._cards[key].aim == "accuracy"


class ByTimeHalf(ByTime):
    SHARE = 0.5


class ByTimeAtOnce(ByTime):
    DAYS = 0
