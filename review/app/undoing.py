"""`review undo`: what would be taken back, and taking it back. Nothing is deleted: it is one event more."""

from collections.abc import Sequence

from review import gather, writes
from review.book.store import Book
from review.core import card_names, family, sheets, takeback
from review.core.amendments import What, amended
from review.core.answer_bodies import event_answer
from review.core.model import Card, Child, Event, EventKind
from review.errors import Mendable
from review.gather import Outside
from review.replies import TakenBack


def wanted(outside: Outside, child_name: str | None, what: What, card_name: str | None) -> TakenBack:
    """What would be taken back, or put right, for the parent to look at first."""
    with gather.reading(outside) as book:
        child = gather.child_named(gather.family_of(book), child_name)
        rows, about = rows_of(book, child, what, card_name)
        answers = tuple(event_answer(row) for row in rows if row.kind == "answer")
        return TakenBack(child, what, about, answers, gather.today(outside, child))


def take_back(outside: Outside, looked: TakenBack, card_name: str | None) -> None:
    """Written as one event; memory is what the log then says."""
    with writes.writing(outside) as book:
        child = gather.child_named(gather.family_of(book), looked.child.name)
        day = gather.writing_day(outside, child)
        rows, about = rows_of(book, child, looked.what, card_name)
        if (about.device, about.seq) != (looked.about.device, looked.about.seq):
            raise Mendable("Something was answered meanwhile, so nothing was changed. Look again.")
        kind, body = said(looked.what, rows, about)
        writes.write(book, outside, child, kind, body, day)


def rows_of(book: Book, child: Child, what: What, card_name: str | None) -> tuple[Sequence[Event], Event]:
    """The answers it is about, for a whole sitting on paper also the word that it was entered; and the event
    that stands for them: the first of them, or a taking back."""
    if what == "redo":
        return redone(book, child)
    answers = gather.answers(book, child.key)
    card = card_of(child, card_name, answers)
    rows = takeback.last_sitting(answers) if what == "sitting" and answers else []
    rows = rows or takeback.last_answer(answers, card)
    if not rows:
        raise Mendable(f"There is no answer of {child.name} to take back.")
    if what == "slip":
        rows = rows[:1]
        check_slip(child, rows[0])
    return [*rows, *(entered(book, child, rows[0]) if what == "sitting" else [])], rows[0]


def entered(book: Book, child: Child, row: Event) -> list[Event]:
    """That the marks an answer is of were entered; [] where it is not of paper."""
    number, part = sheets.part_of(row)
    if not (isinstance(number, int) and isinstance(part, int)):
        return []
    rows = book.events(child=child.key, kinds=("sitting", "undo"), since_day=row.day)
    return [one for one in sheets.standing(rows, number, part) if sheets.is_entered(one)]


def redone(book: Book, child: Child) -> tuple[Sequence[Event], Event]:
    """The answers as they count without the last taking back, and that."""
    every = list(book.events(child=child.key))
    last = takeback.last_taken_back(every)
    if last is None:
        raise Mendable(
            f"Nothing of {child.name} has been taken back. Leave out --redo to take back the last answer."
        )
    ids, told = set(takeback.named(last)), amended(row for row in every if row != last)
    return [row for row in told if (row.device, row.seq) in ids], last


def check_slip(child: Child, row: Event) -> None:
    answer = event_answer(row)
    if answer.mark not in ("not_yet", "shown", "void"):
        raise Mendable(f"{child.name}'s last answer counts as right already. Nothing was changed.")


def card_of(child: Child, name: str | None, answers: Sequence[Event]) -> str:
    """The card of an answer, as a parent types it; "" where none is named."""
    if name is None:
        return ""
    asked = {row.card: Card(row.card, "", "", "", "accuracy", 0) for row in answers}
    found = card_names.named(asked.values(), name)
    if not found:
        like = card_names.example([*asked.values()], family.words_of(child)) if asked else ""
        instead = f"Write one that was asked, like {like}." if like else "Nothing was asked yet."
        raise Mendable(f"There is no answer of {child.name} to “{name}”. {instead}")
    return next(row.card for row in reversed(answers) if row.card in {card.key for card in found})


def said(what: What, rows: Sequence[Event], about: Event) -> tuple[EventKind, dict[str, object]]:
    if what == "redo":
        return "undo", takeback.ids_body([about])
    if what == "slip":
        mark = takeback.mark_put_right(event_answer(about))
        return "correct", {**takeback.ids_body(rows), "mark": mark}
    return "undo", takeback.ids_body(rows)
