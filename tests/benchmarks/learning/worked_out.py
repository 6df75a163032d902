"""A rule that was left out, with its figures in docs/learning.md: what a card's own misses say of it.

For fluency a right answer is weighed by how likely it came from memory. For that the program takes it that of
ten answers that are not recalled a child works out seven (fewer, where it seems not to count), whatever the
card. Of 7 × 8 a child works out next to none, of 2 × 3 nearly all: a slow right answer to one counts too
little, to the other too much.
"""

from typing import Any

from review.core import habits, marking, working_out
from review.core.model import Answer, CardMemory, Habits
from review.core.practice import Practice

_SURENESS, _LIKELY = habits.sureness, working_out.likely

WORKED_OUT = 0.9  # share of what is not recalled that is worked out and right, before the card's own is known
AS_IF = 1.0  # as if so many answers that were not recalled had been seen
SLIPS = 0.03  # of all answers: keys that slip, and misses of what is known
"""Chosen on simulated children 1 to 16, with 100 and 400 cards on the scales and the strengths."""


class ByMisses(Practice):
    """The share of a card: what of it was worked out, by how unsure its right answers were, against what was
    missed beyond slips."""

    def __init__(self, *given: Any, **more: Any) -> None:
        super().__init__(*given, **more)
        self.worked: dict[str, float] = {}

    def answer(self, key: str, *given: Any, **more: Any) -> bool:
        old, said = self._memory.get(key), list[tuple[Answer, float]]()

        def heard(habits: Habits, answer: Answer, recall: float | None) -> float:
            said.append((answer, _SURENESS(habits, answer, recall)))
            return said[-1][1]

        share = self._share(key, old)
        habits.sureness, working_out.likely = heard, lambda habits: share
        try:
            again = super().answer(key, *given, **more)
        finally:
            habits.sureness, working_out.likely = _SURENESS, _LIKELY
        (answer, sure), *_ = said
        if self._memory[key].tries > (old.tries if old else 0) and marking.effect(answer) == "weighed":
            self.worked[key] = self.worked.get(key, 0.0) + 1 - sure
        return again

    def _share(self, key: str, known: CardMemory | None) -> float:
        missed = max(0.0, known.tries - known.right - SLIPS * known.tries) if known else 0.0
        worked = self.worked.get(key, 0.0)
        return (worked + AS_IF * WORKED_OUT) / (worked + missed + AS_IF)
