"""What a warm-up does: today's plan from the book, the sitting played, each answer kept."""

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from review import catalogue, clock, gather, writes
from review.app import missing
from review.book.store import Book
from review.core import family, orders, plan, seeds, sheets, skills
from review.core.amendments import amended
from review.core.answer_bodies import answer_body, event_answer
from review.core.model import Answer, Child, Draft, Event, EventKind, Pupil
from review.core.queue import State
from review.core.warmup import Plan, Sitting, Summary
from review.errors import BookError, Interrupted, Mendable
from review.gather import Outside
from review.shell import word

if TYPE_CHECKING:
    from review.replies import Today

Front = Callable[
    [Sitting, Sequence[Answer], Callable[[Answer], None], Callable[[], int], Callable[[], None] | None],
    Summary,
]
"""Plays a sitting: given it, today's answers so far, how to keep an answer, how much is overdue now, and how
to take the last answer back."""


class Played(NamedTuple):
    """A warm-up that came to its end, or was stopped."""

    summary: Summary
    warning: str  # for the parent; "" when all is well


Who = Callable[[Sequence[Child]], str | None]
"""Asks which of the children sits there; None where nobody can be asked."""


def nobody(children: Sequence[Child]) -> str | None:
    return None


def sitting_of(book: Book, child: Child, day: int) -> Event | None:
    """Today's plan, made on this device."""
    rows = book.events(child=child.key, kinds=("sitting",), since_day=day)
    own = [row for row in rows if row.day == day and row.device == book.device and sheets.is_on_screen(row)]
    return own[-1] if own else None


def answers_on(book: Book, child: Child, day: int) -> list[Event]:
    """The answers of a day as they count, in order: without what was taken back, with marks put right."""
    return [row for row in gather.answers(book, child.key, since_day=day) if row.day == day]


def answers_of(book: Book, child: Child, day: int) -> list[Answer]:
    """This device's answers of that day's warm-up, in order; those on paper are no part of it."""

    mine = (row for row in answers_on(book, child, day) if row.device == book.device)
    return [event_answer(row) for row in mine if is_of_warmup(row)]


def is_of_warmup(row: Event) -> bool:
    beside = row.body.get("sitting") or row.body.get("taken") == "paper"
    return row.body.get("role") != "probe" and not beside


def is_of_placement(row: Event) -> bool:
    return row.body.get("role") == "probe" or row.body.get("sitting") == "copying"


def minutes_left(book: Book, child: Child, day: int) -> float:
    """The child's minutes of a day without what a placement, and copying before it, have had of them; at
    least one."""
    probes = (row for row in answers_on(book, child, day) if is_of_placement(row))
    return max(1.0, child.minutes - sum(int(str(row.body.get("end_ms", 0))) for row in probes) / 60_000)


def as_it_stands(book: Book, child: Child, todays: Plan, day: int) -> State:
    """The day's warm-up after the answers it has had so far."""
    from review.core import session

    so_far = answers_of(book, child, day)
    state, _ = session.start(sitting_for(book, gather.pupil(book, child, day), todays), so_far)
    return state


def plan_today(book: Book, outside: Outside, pupil: Pupil, minutes: float, keep: bool) -> Plan:
    """Today's plan: the one in the log once a card of it was answered, else a new one, which is logged first.

    Until then what a parent gives or has taught meanwhile still comes today. A plan that is not kept goes
    through the same whole numbers, so that a trial shows what a day would.
    """
    child, day = pupil.child, pupil.day
    found = sitting_of(book, child, day)
    if found is not None and keep and answers_of(book, child, day):
        return family.sitting_plan(found)
    fresh = plan.for_pupil(pupil, minutes, seeds.plan_source(book.id, child.key, day))
    fresh = settled(pupil, fresh)._replace(suspected=missing.suspected(book, pupil, fresh))
    body = family.sitting_body(fresh)
    if keep:
        return family.sitting_plan(writes.write(book, outside, child, "sitting", body, day))
    return family.sitting_plan_of(day, body)


