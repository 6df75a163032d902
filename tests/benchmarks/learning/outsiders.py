"""Five more accounts of what a child remembers, on which nothing of the program was tuned.

They came last: no rule, weight or constant was chosen by looking at them. They are published accounts too;
their constants, where a paper fits them to each study, are set as in `memories.py`, by the baselines. (Drafts
of the five were played by our rule too, with two children each, before that.)
"""

from collections.abc import Mapping, Sequence
from math import exp, log
from types import MappingProxyType

from tests.benchmarks.learning.memories import MEMORIES, How, MakeMemory, logistic

WEIGHT: Mapping[How, float] = MappingProxyType(
    {"retrieved": 1.0, "worked": 0.7, "shown": 0.35}
)  # of a practice, where nothing else is said (our judgement)


class Halving:
    """Exponential forgetting, at a rate that each practice changes (as in Tabibian, Upadhyay, De, Zarezade,
    Schölkopf & Gomez-Rodriguez 2019, from memory): recall is 2^(-age / half-life). By how much is ours.

    A practice makes the half-life longer, the most where recall was near a half; one that was not retrieved
    adds the more the more was lost.
    """

    FIRST, GROWTH, LEAST, REPAIR, LONGEST = 1.0, 6.0, 0.15, 0.6, 400.0  # days; times; times; times; days
    ABLE, HARD = 0.35, 0.35

    def __init__(self, hard: Sequence[float], able: float) -> None:
        self._scale = [exp(self.ABLE * able - self.HARD * x) for x in hard]
        self._half = [0.0 for _ in hard]
        self._at = [0.0 for _ in hard]

    def recall(self, card: int, at: float) -> float:
        half = self._half[card]
        return 2 ** (-max(0.0, at - self._at[card]) / half) if half else 0.0

    def practise(self, card: int, at: float, how: How, share: float = 1.0) -> None:
        now, half = self.recall(card, at), self._half[card]
        if not half:
            self._half[card] = self.FIRST * self._scale[card] * max(0.2, share)
        else:
            kept = (
                self.GROWTH * self._scale[card] ** 0.4 * (self.LEAST + now)
                if how == "retrieved"
                else self.REPAIR
            )
            self._half[card] = min(self.LONGEST, half * (1 + share * WEIGHT[how] * kept * (1 - now)))
        self._at[card] = at


class Windows:
    """Counts in windows of an hour, a day, a week, a month and ever (Lindsey, Shroyer, Pashler & Mozer 2014).

    The logit of recall is ability less difficulty, with a weighed logarithm of 1 + practices and one of
    1 + retrievals for each window. What comes within half an hour of the last look counts a seventh (ours:
    the paper has one try a sitting).
    """

    SPANS = (1 / 24, 1.0, 7.0, 30.0, 10_000.0)
    TRIES = (0.1, 0.1, 0.15, 0.2, 0.2)
    RETRIEVED = (0.2, 0.45, 0.75, 0.9, 0.9)
    BASE, SOON, AGAIN = -2.2, 0.02, 0.15
    GOT: Mapping[How, float] = MappingProxyType({"retrieved": 1.0, "worked": 0.5, "shown": 0.1})
    ABLE, HARD = 0.6, 0.6

    def __init__(self, hard: Sequence[float], able: float) -> None:
        self._base = [self.BASE + self.ABLE * able - self.HARD * x for x in hard]
        self._looks: list[list[tuple[float, float, float]]] = [[] for _ in hard]

    def recall(self, card: int, at: float) -> float:
        looks = self._looks[card]
        if not looks:
            return 0.0
        sums = self._base[card]
        for span, of_tries, of_retrieved in zip(self.SPANS, self.TRIES, self.RETRIEVED, strict=True):
            within = [(tried, got) for when, tried, got in looks if at - when <= span]
            sums += of_tries * log(1 + sum([tried for tried, _ in within]))
            sums += of_retrieved * log(1 + 1.3 * sum([got for _, got in within]))
        return logistic(sums)

    def practise(self, card: int, at: float, how: How, share: float = 1.0) -> None:
        looks = self._looks[card]
        weight = share * (self.AGAIN if looks and at - looks[-1][0] < self.SOON else 1.0)
        looks.append((at, weight * WEIGHT[how], weight * self.GOT[how]))


