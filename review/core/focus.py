"""One skill that comes first for a week, with what it stands on."""

from collections.abc import Collection, Mapping

from review.core.model import Card, Skill

SHARE = 1 / 3  # of each sitting's minutes (a teacher's judgement)


def skills_in_focus(skills: Mapping[str, Skill], wanted: str) -> frozenset[str]:
    """The skill and all it stands on, as far as the child has them; none where it has been dropped."""
    found: set[str] = set()
    waiting = [wanted]
    while waiting:
        name = waiting.pop()
        if name in skills and name not in found:
            found.add(name)
            waiting += skills[name].after
    return frozenset(found)


def holds(card: Card, focus: Collection[str]) -> bool:
    """Whether a card belongs to what comes first."""
    return card.skill in focus or any(skill in focus for skill in card.also)
