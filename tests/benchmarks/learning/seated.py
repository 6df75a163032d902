"""Our own rule as a child gets it: the plan in its showing order, through the real sitting.

Against `review`, which walks the ranking, this tells what the order of showing costs: sure cards at both ends
and after misses, what was shown copied, new cards only while nearly all goes well.
"""

from collections.abc import Mapping, Sequence
from random import Random
from typing import NamedTuple

from review.core import marking, session, skills
from review.core.learner import plausible
from review.core.model import Answer, Problem
from review.core.new_cards import RECENT
from review.core.practice import Practice
from review.core.queue import State
from review.core.warmup import AskHelp, Effect, Heard, PassOn, Record, Show, Sitting, Typed
from tests.benchmarks.learning.children import AGE, Given, Pupil
from tests.benchmarks.learning.strategies import Day, Try

COPY_MORE_S = 0.6  # to turn to what is to be copied (our judgement)
MOST_DIGITS = 6


class Turn(NamedTuple):
    """A showing under way: what the child will say, and the helps it will ask for first."""

    problem: Problem
    given: Given
    predicted: float | None
    heard: Heard


class Seated:
    def __init__(self, practice: Practice, pupil: Pupil, seed: str) -> None:
        self.practice, self.pupil, self.seed = practice, pupil, seed
        self.known = {card.key: card for card in pupil.course.cards}
        self.recent: tuple[bool, ...] = ()
        copy_ms = pupil.who.copy_s * 1000
        self.copy_ms = tuple(round(copy_ms * (2 + n) / 4) for n in range(1, MOST_DIGITS + 1))

    def plan(self, day: int) -> list[str]:
        return [item.key for item in self.practice.warmup(day).items]

    def answer(
        self, key: str, right: bool, seconds: float, help: str, day: int, copy_seconds: float = 0.0
    ) -> bool:
        return self.practice.answer(key, right, seconds, help, day, copy_seconds)

    def recall(self, key: str, day: int) -> float | None:
        return self.practice.recall(key, day)

    def sit(self, day: int, met: set[str]) -> Day:
        """One warm-up, until the sitting ends."""
        todays = Sitting(
            "", self.seed, "", AGE, self.practice.warmup(day), self.known,
            copy_ms=self.copy_ms, recent_right=self.recent,
        )  # fmt: skip
        state, effects = session.start(todays)
        shown: dict[str, int] = {}
        tries: list[Try] = []
        spent = 0.0
        before = frozenset(met)
        while not state.ended:
            turn = self._turn(effects, day, spent, shown)
            if turn is None:
                break
            state, effects = self._heard(state, turn)
            for answer in _recorded(effects):
                spent += answer.end_ms / 1000
                if answer.role != "copy":
                    self._keep(answer, turn, day, before, shown, tries)
        met.update(shown)
        return Day(spent, sum(shown.values()), tuple(tries))

    def _turn(
        self, effects: Sequence[Effect], day: int, spent: float, shown: Mapping[str, int]
    ) -> Turn | None:
        """What the child makes of what is shown; None at the end."""
        show = next((effect for effect in reversed(effects) if isinstance(effect, Show)), None)
        if show is None:
            return None
        problem, key = show.problem, show.problem.card
        if show.copying:
            seconds = COPY_MORE_S + self.copy_ms[min(len(problem.expected), MOST_DIGITS) - 1] / 1000
            copied = Given(True, seconds, "", seconds, False)
            return Turn(problem, copied, None, _typed(problem.expected, seconds))
        showing = shown.get(key, 0)
        predicted = None if showing else self.practice.recall(key, day)
        given = self.pupil.answer(self.pupil.course.places[key], day + spent / 86_400, showing)
        text = (
            problem.expected
            if given.right
            else plausible(problem, Random(f"{self.seed}|{day}|{key}|{showing}"))
        )
        heard = (
            _typed(text, given.seconds) if given.right or given.typed else PassOn(round(given.seconds * 1000))
        )
        return Turn(problem, given, predicted, heard)

    def _heard(self, state: State, turn: Turn) -> tuple[State, tuple[Effect, ...]]:
        """Says it, after asking for the helps it needs; says it again where it is asked once more."""
        whole = skills.problem(turn.problem.card, turn.problem.asked)
        steps = [help.step for help in whole.helps]
        helps = steps.index(turn.given.help) + 1 if turn.given.help in steps else len(steps)
        for _ in range(helps if turn.given.help else 0):
            state, _effects = session.step(state, AskHelp())
        state, effects = session.step(state, turn.heard)
        tries = 0
        while not _recorded(effects) and not state.ended and tries < 3:
            tries += 1
            heard = turn.heard if tries < 2 else PassOn(round(turn.given.seconds * 1000))
            state, effects = session.step(state, heard)
        return state, effects

    def _keep(
        self,
        answer: Answer,
        turn: Turn,
        day: int,
        before: frozenset[str],
        shown: dict[str, int],
        tries: list[Try],
    ) -> None:
        key, right = answer.card, answer.mark in ("right", "right_slow", "right_helped")
        self.practice.answer(key, right, answer.end_ms / 1000, answer.help, day, turn.given.copy_s)
        if key not in shown:
            given = turn.given._replace(right=right, help=answer.help if right else turn.given.help)
            tries.append((key, key in before, turn.predicted, given))
            if answer.role != "intro":
                self.recent = (*self.recent, marking.is_right(answer))[-RECENT:]
        shown[key] = shown.get(key, 0) + 1


def _typed(text: str, seconds: float) -> Typed:
    end = round(seconds * 1000)
    return Typed(text, end // 2, end)


def _recorded(effects: Sequence[Effect]) -> list[Answer]:
    return [effect.answer for effect in effects if isinstance(effect, Record)]
