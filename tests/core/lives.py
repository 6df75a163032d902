"""Whole lives for tests: day after day the real plan, the real sitting and the real fold, without a book."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from review import catalogue
from review.core import asked, card_sets, memory, plan, seeds, skills
from review.core.answer_bodies import answer_body
from review.core.marking import timed
from review.core.model import Answer, CardMemory, Child, Event, Habits, Pupil, Settings, SkillSet
from review.core.warmup import PassOn, Plan, Show, Sitting, Typed
from review.gather import recent_right
from tests.core.sittings import Child as Answering
from tests.core.sittings import play

DAY_MS = 86_400_000


class Day(NamedTuple):
    """One warm-up of a life."""

    day: int
    planned: Plan
    answers: tuple[Answer, ...]

    @property
    def asked(self) -> set[str]:
        return {answer.card for answer in self.answers}

    @property
    def missed(self) -> list[str]:
        """Once for each time; what is typed after it was shown is no miss."""
        asked = (answer for answer in self.answers if answer.role != "copy")
        return [answer.card for answer in asked if answer.mark in ("not_yet", "shown")]

    @property
    def minutes(self) -> float:
        return sum(answer.end_ms for answer in self.answers) / 60_000


class Life:
    """One child; everything is taught, or the skills that are named."""

    def __init__(
        self,
        sets: Iterable[str | SkillSet],
        age: int = 9,
        minutes: float = 5,
        taught: Iterable[str] | None = None,
    ) -> None:
        self.age, self.minutes, self.taught = age, minutes, taught
        self.memory, self.habits = dict[str, CardMemory](), Habits()
        self.log = list[Event]()
        self.give(sets)

    def give(self, sets: Iterable[str | SkillSet]) -> None:
        """These sets from now on, and no others."""
        self.sets = [catalogue.shipped(one) if isinstance(one, str) else one for one in sets]
        self.cards = card_sets.cards(self.sets)
        self.skills = {skill.id: skill for one in self.sets for skill in one.skills}

    def pupil(self, day: int) -> Pupil:
        taught = frozenset(self.skills if self.taught is None else self.taught)
        settings = Settings(self.age, taught=taught, timed=taught, habits=self.habits)
        child = Child("a-child", "Tove", self.age, 0, self.minutes)
        recent = recent_right(self.log[-400:], day)
        return Pupil(child, day, self.cards, self.skills, self.memory, settings, recent)

    def plan(self, day: int) -> Plan:
        return plan.for_pupil(self.pupil(day), self.minutes, seeds.plan_source("a-book", "a-child", day))

    def live(self, day: int, answering: Answering) -> Day:
        """The day's warm-up, sat and remembered."""
        todays, pupil = self.plan(day), self.pupil(day)
        known = {card.key: card for card in self.cards}
        clocked = {
            key for key, card in known.items()
            if timed(card, skills.traits(key), self.memory.get(key), pupil.settings)
        }  # fmt: skip
        lately = {key: asked.lately(known_, day) for key, known_ in self.memory.items()}
        sitting = Sitting(
            "a-book", "a-child", "Tove", self.age, todays, known, frozenset(clocked),
            recent_right=pupil.recent, lately=lately,
        )  # fmt: skip
        answers = play(sitting, answering, most=2000).answers
        self.remember(day, answers)
        return Day(day, todays, tuple(answers))

    def remember(self, day: int, answers: Sequence[Answer]) -> None:
        for answer in answers:
            seq = len(self.log) + 1
            at = day * DAY_MS + seq
            row = Event(1, seq, "a-child", "answer", day, at, at, 0, answer.card, answer_body(answer))
            self.log.append(row)
            self.habits, self.memory[answer.card] = memory.follow(
                self.habits, self.memory.get(answer.card), row
            )


def sure(show: Show) -> Sequence[Typed]:
    """Right, and at once."""
    return [Typed(show.problem.expected, 900, 2500)]


def lost(show: Show) -> Sequence[Typed]:
    """Copies what is shown; whatever is asked is not right."""
    if show.copying:
        return [Typed(show.problem.expected, 900, 2500)]
    return [Typed("98765" if show.problem.expected != "98765" else "1", 900, 4000)]


def gives_up(show: Show) -> Sequence[PassOn]:
    return [PassOn(1500)]
