"""What an answer says, as the log keeps it: a list in place of a table with a name for each thing. Pure.

    {"f":["6x7","42",10,2043,953,1874,3000]}

The names took two thirds of a body (80 of 124 bytes, measured here). What is listed, in which order, and what
goes without saying is part of the log's format for ever; what is rare keeps its name beside the list.
"""

from collections.abc import Mapping
from itertools import takewhile
from typing import Any

LISTED = ("asked", "given", "age", "copy_ms", "first_ms", "end_ms", "slow_ms")
"""From what every answer says to what few do: a list ends where the first of them is missing."""
TIMED = LISTED.index("slow_ms")

USUAL: Mapping[str, object] = {"mark": "right", "rule": 2}
LISTS: Mapping[str, Mapping[str, object]] = {"f": {**USUAL, "aim": "fluency"}, "a": USUAL}
"""The name of a list -> what goes without saying in such a body."""

WHOLE = ""  # the name of a body that has such a name itself
NAMES = frozenset((*LISTS, WHOLE))
NEEDED = frozenset((LISTED[0], *USUAL))


def packed(kind: str, body: Mapping[str, object]) -> Mapping[str, object]:
    """The body of an event as it is stored. What lacks something that every answer says keeps its names."""
    if kind != "answer" or not isinstance(body, Mapping):
        return body
    if not NAMES.isdisjoint(body):
        return {WHOLE: body}
    if not NEEDED.issubset(body):
        return body
    name = "f" if body.get("aim") == "fluency" else "a"
    listed = tuple(takewhile(body.__contains__, LISTED))
    beside = {key: value for key, value in body.items() if key not in listed}
    said = {key: value for key, value in beside.items() if not is_usual(value, LISTS[name].get(key))}
    return {name: [body[key] for key in listed], **said}


def is_usual(value: object, usual: object) -> bool:
    """2.0 is not 2: it is refused for what it is."""
    return type(value) is type(usual) and value == usual


def unpacked(kind: str, stored: Any) -> Any:
    """The body of an event again. What is not packed, as in rows of older versions, stays as it stands."""
    if kind != "answer":
        return stored
    name = "f" if "f" in stored else "a" if "a" in stored else WHOLE
    inside = stored.get(name)
    if type(inside) is not list:
        return inside if name == WHOLE and isinstance(inside, dict) else stored
    body = named(inside)
    if name == "f":
        body["aim"] = "fluency"
    if len(stored) > 1:
        body.update({key: value for key, value in stored.items() if key != name})
    return body


def named(listed: list[Any]) -> dict[str, Any]:
    """What is listed, by its names, and what is usual. Written out for what is typed and timed, which is most
    of a log: put together name by name, a log took 8% longer to read (measured here)."""
    if len(listed) < TIMED:
        return {**dict(zip(LISTED, listed, strict=False)), **USUAL}
    asked, given, age, copy_ms, first_ms, end_ms, *more = listed
    body = {
        "asked": asked, "given": given, "age": age, "copy_ms": copy_ms, "first_ms": first_ms,
        "end_ms": end_ms, "mark": "right", "rule": 2,
    }  # fmt: skip
    if more:
        body["slow_ms"] = more[0]
    return body
