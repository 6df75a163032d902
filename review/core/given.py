"""What was given, as its problem writes it: reports of the same answer say the same."""

import re

from review.core import skills
from review.core.forms import plain
from review.core.model import Problem
from review.core.skills.wording import MINUS

LOOSE = re.compile(r"(?<!\d) | (?!\d)|(?<=\d),(?=\d{3}(?!\d))")  # what parts no two numbers
WHOLE = re.compile(r"(-?)([1-9][0-9]{0,14})")


def as_written(problem: Problem, given: str) -> str:
    """Spaces, capitals and full-width signs as the problem has them, thousands apart and a minus as long as
    there. All else stays as it was typed: `07`, 2/4 beside 1/2, a number in words."""
    shown = skills.shown_answer(problem)
    text = plain(given) or given
    if folded(text) in (folded(shown), folded(problem.expected)):
        return shown
    whole = WHOLE.fullmatch(text)
    if whole is None:
        return text
    apart = re.search(r"\d,\d{3}", f"{shown} {problem.prompt}")
    return f"{MINUS if whole[1] else ''}{int(whole[2]):,}" if apart else text.replace("-", MINUS)


def folded(text: str) -> str:
    return LOOSE.sub("", plain(text)).casefold()
