"""Rules that were tried against our own, and what they would need of it: docs/learning.md has their figures.

show first      a new card is shown and copied, then asked after four others: no first sight, no probe
look ahead      the order of what is due by what a look now is worth over the coming weeks, each second of it
longer gaps     beyond two weeks, until recall has fallen further than we let it
after a break   what takes long comes last, and what was recalled once is asked again before anything new
"""

from collections.abc import Sequence
from math import exp, log
from typing import Any

from review.core import correction, curve, ground, new_cards, standing, strength
from review.core.ground import Basis, Ground
from review.core.model import CardMemory, Habits, Settings
from review.core.practice import Practice
from review.core.standing import Look
from review.core.strength import Strength
from review.core.warmup import PlanItem
from tests.benchmarks.learning.children import TOLD_S, Given, practise
from tests.benchmarks.learning.season import APART
from tests.benchmarks.learning.strategies import Day, Setup, Try

SHOWN_APART = 4  # other cards between the showing and the first question


# --- show first ---------------------------------------------------------------------------------------


class ShowFirst:
    """Walks the ranking like any other rule, but shows what is new before it asks."""

    def __init__(self, practice: Practice, setup: Setup, *, rated: bool) -> None:
        self.practice, self.setup, self.rated = practice, setup, rated
        self.first: set[str] = set()  # shown today, and to be asked for the first time

    def plan(self, day: int) -> list[str]:
        return self.practice.plan(day)

    def recall(self, key: str, day: int) -> float | None:
        return self.practice.recall(key, day)

    def answer(
        self, key: str, right: bool, seconds: float, help: str, day: int, copy_seconds: float = 0.0
    ) -> bool:
        return self.practice.answer(key, right, seconds, help, day, copy_seconds)

    def sit(self, day: int, met: set[str]) -> Day:
        self.first = set()
        left, again = list[str](), list[tuple[int, str]]()
        shown: dict[str, int] = {}
        tries: list[Try] = []
        spent, n, stale = 0.0, 0, True
        while spent < self.setup.minutes * 60:
            if stale:
                left, stale = [key for key in self.practice.plan(day) if key not in shown], False
            key = self._next(left, again, n)
            if key is None:
                break
            at, n = day + spent / 86_400, n + 1
            if key not in met:
                spent += self._show(key, day, at)
                again.append((n + SHOWN_APART, key))
                met.add(key)
                shown[key] = 0
                continue
            before = key not in self.first
            predicted = None if key in shown else self.practice.recall(key, day)
            given = self.setup.pupil.answer(self.setup.course.places[key], at, shown.get(key, 0))
            spent += given.seconds
            if self._keep(key, given, day):
                again.append((n + APART, key))
            if not shown.get(key, 0):
                tries.append((key, before, predicted, given))
            shown[key] = shown.get(key, 0) + 1
        return Day(spent, n, tuple(tries))

    def _next(self, left: list[str], again: list[tuple[int, str]], n: int) -> str | None:
        if again and (again[0][0] <= n or not left):
            return again.pop(0)[1]
        return left.pop(0) if left else None

    def _show(self, key: str, day: int, at: float) -> float:
        """Shown and copied: a meeting, and no answer. Seconds it took."""
        place, who = self.setup.course.places[key], self.setup.pupil.who
        practise(self.setup.pupil.memory, self.setup.course, place, at, "shown")
        self.first.add(key)
        self.practice._memory[key] = CardMemory(
            key, met_day=day, seen_day=day, seen_day_shows=1, intro_day=day, at=(day, 0, 0, 0)
        )
        return TOLD_S + who.copy_s * (2 + self.setup.course.digits[place]) / 4

    def _keep(self, key: str, given: Given, day: int) -> bool:
        """The first question of a card that was shown today is rated, or only teaches."""
        known, kept = key in self.first, self.practice._memory
        self.first.discard(key)
        if known and self.rated:
            kept[key] = kept[key]._replace(intro_day=0)
        again = self.practice.answer(key, given.right, given.seconds, given.help, day, given.copy_s)
        if known and self.rated:
            kept[key] = kept[key]._replace(intro_day=day)
        return again


