"""From the book to the nouns the core decides from."""

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import NamedTuple, TypeVar

from review import catalogue, clock
from review.book import store
from review.book.store import Book, Remember
from review.core import asked, card_sets, curve, days, family, focus, marking, new_cards, sheets, tries
from review.core.amendments import amended
from review.core.model import (
    STANDARD,
    Child,
    Chosen,
    Event,
    Pupil,
    Remembered,
    Settings,
    Skill,
    SkillSet,
    Words,
)
from review.core.text import clean, in_words, meant, nearest
from review.core.warmup import Plan
from review.errors import Mendable, UnknownName
from review.shell import word

RECENT = 400  # answers in which the last ten first tries before a day are looked for: a few long days
FEW = 120  # of them that are looked through first: a day or two (measured here: a tenth of a report's time)
FAR_AHEAD = 60  # days after the last row at which a clock is asked about (our judgement)

TELLING = ("profile", "taught", "set_add", "set_drop", "away", "undo")
"""Kinds of events that say what a child has, and how it is called."""
NAMING = ("undo", "correct")
"""Kinds of events that name another: what is put right was never otherwise, whatever day is asked about."""

T = TypeVar("T")


class Outside(NamedTuple):
    """What a command knows of the world: which book, which computer, what time it is."""

    book: Path
    state: Path
    now_ms: int
    on: int | None = None  # the practice day `--on` names
    trusted: bool = False  # a person said that the clock is right


def remember() -> Remember:
    """How the book keeps its cached memory: asked for only when something is written or rebuilt."""
    from review.core import memory

    return Remember(curve.FOLD_VERSION, memory.follow, memory.remembered_in_order, memory.remembered_on)


def reading(outside: Outside) -> Book:
    return store.open_book(outside.book, outside.state, write=False)


def of_children(outside: Outside, name: str | None, tell: Callable[[Book, Child, int], T]) -> list[T]:
    """Told of one child, or of each where no name is given; Mendable where there is none. The day is the
    child's today, and the child as on that day."""

    def told(book: Book, child: Child) -> T:
        day = today(outside, child)
        return tell(book, child_on(book, child, day), day)

    with reading(outside) as book:
        return [told(book, child) for child in chosen(book, name)]


def today(outside: Outside, child: Child) -> int:
    if outside.on is not None:
        return outside.on
    return days.practice_day(outside.now_ms, clock.offset_min(child.zone, outside.now_ms))


def aged(outside: Outside, child: Child) -> Child:
    """The child as it is told of today: an age is kept with its day, and goes on from there."""
    day = today(outside, child)
    return child._replace(age=family.age_on(child, day), age_day=day)


def writing_day(outside: Outside, child: Child) -> int:
    """The practice day of what is about to be written, never before the child's last one."""
    day, last = today(outside, child), child.last_day
    if outside.on is not None and day < last:
        raise Mendable(
            f"The book has entries of {days.words(last)} for {child.name} already. "
            "Choose that day or a later one with --on."
        )
    check_far(outside, child, day)
    strange = day < last - 1 or (last and day > last + FAR_AHEAD)
    if strange and not outside.trusted and outside.on is None:
        raise DoubtfulClock(
            f"This computer says {days.words(day)}, and the last entry is of {days.words(last)}. "
            f"Set the clock right, or say the day with --on {days.date_of(max(day, last))}."
        )
    return max(day, last)


def sitting_day(outside: Outside, child: Child) -> int:
    """The practice day that a warm-up of now would be of: where a clock was a day behind or another one a day
    ahead, the child's last one goes on."""
    day = today(outside, child)
    return child.last_day if outside.on is None and child.last_day == day + 1 else day


def check_far(outside: Outside, child: Child, day: int) -> None:
    """A day that was mistyped far ahead would stand in the way of every day before it, for ever."""
    real = today(outside._replace(on=None), child)
    if outside.on is not None and day > max(child.last_day, real) + FAR_AHEAD:
        raise Mendable(
            f"{days.words(day)} is more than {FAR_AHEAD} days ahead. Choose a nearer day with --on."
        )


