"""Where a card stands on a day: due, fading, overdue, growing, holding."""

from collections.abc import Collection, Iterable, Mapping
from itertools import pairwise
from typing import Literal, NamedTuple

from review.core import correction, curve
from review.core.correction import Lens
from review.core.model import Aim, Card, CardMemory, Settings, Traits

State = Literal[
    "untaught", "new", "waiting", "growing", "holding", "fading", "overdue", "aside", "introduced"
]
"""untaught: its skill is not taught yet; new: may come for the first time; waiting: new, but another card
comes first; introduced: met, not measured yet; aside: set aside to be taught; the others as in the
glossary."""

HOLDING_DAYS = 3
HOLDING_GAP = 14
"""Holding: recalled on 3 different days, and the plan trusts it for 2 weeks or more (our judgement)."""

MEETINGS = (3, 7, 11, 15, 20)
MONTH = 30
"""Gaps in days between the meetings of a familiarity card: six in eight weeks, then monthly (our
judgement)."""

AWAY_DAYS = 7
BACK_DAYS = 2
FIRST_DAYS = 3
"""After a week or more away, two practised days are for coming back (our judgement)."""


ASKS: Mapping[Aim, float] = {"fluency": 0.90, "accuracy": 0.85}
"""Recall that an aim asks for (our judgement). A card past its planned day that is still surer than that is
asked in its turn and worries nobody: the longest gap, not forgetting, set its day."""


DUE_OVER = 0.03
FAR = 0.97
"""Recall a card must be sure to have at the end of a gap longer than the first cap (measured here: of 1,000
cards in 5 minutes .95 left 15 to 30 fewer at .9 after 30 days without practice, on four models of
memory)."""


class Standing(NamedTuple):
    state: State
    recall: float | None = None  # None: never measured
    due_in: int = 0  # days until its planned day; 0 or less: due
    gap: int = 0  # planned, in days; 0: none yet

    @property
    def days_overdue(self) -> int:
        """Days past its planned day."""
        return max(0, -self.due_in)


class Look(NamedTuple):
    """A card as it stands on a day."""

    card: Card
    traits: Traits
    memory: CardMemory | None
    standing: Standing


class Today(NamedTuple):
    """A day and the settings it is planned by, with what is the same for all cards reckoned once: a plan
    asks after every card of a course."""

    settings: Settings
    day: int
    lens: Lens
    decay: float
    due: float  # logits of recall: under it a card is due
    far: float  # what is asked of a gap longer than the first cap


def seen_on(settings: Settings, day: int) -> Today:
    ways, asked = settings.habits, due_below(settings)
    far = correction.logit(max(FAR, asked))
    return Today(settings, day, correction.lens(ways), correction.decay(ways), correction.logit(asked), far)


def target(settings: Settings) -> float:
    """The share right a sitting is built to: .90 under 8, .87 from 8 (our judgement; younger children need
    more success)."""
    return settings.target or (0.90 if settings.age < 8 else 0.87)


def due_below(settings: Settings) -> float:
    """The recall under which a card is due: a little over the share right that a sitting is built to, or the
    due ones alone would always be under it, and nothing new would ever come (measured here: as many cards
    held as with the share itself, and fewer hard days)."""
    return settings.target or target(settings) + DUE_OVER


def gap(memory: CardMemory, settings: Settings, aim: Aim) -> int:
    """The planned gap in whole days, at least 1: until recall falls to the target, at most the card's longest
    gap. A familiarity card goes by its meetings."""
    if aim == "familiarity":
        return (*MEETINGS, MONTH)[min(max(memory.tries - 1, 0), len(MEETINGS))]
    if memory.stability is None:
        return 1
    seen = correction.lens(settings.habits)
    return _gap(memory, memory.stability, seen_on(settings, 0), correction.level(seen, memory))


def _gap(memory: CardMemory, stability: float, today: Today, level: float) -> int:
    """Beyond the first cap goes only what has earned it and is still surer at the end of so long a gap."""
    settings, _, lens, decay, due, far = today
    if memory.capped >= curve.RIGHTS_AT_CAP:
        sure = round(curve.interval(stability, correction.bent(lens, level, far), decay))
        if sure > settings.cap:
            return min(sure, curve.longest(memory.capped, settings.cap))
    days = round(curve.interval(stability, correction.bent(lens, level, due), decay))
    return min(max(1, days), settings.cap)


