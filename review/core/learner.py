"""A simulated child, for demos and for looking ahead. Its memory is not the scheduler's own model.

Facts are remembered by base-level activation with a decay that depends on how active a memory was when it
was practised (Pavlik & Anderson 2005); what is not retrieved may be worked out by counting (Groen & Parkman
1972). Pure: every chance comes from the source made of the seed.
"""

import re
from collections.abc import Callable, Iterable
from math import exp, log
from random import Random

from review.core import working_out
from review.core.model import Problem
from review.core.warmup import Typed

# Pavlik & Anderson (2005), Cognitive Science 29, table of fitted values; the figures from memory.
DECAY_SCALE = 0.217  # c: how much more quickly a memory fades that was strong when practised
DECAY_BASE = 0.177  # a
THRESHOLD = -0.704  # tau: activation at which half is recalled
NOISE = 0.255  # s
DAY_S = 0.025 * 86_400  # h = .025: a day away counts as 36 minutes of interference
LATENCY_S = 1.0  # F: seconds to recall at activation 0 (the paper's is for words; ours, our judgement)

COUNT_SLIP = 0.02  # a step lost or doubled (our judgement)
PATIENCE = 12  # counting steps before a child gives up; two more a year from 7 (our judgement)
SLIP = 0.02  # a right answer mistyped (our judgement)
PRIOR = 0.3  # share of facts a child of usual ability knows already (our judgement)
PRIOR_TIMES = 12  # as if practised so many times in the weeks before
LESSON = 0.6  # activation a lesson adds to one look at a fact: told, built, said aloud (our judgement)
MOST_LIFT = 2.0  # activation: a thirtyfold difference in practice (our judgement)
KNOWN = 2 / 3  # of what sets a child apart, where its memory is known (our judgement)
SURE_PROCEDURE = 0.93  # the best a procedure gets, before slips
DIGITS = re.compile(r"[0-9]+")