def settled(pupil: Pupil, fresh: Plan) -> Plan:
    """The plan with what its answers are judged by and the ways its help follows: a sitting taken up again
    goes by the same."""
    from review.core import habits

    ways, age = pupil.settings.habits, pupil.settings.age
    return fresh._replace(
        timed=timed_today(pupil, fresh),
        likes=pupil.child.likes,
        copy_ms=habits.copying_ms(ways, age),
        slow_ms=habits.slow_ms(ways, age),
    )


def timed_today(pupil: Pupil, todays: Plan) -> tuple[str, ...]:
    """Planned cards whose time counts."""
    from review.core import marking

    known = {card.key: card for card in pupil.cards}
    planned = [item.key for item in (*todays.items, *todays.reserve)]
    traits = skills.traits_among(pupil.traits)
    return tuple(
        key
        for key in planned
        if marking.timed(known[key], traits(key), pupil.memory.get(key), pupil.settings)
    )


def sitting_for(book: Book, pupil: Pupil, todays: Plan, keep: bool = True) -> Sitting:
    """A plan, and of the pupil what a session needs to play it."""
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
        harder=orders.asked_more(pupil.memory, missing.planned(todays)),
        keep=keep,
        untimed=pupil.settings.untimed,
        aloud=family.is_aloud(pupil.child, pupil.settings.age),
        words=family.words_of(pupil.child),
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
    who: Who = nobody,
) -> Played:
    """Today's warm-up, from where it stopped; each answer is in the book before anything is said of it."""
    check_minutes(minutes)
    with writes.opened(outside, keep) as book:
        child = who_sits(book, child_name, who)
        day = gather.writing_day(outside, child)
        pupil = gather.pupil(book, child, day)
        if untimed:
            pupil = pupil._replace(settings=pupil.settings._replace(untimed=True))
        check_ready(pupil)
        todays = plan_today(book, outside, pupil, minutes or minutes_left(book, child, day), keep)
        sitting = sitting_for(book, pupil, shortened(todays, minutes), keep)
        so_far = answers_of(book, child, day) if keep else []
        done = played(book, outside, child, sitting, so_far, front)
        return warned(done, longer_than_planned(todays, minutes))


def who_sits(book: Book, child_name: str | None, who: Who) -> Child:
    """The child that is named; else the only one, or the one that says so."""
    known = gather.family_of(book)
    return gather.child_named(known, who(known) if child_name is None and len(known) > 1 else child_name)


def played(
    book: Book, outside: Outside, child: Child, sitting: Sitting, so_far: Sequence[Answer], front: Front
) -> Played:
    """The sitting to its end, or to where it is stopped, and the day's backup after it."""
    day, keep = sitting.plan.day, sitting.keep
    kept = Kept(book, outside, child, day)
    try:
        summary = front(
            sitting,
            so_far,
            kept.add if keep else lambda answer: None,
            lambda: overdue_left(book, child, day),
            kept.take_back if keep else lambda: None,
        )
    except Interrupted as stopped:
        if not keep:
            raise Interrupted("Stopped. It was a trial: nothing is kept.", stopped.exit_code) from None
        if stopped.exit_code == Interrupted.exit_code:
            after_sitting(book, child, day)
        raise
    return Played(summary, after_sitting(book, child, day) if keep else "")


def after_sitting(book: Book, child: Child, day: int) -> str:
    """Make ready what the next start needs, and the day's backup, now that nobody waits any more. What went
    wrong, for the parent; "" when all is well."""
    missing.keep(book, child.key)
    return back_up(book, day)


def overdue_left(book: Book, child: Child, day: int) -> int:
    from review.core import reports  # asked at the end, and not on every front

    return reports.count_overdue(gather.pupil(book, child, day))


def warned(done: Played, *more: str) -> Played:
    """With more for the parent to read; what is "" is nothing."""
    return done._replace(warning="\n".join(one for one in (*more, done.warning) if one))


def check_minutes(minutes: float | None) -> None:
    least, most = family.MINUTES
    if minutes is not None and not least <= minutes <= most:
        raise Mendable(f"Write the minutes from {least} to {most}: --minutes 5")


def shortened(todays: Plan, minutes: float | None) -> Plan:
    """A day that was begun may be made shorter; its cards were chosen for the minutes it began with."""
    return todays._replace(minutes=min(todays.minutes, minutes)) if minutes else todays


