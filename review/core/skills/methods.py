"""Ways of working out two numbers in the head, as rows of a table, and the help they give."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from review.core.model import Help, Way
from review.core.skills.wording import PLUS, equation, grouped
from review.core.skills.worked import without_echo, worked

NEAR_TEN = 8  # ones of a number near the next ten: those of compensation in research, from memory
NEAR_HUNDRED = 5  # what a number near a hundred lacks to it, at most; our judgement


def added(a: int, b: int) -> str:
    """47, 20 -> "47 + 20 = 67"."""
    return equation(grouped(a), PLUS, grouped(b), grouped(a + b))


class Method(NamedTuple):
    """One way of working out two numbers in the head: which it suits, what is asked first, its steps."""

    suits: Callable[[int, int], bool]
    question: Callable[[int, int], str]
    steps: Callable[[int, int], tuple[str, ...]]


def suiting(methods: Mapping[str, Method], best: str, a: int, b: int) -> tuple[str, ...]:
    """The best for these numbers, then the others that suit; a single step would repeat the problem."""
    return (
        best,
        *(
            name
            for name, method in methods.items()
            if name != best and method.suits(a, b) and len(method.steps(a, b)) > 1
        ),
    )


def helps(prompt: str, method: Method, build: str, a: int, b: int) -> tuple[Help, ...]:
    """A question, something to build where there is, the steps."""
    shown = (Help("question", method.question(a, b)), Help("build", build), *worked(*method.steps(a, b)))
    return without_echo(prompt, (help for help in shown if help.text))


def ways(
    prompt: str, methods: Mapping[str, Method], best: str, build: Callable[[str], str], a: int, b: int
) -> tuple[Way, ...]:
    """`build`: what is built by that way, "" where any way may use what the problem has."""
    names = suiting(methods, best, a, b)
    return tuple(Way(name, helps(prompt, methods[name], build(name), a, b)) for name in names)
