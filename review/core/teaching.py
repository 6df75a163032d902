"""What to teach next: what did not stick, and what is ready, each with its reason."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple

from review.core import habits
from review.core.model import Pupil, Skill
from review.core.standing import Look
from review.core.stuck import Stuck, begin_with

Why = Literal["stuck", "ready", "behind"]
"""stuck: taught, and some of it did not stick; ready: not taught yet, and what it stands on is known; behind:
not taught yet, what it stands on was taught and is not known yet."""

KNOWN = 0.8  # recall that counts as known for going on (our judgement)
ENOUGH = 2 / 3  # share of the earlier cards that are known, for a skill to be ready (our judgement)


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
    held = {one.skill.id: one for one in stopped}
    again = [_again(pupil, every, held[name]) for name in pupil.skills if name in held]
    new = [_new(pupil, every, skill) for skill in next_to_teach(pupil)]
    order: Sequence[Why] = ("ready", "behind")
    return (*again, *(lesson for why in order for lesson in new if lesson.why == why))


def ready(pupil: Pupil, every: Sequence[Look]) -> Iterator[Skill]:
    """What may be taught now, in teaching order."""
    return (skill for skill in next_to_teach(pupil) if _new(pupil, every, skill).why == "ready")


def next_to_teach(pupil: Pupil) -> list[Skill]:
    """Skills that were not taught yet and stand on nothing that was not, whether it is known yet or not."""
    taught = set(pupil.child.taught)
    return [
        skill
        for skill in pupil.skills.values()
        if skill.id not in taught and taught.issuperset(set(skill.after) & set(pupil.skills))
    ]


def _again(pupil: Pupil, every: Sequence[Look], one: Stuck) -> Lesson:
    facts = [card.prompt for card in one.cards if card.fact]
    return _lesson(pupil, every, one.skill, "stuck", facts)._replace(begin=begin_with(one))


def _new(pupil: Pupil, every: Sequence[Look], skill: Skill) -> Lesson:
    found = _lesson(pupil, every, skill, "ready", ())
    return found if found.known >= ENOUGH * found.of else found._replace(why="behind")


def _lesson(pupil: Pupil, every: Sequence[Look], skill: Skill, why: Why, cards: Sequence[str]) -> Lesson:
    back = tuple(pupil.skills[name] for name in skill.after if name in pupil.skills)
    names = {one.id for one in back}
    earlier = [look for look in every if names.intersection((look.card.skill, *look.card.also))]
    known = sum(_is_known(pupil, look) for look in earlier)
    return Lesson(skill, why, tuple(cards), back, known, len(earlier))


def _is_known(pupil: Pupil, look: Look) -> bool:
    if look.memory is None or look.memory.aside_day:
        return False
    if look.card.aim == "familiarity":  # to have met it is all it asks
        return look.memory.met_day > 0
    return (habits.recall(pupil.settings.habits, look.memory, pupil.day) or 0.0) >= KNOWN
