"""The sitting of `review placement`: the parent's ticks first, then what is asked and kept."""

from collections.abc import Callable, Collection, Sequence
from typing import NamedTuple

from review import catalogue, gather, writes
from review.app import copies as exercise
from review.app import own_sets, sittings
from review.app.sittings import Played
from review.book.store import Book
from review.core import (
    card_sets,
    family,
    habits,
    item_choice,
    placement,
    placement_result,
    skills,
)
from review.core.amendments import amended
from review.core.copying import Copying
from review.core.model import Answer, Card, Child, Event, EventKind, Pupil, SkillSet
from review.core.placement import Probing
from review.core.placement_result import Ticks
from review.core.warmup import Summary
from review.errors import Interrupted, Mendable
from review.gather import Outside
from review.shell import word

Front = Callable[
    [
        Probing | Copying,
        Sequence[Answer],
        Callable[[Answer], None],
        Callable[[], int],
        Callable[[], None] | None,
    ],
    Summary,
]
Asks = Callable[[SkillSet, Pupil], Ticks]
"""Asks the parent which skills are surely known, which are not taught yet."""

Copies = Callable[[Pupil], bool]
"""Whether the child copies numbers for a minute first, to learn its own time to type."""


def no_copies(pupil: Pupil) -> bool:
    return False


SAYING = ("taught", "known", "undo", "correct")


class Said(NamedTuple):
    """A placement with nothing to ask: the parent's own words told it all, and are kept."""

    child: Child
    found: SkillSet
    ticks: Ticks
    warning: str  # for the parent; "" when all is well


class Placing(NamedTuple):
    """A child and one of its sets on a day, with what the log says of its placement."""

    book: Book
    outside: Outside
    pupil: Pupil
    found: SkillSet
    cards: tuple[Card, ...]
    said: tuple[Event, ...]  # the parent's words, of any day

    @property
    def child(self) -> Child:
        return self.pupil.child


def placing_of(book: Book, outside: Outside, set_name: str, child_name: str | None, write: bool) -> Placing:
    children = gather.family_of(book)
    if child_name is None:
        check_no_child(children, set_name)
    child = gather.child_named(children, child_name)
    day = gather.writing_day(outside, child) if write else gather.today(outside, child)
    child = gather.child_on(book, child, day)
    found = set_of(outside, child, set_name)
    words = book.events(child=child.key, kinds=SAYING)
    said = tuple(row for row in words if row.day <= day or row.kind in gather.NAMING)
    pupil = gather.pupil(book, child, day)
    aims = {card.key: card.aim for card in pupil.cards}
    cards = tuple(card._replace(aim=aims.get(card.key, card.aim)) for card in card_sets.cards([found]))
    return Placing(book, outside, pupil, found, cards, said)


def check_no_child(children: Sequence[Child], name: str) -> None:
    """The set stands first and is forgotten first: a name like Bo would be taken for the beginning of one."""
    for child in children:
        if child.name.casefold() == name.casefold().strip():
            raise Mendable(
                f"{child.name} is a child, and a placement is of one set. Write review placement SET "
                f"{word(child.name)}; review child list tells which sets {child.name} has."
            )


def set_of(outside: Outside, child: Child, name: str) -> SkillSet:
    """One of the child's sets by its id or an unambiguous beginning."""
    if mine := gather.set_meant(child, name):
        return gather.in_words_of(child, catalogue.chosen_sets([mine]))[0]
    wanted = own_sets.wanted(outside, name)
    raise Mendable(
        f"{child.name} does not have the set {wanted.found.id} yet. Give it first: "
        f"review set add {word(wanted.name)} {word(child.name)}"
    )


# --- the sitting ----------------------------------------------------------------------------------------


