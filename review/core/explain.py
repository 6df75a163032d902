"""Why each card is in today's warm-up, and why each other card of the child is not.

It reads a plan, it makes none: whoever changes how plans are made changes what is told here.
"""

from collections.abc import Callable, Collection, Iterable, Mapping
from typing import Literal, NamedTuple

from review.core import curve, new_cards, plan
from review.core import ground as grounds
from review.core import standing as standings
from review.core.ground import Ground
from review.core.model import Card, Pupil, Settings, TraitsOf
from review.core.orders import Harder, harder
from review.core.standing import Look, Standing
from review.core.traits import of_kinds
from review.core.warmup import Plan, PlanItem, Why

Part = Literal["sure", "fading", "due", "early", "met", "new", "back", "slip", "meet", "then"]
"""Why a card is here, finer than the plan's word. fading: due, and recall has fallen under what its aim asks;
met: met and never measured; back: new again after it was set aside; then: as it stood when the day began,
where rows that came in since, as from another computer, say otherwise."""

Reason = Literal[
    "minutes", "long", "paper", "family", "share", "away", "missed", "much", "pace", "week", "order",
    "partner", "earlier", "untaught", "since", "aside", "had", "resting",
]  # fmt: skip
"""Why a card is not here.

minutes: due or new, and no room; long: one long card a sitting; paper: too long to type; family: a
partner fact is here today; share: few meetings a sitting; away: coming back first; missed: too many of
the last ten answers; much: too much in play; pace: the day's new ones have been begun; week: of products
only a few come in a week; order: other new ones come first; partner, earlier: a fact or a skill comes
first; since: taught after the day began; had: had its turn today."""

OTHERS_FIRST: tuple[Reason, ...] = ("minutes", "order")
"""Why a card that could come is not here."""

Spot = Literal["opens", "ends", "between"]


class Here(NamedTuple):
    """A card of today's warm-up."""

    key: str
    prompt: str
    skill: str
    why: Why
    part: Part
    spot: Spot
    seconds: float  # expected
    recall: float | None  # None: never measured
    gap: int  # planned, in days; 0: none yet
    planned_day: int  # 0: none
    since: int  # the day it was met, for what was only met; the day it was set aside, for what is back
    meetings: int  # so far, for what is to be met
    next: bool  # nothing new of its skill before it waits
    harder: Harder | None = None  # the order of it that is missed, and asked, more often


class Held(NamedTuple):
    """A card that is not in today's warm-up."""

    key: str
    prompt: str
    skill: str
    reason: Reason
    first: tuple[str, ...] = ()  # what comes first: prompts of facts, ids of skills
    until: int = 0  # the day it may come; 0: no day is set


class Explained(NamedTuple):
    """Every card of the child once: here, in showing order, or held."""

    day: int
    here: tuple[Here, ...]
    held: tuple[Held, ...]
    reserve: tuple[str, ...]  # prompts of sure cards kept for after two misses
    minutes: float  # expected
    asked: int  # cards that were met before and are asked
    right: float  # how many of those are expected to be right
    most_new: int  # new cards that may prove unknown
    lately: tuple[int, int]  # of the last first tries: right, and how many
    unbegun: tuple[str, ...]  # skills whose new cards could come, but for others that come first


class View(NamedTuple):
    """What the reasons are read off."""

    pupil: Pupil
    todays: Plan
    every: Mapping[str, Look]  # also those too long to type; not those that had their turn
    ground: Ground
    ready: frozenset[str]  # skills whose earlier skills are met
    since: frozenset[str]  # skills taught after the day began
    families: Mapping[str, str]  # of partner facts here today: the fact's prompt
    left_this_week: int  # new products


def explained(
    pupil: Pupil, todays: Plan, since: Iterable[str] = (), traits: TraitsOf | None = None
) -> Explained:
    """`pupil` as it was when the plan was made; `since`: skills that were taught after that."""
    view = _view(pupil, todays, frozenset(since), traits or of_kinds())
    planned = {item.key for item in todays.items}
    cards = {card.key: card for card in pupil.cards}
    asked = [grounds.chance(item) for item in todays.items if item.why not in ("new", "meet")]
    held = tuple(_held(view, card, traits or of_kinds()) for key, card in cards.items() if key not in planned)
    return Explained(
        todays.day,
        tuple(_here(view, place, item) for place, item in enumerate(todays.items, 1)),
        held,
        tuple(view.every[item.key].traits.title for item in todays.reserve),
        sum(item.seconds for item in todays.items) / 60,
        len(asked),
        sum(asked),
        todays.pace,
        (sum(pupil.recent[-10:]), len(pupil.recent[-10:])),
        _unbegun(pupil, planned, held),
    )


