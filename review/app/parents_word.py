"""What `review taught` and `review known` do: what a parent says of a skill, or of some cards."""

from collections.abc import Iterable, Sequence

from review import gather, writes
from review.book.store import Book
from review.core import amendments, card_names, family
from review.core.model import Card, Draft, Event, Pupil, Skill, Words
from review.core.takeback import ids_body
from review.core.text import in_words, kept_apart, nearest
from review.errors import Mendable, UnknownName
from review.gather import Outside
from review.replies import Known, Taught
from review.shell import word

# --- taught ---------------------------------------------------------------------------------------------


def mark_taught(outside: Outside, skill: str, child_name: str | None, timed: bool | None) -> Taught:
    """The parent says the idea has been taught: from now on its cards may come."""
    with writes.writing(outside) as book:
        child = gather.child_for(gather.family_of(book), skill, child_name)
        gather.check_sets(child)
        found = gather.skills_named(gather.skills_of(child), skill)
        body: dict[str, object] = {"skills": [one.id for one in found]}
        if timed is not None:
            body["timed"] = timed
        writes.write(book, outside, child, "taught", body, gather.writing_day(outside, child))
    from review.core import card_sets

    timeable = not timed or card_sets.from_memory(gather.sets_of(child), [one.id for one in found])
    return Taught(child, tuple(found), timed, from_memory=timeable)


def not_taught(outside: Outside, skill: str, child_name: str | None) -> Taught:
    """The word is taken back; other skills it named keep it, with their time."""
    with writes.writing(outside) as book:
        child = gather.child_for(gather.family_of(book), skill, child_name)
        gather.check_sets(child)
        found = gather.skills_named(gather.skills_of(child), skill)
        ids = {one.id for one in found}
        said = book.events(child=child.key, kinds=("taught", "undo"))
        words = [event for event in amendments.not_undone(said, "taught") if ids.intersection(named(event))]
        if not words:
            titles = kept_apart([one.title for one in found])
            raise Mendable(f"Nobody said that {titles} was taught to {child.name}. Nothing was changed.")
        day = gather.writing_day(outside, child)
        others = [
            {**event.body, "skills": [name for name in named(event) if name not in ids]} for event in words
        ]
        drafts = [writes.draft(outside, child, "undo", ids_body(words), day)]
        drafts += [writes.draft(outside, child, "taught", body, day) for body in others if body["skills"]]
        book.record(drafts, gather.remember())
        return Taught(child, tuple(found), None, True)


def said_taught(outside: Outside, pupil: Pupil, skills: Sequence[Skill]) -> list[Draft]:
    body = {"skills": [one.id for one in skills]}
    return [writes.draft(outside, pupil.child, "taught", body, pupil.day)] if skills else []


def named(event: Event) -> list[str]:
    skills = event.body.get("skills", ())
    return [str(name) for name in skills] if isinstance(skills, (list, tuple)) else []


# --- known already --------------------------------------------------------------------------------------


def known_skill(outside: Outside, skill: str, child_name: str | None) -> Known:
    """A skill is known already: its cards that were never measured start far out, and it counts as taught.
    What was answered says more than a word, and stays as it is."""
    with writes.writing(outside) as book:
        gather.check_order(gather.family_of(book), skill, child_name)
        pupil = pupil_of(book, outside, child_name)
        check_no_card(pupil, skill)
        found = gather.skills_named(pupil.skills.values(), skill)
        mine = cards_of(pupil, found)
        new = [card for card in mine if is_open(pupil, card)]
        fresh = [one for one in found if one.id not in pupil.child.taught]
        drafts = [*said_known(outside, pupil, new), *said_taught(outside, pupil, fresh)]
        book.record(drafts, gather.remember())
        return Known(pupil.child, tuple(new), (), tuple(fresh), len(mine) - len(new), True, tuple(found))


def not_known_skill(outside: Outside, skill: str, child_name: str | None) -> Known:
    """The word is taken back of every card of a skill, however it was said. That the skill was taught is a
    word of its own, and stays."""
    with writes.writing(outside) as book:
        gather.check_order(gather.family_of(book), skill, child_name)
        pupil = pupil_of(book, outside, child_name)
        check_no_card(pupil, skill)
        found = gather.skills_named(pupil.skills.values(), skill)
        said = {key for event in words_on(book, pupil) for key in amendments.cards_of(event)}
        cards = tuple(card for card in cards_of(pupil, found) if card.key in said)
        check_said(cards, [one.title for one in found])
        take_back(book, outside, pupil, cards)
        return Known(pupil.child, cards, (), (), 0, False, tuple(found))


def cards_of(pupil: Pupil, found: Iterable[Skill]) -> list[Card]:
    ids = {one.id for one in found}
    return [card for card in pupil.cards if ids.intersection(card.skills)]


