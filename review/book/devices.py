"""Which device writes: a random number for each book and place, kept in the user's state folder.

Two copies of a book must never number their rows from the same device, or their logs could not be merged.
So the note stands under the book's id and the book's place: a copy elsewhere, or on another computer, finds
no note and takes a new device. An older copy put back in the same place holds fewer rows than the note says,
and takes a new device too.
"""

import json
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from review import files
from review.core.digests import sha256

BITS = 48  # a chance of 1 in 10^11 that two of fifty devices are the same


class Note(NamedTuple):
    device: int
    seq: int  # the last sequence number this device is known to have used


def note_path(state: Path, book_id: str, book: Path) -> Path:
    place = sha256(str(book).encode("utf-8", "surrogateescape")).hexdigest()[:16]
    return state / book_id / f"{place}.json"


def read(path: Path) -> Note | None:
    try:
        device, seq = json.loads(files.read_start(path, 200))
        note = Note(int(device), int(seq))
    except (OSError, ArithmeticError, ValueError, TypeError):
        return None
    return note if 0 < note.device < 1 << BITS else None


def write(path: Path, note: Note, sync: bool = False) -> None:
    """Best effort: without a note the next opening takes a new device, which costs nothing but a number."""
    with suppress(OSError):
        files.private_folder(path.parent)
        files.write_whole(path, json.dumps(note).encode("ascii"), sync)


def mint() -> int:
    import secrets  # only needed on a book's first use in a place

    return secrets.randbelow((1 << BITS) - 1) + 1
