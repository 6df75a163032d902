"""What each command does: gather, decide with the core, write back. One function a command."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from random import Random

from review import catalogue, clock, files, gather, own_sets, store
from review.core import brief, family, looks, plan, reports, teaching
from review.core.brief import Brief
from review.core.model import STANDARD, Child, Pupil, SkillSet
from review.core.standing import Look
from review.core.stuck import stuck
from review.core.text import clean, in_words
from review.errors import Mendable
from review.gather import Outside, reading
from review.replies import Given, Lessons, Overdue, Proof, Taught
from review.store import Book
from review.writes import write, writing

PACES = (0, 20)  # new cards a day; 0: by age
AGES = (4, 14)  # the catalogue serves 6 to 11; a child a little younger or older may use it (our judgement)
NAME_LENGTH = 40
USUAL_MINUTES = 5.0


# --- children ------------------------------------------------------------------------------------------


def add_child(
    outside: Outside, name: str, age: int, minutes: float, zone: str, untimed: bool, pace: int = 0
) -> Child:
    """A new child; the first one makes the book."""
    called = clean(name).strip()
    check_profile(called, age, minutes, pace)
    zone = clock.zone_spelled(zone)
    if not files.is_there(outside.book):
        store.make(outside.book)
    with writing(outside) as book:
        known = gather.family_of(book)
        name_for(called, None, known)
        key = store.new_child_key().hex()
        words = next((one.words for one in known), {})
        child = Child(
            key, called, age, 0, minutes, zone, untimed, pace, years=family.years(known), words=words
        )
        day = gather.today(outside, child)
        gather.check_far(outside, child, day)
        child = child._replace(age_day=day, last_day=day)
        book.add_child(bytes.fromhex(child.key))
        write(book, outside, child, "profile", family.profile_body(child), day)
    return child


def child_and_age(outside: Outside, name: str | None) -> tuple[Child, int]:
    with gather.reading(outside) as book:
        child = gather.child_named(gather.family_of(book), name)
        return child, gather.settings(child, gather.today(outside, child)).age


def edit_child(outside: Outside, name: str, changed: Mapping[str, object]) -> Child:
    """What is given of age, minutes, zone, untimed, pace and likes (the name of a strategy, or none), changed
    from today on. The whole name is asked for, so that no other child is meant."""
    with writing(outside) as book:
        child = gather.child_by_full_name(gather.family_of(book), name)
        if not changed:
            raise Mendable("Say what to change, like --minutes 8 or --pace 2.")
        if "name" in changed:
            changed = {**changed, "name": name_for(str(changed["name"]), child, gather.family_of(book))}
        if "likes" in changed:
            from review import likings

            changed = {**changed, "likes": likings.likes_now(child, str(changed["likes"]))}
        if "zone" in changed:
            changed = {**changed, "zone": clock.zone_spelled(str(changed["zone"]))}
        edited = child._replace(**changed)  # type: ignore[arg-type]
        check_profile(edited.name, edited.age, edited.minutes, edited.pace)
        day = gather.writing_day(outside, child)
        write(book, outside, child, "profile", family.profile_change(edited, changed), day)
    return edited if "age" in changed else gather.aged(outside, edited)


def name_for(wanted: str, child: Child | None, known: Sequence[Child]) -> str:
    """The name as it is kept; no other child may have it."""
    called = clean(wanted).strip()
    others = [one.name for one in known if child is None or one.key != child.key]
    taken = [name for name in others if name.casefold() == called.casefold()]
    if taken:
        raise Mendable(f"There is a child called {taken[0]} already. Choose another name, or add an initial.")
    return called


def check_profile(name: str, age: int, minutes: float, pace: int = 0) -> None:
    if not PACES[0] <= pace <= PACES[1]:
        raise Mendable(f"Write the new cards a day, from {PACES[0]} (by age) to {PACES[1]}: --pace 2")
    if not any(character.isalnum() or not character.isascii() for character in name):
        raise Mendable("A child needs a name. Any word will do: it stays in this book.")
    if name.startswith("-"):  # a command would take it for an option
        raise Mendable(f"A name cannot begin with “-”. Leave that sign out: {name.lstrip('- ')}")
    if len(name) > NAME_LENGTH:
        raise Mendable(f"Write a name of at most {NAME_LENGTH} letters.")
    if not AGES[0] <= age <= AGES[1]:
        raise Mendable(f"Write the age in whole years, from {AGES[0]} to {AGES[1]}: --age 7")
    if not family.MINUTES[0] <= minutes <= family.MINUTES[1]:
        raise Mendable(
            f"Write the minutes a day, from {family.MINUTES[0]} to {family.MINUTES[1]}: --minutes 5"
        )


def list_children(outside: Outside) -> tuple[Child, ...]:
    with reading(outside) as book:
        return tuple(gather.aged(outside, child) for child in gather.family_of(book))


# --- skill sets ----------------------------------------------------------------------------------------


def give_set(
    outside: Outside, name: str, child_name: str | None, aim: str, taught: Callable[[SkillSet], Sequence[str]]
) -> Given:
    """Give a set to a child. `taught` says which of its skills have been taught already."""
    wanted = own_sets.wanted(outside, name)
    with writing(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        found, _, text, _ = own_sets.of_child(book, child, wanted)
        check_new_skills(child, found)
        day = gather.writing_day(outside, child)
        left = [skill for skill in found.skills if skill.id not in child.taught]
        new = taught(found._replace(skills=tuple(left))) if left else ()
        write(book, outside, child, "set_add", {"set": found.id, "aim": aim, "text": text}, day)
        if new:
            write(book, outside, child, "taught", {"skills": [*new]}, day)
    from review.core import card_sets

    known = tuple(skill.id for skill in found.skills if skill.id in {*child.taught, *new})
    guessed = [one for one in catalogue.with_aim(found, aim).skills if aim and one.aim != aim]
    given = Given(child, found, len(card_sets.cards([found])), known, tuple(guessed))
    return given_again(given, aim)


def given_again(given: Given, aim: str) -> Given:
    """With what is not as it was, where the child had a set of that name."""
    from review.core.edited_sets import edited

    before = next((chosen for chosen in given.child.sets if chosen.set_id == given.found.id), None)
    if before is None:
        return given
    told = given._replace(aim_before="" if before.aim == aim else before.aim)
    was = own_sets.as_given(before)
    taught = {*given.child.taught, *given.taught}
    return told._replace(edited=edited(was, given.found, taught)) if was else told


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
        meant = gather.set_meant(child, name)
        if meant is None:
            owned = in_words([chosen.set_id for chosen in child.sets]) or "none"
            raise Mendable(f"{child.name} has no set “{name}”. {child.name}'s sets: {owned}.")
        write(book, outside, child, "set_drop", {"set": meant.set_id}, gather.writing_day(outside, child))
    return child, meant.set_id


def mark_taught(outside: Outside, skill: str, child_name: str | None, timed: bool | None) -> Taught:
    """The parent says the idea has been taught: from now on its cards may come."""
    with writing(outside) as book:
        child = gather.child_for(gather.family_of(book), skill, child_name)
        gather.check_sets(child)
        sets = gather.sets_of(child)
        found = gather.skills_named([one for each in sets for one in each.skills], skill)
        body: dict[str, object] = {"skills": [one.id for one in found]}
        if timed is not None:
            body["timed"] = timed
        write(book, outside, child, "taught", body, gather.writing_day(outside, child))
    from review.core import card_sets

    timeable = not timed or card_sets.from_memory(sets, [one.id for one in found])
    return Taught(child, tuple(found), timed, from_memory=timeable)


# --- what a parent looks at ----------------------------------------------------------------------------


def overdue(outside: Outside, child_name: str | None) -> list[Overdue]:
    """For one child, or for all when no name is given."""
    return gather.of_children(outside, child_name, lambda *of: overdue_of(gather.pupil(*of)))


def overdue_of(pupil: Pupil) -> Overdue:
    found = reports.report(pupil)
    return Overdue(pupil.child, pupil.day, found.decision, found.overdue, found.fading, pupil.skills)


def teach(outside: Outside, child_name: str | None) -> list[Lessons]:
    """What to teach next, for one child, or for all when no name is given."""
    return gather.of_children(outside, child_name, lambda *of: lessons_of(gather.pupil(*of)))


def lessons_of(pupil: Pupil) -> Lessons:
    every = looks.looks(pupil)
    return Lessons(pupil.child, teaching.lessons(pupil, every, stuck(pupil, every)), too_much(pupil, every))


def too_much(pupil: Pupil, every: Iterable[Look]) -> bool:
    """Whether new cards wait today until more of what is in play holds."""
    return plan.choice(pupil, every, pupil.child.minutes, Random(0)).too_much


def briefs(outside: Outside, child_name: str | None) -> list[Brief]:
    """Four weeks in short, for one child, or for all when no name is given."""
    return gather.of_children(outside, child_name, brief_of)


def brief_of(book: Book, child: Child, day: int) -> Brief:
    planned = gather.sittings_up_to(book, child, day)
    since = day - 7 * brief.WEEKS + 1
    counted = gather.answers(book, child.key, since_day=since, until_day=day)
    pupil = gather.pupil(book, child, day, planned, counted)
    return brief.brief(pupil, counted)


# --- proof ---------------------------------------------------------------------------------------------


def verify(outside: Outside) -> Proof:
    """Whether the book is sound and memory rebuilds to the same bits."""
    from review import missing  # no other command here asks why a child misses

    with reading(outside) as book:
        problems = tuple(book.verify(gather.remember()) or missing.problems(book))
        children, answers, events = book.counts()
        words = STANDARD if problems else family.words_of_all(gather.family_of(book))
        return Proof(outside.book, problems, children, answers, events - answers, words)
