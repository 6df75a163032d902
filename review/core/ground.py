"""What there is to ask on a day: every card as it stands, sorted into what is due, new, likely to slip, sure.

The cards of a course and their traits stay the same from day to day and are kept: a plan for 5,000 cards,
most of them new, should take no longer than a blink.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

from review.core import new_cards
from review.core import standing as standings
from review.core.model import AIMS, Card, CardMemory, Settings, Traits, TraitsOf
from review.core.standing import Look, Today
from review.core.traits import of_kinds
from review.core.warmup import PlanItem, Why

SLIP = 0.97  # not due, but worth asking below this recall (measured on simulated children)
SURE = 0.95  # recall of a card that is sure to succeed (our judgement)

INTRODUCED = 0.7  # chance of a card met but not measured (our judgement)
AT_SIGHT = 0.5  # chance that a new card proves known (our judgement)
NEW_SHOWINGS = 4  # what is not known is shown, copied and looked at twice more
PAPER_S = 60  # typed, no card longer than that

AROUND = 3
"""On a child's first three days one new card comes, where there are as many others to ask around it (a
teacher's judgement; with fewer it could not come again two or three cards later)."""

DUE_STATES = frozenset({"introduced", "growing", "holding", "fading", "overdue"})
RESTING = frozenset({"growing", "holding"})
NEVER_MET = frozenset({"new", "waiting", "untaught"})


class InCourse(NamedTuple):
    """A card in a course: what stays the same from day to day."""

    card: Card
    traits: Traits
    partner: Card | None  # the fact that must be known first


Usual = Mapping[str, tuple[int, int]]
Kept = dict[str, tuple[bool, Look]]
"""Looks of an earlier call for the same day and settings, by key; whether the card was ready then. A look is
used again while the card's memory is the very same record."""


class Basis(NamedTuple):
    """What a day is planned from: a child, a day and the minutes there are."""

    cards: Sequence[Card]
    memory: Mapping[str, CardMemory]
    settings: Settings
    day: int
    minutes: float
    recent: Sequence[bool] = ()  # the last first tries, right or not, oldest first
    after_done: Collection[str] | None = None  # skills whose earlier skills are met; None: all
    traits: TraitsOf | None = None  # None: those of the kinds
    paper: bool = False  # work over a minute may come
    kept: Kept | None = None  # looks of an earlier call


class Ground(NamedTuple):
    """What there is to ask; each part best first."""

    basis: Basis
    looks: Mapping[str, Look]
    due: list[PlanItem]
    early: list[PlanItem]  # falls due on the days off that come
    meet: list[PlanItem]
    new: list[PlanItem]
    slip: list[PlanItem]
    sure: list[Look]  # items only when asked for: most cards are sure, and few of them are used
    pace: int  # new cards that may prove unknown today before what is likely to slip is asked
    most: int  # and after it, where minutes are left
    aside: int  # how many cards are set aside to be taught
    away: bool
    families: frozenset[str]  # had their turn today
    usual: Usual


def ground(basis: Basis) -> Ground:
    memory, day = basis.memory, basis.day
    every = _every_look(basis)
    usual = _usual_ms((card.kind, known) for card, _, known, _ in every if known is not None)
    parts = _parted(every, basis)
    here = [look for part, some in parts.items() if part not in NOT_HERE for look in some]
    later = sorted(parts["later"], key=_lowest)
    soon, most = _paces(basis, here)
    a_week = new_cards.products_a_week(basis.settings, basis.minutes, basis.recent)

    def items(some: Iterable[Look], why: Why) -> list[PlanItem]:
        return [_item(look, why, usual) for look in some]

    return Ground(
        basis,
        {look.card.key: look for look in here},
        items(sorted(parts["due"], key=_most_remembered), "due"),
        items(sorted(parts["early"], key=_lowest), "early"),
        items(parts["meet"], "meet"),
        items(new_cards.offered(parts["new"], every, a_week, day, most, basis.settings.focus), "new"),
        items((look for look in later if _recall(look) <= SLIP), "slip"),
        [look for look in reversed(later) if _recall(look) >= SURE],
        soon,
        most,
        sum(look.standing.state == "aside" for look in every),
        standings.is_back(memory.values(), day),
        frozenset(look.traits.family for look in parts["had"]) - {""},
        usual,
    )