# --- look ahead ---------------------------------------------------------------------------------------


class LookAhead(Practice):
    """Due cards in the order of what a look today is worth against one in a week, by second, where every card
    is looked at again whenever it is due until the horizon."""

    HORIZON, LATER, SLIP = 60, 7, False
    worth_day, worths = 0, dict[CardMemory, float]()

    def plan(self, day: int) -> list[str]:
        ranked = super().plan(day)
        known = {key: m for key in ranked if (m := self._memory.get(key)) and m.stability is not None}
        due = [key for key, m in known.items() if self._is_due(m, key, day)]
        slip = [key for key in known if key not in due] if self.SLIP else []
        return self._ordered(self._ordered(ranked, due, day), slip, day)

    def _ordered(self, ranked: list[str], some: list[str], day: int) -> list[str]:
        """These by their worth, in the places they have together; the others where they are."""
        worth = {key: self._worth(self._memory[key], day) for key in some}
        order = iter(sorted(some, key=lambda key: -worth[key]))
        return [next(order) if key in worth else key for key in ranked]

    def _is_due(self, known: CardMemory, key: str, day: int) -> bool:
        gap = standing.gap(known, self._morning, self._cards[key].aim)
        return standing.due_day(known, gap) <= day

    def _worth(self, known: CardMemory, day: int) -> float:
        """Reckoned once a day for each card that stays as it is."""
        if self.worth_day != day:
            self.worth_day, self.worths = day, {}
        if known not in self.worths:
            self.worths[known] = self._gained(known, day)
        return self.worths[known]

    def _gained(self, known: CardMemory, day: int) -> float:
        now, seconds = self._kept_up(known, day, 0)
        later, saved = self._kept_up(known, day, self.LATER)
        return (now - later) / max(1.0, seconds - saved + self._seconds(known, 0.9))

    def _kept_up(self, known: CardMemory, day: int, wait: int) -> tuple[float, float]:
        """The sum of recall until the horizon, and the seconds it took, if looked at after so many days."""
        at = Strength(known.stability or 1.0, known.difficulty or 5.0)
        ways, since, left, total, cost = self._morning.habits, day - known.last_day, self.HORIZON, 0.0, 0.0
        gap = wait
        while left > 0:
            gap = min(gap, left)
            total += gap * self._corrected(ways, known, at, since + gap / 2)
            left, since = left - gap, since + gap
            if left <= 0:
                break
            chance = self._corrected(ways, known, at, since)
            cost += self._seconds(known, chance)
            passed, failed = strength.moved(at, since, True), strength.moved(at, since, False)
            mean = exp(chance * log(passed.stability) + (1 - chance) * log(failed.stability))
            at = Strength(mean, chance * passed.difficulty + (1 - chance) * failed.difficulty)
            since, gap = 0, max(1, min(14, round(curve.interval(mean, 0.9))))
        return total, cost

    def _corrected(self, ways: Habits, known: CardMemory, at: Strength, days: float) -> float:
        seen = correction.lens(ways)
        level = correction.level(seen, known._replace(stability=at.stability))
        return correction.straightened(seen, level, curve.recall(at.stability, days))

    def _seconds(self, known: CardMemory, chance: float) -> float:
        passed = known.passed_ms or 4000
        return (chance * passed + (1 - chance) * 2.5 * (known.other_ms or 2 * passed)) / 1000


class LookFar(LookAhead):
    HORIZON = 120


class LookAtSlips(LookAhead):
    """The same for what is not due but likely to slip."""

    SLIP = True


class NearlyFirm(LookAhead):
    """Due cards in another order: those under .9, the surest first; then the others, the least sure first."""

    ALWAYS = True

    def plan(self, day: int) -> list[str]:
        ranked = Practice.plan(self, day)
        if not self.ALWAYS and not standing.is_back(self._memory.values(), day):
            return ranked
        known = {key: m for key in ranked if (m := self._memory.get(key)) and m.stability is not None}
        due = [key for key, m in known.items() if self._is_due(m, key, day)]
        chance = {key: self.recall_in_morning(key, day) for key in due}
        order = iter(sorted(due, key=lambda key: (chance[key] >= 0.9, abs(chance[key] - 0.9))))
        return [next(order) if key in chance else key for key in ranked]

    def recall_in_morning(self, key: str, day: int) -> float:
        return correction.recall(self._morning.habits, self._memory[key], day) or 0.0


