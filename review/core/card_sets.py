"""TOML text -> (skill set, mistakes); skill sets -> cards.

All mistakes of values and of meaning come together, each with its line, its key path and what to write
instead; of syntax the first. Any text at all gives a set or mistakes, never an error. What reads a text is
imported when there is one to read: the cards of the shipped sets are written down beforehand.
"""

from collections.abc import Collection, Iterable, Mapping
from typing import TYPE_CHECKING, cast

from review.core.model import AIMS, Aim, Card, Mistake, Skill, SkillSet
from review.core.skills import KINDS, are_guessed, traits

if TYPE_CHECKING:
    from review.core.toml_text import Path

# --- a file -------------------------------------------------------------------------------------------


def read_set(
    text: str, file: str, known: Collection[str] | None = None
) -> tuple[SkillSet | None, tuple[Mistake, ...]]:
    """A set without mistakes, or no set and all its mistakes in the order of their lines.

    `known`: the ids of skills that stand elsewhere and may be named in `after`; None: any name may.
    """
    from review.core import set_tables, set_troubles, toml_text

    whole = toml_text.parsed(text)
    if isinstance(whole, toml_text.Unreadable):
        return None, (_mistake(file, whole.line, (), whole.wrong, whole.instead),)
    troubles = [*set_troubles.troubles_of(whole, known)]
    if not troubles:
        return set_tables.made_set(whole), ()
    lines = _lines(text)
    mistakes = [_mistake(file, toml_text.line_of(path, lines), path, *what) for path, *what in troubles]
    ordered = sorted(dict.fromkeys(mistakes), key=lambda mistake: (mistake.line, mistake.path))
    return None, tuple(ordered[: set_troubles.MOST_MISTAKES])


def trusted_set(text: str) -> SkillSet:
    """The same set for a text in which `read_set` finds no mistake, without looking for any: far sooner.

    Of any other text: a set that is of no use, or one of LookupError, TypeError, ValueError, AttributeError.
    """
    from review.core import set_tables, toml_text

    return set_tables.made_set(cast(set_tables.Table, toml_text.parsed(text)))


def _lines(text: str) -> Mapping["Path", int]:
    from review.core import toml_text

    try:
        return toml_text.lines_of(text)
    except RecursionError:  # brackets in brackets, as deep as the reader of TOML bears and no deeper
        return {}


def _mistake(file: str, line: int, path: "Path", wrong: str, instead: str) -> Mistake:
    """Two sentences: "the list is empty." and "Write at least one, like [2, 5]."."""
    from review.core import toml_text

    said, told = (text if text.endswith((".", "?")) else f"{text}." for text in (wrong, instead))
    return Mistake(file, line, toml_text.written(path), said, told[:1].upper() + told[1:])


# --- skill sets -> cards ------------------------------------------------------------------------------


def cards(sets: Iterable[SkillSet]) -> tuple[Card, ...]:
    """In teaching order over all sets: as written, but no skill before those it comes after.

    A key that stands in several skills is one card, at its first place, with the strictest aim of them all;
    it comes as soon as one of them is taught. Help keeps to the strategies they name, if each of them does.
    """
    found: dict[str, Card] = {}
    for skill in _teaching_order([skill for one in sets for skill in one.skills]):
        for key in keys_of(skill):
            card = found.get(key)
            if card is None:
                place = len(found)
                found[key] = Card(
                    key, skill.kind, skill.id, skill.set_id, skill.aim, place,
                    strategies=skill.strategies, note=skill.note,
                )  # fmt: skip
            elif skill.id != card.skill:
                stricter = max(card.aim, skill.aim, key=AIMS.index)
                found[key] = card._replace(
                    aim=stricter,
                    also=(*card.also, skill.id),
                    strategies=_either(card.strategies, skill.strategies),
                    note=card.note or skill.note,
                )
    return tuple(found.values())


def with_aim(found: SkillSet, aim: Aim) -> SkillSet:
    """The set, every skill of it with this aim; where an answer can be guessed none is known by its time, so
    such skills keep their own."""
    skills = tuple(
        skill if aim == "fluency" and are_guessed(keys_of(skill)) else skill._replace(aim=aim)
        for skill in found.skills
    )
    return found._replace(aim=aim, skills=skills)


def from_memory(sets: Iterable[SkillSet], skills: Collection[str]) -> bool:
    """Whether any card of these skills is to be known from memory, so that its time may count."""
    mine = (card for card in cards(sets) if not set(skills).isdisjoint(card.skills))
    return any(card.aim == "fluency" and not traits(card.key).choices for card in mine)


def keys_of(skill: Skill) -> Iterable[str]:
    """As they are written down, else as the kind makes them."""
    return skill.keys or KINDS[skill.kind].keys(skill)


def _either(some: tuple[str, ...], others: tuple[str, ...]) -> tuple[str, ...]:
    """What either names; nothing where one leaves all open."""
    return tuple(dict.fromkeys([*some, *others])) if some and others else ()


def _teaching_order(skills: list[Skill]) -> list[Skill]:
    """Each skill behind those it names, where they are here; a circle over several sets stays as written."""
    places: dict[str, int] = {}
    for place, skill in enumerate(skills):
        places.setdefault(skill.id, place)
    before = [[places[name] for name in skill.after if name in places] for skill in skills]
    ordered: dict[int, Skill] = {}
    begun: set[int] = set()
    waiting = list(reversed(range(len(skills))))
    while waiting:
        place = waiting.pop()
        first = [other for other in before[place] if other not in begun]
        if first and place not in begun:
            waiting += [place, *reversed(first)]
        else:
            ordered.setdefault(place, skills[place])
        begun.add(place)
    return list(ordered.values())
