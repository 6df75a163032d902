"""A small set of the tests' own, and what reading one gives."""

from review.core.card_sets import read_set
from review.core.model import Mistake, SkillSet

HEAD = """\
[set]
id = "our-sums"
title = "Our sums"
aim = "accuracy"
ages = [7, 9]
"""
SKILL = """
[[skill]]
id = "doubles"
title = "Doubles"
kind = "double"
numbers = [1, 10]
"""


def mistakes(text: str) -> tuple[Mistake, ...]:
    found, told = read_set(text, "ours.toml")
    assert (found is None) == bool(told)
    return told


def sound(text: str) -> SkillSet:
    found, told = read_set(text, "ours.toml")
    assert found is not None, told
    return found