def place(
    outside: Outside,
    set_name: str,
    child_name: str | None,
    asks: Asks,
    front: Front,
    again: bool = False,
    copies: Copies = no_copies,
) -> Played | Said:
    """A placement, from where it stopped; each answer is in the book before the next item comes.

    `again`: the parent says anew what is known and what was not taught. `copies`: whether the child copies
    numbers first.
    """
    with writes.writing(outside) as book:
        at = placing_of(book, outside, set_name, child_name, write=True)
        check_day(at)
        check_worth_asking(at, again)
        copying = not todays(at) and copies(at.pupil)
        at = ticked(at, asks, again)
        probing = probing_for(at)
        so_far = todays(at)
        if not so_far and (ticks := all_told(at)):
            return Said(at.child, at.found, ticks, sittings.after_sitting(book, at.child, at.pupil.day))
        check_open(at, probing, so_far)
        if copying and not (first := exercise.play(book, outside, at.pupil, front)).finished:
            return Played(first, sittings.after_sitting(book, at.child, at.pupil.day))
        try:
            kept = sittings.Kept(book, outside, at.child, at.pupil.day)
            summary = front(probing, so_far, kept.add, lambda: 0, kept.take_back)
        except Interrupted as stopped:
            if stopped.exit_code == Interrupted.exit_code:
                sittings.after_sitting(book, at.child, at.pupil.day)
            raise
        return Played(summary, sittings.after_sitting(book, at.child, at.pupil.day))


def check_day(at: Placing) -> None:
    """One set a day: two would be an examination."""
    other = placement_result.days_of(at.said).get(at.pupil.day, at.found.id)
    if other != at.found.id and rows(at, since=at.pupil.day):
        raise Mendable(
            f"{at.child.name} had a placement of {other} today, and one a day is enough. "
            f"Go on with {at.found.id} tomorrow."
        )


def check_worth_asking(at: Placing, again: bool) -> None:
    """Before a parent is asked for words that would change nothing, since every card was met or is known."""
    unasked = not again and placement_result.ticks_of(lately_said(at), at.found.id) is None
    if unasked and all(card.key in at.pupil.memory for card in at.cards):
        check_open(at, probing_for(at), todays(at))


def lately_said(at: Placing) -> list[Event]:
    return [event for event in at.said if event.day > at.pupil.day - item_choice.FORTNIGHT]


def ticked(at: Placing, asks: Asks, again: bool) -> Placing:
    """With the parent's words, asked for once in a fortnight; what is surely known is known from now on."""
    recent = lately_said(at)
    before = placement_result.ticks_of(recent, at.found.id)
    ticks = (
        placement_result.amended_by(before, asks(at.found, at.pupil)) if before is None or again else before
    )
    if ticks == before and placement_result.days_of(recent).get(at.pupil.day) == at.found.id:
        return at
    at = written(at, ("taught", placement_result.ticks_body(at.found.id, ticks)))
    return said_known(at, [card.key for card in at.cards if not {*ticks.known}.isdisjoint(card.skills)])


def said_known(at: Placing, keys: Sequence[str]) -> Placing:
    """Cards the parent counts as known; those that were ever measured stay as they are."""
    new = [key for key in keys if key not in at.pupil.memory or at.pupil.memory[key].stability is None]
    return written(at, ("known", {"cards": new})) if new else at


def written(at: Placing, *events: tuple[EventKind, dict[str, object]]) -> Placing:
    """The events in the log, in one transaction, and what is then known."""
    drafts = [writes.draft(at.outside, at.child, kind, body, at.pupil.day) for kind, body in events]
    at.book.record(drafts, gather.remember())
    known = {one.key: one for one in gather.family_of(at.book)}
    pupil = gather.pupil(at.book, known[at.child.key], at.pupil.day)
    return at._replace(pupil=pupil, said=tuple(at.book.events(child=at.child.key, kinds=SAYING)))


