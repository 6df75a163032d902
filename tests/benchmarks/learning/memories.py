"""What a child truly remembers. Four models after published accounts; none is the planner's own.

Each is asked for the chance that a card is recalled at a time, and told of each practice. Time is in days;
the fraction is what has passed of the sitting. `able` is the child's ability and `hard` the card's difficulty
for this child, both in standard deviations. Constants that the papers name are from memory. The others were
set by looking at the baselines only, so that five minutes a day are too few for all of 400 cards but not for
half of them, a card shown twice is mostly gone after 9 days, and going round in turn holds fewer cards at
.9 than five boxes do.
"""

from collections.abc import Callable, Mapping, Sequence
from math import exp, floor, log
from types import MappingProxyType
from typing import Literal, Protocol

How = Literal["retrieved", "worked", "shown"]
"""retrieved from memory; worked out, right; shown or told after a miss or with help."""

DAY_S = 86_400


class Memory(Protocol):
    def recall(self, card: int, at: float) -> float: ...

    def practise(self, card: int, at: float, how: How, share: float = 1.0) -> None: ...


MakeMemory = Callable[[Sequence[float], float], Memory]


def logistic(x: float) -> float:
    return 1 / (1 + exp(-x)) if x > -30 else 0.0


class Activation:
    """Base-level activation with a decay that depends on the activation at practice (Pavlik & Anderson 2005).

    m = ln of the sum of age^-d; d = c e^m + a; recall = 1 / (1 + e^((tau - m) / s)). A day away counts
    as .025 of one.
    """

    SCALE, BASE, THRESHOLD, NOISE, AWAY = 0.217, 0.177, -0.704, 0.255, 0.025
    LESSON = 0.35  # what a lesson adds to one look (set here)
    ABLE, HARD = 0.22, 0.22
    WEIGHT: Mapping[How, float] = MappingProxyType(
        {"retrieved": 1.0, "worked": 0.8, "shown": 0.5}
    )  # our judgement

    def __init__(self, hard: Sequence[float], able: float) -> None:
        self._shift = [self.LESSON + self.ABLE * able - self.HARD * x for x in hard]
        self._traces: list[list[tuple[float, float, float]]] = [[] for _ in hard]

    def recall(self, card: int, at: float) -> float:
        m = self._active(card, self._second(at)) + self._shift[card]
        return logistic((m - self.THRESHOLD) / self.NOISE)

    def practise(self, card: int, at: float, how: How, share: float = 1.0) -> None:
        now = self._second(at)
        decay = self.SCALE * exp(min(0.5, self._active(card, now))) + self.BASE
        self._traces[card].append((now, -decay, share * self.WEIGHT[how]))

    def _second(self, at: float) -> float:
        day = floor(at)
        return (day * self.AWAY + min(self.AWAY, at - day)) * DAY_S

    def _active(self, card: int, now: float) -> float:
        total = sum([weight * max(1.0, now - at) ** decay for at, decay, weight in self._traces[card]])
        return log(total) if total > 0 else -100.0


class Equation:
    """The predictive performance equation (Walsh, Gluck, Gunzelmann, Jastrzembski & Krusmark 2018).

    M = N^c T^-d, where T weighs ages by age^-x and d = b + m times the mean of 1 / ln(lag + e);
    recall = 1 / (1 + e^((tau - M) / s)). c and x are the paper's; the rest it fits to each study, and we
    set. The first practice has no lag; it counts here as FIRST, or a second one would harm. N counts from 1.
    """

    POWER, AGES, BASE, SPACING, THRESHOLD, NOISE = 0.1, 0.6, 0.02, 0.13, 0.56, 0.07
    FIRST = 0.7
    ABLE, HARD = 0.05, 0.05
    WEIGHT: Mapping[How, float] = MappingProxyType(
        {"retrieved": 1.0, "worked": 0.8, "shown": 0.5}
    )  # our judgement

    def __init__(self, hard: Sequence[float], able: float) -> None:
        self._threshold = [self.THRESHOLD - self.ABLE * able + self.HARD * x for x in hard]
        self._times: list[list[tuple[float, float]]] = [[] for _ in hard]
        self._lags = [0.0 for _ in hard]

    def recall(self, card: int, at: float) -> float:
        if not self._times[card]:
            return 0.0
        now = at * DAY_S
        ages = [(max(1.0, now - then), weight) for then, weight in self._times[card]]
        weights = [(weight * age**-self.AGES, age) for age, weight in ages]
        age = sum([w * a for w, a in weights]) / sum([w for w, _ in weights])
        n = sum([weight for _, weight in ages])
        decay = self.BASE + self.SPACING * self._lags[card] / n
        return logistic(((n + 1) ** self.POWER * age**-decay - self._threshold[card]) / self.NOISE)

    def practise(self, card: int, at: float, how: How, share: float = 1.0) -> None:
        now, weight, times = at * DAY_S, share * self.WEIGHT[how], self._times[card]
        lag = 1 / log(max(1.0, now - times[-1][0]) + 2.718282) if times else self.FIRST
        self._lags[card] += weight * lag
        times.append((now, weight))