class NearlyFirmBack(NearlyFirm):
    ALWAYS = False


class FarWhenBack(LookFar):
    """Only in the first two practised days after a week away."""

    def plan(self, day: int) -> list[str]:
        back = standing.is_back(self._memory.values(), day)
        return super().plan(day) if back else Practice.plan(self, day)


class AfterBreak(Practice):
    """While more than twice the minutes' worth is due, all that takes long comes last but for one; and what
    was recalled once after a gap much longer than any planned one is asked again before anything new."""

    CROWD, LONG_S, TRUSTED = 2, 10.0, 5

    def plan(self, day: int) -> list[str]:
        grounded: Any = self._grounded
        ground.ground = grounded
        try:
            return super().plan(day)
        finally:
            ground.ground = _GROUND

    def _grounded(self, basis: Basis) -> Ground:
        found = _GROUND(basis)
        again = [x for x in found.looks.values() if self._came_late(x, basis.settings, basis.day)]
        late = [ground._item(x, "slip", found.usual) for x in sorted(again, key=ground._lowest)]
        return found._replace(due=self._shortest_first(found.due, basis.minutes), early=[*found.early, *late])

    def _shortest_first(self, due: list[PlanItem], minutes: float) -> list[PlanItem]:
        if sum(item.seconds for item in due) <= self.CROWD * minutes * 60:
            return due
        long = [item for item in due if item.recall is not None and item.seconds > self.LONG_S][1:]
        last = {item.key for item in long}
        return [*(item for item in due if item.key not in last), *long]

    def _came_late(self, look: Look, settings: Settings, day: int) -> bool:
        known, its = look.memory, look.standing
        resting = its.state in ground.RESTING and its.due_in > settings.days_off
        if known is None or look.card.aim == "familiarity" or not resting:
            return False
        over = known.gap - curve.longest(max(0, known.capped - 1), settings.cap)
        return day - known.last_day >= self.TRUSTED and over >= standing.AWAY_DAYS


_GROUND = ground.ground


# --- gaps longer than two weeks ------------------------------------------------------------------------


class LongerGaps(Practice):
    """A gap beyond the first cap ends where recall has fallen to `FAR`, which was .95 until 29 November."""

    FAR = 0.95

    def plan(self, day: int) -> list[str]:
        ours, standing.FAR = standing.FAR, self.FAR
        try:
            return super().plan(day)
        finally:
            standing.FAR = ours


class ShorterGaps(LongerGaps):
    FAR = 0.98


# --- how many new cards, and how often looked at -----------------------------------------------------


class OneLook(Practice):
    """A new card that is right when it comes again the same day has had its turn."""

    def answer(self, key: str, right: bool, *rest: Any, **more: Any) -> bool:
        return super().answer(key, right, *rest, **more) and (
            not right or self._memory[key].seen_day_shows < 2
        )


class ManyProducts(Practice):
    """As many new products a week as other cards."""

    def plan(self, day: int) -> list[str]:
        few, new_cards._few = new_cards._few, self._unlimited
        try:
            return super().plan(day)
        finally:
            new_cards._few = few

    def _unlimited(
        self, new: Sequence[Look], week: Sequence[Look], every: Sequence[Look], a_week: int, left: int
    ) -> list[Look]:
        return _FEW(new, week, every, 1000, left)


class SoftProducts(ManyProducts):
    """The same, only while nothing else new is left."""

    def _unlimited(
        self, new: Sequence[Look], week: Sequence[Look], every: Sequence[Look], a_week: int, left: int
    ) -> list[Look]:
        alone = all(look.card.kind == "product" for look in new)
        return _FEW(new, week, every, 1000 if alone else a_week, left)


_FEW = new_cards._few
