"""How a child answers: recalled, worked out, slipped, distracted, helped; and what that leaves in memory.

What is not recalled may be worked out (strategy choice: Siegler & Shrager 1984), by counting steps of .4 s
(Groen & Parkman 1972). Times of recalling and of short counting overlap, as they do with real children. The
same showing of a card on the same day meets the same chances under every strategy, so that a child is
compared with itself.
"""

from math import exp
from random import Random
from typing import NamedTuple

from tests.benchmarks.learning.courses import Course
from tests.benchmarks.learning.memories import How, Memory, logistic
from tests.benchmarks.learning.outsiders import ACCOUNTS

AGE = 8
COUNT_S = 0.4  # a counting step (Groen & Parkman 1972)
START_S = 0.9  # to look at a problem and begin; the figures below without a source are our judgement
RECALL_S = 1.1
COUNT_SLIP = 0.02  # a step lost or doubled
PATIENCE = 14  # counting steps before a usual child gives up
TYPING_SLIP = 0.02
COPY_S = 2.9  # to copy two digits at 8
TOLD_S = 2.5  # to look at what was told after a miss
HELP_S = 7.0
HELP_WORKS = 0.85
GUESS, GUESS_RIGHT = 0.3, 0.08
DONE_RIGHT = 0.97  # a procedure that is recalled; PUZZLED one that is not
PUZZLED = 0.15
KNOWN = -1.4  # log odds that a usual card was known before
KNOWN_TIMES = 8  # practised so many times before, every 6 days
OWN_HARD = 0.4  # how much a card's difficulty differs from child to child, in standard deviations
TRANSFER = 0.2  # of a practice reaches each partner fact


class Child(NamedTuple):
    """What a child brings, whatever it practises by."""

    seed: str
    able: float
    speed: float
    copy_s: float  # for two digits
    asks: float  # chance of asking for help when stuck
    distracted: float  # chance that an answer is
    misses: float  # chance that a day is missed


class Given(NamedTuple):
    """An answer as the program sees it, and whether it truly came from memory."""

    right: bool
    seconds: float
    help: str
    copy_s: float
    retrieved: bool
    typed: bool = True  # False: asked to be shown


class Chances(NamedTuple):
    """What a child would do with a card now: the two ways to take true recall."""

    retrieved: float  # it comes from memory
    by_aim: float  # it does what the card's aim asks: fluency that; accuracy right and unaided


def child(model: str, number: int, *, missing: float = 0.25) -> Child:
    random = Random(f"child|{model}|{number}")
    return Child(
        f"{model}|{number}",
        random.gauss(0, 1),
        exp(random.gauss(0, 0.2)),
        COPY_S * exp(random.gauss(0, 0.2)),
        random.uniform(0.1, 0.6),
        random.uniform(0.05, 0.10),
        missing and random.betavariate(40 * missing, 40 * (1 - missing)),
    )


def practise(memory: Memory, course: Course, place: int, at: float, how: How) -> None:
    """What an answer leaves in memory, of the card and a little of its partners."""
    memory.practise(place, at, how)
    for other in course.kin[place]:
        memory.practise(other, at, how, TRANSFER / len(course.kin[place]) ** 0.5)


def remembering(model: str, able: float, course: Course, random: Random) -> Memory:
    """What a child of that ability may bring: how hard each card is for it, and what it knew before."""
    hard = [x + random.gauss(0, OWN_HARD) for x in course.hard]
    memory = ACCOUNTS[model](hard, able)
    for place, x in enumerate(hard):
        if random.random() < logistic(KNOWN + 0.7 * able - x):
            ago = random.uniform(5, 40)
            for n in reversed(range(KNOWN_TIMES)):
                memory.practise(place, -ago - 6 * n, "retrieved")
    return memory


