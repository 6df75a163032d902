"""What `review enter` does: the marks of a sheet into the book, or others in their place."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from review import gather, writes
from review.app import sittings
from review.app.sheet_making import numbered
from review.book.store import Book
from review.core import days, paper_marks, sheets
from review.core.amendments import amended
from review.core.answer_bodies import answer_body
from review.core.family import age_on
from review.core.model import Child, Draft, Event
from review.core.paper_marks import Marked
from review.core.sheets import Made
from review.errors import Mendable
from review.gather import Outside


class Waiting(NamedTuple):
    """A sheet whose marks can be entered."""

    child: Child
    made: Made
    entered: Mapping[int, int]  # parts that are in the book, with the day each was done on
    last: int  # the last day with answers
    today: int


class Entered(NamedTuple):
    made: Made
    part: int
    day: int
    marked: tuple[Marked, ...]
    replaced: bool
    warning: str  # for the parent; "" when all is well


def waiting(outside: Outside, number: int, child_name: str | None) -> Waiting:
    with gather.reading(outside) as book:
        child, made = numbered(book, number, child_name)
        if made.sort not in sheets.WARMUPS:
            raise Mendable(
                f"Sheet {number} is practice: so much of one kind says little of what lasts, "
                "so its marks are not kept. Marks of a warm-up on paper are."
            )
        if not made.parts:  # earlier versions made such sheets
            raise Mendable(f"Sheet {number} asks nothing, so it has no marks.")
        rows = rows_since(book, made)
        entered = sheets.entered_parts(rows, number)
        return Waiting(child, made, entered, last_answered(rows, made, 0), gather.today(outside, child))


def rows_since(book: Book, made: Made) -> list[Event]:
    return list(book.events(child=made.child, since_day=made.day))


def last_answered(rows: Sequence[Event], made: Made, part: int) -> int:
    """The last day with answers, those of that part aside; never before the sheet was made."""
    own = {(event.device, event.seq) for event in sheets.standing(rows, made.number, part)}
    answered = [
        event.day
        for event in amended(rows)
        if event.kind == "answer" and (event.device, event.seq) not in own
    ]
    return max([made.day, *answered])


def day_of(found: Waiting, part: int) -> int:
    """The day a part was most likely done on: the one it is in the book with, else the one it was planned for
    where that can be, else today."""
    planned = found.made.parts[part - 1].day
    likely = planned if found.last <= planned <= found.today else max(found.today, found.last)
    return found.entered.get(part, likely)


def enter(
    outside: Outside, number: int, child_name: str | None, part: int, day: int, marked: Sequence[Marked]
) -> Entered:
    """The marks of one sitting, on the day it was done, in one transaction; what was entered for it before is
    taken back by the same."""
    with writes.writing(outside) as book:
        child, made = numbered(book, number, child_name)
        rows = rows_since(book, made)
        before = sheets.standing(rows, number, part)
        check_day(outside, child, day, before, made, last_answered(rows, made, part))
        drafts = [
            *taken_back(outside, child, before),
            *drafts_of(outside, child, made, part, day, marked),
        ]
        book.record(drafts, gather.remember())
        warning = sittings.after_sitting(book, child, max(day, child.last_day))
    return Entered(made, part, day, tuple(marked), bool(before), warning)


def check_day(
    outside: Outside, child: Child, day: int, before: Sequence[Event], made: Made, last: int
) -> None:
    """Answers come in the order of their days, as everywhere; marks put right may keep the day they had."""
    if before and day == before[0].day:
        return
    if day < last:
        why = (
            f"The sheet was made on {days.words(last)}"
            if last == made.day
            else f"{child.name} has answered on {days.words(last)} since, and answers come day by day"
        )
        raise Mendable(f"{why}. Choose that day or a later one: --on {days.date_of(last)}")
    gather.check_far(outside._replace(on=day), child, day)


def taken_back(outside: Outside, child: Child, before: Sequence[Event]) -> list[Draft]:
    """On the day of what it takes back: it must not stand in the way of sittings entered later."""
    if not before:
        return []
    names = {"rows": [[event.device, event.seq] for event in before]}
    return [writes.draft(outside, child, "undo", names, before[0].day)]


def drafts_of(
    outside: Outside, child: Child, made: Made, part: int, day: int, marked: Sequence[Marked]
) -> list[Draft]:
    answers = paper_marks.answers_of(made, part, marked, age_on(child, day), child.untimed)
    rows = [writes.draft(outside, child, "answer", answer_body(one), day, one.card) for one in answers]
    return [writes.draft(outside, child, "sitting", sheets.entered_body(made.number, part), day), *rows]
