"""What `review away` and `review focus` do: days off that are coming, and what comes first this week."""

from collections.abc import Iterable, Mapping

from review import gather, writes
from review.core import amendments, days, focus
from review.core.model import Child, Event
from review.core.takeback import ids_body
from review.core.text import in_words
from review.errors import Mendable
from review.gather import Outside
from review.replies import Away, Focus

LONGEST_AWAY = days.LONGEST_OFF
FAR = 366  # days ahead: days off that begin later are likely another year mistyped (our judgement)


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
    return gather.of_children(outside, child_name, lambda book, child, day: coming(child, day))


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
        wanted = gather.skills_named(gather.skills_of(child), skill)
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
    return gather.of_children(outside, child_name, lambda book, child, day: focus_of(child, day))


def names_a_child(outside: Outside, name: str) -> bool:
    """Whether a name that stands alone is a child's. With one child in the book a skill goes before: nobody
    need say whose it is."""
    with gather.reading(outside) as book:
        family = gather.family_of(book)
        wanted = name.casefold().strip()
        mine = gather.skills_of(family[0]) if len(family) == 1 else ()
        if not wanted or any(wanted == one.set_id or one.id.startswith(wanted) for one in mine):
            return False
        return any(child.name.casefold().startswith(wanted) for child in family)


def focus_of(child: Child, day: int) -> Focus:
    mine = {one.id: one for one in gather.skills_of(child)}
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
