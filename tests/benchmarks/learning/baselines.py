"""Rules to be better than, and some that see the truth.

Each is in its strong form: marks count speed where the aim is fluency (a slow right answer was worked out,
not retrieved; by the same limit as our own marks), a miss or a new card not known gets two more looks
that day, and new cards come as soon as nothing is due.
"""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from math import ceil
from random import Random

from review.core.marking import slow_ms
from tests.benchmarks.learning.children import AGE
from tests.benchmarks.learning.courses import fluent
from tests.benchmarks.learning.strategies import Make, Setup, Strategy

LOOKS = 2
SLOW_S = slow_ms(AGE) / 1000


class Plain:
    """What the baselines share: who was met, when, and the looks of a day."""

    new_a_day = 10_000  # as many as the minutes hold

    def __init__(self, setup: Setup) -> None:
        self.cards = [card.key for card in setup.course.cards]
        self.fluent = fluent(setup.course)
        self.seed = setup.seed
        self.due: dict[str, int] = {}  # of every card that was met
        self.seen: dict[str, int] = {}
        self.shows: dict[str, int] = {}
        self.begun: list[int] = []  # days on which a card was new and not known

    def plan(self, day: int) -> list[str]:
        left = max(0, self.new_a_day - self.begun.count(day))
        return self.ranked(day) + [key for key in self.cards if key not in self.due][:left]

    def ranked(self, day: int) -> list[str]:
        """What is due, the longest overdue first."""
        due = [key for key, when in self.due.items() if when <= day and self.seen[key] < day]
        return sorted(due, key=lambda key: (self.due[key], key))

    def recall(self, key: str, day: int) -> float | None:
        return None

    def answer(
        self, key: str, right: bool, seconds: float, help: str, day: int, copy_seconds: float = 0.0
    ) -> bool:
        first, new = self.seen.get(key) != day, key not in self.due
        self.shows[key] = 1 if first else self.shows[key] + 1
        self.seen[key] = day
        unaided = right and not help
        if first:
            slow = key in self.fluent and seconds - copy_seconds > SLOW_S
            self.due[key] = day + self.gap(key, right, bool(help), slow, day)
            if new and not unaided:
                self.begun.append(day)
        return self.shows[key] <= LOOKS and (not unaided or (not first and self.shows[key] <= LOOKS))

    def gap(self, key: str, right: bool, helped: bool, slow: bool, day: int) -> int:
        """Days until it is due again, after a first try."""
        return 1


class NoReview(Plain):
    """A straw man, for testing the bench: every card once, then never again."""

    def gap(self, key: str, right: bool, helped: bool, slow: bool, day: int) -> int:
        return 10_000


class ByChance(Plain):
    """Any card of the course, by chance."""

    def plan(self, day: int) -> list[str]:
        cards = [key for key in self.cards if self.seen.get(key) != day]
        Random(f"{self.seed}|{day}").shuffle(cards)
        return cards


class InTurn(Plain):
    """One after the other, round and round."""

    def plan(self, day: int) -> list[str]:
        turn = sorted(self.cards, key=lambda key: self.seen.get(key, 0))
        return [key for key in turn if self.seen.get(key) != day]


class FiveBoxes(Plain):
    """Leitner 1972: one box up when retrieved, back to the first when not; lower boxes first."""

    GAPS = (1, 2, 4, 8, 16)

    def __init__(self, setup: Setup) -> None:
        super().__init__(setup)
        self.box: dict[str, int] = {}

    def ranked(self, day: int) -> list[str]:
        return sorted(super().ranked(day), key=lambda key: self.box[key])

    def gap(self, key: str, right: bool, helped: bool, slow: bool, day: int) -> int:
        got = right and not helped and not slow
        self.box[key] = min(self.box.get(key, -1) + 1, len(self.GAPS) - 1) if got else 0
        return self.GAPS[self.box[key]]


class Doubling(Plain):
    """The gap doubles when retrieved, and begins again at a day when not."""

    def __init__(self, setup: Setup) -> None:
        super().__init__(setup)
        self.gaps: dict[str, int] = {}

    def gap(self, key: str, right: bool, helped: bool, slow: bool, day: int) -> int:
        got = right and not helped and not slow
        self.gaps[key] = 2 * self.gaps[key] if got and key in self.gaps else 1
        return self.gaps[key]


class Easiness(Plain):
    """The easiness factor (Wozniak 1990), with its published formula: gaps of 1 and 6 days, then times the
    factor."""

    def __init__(self, setup: Setup) -> None:
        super().__init__(setup)
        self.kept: dict[str, tuple[float, int, int]] = {}  # factor, times running, gap

    def gap(self, key: str, right: bool, helped: bool, slow: bool, day: int) -> int:
        self.kept[key] = eased(self.kept.get(key, (2.5, 0, 0)), quality(right, helped, slow))
        return self.kept[key][2]