def _view(pupil: Pupil, todays: Plan, since: frozenset[str], traits: TraitsOf) -> View:
    basis = plan.basis_of(pupil, todays.minutes)._replace(traits=traits, kept={})

    def found(paper: bool) -> Ground:
        return grounds.ground(basis._replace(paper=paper))

    every = {**found(True).looks}
    cards = {card.key: card for card in pupil.cards}
    for item in (*todays.items, *todays.reserve):
        if item.key not in every:  # an answer that was undone may since have been put back
            every[item.key] = _look(cards[item.key], pupil, traits)
    here = (every[item.key].traits for item in todays.items)
    families = {its.family: its.title for its in here if its.family}
    left = _left_this_week(pupil, todays.minutes)
    return View(pupil, todays, every, found(False), frozenset(basis.after_done or ()), since, families, left)


def _look(card: Card, pupil: Pupil, traits: TraitsOf) -> Look:
    its, known = traits(card.key), pupil.memory.get(card.key)
    return Look(card, its, known, standings.standing(card, known, pupil.settings, pupil.day))


def _left_this_week(pupil: Pupil, minutes: float) -> int:
    """New products that may still be begun this week."""
    begun = (pupil.memory.get(card.key) for card in pupil.cards if card.kind == "product")
    week = sum(new_cards.started_this_week(memory, pupil.day) for memory in begun)
    return max(0, new_cards.products_a_week(pupil.settings, minutes, pupil.recent) - week)


def _unbegun(pupil: Pupil, planned: Collection[str], held: Iterable[Held]) -> tuple[str, ...]:
    """Skills of which nothing was met so far and nothing comes today, in teaching order."""
    met = {key for key, known in pupil.memory.items() if known.met_day}
    begun = {one for card in pupil.cards if card.key in met or card.key in planned for one in card.skills}
    waiting = (row.skill for row in held if row.reason in OTHERS_FIRST)
    return tuple(dict.fromkeys(skill for skill in waiting if skill not in begun))


# --- what is here -------------------------------------------------------------------------------------


def _here(view: View, place: int, item: PlanItem) -> Here:
    look = view.every[item.key]
    known, found = look.memory, look.standing
    part = _part(item, look)
    return Here(
        item.key,
        look.traits.title,
        _skill(look.card, view.pupil.settings),
        item.why,
        part,
        _spot(place, view.todays),
        item.seconds,
        item.recall,
        found.gap,
        view.pupil.day + found.due_in if found.gap else 0,
        0 if known is None else known.aside_day if part == "back" else known.intro_day or known.met_day,
        known.tries if known else 0,
        part == "new" and _is_next(view, look),
        harder(known),
    )


def _part(item: PlanItem, look: Look) -> Part:
    """The plan's word, or a finer one."""
    if not AGREES[item.why](look.standing):
        return "then"
    if item.why == "due":
        finer: Mapping[str, Part] = {"introduced": "met", "fading": "fading", "overdue": "fading"}
        return finer.get(look.standing.state, "due")
    if item.why == "new" and look.memory is not None and look.memory.aside_day:
        return "back"
    return item.why


def _is_resting(found: Standing) -> bool:
    return found.state in grounds.RESTING and found.due_in > 0


AGREES: Mapping[Why, Callable[[Standing], bool]] = {
    "due": lambda found: found.state in grounds.DUE_STATES and found.due_in <= 0,
    "early": _is_resting,
    "slip": _is_resting,
    "sure": _is_resting,
    "new": lambda found: found.state in grounds.NEVER_MET,
    "meet": lambda found: found.due_in <= 0,
}
"""Whether where a card stands is what the plan said of it."""


def _spot(place: int, todays: Plan) -> Spot:
    openers = plan.OPENING if todays.minutes >= 3 else 1
    if place <= openers:
        return "opens"
    return "ends" if place == len(todays.items) else "between"


def _is_next(view: View, look: Look) -> bool:
    """Whether every new card of its skill that comes before it is here too."""
    here = {item.key for item in view.todays.items}
    return not any(
        other.card.order < look.card.order and key not in here
        for key, other in view.every.items()
        if other.card.skill == look.card.skill and other.standing.state == "new"
    )


def _skill(card: Card, settings: Settings) -> str:
    """The skill by which the card comes: of several, one that was taught."""
    return next((one for one in card.skills if _is_taught(one, settings)), card.skill)


