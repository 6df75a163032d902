"""What the help of facts is made of: a question, counters, a known neighbour, steps with a blank, the steps.

The strategies are the trade's (common practice, no one source): doubles, near doubles, make ten, tens and
ones, five as an anchor, one more group, ten less one. Every equation shown is true, and no question holds
the answer.
"""

import re
from collections.abc import Callable, Iterable
from typing import NamedTuple, TypeVar

from review.core.model import Help
from review.core.skills.wording import BOX, grouped

T = TypeVar("T")


class Hints(NamedTuple):
    question: str
    build: str
    neighbour: str
    steps: tuple[str, ...]  # worked, a line each; the last number of the last line is filled in last


def helps(hints: Hints) -> tuple[Help, ...]:
    return (
        Help("question", hints.question),
        Help("build", hints.build),
        Help("neighbour", hints.neighbour),
        Help("blank", "\n".join([*hints.steps[:-1], _blanked(hints.steps[-1])])),
        Help("steps", "\n".join(hints.steps)),
    )


def _blanked(line: str) -> str:
    return re.sub(r"\d[\d,]*(?=\D*$)", BOX, line)


def added(left: int, right: int) -> str:
    return f"{grouped(left)} + {grouped(right)} = {grouped(left + right)}"


def taken(left: int, right: int) -> str:
    return f"{grouped(left)} − {grouped(right)} = {grouped(left - right)}"


def multiplied(left: int, right: int) -> str:
    return f"{grouped(left)} × {grouped(right)} = {grouped(left * right)}"


def you_know(fact: str, *then: str) -> str:
    return "\n".join([f"You know {fact}.", *then])


def first_that_holds(rules: Iterable[tuple[bool, Callable[[], T]]]) -> T:
    """What the first rule that holds makes."""
    return next(make() for holds, make in rules if holds)
