"""A log from elsewhere: whether the book and every reader of it can use what it holds.

Hashes prove that nothing was changed since it was written; whoever writes such a file anew can make them all.
"""

import json
from collections.abc import Callable, Iterator
from itertools import pairwise

from review import catalogue
from review.book import rows
from review.book.chain import Row
from review.book.union import Log
from review.core import bodies, days
from review.core.model import Event
from review.errors import SetMistakes

DEVICES = range(1, bodies.DEVICES)
NEXT = range(1, 1 << 62)
MINUTES = range(-1439, 1440)  # of an offset: less than a day
INSTANTS = range(253_402_300_800_000)  # milliseconds from 1970 to the end of the year 9999
LONGEST = 1_000_000  # characters of a body, as the book's schema has it
KEY = 32  # hexadecimal digits of a child's key


def problem(log: Log) -> str:
    """The first thing that cannot be used, in words; "": nothing."""
    return next(problems(log), "")


def problems(log: Log) -> Iterator[str]:
    known = {key for key, _ in log.children}
    devices = dict(log.devices)
    if len(known) < len(log.children) or not all(len(key) == KEY for key in known):
        yield "its list of children"
    if len(devices) < len(log.devices) or not all(
        type(device) is int and device in DEVICES and following in NEXT for device, following in log.devices
    ):
        yield "its list of devices"
    for number, row in enumerate(log.rows, 1):
        if found := amiss(row) or ("" if row.child in known and row.device in devices else "child"):
            yield f"the {found} of its entry {number:,}"
    for number, (row, following) in enumerate(pairwise(log.rows), 2):  # chains are proved in this order
        if row[:2] >= following[:2]:
            yield f"the place of its entry {number:,}"
    yield from unknown_sets(log)


def amiss(row: Row) -> str:
    """What of a row could not be used, by its name; "": nothing."""
    found = next((name for name, fits in FITS if not fits(row)), "")
    if found:
        return found
    event = rows.event_of(row)
    return bodies.amiss(event) or own_set(event)


Fits = Callable[[Row], bool]
FITS: tuple[tuple[str, Fits], ...] = (
    ("device", lambda row: is_in(row.device, DEVICES)),
    ("seq", lambda row: is_in(row.seq, NEXT)),
    ("day", lambda row: is_in(row.day, range(1, days.LAST_DAY + 1))),
    ("raw_ms", lambda row: is_in(row.raw_ms, INSTANTS)),
    ("at_ms", lambda row: is_in(row.at_ms, INSTANTS) and row.at_ms >= row.raw_ms),
    ("offset_min", lambda row: is_in(row.offset_min, MINUTES)),
    ("child", lambda row: isinstance(row.child, str)),
    ("kind", lambda row: isinstance(row.kind, str)),
    ("card", lambda row: isinstance(row.card, str) and (row.card != "" or row.kind != "answer")),
    ("body", lambda row: len(row.body) <= LONGEST),
)


def is_in(value: object, span: range) -> bool:
    return type(value) is int and value in span


def unknown_sets(log: Log) -> Iterator[str]:
    """Sets of a later version's catalogue that a child has: every start would ask for them."""
    shipped = frozenset(catalogue.names())
    said = [(row, json.loads(row.body)) for row in log.rows if row.kind in ("set_add", "set_drop")]
    dropped = {(row.child, body["set"]) for row, body in said if row.kind == "set_drop"}
    for row, body in said:
        if not body.get("text") and body["set"] not in shipped and (row.child, body["set"]) not in dropped:
            yield f"the skill set {body['set']}"


def own_set(event: Event) -> str:
    """The text of a parent's own set is read at every start: one that cannot be would stop them all."""
    text = event.body.get("text") if event.kind == "set_add" else ""
    try:
        return "" if not text or catalogue.checked(str(text), "").id == event.body["set"] else "set"
    except SetMistakes:
        return "text"