def sure(ground: Ground, most: int | None = None) -> list[PlanItem]:
    """The surest cards, so many of them at most."""
    return [*as_sure(ground.sure[:most], ground)]


def as_sure(looks: Iterable[Look], ground: Ground) -> Iterator[PlanItem]:
    """Sure cards as items, made one by one: most cards are sure, and few of them are used."""
    return (_item(look, "sure", ground.usual) for look in looks)


def chance(item: PlanItem) -> float:
    return INTRODUCED if item.recall is None else item.recall


# --- every card as it stands --------------------------------------------------------------------------


@lru_cache(maxsize=2)
def _course(cards: tuple[Card, ...], traits: TraitsOf) -> tuple[InCourse, ...]:
    """Every card once, in teaching order. A card of two sets has the stricter aim."""
    strictest = {card.key: card for card in cards}
    if len(strictest) < len(cards):
        by_aim = sorted(cards, key=lambda c: (AIMS.index(c.aim), -c.order))
        strictest = {card.key: card for card in by_aim}
    ordered = sorted(strictest.values(), key=lambda c: (c.order, c.key))
    known = ((card, traits(card.key)) for card in ordered)
    return tuple(InCourse(card, its, strictest.get(its.partner)) for card, its in known)


def _every_look(basis: Basis) -> list[Look]:
    kept = {} if basis.kept is None else basis.kept
    today = standings.seen_on(basis.settings, basis.day)
    course = _course(tuple(basis.cards), basis.traits or of_kinds())
    return [_look(place, basis.memory, today, basis.after_done, kept) for place in course]


def _paces(basis: Basis, here: Iterable[Look]) -> tuple[int, int]:
    """New cards before what is likely to slip is asked, and after it."""
    memories = basis.memory.values()
    soon, most = new_cards.left_today(memories, basis.settings, basis.day, basis.minutes, basis.recent)
    if basis.settings.pace or not standings.is_beginning(memories, basis.day):
        return soon, most
    around = sum(look.standing.state in DUE_STATES for look in here if look.card.aim != "familiarity")
    return (min(soon, 1), min(most, 1)) if around >= AROUND else (soon, most)


_NO_LOOK: tuple[bool, Look | None] = (False, None)


def _look(
    place: InCourse,
    memory: Mapping[str, CardMemory],
    today: Today,
    after_done: Collection[str] | None,
    kept: Kept,
) -> Look:
    card, traits, _ = place
    known = memory.get(card.key)
    ready = not standings.is_new(known, today.day) or _is_ready(place, memory, today.settings, after_done)
    was_ready, look = kept.get(card.key, _NO_LOOK)
    if look is None or look.memory is not known or was_ready != ready:
        look = Look(card, traits, known, standings.stands(card, known, today, ready))
        kept[card.key] = ready, look
    return look


def _is_ready(
    place: InCourse, memory: Mapping[str, CardMemory], settings: Settings, after_done: Collection[str] | None
) -> bool:
    """Whether a new card may come: its skill waits for no other, nor it for its partner fact."""
    card, _, partner = place
    if after_done is not None and not _is_open(card, settings, after_done):
        return False
    waits = partner is not None and not _is_known(memory.get(partner.key))
    return not waits or partner is None or not standings.is_taught(partner, settings)


def _is_open(card: Card, settings: Settings, after_done: Collection[str]) -> bool:
    """Whether a taught skill that holds the card waits for no other."""
    taught = card.skills if settings.taught is None else settings.taught.intersection(card.skills)
    return any(skill in after_done for skill in taught)