class Learner:
    """One child. `ability` shifts activation (0 is usual, 1 is much better); `speed` of 1 is usual, 2 is
    twice as fast; `prior` is the share of facts known from before."""

    def __init__(
        self,
        seed: int | str,
        age: int,
        *,
        ability: float = 0.0,
        speed: float = 1.0,
        prior: float = PRIOR,
    ) -> None:
        self._random = Random(f"learner|{seed}")
        self._seed, self._age, self._prior = seed, age, prior
        self._shift = ability + self._random.gauss(0, 0.3)
        self._speed = speed * exp(self._random.gauss(0, 0.15))
        self._traces: dict[str, list[tuple[float, float]]] = {}
        self._lifts: dict[str, float] = {}  # activation a card has besides its traces
        self._day, self._within = 0, 0.0

    def answer(self, problem: Problem, card_key: str, day: int, fact: bool) -> Typed:
        """What the child types, and when. A fact it does not know and cannot work out is left empty."""
        self._wake(day)
        active = self._active(card_key, day)
        retrieved = self._random.random() < self._chance(card_key, active)
        if fact:
            text, seconds = (
                self._recalled(problem, card_key, active) if retrieved else self._worked_out(problem)
            )
        else:
            text, seconds = self._followed(problem, retrieved)
        if text == problem.expected and self._random.random() < SLIP:
            text = slipped(text, self._random)
        if text == problem.expected:
            self._practised(card_key, active)
        return self._typed(text, seconds)

    def tried(self, card_key: str, asked: str, day: int, fact: bool) -> tuple[bool, float]:
        """The same without a text: whether it is right, and the seconds to Enter."""
        self._wake(day)
        active = self._active(card_key, day)
        retrieved = self._random.random() < self._chance(card_key, active)
        if fact:
            right, seconds = (True, self._recall_s(card_key, active)) if retrieved else self._counted(asked)
        else:
            right, seconds = self._random.random() < self._sure(retrieved), self._followed_s(asked)
        if right and self._random.random() >= SLIP:
            self._practised(card_key, active)
        else:
            right = False
        return right, self._typed("00", seconds).end_ms / 1000

    def copied(self, problem: Problem, day: int) -> Typed:
        """The answer typed after it was shown."""
        self._wake(day)
        slip = self._random.random() < SLIP
        text = slipped(problem.expected, self._random) if slip else problem.expected
        return self._typed(text, 0.6)

    def taught(self, card_key: str, day: int) -> None:
        """It was shown the answer, or the fact was told: one more practice."""
        self._wake(day)
        self._practised(card_key, self._active(card_key, day))

    def chance(self, card_key: str, day: int) -> float:
        """The chance that the card is retrieved, 1 / (1 + e^((tau - m) / s))."""
        return self._chance(card_key, self._active(card_key, day))

    def recalls(self, card_key: str, practised: Iterable[int], chance: float, day: int, fact: bool) -> None:
        """Known from before: practised on those days, and right with that chance on a day to come.

        What the traces alone would not give is a lift the card keeps. From then on it fades and grows as any
        other, by this model and not by the one that said the chance. A third of what sets this child apart
        from others stays, as nobody knows a child to the last digit.
        """
        self._traces[card_key] = []
        for on in practised:
            self._lay(card_key, on * DAY_S)
        low = self._sure(False)
        retrieved = chance if fact else (chance / (1 - SLIP) - low) / (SURE_PROCEDURE - low)
        held = min(0.995, max(0.005, retrieved))
        wanted = THRESHOLD + NOISE * log(held / (1 - held))
        lift = wanted - self._activation(self._traces[card_key], day * DAY_S) - LESSON - self._shift * KNOWN
        self._lifts[card_key] = max(-MOST_LIFT, min(MOST_LIFT, lift))

    # --- memory ---------------------------------------------------------------------------------------

    def _now(self, day: int) -> float:
        return day * DAY_S + (self._within if day == self._day else 0.0)

    def _wake(self, day: int) -> None:
        if day != self._day:
            self._day, self._within = day, 0.0

    def _of(self, card_key: str, day: int) -> list[tuple[float, float]]:
        """The traces of a card: (when, decay). What was known before is laid down at the first look."""
        if card_key not in self._traces:
            known = Random(f"{self._seed}|{card_key}").random() < self._prior
            self._traces[card_key] = []
            for n in range(PRIOR_TIMES if known else 0):
                self._lay(card_key, (day - 60 + 5 * n) * DAY_S)
        return self._traces[card_key]

    def _active(self, card_key: str, day: int) -> float:
        """How active the traces of a card are at this moment of a day: reckoned once an answer, since it
        decides whether it is recalled, how quickly, and how soon the new trace fades."""
        return self._activation(self._of(card_key, day), self._now(day))

    def _chance(self, card_key: str, active: float) -> float:
        m = self._lifted(card_key, active)
        return 1 / (1 + exp(min(50.0, (THRESHOLD - m) / NOISE))) if m > -50 else 0.0

    def _lifted(self, card_key: str, active: float) -> float:
        """With all that a card's traces do not say."""
        return active + (LESSON + self._shift + self._lifts.get(card_key, 0.0))

    def _practised(self, card_key: str, active: float) -> None:
        self._traces[card_key].append(trace(self._now(self._day), active))

    def _lay(self, card_key: str, now: float) -> None:
        traces = self._traces[card_key]
        traces.append(trace(now, self._activation(traces, now)))

    @staticmethod
    def _activation(traces: list[tuple[float, float]], now: float) -> float:
        """m = ln of the sum over traces of age^-decay; ages in seconds, at least 1."""
        total = sum([max(1.0, now - at) ** -decay for at, decay in traces])
        return log(total) if total > 0 else -100.0

    # --- ways to an answer ----------------------------------------------------------------------------

    def _recalled(self, problem: Problem, card_key: str, active: float) -> tuple[str, float]:
        return problem.expected, self._recall_s(card_key, active)

    def _recall_s(self, card_key: str, active: float) -> float:
        return 0.4 + LATENCY_S * exp(-self._lifted(card_key, active)) / 2

    def _worked_out(self, problem: Problem) -> tuple[str, float]:
        """By counting: right unless a step is lost; too many steps, and it is left empty."""
        steps = working_out.steps(problem.asked)
        if steps > PATIENCE + 2 * max(0, self._age - 7):
            guesses = self._random.random() < 0.3
            return (plausible(problem, self._random) if guesses else ""), working_out.START_S + 2
        lost = self._random.random() < 1 - (1 - COUNT_SLIP) ** steps
        text = plausible(problem, self._random) if lost else problem.expected
        return text, working_out.START_S + working_out.STEP_S * steps * self._random.uniform(0.8, 1.4)

    def _counted(self, asked: str) -> tuple[bool, float]:
        """The same without a text; what is too long to count is never right."""
        steps = working_out.steps(asked)
        if steps > PATIENCE + 2 * max(0, self._age - 7):
            return False, working_out.START_S + 2
        right = self._random.random() < (1 - COUNT_SLIP) ** steps
        return right, working_out.START_S + working_out.STEP_S * steps * self._random.uniform(0.8, 1.4)

    def _followed(self, problem: Problem, retrieved: bool) -> tuple[str, float]:
        """A procedure: better with practice, and slower with more digits."""
        right = self._random.random() < self._sure(retrieved)
        text = problem.expected if right else plausible(problem, self._random)
        return text, self._followed_s(problem.asked)

    def _sure(self, retrieved: bool) -> float:
        return SURE_PROCEDURE if retrieved else 0.5 + 0.2 * max(-1.0, min(1.0, self._shift))

    def _followed_s(self, asked: str) -> float:
        digits = sum(map(len, DIGITS.findall(asked)))
        return working_out.START_S + self._random.uniform(0.8, 1.6) * digits

    def _typed(self, text: str, seconds: float) -> Typed:
        """Thinking, then keys: as long to copy two digits as is usual at the age, a quarter of it a digit."""
        key_s = max(1.7, 6.2 - 0.41 * max(6.5, self._age)) / 4 / self._speed
        first = round(1000 * (seconds / self._speed + key_s * self._random.uniform(0.8, 1.2)))
        end = first + round(1000 * key_s * (len(text) + 1) * self._random.uniform(0.8, 1.2))
        self._within = min(DAY_S / 2, self._within + end / 1000)
        return Typed(text, first, end)