def check_no_card(pupil: Pupil, name: str) -> None:
    """A card that stands where a skill is meant is a word too few, no mistake of the name."""
    if name not in pupil.skills and card_names.named(pupil.cards, name):
        one = f"review known --card {word(name)} {word(pupil.child.name)}"
        raise Mendable(f"“{name}” is a card, and a skill is meant. One card: {one}")


def known_cards(outside: Outside, names: Sequence[str], child_name: str | None) -> Known:
    """Some cards are known already, whatever was answered to them."""
    with writes.writing(outside) as book:
        pupil = pupil_of(book, outside, child_name)
        cards = cards_named(pupil, names)
        book.record(said_known(outside, pupil, cards), gather.remember())
        return Known(pupil.child, cards, untaught(pupil, cards), (), 0, True)


def not_known(outside: Outside, names: Sequence[str], child_name: str | None) -> Known:
    """The word is taken back; other cards it named keep it, but those whose answers say more by now."""
    with writes.writing(outside) as book:
        pupil = pupil_of(book, outside, child_name)
        cards = cards_named(pupil, names)
        own = family.words_of(pupil.child)
        titles = [card_names.title(card.key, own) for card in cards]
        check_said(take_back(book, outside, pupil, cards), titles)
        return Known(pupil.child, cards, (), (), 0, False)


def words_on(book: Book, pupil: Pupil) -> list[Event]:
    """The events by which a parent said that cards are known, and which stand."""
    return amendments.not_undone(book.events(child=pupil.child.key, kinds=("known", "undo")), "known")


def take_back(book: Book, outside: Outside, pupil: Pupil, cards: Iterable[Card]) -> list[Event]:
    """Take back that any of those cards is known; other cards named with them keep it. The events that are
    taken back; []: nobody had said so."""
    keys = {card.key for card in cards}
    words = [event for event in words_on(book, pupil) if keys.intersection(amendments.cards_of(event))]
    if words:
        others = {key for event in words for key in amendments.cards_of(event)} - keys
        left = [card for card in pupil.cards if card.key in others and not tries(pupil, card)]
        gone = writes.draft(outside, pupil.child, "undo", ids_body(words), pupil.day)
        book.record([gone, *said_known(outside, pupil, left)], gather.remember())
    return words


def check_said(said: Sequence[object], titles: Sequence[str]) -> None:
    if not said:
        raise Mendable(f"Nobody said that {kept_apart(titles)} is known. Nothing was changed.")


def pupil_of(book: Book, outside: Outside, child_name: str | None) -> Pupil:
    child = gather.child_named(gather.family_of(book), child_name)
    gather.check_sets(child)
    return gather.pupil(book, child, gather.writing_day(outside, child))


def cards_named(pupil: Pupil, names: Iterable[str]) -> tuple[Card, ...]:
    return tuple(card_named(pupil, name) for name in names)


def card_named(pupil: Pupil, name: str) -> Card:
    own = family.words_of(pupil.child)
    found = card_names.named(pupil.cards, name)
    if len(found) == 1:
        return found[0]
    if found:
        raise UnknownName(f"“{name}” could be {in_words(told_apart(found, own), 'or')}. Write which.")
    near = nearest(name, [card_names.title(card.key, own) for card in pupil.cards])
    hint = f" Did you mean {in_words(near, 'or')}?" if near else ""
    raise UnknownName(
        f"{pupil.child.name} has no card “{name}”.{hint} Write it as it is asked, like "
        f"{card_names.example(pupil.cards, own)}, or name a whole skill without --card."
    )


def told_apart(cards: Sequence[Card], own: Words) -> list[str]:
    """Their titles, or their keys where two have the same."""
    titles = [card_names.title(card.key, own) for card in cards]
    return titles if len(set(titles)) == len(titles) else [card.key for card in cards]


def is_open(pupil: Pupil, card: Card) -> bool:
    """Whether answers say nothing of it: never measured, or set aside to be taught."""
    memory = pupil.memory.get(card.key)
    return memory is None or memory.stability is None or memory.aside_day > 0


def tries(pupil: Pupil, card: Card) -> int:
    memory = pupil.memory.get(card.key)
    return memory.tries if memory else 0


def untaught(pupil: Pupil, cards: Iterable[Card]) -> tuple[Skill, ...]:
    """Skills of cards that come in no warm-up yet."""
    taught = set(pupil.child.taught)
    names = [card.skill for card in cards if taught.isdisjoint(card.skills)]
    return tuple(pupil.skills[name] for name in dict.fromkeys(names))


def said_known(outside: Outside, pupil: Pupil, cards: Iterable[Card]) -> list[Draft]:
    keys = list(dict.fromkeys(card.key for card in cards))
    return [writes.draft(outside, pupil.child, "known", {"cards": keys}, pupil.day)] if keys else []
