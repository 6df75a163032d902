"""Skills that did not stick, with the evidence, and the earlier skill to go back to: `after` read
backwards."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from typing import NamedTuple

from review.core.looks import FIRM, Firmness, by_skill, firmness, is_stuck, missed_first
from review.core.model import CardMemory, Pupil, Skill
from review.core.orders import Harder, harder
from review.core.standing import Look


class StuckCard(NamedTuple):
    """The evidence: one card that was set aside, or missed on three days."""

    card: str
    prompt: str
    fact: bool
    tries: int  # first tries
    right: int  # of them right and unaided
    miss_days: int  # since it was last set aside
    aside_day: int  # 0: not
    last_day: int
    last_mark: str
    missed_first: bool  # before that last answer, the same day
    harder: Harder | None = None  # the order of it that is missed more often


class Earlier(NamedTuple):
    """A skill that another stands on."""

    skill: Skill
    firmness: Firmness


class Stuck(NamedTuple):
    """A skill to teach once more."""

    skill: Skill
    cards: tuple[StuckCard, ...]
    back: tuple[Earlier, ...]  # from the skill itself backwards, the nearest first


def stuck(pupil: Pupil, found: Iterable[Look]) -> tuple[Stuck, ...]:
    """In teaching order."""
    every = list(found)
    groups = by_skill(every)
    held: dict[str, list[StuckCard]] = {}
    for look in every:
        if look.memory and is_stuck(look):
            held.setdefault(look.card.skill, []).append(_card(look, look.memory))

    @cache  # of the few skills that something stuck stands on
    def firm(name: str) -> Firmness:
        return firmness(pupil, name, groups)

    return tuple(
        Stuck(pupil.skills[skill], tuple(cards), way_back(pupil.skills[skill], pupil.skills, firm))
        for skill, cards in held.items()
    )


def _card(look: Look, memory: CardMemory) -> StuckCard:
    return StuckCard(
        look.card.key,
        look.traits.title,
        look.traits.fact,
        memory.tries,
        memory.right,
        memory.miss_days,
        memory.aside_day,
        memory.seen_day,
        memory.last_mark,
        missed_first(memory),
        harder(memory),
    )


def way_back(
    skill: Skill, known: Mapping[str, Skill], firm: Callable[[str], Firmness]
) -> tuple[Earlier, ...]:
    """The skills it stands on, nearest first, until each way reaches one that can be built on."""
    steps: dict[str, Earlier] = {}
    names: Sequence[str] = skill.after
    while names:
        new = [name for name in names if name in known and name not in steps and name != skill.id]
        steps |= {name: Earlier(known[name], firm(name)) for name in new}
        names = [earlier for name in new if firm(name) not in FIRM for earlier in known[name].after]
    return tuple(steps.values())


def begin_with(one: Stuck) -> tuple[Skill, ...]:
    """Where to begin: the earliest skills of the way back that are not firm, else the nearest, which are."""
    loose = [step.skill for step in one.back if step.firmness not in FIRM]
    if not loose:
        return tuple(step.skill for step in one.back)
    names = {skill.id for skill in loose}
    return tuple(skill for skill in loose if names.isdisjoint(skill.after))