def quality(right: bool, helped: bool, slow: bool) -> int:
    """0 to 5 as the formula asks for; below 3 begins again."""
    return 1 if not right else 2 if helped or slow else 5


def eased(old: tuple[float, int, int], quality: int) -> tuple[float, int, int]:
    """(factor, times running, gap) after an answer. As published: below 3 the factor stays; gaps are rounded
    up."""
    factor, times, gap = old
    if quality < 3:
        return factor, 0, 1
    factor = max(1.3, factor + 0.1 - (5 - quality) * (0.08 + (5 - quality) * 0.02))
    return factor, times + 1, (1, 6)[times] if times < 2 else ceil(gap * factor)


class DueOnly(Plain):
    """The memory library as it comes: its own parameters, target .9, right or not, and what is due first,
    lowest recall first."""

    new_a_day = 10  # 3 and 5 hold less, more than 10 hold no more (measured here)

    def __init__(self, setup: Setup) -> None:
        from fsrs import Card, Scheduler

        super().__init__(setup)
        self.scheduler = Scheduler(
            desired_retention=0.9, learning_steps=(), relearning_steps=(), enable_fuzzing=False
        )
        self.blank = Card
        self.kept: dict[str, Card] = {}

    def ranked(self, day: int) -> list[str]:
        return sorted(super().ranked(day), key=lambda key: self.recall(key, day) or 0.0)

    def recall(self, key: str, day: int) -> float | None:
        if key not in self.kept:
            return None
        return float(self.scheduler.get_card_retrievability(self.kept[key], _noon(day)))

    def gap(self, key: str, right: bool, helped: bool, slow: bool, day: int) -> int:
        from fsrs import Rating

        rating = Rating.Good if right and not helped else Rating.Again
        old = self.kept.get(key) or self.blank(card_id=1)
        self.kept[key], _ = self.scheduler.review_card(old, rating, _noon(day))
        return max(1, (self.kept[key].due - _noon(day)).days)


class DueOnlyBySpeed(DueOnly):
    """The same, where a slow right answer of a fluency card is none."""

    def gap(self, key: str, right: bool, helped: bool, slow: bool, day: int) -> int:
        return super().gap(key, right and not slow, helped, slow, day)


def _noon(day: int) -> datetime:
    return datetime(2000, 1, 1, 12, tzinfo=UTC) + timedelta(days=day)


class Seeing(Plain):
    """What the child truly recalls, below a line, lowest or highest first; then new cards. `by_aim`: recall
    as each card's aim asks for it, not from memory alone."""

    def __init__(self, setup: Setup, below: float, highest: bool, by_aim: bool = False) -> None:
        super().__init__(setup)
        self.way = int(by_aim)
        self.pupil, self.below, self.sign = setup.pupil, below, -1 if highest else 1
        self.places = setup.course.places

    def ranked(self, day: int) -> list[str]:
        truth = {
            key: self.pupil.chances(self.places[key], day)[self.way]
            for key in self.due
            if self.seen[key] < day
        }
        low = [key for key, chance in truth.items() if chance < self.below]
        return sorted(low, key=lambda key: self.sign * truth[key])


def paced(kind: type[Plain], new_a_day: int) -> Callable[[Setup], Strategy]:
    def make(setup: Setup) -> Strategy:
        rule = kind(setup)
        rule.new_a_day = new_a_day
        return rule

    return make


BASELINES: dict[str, Make] = {
    "by-chance": ByChance,
    "in-turn": InTurn,
    "five-box": FiveBoxes,
    "five-box:accuracy": lambda setup: unhurried(FiveBoxes(setup)),
    "doubling": Doubling,
    "easiness": Easiness,
    "due-only": DueOnly,
    "truth-90": lambda setup: Seeing(setup, 0.9, highest=False),
    "truth-90:highest": lambda setup: Seeing(setup, 0.9, highest=True),
    "truth-80": lambda setup: Seeing(setup, 0.8, highest=True),
    "aim-90": lambda setup: Seeing(setup, 0.9, highest=False, by_aim=True),
    "aim-90:highest": lambda setup: Seeing(setup, 0.9, highest=True, by_aim=True),
    "aim-80": lambda setup: Seeing(setup, 0.8, highest=True, by_aim=True),
}

ALSO: dict[str, Make] = {
    "never": NoReview,
    "five-box:5-new": paced(FiveBoxes, 5),
    "five-box:10-new": paced(FiveBoxes, 10),
    "due-only:speed": DueOnlyBySpeed,
    "due-only:3-new": paced(DueOnly, 3),
    "due-only:5-new": paced(DueOnly, 5),
    "due-only:all-new": paced(DueOnly, 10_000),
}
"""Weaker or other forms, to show that those above are the strong ones."""


def unhurried(rule: Plain) -> Strategy:
    rule.fluent = frozenset()
    return rule
