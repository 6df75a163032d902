"""What was taken back, put right, or said of several cards at once, worked into the log's other events."""

from collections.abc import Iterable, Iterator
from typing import Literal, NamedTuple

from review.core.model import Event, EventKind, Place

What = Literal["answer", "sitting", "slip", "redo"]
"""What a parent takes back. answer: the last one, with what hangs on it; sitting: all of the last one; slip:
the last answer was a slip of the keys and counts as right; redo: the last taking back is taken back."""


def amended(events: Iterable[Event]) -> Iterator[Event]:
    """Events of one child, of any kind and in any order, in the total order, as they count.

    Undone rows are gone and corrected answers have their new mark, wherever the event that says so sorts.
    `known` events come one for each card.
    """
    ordered = sorted(events, key=place)
    return as_they_count(ordered, ordered)


def as_they_count(naming: Iterable[Event], ordered: Iterable[Event]) -> Iterator[Event]:
    """The same of events in the total order, each looked at once, so that a log need not be held whole.
    `naming`: all that speaks of other rows, in its order."""
    undone, marks = _undone_and_marks(list(naming))
    is_any_undone = bool(undone.ids or undone.sittings)
    for event in ordered:
        if is_any_undone and undone.has(event):
            continue
        told = _with_mark(event, marks[_id(event)]) if marks and _id(event) in marks else event
        if told.kind == "known":
            yield from _split(told)
        else:
            yield told


def not_undone(events: Iterable[Event], kind: EventKind) -> list[Event]:
    """The events of a kind that were not taken back, as they were written: one of several cards is one."""
    rows = list(events)
    left = {_id(event) for event in amended(rows)}
    return [event for event in rows if event.kind == kind and _id(event) in left]


def cards_of(event: Event) -> tuple[str, ...]:
    """The cards that one `known` event names."""
    return tuple(one.card for one in _split(event) if one.card)


class Undone(NamedTuple):
    """What was taken back."""

    ids: set[tuple[int, int]]
    sittings: dict[tuple[int, int], list[Event]]  # by day and device of the answers: the undos

    def has(self, event: Event) -> bool:
        if _id(event) in self.ids:
            return True
        if not self.sittings or event.kind != "answer":
            return False
        undos = self.sittings.get((event.day, event.device), ())
        return any(_came_before(event, undo) for undo in undos)


def place(event: Event) -> Place:
    """Where an event stands in the one total order."""
    return event.day, event.at_ms, event.device, event.seq


def _id(event: Event) -> tuple[int, int]:
    return event.device, event.seq


def _split(event: Event) -> Iterable[Event]:
    """One event a card: a parent may say of several at once that they are known."""
    named = event.body.get("cards")
    if not isinstance(named, list | tuple):
        return (event,)
    return (event._replace(card=str(card)) for card in named)


def _undone_and_marks(naming: list[Event]) -> tuple[Undone, dict[tuple[int, int], str]]:
    undone = _undone(event for event in reversed(naming) if event.kind == "undo")
    return undone, _corrected(naming, undone)


def _undone(undos: Iterable[Event]) -> Undone:
    """The latest undo speaks first, so that an undo can itself be taken back: the one row it names by id, or
    a device's whole sitting of a day as far as it had come by then."""
    undone = Undone(set(), {})
    for undo in undos:
        if undone.has(undo):
            continue
        day, device = undo.body.get("day"), undo.body.get("device")
        if "day" not in undo.body:
            undone.ids.update(_named(undo))
        elif isinstance(day, int) and isinstance(device, int):
            undone.sittings.setdefault((day, device), []).append(undo)
    return undone


def _came_before(event: Event, undo: Event) -> bool:
    if event.device == undo.device:
        return event.seq < undo.seq
    return event.at_ms <= undo.at_ms


def _named(event: Event) -> list[tuple[int, int]]:
    """The ids an event is about: `device` and `seq`, or `rows`, a list of such pairs."""
    one = [(event.body.get("device"), event.body.get("seq"))]
    many = event.body.get("rows")
    pairs = many if isinstance(many, list | tuple) else one
    return [(d, n) for d, n in pairs if isinstance(d, int) and isinstance(n, int)]


def _corrected(naming: Iterable[Event], undone: Undone) -> dict[tuple[int, int], str]:
    """Marks a parent put right, by id of the answer; the last word on an answer counts."""
    return {
        row: str(event.body.get("mark", "right"))
        for event in naming
        if event.kind == "correct" and not undone.has(event)
        for row in _named(event)
    }


def _with_mark(event: Event, mark: str) -> Event:
    """An answer with a mark put right. A typing slip costs time, so its time goes; right then, it says
    nothing of how quickly it was known, like any slip that was asked once more."""
    if event.kind != "answer":
        return event
    slipped = {"slipped": event.body.get("given", "")} if mark.startswith("right") else {}
    return event._replace(body={**event.body, "mark": mark, "first_ms": 0, "end_ms": 0, **slipped})