class Pupil:
    """A child at work on a course, with its true memory."""

    def __init__(self, who: Child, model: str, course: Course) -> None:
        random = Random(f"pupil|{who.seed}")
        self.who, self.course = who, course
        self.memory = remembering(model, who.able, course, random)

    def practises(self, day: int) -> bool:
        return Random(f"{self.who.seed}|{day}").random() >= self.who.misses

    def chances(self, place: int, at: float) -> Chances:
        """Of an answer to the card then; the right and unaided ones are short of the keys that slip."""
        retrieved = self.memory.recall(place, at)
        done = 1.0 if self.course.steps[place] else DONE_RIGHT
        unaided = retrieved * done + (1 - retrieved) * self._works_out(place)
        right = (1 - TYPING_SLIP) * unaided
        return Chances(retrieved, retrieved if self.course.cards[place].aim == "fluency" else right)

    def _works_out(self, place: int) -> float:
        """The chance that what is not recalled is worked out or guessed, right and unaided."""
        steps = self.course.steps[place]
        if self._can_count(steps):
            return (1 - COUNT_SLIP) ** steps
        puzzled = 0.0 if steps else PUZZLED
        return (1 - self.who.asks) * (puzzled + (1 - puzzled) * GUESS * GUESS_RIGHT)

    def _can_count(self, steps: int) -> bool:
        return 0 < steps <= PATIENCE + 3 * self.who.able

    def answer(self, place: int, at: float, showing: int) -> Given:
        """One answer, and what it leaves in memory."""
        random = Random(f"{self.who.seed}|{int(at)}|{place}|{showing}")
        given, how = self.play(place, random.random() < self.memory.recall(place, at), random)
        practise(self.memory, self.course, place, at, how)
        return given

    def play(self, place: int, retrieved: bool, random: Random) -> tuple[Given, How]:
        """An answer to what is recalled or is not, and what it is to memory."""
        away = random.expovariate(1 / 15) if random.random() < self.who.distracted else 0.0
        slipped = random.random() < TYPING_SLIP
        copy = self.who.copy_s * (2 + self.course.digits[place]) / 4
        right, net, help, how = self._way(place, retrieved, random)
        right = right and not slipped
        seconds = copy * exp(random.gauss(0, 0.15)) + net / self.who.speed + min(60.0, away)
        told = 0 if right else TOLD_S
        return Given(right, seconds + told, help, copy, retrieved and how == "retrieved"), how

    def _way(self, place: int, retrieved: bool, random: Random) -> tuple[bool, float, str, How]:
        """(right, seconds net of copying, help, what it was to memory)."""
        steps = self.course.steps[place]
        if retrieved:
            return self._recalled(place, random)
        if self._can_count(steps):
            lost = random.random() < 1 - (1 - COUNT_SLIP) ** steps
            net = START_S + COUNT_S * steps * exp(random.gauss(0, 0.25))
            return not lost, net, "", "shown" if lost else "worked"
        return self._stuck(place, random)

    def _recalled(self, place: int, random: Random) -> tuple[bool, float, str, How]:
        if self.course.steps[place]:
            return True, RECALL_S * exp(random.gauss(0, 0.45)), "", "retrieved"
        right = random.random() < DONE_RIGHT
        return right, self._doing(place) * exp(random.gauss(0, 0.3)), "", "retrieved" if right else "shown"

    def _doing(self, place: int) -> float:
        """Seconds of a procedure, or of looking at a fact in vain."""
        return self.course.traits[self.course.cards[place].key].seconds * 0.8

    def _stuck(self, place: int, random: Random) -> tuple[bool, float, str, How]:
        looked = min(6.0, self._doing(place)) * exp(random.gauss(0, 0.3))
        if random.random() < self.who.asks:
            return random.random() < HELP_WORKS, looked + HELP_S, "picture", "shown"
        if not self.course.steps[place] and random.random() < PUZZLED:
            return True, 2 * looked, "", "worked"
        guessed = random.random() < GUESS and random.random() < GUESS_RIGHT
        return guessed, looked, "", "worked" if guessed else "shown"
