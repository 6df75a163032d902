"""Cards, memory, a day and minutes to today's warm-up.

The rule was found by simulation on models of memory that are not this one: due cards first, new ones
last and few, then cards that are not due but likely to slip; the order among due cards hardly matters, how
fast gaps grow does.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import islice
from math import ceil
from random import Random
from typing import NamedTuple, TypeVar

from review.core import focus
from review.core import ground as grounds
from review.core import standing as standings
from review.core.arrangement import arranged
from review.core.ground import SURE, Basis, Ground, chance
from review.core.model import Card, CardMemory, Pupil, Skill
from review.core.new_cards import many_missed, went_badly
from review.core.standing import Look
from review.core.warmup import Plan, PlanItem

T = TypeVar("T")
SURE_FROM = 12  # sure cards are drawn from so many that were not seen longest, so that they change
RESERVE = 4
OPENING = 2  # sure cards first; one in a sitting under 3 minutes (our judgement)
OFFERED = 3
"""New cards before what is likely to slip, times the pace: some prove known and do not count (our
judgement)."""

FEW = 3  # cards to ask: with fewer, one new card comes also after hard days (our judgement)
FEW_MISSES = 1.5
"""A sitting in which no more are expected is not too much: three cards just met (our judgement)."""

SPARE = 1 / 3
"""Of the minutes: where what there is to ask takes less, one new card comes though more misses are expected
than usual. A child for whom all was hard at first was asked the same few cards for weeks, in a minute of its
five, since each was promised a little less than it was worth. With a half in place of a third, 3 cards fewer
were held of 100 in 2.5 minutes (measured on simulated children: see docs/learning.md)."""

ASIDE_MOST = 6  # cards set aside to be taught: with more, new ones would only pile up (our judgement)
LONG_S = 30  # typed, one card longer than that a sitting
MEET_SHARE = 10  # at most 1 card in 10 is a familiarity card's meeting


def plan(basis: Basis, random: Random) -> Plan:
    """The day's warm-up, within the minutes by expected seconds, in showing order. The order of cards and
    memory makes no difference; the random source does."""
    ground = grounds.ground(basis)
    found = _choice(ground, random)
    chosen = found.chosen
    crowded = bool(_apart(ground.slip, chosen, ground))
    groups = {item.key: ground.looks[item.key].traits.groups for item in chosen}
    return Plan(
        basis.day,
        basis.minutes,
        arranged(chosen, groups, found.openers, random),
        tuple(islice(_each_apart(grounds.as_sure(found.sure, ground), chosen, ground), RESERVE)),
        ground.pace if crowded else ground.most,
        waiting=len(_apart(ground.due, chosen, ground)),
        too_much=found.too_much,
        alone=found.alone,
    )


class Choice(NamedTuple):
    """What is asked today, before it is put in order."""

    chosen: list[PlanItem]
    too_much: bool
    alone: bool
    openers: int
    sure: list[Look]  # in the order drawn


def _choice(ground: Ground, random: Random) -> Choice:
    openers = OPENING if ground.basis.minutes >= 3 else 1
    drawn = _drawn(ground.sure, random)
    sure = [*grounds.as_sure(drawn[: _most_ends(ground, openers)], ground)]
    ends = sure[: _ends(ground, sure, openers)]
    wait = _must_wait(ground, ends)
    alone = _is_alone(ground, ends, wait)
    new = _coming(ground, wait, alone)
    chosen = _chosen(ground, ends, new, _in_focus(ground, new))
    return Choice(chosen, wait and not ground.away and bool(ground.new), alone, openers, drawn)


def for_pupil(pupil: Pupil, minutes: float, random: Random) -> Plan:
    """The plan for one child on the pupil's day; skills whose earlier skills are not met yet wait."""
    from review.core import skills

    return plan(basis_of(pupil, minutes)._replace(traits=skills.traits_among(pupil.traits)), random)


