"""What was taken back, put right, or said of several cards at once, worked into the log's other events."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal

from review.core.model import Event

What = Literal["answer", "sitting", "slip", "redo"]
"""What a parent takes back. answer: the last one, with what hangs on it; sitting: all of the last one; slip:
the last answer was a slip of the keys and counts as right; redo: the last taking back is taken back."""


def amended(events: Iterable[Event]) -> Iterator[Event]:
    """Events of one child, of any kind and in any order, in the total order, as they count.

    Undone rows are gone and corrected answers have their new mark, wherever the event that says so sorts.
    `known` events come one for each card.
    """
    ordered = sorted(events, key=place)
    undone = _undone(ordered)
    marks = _corrected(ordered, undone)
    for event in ordered:
        if _id(event) not in undone:
            yield from _split(_with_mark(event, marks.get(_id(event))))


def place(event: Event) -> tuple[int, int, int, int]:
    """Where an event stands in the one total order."""
    return event.day, event.at_ms, event.device, event.seq


def _id(event: Event) -> tuple[int, int]:
    return event.device, event.seq


def _split(event: Event) -> Iterable[Event]:
    """One event a card: a parent may say of several at once that they are known."""
    named = event.body.get("cards")
    if event.kind != "known" or not isinstance(named, list | tuple):
        return (event,)
    return (event._replace(card=str(card)) for card in named)


def _undone(ordered: Sequence[Event]) -> set[tuple[int, int]]:
    """Ids of rows taken back. The latest undo speaks first, so that an undo can itself be taken back."""
    undone: set[tuple[int, int]] = set()
    for undo in reversed([event for event in ordered if event.kind == "undo"]):
        if _id(undo) not in undone:
            undone.update(_taken_back(undo, ordered))
    return undone


def _taken_back(undo: Event, ordered: Sequence[Event]) -> Iterable[tuple[int, int]]:
    """The one row an undo names by id, or a device's whole sitting of a day as far as it had come by then."""
    if "day" not in undo.body:
        return _named(undo)
    sitting = (undo.body["day"], undo.body.get("device"))
    return [
        _id(event)
        for event in ordered
        if event.kind == "answer" and (event.day, event.device) == sitting and _came_before(event, undo)
    ]


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


def _corrected(ordered: Sequence[Event], undone: set[tuple[int, int]]) -> dict[tuple[int, int], str]:
    """Marks a parent put right, by id of the answer; the last word on an answer counts."""
    return {
        row: str(event.body.get("mark", "right"))
        for event in ordered
        if event.kind == "correct" and _id(event) not in undone
        for row in _named(event)
    }


def _with_mark(event: Event, mark: str | None) -> Event:
    """An answer with a mark put right. A typing slip costs time, so its time goes; right then, it says
    nothing of how quickly it was known, like any slip that was asked once more."""
    if mark is None or event.kind != "answer":
        return event
    slipped = {"slipped": event.body.get("given", "")} if mark.startswith("right") else {}
    return event._replace(body={**event.body, "mark": mark, "first_ms": 0, "end_ms": 0, **slipped})