class DoubtfulClock(Mendable):
    """The clock went back, or far ahead: a person is asked once whether it is right."""


def family_of(book: Book) -> tuple[Child, ...]:
    """The children of the book, each with the practice day of their last entry of any kind."""
    last = book.last_days()
    return tuple(
        child._replace(last_day=last.get(child.key, child.last_day))
        for child in family.children(book.events(kinds=TELLING))
    )


def child_on(book: Book, child: Child, day: int) -> Child:
    """The child as the entries up to that day leave them, called as today: with the sets of then, and with
    what had been taught."""
    if day >= child.last_day:
        return child
    told = family.children(book.events(child.key, TELLING, until_day=day))
    then = told[0] if told else Child(child.key, child.name, child.age, child.age_day)
    return then._replace(
        name=child.name, words=child.words, years=child.years, mode=child.mode, last_day=child.last_day
    )


def course(child: Child, day: int) -> Pupil:
    """The child's cards and settings on that day, without what the book remembers of them."""
    sets = catalogue.chosen_sets(child.sets)
    told = in_words_of(child, sets)
    mine = {skill.id: skill for found in told for skill in found.skills}
    titles = {found.id: found.title for found in told}
    return Pupil(child, day, card_sets.cards(sets), mine, {}, settings(child, day), sets=titles)


def pupil(
    book: Book,
    child: Child,
    day: int,
    sittings: Iterable[Event] | None = None,
    counted: Sequence[Event] = (),
) -> Pupil:
    """The child's cards, memory and settings on that day, or on its evening where it is past. What is at hand
    need not be read again: `sittings` of the four weeks before it, `counted` answers of whole days, the last
    before it among them."""
    bare, past = course(child, day), day < child.last_day
    newest = recent_right(counted[-RECENT:], day)
    recent = newest if len(newest) == new_cards.RECENT else recent_before(book, child.key, day, past=past)
    known = memory_on(book, child.key, day) if past else memory_of(book, child.key)
    planned = sittings_up_to(book, child, day) if sittings is None else sittings
    practised = (sitting.day for sitting in planned if sheets.was_practised(sitting))
    off = days.days_off(practised, day, child.away)
    in_focus = focus.skills_in_focus(bare.skills, child.focus if day <= child.focus_until else "")
    decided = bare.settings._replace(habits=known.habits, days_off=off, focus=in_focus)
    traits = catalogue.written_traits(child.sets)
    return bare._replace(memory=known.cards, settings=decided, recent=recent, traits=traits)


def sittings_up_to(book: Book, child: Child, day: int, since: int = days.LAST_DAY) -> list[Event]:
    """Of the four weeks up to a day, and from an earlier day on where one is named."""
    first = min(since, day - days.FOUR_WEEKS)
    return [*book.events(child=child.key, kinds=("sitting",), since_day=first, until_day=day)]


def sets_of(child: Child) -> list[SkillSet]:
    """The child's sets, those of the catalogue called as the family calls them."""
    return in_words_of(child, catalogue.chosen_sets(child.sets))


def skills_of(child: Child) -> list[Skill]:
    return [skill for found in sets_of(child) for skill in found.skills]


def in_words_of(child: Child, sets: Sequence[SkillSet]) -> list[SkillSet]:
    words = family.words_of(child)
    if words == STANDARD:
        return list(sets)
    own = {chosen.set_id for chosen in child.sets if chosen.text}
    return [found if found.id in own else own_words(found, words) for found in sets]


def own_words(found: SkillSet, words: Words) -> SkillSet:
    """A set of the catalogue in the family's words."""
    from review.core import house_words  # nobody waits for it who chose nothing

    return house_words.own_words(found, words)