class Scales:
    """Leaky integrators over many time scales (Mozer, Pashler, Cepeda, Lindsey & Vul 2009).

    s_i is the weighted mean of the integrators up to scale i; practice adds (1 - s_i), more when retrieved;
    recall is s of the slowest, here times CLEAR, at most 1: else nobody would be firm after a month. How
    many integrators there are, their times and weights are ours.
    """

    TIMES = tuple(0.003 * 3.2**i for i in range(12))  # days: from 4 minutes to 1100 days
    WEIGHTS = tuple(0.9**i for i in range(12))
    CLEAR = 1.3
    ABLE, HARD = 0.3, 0.3
    GAIN: Mapping[How, float] = MappingProxyType(
        {"retrieved": 0.5, "worked": 0.3, "shown": 0.16}
    )  # the paper: 9 to 1; set here

    def __init__(self, hard: Sequence[float], able: float) -> None:
        self._rate = [exp(self.ABLE * able - self.HARD * x) for x in hard]
        self._levels: list[list[float]] = [[] for _ in hard]
        self._at = [0.0 for _ in hard]
        self._sums = [sum(self.WEIGHTS[: i + 1]) for i in range(len(self.WEIGHTS))]

    def recall(self, card: int, at: float) -> float:
        levels = self._levels[card]
        if not levels:
            return 0.0
        age = self._at[card] - at
        total = sum([w * x * exp(age / t) for w, x, t in zip(self.WEIGHTS, levels, self.TIMES, strict=True)])
        return min(1.0, self.CLEAR * total / self._sums[-1])

    def practise(self, card: int, at: float, how: How, share: float = 1.0) -> None:
        levels = self._levels[card] or [0.0] * len(self.TIMES)
        age = min(0.0, self._at[card] - at) if self._levels[card] else 0.0
        gain, total = share * self.GAIN[how] * self._rate[card], 0.0
        new = []
        for weight, level, time, upto in zip(self.WEIGHTS, levels, self.TIMES, self._sums, strict=True):
            now = level * exp(age / time)
            total += weight * now
            new.append(now + gain * max(0.0, 1 - total / upto))
        self._levels[card], self._at[card] = new, at


class Strengths:
    """Storage and retrieval strength (Bjork & Bjork 1992), in figures of our own.

    Storage never falls, and grows the more the less a card could be retrieved; retrieval starts again at 1
    and falls along a curve whose shape is the child's own, between exponential and power (Wixted & Ebbesen
    1991).
    """

    FIRST = 0.5  # days until recall is .8 after the first look
    GROWTH = 2.5
    SLOWING = 0.12  # storage grows less the more there is
    ABLE, HARD = 0.35, 0.35
    GAIN: Mapping[How, float] = MappingProxyType(
        {"retrieved": 1.0, "worked": 0.6, "shown": 0.2}
    )  # our judgement

    def __init__(self, hard: Sequence[float], able: float) -> None:
        self._scale = [exp(self.ABLE * able - self.HARD * x) for x in hard]
        self._shape = 1.0 * exp(0.6 * (7.13 * able % 2 - 1))  # the child's own, unrelated to ability
        self._factor = 0.8 ** (-1 / self._shape) - 1
        self._storage = [0.0 for _ in hard]
        self._at = [0.0 for _ in hard]  # when retrieval was 1

    def recall(self, card: int, at: float) -> float:
        if not self._storage[card]:
            return 0.0
        age = (at - self._at[card]) / self._storage[card]
        return float((1 + self._factor * age) ** -self._shape)

    def practise(self, card: int, at: float, how: How, share: float = 1.0) -> None:
        old, now = self._storage[card], self.recall(card, at)
        if old:
            gain = share * self.GAIN[how] * self.GROWTH * self._scale[card] ** 0.5
            self._storage[card] = old * (1 + gain * (1 - now) * old**-self.SLOWING)
        else:
            self._storage[card] = self.FIRST * self._scale[card] * max(0.2, share)
        level = now + (1 - now) * share  # a part of a practice goes a part of the way back up the curve
        age = (level ** (-1 / self._shape) - 1) / self._factor
        self._at[card] = at - age * self._storage[card]


MEMORIES: dict[str, MakeMemory] = {
    "activation": Activation,
    "equation": Equation,
    "scales": Scales,
    "strengths": Strengths,
}