def _is_known(memory: CardMemory | None) -> bool:
    """Known well enough for the fact that leans on it: said so, at once, or from memory on two days."""
    return memory is not None and (memory.known or memory.placed > 0 or memory.right_days >= 2)


# --- expected seconds ---------------------------------------------------------------------------------


_NOT_USUAL = (0, 0)


def _usual_ms(memories: Iterable[tuple[str, CardMemory]]) -> Usual:
    """The child's mean milliseconds of each kind: right and unaided, and otherwise; 0 where nothing is
    known."""
    sums: dict[str, list[int]] = {}
    for kind, m in memories:
        of = sums.get(kind) or sums.setdefault(kind, [0, 0, 0, 0])
        of[0] += m.passed_ms * m.passed_n
        of[1] += m.passed_n
        of[2] += m.other_ms * m.other_n
        of[3] += m.other_n
    return {kind: (a // max(1, n), b // max(1, k)) for kind, (a, n, b, k) in sums.items()}


def _item(look: Look, why: Why, usual: Usual) -> PlanItem:
    return PlanItem(look.card.key, why, _seconds(look, usual), look.standing.recall)


def _seconds(look: Look, usual: Usual) -> float:
    """Expected seconds: the child's own for this card, else for its kind, else the kind's, by the chance of
    each. Whatever is not right at once takes twice as long until it is known better (our judgement)."""
    card, traits, own, standing = look
    usual_passed, usual_other = usual.get(card.kind, _NOT_USUAL)
    passed = (own.passed_ms if own else 0) or usual_passed or traits.seconds * 1000
    other = (own.other_ms if own else 0) or usual_other or 2 * passed
    if standing.state in NEVER_MET:
        return round((AT_SIGHT * passed + (1 - AT_SIGHT) * max(other, NEW_SHOWINGS * passed)) / 1000, 1)
    well = INTRODUCED if standing.recall is None else standing.recall
    return round((well * passed + (1 - well) * other) / 1000, 1)


# --- the parts of a day -------------------------------------------------------------------------------

Part = Literal["had", "long", "due", "early", "later", "meet", "new", "other"]
"""had: it had its turn; long: too long to type; early: due on the days off that come; later: after them."""

NOT_HERE = ("had", "long")
MEETS = frozenset({"new", "growing", "holding"})


def _parted(every: Iterable[Look], basis: Basis) -> Mapping[Part, list[Look]]:
    """Every card in its part, each in teaching order."""
    parts = defaultdict[Part, list[Look]](list)
    for look in every:
        parts[_part(look, basis)].append(look)
    return parts


def _part(look: Look, basis: Basis) -> Part:
    card, traits, memory, (state, _, due_in, _) = look
    if memory is not None and _had(memory, basis.day):
        return "had"
    if traits.seconds > PAPER_S and not basis.paper:
        return "long"
    if card.aim == "familiarity":
        return "meet" if due_in <= 0 and state in MEETS else "other"
    if due_in > 0 and state in RESTING:
        return "early" if due_in <= basis.settings.days_off else "later"
    if due_in <= 0 and state in DUE_STATES:
        return "due"
    return "new" if state == "new" else "other"


def _had(memory: CardMemory, day: int) -> bool:
    """It had its turn today, or was asked beside the warm-up. A turn that was cut off leaves it free."""
    return memory.beside_day == day or (memory.seen_day == day and memory.last_mark != "void")


def _recall(look: Look) -> float:
    return 2.0 if look.standing.recall is None else look.standing.recall


def _lowest(look: Look) -> tuple[float, str]:
    recall = look.standing.recall
    return (0.0 if recall is None else recall), look.card.key


def _most_remembered(look: Look) -> tuple[bool, float, str]:
    """What was met and never measured first, then the most remembered: where the minutes do not hold all that
    is due, what can be saved with one look comes before what will need three (measured here: more cards held
    and fewer hard days than with the most faded first). What has faded most is the parent's to teach."""
    return look.standing.recall is not None, -_recall(look), look.card.key
