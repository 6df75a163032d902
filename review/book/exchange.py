"""A whole log as lines of JSON, and back: lossless, readable, and proved by its last line.

The first line says what the file is and which devices and children it speaks of; then comes a line for each
row of the log, in the order of its id; the last line counts the rows and holds the SHA-256 of all the bytes
before it. Whoever changes a row by hand breaks its hash, and the file is refused.
"""

import json
from collections.abc import Iterable, Iterator, Mapping
from hashlib import sha256
from typing import Any

from review.book import chain, connection
from review.book.chain import Row
from review.book.union import Log
from review.core import family
from review.core.model import Child, Event
from review.core.text import plural
from review.errors import Mendable
from review.shell import word

FORMAT, VERSION = "review log", 3  # rows may be those of one version of the schema more: 3 has the fourth's
AGAIN = "Export it again from the book it came from."
FIELDS = Row._fields[:10]


def lines(log: Log) -> Iterator[bytes]:
    """The file, line by line."""
    seen, head = sha256(), {"format": FORMAT, "version": VERSION, "book": log.book}
    table = {**head, "devices": log.devices, "children": log.children}
    for line in (_line(table), *map(_row_line, log.rows)):
        seen.update(line)
        yield line
    yield _line({"rows": len(log.rows), "sha256": seen.hexdigest()})


def log_of(found: Iterable[bytes], name: str) -> Log:
    """The log in a file of that name. Mendable, in a sentence, where it is none, or not whole."""
    seen, numbered = sha256(), enumerate(found, 1)
    head = _head(next(numbered, (1, b""))[1], seen, name)
    rows: list[Row] = []
    for number, line in numbered:
        body = _json(line, number, name)
        if "sha256" in body:
            _check_end(body, seen.hexdigest(), len(rows), number, name)
            return head._replace(rows=tuple(rows))
        seen.update(line)
        rows.append(_row(body, number, name))
    raise Mendable(f"{name} ends after {plural(len(rows), 'entry')}: it was cut off. {AGAIN}")


def _line(table: Mapping[str, object]) -> bytes:
    return json.dumps(table, separators=(",", ":")).encode("ascii") + b"\n"


def _row_line(row: Row) -> bytes:
    told = dict(zip(FIELDS, row[:10], strict=True))
    ends = {"previous": row.previous.hex(), "hash": row.hash.hex()}
    return _line({**told, "body": json.loads(row.body), **ends})


def _json(line: bytes, number: int, name: str) -> Any:
    try:
        body = json.loads(line)
    except (ValueError, RecursionError):
        body = None
    if not isinstance(body, dict):
        raise Mendable(f"{name}, line {number}: this is no entry; the file was changed or cut off. {AGAIN}")
    return body


def _head(line: bytes, seen: Any, name: str) -> Log:
    if line.startswith(connection.MAGIC):
        raise Mendable(
            f"{name} is a record book, not an exported file. "
            f"If it is a copy of your book: review merge {word(name)}"
        )
    try:
        head = json.loads(line)
        if head["format"] != FORMAT:
            raise ValueError
        version = int(head["version"])
    except (ArithmeticError, ValueError, KeyError, TypeError, RecursionError) as error:
        raise Mendable(f"{name} is no exported book; choose another file.") from error
    if version > VERSION:
        raise Mendable(f"{name} was written by a newer version of review; install that version to import it.")
    seen.update(line)
    try:
        devices = tuple((int(device), int(following)) for device, following in head["devices"])
        children = tuple((bytes.fromhex(key).hex(), bool(gone)) for key, gone in head["children"])
        return Log(bytes.fromhex(head["book"]).hex(), devices, children, ())
    except (ArithmeticError, ValueError, KeyError, TypeError) as error:
        raise Mendable(f"{name}, line 1: the file was changed. {AGAIN}") from error


def _row(body: Mapping[str, Any], number: int, name: str) -> Row:
    """The row of a line, with its own hash proved."""
    try:
        fields = [body[field] for field in FIELDS[:-1]]
        hashes = bytes.fromhex(body["previous"]), bytes.fromhex(body["hash"])
        row = Row._make((*fields, chain.canonical(body["body"]), *hashes))
        sound = chain.holds(row)
    except (ArithmeticError, KeyError, TypeError, ValueError, RecursionError):
        sound = False
    if not sound:
        raise Mendable(f"{name}, line {number}: this entry was changed after it was written. {AGAIN}")
    return row


def _check_end(end: Mapping[str, Any], seen: str, rows: int, number: int, name: str) -> None:
    if end.get("sha256") != seen or end.get("rows") != rows:
        raise Mendable(f"{name}, line {number}: entries are missing or were changed. {AGAIN}")


def children(log: Log) -> tuple[Child, ...]:
    """The children a log speaks of, by its own events."""
    gone = {key for key, forgotten in log.children if forgotten}
    wanted = (row for row in log.rows if row.kind in ("profile", "undo") and row.child not in gone)
    return family.children(Event._make((*row[:9], json.loads(row.body))) for row in wanted)
