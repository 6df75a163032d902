"""Which item a placement asks next, and when it has asked enough.

An item is a card of the set. The next one is chosen so that it is probably known; after a miss an easier one,
and at the end something sure.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from review.core import ability, skills
from review.core.ability import Belief, Tried
from review.core.model import RIGHT, STANDARD, Answer, Card, CardMemory, Traits, Words

TARGET = (
    0.85  # the chance of being known that the next item is nearest to (our judgement: kind, and it tells)
)
SURE = 0.95  # the same after a miss; for the last item at least this
FLOOR, FLOOR_FIRST = 0.5, 0.25
"""Nothing that is more likely missed than known is asked, but a new day may begin with a try: two slips must
not end it for good (our judgement)."""
FIRST = 2  # items that are simply the easiest
MISSES = 2  # running, after which it stops
MOST_ITEMS, MOST_MS = 25, 240_000  # of a set: longer is an examination (our judgement)
MOST_YOUNG, YOUNG = 8, 7  # items a day up to this age (a teacher's judgement)
SURE_EVERY = 3  # up to that age every third item is a sure one
FORTNIGHT = 14  # days that belong to one placement
LONGEST_S = 60  # what takes longer is done on paper
ALIKE = 0.05  # how much further from its target an item may be for not being like the last one
SPREAD_OUT = 0.01  # the same, for each item its skill has had (our judgement, both)


class Item(NamedTuple):
    """A card of the set, as placement sees it."""

    key: str
    skill: str
    hard: float
    guess: float
    seconds: float


class Probing(NamedTuple):
    """All that a placement needs to know; nothing in it changes while it runs."""

    book: str
    child: str
    name: str
    age: int
    day: int
    items: Mapping[str, Item]  # every card of the set
    open: tuple[str, ...]  # cards that may be asked, in teaching order
    cards: Mapping[str, Card]
    earlier: tuple[Answer, ...] = ()  # of this placement, on days before
    sure: tuple[str, ...] = ()  # cards the child surely knows, to end on
    untimed: bool = False
    most_ms: int = MOST_MS  # of answering today
    copy_ms: tuple[int, ...] = ()  # the child's own copying time by number of digits; (): by age
    aloud: bool = False  # the child's usual way: a parent reads out, and keys what came
    words: Words = STANDARD


class Turn(NamedTuple):
    """The showing that waits for an answer."""

    card: str
    asked: str
    showing: int
    closing: bool = False
    unread: bool = False


class State(NamedTuple):
    """A placement between two answers."""

    probing: Probing
    so_far: tuple[Answer, ...] = ()
    turn: Turn | None = None
    ended: bool = False


# --- what a placement is made from --------------------------------------------------------------------


def items(cards: Sequence[Card], traits: Mapping[str, Traits]) -> dict[str, Item]:
    """The cards of a set as placement sees them, in teaching order."""
    hard = ability.hardness(cards, traits)
    return {card.key: _item(card, hard[card.key], traits[card.key]) for card in cards}


def _item(card: Card, hard: float, traits: Traits) -> Item:
    return Item(card.key, card.skill, hard, 1 / traits.choices if traits.choices else 0.0, traits.seconds)


def may_ask(item: Item, card: Card, memory: CardMemory | None) -> bool:
    """Whether a card may be probed: never met, remembered at all, and short enough to type."""
    unmet = memory is None or memory.met_day == 0
    return unmet and card.aim != "familiarity" and item.seconds <= LONGEST_S


# --- how far it has come -----------------------------------------------------------------------------


def is_over(state: State) -> bool:
    """Two misses running, or what is left of items and minutes is kept for the last one."""
    done = len(state.so_far)
    return (
        misses_running(state.so_far) >= MISSES
        or done + 1 >= most_today(state.probing)
        or _used_ms(state) >= state.probing.most_ms
    )


def most_today(probing: Probing) -> int:
    """Items of today, the last one included: what the set has left, and eight where the child is young."""
    left = max(0, MOST_ITEMS - len(probing.earlier))
    return min(left, MOST_YOUNG) if probing.age <= YOUNG else left


def used_ms(so_far: Sequence[Answer]) -> int:
    return sum(answer.end_ms for answer in so_far)


def _used_ms(state: State) -> int:
    """What of the minutes is gone: an answer given aloud is not timed, and takes what was expected."""
    items = state.probing.items
    aloud = (one.card for one in state.so_far if one.taken != "typed" and one.card in items)
    return used_ms(state.so_far) + sum(round(items[card].seconds * 1000) for card in aloud)


def is_well(answer: Answer) -> bool:
    return answer.mark in RIGHT


def misses_running(so_far: Sequence[Answer]) -> int:
    """Misses at the end of what was answered; what was interrupted counts for nothing."""
    running = 0
    for answer in so_far:
        running = running if answer.mark == "void" else 0 if is_well(answer) else running + 1
    return running


# --- which item next ----------------------------------------------------------------------------------


def belief(probing: Probing, so_far: Sequence[Answer]) -> Belief:
    """What the placement's answers say. Only the first answer to a card tells whether it was known."""
    first: dict[str, Answer] = {}
    for answer in (*probing.earlier, *so_far):
        if answer.card in probing.items and answer.mark != "void":
            first.setdefault(answer.card, answer)
    return ability.believed(_tried(probing.items[key], answer) for key, answer in first.items())


