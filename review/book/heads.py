"""The head file beside the book: the last row of every chain, as of the last commit.

It is written after the commit, so it may be behind; when it is ahead, the book has lost its tail: an older
copy was put back, or the last rows went missing. Nothing inside the book can notice that by itself.
"""

import json
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from review import files

CAP = 4_000_000  # bytes; a tail takes 130


class Tail(NamedTuple):
    """The last row of one chain."""

    child: str  # hex of the child's key
    device: int
    seq: int
    hash: str  # hex


def head_path(book: Path) -> Path:
    return book.with_name(f"{book.name}.head")


def read(book: Path, book_id: str) -> tuple[Tail, ...]:
    """The tails the head file names; none where it is absent, unreadable, or another book's."""
    try:
        found = json.loads(files.read_start(head_path(book), CAP))
        if found["book"] != book_id:
            return ()
        return tuple(Tail(str(c), int(d), int(s), str(h)) for c, d, s, h in found["tails"])
    except (OSError, ArithmeticError, ValueError, KeyError, TypeError, RecursionError):
        return ()


def write(book: Path, book_id: str, tails: Iterable[Tail]) -> None:
    """Best effort: a head file that is behind says nothing false."""
    text = json.dumps({"book": book_id, "tails": sorted(tails)}, separators=(",", ":"))
    with suppress(OSError):
        files.write_whole(head_path(book), text.encode("ascii"))


def ahead(tails: Iterable[Tail], hash_of: Callable[[int, int], bytes | None]) -> tuple[Tail, ...]:
    """The tails the book does not hold, given the stored hash of the row (device, seq)."""
    return tuple(
        tail
        for tail in tails
        if (found := hash_of(tail.device, tail.seq)) is None or found.hex() != tail.hash
    )