def due_day(memory: CardMemory, gap: int) -> int:
    """The day its planned gap is over."""
    return (memory.last_day or memory.intro_day or memory.met_day) + gap


def leeway(gap: int) -> int:
    """Days past its planned day before a card is overdue: 2, or a quarter of its gap, whichever is more."""
    return max(2, gap // 4)


def is_new(memory: CardMemory | None, day: int) -> bool:
    """Never met, or set aside long enough to come back as new."""
    if memory is None or memory.met_day == 0:
        return True
    return 0 < memory.aside_day <= day - curve.ASIDE_DAYS


def is_taught(card: Card, settings: Settings) -> bool:
    """Whether one of the skills that hold the card has been taught."""
    taught = settings.taught
    return taught is None or card.skill in taught or not taught.isdisjoint(card.also)


def standing(
    card: Card, memory: CardMemory | None, settings: Settings, day: int, *, ready: bool = True
) -> Standing:
    """Where a card stands; `ready` says whether the cards that must come before it have come."""
    return stands(card, memory, seen_on(settings, day), ready)


def stands(card: Card, memory: CardMemory | None, today: Today, ready: bool) -> Standing:
    """The same, for one card of many."""
    day = today.day
    if not is_taught(card, today.settings):
        return UNTAUGHT
    if memory is None or is_new(memory, day):
        return NEW if ready else WAITING
    planned, recall = _foretold(memory, card.aim, today)
    due_in = due_day(memory, planned) - day
    late = -due_in if recall is not None and recall < ASKS.get(card.aim, 0.0) else 0
    return Standing(_met(card.aim, memory, planned, late), recall, due_in, planned)


UNTAUGHT, NEW, WAITING = Standing("untaught"), Standing("new"), Standing("waiting")


def _foretold(memory: CardMemory, aim: Aim, today: Today) -> tuple[int, float | None]:
    """The planned gap, and recall on the day; None where nothing was measured."""
    settings, day, lens, decay, _, _ = today
    stability = memory.stability
    if stability is None:
        return gap(memory, settings, aim), None
    level = correction.level(lens, memory)
    by_curve = curve.recall(stability, day - memory.last_day, decay)
    familiar = aim == "familiarity"
    planned = gap(memory, settings, aim) if familiar else _gap(memory, stability, today, level)
    return planned, correction.straightened(lens, level, by_curve)


def _met(aim: Aim, memory: CardMemory, planned: int, late: int) -> State:
    if aim == "familiarity":
        return "growing"  # it is to be met and recognised: nobody asks that it holds
    if memory.aside_day:
        return "aside"
    if memory.stability is None:
        return "introduced"
    if late > 0:  # past its planned day, and under what its aim asks
        return "overdue" if late > leeway(planned) else "fading"
    long = planned >= HOLDING_GAP
    return "holding" if long and memory.right_days >= HOLDING_DAYS else "growing"


def is_back(memories: Iterable[CardMemory], day: int) -> bool:
    """Whether this is the first or second practised day after a week or more away.

    Days are read off memory, which keeps for each card when it was last seen, tried, met, and the gap before.
    """
    latest = [day, *sorted(practised(memories, day), reverse=True)[:BACK_DAYS]]
    return any(later - earlier >= AWAY_DAYS for later, earlier in pairwise(latest))


def last_before_pause(memories: Iterable[CardMemory], day: int) -> int:
    """The day of the last practice where it lies a week or more back; 0: it does not, or there was none.

    In whichever sitting, as reports count days; what a parent said is known was not practised by that.
    """
    last = max((at for m in memories for at in (m.seen_day, m.beside_day) if at <= day), default=0)
    return last if last and day - last >= AWAY_DAYS else 0


def is_beginning(memories: Collection[CardMemory], day: int) -> bool:
    """Whether this is one of a child's first three practised days."""
    tries = max((m.tries for m in memories), default=0)  # first tries: one a day
    return tries < FIRST_DAYS and len(practised(memories, day)) < FIRST_DAYS


def practised(memories: Iterable[CardMemory], day: int) -> set[int]:
    """The days before that day on which something was practised, as far as memory still tells."""
    every = list(memories)
    asked = [m for m in every if not m.known]  # a parent's word stands as met and tried
    shown = {m.seen_day for m in every} | {m.intro_day for m in every}
    tried = {m.met_day for m in asked} | {m.last_day for m in asked} | {m.last_day - m.gap for m in asked}
    return {at for at in shown | tried if 0 < at < day}
