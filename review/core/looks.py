"""Every card of a child with where it stands on a day, and the same skill by skill."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Literal

from review.core import family, skills
from review.core.model import STANDARD, CardMemory, Pupil, Traits, Words
from review.core.standing import Look, seen_on, stands

STUCK_DAYS = 3  # missed on so many days: the skill is taught again rather than asked again (our judgement)
STUCK_HOLDS = 7.0  # and still holds for less than so many days (our judgement)
STUCK_RIGHT = 0.8  # and no more of its first tries were right: nine in ten is not stuck (our judgement)
FADED_SHARE = 0.25  # of a skill's met cards overdue: the skill has faded (our judgement)
HOLDS_SHARE = 0.5  # of a skill's cards holding: it holds (our judgement)

Firmness = Literal["not taught", "not met", "stuck", "faded", "growing", "holding"]
"""How firm a skill is, least firm first; one can build on the last two."""

NOT_RIGHT = ("not_yet", "shown", "void")  # marks of an answer that was not found
FIRM: tuple[Firmness, ...] = ("growing", "holding")


def looks(pupil: Pupil) -> list[Look]:
    today, words = seen_on(pupil.settings, pupil.day), family.words_of(pupil.child)
    traits, known, as_it_is = skills.traits_among(pupil.traits), pupil.memory.get, words == STANDARD
    return [
        Look(
            card,
            traits(card.key) if as_it_is else titled(card.key, traits(card.key), words),
            memory,
            stands(card, memory, today, True),
        )
        for card in pupil.cards
        for memory in [known(card.key)]
    ]


def traits_of(key: str, words: Words) -> Traits:
    return titled(key, skills.traits(key), words)


def titled(key: str, traits: Traits, words: Words) -> Traits:
    """The same traits, with the title in the family's words."""
    if words == STANDARD:
        return traits
    from review.core.house_words import card_title  # nobody waits for it who chose nothing

    return traits._replace(title=card_title(key, traits.title, words))


def by_skill(found: Iterable[Look]) -> dict[str, list[Look]]:
    """The cards of each skill, also of those that share a card."""
    groups: dict[str, list[Look]] = defaultdict(list)
    for look in found:
        card = look.card
        groups[card.skill].append(look)
        for skill in card.also:
            groups[skill].append(look)
    return dict(groups)


def is_stuck(look: Look) -> bool:
    """Set aside, or missed on three days, often, and still held neither by the curve nor by the planned gap,
    by which reports say what holds. What needs only to be met is never stuck."""
    memory = look.memory
    if memory is None or look.card.aim == "familiarity":
        return False
    held = max(memory.stability or 0.0, look.standing.gap) >= STUCK_HOLDS
    often = memory.right <= STUCK_RIGHT * memory.tries
    return bool(memory.aside_day) or (memory.miss_days >= STUCK_DAYS and often and not held)


def missed_first(memory: CardMemory) -> bool:
    """Whether the last answer was a second look, which came after a miss of the same day."""
    return memory.seen_day_misses > 0 and memory.last_mark not in NOT_RIGHT


def firmness(pupil: Pupil, skill: str, groups: Mapping[str, list[Look]]) -> Firmness:
    """How firm one skill is, from the cards the child has of it."""
    cards = groups.get(skill, [])
    met = [look for look in cards if look.memory and look.memory.met_day]
    if skill not in pupil.child.taught:
        return "not taught"
    if not met:
        return "not met"
    if any(map(is_stuck, cards)):
        return "stuck"
    if sum(look.standing.state == "overdue" for look in met) >= FADED_SHARE * len(met):
        return "faded"
    holding = sum(look.standing.state == "holding" for look in cards)
    return "holding" if holding >= HOLDS_SHARE * len(cards) else "growing"
