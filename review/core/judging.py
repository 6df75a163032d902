"""An answer judged, with what reads answers loaded only then: the first problem stands on the screen sooner.

The forms of answers cost nearly as much as an empty Python to load, and nothing is judged before something
was typed (measured here).
"""

from typing import TYPE_CHECKING

from review.core.model import Answer, Problem

if TYPE_CHECKING:
    from review.core.forms import Verdict


def judge(problem: Problem, text: str) -> "Verdict":
    from review.core import answers

    return answers.judge(problem, text)


def was_slip(problem: Problem, answer: Answer) -> bool:
    """Whether it counts as right though something else stands there: a slip of the keys, as a parent said."""
    if not answer.mark.startswith("right") or answer.slipped != answer.given or not answer.given:
        return False
    return judge(problem, answer.given) != "right"


def is_in_words(problem: Problem, text: str) -> bool:
    from review.core import answers

    return answers.is_in_words(problem, text)


def asks_for(problem: Problem) -> str:
    from review.core import answers

    return answers.asks_for(problem)


def keys_to_type(problem: Problem) -> int:
    from review.core import answers

    return answers.keys_to_type(problem)
