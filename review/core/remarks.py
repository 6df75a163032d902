"""What is no mistake in a set, and yet hardly meant: the set is taken so, and `set check` tells of it."""

import re
from collections.abc import Iterator
from typing import NamedTuple, cast

from review.core.model import Skill, SkillSet
from review.core.skills.strategies import STRATEGIES
from review.core.text import in_words

COMMA = re.compile(r"-?\d+,\d+", re.ASCII)
THOUSANDS = re.compile(r"-?\d{1,3}(,\d{3})+", re.ASCII)
HEADS = frozenset(
    {"fact", "facts", "problem", "problems", "prompt", "question", "questions", "word", "words"}
)
BESIDE_HEADS = frozenset({"answer", "answers", "number", "numbers", "result", "results", "solution"})
"""Words that stand over the columns of a list (common practice, no source)."""


class Remark(NamedTuple):
    skill: str  # its id
    text: str  # a sentence or two


def remarks(found: SkillSet) -> tuple[Remark, ...]:
    """In the order of the skills."""
    looks = (_heading, _comma_numbers, _strange_ways)
    return tuple(Remark(skill.id, text) for skill in found.skills for look in looks for text in look(skill))


def _pairs(skill: Skill) -> tuple[tuple[str, str], ...]:
    return cast(tuple[tuple[str, str], ...], skill.options["pairs"] if skill.kind == "pairs" else ())


def _heading(skill: Skill) -> Iterator[str]:
    for prompt, answer in _pairs(skill)[:1]:
        if prompt.casefold() in HEADS and answer.casefold() in BESIDE_HEADS:
            yield f"“{prompt}” and “{answer}” is a card too. If it is a heading, take it out."


def _comma_numbers(skill: Skill) -> Iterator[str]:
    """With a point they are numbers, also where a family types a comma."""
    for prompt, answer in _pairs(skill):
        if COMMA.fullmatch(answer) and not THOUSANDS.fullmatch(answer):
            meant = answer.replace(",", ".")
            yield f"{prompt} “{answer}” is a text. If a number is meant, write {meant}."


def _strange_ways(skill: Skill) -> Iterator[str]:
    """The ways of other kinds, by which no help of this one can go."""
    own = [name for name, strategy in STRATEGIES.items() if skill.kind in strategy.kinds]
    for name in skill.strategies:
        if name not in own:
            instead = f"has {in_words(own)}" if own else "follows no way by name"
            yield f"“{name}” changes nothing: help of {skill.kind} {instead}."
