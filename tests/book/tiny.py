"""A stand-in for the room that remembers: small, pure, and sensitive to order, so that a slip shows."""

from collections.abc import Iterable, Sequence
from typing import Any

from review.book.store import Remember
from review.core.model import CardMemory, Draft, Event, EventKind, Habits, Remembered

DAY = 738_001  # 30 July 2021; any day will do
START = 1_627_639_200_000  # 10:00 UTC that day
LIFETIME = 36_500  # days: thousands of right answers to one card must not grow past all numbers


def follow(ways: Habits, memory: CardMemory | None, event: Event) -> tuple[Habits, CardMemory]:
    """Every answer moves the habits, and they move it."""
    moved = ways._replace(weights=(round(sum(ways.weights) * 0.9 + event.day % 7, 6),), at=order(event))
    if event.kind == "known":
        return moved, (memory or CardMemory(event.card))._replace(known=True, at=order(event))
    return moved, step(memory, event)._replace(passed_ms=round(1000 * sum(ways.weights)))


def step(memory: CardMemory | None, event: Event) -> CardMemory:
    before = memory or CardMemory(event.card, met_day=event.day)
    right = event.body["mark"] == "right"
    return before._replace(
        stability=round(
            ((before.stability or 0.7) * (1.3 if right else 0.6) + event.at_ms % 1000 / 7) % LIFETIME, 6
        ),
        last_day=event.day,
        tries=before.tries + 1,
        right=before.right + right,
        orders=((str(event.body["asked"]), before.tries + 1, 0),),
        last_mark=str(event.body["mark"]),
        at=order(event),
    )


def remembered(events: Iterable[Event]) -> Remembered:
    return remembered_on(Remembered({}, Habits()), events)


def remembered_on(start: Remembered, events: Iterable[Event]) -> Remembered:
    rows = sorted(events, key=order)
    gone = taken_back(rows)
    cards, ways = dict(start.cards), start.habits
    for row in rows:
        if (row.device, row.seq) not in gone and order(row) > start.habits.at:
            for card in [row.card] if row.kind == "answer" else known(row):
                ways, cards[card] = follow(ways, cards.get(card), row._replace(card=card))
    return Remembered(cards, ways)


def fold(events: Iterable[Event]) -> dict[str, CardMemory]:
    return dict(remembered(events).cards)


def known(row: Event) -> list[str]:
    cards: Any = row.body.get("cards", [row.card])
    return list(cards) if row.kind == "known" else []


def taken_back(rows: Sequence[Event]) -> set[tuple[int, int]]:
    gone: set[tuple[int, int]] = set()
    for undo in reversed([row for row in rows if row.kind == "undo"]):
        if (undo.device, undo.seq) not in gone:
            gone |= {(row.device, row.seq) for row in rows if names(undo, row)}
    return gone


def names(undo: Event, row: Event) -> bool:
    body: Any = undo.body
    if "day" in body:
        before = row.seq < undo.seq if row.device == undo.device else row.at_ms <= undo.at_ms
        return row.kind == "answer" and (row.day, row.device) == (body["day"], body["device"]) and before
    return [row.device, row.seq] in body.get("rows", [[body.get("device"), body.get("seq")]])


def order(event: Event) -> tuple[int, int, int, int]:
    return (event.day, event.at_ms, event.device, event.seq)


def whole(naming: Iterable[Event], events: Iterable[Event]) -> Remembered:
    known = {(event.device, event.seq): event for event in (*naming, *events)}
    return remembered(sorted(known.values(), key=order))


TINY = Remember("tiny 1", follow, whole, remembered_on)


class Watched:
    """A Remember that counts what is asked of it."""

    def __init__(self, version: str = "tiny 1") -> None:
        self.steps = 0
        self.folded: list[int] = []
        self.today: list[int] = []
        self.remember = Remember(version, self.step, self.fold, self.on)

    def step(self, ways: Habits, memory: CardMemory | None, row: Event) -> tuple[Habits, CardMemory]:
        self.steps += 1
        return TINY.step(ways, memory, row)

    def fold(self, naming: Iterable[Event], events: Iterable[Event]) -> Remembered:
        found = list(events)
        self.folded.append(len(found))
        return TINY.fold(naming, found)

    def on(self, start: Remembered, events: Iterable[Event]) -> Remembered:
        found = list(events)
        self.today.append(len(found))
        return TINY.on(start, found)


def answer(child: str, card: str = "product:6x7", ms: int = 0, mark: str = "right", day: int = 0) -> Draft:
    """An answer `ms` after the start, `day` days on."""
    asked = card.partition(":")[2]
    said = {"asked": asked, "expected": "42", "given": "42", "mark": mark, "first_ms": 900, "end_ms": 2100}
    body = {**said, "age": 9, "copy_ms": 1900, "rule": 2}
    return Draft(child, "answer", DAY + day, START + ms, 60, card, body)


def event(child: str, kind: EventKind, body: dict[str, object], ms: int = 0, card: str = "") -> Draft:
    return Draft(child, kind, DAY, START + ms, 60, card, body)


def undo(child: str, row: Event, ms: int = 0) -> Draft:
    return event(child, "undo", {"device": row.device, "seq": row.seq}, ms)


def values(events: Iterable[Event], name: str) -> Sequence[object]:
    return [getattr(row, name) for row in events]
