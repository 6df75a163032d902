"""What `review warmup --explain` does: today's plan, in the log or yet to be made, with reasons."""

from typing import NamedTuple

from review import gather
from review.app import sittings
from review.book.store import Book
from review.core import days, explain, family
from review.core.amendments import place
from review.core.explain import Explained
from review.core.looks import traits_of
from review.core.model import Child, Event, Pupil
from review.core.sheets import is_on_screen
from review.core.warmup import Plan
from review.errors import Mendable
from review.gather import Outside


class Told(NamedTuple):
    """One child's warm-up, explained."""

    pupil: Pupil
    begun: bool  # the plan is the one in the log
    found: Explained


def explained(outside: Outside, child_name: str | None, minutes: float | None) -> list[Told]:
    """For one child, or for all when no name is given. Nothing is asked and nothing kept."""
    sittings.check_minutes(minutes)
    with gather.reading(outside) as book:
        known = gather.family_of(book)
        chosen = list(known) if child_name is None and known else [gather.child_named(known, child_name)]
        return [_told(book, outside, child, minutes) for child in chosen]


def _told(book: Book, outside: Outside, child: Child, minutes: float | None) -> Told:
    day = _day(outside, child)
    pupil = gather.pupil(book, child, day)
    sitting = _sitting(book, child, day)
    if sitting is not None:
        then, todays = _as_it_was(book, pupil, sitting), family.sitting_plan(sitting)
        since = set(child.taught) - set(then.child.taught)
        return _with_reasons(then, todays, since, begun=True)
    if day < child.last_day:
        raise Mendable(
            f"There was no warm-up of {child.name} on {days.words(day)}. Choose another day with --on."
        )
    length = minutes or sittings.minutes_left(book, child, day)
    return _with_reasons(
        pupil, sittings.plan_today(book, outside, pupil, length, keep=False), set(), begun=False
    )


def _sitting(book: Book, child: Child, day: int) -> Event | None:
    """The plan a day began with: of today this device's, which its warm-up goes on with; of an earlier day
    any device's."""
    if day < child.last_day:
        rows = book.events(child=child.key, kinds=("sitting",), since_day=day)
        return next((row for row in reversed(list(rows)) if row.day == day and is_on_screen(row)), None)
    return sittings.sitting_of(book, child, day) if sittings.answers_of(book, child, day) else None


def _day(outside: Outside, child: Child) -> int:
    """The day asked for, also one that is over; else today, never before the child's last one."""
    day = gather.today(outside, child)
    return day if outside.on is not None else max(day, child.last_day)


def _with_reasons(pupil: Pupil, todays: Plan, since: set[str], *, begun: bool) -> Told:
    known = {card.key: card for card in pupil.cards}
    words = family.words_of(pupil.child)
    todays = sittings.playable(todays, known)
    found = explain.explained(pupil, todays, since, lambda key: traits_of(key, words))
    return Told(pupil, begun, found)


def _as_it_was(book: Book, pupil: Pupil, sitting: Event) -> Pupil:
    """The pupil with what was remembered, and what was taught, when the sitting was planned: what was taken
    back later still counted then."""
    from review.core import memory

    rows = [row for row in book.events(child=pupil.child.key) if place(row) < place(sitting)]
    then, known = family.children(rows)[0], memory.remembered(rows)
    settings = gather.settings(then, pupil.day)._replace(
        habits=known.habits, days_off=pupil.settings.days_off, focus=pupil.settings.focus
    )
    return pupil._replace(child=then, memory=known.cards, settings=settings)
