"""An answer judged, with what reads answers loaded only then: the first problem stands on the screen sooner.

The forms of answers cost nearly as much as an empty Python to load, and nothing is judged before something
was typed (measured here).
"""

from typing import TYPE_CHECKING

from review.core.model import Problem

if TYPE_CHECKING:
    from review.core.forms import Verdict


def judge(problem: Problem, text: str) -> "Verdict":
    from review.core import answers

    return answers.judge(problem, text)


def asks_for(problem: Problem) -> str:
    from review.core import answers

    return answers.asks_for(problem)


def digits(problem: Problem) -> int:
    from review.core import answers

    return answers.digits(problem)
