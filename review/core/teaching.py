"""What to teach next: what did not stick, and what is ready, each with its reason."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from review.core import correction
from review.core.looks import by_skill
from review.core.model import Pupil, Skill
from review.core.standing import Look
from review.core.stuck import Stuck, begin_with

Why = Literal["stuck", "ready", "behind"]
"""stuck: taught, and some of it did not stick; ready: not taught yet, and what it stands on is known; behind:
not taught yet, what it stands on was taught and is not known yet."""

KNOWN = 0.8  # recall that counts as known for going on (our judgement)
ENOUGH = 2 / 3  # share of the earlier cards that are known, for a skill to be ready (our judgement)


Groups = Mapping[str, Sequence[Look]]  # the cards of each skill


class Lesson(NamedTuple):
    """One skill to teach."""

    skill: Skill
    why: Why
    cards: tuple[str, ...]  # of what is stuck, the facts that did not stick
    back: tuple[Skill, ...]  # what it stands on
    known: int  # cards of those that are known now
    of: int
    begin: tuple[Skill, ...] = ()  # of what is stuck, where on the way back to begin


def lessons(pupil: Pupil, every: Sequence[Look], stopped: Iterable[Stuck]) -> tuple[Lesson, ...]:
    """What did not stick first, then what is ready, then what had better wait; each in teaching order.
    `every`: the pupil's cards as they stand; `stopped`: what did not stick."""
    held, groups = {one.skill.id: one for one in stopped}, by_skill(every)
    again = [_again(pupil, groups, held[name]) for name in pupil.skills if name in held]
    new = [_new(pupil, groups, skill) for skill in next_to_teach(pupil)]
    order: Sequence[Why] = ("ready", "behind")
    return (*again, *(lesson for why in order for lesson in new if lesson.why == why))


def ready(pupil: Pupil, every: Sequence[Look]) -> Iterator[Skill]:
    """What may be taught now, in teaching order."""
    groups = by_skill(every)
    return (skill for skill in next_to_teach(pupil) if _new(pupil, groups, skill).why == "ready")


def next_to_teach(pupil: Pupil) -> list[Skill]:
    """Skills that were not taught yet and stand on nothing that was not, whether it is known yet or not."""
    taught = set(pupil.child.taught)
    return [
        skill
        for skill in pupil.skills.values()
        if skill.id not in taught and taught.issuperset(set(skill.after) & set(pupil.skills))
    ]


def _again(pupil: Pupil, groups: Groups, one: Stuck) -> Lesson:
    facts = [card.prompt for card in one.cards if card.fact]
    return _lesson(pupil, groups, one.skill, "stuck", facts)._replace(begin=begin_with(one))


def _new(pupil: Pupil, groups: Groups, skill: Skill) -> Lesson:
    found = _lesson(pupil, groups, skill, "ready", ())
    return found if found.known >= ENOUGH * found.of else found._replace(why="behind")


def _lesson(pupil: Pupil, groups: Groups, skill: Skill, why: Why, cards: Sequence[str]) -> Lesson:
    back = tuple(pupil.skills[name] for name in skill.after if name in pupil.skills)
    earlier = {look.card.key: look for one in back for look in groups.get(one.id, ())}  # one of two once
    known = sum(_is_known(pupil, look) for look in earlier.values())
    return Lesson(skill, why, tuple(cards), back, known, len(earlier))


def _is_known(pupil: Pupil, look: Look) -> bool:
    if look.memory is None or look.memory.aside_day:
        return False
    if look.card.aim == "familiarity":  # to have met it is all it asks
        return look.memory.met_day > 0
    return (correction.recall(pupil.settings.habits, look.memory, pupil.day) or 0.0) >= KNOWN
