"""Sittings beside the day's warm-up, `review extra` and `warmup --gentle`.

Played and kept like one, but a fresh one every time, and without a word to memory.
"""

from collections.abc import Iterable, Sequence

from review import gather, writes
from review.app import sittings
from review.app.sittings import Front, Played, Who
from review.book.store import Book
from review.core import beside_plan, card_names, family, seeds
from review.core.model import Child, Pupil, Skill, Sort
from review.core.text import ended, kept_apart
from review.core.warmup import Plan
from review.errors import Mendable
from review.gather import Outside
from review.shell import word


def extra(outside: Outside, skill: str, child_name: str | None, count: int, front: Front, who: Who) -> Played:
    """A few more of one kind, on demand, any number of times a day; also of what was not taught yet."""
    check_count(count)
    with writes.writing(outside) as book:
        gather.check_order(gather.family_of(book), skill, child_name)
        child = sittings.who_sits(book, child_name, who)
        day = gather.writing_day(outside, child)
        pupil = gather.pupil(book, child, day)
        wanted = gather.skills_named(pupil.skills.values(), skill)
        source = seeds.source(book.id, child.key, day, "extra", rounds(book, child, day, "extra"))
        plan = beside_plan.more(pupil, {one.id for one in wanted}, count, source)
        done = played_beside(book, outside, pupil, plan, "extra", front)
        waits = () if is_done(book, child, day) else beside_plan.due_among(pupil, asked_on(book, child, day))
        return sittings.warned(done, untaught(child, wanted), postponed(child, waits))


def gentle(
    outside: Outside, child_name: str | None, minutes: float | None, keep: bool, front: Front, who: Who
) -> Played:
    """Two minutes of sure cards, for a hard day."""
    sittings.check_minutes(minutes)
    with writes.opened(outside, keep) as book:
        child = sittings.who_sits(book, child_name, who)
        day = gather.writing_day(outside, child)
        pupil = gather.pupil(book, child, day)
        sittings.check_ready(pupil)
        source = seeds.source(book.id, child.key, day, "gentle", rounds(book, child, day, "gentle"))
        plan = beside_plan.gentle(pupil, minutes or beside_plan.GENTLE_MINUTES, source)
        if not plan.items:
            raise Mendable(nothing_sure(pupil))
        return played_beside(book, outside, pupil, plan, "gentle", front, keep)


def played_beside(
    book: Book, outside: Outside, pupil: Pupil, plan: Plan, sort: Sort, front: Front, keep: bool = True
) -> Played:
    """A sitting beside the warm-up, to its end. One that was stopped is never gone on with: each is a fresh
    one. Time counts for nothing, and neither order of a fact is looked for: nothing here is a try of it."""
    sitting = sittings.sitting_for(book, pupil, plan, keep)
    asked = gather.lately(pupil, plan, pupil.day + 1)
    fresh = sitting._replace(sort=sort, lately=asked, harder={})
    return sittings.played(book, outside, pupil.child, fresh, (), front)


def rounds(book: Book, child: Child, day: int, sort: Sort) -> int:
    """What was answered in such sittings today: no two begin alike."""
    return sum(row.body.get("sitting") == sort for row in sittings.answers_on(book, child, day))


def asked_on(book: Book, child: Child, day: int) -> set[str]:
    """The cards of which a few more were answered that day."""
    rows = sittings.answers_on(book, child, day)
    return {row.card for row in rows if row.body.get("sitting") == "extra"}


def is_done(book: Book, child: Child, day: int) -> bool:
    """Whether the day's warm-up has come to its end."""
    sitting = sittings.sitting_of(book, child, day)
    return sitting is not None and (
        sittings.as_it_stands(book, child, family.sitting_plan(sitting), day).ended
    )


# --- what a parent is told ------------------------------------------------------------------------------


def check_count(count: int) -> None:
    if not 1 <= count <= beside_plan.MOST:
        raise Mendable(f"Write how many, from 1 to {beside_plan.MOST}: --count {beside_plan.COUNT}")


def nothing_sure(pupil: Pupil) -> str:
    """Nothing is left today, or nothing was ever measured."""
    child = pupil.child
    if any(pupil.day in (one.last_day, one.met_day) for one in pupil.memory.values()):
        return (
            f"All that {child.name} knows had its turn today. "
            f"A few more of one kind: review extra SKILL {word(child.name)}"
        )
    return (
        f"Nothing is known well enough of {child.name} yet for a gentle warm-up. The first days are short "
        f"ones anyway: review warmup {word(child.name)} --minutes {beside_plan.GENTLE_MINUTES:g}"
    )


def untaught(child: Child, wanted: Sequence[Skill]) -> str:
    """For what is not marked as taught: kindly, and what to type when it is."""
    new = [one for one in wanted if one.id not in child.taught]
    if not new:
        return ""
    first = ended(f"Not marked as taught yet: {kept_apart([one.title for one in new])}")
    return f"{first} Warm-ups leave it out until you say so: review taught {new[0].id} {word(child.name)}"


def postponed(child: Child, keys: Iterable[str]) -> str:
    """After more practice the day's warm-up would only ask what was said a moment ago."""
    words = family.words_of(child)
    titles = [card_names.title(key, words) for key in sorted(keys)]
    if not titles:
        return ""
    named = kept_apart([*titles[:3], *([f"{len(titles) - 3} more"] if len(titles) > 3 else [])])
    return f"Practised now, so today's warm-up leaves it for another day: {named}."
