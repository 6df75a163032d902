"""What `review child add`, `edit` and `list` do."""

from collections.abc import Mapping, Sequence

from review import clock, files, gather
from review.book import store
from review.core import family
from review.core.model import Child
from review.core.text import clean
from review.errors import Mendable
from review.gather import Outside, reading
from review.writes import write, writing

PACES = (0, 20)  # new cards a day; 0: by age
AGES = (4, 14)  # the catalogue serves 6 to 11; a child a little younger or older may use it (our judgement)
NAME_LENGTH = 40
USUAL_MINUTES = 5.0


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
            from review.app import likings

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
