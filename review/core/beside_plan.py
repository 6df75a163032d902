"""Plans of sittings beside the day's warm-up: a few more of one kind on demand, and sure cards on a hard day.

Neither moves the memory of a card: what is asked for on demand is not a try after a gap, and a hard day says
nothing of what is known.
"""

from collections.abc import Collection, Iterable, Sequence
from itertools import cycle, islice
from random import Random

from review.core import correction, new_cards, skills
from review.core import ground as grounds
from review.core.arrangement import arranged
from review.core.ground import Basis, Ground
from review.core.model import Card, Pupil
from review.core.warmup import Plan, PlanItem

COUNT = 6
MOST = 20
"""Cards a few more of one kind are, unless a parent says how many, and at most: two ten-frames (our
judgement)."""

NO_END = 60.0  # minutes: it ends by its count
REST = 4  # sure cards kept for after two misses
GENTLE_MINUTES = 2.0  # our judgement
FEWEST = 3  # sure cards a gentle sitting has, or others are taken that are remembered best


def more(pupil: Pupil, wanted: Collection[str], count: int, random: Random) -> Plan:
    """So many showings of the cards of those skills, what is least sure before the rest; where there are
    fewer cards, they take turns. It opens with the surest of them. What was never met is asked as such, and
    ends where as many as the pace allows were not known."""
    mine = [card for card in pupil.cards if not {*wanted}.isdisjoint(card.skills)]
    chosen = sorted(mine, key=lambda card: (_recall(pupil, card), card.order))[:count]
    opener = max(chosen, key=lambda card: _recall(pupil, card))
    others = [card for card in chosen if card != opener]
    random.shuffle(others)
    asked = islice(cycle([opener, *others]), count)
    items = tuple(_item(pupil, card) for card in asked)
    sure = _drawn(grounds.sure(_ground(pupil)), random)
    rest = (item for item in sure if item.key not in {one.key for one in mine})
    return Plan(pupil.day, NO_END, items, tuple(islice(rest, REST)), new_cards.pace(pupil.settings))


def _item(pupil: Pupil, card: Card) -> PlanItem:
    known = pupil.memory.get(card.key)
    met = known is not None and known.met_day > 0
    return PlanItem(card.key, "due" if met else "new", skills.traits(card.key).seconds, None)


def gentle(pupil: Pupil, minutes: float, random: Random) -> Plan:
    """Sure cards alone, within the minutes; where there are next to none, those remembered best. Without an
    item where nothing was ever measured."""
    found = _ground(pupil)
    sure = _drawn(grounds.sure(found), random)
    best = sure if len(sure) >= FEWEST else [*sure, *_remembered(found, {item.key for item in sure})]
    chosen = _within(best, minutes * 60)
    groups = {item.key: skills.traits(item.key).groups for item in chosen}
    keys = {item.key for item in chosen}
    rest = tuple(item for item in best if item.key not in keys)[:REST]
    return Plan(pupil.day, minutes, arranged(chosen, groups, 1, random), rest)


def due_among(pupil: Pupil, keys: Collection[str]) -> frozenset[str]:
    """Cards whose turn in today's warm-up is still to come."""
    return frozenset(item.key for item in _ground(pupil).due if item.key in keys)


def _ground(pupil: Pupil) -> Ground:
    return grounds.ground(
        Basis(
            pupil.cards, pupil.memory, pupil.settings, pupil.day, pupil.child.minutes, pupil.recent,
            traits=skills.traits, paper=True,
        )
    )  # fmt: skip


def _recall(pupil: Pupil, card: Card) -> float:
    """What was never measured comes after what has faded, and before what is sure."""
    known = pupil.memory.get(card.key)
    chance = correction.recall(pupil.settings.habits, known, pupil.day) if known else None
    return grounds.INTRODUCED if chance is None else chance


def _drawn(sure: Sequence[PlanItem], random: Random) -> list[PlanItem]:
    """In another order every time."""
    return random.sample(sure, len(sure))


def _remembered(found: Ground, but: Collection[str]) -> list[PlanItem]:
    """What was measured, best remembered first, as if it were sure."""
    met = [item for item in (*found.slip, *found.early, *found.due) if item.recall is not None]
    left = [item._replace(why="sure") for item in met if item.key not in but]
    return sorted(left, key=lambda item: (-(item.recall or 0.0), item.key))


def _within(items: Iterable[PlanItem], seconds: float) -> list[PlanItem]:
    """As many as fit, at least one; of partner facts one."""
    chosen: list[PlanItem] = []
    families: set[str] = set()
    for item in items:
        family = skills.traits(item.key).family
        if (item.seconds <= seconds or not chosen) and (not family or family not in families):
            chosen.append(item)
            families.add(family)
            seconds -= item.seconds
    return chosen