# --- what is not --------------------------------------------------------------------------------------


def _held(view: View, card: Card, traits: TraitsOf) -> Held:
    look = view.every.get(card.key)
    skill = _skill(card, view.pupil.settings)
    if look is None:
        return Held(card.key, traits(card.key).title, skill, "had")
    reason = HELD.get(look.standing.state, _met)(view, look)
    return reason._replace(key=card.key, prompt=look.traits.title, skill=skill)


def _because(reason: Reason, first: tuple[str, ...] = (), until: int = 0) -> Held:
    return Held("", "", "", reason, first, until)


def _untaught(view: View, look: Look) -> Held:
    return _because("untaught" if view.since.isdisjoint(look.card.skills) else "since")


def _waiting(view: View, look: Look) -> Held:
    """An earlier skill comes first, or the fact it leans on."""
    settings, skills = view.pupil.settings, view.pupil.skills
    holding = [one for one in look.card.skills if _is_taught(one, settings)]
    if view.ready.isdisjoint(holding):
        return _because("earlier", _behind(view, [name for one in holding for name in skills[one].after]))
    return _because(
        "partner", (view.every[look.traits.partner].traits.title,) if _has_look(view, look) else ()
    )


def _has_look(view: View, look: Look) -> bool:
    return look.traits.partner in view.every


def _is_taught(skill: str, settings: Settings) -> bool:
    return settings.taught is None or skill in settings.taught


def _behind(view: View, names: Iterable[str]) -> tuple[str, ...]:
    """Of those earlier skills, the ones that hold others back, each once: taught, and fewer than half met."""
    behind = dict.fromkeys(name for name in names if name in view.pupil.skills)
    return tuple(name for name in behind if _holds_back(view, name))


def _holds_back(view: View, name: str) -> bool:
    """Asked of the plan's own rule, with a skill that stands on this one alone."""
    if not _is_taught(name, view.pupil.settings):
        return False
    probe = {"": view.pupil.skills[name]._replace(after=(name,))}
    return not plan.open_skills(probe, view.pupil.cards, view.pupil.memory, view.pupil.settings.taught)


def _new(view: View, look: Look) -> Held:
    if look.card.aim == "familiarity":
        return _because("share")
    if look.traits.seconds > grounds.PAPER_S:
        return _because("paper")
    all_wait = _all_wait(view)
    if all_wait:
        return _because(all_wait)
    if look.traits.family in view.families:
        return _because("family", (view.families[look.traits.family],))
    if any(item.key == look.card.key for item in view.ground.new):
        return _because("long" if _too_long(view, look) else "minutes")
    few = look.card.kind == "product" and view.left_this_week < view.ground.most
    return _because("week" if few else "order")


def _all_wait(view: View) -> Reason | None:
    """What keeps every new card away today, if anything does."""
    if view.ground.away:
        return "away"
    if view.todays.too_much or view.todays.alone:
        return "missed" if _many_missed(view.pupil.recent, view.todays.alone) else "much"
    return None if view.ground.most else "pace"


def _many_missed(recent: tuple[bool, ...], alone: bool) -> bool:
    """Too many for the plan; or, where next to nothing else is left to ask, for the sitting."""
    return new_cards.many_missed(recent) or (alone and new_cards.went_badly(recent))


def _aside(view: View, look: Look) -> Held:
    day = look.memory.aside_day if look.memory else 0
    return _because("aside", until=day + curve.ASIDE_DAYS)


def _met(view: View, look: Look) -> Held:
    """Met before: not due yet, or due and without room."""
    found = look.standing
    if found.due_in > 0:
        return _because("resting", until=view.pupil.day + found.due_in)
    if look.card.aim == "familiarity":
        return _because("share")
    if look.traits.seconds > grounds.PAPER_S:
        return _because("paper")
    if look.traits.family in view.families:
        return _because("family", (view.families[look.traits.family],))
    return _because("long" if _too_long(view, look) else "minutes")


def _too_long(view: View, look: Look) -> bool:
    """Long, where a long one is here already."""
    here = (view.every[item.key].traits.seconds for item in view.todays.items)
    return look.traits.seconds > plan.LONG_S and any(seconds > plan.LONG_S for seconds in here)


HELD: Mapping[str, Callable[[View, Look], Held]] = {
    "untaught": _untaught,
    "waiting": _waiting,
    "new": _new,
    "aside": _aside,
}
"""By where the card stands; whatever was met goes by `_met`."""
