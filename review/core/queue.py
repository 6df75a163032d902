"""Which card a warm-up shows next: the plan's order, second looks between, sure cards where they help."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from review.core import new_cards, skills
from review.core.model import Answer, Role
from review.core.warmup import PlanItem, Sitting

NEAR, FAR = 2, 6
"""Other cards before a first and a further second look: 2 to 3, then 6 to 8. Constant delay with growing
distance, published in part (Koscinski & Gast 1993); the two numbers are our judgement."""
AHEAD = 5  # how far down the plan one looks for a card unlike the last one (our judgement)
SURE_FIRST = 2  # sure cards the plan opens with, whatever they are like
OPENING = 3  # no new card is moved up among the first three
SURE_AFTER = 2  # misses running, after which a sure card comes
MOST_DOTS = 20  # two ten-frames: more is a wall, not an end (our judgement)
OVER_MS = 30_000  # a sitting is at most this much over its minutes


class Turn(NamedTuple):
    """The showing that waits for an answer."""

    card: str
    role: Role
    asked: str
    showing: int
    closing: bool = False  # the sure card at the end
    helped: int = 0  # help steps shown
    spent: bool = False  # help was asked for and none was left
    unread: int = 0  # answers that could not be read
    tried: Answer | None = None  # the answer that is asked once more, as it would have been kept
    waiting: Answer | None = None  # the answer that is kept once the child has said how it was found
    offered: tuple[str, ...] = ()  # the strategies of which the child is to say which it likes


class Later(NamedTuple):
    """A card that is to be looked at again in this sitting."""

    card: str
    after: int  # cards answered when it was put back
    gap: int  # other cards to come before it
    look: int  # 1 or 2
    new: bool  # it was new and not known; otherwise it was missed


class Tally(NamedTuple):
    """What is counted while the sitting runs; copying counts only as an answer and by its time."""

    answers: int = 0
    cards: int = 0
    used_ms: int = 0
    first_tries: int = 0
    right: int = 0
    new: int = 0  # new cards that proved unknown
    misses_running: int = 0
    unreadable_running: int = 0
    offered: int = 0  # times a stop was offered
    slips: int = 0  # that were asked once more
    checks: int = 0  # answers as they should be, that were asked once more
    doubts: int = 0  # answers of which "from memory?" was asked, or would have been of a person
    likings: int = 0  # the same of "which way do you like?"


class State(NamedTuple):
    """A sitting between two answers. The card that is asked stays in its place until it is answered."""

    sitting: Sitting
    queue: tuple[PlanItem, ...]
    closer: PlanItem | None  # the sure card kept for the end
    reserve: tuple[PlanItem, ...]
    recent: tuple[bool, ...]  # first tries right or not, by `marking.is_right`, oldest first
    later: tuple[Later, ...] = ()
    turn: Turn | None = None
    copy: tuple[str, str] | None = None  # (card, asked) that was shown and is to be copied
    tally: Tally = Tally()
    asked: Mapping[str, tuple[str, ...]] = {}  # what each card asked today, oldest first
    missed: Mapping[str, int] = {}  # misses today
    learned: tuple[tuple[str, str], ...] = ()  # (card, asked) known now and not before
    worked: tuple[str, str] | None = None  # (card, asked) that took effort
    last: str = ""  # the card answered last
    filled: int = 0  # dots
    closed: bool = False  # the last card has been asked
    ended: bool = False
    likes: Mapping[str, str] = {}  # kind -> the strategy help follows where it suits


class Next(NamedTuple):
    """The card that comes next."""

    item: PlanItem
    closing: bool = False  # the sure card at the end


def opened(sitting: Sitting) -> State:
    """A sitting before its first card. The plan's last card is kept for the end where it is sure."""
    items = sitting.plan.items
    closer = items[-1] if items and items[-1].why == "sure" else None
    queue = items[:-1] if closer else items
    likes = sitting.plan.likes
    return State(sitting, queue, closer, sitting.plan.reserve, sitting.recent_right, likes=likes)


def without(state: State, card: str) -> State:
    """The card has been answered: it waits nowhere any more, but where a few more of one kind are asked."""
    planned_last = state.closer is not None and state.closer.key == card
    closes = planned_last or (state.turn is not None and state.turn.closing and state.turn.card == card)
    return state._replace(
        queue=queue_without(state.queue, card, once=state.sitting.sort == "extra"),
        reserve=tuple(item for item in state.reserve if item.key != card),
        later=() if closes else tuple(look for look in state.later if look.card != card),
        closer=None if planned_last else state.closer,
        closed=state.closed or closes,
    )


def queue_without(queue: Sequence[PlanItem], card: str, once: bool) -> tuple[PlanItem, ...]:
    """The queue without the card, or without its next showing alone."""
    places = [n for n, item in enumerate(queue) if item.key == card]
    gone = places[:1] if once else places
    return tuple(item for n, item in enumerate(queue) if n not in gone)


