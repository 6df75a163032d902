"""What each command does: gather, decide with the core, write back. One function a command."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from review import backups, catalogue, clock, files, gather, store
from review.core import family, plan, reports, seeds, skills
from review.core.model import (
    Answer,
    Child,
    Draft,
    Event,
    EventKind,
    Plan,
    Pupil,
    Sitting,
    SkillSet,
    Summary,
)
from review.core.text import clean, in_words
from review.errors import BookError, Interrupted, Mendable
from review.gather import Outside
from review.replies import Given, Overdue, Played, Proof, Taught, Today
from review.store import Book

PACES = (0, 20)  # new cards a day; 0: by age
AGES = (4, 14)  # the catalogue serves 6 to 11; a child a little younger or older may use it (our judgement)
MINUTES = (1, 30)
NAME_LENGTH = 40
USUAL_MINUTES = 5.0


@contextmanager
def reading(outside: Outside) -> Iterator[Book]:
    with store.open_book(outside.book, outside.state, write=False) as book:
        yield book


@contextmanager
def writing(outside: Outside) -> Iterator[Book]:
    with store.open_book(outside.book, outside.state, write=True) as book:
        yield book


def write(
    book: Book,
    outside: Outside,
    child: Child,
    kind: EventKind,
    body: Mapping[str, object],
    day: int,
    card: str = "",
) -> Event:
    """One event into the log, with what it does to memory, in one transaction."""
    return book.record([draft(outside, child, kind, body, day, card)], gather.remember())[0]


def draft(
    outside: Outside, child: Child, kind: EventKind, body: Mapping[str, object], day: int, card: str = ""
) -> Draft:
    """An event of now, in the child's zone."""
    offset = clock.offset_min(child.zone, outside.now_ms)
    return Draft(child.key, kind, day, outside.now_ms, offset, card, body)


# --- children ------------------------------------------------------------------------------------------


def add_child(
    outside: Outside, name: str, age: int, minutes: float, zone: str, untimed: bool, pace: int = 0
) -> Child:
    """A new child; the first one makes the book."""
    called = clean(name).strip()
    check_profile(called, age, minutes, zone, pace)
    if not files.is_there(outside.book):
        store.make(outside.book)
    with writing(outside) as book:
        known = gather.family_of(book)
        if any(child.name.casefold() == called.casefold() for child in known):
            raise Mendable(
                f"There is a child called {called} already. Choose another name, or add an initial."
            )
        key = store.new_child_key().hex()
        child = Child(key, called, age, 0, minutes, zone, untimed, pace, years=family.years(known))
        day = gather.today(outside, child)
        gather.check_far(outside, child, day)
        child = child._replace(age_day=day, last_day=day)
        book.add_child(bytes.fromhex(child.key))
        write(book, outside, child, "profile", family.profile_body(child), day)
    return child


def edit_child(outside: Outside, name: str, changed: Mapping[str, object]) -> Child:
    """What is given of age, minutes, zone, untimed and pace, changed from today on. The whole name is asked
    for, so that no other child is meant."""
    with writing(outside) as book:
        child = gather.child_by_full_name(gather.family_of(book), name)
        if not changed:
            raise Mendable("Say what to change, like --minutes 8 or --pace 2.")
        edited = child._replace(**changed)  # type: ignore[arg-type]
        check_profile(edited.name, edited.age, edited.minutes, edited.zone, edited.pace)
        day = gather.writing_day(outside, child)
        write(book, outside, child, "profile", family.profile_change(edited, changed), day)
    return edited


def check_profile(name: str, age: int, minutes: float, zone: str, pace: int = 0) -> None:
    if not PACES[0] <= pace <= PACES[1]:
        raise Mendable(f"Write the new cards a day, from {PACES[0]} (by age) to {PACES[1]}: --pace 2")
    if not name:
        raise Mendable("A child needs a name. Any word will do: it stays in this book.")
    if len(name) > NAME_LENGTH:
        raise Mendable(f"Write a name of at most {NAME_LENGTH} letters.")
    if not AGES[0] <= age <= AGES[1]:
        raise Mendable(f"Write the age in whole years, from {AGES[0]} to {AGES[1]}: --age 7")
    if not MINUTES[0] <= minutes <= MINUTES[1]:
        raise Mendable(f"Write the minutes a day, from {MINUTES[0]} to {MINUTES[1]}: --minutes 5")
    if zone:
        clock.time_zone(zone)