class Traces:
    """A trace for each practice; a card is recalled where any of its traces is (multiple traces, as in
    Hintzman 1976; from memory).

    Each is kept along a power curve of its own, the slower the longer the card was known when it was laid
    down, and is the weaker the better the card was recalled then (as in Thios & D'Agostino 1976).
    """

    MOST, FIRST, AGES, SHAPE = 14, 0.8, 1.1, 0.9
    ABLE, HARD = 0.4, 0.4

    def __init__(self, hard: Sequence[float], able: float) -> None:
        self._scale = [exp(self.ABLE * able - self.HARD * x) for x in hard]
        self._traces: list[list[tuple[float, float, float]]] = [[] for _ in hard]

    def recall(self, card: int, at: float) -> float:
        lost = 1.0
        for when, strong, days in self._traces[card]:
            lost *= 1 - strong * (1 + max(0.0, at - when) / days) ** -self.SHAPE
        return 1 - lost

    def practise(self, card: int, at: float, how: How, share: float = 1.0) -> None:
        traces, now = self._traces[card], self.recall(card, at)
        age = max(0.01, at - traces[0][0]) if traces else 0.0
        days = self._scale[card] * (self.FIRST + self.AGES * age**0.75)
        strong = share * (WEIGHT[how] * (0.8 - 0.35 * now) if traces else 0.68)
        traces.append((at, strong, days))
        if len(traces) > self.MOST:
            del traces[1]  # the first one tells since when the card is known


class Stages:
    """A card is not learned, or held for a while, for weeks, or for good, all or none (Atkinson & Crothers
    1964, with forgetting from each stage as in Rumelhart 1967; from memory): the chances of each stage.
    """

    DAYS = (3.0, 30.0, 1000.0)
    LEARNED: Mapping[How, float] = MappingProxyType(
        {"retrieved": 1.0, "worked": 0.85, "shown": 0.75}
    )  # of what was in no stage; as much of a step is made
    AT_ONCE = 0.3  # of it, goes to the second stage
    STEP, STEP_ON = 0.9, 0.7  # of what is in the first stage, and in the second, where it is well spaced
    APART, APART_ON = 0.5, 2.0  # days
    ABLE, HARD = 0.4, 0.4

    def __init__(self, hard: Sequence[float], able: float) -> None:
        self._scale = [exp(self.ABLE * able - self.HARD * x) for x in hard]
        self._held = [(0.0, 0.0, 0.0) for _ in hard]
        self._at = [0.0 for _ in hard]

    def recall(self, card: int, at: float) -> float:
        return sum(self._now(card, at))

    def practise(self, card: int, at: float, how: How, share: float = 1.0) -> None:
        short, weeks, good = self._now(card, at)
        age, weight = max(0.0, at - self._at[card]), share * self.LEARNED[how]
        on = weight * self.STEP * (1 - exp(-age / self.APART)) * short
        further = weight * self.STEP_ON * (1 - exp(-age / self.APART_ON)) * weeks
        fresh = weight * (1 - short - weeks - good)
        once = self.AT_ONCE * fresh
        self._held[card] = short + fresh - once - on, weeks + once + on - further, good + further
        self._at[card] = at

    def _now(self, card: int, at: float) -> tuple[float, float, float]:
        age = max(0.0, at - self._at[card]) / self._scale[card]
        of_stage = zip(self._held[card], self.DAYS, strict=True)
        short, weeks, good = (held * exp(-age / days) for held, days in of_stage)
        return short, weeks, good


class Fragility:
    """One trace (Wickelgren 1974, from memory): strength · (1 + 4 · age)^-fragility; recall is 1 - e^-that.

    A practice begins the age anew, makes the trace stronger, and less fragile the longer the last one lies
    back and the more was lost.
    """

    FIRST, GROWTH, STRONGEST = 2.0, 0.4, 6.0
    FRAGILE, FIRMER, LEAST = 0.75, 0.25, 0.04
    ABLE, HARD = 0.3, 0.3

    def __init__(self, hard: Sequence[float], able: float) -> None:
        self._scale = [exp(self.ABLE * able - self.HARD * x) for x in hard]
        self._strength = [0.0 for _ in hard]
        self._fragile = [self.FRAGILE for _ in hard]
        self._at = [0.0 for _ in hard]

    def recall(self, card: int, at: float) -> float:
        return 1 - exp(-self._now(card, at))

    def practise(self, card: int, at: float, how: How, share: float = 1.0) -> None:
        old, now, weight = self._strength[card], self._now(card, at), share * WEIGHT[how]
        if old:
            apart = 1 - exp((self._at[card] - at) / 3)
            self._strength[card] = min(self.STRONGEST, old + weight * self.GROWTH * self._scale[card] * apart)
            firmer = weight * self.FIRMER * apart * exp(-now / 4)
            self._fragile[card] = max(self.LEAST, self._fragile[card] * (1 - firmer))
        else:
            self._strength[card] = self.FIRST * self._scale[card]
        level = now + (self._strength[card] - now) * share  # a part of a practice goes a part of the way back
        age = ((self._strength[card] / level) ** (1 / self._fragile[card]) - 1) / 4
        self._at[card] = at - age

    def _now(self, card: int, at: float) -> float:
        age = max(0.0, at - self._at[card])
        return float(self._strength[card] * (1 + 4 * age) ** -self._fragile[card])


OUTSIDERS: dict[str, MakeMemory] = {
    "halving": Halving,
    "windows": Windows,
    "traces": Traces,
    "stages": Stages,
    "fragility": Fragility,
}
ACCOUNTS = {**MEMORIES, **OUTSIDERS}
