"""What it takes a child to work a fact out that it does not recall: by counting, as young children do."""

import re

STEP_S = 0.4  # a counting step (Groen & Parkman 1972, first-graders)
START_S = 1.2  # to look at a problem and begin (our judgement)
USUAL_STEPS = 4  # where no two numbers stand (our judgement)
MOST_STEPS = 10
"""With more to count there are shorter ways, as from a fact next to it (our judgement: a child of nine then
takes about five seconds)."""

_ENCODED = re.compile("%[0-9A-Fa-f]{2}")  # a space and the like in a problem as the log has it
_NUMBER = re.compile("[0-9]+")


def steps(asked: str) -> int:
    """Steps to work a fact out: the smaller addend (Groen & Parkman 1972), the part taken away or counted
    up to, or the skip-counts of a product with a step for each."""
    numbers = sorted(map(int, _NUMBER.findall(_ENCODED.sub(" ", asked))))
    if len(numbers) < 2:
        return USUAL_STEPS
    small, large = numbers[0], numbers[-1]
    if "/" in asked or ("x" in asked and "_" in asked):
        return 4 * (large // small) if small else USUAL_STEPS
    if "x" in asked:
        return 2 * small if large <= 5 or large == 10 else 4 * small
    return min(small, large - small) if "-" in asked or "_" in asked else small


def share(asked: str) -> float:
    """Of the time that the longest working out takes, over 0 to 1."""
    return _seconds(steps(asked)) / _seconds(MOST_STEPS)


def _seconds(count: int) -> float:
    """Net of copying."""
    return START_S + STEP_S * min(count, MOST_STEPS)
