"""What changes for a child to whom a set is given again, edited since."""

from collections.abc import Collection, Iterator, Mapping
from typing import NamedTuple

from review.core.card_sets import keys_of
from review.core.model import Skill, SkillSet


class Edited(NamedTuple):
    gone: tuple[Skill, ...]  # of the set as it was
    moved: tuple[tuple[Skill, Skill], ...]  # one that was taught and is gone; an untaught one with its cards
    came: tuple[str, ...] = ()  # keys of cards it had not before, in their order
    went: tuple[str, ...] = ()  # and of those it has no more


def edited(before: SkillSet, now: SkillSet, taught: Collection[str]) -> Edited:
    """Nothing is taught by itself, so a skill whose name changed would stay away without a word."""
    named = {skill.id for skill in now.skills}
    gone = tuple(skill for skill in before.skills if skill.id not in named)
    left = {skill.id: frozenset(keys_of(skill)) for skill in now.skills if gone and skill.id not in taught}
    heirs = ((old, _heir(frozenset(keys_of(old)), left)) for old in gone if old.id in taught)
    by_id = {skill.id: skill for skill in now.skills}
    moved = tuple((old, by_id[heir]) for old, heir in heirs if heir)
    return Edited(gone, moved, tuple(_without(now, before)), tuple(_without(before, now)))


def _without(found: SkillSet, other: SkillSet) -> Iterator[str]:
    """Keys of cards of one set that the other has not."""
    known = {key for skill in other.skills for key in keys_of(skill)}
    mine = dict.fromkeys(key for skill in found.skills for key in keys_of(skill))
    return (key for key in mine if key not in known)


def _heir(keys: Collection[str], left: Mapping[str, frozenset[str]]) -> str:
    """The skill that has most of these cards; "" where none has any."""
    shared = {name: len(its.intersection(keys)) for name, its in left.items()}
    return max((name for name in shared if shared[name]), key=lambda name: shared[name], default="")