def answers(
    book: Book, key: str, since_day: int | None = None, last: int | None = None, until_day: int | None = None
) -> list[Event]:
    """A child's answers as they count, in order: without what was taken back, with marks put right. The
    newest `last` of them, or those of the days from one to another, both included."""
    rows = (
        book.answers(key, last=last)
        if last
        else book.events(child=key, kinds=("answer",), since_day=since_day, until_day=until_day)
    )
    mended = book.events(child=key, kinds=NAMING)
    return [row for row in amended([*rows, *mended]) if row.kind == "answer"]


def memory_of(book: Book, key: str) -> Remembered:
    """The cached memory where it is of this version and sound, else the fold of the log."""
    return book.remembered_by(key, curve.FOLD_VERSION) or book.folded(key, remember())


def memory_on(book: Book, key: str, day: int) -> Remembered:
    """What was remembered on the evening of a day that is past: the log is folded up to then, from where a
    season began if that is cached. A fit weighs a whole log, and so tells nothing before it was made."""
    fits = [*book.events(key, ("fit",))]
    kept = None if any(fit.day > day for fit in fits) else remembered_before(book, key, day + 1)
    naming = [*book.events(key, NAMING), *(fit for fit in fits if fit.day <= day)]
    if kept is None:
        return remember().fold(naming, book.events(key, until_day=day))
    since = kept.habits.at[0]
    rest = book.events(key, since_day=since, until_day=day)
    return remember().on(kept, [*(row for row in naming if row.day < since or row.day > day), *rest])


def remembered_before(book: Book, key: str, day: int) -> Remembered | None:
    """The latest that is cached of what was remembered before a day; None where nothing of use is."""
    return book.remembered_before(key, day) if book.memory_version(key) == curve.FOLD_VERSION else None


def settings(child: Child, day: int) -> Settings:
    return Settings(
        age=family.age_on(child, day),
        pace=child.pace,
        untimed=child.untimed,
        taught=frozenset(child.taught),
        timed=frozenset(child.timed),
    )


def recent_before(book: Book, key: str, day: int, few: int = FEW, past: bool = False) -> tuple[bool, ...]:
    """Whether the last ten first tries before that day were right. The newest few answers tell it
    on most days; of the oldest of their days some are cut off, so that it is left out. Of a `past` day the
    newest say nothing."""
    if past:
        return recent_right(answers(book, key, until_day=day)[-RECENT:], day)
    newest = answers(book, key, last=few)
    found = recent_right([row for row in newest if row.day > newest[0].day], day)
    return found if len(found) == new_cards.RECENT else recent_right(answers(book, key, last=RECENT), day)


def recent_right(answers: Sequence[Event], before: int, count: int = new_cards.RECENT) -> tuple[bool, ...]:
    """Whether the last first tries before that day were right, oldest first; the plan lets new cards in by
    them. Which they are is told by the rule of all reports; a guiding question leaves a procedure right, as
    in the sitting."""
    found = tries.first_tries(event for event in answers if event.day < before)
    return tuple(marking.is_right(one.answer) for one in found)[-count:]


def lately(pupil: Pupil, todays: Plan, before: int = 0) -> dict[str, tuple[str, ...]]:
    """What the planned procedure cards asked before today, or that day, so that it is not asked again at
    once."""
    planned = {item.key for item in (*todays.items, *todays.reserve)} & pupil.memory.keys()
    found = {key: asked.lately(pupil.memory[key], before or pupil.day) for key in planned}
    return {key: some for key, some in found.items() if some}


# --- names as a parent types them ----------------------------------------------------------------------


def child_named(children: Iterable[Child], name: str | None) -> Child:
    """A child by name, without case and by an unambiguous beginning; the only one when no name is given."""
    family = list(children)
    if not family:
        raise Mendable("There is no child in the book yet. Add one: review child add NAME --age 7")
    if name is None:
        if len(family) == 1:
            return family[0]
        raise Mendable(f"Which child? Add the name at the end: {in_words([c.name for c in family], 'or')}.")
    found = meant(name.casefold().strip(), family, lambda child: child.name.casefold())
    if len(found) == 1:
        return found[0]
    if found:
        raise several(name, [child.name for child in found])
    near = nearest(name, [child.name for child in family]) or [child.name for child in family]
    raise UnknownName(f"There is no child called “{name}” in the book. {there(near)}.")