def choice(pupil: Pupil, seen: Iterable[Look], minutes: float, random: Random) -> Choice:
    """The same as far as a report tells of it. `seen`: the cards as they were looked at on that day already,
    each as ready."""
    kept = {look.card.key: (True, look) for look in seen}
    basis = basis_of(pupil, minutes)._replace(traits=lambda key: kept[key][1].traits, kept=kept)
    return _choice(grounds.ground(basis), random)


def basis_of(pupil: Pupil, minutes: float) -> Basis:
    ready = open_skills(pupil.skills, pupil.cards, pupil.memory, pupil.settings.taught)
    return Basis(pupil.cards, pupil.memory, pupil.settings, pupil.day, minutes, pupil.recent, ready)


def ranked(basis: Basis) -> tuple[PlanItem, ...]:
    """All that is worth asking that day, best first, however long it takes; new cards at the pace, and
    further ones last where it goes well."""
    ground = grounds.ground(basis._replace(paper=True))
    sure = grounds.sure(ground, _most_ends(ground, OPENING))
    ends = sure[: _ends(ground, sure, OPENING)]
    wait = _must_wait(ground, ends)
    # What only the sitting itself would hold back, after misses, is ranked all the same.
    alone = wait and _is_alone(ground, ends, wait)
    new = _coming(ground, wait, alone)
    asked = _once([*ground.due, *ground.early, *ground.meet], ground)
    soon = _apart(new, asked, ground)[: ground.pace]
    asked = _once([*asked, *soon, *ground.slip], ground)
    return (*asked, *_apart(new, asked, ground)[: ground.most - len(soon)])


def open_skills(
    skills: Mapping[str, Skill],
    cards: Sequence[Card],
    memory: Mapping[str, CardMemory],
    taught: Collection[str] | None = None,
) -> frozenset[str]:
    """Skills whose earlier skills are met: at least half of the cards the child has of each (our
    judgement). An earlier skill that was not taught holds nothing back: the parent has chosen another order.
    """
    met: dict[str, list[bool]] = {}
    for card in cards:
        known = memory.get(card.key)
        for skill in card.skills:
            met.setdefault(skill, []).append(known is not None and known.met_day > 0)
    asked_for = met.keys() if taught is None else met.keys() & set(taught)
    behind = {skill for skill in asked_for if 2 * sum(met[skill]) < len(met[skill])}
    return frozenset(name for name, skill in skills.items() if behind.isdisjoint(skill.after))


# --- the choice ---------------------------------------------------------------------------------------


def _drawn(sure: list[T], random: Random) -> list[T]:
    """Sure cards, drawn among the least sure of them, so that it is not the same few every day."""
    some = sure[::-1][:SURE_FROM]
    random.shuffle(some)
    return some + sure[::-1][SURE_FROM:]


