"""What the help of facts is made of: a question, counters, a known neighbour, steps with a blank, the steps.

The strategies are the trade's (common practice, no one source; their words are in `strategies`). Every
equation shown is true, and no question holds the answer.
"""

import re
from collections.abc import Callable, Iterable
from typing import NamedTuple

from review.core.model import BOX, Help, Way
from review.core.skills.wording import grouped


class Hints(NamedTuple):
    question: str
    build: str
    neighbour: str  # "" where every fact that is near is harder, as it is for the rules of 0 and 1
    steps: tuple[str, ...]  # worked, a line each; the last number of the last line is filled in last
    gap: tuple[str, ...] = ()  # their beginning with its gap, where a line before the last tells the answer


def no_gap(*numbers: object) -> tuple[str, ...]:
    """The last number of the steps is the one that is left blank."""
    return ()


class Idea(NamedTuple):
    """How one strategy goes about the numbers of a fact, and which numbers it suits."""

    strategy: str
    suits: Callable[..., bool]
    question: Callable[..., str]
    neighbour: Callable[..., str]
    steps: Callable[..., tuple[str, ...]]
    gap: Callable[..., tuple[str, ...]] = no_gap

    def hints(self, build: str, *numbers: object) -> Hints:
        question, neighbour = self.question(*numbers), self.neighbour(*numbers)
        return Hints(question, build, neighbour, self.steps(*numbers), self.gap(*numbers))

    def way(self, *numbers: object) -> Way:
        """As its help goes, without the counters, which any way may use."""
        shown = helps(self.hints("", *numbers))
        return Way(self.strategy, tuple(help for help in shown if help.step != "build"))


def suiting(table: Iterable[Idea], *numbers: object) -> tuple[Idea, ...]:
    """The ideas of a table that suit, each strategy once, at its first place: the first is the best."""
    found: dict[str, Idea] = {}
    for idea in table:
        if idea.strategy not in found and idea.suits(*numbers):
            found[idea.strategy] = idea
    return tuple(found.values())


def ways(table: Iterable[Idea], *numbers: object) -> tuple[Way, ...]:
    return tuple(idea.way(*numbers) for idea in suiting(table, *numbers))


def helps(hints: Hints) -> tuple[Help, ...]:
    return (
        Help("question", hints.question),
        Help("build", hints.build),
        *([Help("neighbour", hints.neighbour)] if hints.neighbour else []),
        Help("blank", "\n".join(hints.gap or (*hints.steps[:-1], _blanked(hints.steps[-1])))),
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


def count(start: int, numbers: Iterable[int]) -> tuple[str, str]:
    return f"Start at {grouped(start)}.", f"{', '.join(map(str, numbers))}."


def count_up(low: int, high: int) -> tuple[str, ...]:
    """How far apart two numbers are."""
    many = "That is 1 step." if high - low == 1 else f"That is {high - low} steps."
    return (*count(low, range(low + 1, high + 1)), many)


def in_tens(number: int) -> str:
    return "1 ten" if number == 10 else f"{number // 10} tens"


def in_ones(number: int) -> str:
    return "1 one" if number == 1 else f"{number} ones"


def double_is(number: int) -> str:
    return f"Double {grouped(number)} is {grouped(2 * number)}."


def halved(number: int) -> str:
    """In words: halves come before the sign for division."""
    return f"Half of {grouped(number)} is {grouped(number // 2)}."