def child_for(children: Iterable[Child], skill: str, name: str | None) -> Child:
    """The child a skill is meant for: it stands before the name."""
    family = list(children)
    check_order(family, skill, name)
    return child_named(family, name)


def check_order(children: Iterable[Child], skill: str, name: str | None) -> None:
    """The skill stands first and is forgotten first, or the two change places."""
    family = list(children)
    child = next((one for one in family if one.name.casefold() == skill.casefold().strip()), None)
    if child is None or any(one.name.casefold() == (name or "").casefold().strip() for one in family):
        return
    if name is None:
        raise Mendable(
            f"{child.name} is a child, and the skill stands before the name. review child list tells which "
            f"sets {child.name} has, and review set show SET their skills."
        )
    raise Mendable(f"The skill stands before the name: write {clean(name)} first, then {child.name}.")


def several(name: str, names: Sequence[str]) -> UnknownName:
    return UnknownName(f"“{name}” could be {in_words(names, 'or')}. Write more of the name.")


def there(names: Sequence[str]) -> str:
    return f"There {'is' if len(names) == 1 else 'are'} {in_words(names)}"


def chosen(book: Book, name: str | None) -> list[Child]:
    """For a reading command: the child that is named, or all of them; a book without one is said so."""
    known = family_of(book)
    return list(known) if name is None and known else [child_named(known, name)]


def child_by_full_name(children: Iterable[Child], name: str) -> Child:
    """A child whose whole name is given, without case."""
    family = list(children)
    found = next((child for child in family if child.name.casefold() == name.casefold().strip()), None)
    if found is None:
        known = [child.name for child in family] or ["nobody yet"]
        raise UnknownName(f"Write the whole name. {there(known)} in the book.")
    return found


def check_sets(child: Child) -> None:
    if not child.sets:
        raise no_set(child)


def no_set(child: Child) -> Mendable:
    who = word(child.name)
    return Mendable(
        f"{child.name} has no skill set yet. From a list: review set pick {who}. "
        f"One by its name: review set add SET {who}"
    )


def set_meant(child: Child, name: str) -> Chosen | None:
    """One of the child's sets by its id or an unambiguous beginning; None where none is meant."""
    found = meant(name.casefold().strip(), child.sets, lambda chosen: chosen.set_id)
    if len(found) > 1:
        raise several(name, [chosen.set_id for chosen in found])
    return found[0] if found else None


def skills_named(mine: Iterable[Skill], name: str) -> list[Skill]:
    """One skill by its id, an unambiguous beginning, or its title, by which reports name it; or all the
    skills of a set by the set's id."""
    known, wanted = list(mine), name.casefold().strip()
    exact = [skill for skill in known if skill.id == wanted]
    exact = exact or [skill for skill in known if wanted and skill.set_id == wanted]
    begun = exact or meant(wanted, known, lambda skill: skill.id)
    found = begun or [skill for skill in known if clean(skill.title).casefold() == wanted]
    if len(found) == 1 or exact:
        return found
    if found:
        raise several(name, [skill.id for skill in found])
    if set_id := catalogue.set_with(wanted):
        where = "is a set" if set_id == wanted else f"is in the set {set_id}"
        raise UnknownName(
            f"“{wanted}” {where}. If the child does not have that yet: review set add {set_id} CHILD"
        )
    near = nearest(name, [skill.id for skill in known])
    hint = f" Did you mean {in_words(near, 'or')}?" if near else ""
    raise UnknownName(
        f"None of the child's sets has a skill called “{name}”.{hint} "
        "`review set show SET` lists a set's skills."
    )