def _ends(ground: Ground, sure: Sequence[PlanItem], openers: int) -> int:
    """How many sure cards to mix in: for both ends, and more, up to a quarter, where misses would be many."""
    ends, target = openers + 1, standings.target(ground.basis.settings)
    hard = _walked([*sure[:ends], *ground.due], ground)
    short = target * len(hard) - sum(map(chance, hard))
    lift = ceil(short / max(0.01, SURE - target))
    return ends + min(max(0, lift), len(hard) // 4)


def _most_ends(ground: Ground, openers: int) -> int:
    """As many as `_ends` may say."""
    return openers + 1 + (openers + 1 + len(ground.due)) // 4


def _must_wait(ground: Ground, ends: list[PlanItem]) -> bool:
    """Whether new cards wait: after days away, after many misses, or while today's predicted share right is
    under the target and more than a miss or two are expected."""
    if ground.away or many_missed(ground.basis.recent):
        return True
    if ground.aside >= ASIDE_MOST:
        return True
    asked = [item for item in _chosen(ground, ends, []) if item.why != "meet"]
    misses = sum(1 - chance(item) for item in asked)
    return misses > max(FEW_MISSES, (1 - standings.target(ground.basis.settings)) * len(asked))


def _is_alone(ground: Ground, ends: Sequence[PlanItem], wait: bool) -> bool:
    """Whether one new card comes, and no more: where next to nothing else is to ask, however the last days
    went, and where not many were missed and most of the minutes would be left empty."""
    recent = ground.basis.recent
    if ground.away:
        return False
    if len(ground.due) + len(ground.slip) < FEW:
        return wait or went_badly(recent)
    if not wait or many_missed(recent) or ground.aside >= ASIDE_MOST:
        return False
    asked = _walked([*ends, *ground.due, *ground.early, *ground.slip], ground)
    return sum(item.seconds for item in asked) < SPARE * 60 * ground.basis.minutes


def _coming(ground: Ground, wait: bool, alone: bool) -> list[PlanItem]:
    return ground.new[:1] if alone else [] if wait else ground.new


def _in_focus(ground: Ground, new: Sequence[PlanItem]) -> Sequence[PlanItem]:
    """What the week's focus has to ask, for its share of the minutes."""
    first = ground.basis.settings.focus
    if not first:
        return ()
    asked = (*ground.due, *ground.early, *new, *ground.slip)
    mine = [item for item in asked if focus.holds(ground.looks[item.key].card, first)]
    return _walked(mine, ground, focus.SHARE)


def _chosen(
    ground: Ground,
    ends: list[PlanItem],
    new: list[PlanItem],
    before: Sequence[PlanItem] = (),
) -> list[PlanItem]:
    """What fills the minutes, best first; meetings at most 1 in 10, and one where there are fewer. `before`:
    what comes before all that is due."""
    offered = OFFERED * ground.pace
    wanted = [*ends, *before, *ground.due, *ground.early, *new[:offered], *ground.slip, *new[offered:]]
    size = len(_walked(wanted, ground))
    meet = ground.meet[: max(1, size // MEET_SHARE)]
    first = len(ends) + len(before) + len(ground.due) + len(ground.early)
    chosen = _walked([*wanted[:first], *meet, *wanted[first:]], ground)
    fit = max(1, len(chosen) // MEET_SHARE)
    over = [item for item in chosen if item.why == "meet"][fit:]
    return [item for item in chosen if item not in over]


def _walked(wanted: Iterable[PlanItem], ground: Ground, share: float = 1) -> list[PlanItem]:
    """As many as fit a share of the minutes, in order, and at least one; a family once; typed, one long
    card."""
    every = list(wanted)
    least = min((item.seconds for item in every), default=0.0)
    left, chosen, long = ground.basis.minutes * share * 60, list[PlanItem](), False
    for item in _each_apart(every, (), ground):
        if chosen and left < least:
            break  # nothing fits any more
        is_long = not ground.basis.paper and ground.looks[item.key].traits.seconds > LONG_S
        if (item.seconds <= left or not chosen) and not (is_long and long):
            chosen.append(item)
            left -= item.seconds
            long = long or is_long
    return chosen


def _once(wanted: Iterable[PlanItem], ground: Ground) -> list[PlanItem]:
    """The first of each key and of each family of partner facts."""
    return _apart(wanted, (), ground)


def _apart(wanted: Iterable[PlanItem], chosen: Sequence[PlanItem], ground: Ground) -> list[PlanItem]:
    """What is wanted and not chosen, each key and family once."""
    return [*_each_apart(wanted, chosen, ground)]


def _each_apart(wanted: Iterable[PlanItem], chosen: Sequence[PlanItem], ground: Ground) -> Iterator[PlanItem]:
    keys = {item.key for item in chosen}
    families = {ground.looks[item.key].traits.family for item in chosen} | ground.families
    for item in wanted:
        family = ground.looks[item.key].traits.family
        if item.key not in keys and (not family or family not in families):
            keys.add(item.key)
            families.add(family)
            yield item
