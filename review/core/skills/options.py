"""The options of a checked skill, as the types their table promises."""

from collections.abc import Iterable
from typing import cast

from review.core.model import Skill


def word(skill: Skill, name: str) -> str:
    return str(skill.options[name])


def whole(skill: Skill, name: str) -> int:
    return int(cast(int, skill.options[name]))


def words(skill: Skill, name: str) -> tuple[str, ...]:
    return tuple(cast(Iterable[str], skill.options[name]))


def wholes(skill: Skill, name: str) -> tuple[int, ...]:
    """Also of a range: its two ends."""
    return tuple(cast(Iterable[int], skill.options[name]))


def ranges(skill: Skill, name: str) -> tuple[tuple[int, int], ...]:
    return tuple((low, high) for low, high in cast(Iterable[tuple[int, int]], skill.options[name]))


def yes(skill: Skill, name: str) -> bool:
    return bool(skill.options[name])
