"""The record of days as a page."""

from collections.abc import Iterator, Sequence

from review.core import days
from review.core.diary import Day, Diary
from review.core.text import ended
from review.render.diary import RECORD, beside_words, notes_words, samples_words, skill_words, whole_words
from review.render.lines import spent
from review.render.page import Html, Table, page, table, tag, together
from review.render.progress_lines import helped_words, span

HEADS = ("day", "time", "problems", "first tries right", "what was practised and noted")


def record_page(found: Sequence[Diary]) -> str:
    names = ", ".join(one.child for one in found)
    subject = next((one.subject for one in found), "maths")
    title = f"Record of {subject} practice: {names}"
    return page(
        title,
        tag("h1", title),
        *(section(one, alone=len(found) == 1) for one in found),
        tag("p", RECORD, class_="note"),
    )


def section(found: Diary, *, alone: bool) -> Html:
    """The part of a page that is one child's. `alone`: there is no other, so that the name stands in the
    heading of the page already."""
    return tag(
        "section",
        *([] if alone else [tag("h2", found.child)]),
        tag("p", span(found.since, found.until)),
        tag("p", whole_words(found)),
        table(Table("Day by day", HEADS, list(page_rows(found)), stacks=True)) if found.days else None,
    )


def page_rows(found: Diary) -> Iterator[tuple[str, ...]]:
    for day in found.days:
        right = right_words(day) if day.tally.tries else ""
        beside = f" ({beside_words(day)})" if day.gentle or day.extra else ""
        problems = f"{day.problems}{beside}" if day.problems else ""
        yield days.full_words(day.day), spent(day.ms, day.taken), problems, right, told(day)


def right_words(day: Day) -> str:
    right, helped = f"{day.tally.right} of {day.tally.tries}", helped_words(day.tally)
    return f"{right}, {helped}" if helped else right


def told(day: Day) -> Html:
    """What was practised, a few problems of it, and what a parent noted: a line each."""
    samples = f"Such as {samples_words(day)}" if day.samples else ""
    lines = (skill_words(day), samples, notes_words(day))
    return together(tag("div", ended(line)) for line in lines if line)