def probing_for(at: Placing) -> Probing:
    """What may be asked: cards never met, of skills that were neither ticked as known nor as not taught."""
    pupil, ticks = at.pupil, placement_result.ticks_of(at.said, at.found.id) or Ticks()
    items = item_choice.items(at.cards, {card.key: skills.traits(card.key) for card in at.cards})
    closed = {*ticks.known, *(skill for skill in ticks.untaught if skill not in at.child.taught)}
    todays_keys = {answer.card for answer in todays(at)}
    return Probing(
        at.book.id,
        at.child.key,
        at.child.name,
        pupil.settings.age,
        pupil.day,
        items,
        tuple(card.key for card in at.cards if card.skill not in closed and is_open(at, card, todays_keys)),
        {card.key: card for card in (*pupil.cards, *at.cards)},
        earlier(at),
        sure_cards(at, items),
        pupil.settings.untimed,
        min(item_choice.MOST_MS, round(at.child.minutes * 60_000)),
        habits.copying_ms(pupil.settings.habits, pupil.settings.age),
        family.is_aloud(at.child, pupil.settings.age),
        family.words_of(at.child),
    )


def is_open(at: Placing, card: Card, todays_keys: Collection[str]) -> bool:
    """A card met by today's own placement counts as it stood before: what is shown next follows from that."""
    memory = None if card.key in todays_keys else at.pupil.memory.get(card.key)
    item = item_choice.Item(card.key, card.skill, 0.0, 0.0, skills.traits(card.key).seconds)
    return item_choice.may_ask(item, card, memory)


def sure_cards(at: Placing, items: Collection[str]) -> tuple[str, ...]:
    """Cards known from elsewhere; first the one it ended on today, so that it ends there again."""
    ended_on = [answer.card for answer in todays(at) if answer.card not in items]
    return (*ended_on, *placement_result.sure(at.pupil, items))


def rows(at: Placing, since: int) -> list[Event]:
    """The placements' answers since a day, as they count."""
    answers = at.book.events(child=at.child.key, kinds=("answer",), since_day=since)
    return [event for event in amended([*answers, *at.said]) if placement_result.is_probe(event)]


def todays(at: Placing) -> list[Answer]:
    return placement_result.probes(row for row in rows(at, since=at.pupil.day) if row.day == at.pupil.day)


def earlier(at: Placing) -> tuple[Answer, ...]:
    """The answers of this placement on the days before, within a fortnight."""
    sets, since = placement_result.days_of(at.said), at.pupil.day - item_choice.FORTNIGHT + 1
    ours = (row for row in rows(at, since) if row.day < at.pupil.day and sets.get(row.day) == at.found.id)
    return tuple(placement_result.probes(ours))


def all_told(at: Placing) -> Ticks | None:
    """The parent's words, where they leave no skill to ask about."""
    ticks = placement_result.ticks_of(at.said, at.found.id) or Ticks()
    told = {*ticks.known, *ticks.untaught}
    return ticks if all(skill.id in told for skill in at.found.skills) else None


def check_open(at: Placing, probing: Probing, so_far: Sequence[Answer]) -> None:
    if so_far or (placement.start(probing)[0].turn is not None):
        return
    name, who = at.child.name, word(at.child.name)
    if all(card.aim == "familiarity" for card in at.cards):
        raise Mendable(f"{at.found.id} is only to be met and recognised: there is nothing to find out.")
    if not any(placement_result.set_of(event) == at.found.id for event in at.said):  # what would --show show
        raise Mendable(
            f"There is nothing to find out: {name} met all of {at.found.id} in warm-ups already, or you said "
            f"that it is known. How it stands: review progress {who}"
        )
    see = f"See what it found: review placement {at.found.id} {who} --show"
    raise Mendable(f"There is nothing more to ask {name} of {at.found.id} for now. {see}")


def ticks_named(found: SkillSet, known: Sequence[str], untaught: Sequence[str]) -> Ticks:
    """What options say of whole skills."""
    yes = [one.id for name in known for one in gather.skills_named(found.skills, name)]
    no = [one.id for name in untaught for one in gather.skills_named(found.skills, name)]
    if both := [one for one in yes if one in no]:
        raise Mendable(f"{both[0]} is named as known and as not taught. Say one of them.")
    return Ticks(tuple(dict.fromkeys(yes)), tuple(dict.fromkeys(no)))
