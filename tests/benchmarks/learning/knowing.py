"""What can be known of a child from its answers: references that know everything but what they cannot see.

They know the model of memory with its constants, the child's ability, speed and habits, how hard each card is
for most children, which cards are partners, and every answer with its time. They do not see whether an answer
came from memory, nor how hard a card is for this child, nor what it knew before. Of each card they carry some
possible pasts, weighed by the answers (a particle filter: Gordon, Salmond & Smith 1993, from memory). No
program could know as much of a real child, so that what these miss of the rules that see the truth, no rule
can be asked for.
"""

from collections import Counter
from collections.abc import Collection, Sequence
from copy import copy
from functools import cache
from math import exp, log
from random import Random
from typing import NamedTuple

from tests.benchmarks.learning.baselines import Plain
from tests.benchmarks.learning.children import Given, Pupil, practise, remembering
from tests.benchmarks.learning.memories import MEMORIES, How, Memory
from tests.benchmarks.learning.strategies import Setup

PASTS = 24  # of each card (this and the next three are our judgement)
DRAWS = 400  # answers played beforehand for each way to one
WIDE = 0.15  # of the logarithm of seconds: what is taken as the same time
LEAST = 1e-4  # chance of a time that never came
CAUTION = 0.5
"""How much an answer counts for one model against another: no model is quite right (our judgement)."""


class Way(NamedTuple):
    """How an answer came about, which nobody sees, and what is seen of it but for the time."""

    retrieved: bool
    how: How
    right: bool
    helped: bool


Ways = dict[Way, tuple[float, dict[int, float]]]
"""The chance of a way, given that the card was retrieved or that it was not; and that of each time."""


def ways(pupil: Pupil, place: int) -> Ways:
    """How such an answer of this child comes about, by playing it."""
    random = Random(f"ways|{pupil.who.seed}|{place}")
    found: dict[Way, list[int]] = {}
    for retrieved in (True, False):
        for _ in range(DRAWS):
            way, seconds = _played(pupil, place, retrieved, random)
            found.setdefault(way, []).append(_bin(seconds))
    return {way: (len(times) / DRAWS, _smoothed(times)) for way, times in found.items()}


def _played(pupil: Pupil, place: int, retrieved: bool, random: Random) -> tuple[Way, float]:
    given, how = pupil.play(place, retrieved, random)
    return Way(retrieved, how, given.right, bool(given.help)), given.seconds


def _bin(seconds: float) -> int:
    return round(log(max(0.1, seconds)) / WIDE)


def _smoothed(times: Sequence[int]) -> dict[int, float]:
    """The share of each time, with some of its neighbours'."""
    found: dict[int, float] = {}
    for time, count in Counter(times).items():
        for off, share in ((-2, 0.1), (-1, 0.2), (0, 0.4), (1, 0.2), (2, 0.1)):
            found[time + off] = found.get(time + off, 0.0) + share * count / len(times)
    return found


