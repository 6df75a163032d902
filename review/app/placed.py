"""What a placement found, and the parent's word, which stands over it."""

from collections.abc import Sequence
from typing import NamedTuple

from review import gather, writes
from review.app.placing import Placing, placing_of, rows, said_known, written
from review.core import card_names, family, habits, placement_result
from review.core.amendments import cards_of, not_undone
from review.core.model import RIGHT, Child, EventKind, SkillSet
from review.core.placement_result import Found, Ticks
from review.core.text import in_words, meant
from review.errors import Mendable, UnknownName
from review.gather import Outside


class Result(NamedTuple):
    """What a placement found, for the parent."""

    child: Child
    found: SkillSet
    skills: tuple[Found, ...]
    begun: bool  # whether there was one
    copy_ms: int = 0  # the child's own time to type a number of two digits; 0: by age


def shown(outside: Outside, set_name: str, child_name: str | None) -> Result:
    with gather.reading(outside) as book:
        return result(placing_of(book, outside, set_name, child_name, write=False))


def result(at: Placing) -> Result:
    begun = [event.day for event in at.said if placement_result.set_of(event) == at.found.id]
    since, until = min(begun, default=0), at.pupil.day
    answers = at.book.events(at.child.key, ("answer",), since_day=since, until_day=until) if begun else ()
    ticks = placement_result.ticks_of(at.said, at.found.id) or Ticks()
    everything = [*answers, *at.said]
    found = placement_result.found(
        at.found.skills, at.cards, at.pupil.memory, everything, ticks, frozenset(at.child.taught)
    )
    copied = habits.copying_ms(at.pupil.settings.habits, at.pupil.settings.age)
    return Result(at.child, at.found, found, bool(begun), copied[1] if copied else 0)


def put_right(
    outside: Outside,
    set_name: str,
    child_name: str | None,
    known: Sequence[str],
    unknown: Sequence[str],
    rest: Sequence[str],
    taught: Sequence[str] = (),
) -> Result:
    """The parent's word on cards or skills stands over what was found."""
    with writes.writing(outside) as book:
        at = placing_of(book, outside, set_name, child_name, write=True)
        yes = [key for name in known for key in named(at, name)]
        no = [key for name in unknown for key in named(at, name)]
        if both := sorted({*yes} & {*no}):
            card = card_names.title(both[0], family.words_of(at.child))
            raise Mendable(f"{card} is named as known and as not known. Say one of them.")
        left = [key for name in rest for key in rest_of(at, name)]
        at = not_known(at, no)
        at = said_known(at, [*yes, *left])
        if taught:
            at = written(at, ("taught", {"skills": list(taught)}))
        return result(at)


def rest_of(at: Placing, name: str) -> tuple[str, ...]:
    """The cards of a skill that were not asked."""
    wanted = {one.id for one in gather.skills_named(at.found.skills, name)}
    return tuple(key for one in result(at).skills if one.skill.id in wanted for key in one.unasked)


def not_known(at: Placing, keys: Sequence[str]) -> Placing:
    """Take back that cards are known: an answer counts as not yet, a parent's word is said anew without
    them."""
    wanted = {*keys}
    right = [
        (row.device, row.seq)
        for row in (rows(at, since=0) if keys else ())
        if row.card in wanted and row.body["mark"] in RIGHT
    ]
    words = [event for event in not_undone(at.said, "known") if wanted.intersection(cards_of(event))]
    again = [key for event in words for key in cards_of(event) if key not in wanted]
    events: list[tuple[EventKind, dict[str, object]]] = []
    if words:
        events.append(("undo", {"rows": [[event.device, event.seq] for event in words]}))
    if right:
        events.append(("correct", {"rows": [list(row) for row in right], "mark": "not_yet"}))
    if untried := [key for key in again if not tries_of(at, key)]:
        events.append(("known", {"cards": untried}))
    return written(at, *events) if events else at


def tries_of(at: Placing, key: str) -> int:
    """First tries of a card; what was practised stands on those, and needs no word."""
    memory = at.pupil.memory.get(key)
    return memory.tries if memory else 0


def named(at: Placing, name: str) -> list[str]:
    """A card of the set by its key or its title, or all the cards of a skill."""
    found = [card.key for card in card_names.named(at.cards, name)]
    if found:
        return found
    chosen = {one.id for one in meant(card_names.plain(name), at.found.skills, lambda skill: skill.id)}
    if chosen:
        return [card.key for card in at.cards if chosen.intersection(card.skills)]
    card = card_names.example(at.cards, family.words_of(at.child))
    raise UnknownName(
        f"“{name}” is no card and no skill of {at.found.id}. Write a card like "
        f"{card}, or a skill: {in_words([one.id for one in at.found.skills], 'or')}."
    )
