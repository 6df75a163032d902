"""What `review set add` and `set drop` do."""

from collections.abc import Callable, Sequence

from review import catalogue, gather
from review.app import own_sets
from review.core.model import Child, SkillSet
from review.core.text import in_words
from review.errors import Mendable
from review.gather import Outside
from review.replies import Given
from review.writes import draft, write, writing


def give_set(
    outside: Outside, name: str, child_name: str | None, aim: str, taught: Callable[[SkillSet], Sequence[str]]
) -> Given:
    """Give a set to a child. `taught` says which of its skills have been taught already."""
    wanted = own_sets.wanted(outside, name)
    with writing(outside) as book:
        children = gather.family_of(book)
        child = gather.child_named(children, child_name)
        found, _, text, _ = own_sets.of_child(book, child, wanted)
        check_new_skills(child, found)
        day = gather.writing_day(outside, child)
        left = [skill for skill in found.skills if skill.id not in child.taught]
        new = taught(found._replace(skills=tuple(left))) if left else ()
        drafts = [draft(outside, child, "set_add", {"set": found.id, "aim": aim, "text": text}, day)]
        if new:
            drafts.append(draft(outside, child, "taught", {"skills": [*new]}, day))
        book.record(drafts, gather.remember())  # both or none: a set alone would ask nothing
    from review.core import card_sets

    known = tuple(skill.id for skill in found.skills if skill.id in {*child.taught, *new})
    guessed = [one for one in catalogue.with_aim(found, aim).skills if aim and one.aim != aim]
    others = () if wanted.kept else have_otherwise(children, child, found.id, text)
    given = Given(child, found, len(card_sets.cards([found])), known, tuple(guessed))
    return given_again(given, aim)._replace(others=others, name=name)


def have_otherwise(children: Sequence[Child], child: Child, set_id: str, text: str) -> tuple[str, ...]:
    """Names of the other children whose set of that name is of another text."""
    return tuple(
        other.name
        for other in children
        if other.key != child.key
        and any(chosen.set_id == set_id and chosen.text != text for chosen in other.sets)
    )


def given_again(given: Given, aim: str) -> Given:
    """With what is not as it was, where the child had a set of that name."""
    from review.core.edited_sets import edited

    before = next((chosen for chosen in given.child.sets if chosen.set_id == given.found.id), None)
    if before is None:
        return given
    told = given._replace(aim_before="" if before.aim == aim else before.aim)
    was = own_sets.as_given(before) if before.text else None  # a shipped one changes with the program
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