def list_children(outside: Outside) -> tuple[Child, ...]:
    with reading(outside) as book:
        return gather.family_of(book)


# --- skill sets ----------------------------------------------------------------------------------------


def set_wanted(name: str) -> tuple[str, SkillSet]:
    """A shipped set by name, or a parent's own file: (its text, "" for a shipped one; the set)."""
    if not catalogue.is_file(name):
        return "", catalogue.find(name)
    text, found = catalogue.own(Path(name))
    if found.id in catalogue.names():
        raise Mendable(f"{name}: the catalogue has a set called {found.id} already. Give yours another `id`.")
    return text, found


def give_set(
    outside: Outside, name: str, child_name: str | None, aim: str, taught: Callable[[SkillSet], Sequence[str]]
) -> Given:
    """Give a set to a child. `taught` says which of its skills have been taught already."""
    text, found = set_wanted(name)
    with writing(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        check_new_skills(child, found)
        day = gather.writing_day(outside, child)
        known = tuple(taught(found))
        write(book, outside, child, "set_add", {"set": found.id, "aim": aim, "text": text}, day)
        if known:
            write(book, outside, child, "taught", {"skills": list(known)}, day)
    from review.core import card_sets

    return Given(child, found, len(card_sets.cards([found])), known)


def check_new_skills(child: Child, found: SkillSet) -> None:
    """Two sets of one child may share cards, never the id of a skill."""
    others = [chosen for chosen in child.sets if chosen.set_id != found.id]
    taken = {skill.id: skill.set_id for other in catalogue.chosen_sets(others) for skill in other.skills}
    for skill in found.skills:
        if skill.id in taken:
            raise Mendable(
                f"{found.id}: the skill {skill.id} is in {child.name}'s set {taken[skill.id]} too. "
                "Give one of them another `id`."
            )


def drop_set(outside: Outside, name: str, child_name: str | None) -> tuple[Child, str]:
    """Take a set from a child. What was learned stays in the book and comes back with the set."""
    with writing(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        mine = [chosen.set_id for chosen in child.sets]
        found = [set_id for set_id in mine if set_id.startswith(name.casefold().strip() or "?")]
        exact = [set_id for set_id in mine if set_id == name.casefold()] or found
        if len(exact) != 1:
            owned = in_words(exact or mine) or "none"
            raise Mendable(f"{child.name} has no single set “{name}”. {child.name}'s sets: {owned}.")
        write(book, outside, child, "set_drop", {"set": exact[0]}, gather.writing_day(outside, child))
    return child, exact[0]


def mark_taught(outside: Outside, skill: str, child_name: str | None, timed: bool | None) -> Taught:
    """The parent says the idea has been taught: from now on its cards may come."""
    with writing(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        mine = [one for found in catalogue.chosen_sets(child.sets) for one in found.skills]
        if not mine:
            raise Mendable(f"{child.name} has no skill set yet. Give one: review set add SET {child.name}")
        found = gather.skills_named(mine, skill)
        body: dict[str, object] = {"skills": [one.id for one in found]}
        if timed is not None:
            body["timed"] = timed
        write(book, outside, child, "taught", body, gather.writing_day(outside, child))
    return Taught(child, tuple(found), timed)


# --- what a parent looks at ----------------------------------------------------------------------------


def overdue(outside: Outside, child_name: str | None) -> list[Overdue]:
    """For one child, or for all when no name is given."""
    with reading(outside) as book:
        known = gather.family_of(book)
        chosen = list(known) if child_name is None else [gather.child_named(known, child_name)]
        if not known:
            gather.child_named(known, None)
        return [overdue_of(gather.pupil(book, child, gather.today(outside, child))) for child in chosen]


def overdue_of(pupil: Pupil) -> Overdue:
    found = reports.report(pupil)
    return Overdue(pupil.child, pupil.day, found.decision, found.overdue, found.fading, pupil.skills)


def front_door(outside: Outside) -> list[Today]:
    with reading(outside) as book:
        return [today_of(book, outside, child) for child in gather.family_of(book)]


def today_of(book: Book, outside: Outside, child: Child) -> Today:
    day = gather.today(outside, child)
    sitting = sitting_of(book, child, day)
    done = sitting is not None and is_finished(book, child, sitting_plan(sitting), day)
    mine = {skill.id for found in catalogue.chosen_sets(child.sets) for skill in found.skills}
    return Today(child, done, len(child.sets), len(mine & set(child.taught)))


# --- the warm-up ---------------------------------------------------------------------------------------

Front = Callable[
    [Sitting, Sequence[Answer], Callable[[Answer], None], Callable[[], int], Callable[[], None] | None],
    Summary,
]
"""Plays a sitting: given it, today's answers so far, how to keep an answer, how much is overdue now, and how
to take the last answer back."""

sitting_plan = family.sitting_plan


def sitting_of(book: Book, child: Child, day: int) -> Event | None:
    """Today's plan, made on this device."""
    rows = book.events(child=child.key, kinds=("sitting",), since_day=day)
    own = [row for row in rows if row.day == day and row.device == book.device]
    return own[-1] if own else None


def answers_of(book: Book, child: Child, day: int) -> list[Answer]:
    """This device's answers of that day's warm-up, in order."""
    from review.core import amendments, memory

    rows = amendments.amended(book.events(child=child.key, kinds=("answer", "undo"), since_day=day))
    mine = [row for row in rows if row.kind == "answer" and row.day == day and row.device == book.device]
    return [memory.event_answer(row) for row in mine if row.body.get("role") != "probe"]


def minutes_left(book: Book, child: Child, day: int) -> float:
    """The child's minutes of a day without what a placement has had of them; at least one."""
    rows = book.events(child=child.key, kinds=("answer",), since_day=day)
    probed = (row.body.get("end_ms", 0) for row in rows if row.day == day and row.body.get("role") == "probe")
    return max(1.0, child.minutes - sum(int(str(ms)) for ms in probed) / 60_000)


def is_finished(book: Book, child: Child, todays: Plan, day: int) -> bool:
    from review.core import session

    so_far = answers_of(book, child, day)
    state, _ = session.start(sitting_for(book, gather.pupil(book, child, day), todays), so_far)
    return state.ended


def plan_today(book: Book, outside: Outside, pupil: Pupil, minutes: float, keep: bool) -> Plan:
    """Today's plan: the one in the log once a card of it was answered, else a new one, which is logged first.

    Until then what a parent gives or has taught meanwhile still comes today. A plan that is not kept goes
    through the same whole numbers, so that a trial shows what a day would.
    """
    child, day = pupil.child, pupil.day
    found = sitting_of(book, child, day)
    if found is not None and keep and answers_of(book, child, day):
        return sitting_plan(found)
    fresh = plan.for_pupil(pupil, minutes, seeds.plan_source(book.id, child.key, day))
    fresh = settled(pupil, fresh)
    body = family.sitting_body(fresh)
    if keep:
        return sitting_plan(write(book, outside, child, "sitting", body, day))
    return family.sitting_plan_of(day, body)


def settled(pupil: Pupil, fresh: Plan) -> Plan:
    """The plan with what its answers are judged by: a sitting taken up again is judged by the same."""
    from review.core import habits

    ways, age = pupil.settings.habits, pupil.settings.age
    return fresh._replace(
        timed=timed_today(pupil, fresh),
        copy_ms=habits.copying_ms(ways, age),
        slow_ms=habits.slow_ms(ways, age),
    )


def timed_today(pupil: Pupil, todays: Plan) -> tuple[str, ...]:
    """Planned cards whose time counts."""
    from review.core import marking

    known = {card.key: card for card in pupil.cards}
    planned = [item.key for item in (*todays.items, *todays.reserve)]
    return tuple(
        key
        for key in planned
        if marking.timed(known[key], skills.traits(key), pupil.memory.get(key), pupil.settings)
    )


def sitting_for(book: Book, pupil: Pupil, todays: Plan, keep: bool = True) -> Sitting:
    known = {card.key: card for card in pupil.cards}
    return Sitting(
        book.id,
        pupil.child.key,
        pupil.child.name,
        pupil.settings.age,
        playable(todays, known),
        known,
        timed=frozenset(todays.timed),
        copy_ms=todays.copy_ms,
        slow_ms=todays.slow_ms,
        recent_right=pupil.recent,
        lately=gather.lately(pupil, todays),
        keep=keep,
        untimed=pupil.settings.untimed,
        aloud=family.is_aloud(pupil.child, pupil.settings.age),
    )


def playable(todays: Plan, known: Mapping[str, object]) -> Plan:
    """The plan without cards of a set that was dropped since it was made."""
    return todays._replace(
        items=tuple(item for item in todays.items if item.key in known),
        reserve=tuple(item for item in todays.reserve if item.key in known),
    )


def warmup(
    outside: Outside,
    child_name: str | None,
    minutes: float | None,
    untimed: bool,
    keep: bool,
    front: Front,
    who: Callable[[Sequence[Child]], str | None] = lambda family: None,
) -> Played:
    """Today's warm-up, from where it stopped; each answer is in the book before anything is said of it."""
    check_minutes(minutes)
    with writing(outside) as book:
        known = gather.family_of(book)
        child = gather.child_named(known, who(known) if child_name is None and len(known) > 1 else child_name)
        day = gather.writing_day(outside, child)
        pupil = gather.pupil(book, child, day)
        if untimed:
            pupil = pupil._replace(settings=pupil.settings._replace(untimed=True))
        check_ready(pupil)
        todays = plan_today(book, outside, pupil, minutes or minutes_left(book, child, day), keep)
        sitting = sitting_for(book, pupil, shortened(todays, minutes), keep)
        kept = Kept(book, outside, child, day)
        try:
            summary = front(
                sitting,
                answers_of(book, child, day) if keep else [],
                kept.add if keep else lambda answer: None,
                lambda: reports.count_overdue(gather.pupil(book, child, day)),
                kept.take_back if keep else lambda: None,
            )
        except Interrupted as stopped:
            if keep and stopped.exit_code == Interrupted.exit_code:
                copied(book, day)
            raise
        warnings = [longer_than_planned(todays, minutes), copied(book, day) if keep else ""]
    return Played(summary, "\n".join(warning for warning in warnings if warning))


def check_minutes(minutes: float | None) -> None:
    if minutes is not None and not MINUTES[0] <= minutes <= MINUTES[1]:
        raise Mendable(f"Write the minutes from {MINUTES[0]} to {MINUTES[1]}: --minutes 5")


def shortened(todays: Plan, minutes: float | None) -> Plan:
    """A day that was begun may be made shorter; its cards were chosen for the minutes it began with."""
    return todays._replace(minutes=min(todays.minutes, minutes)) if minutes else todays


def longer_than_planned(todays: Plan, minutes: float | None) -> str:
    if not minutes or minutes <= todays.minutes:
        return ""
    return f"Today's warm-up was begun with {todays.minutes:g} minutes and keeps its plan."


def copied(book: Book, day: int) -> str:
    """The day's backup. The answers are safe without it, so what goes wrong is told and spoils nothing."""
    try:
        backups.daily(book, day)
    except BookError as error:
        return f"Every answer is kept, but today's backup could not be made. {error}"
    return ""


def check_ready(pupil: Pupil) -> None:
    """A warm-up needs a set, and something that has been taught."""
    name = pupil.child.name
    if not pupil.cards:
        raise Mendable(
            f"{name} has no skill set yet. See them: review set list. Give one: review set add SET {name}"
        )
    if not any(card.skill in pupil.child.taught for card in pupil.cards):
        first = next(iter(pupil.skills.values()))
        raise Mendable(
            f"Nothing of {name}'s sets is marked as taught yet. When “{first.title}” has been taught: "
            f"review taught {first.id} {name}"
        )


class Kept:
    """What a sitting has kept: each answer in the log and in memory by one transaction, stamped with the time
    of now. The last one can be taken back."""

    def __init__(self, book: Book, outside: Outside, child: Child, day: int) -> None:
        self._book, self._outside, self._child, self._day = book, outside, child, day
        self._rows: list[Event] = []

    def add(self, answer: Answer) -> None:
        from review.core import memory

        self._rows.append(self._write("answer", memory.answer_body(answer), answer.card))

    def take_back(self) -> None:
        last = self._rows.pop()
        self._write("undo", {"device": last.device, "seq": last.seq})

    def _write(self, kind: EventKind, body: Mapping[str, object], card: str = "") -> Event:
        at = self._outside._replace(now_ms=clock.now_ms())
        return write(self._book, at, self._child, kind, body, self._day, card)


# --- proof ---------------------------------------------------------------------------------------------


def verify(outside: Outside) -> Proof:
    """Whether the book is sound and memory rebuilds to the same bits."""
    with reading(outside) as book:
        problems = tuple(book.verify(gather.remember()))
        children, answers, events = book.counts()
        return Proof(outside.book, problems, children, answers, events - answers)
