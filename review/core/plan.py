"""Cards, memory, a day and minutes to today's warm-up.

The rule was found by simulation on three models of memory that are not this one: due cards first, new ones
last and few, then cards that are not due but likely to slip; the order among due cards hardly matters, how
fast gaps grow does.
"""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from math import ceil
from random import Random
from typing import NamedTuple

from review.core import standing as standings
from review.core.arrangement import arranged
from review.core.model import AIMS, Card, CardMemory, Plan, PlanItem, Pupil, Settings, Skill, Traits, Why
from review.core.standing import Standing

TraitsOf = Callable[[str], Traits]

SLIP = 0.97  # not due, but worth asking below this recall (measured on simulated children)
SURE = 0.95  # recall of a card that is sure to succeed (our judgement)
SURE_FROM = 12  # sure cards are drawn from so many that were not seen longest, so that they change
RESERVE = 4
OPENING = 2  # sure cards first; one in a sitting under 3 minutes (our judgement)
OFFERED = 3  # new cards offered, times the pace: some prove known and do not count (our judgement)
OFFERED_MOST = 8  # the same, once nothing else is left to ask
FEW = 3  # cards to ask: with fewer, one new card comes also after hard days (our judgement)
INTRODUCED = 0.7  # chance of a card met but not measured (our judgement)
NEW = 0.5  # chance that a new card proves known (our judgement)
NEW_SHOWINGS = 4  # what is not known is shown, copied and looked at twice more
FEW_MISSES = (
    1.5  # a sitting in which no more are expected is not too much: three cards just met (our judgement)
)
RECENT_RIGHT = 8  # of the last 10 first tries, or new cards wait (our judgement)
LONG_S, PAPER_S = 30, 60  # typed, one card longer than the first a sitting, none longer than the second
MEET_SHARE = 10  # at most 1 card in 10 is a familiarity card's meeting
WINDOW = 12  # new products are chosen unlike each other among so many next ones
ALIKE = 1  # shared digit pairs among a week's new products, where possible


class Look(NamedTuple):
    """A card as it stands today."""

    card: Card
    traits: Traits
    memory: CardMemory | None
    standing: Standing
    seconds: float


class Ground(NamedTuple):
    """What a plan is made from; each part best first."""

    looks: Mapping[str, Look]
    due: list[PlanItem]
    meet: list[PlanItem]
    new: list[PlanItem]
    slip: list[PlanItem]
    sure: list[PlanItem]
    pace: int  # new cards that may still prove unknown today
    away: bool
    families: frozenset[str]  # had their turn today
    paper: bool


def plan(
    cards: Sequence[Card],
    memory: Mapping[str, CardMemory],
    settings: Settings,
    day: int,
    minutes: float,
    random: Random,
    recent: Sequence[bool] = (),
    after_done: Collection[str] | None = None,
    *,
    traits: TraitsOf | None = None,
    paper: bool = False,
) -> Plan:
    """Today's warm-up, within the minutes by expected seconds, in showing order.

    `recent`: the last first tries, right or not, oldest first. `after_done`: skills whose earlier skills
    are met (see `open_skills`); None: all. `paper`: work over a minute may come. The order of cards and
    memory makes no difference; the random source does.
    """
    ground = _ground(cards, memory, settings, day, after_done, traits, paper)
    openers = OPENING if minutes >= 3 else 1
    sure = _drawn(ground.sure, random)
    ends = sure[: _ends(ground, sure, settings, minutes, openers)]
    wait = _must_wait(ground, ends, settings, minutes, recent)
    alone = wait and not ground.away and len(ground.due) + len(ground.slip) < FEW
    chosen = _chosen(ground, ends, ground.new[:1] if alone else [] if wait else ground.new, minutes)
    groups = {item.key: ground.looks[item.key].traits.groups for item in chosen}
    return Plan(
        day,
        minutes,
        arranged(chosen, groups, openers, random),
        tuple(_apart(sure, chosen, ground))[:RESERVE],
        ground.pace,
        waiting=len(_apart(ground.due, chosen, ground)),
        too_much=wait and not ground.away and bool(ground.new),
        alone=alone,
    )