def _tried(item: Item, answer: Answer) -> Tried:
    return Tried(item.skill, item.hard, item.guess, is_well(answer))


def chances(probing: Probing, so_far: Sequence[Answer], keys: Sequence[str]) -> dict[str, float]:
    """The chance that each card is known."""
    now = belief(probing, so_far)
    known: dict[tuple[str, float], float] = {}
    for key in keys:
        item = probing.items[key]
        if (item.skill, item.hard) not in known:
            known[item.skill, item.hard] = ability.chance(now, item.skill, item.hard)
    return {key: known[probing.items[key].skill, probing.items[key].hard] for key in keys}


def _unasked(state: State) -> list[str]:
    """Open cards whose turn has not come; of partner facts, like 6 × 7 and 42 ÷ 6, one a day."""
    before = {answer.card for answer in (*state.probing.earlier, *state.so_far)}
    families = {skills.traits(answer.card).family for answer in state.so_far} - {""}
    return [
        key
        for key in state.probing.open
        if key not in before and skills.traits(key).family not in families and _fits(state, key)
    ]


def _fits(state: State, key: str) -> bool:
    return _used_ms(state) + state.probing.items[key].seconds * 1000 <= state.probing.most_ms


def choice(state: State) -> str | None:
    """The card whose chance is nearest to what is wanted now; None where none is likely enough."""
    every = chances(state.probing, state.so_far, _unasked(state))
    least = FLOOR if state.so_far else FLOOR_FIRST
    likely = {key: chance for key, chance in every.items() if chance >= least}
    now = wanted(state)
    had = [state.probing.items[answer.card].skill for answer in state.so_far if _is_ours(state, answer)]
    return min(
        likely,
        key=lambda key: (
            abs(likely[key] - now)
            + ALIKE * _alike(state, key)
            + SPREAD_OUT * had.count(state.probing.items[key].skill)
        ),
        default=None,
    )


def wanted(state: State) -> float:
    """The easiest first; after a miss, and for the young now and then, a sure one; else the target."""
    asked = len(state.so_far)
    if asked < FIRST:
        return SURE if state.probing.earlier else 1.0
    restful = state.probing.age <= YOUNG and asked % SURE_EVERY == SURE_EVERY - 1
    return SURE if restful or misses_running(state.so_far) else TARGET


def _is_ours(state: State, answer: Answer) -> bool:
    return answer.card in state.probing.items


def _alike(state: State, key: str) -> bool:
    """Whether the card shares a table or an answer with the last one."""
    last = state.so_far[-1].card if state.so_far else ""
    return bool(last) and bool(skills.traits(key).groups & skills.traits(last).groups)


# --- the last item ------------------------------------------------------------------------------------


def closing(state: State) -> str | None:
    """Something sure to end on: known from elsewhere, or very likely, or the easiest that was known, today or
    on a day before.

    None where nothing is sure, or nothing was asked, or the last answer was known and none better is there.
    """
    if not state.so_far or not most_today(state.probing):
        return None
    asked = {answer.card for answer in state.so_far}
    for key in state.probing.sure:
        if key not in asked and _fits_sure(state, key):
            return key
    every = chances(state.probing, state.so_far, _unasked(state))
    best = max(every, key=lambda key: every[key], default="")
    if best and every[best] >= SURE:
        return best
    known = _known(state)
    if not known or is_well(state.so_far[-1]):
        return None
    return min(known, key=lambda key: state.probing.items[key].hard)


def _known(state: State) -> list[str]:
    """Cards of the set that were known today, or on a day before and are no partners of today's."""
    last = {one.card: one for one in (*state.probing.earlier, *state.so_far) if one.mark != "void"}
    todays = {answer.card for answer in state.so_far}
    return [
        key
        for key, answer in last.items()
        if is_well(answer) and _is_ours(state, answer) and (key in todays or _is_new_today(state, key))
    ]


def _fits_sure(state: State, key: str) -> bool:
    return _is_new_today(state, key) and skills.traits(key).seconds <= LONGEST_S / 4


def _is_new_today(state: State, key: str) -> bool:
    """Whether no partner of the card, like 42 ÷ 6 of 6 × 7, had its turn today."""
    families = {skills.traits(answer.card).family for answer in state.so_far} - {""}
    return skills.traits(key).family not in families