def trace(now: float, active: float) -> tuple[float, float]:
    """What a practice leaves, with decay c e^m + a: while memory is strong it fades sooner (spacing)."""
    return now, DECAY_SCALE * exp(active) + DECAY_BASE


# --- wrong answers ------------------------------------------------------------------------------------


def plausible(problem: Problem, random: Random) -> str:
    """A wrong answer a child might give: a neighbour in the table, one off, ten off; never the right one."""
    makers: list[Callable[[Problem, Random], str]] = [_neighbour, _one_off, _one_off, _ten_off]
    text = random.choice(makers)(problem, random) if problem.expected.isdigit() else ""
    return text if text and text != problem.expected else slipped(problem.expected, random)


def _one_off(problem: Problem, random: Random) -> str:
    return str(abs(int(problem.expected) + random.choice((-1, 1))))


def _ten_off(problem: Problem, random: Random) -> str:
    value = int(problem.expected)
    return str(value + random.choice((-10, 10)) if value > 10 else value + 1)


def _neighbour(problem: Problem, random: Random) -> str:
    """For a product, one row or column beside it (the commonest wrong products; Campbell & Graham 1985)."""
    numbers = [int(n) for n in DIGITS.findall(problem.asked)]
    if "x" not in problem.asked or len(numbers) != 2:
        return _one_off(problem, random)
    return str(abs(int(problem.expected) + random.choice((-1, 1)) * random.choice(numbers)))


def slipped(text: str, random: Random) -> str:
    """Mistyped by one character: another digit, another sign, or a letter lost; never the same, never
    empty."""
    places = [n for n, letter in enumerate(text) if letter.isdigit()]
    if places:
        at = random.choice(places)
        return text[:at] + str((int(text[at]) + random.choice((1, 9))) % 10) + text[at + 1 :]
    if text in ("<", "=", ">"):
        return random.choice([sign for sign in "<=>" if sign != text])
    at = random.randrange(len(text)) if text else 0
    return text[:at] + text[at + 1 :] if len(text) > 1 else text + "1"