def for_pupil(pupil: Pupil, minutes: float, random: Random) -> Plan:
    """The plan for one child on the pupil's day; skills whose earlier skills are not met yet wait."""
    ready = open_skills(pupil.skills, pupil.cards, pupil.memory, pupil.settings.taught)
    return plan(pupil.cards, pupil.memory, pupil.settings, pupil.day, minutes, random, pupil.recent, ready)


def ranked(
    cards: Sequence[Card],
    memory: Mapping[str, CardMemory],
    settings: Settings,
    day: int,
    minutes: float,
    recent: Sequence[bool] = (),
    after_done: Collection[str] | None = None,
    *,
    traits: TraitsOf | None = None,
) -> tuple[PlanItem, ...]:
    """All that is worth asking today, best first, however long it takes; new cards no more than the pace."""
    ground = _ground(cards, memory, settings, day, after_done, traits, paper=True)
    wait = _must_wait(ground, [], settings, minutes, recent)
    new = [] if wait else ground.new[: ground.pace]
    return tuple(_once([*ground.due, *ground.meet, *new, *ground.slip], ground))


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
        for skill in (card.skill, *card.also):
            met.setdefault(skill, []).append(known is not None and known.met_day > 0)
    asked_for = met.keys() if taught is None else met.keys() & set(taught)
    behind = {skill for skill in asked_for if 2 * sum(met[skill]) < len(met[skill])}
    return frozenset(name for name, skill in skills.items() if behind.isdisjoint(skill.after))


def pace(settings: Settings) -> int:
    """New cards a day: the parent's, or 2 at 6 and 7, 3 at 8 and 9, 4 from 10 (our judgement)."""
    return settings.pace or (2 if settings.age < 8 else 3 if settings.age < 10 else 4)


# --- what there is ------------------------------------------------------------------------------------


def _ground(
    cards: Sequence[Card],
    memory: Mapping[str, CardMemory],
    settings: Settings,
    day: int,
    after_done: Collection[str] | None,
    traits: TraitsOf | None,
    paper: bool,
) -> Ground:
    every = _looks(cards, memory, settings, day, after_done, traits or _own_traits())
    seen = {look.card.key for look in every if _had(look.memory, day)}
    looks = [x for x in every if x.card.key not in seen and (paper or x.traits.seconds <= PAPER_S)]
    away = standings.is_back(memory.values(), day)
    started = sum(m.intro_day == day == m.met_day for m in memory.values())
    left = max(0, pace(settings) - started)
    return Ground(
        {look.card.key: look for look in looks},
        _due(looks, away),
        [_item(look, "meet") for look in looks if _meets(look)],
        _new(looks, every, settings, day, left),
        _by_recall(looks, "slip", lambda look: _measured_not_due(look) <= SLIP),
        _by_recall(looks, "sure", lambda look: SURE <= _measured_not_due(look) <= 1)[::-1],
        left,
        away,
        frozenset(look.traits.family for look in every if look.card.key in seen) - {""},
        paper,
    )


def _looks(
    cards: Sequence[Card],
    memory: Mapping[str, CardMemory],
    settings: Settings,
    day: int,
    after_done: Collection[str] | None,
    traits: TraitsOf,
) -> list[Look]:
    """Every card once, in teaching order. A card of two sets has the stricter aim."""
    strictest = {card.key: card for card in sorted(cards, key=lambda c: (AIMS.index(c.aim), -c.order))}
    usual = _usual_ms(memory[key] for key in strictest if key in memory)
    looks = []
    for card in sorted(strictest.values(), key=lambda c: (c.order, c.key)):
        known, its = memory.get(card.key), traits(card.key)
        partner = strictest.get(its.partner)
        ready = _is_open(card, settings, after_done) and (
            partner is None or not _taught(partner, settings) or _is_known(memory.get(partner.key))
        )
        found = standings.standing(card, its, known, settings, day, ready=ready)
        looks.append(Look(card, its, known, found, _seconds(card, its, known, found, usual)))
    return looks


def _taught(card: Card, settings: Settings) -> bool:
    return standings.is_taught(card, settings)


def _is_open(card: Card, settings: Settings, after_done: Collection[str] | None) -> bool:
    """Whether a taught skill that holds the card waits for no other."""
    holding = (card.skill, *card.also)
    taught = holding if settings.taught is None else settings.taught.intersection(holding)
    return after_done is None or any(skill in after_done for skill in taught)