class Pasts:
    """What a child's memory may be, a few times over: for each card its own weights, since each answer tells
    of one card."""

    def __init__(self, pupil: Pupil, model: str, seed: str) -> None:
        self.random = Random(f"pasts|{seed}")
        self.pupil, self.course = pupil, pupil.course
        self.memories = [remembering(model, pupil.who.able, self.course, self.random) for _ in range(PASTS)]
        self.weights = [[1 / PASTS] * PASTS for _ in self.course.cards]
        self.ways = cache(lambda place: ways(pupil, place))

    def recall(self, place: int, at: float) -> float:
        """The chance that the card is recalled."""
        each = zip(self.weights[place], self.memories, strict=True)
        return sum(weight * memory.recall(place, at) for weight, memory in each if weight > LEAST)

    def saw(self, place: int, at: float, given: Given) -> float:
        """An answer as the program sees it. Returns how likely it was, on a scale of all models."""
        fitting = [
            (way, share * times.get(_bin(given.seconds), LEAST))
            for way, (share, times) in self.ways(place).items()
            if (way.right, way.helped) == (given.right, bool(given.help))
        ]
        for n, memory in enumerate(self.memories):
            chance = memory.recall(place, at)
            odds = [share * (chance if way.retrieved else 1 - chance) for way, share in fitting]
            self.weights[place][n] *= sum(odds) + LEAST**2
            hows = [way.how for way, _ in fitting] or ["shown"]
            how = self.random.choices(hows, odds)[0] if sum(odds) > 0 else hows[0]
            practise(memory, self.course, place, at, how)
        likely = sum(self.weights[place])
        self._weighed(place, likely)
        return likely

    def _weighed(self, place: int, total: float) -> None:
        """Shares again; where few pasts have most of them, these take the place of the others."""
        shares = [weight / total for weight in self.weights[place]]
        if 1 / sum(share * share for share in shares) < PASTS / 2:
            chosen = self.random.choices(range(PASTS), shares, k=PASTS)
            parts = [_part(self.memories[n], place, len(self.weights)) for n in chosen]
            for memory, part in zip(self.memories, parts, strict=True):
                for name, value in part.items():
                    getattr(memory, name)[place] = copy(value)
            shares = [1 / PASTS] * PASTS
        self.weights[place] = shares


def _part(memory: Memory, place: int, cards: int) -> dict[str, object]:
    """What a memory holds of one card."""
    lists = {name: value for name, value in vars(memory).items() if isinstance(value, list)}
    return {name: copy(value[place]) for name, value in lists.items() if len(value) == cards}


class Several:
    """The pasts of several models of memory, each believed by how likely it found the answers so far."""

    def __init__(self, pupil: Pupil, models: Collection[str], seed: str) -> None:
        self.pasts = {model: Pasts(pupil, model, seed) for model in models}
        self.evidence = dict.fromkeys(models, 0.0)

    def shares(self) -> dict[str, float]:
        most = max(self.evidence.values())
        odds = {model: exp(log_odds - most) for model, log_odds in self.evidence.items()}
        return {model: each / sum(odds.values()) for model, each in odds.items()}

    def recall(self, place: int, at: float) -> float:
        shares = self.shares().items()
        return sum(share * self.pasts[model].recall(place, at) for model, share in shares if share > LEAST)

    def saw(self, place: int, at: float, given: Given) -> None:
        for model, pasts in self.pasts.items():
            self.evidence[model] += CAUTION * log(pasts.saw(place, at, given))


class Knowing(Plain):
    """What is recalled below a line as far as can be known, highest first; then new cards."""

    def __init__(self, setup: Setup, below: float) -> None:
        super().__init__(setup)
        self.below, self.places = below, setup.course.places
        self.pasts = Several(setup.pupil, self.models(setup.seed.split("|")[0]), setup.seed)
        self.day, self.spent = 0, 0.0

    def models(self, true: str) -> Collection[str]:
        """The models of memory it plans by."""
        return (true,)

    def ranked(self, day: int) -> list[str]:
        known = {key: self.recall(key, day) or 0.0 for key in self.due if self.seen[key] < day}
        return sorted((key for key in known if known[key] < self.below), key=lambda key: -known[key])

    def recall(self, key: str, day: int) -> float | None:
        return self.pasts.recall(self.places[key], day) if key in self.due else None

    def answer(
        self, key: str, right: bool, seconds: float, help: str, day: int, copy_seconds: float = 0.0
    ) -> bool:
        self.spent = self.spent if day == self.day else 0.0
        given = Given(right, seconds, help, copy_seconds, retrieved=False)
        self.pasts.saw(self.places[key], day + self.spent / 86_400, given)
        self.day, self.spent = day, self.spent + seconds
        return super().answer(key, right, seconds, help, day, copy_seconds)


class Believing(Knowing):
    """The same by the other models, since a program cannot know the true one: what it would be to carry
    several published accounts of memory in place of one curve and its correction."""

    def models(self, true: str) -> Collection[str]:
        return [model for model in MEMORIES if model != true]