def longer_than_planned(todays: Plan, minutes: float | None) -> str:
    if not minutes or minutes <= todays.minutes:
        return ""
    return f"Today's warm-up was begun with {todays.minutes:g} minutes and keeps its plan."


def back_up(book: Book, day: int) -> str:
    """Make the day's backup. The answers are safe without it, so what goes wrong is returned, to be told, and
    spoils nothing."""
    from review.book import backups  # after the last answer

    try:
        backups.daily(book, day)
    except BookError as error:
        return f"Every answer is kept, but today's backup could not be made. {error}"
    return ""


def check_ready(pupil: Pupil) -> None:
    """A warm-up needs a set, and something that has been taught."""
    name = pupil.child.name
    if not pupil.cards:
        raise gather.no_set(pupil.child)
    if all(set(pupil.child.taught).isdisjoint(card.skills) for card in pupil.cards):
        first = next(iter(pupil.skills.values()))
        raise Mendable(
            f"Nothing of {name}'s sets is marked as taught yet. When “{first.title}” has been taught: "
            f"review taught {first.id} {word(name)}"
        )


class Kept:
    """What a sitting has kept: each answer, and what it says of the child's liking, in the log and in memory
    by one transaction, stamped with the time of now. The last one can be taken back."""

    def __init__(self, book: Book, outside: Outside, child: Child, day: int) -> None:
        self._book, self._outside, self._child, self._day = book, outside, child, day
        self._rows: list[Event] = []

    def add(self, answer: Answer) -> None:
        from review.core import liking

        rows = [self._draft("answer", answer_body(answer), answer.card)]
        if answer.liked:
            rows.append(self._draft("profile", {"likes": liking.liked_in(answer)}))
        self._rows.append(self._book.record(rows, gather.remember())[0])

    def take_back(self) -> None:
        last = self._rows.pop()
        undo = self._draft("undo", {"device": last.device, "seq": last.seq})
        self._book.record([undo], gather.remember())

    def _draft(self, kind: EventKind, body: Mapping[str, object], card: str = "") -> Draft:
        at = self._outside._replace(now_ms=clock.now_ms())
        return writes.draft(at, self._child, kind, body, self._day, card)


# --- the front door ---------------------------------------------------------------------------------


def front_door(outside: Outside) -> "list[Today]":
    with gather.reading(outside) as book:
        return [today_of(book, child, gather.sitting_day(outside, child)) for child in gather.family_of(book)]


def today_of(book: Book, child: Child, day: int) -> "Today":
    from review.replies import Today  # no child waits for it

    child = gather.child_on(book, child, day)
    sitting = sitting_of(book, child, day)
    state = as_it_stands(book, child, family.sitting_plan(sitting), day) if sitting else None
    mine = {skill.id for found in catalogue.chosen_sets(child.sets) for skill in found.skills}
    return Today(
        child,
        (state is not None and state.ended) or was_done_besides(book, child, day),
        len(child.sets),
        len(mine & set(child.taught)),
        state is not None and state.tally.offered > 0,
        family.away_until(child, day),
    )


def was_done_besides(book: Book, child: Child, day: int) -> bool:
    """Whether the day is done by a gentle sitting, also one that was stopped, since none is gone on with, or
    by a sheet. A warm-up that was begun after either still waits for its end."""
    rows = [row for row in answers_on(book, child, day) if counts_for_the_day(row)]
    if rows and is_of_warmup(rows[-1]):
        return False
    return bool(rows) or was_on_paper(book, child, day)


def counts_for_the_day(row: Event) -> bool:
    """Whether an answer is one that a day may be done with: a few more of one kind, and a placement, are
    none."""
    return row.body.get("sitting", "") in ("", "gentle") and row.body.get("role") != "probe"


def was_on_paper(book: Book, child: Child, day: int) -> bool:
    """Whether marks of a sheet were entered for that day, and stand."""
    rows = book.events(child=child.key, kinds=("sitting", "undo"), since_day=day)
    return any(row.day == day and sheets.is_entered(row) for row in amended(rows))