def choose(state: State) -> Next | None:
    """The next card, or None when the sitting is over."""
    if state.closed:
        return _consolation(state)
    item = _sure_after_misses(state) or _due_look(state) or _planned(state) or _early_look(state)
    if item is not None and fits(state, item):
        return Next(item)
    return Next(state.closer, closing=True) if state.closer else _consolation(state)


def role_of(state: State, item: PlanItem) -> Role:
    return "intro" if item.why == "new" and item.key not in state.asked else "ask"


def fits(state: State, item: PlanItem, over_ms: int = 0) -> bool:
    """Whether the card is expected to end within the minutes."""
    return state.tally.used_ms + item.seconds * 1000 <= state.sitting.plan.minutes * 60_000 + over_ms


def may_introduce(state: State) -> bool:
    """New cards come only while nearly all goes well, and never more than the plan's pace. What was asked for
    on demand comes however the last days went."""
    plan = state.sitting.plan
    if plan.alone or state.sitting.sort == "extra":
        return state.tally.new < (min(plan.pace, 1) if plan.alone else plan.pace)
    slips = state.recent[-new_cards.RECENT :].count(False)
    allowed = new_cards.slips_allowed(len(state.sitting.recent_right))
    return state.tally.new < plan.pace and slips <= allowed


def alike(state: State, card: str) -> bool:
    """Whether the card is, or shares a table or an answer with, the one answered last."""
    if not state.last:
        return False
    return card == state.last or bool(skills.traits(card).groups & skills.traits(state.last).groups)


def dots(state: State, closing: bool) -> tuple[int, int]:
    """(filled, of): at most twenty; the last belongs to the last card, and none is ever emptied."""
    of = min(len(state.sitting.plan.items), MOST_DOTS)
    return max(state.filled, of - 1) if closing else state.filled, of


def filling(state: State) -> int:
    """Dots to be filled: what was answered, against all that may still come. New cards do not count as to
    come while none is let in."""
    of = min(len(state.sitting.plan.items), MOST_DOTS)
    introduce = may_introduce(state)
    waiting = sum(introduce or item.why != "new" for item in state.queue)
    to_come = waiting + len(state.later) + (state.closer is not None)
    done = state.tally.cards
    return max(state.filled, min(done * of // (done + to_come), of - 1) if to_come else of)


# --- where the next card comes from ------------------------------------------------------------------


def _planned(state: State) -> PlanItem | None:
    """The plan's next card; one a little further on where the next is too like the last."""
    introduce = may_introduce(state)
    waiting = [item for item in state.queue if introduce or item.why != "new"]
    if waiting and waiting[0].why == "sure" and state.tally.cards < SURE_FIRST:
        return waiting[0]
    early = state.tally.cards < OPENING
    near = (item for n, item in enumerate(waiting[:AHEAD]) if not (n and early and item.why == "new"))
    return next((item for item in near if not alike(state, item.key)), waiting[0] if waiting else None)


def _sure_after_misses(state: State) -> PlanItem | None:
    return _spare(state) if state.tally.misses_running >= SURE_AFTER else None


def _spare(state: State) -> PlanItem | None:
    """A sure card that was not asked today."""
    unasked = [item for item in state.reserve if item.key not in state.asked and not _is_planned(state, item)]
    return next((item for item in unasked if not alike(state, item.key)), unasked[0] if unasked else None)


def _is_planned(state: State, item: PlanItem) -> bool:
    return any(item.key == other.key for other in (*state.queue, *filter(None, [state.closer])))


def _due_look(state: State) -> PlanItem | None:
    """A second look whose time has come; one card later where it is too like the last."""
    ready = (
        look
        for look in state.later
        if _others(state, look) > look.gap
        or (_others(state, look) == look.gap and not alike(state, look.card))
    )
    return next((_look_item(state, look) for look in ready), None)


def _early_look(state: State) -> PlanItem | None:
    """When the plan has run out: a second look after two others, filled up with sure cards if need be."""
    waiting = [look for look in state.later if _others(state, look) >= 1]
    far_enough = [look for look in waiting if _others(state, look) >= NEAR]
    if far_enough:
        return _look_item(state, far_enough[0])
    filler = _spare(state) if state.later else None
    return filler or next((_look_item(state, look) for look in waiting), None)


def _others(state: State, look: Later) -> int:
    return state.tally.cards - look.after


def _look_item(state: State, look: Later) -> PlanItem:
    return PlanItem(look.card, "slip", _seconds(state, look.card), None)


def lasting(state: State, answer: Answer) -> Answer:
    """The answer with the minutes it uses up: those that were expected, where nobody timed it."""
    if answer.taken == "typed":
        return answer
    return answer._replace(end_ms=round(_seconds(state, answer.card) * 1000))


def _seconds(state: State, card: str) -> float:
    known: Iterator[float] = (item.seconds for item in state.sitting.plan.items if item.key == card)
    return next(known, skills.traits(card).seconds)


def _consolation(state: State) -> Next | None:
    """No sitting ends on a miss while there is a sure card and time for it."""
    spare = _spare(state) if state.tally.misses_running else None
    return Next(spare, closing=True) if spare and fits(state, spare, OVER_MS) else None
