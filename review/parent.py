"""What a parent says of a child, into the log: known already, not taught after all, days off, a focus."""

from collections.abc import Iterable, Mapping, Sequence

from review import gather, writes
from review.core import amendments, card_names, days, family, focus
from review.core.model import Card, Child, Draft, Event, Pupil, Skill, Words
from review.core.takeback import ids_body
from review.core.text import in_words, nearest
from review.errors import Mendable, UnknownName
from review.gather import Outside
from review.replies import Away, Focus, Known, Taught
from review.shell import word
from review.store import Book

LONGEST_AWAY = days.LONGEST_OFF
FAR = 366  # days ahead: days off that begin later are likely another year mistyped (our judgement)


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
        raise Mendable(f"Nobody said that {in_words(titles)} is known. Nothing was changed.")


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


def said_taught(outside: Outside, pupil: Pupil, skills: Sequence[Skill]) -> list[Draft]:
    body = {"skills": [one.id for one in skills]}
    return [writes.draft(outside, pupil.child, "taught", body, pupil.day)] if skills else []


# --- taught ---------------------------------------------------------------------------------------------


def not_taught(outside: Outside, skill: str, child_name: str | None) -> Taught:
    """The word is taken back; other skills it named keep it, with their time."""
    with writes.writing(outside) as book:
        child = gather.child_for(gather.family_of(book), skill, child_name)
        gather.check_sets(child)
        found = gather.skills_named(skills_of(child).values(), skill)
        ids = {one.id for one in found}
        said = book.events(child=child.key, kinds=("taught", "undo"))
        words = [event for event in amendments.not_undone(said, "taught") if ids.intersection(named(event))]
        if not words:
            titles = in_words([one.title for one in found])
            raise Mendable(f"Nobody said that {titles} was taught to {child.name}. Nothing was changed.")
        day = gather.writing_day(outside, child)
        others = [
            {**event.body, "skills": [name for name in named(event) if name not in ids]} for event in words
        ]
        drafts = [writes.draft(outside, child, "undo", ids_body(words), day)]
        drafts += [writes.draft(outside, child, "taught", body, day) for body in others if body["skills"]]
        book.record(drafts, gather.remember())
        return Taught(child, tuple(found), None, True)


def named(event: Event) -> list[str]:
    skills = event.body.get("skills", ())
    return [str(name) for name in skills] if isinstance(skills, (list, tuple)) else []


# --- days off -------------------------------------------------------------------------------------------


def away(outside: Outside, first: int, last: int, child_name: str | None) -> Away:
    """Days off, known ahead: what falls due on them may come before they begin."""
    if last < first:
        raise Mendable("The last day off comes before the first. Write --from and --to the other way round.")
    if last - first >= LONGEST_AWAY:
        raise Mendable(f"Write at most {LONGEST_AWAY} days off at once.")
    with writes.writing(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        day = gather.writing_day(outside, child)
        if last < day:
            raise Mendable(
                f"{days.words(last)} is over. Days off are told ahead; days without a warm-up need no word."
            )
        if first - day > FAR:
            raise Mendable(
                f"{days.words(first)} is more than a year ahead. Look at the year, or say it later."
            )
        writes.write(book, outside, child, "away", {"from": first, "to": last}, day)
        return coming(child._replace(away=(*child.away, (first, last))), day)


def not_away(outside: Outside, child_name: str | None) -> Away:
    """Take back the days off from today on; those that are over stay."""
    with writes.writing(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        day = gather.writing_day(outside, child)
        rows = book.events(child=child.key, kinds=("away", "undo"))
        words = [event for event in amendments.not_undone(rows, "away") if span(event)[1] >= day]
        if not words:
            raise Mendable(f"No days off of {child.name} are coming. Nothing was changed.")
        spans = tuple(map(span, words))
        over = [{"from": first, "to": day - 1} for first, _ in spans if first < day]
        drafts = [writes.draft(outside, child, "undo", ids_body(words), day)]
        drafts += [writes.draft(outside, child, "away", body, day) for body in over]
        book.record(drafts, gather.remember())
        return Away(child, joined(spans), True)


def span(event: Event) -> tuple[int, int]:
    return int(str(event.body["from"])), int(str(event.body["to"]))


def days_away(outside: Outside, child_name: str | None) -> list[Away]:
    """For one child, or for all: the days off that are coming."""
    with gather.reading(outside) as book:
        return [coming(child, gather.today(outside, child)) for child in gather.chosen(book, child_name)]


def coming(child: Child, day: int) -> Away:
    return Away(child, joined(one for one in child.away if one[1] >= day))


def joined(spans: Iterable[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    """In order; those that overlap, or follow each other without a day between, as one."""
    found: list[tuple[int, int]] = []
    for first, last in sorted(spans):
        if found and first <= found[-1][1] + 1:
            found[-1] = found[-1][0], max(found[-1][1], last)
        else:
            found.append((first, last))
    return tuple(found)


# --- this week's focus ----------------------------------------------------------------------------------


def focus_on(outside: Outside, skill: str, child_name: str | None) -> Focus:
    """Until Sunday this skill and what it stands on come first, a third of each sitting."""
    with writes.writing(outside) as book:
        child = gather.child_for(gather.family_of(book), skill, child_name)
        gather.check_sets(child)
        wanted = gather.skills_named(skills_of(child).values(), skill)
        if len(wanted) > 1:
            names = in_words([one.id for one in wanted], "or")
            raise Mendable(f"A week's focus is one skill. Of {skill} say which: {names}.")
        day = gather.writing_day(outside, child)
        body: Mapping[str, object] = {"focus": wanted[0].id, "focus_until": days.sunday(day)}
        writes.write(book, outside, child, "profile", body, day)
        return focus_of(child._replace(focus=wanted[0].id, focus_until=days.sunday(day)), day)


def focus_off(outside: Outside, child_name: str | None) -> Focus:
    with writes.writing(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        day = gather.writing_day(outside, child)
        if not child.focus or child.focus_until < day:
            raise Mendable(f"There is no focus for {child.name} this week. Nothing was changed.")
        writes.write(book, outside, child, "profile", {"focus": "", "focus_until": 0}, day)
        return Focus(child, None, (), (), day)


def focuses(outside: Outside, child_name: str | None) -> list[Focus]:
    """For one child, or for all: what comes first now."""
    with gather.reading(outside) as book:
        return [focus_of(child, gather.today(outside, child)) for child in gather.chosen(book, child_name)]


def names_a_child(outside: Outside, name: str) -> bool:
    """Whether a name that stands alone is a child's. With one child in the book a skill goes before: nobody
    need say whose it is."""
    with gather.reading(outside) as book:
        family = gather.family_of(book)
        wanted = name.casefold().strip()
        mine = skills_of(family[0]).values() if len(family) == 1 else ()
        if not wanted or any(wanted == one.set_id or one.id.startswith(wanted) for one in mine):
            return False
        return any(child.name.casefold().startswith(wanted) for child in family)


def focus_of(child: Child, day: int) -> Focus:
    mine = skills_of(child)
    if day > child.focus_until or child.focus not in mine:
        return Focus(child, None, (), (), day)
    names = focus.skills_in_focus(mine, child.focus)
    found = [skill for name, skill in mine.items() if name in names]
    return Focus(
        child,
        mine[child.focus],
        tuple(one for one in found if one.id != child.focus),
        tuple(one for one in found if one.id not in child.taught),
        child.focus_until,
    )


def skills_of(child: Child) -> dict[str, Skill]:
    return {skill.id: skill for found in gather.sets_of(child) for skill in found.skills}
