"""An answer given aloud, by a parent's word: from memory, worked out, or not yet."""

from typing import Literal

from review.core.model import Answer, Problem
from review.core.warmup import Told, Typed, Word

RECALLED: dict[Word, Literal["", "yes", "no"]] = {"memory": "yes", "worked": "no", "not_yet": ""}


def as_typed(problem: Problem, told: Told) -> Typed:
    """The same as if it had been typed. What was said is known only where it was as it should be; how long it
    took is not known at all: a parent's thumb is not timed."""
    right = told.word != "not_yet"
    return Typed(problem.expected if right else "", recalled=RECALLED[told.word])


def taken(row: Answer) -> Answer:
    """The row of such an answer: what was worked out is marked so. Of a copy nobody asks how it was found."""
    worked = row.mark == "right" and row.recalled == "no"
    if row.role == "copy":
        return row._replace(taken="aloud", recalled="")
    return row._replace(taken="aloud", mark="right_slow" if worked else row.mark)