def _is_known(memory: CardMemory | None) -> bool:
    """Known well enough for the fact that leans on it: said so, at once, or from memory on two days."""
    return memory is not None and (memory.known or memory.placed > 0 or memory.right_days >= 2)


def _had(memory: CardMemory | None, day: int) -> bool:
    """It had its turn today. A turn that was cut off leaves it free."""
    return memory is not None and memory.seen_day == day and memory.last_mark != "void"


def _usual_ms(memories: Iterable[CardMemory]) -> dict[str, tuple[int, int]]:
    """The child's mean milliseconds of each kind: right and unaided, and otherwise; 0 where nothing is
    known."""
    sums: dict[str, list[int]] = {}
    for m in memories:
        of = sums.setdefault(m.card.partition(":")[0], [0, 0, 0, 0])
        for n, add in enumerate((m.passed_ms * m.passed_n, m.passed_n, m.other_ms * m.other_n, m.other_n)):
            of[n] += add
    return {kind: (a // max(1, n), b // max(1, k)) for kind, (a, n, b, k) in sums.items()}


def _seconds(
    card: Card,
    traits: Traits,
    memory: CardMemory | None,
    found: Standing,
    usual: Mapping[str, tuple[int, int]],
) -> float:
    """Expected seconds: the child's own for this card, else for its kind, else the kind's, by the chance of
    each. Whatever is not right at once takes twice as long until it is known better (our judgement)."""
    own = memory or CardMemory(card.key)
    kind = usual.get(card.kind, (0, 0))
    passed = own.passed_ms or kind[0] or traits.seconds * 1000
    other = own.other_ms or kind[1] or 2 * passed
    if found.state in ("new", "waiting", "untaught"):
        return round((NEW * passed + (1 - NEW) * max(other, NEW_SHOWINGS * passed)) / 1000, 1)
    chance = INTRODUCED if found.recall is None else found.recall
    return round((chance * passed + (1 - chance) * other) / 1000, 1)


# --- the parts, best first ----------------------------------------------------------------------------


def _item(look: Look, why: Why) -> PlanItem:
    return PlanItem(look.card.key, why, look.seconds, look.standing.recall)


def _measured_not_due(look: Look) -> float:
    """Its recall; 2 for a card that is due, has none, or is not in play."""
    in_play = look.standing.state in ("growing", "holding") and look.card.aim != "familiarity"
    in_play = in_play and look.standing.due_in > 0
    return look.standing.recall if in_play and look.standing.recall is not None else 2.0


def _by_recall(looks: Sequence[Look], why: Why, wanted: Callable[[Look], bool]) -> list[PlanItem]:
    return [_item(look, why) for look in sorted(filter(wanted, looks), key=_lowest)]


def _lowest(look: Look) -> tuple[float, str]:
    recall = look.standing.recall
    return (0.0 if recall is None else recall), look.card.key


def _due(looks: Sequence[Look], away: bool) -> list[PlanItem]:
    """Lowest recall first, what was met and never measured before all; after days away the other way
    round."""
    states = ("introduced", "growing", "holding", "fading", "overdue")
    due = _by_recall(looks, "due", lambda x: _scheduled(x) and x.standing.state in states)
    return due[::-1] if away else due


def _scheduled(look: Look) -> bool:
    return look.card.aim != "familiarity" and look.standing.due_in <= 0


def _meets(look: Look) -> bool:
    state, due = look.standing.state, look.standing.due_in <= 0
    return look.card.aim == "familiarity" and state in ("new", "growing", "holding") and due


def _new(
    looks: Sequence[Look], every: Sequence[Look], settings: Settings, day: int, left: int
) -> list[PlanItem]:
    """New cards in teaching order; among products, few a week and unlike each other."""
    if left == 0:
        return []
    new = [x for x in looks if x.standing.state == "new" and x.card.aim != "familiarity"]
    week = [x for x in every if _started_this_week(x, day)]
    allowed = max(0, (7 if settings.age >= 10 else 4) - len(week))
    limit = allowed if allowed < left else OFFERED_MOST * left
    unlike = iter(_unlike([x for x in new if x.card.kind == "product"], week, limit))
    order = (next(unlike, None) if x.card.kind == "product" else x for x in new)
    return [_item(look, "new") for look in order if look is not None]


def _started_this_week(look: Look, day: int) -> bool:
    m = look.memory
    return look.card.kind == "product" and m is not None and m.intro_day > 0 and day - m.intro_day < 7


def _unlike(products: Sequence[Look], week: Sequence[Look], limit: int) -> list[Look]:
    """The next products, those first that share few digit pairs with the week's.

    Dissimilar weekly sets were learned better, and still were seven weeks later (interference study with
    first-graders; the index follows De Visscher & Noel 2014, its rule from memory).
    """
    left, taken = list(products), [look.traits.digit_pairs for look in week]
    load = sum(len(a & b) for n, a in enumerate(taken) for b in taken[:n])
    chosen: list[Look] = []
    while left and len(chosen) < limit:
        shared = [sum(len(x.traits.digit_pairs & pairs) for pairs in taken) for x in left[:WINDOW]]
        best = min(range(len(shared)), key=lambda n: (max(0, load + shared[n] - ALIKE), n))
        load += shared[best]
        taken.append(left[best].traits.digit_pairs)
        chosen.append(left.pop(best))
    return chosen


# --- the choice ---------------------------------------------------------------------------------------


def _drawn(sure: list[PlanItem], random: Random) -> list[PlanItem]:
    """Sure cards, drawn among the least sure of them, so that it is not the same few every day."""
    some = sure[::-1][:SURE_FROM]
    random.shuffle(some)
    return some + sure[::-1][SURE_FROM:]


def _ends(ground: Ground, sure: Sequence[PlanItem], settings: Settings, minutes: float, openers: int) -> int:
    """How many sure cards to mix in: for both ends, and more, up to a quarter, where misses would be many."""
    ends = openers + 1
    hard = _walked([*sure[:ends], *ground.due], ground, minutes)
    short = standings.target(settings) * len(hard) - sum(map(_chance, hard))
    lift = ceil(short / max(0.01, SURE - standings.target(settings)))
    return ends + min(max(0, lift), len(hard) // 4)


def _must_wait(
    ground: Ground, ends: list[PlanItem], settings: Settings, minutes: float, recent: Sequence[bool]
) -> bool:
    """Whether new cards wait: after days away, after many misses, or while today's predicted share right is
    under the target and more than a miss or two are expected."""
    if ground.away or (len(recent) >= 10 and sum(recent[-10:]) < RECENT_RIGHT):
        return True
    asked = [item for item in _chosen(ground, ends, [], minutes) if item.why != "meet"]
    misses = sum(1 - _chance(item) for item in asked)
    return misses > max(FEW_MISSES, (1 - standings.target(settings)) * len(asked))


def _chance(item: PlanItem) -> float:
    return INTRODUCED if item.recall is None else item.recall


def _chosen(ground: Ground, ends: list[PlanItem], new: list[PlanItem], minutes: float) -> list[PlanItem]:
    """What fills the minutes, best first; meetings at most 1 in 10, and one where there are fewer."""
    offered = OFFERED * ground.pace
    wanted = [*ends, *ground.due, *new[:offered], *ground.slip, *new[offered:]]
    size = len(_walked(wanted, ground, minutes))
    meet = ground.meet[: max(1, size // MEET_SHARE)]
    first = len(ends) + len(ground.due)
    chosen = _walked([*wanted[:first], *meet, *wanted[first:]], ground, minutes)
    fit = max(1, len(chosen) // MEET_SHARE)
    over = [item for item in chosen if item.why == "meet"][fit:]
    return [item for item in chosen if item not in over]


def _walked(wanted: Iterable[PlanItem], ground: Ground, minutes: float) -> list[PlanItem]:
    """As many as fit the minutes, in order, and at least one; a family once; typed, one long card."""
    left, chosen, long = minutes * 60, list[PlanItem](), False
    for item in _once(wanted, ground):
        is_long = not ground.paper and ground.looks[item.key].traits.seconds > LONG_S
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
    keys = {item.key for item in chosen}
    families = {ground.looks[item.key].traits.family for item in chosen} | ground.families
    out = []
    for item in wanted:
        family = ground.looks[item.key].traits.family
        if item.key not in keys and (not family or family not in families):
            keys.add(item.key)
            families.add(family)
            out.append(item)
    return out


def _own_traits() -> TraitsOf:
    from review.core import skills

    return skills.traits
