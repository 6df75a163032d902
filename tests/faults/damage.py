"""Damage to the book's file, and whether it is noticed.

python -m tests.faults.damage [TIMES]       (default 10,000)
"""

import random
import sys
from collections import Counter
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from review.book import backups, migrations, restoring
from review.core.model import Event
from review.errors import ReviewError
from tests.book.conftest import Place, new_place
from tests.book.tiny import DAY, TINY, answer
from tests.faults.power import scratch

SECTOR, PAGE = 512, migrations.PAGE
Chance = random.Random


def flipped(data: bytearray, chance: Chance) -> bytes:
    data[chance.randrange(len(data))] ^= 1 << chance.randrange(8)
    return bytes(data)


def zeroed(data: bytearray, chance: Chance) -> bytes:
    at = chance.randrange(len(data) // SECTOR) * SECTOR
    data[at : at + SECTOR] = bytes(SECTOR)
    return bytes(data)


def swapped(data: bytearray, chance: Chance) -> bytes:
    one, other = (PAGE * n for n in chance.sample(range(len(data) // PAGE), 2))
    data[one : one + PAGE], data[other : other + PAGE] = data[other : other + PAGE], data[one : one + PAGE]
    return bytes(data)


def cut_off(data: bytearray, chance: Chance) -> bytes:
    return bytes(data[: chance.randrange(len(data))])


def emptied(data: bytearray, chance: Chance) -> bytes:
    return b""


DAMAGES: dict[str, Callable[[bytearray, Chance], bytes]] = {
    "a flipped bit": flipped,
    "a zeroed sector": zeroed,
    "two pages swapped": swapped,
    "cut off": cut_off,
    "emptied": emptied,
}


class Whole(NamedTuple):
    """A book before anything happens to it."""

    place: Place
    data: bytes
    copy: Path  # made half way
    events: tuple[Event, ...]
    copied: int  # how many of them the copy holds


def whole_book(folder: Path) -> Whole:
    place = new_place(folder)
    with place.open() as book:
        book.record([answer(place.child, f"product:{n}x7", n) for n in range(40)], TINY)
        copy = backups.daily(book, DAY)
        assert copy
        book.record([answer(place.child, f"product:{n}x7", n) for n in range(40, 80)], TINY)
        events = tuple(book.events())
    return Whole(place, place.path.read_bytes(), copy, events, 40)


def outcome(whole: Whole) -> str:
    """What comes of opening the file as it is now: "refused", "told" by the proofs, "harmless", or
    "silently other", which must never be."""
    try:
        with whole.place.open(write=False) as book:
            if book.verify(TINY):
                return "told"
            return "harmless" if tuple(book.events()) == whole.events else "silently other"
    except ReviewError:
        return "refused"


def without_proofs(whole: Whole) -> str:
    """The control: what would come of it if only SQLite were asked."""
    import sqlite3

    with suppress(sqlite3.Error):
        db = sqlite3.connect(whole.place.path)
        try:
            fine = db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
            rows = db.execute("SELECT seq, body, hash FROM log ORDER BY seq").fetchall()
        finally:
            db.close()
        same = [seq for seq, _, _ in rows] == [event.seq for event in whole.events]
        return "harmless" if fine and same else "told"
    return "refused"


def way_back(whole: Whole) -> str:
    """Whether the copy, with what the damaged file still proves, is a sound book of true entries."""
    try:
        restoring.restore(whole.place.path, whole.copy, TINY)
    except ReviewError as error:
        return f"failed: {error}"
    with whole.place.open(write=False) as book:
        found, problems = tuple(book.events()), book.verify(TINY)
    sound = not problems and found == whole.events[: len(found)] and len(found) >= whole.copied
    return "sound" if sound else f"not sound: {problems}, {len(found)} entries"


def play(times: Iterable[int], kinds: Iterable[str] = tuple(DAMAGES)) -> Counter[tuple[str, str, str]]:
    """How often each damage ended in which way: (damage, outcome, way back)."""
    found: Counter[tuple[str, str, str]] = Counter()
    with scratch() as folder:
        whole = whole_book(folder)
        for number in times:
            chance = Chance(number)
            kind = chance.choice(list(kinds))
            whole.place.path.write_bytes(DAMAGES[kind](bytearray(whole.data), chance))
            ended = outcome(whole)
            back = way_back(whole) if ended in ("refused", "told") else ""
            found[kind, ended, back] += 1
            tidy(whole)
    return found


def tidy(whole: Whole) -> None:
    for path in whole.place.path.parent.glob("family.book.set-aside-*"):
        path.unlink()


def main() -> None:
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    for (kind, ended, back), count in sorted(play(range(times)).items()):
        print(f"{kind}: {ended}{', then ' + back if back else ''}: {count:,}")


if __name__ == "__main__":
    main()
