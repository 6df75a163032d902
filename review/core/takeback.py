"""What is taken back of the log, or put right: the last answer, a whole sitting, the last taking back."""

from collections.abc import Iterable, Sequence

from review.core import marking, sheets, skills
from review.core.amendments import amended
from review.core.answer_bodies import event_answer
from review.core.model import Answer, Event, Mark


def last_answer(answers: Sequence[Event], card: str = "") -> list[Event]:
    """The last answer, of a card where one is given, with the copy and the open help that hang on it; []
    where there is none. `answers` are in order, and as they count."""
    heads = [n for n, row in enumerate(answers) if is_head(row) and card in ("", row.card)]
    if not heads:
        return []
    first = heads[-1]
    after = next((n for n in range(first + 1, len(answers)) if is_head(answers[n])), len(answers))
    return list(answers[first:after])


def is_head(row: Event) -> bool:
    """Whether it is an answer of its own: no copy of what was shown, no help on a problem left open."""
    copied = row.body.get("role") == "copy" and row.body.get("sitting") != "copying"
    return not copied and not marking.left_open(event_answer(row))


def last_sitting(answers: Sequence[Event]) -> list[Event]:
    """All answers of the sitting that the last one belongs to."""
    return [row for row in answers if sitting_of(row) == sitting_of(answers[-1])]


def sitting_of(row: Event) -> tuple[object, ...]:
    """The day, the computer, which sort of sitting, and on paper which part of which sheet."""
    sort = "probe" if row.body.get("role") == "probe" else str(row.body.get("sitting", ""))
    return row.day, row.device, sort, *sheets.part_of(row)


def last_taken_back(events: Iterable[Event]) -> Event | None:
    """The last undo of answers, or slip, that stands; events of one child, of any kind."""
    every = list(events)
    answers = {(row.device, row.seq) for row in every if row.kind == "answer"}
    standing = list(amended(every))
    gone = _entered_again(every, standing)
    found = [one for one in standing if _is_ours(one, answers) and gone.isdisjoint(named(one))]
    return found[-1] if found else None


def _entered_again(every: Iterable[Event], standing: Iterable[Event]) -> set[tuple[int, int]]:
    """Marks of a part of a sheet that was entered anew: both would count twice what was done once."""
    newest = {sheets.part_of(one): (one.at_ms, one.seq) for one in standing if sheets.is_entered(one)}
    return {
        (one.device, one.seq)
        for one in every
        if (one.at_ms, one.seq) < newest.get(sheets.part_of(one), (0, 0))
    }


def _is_ours(event: Event, answers: set[tuple[int, int]]) -> bool:
    """Of answers, and not what a placement's result was put right by."""
    if event.kind == "correct":
        return event.body.get("mark") != "not_yet"
    return event.kind == "undo" and not answers.isdisjoint(named(event))


def named(event: Event) -> list[tuple[int, int]]:
    """The ids that an undo or a correction lists."""
    rows = event.body.get("rows", ())
    return [(int(device), int(seq)) for device, seq in rows] if isinstance(rows, list | tuple) else []


def ids_body(rows: Iterable[Event]) -> dict[str, object]:
    """What an undo or a correction says of the rows it names."""
    return {"rows": [[row.device, row.seq] for row in rows]}


def mark_put_right(answer: Answer) -> Mark:
    """The mark of an answer whose only fault was a slip of the keys: help stays help."""
    return marking.mark(
        "right",
        help=answer.help,
        first_ms=0,
        end_ms=0,
        copy_ms=0,
        slow_ms=0,
        suspended=False,
        fact=skills.traits(answer.card).fact,
    )
