"""What makes a record book sound, as questions to a connection. Problems come in words; none: sound."""

import sqlite3
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from review.book import chain, connection, evenings, heads, mornings, recording, rows, seasons
from review.book.heads import Tail
from review.book.recording import Remember
from review.core.digests import sha256
from review.core.model import Remembered

GUARDS = "99d56a509730f7802926e743c04aed80ccb547bff06474ee48778645a35b8181"
FEW = 5  # problems of one sort that are told one by one


def guards(db: sqlite3.Connection) -> str:
    """A print of every trigger: changing a table by copying it drops them without a word."""
    found = db.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' ORDER BY name")
    return sha256("\n".join(f"{name} {sql}" for name, sql in found).encode()).hexdigest()


def check_guards(db: sqlite3.Connection, path: Path) -> None:
    if guards(db) != GUARDS:
        raise connection.damaged(path, "what guards its log against changes is missing")


# --- the file and the log -------------------------------------------------------------------------------


def log_problems(db: sqlite3.Connection) -> list[str]:
    """Everything that can be said without knowing what the answers mean: the file, and the chain."""
    return [problem for question in LOG for problem in asked(question, db)]


def asked(question: Callable[[sqlite3.Connection], Iterable[str]], db: sqlite3.Connection) -> list[str]:
    """The first few problems; a file that cannot even be read that far is one."""
    try:
        found = list(question(db))
    except (sqlite3.Error, ValueError, TypeError, KeyError, AttributeError) as error:
        if isinstance(error, sqlite3.Error) and connection.code_of(error) in connection.BUSY:
            raise
        return [f"The file is damaged ({error})."]
    more = [f"There are {len(found) - FEW} more problems of this sort."] if len(found) > FEW else []
    return [*found[:FEW], *more]


def page_problems(db: sqlite3.Connection) -> Iterator[str]:
    for (text,) in db.execute("PRAGMA integrity_check(20)"):
        if text != "ok":  # its first line names the database, which has no other
            first, _, _ = text.removeprefix("*** in database main ***").strip().partition("\n")
            yield f"The file is damaged ({first})."


def reference_problems(db: sqlite3.Connection) -> Iterator[str]:
    for table, *_ in db.execute("PRAGMA foreign_key_check"):
        yield f"A row of the table {table} refers to something that is not there."


def guard_problems(db: sqlite3.Connection) -> Iterator[str]:
    if guards(db) != GUARDS:
        yield "What guards the log against changes is missing."
    if db.execute("SELECT 1 FROM forgetting").fetchone():
        yield "A child was being forgotten, and that was not finished."


def chain_problems(db: sqlite3.Connection) -> Iterator[str]:
    for row, problem in chain.breaks(rows.log_rows(db)):
        yield f"Entry {row.device}-{row.seq} of the log {problem}."


def number_problems(db: sqlite3.Connection) -> Iterator[str]:
    late = db.execute("SELECT id FROM device WHERE next <= (SELECT max(seq) FROM log WHERE device = id)")
    for (device,) in late:
        yield f"The next number of device {device} is taken already."


def tail_problems(db: sqlite3.Connection) -> Iterator[str]:
    """The cached end of each chain against the log: a wrong one would start a second branch."""
    cached = {(child, device): tuple(tip) for child, device, *tip in db.execute(f"SELECT {TAIL} FROM tail")}
    if cached != tails(db):
        yield "What the book notes as its last entries is not what the log ends with."


def tails(db: sqlite3.Connection) -> dict[tuple[int, int], tuple[int, int, bytes]]:
    children = [child for (child,) in db.execute("SELECT id FROM child")]
    ends = [(child, *end) for child in children for end in recording.ends_of(db, child)]
    latest = {child: recording.floors_of(db, child) for child in {child for child, *_ in ends}}
    return {(child, device): (seq, latest[child][device], hash) for child, device, seq, hash in ends}


TAIL = "child, device, seq, at_ms, hash"
LOG = (page_problems, reference_problems, guard_problems, chain_problems, number_problems, tail_problems)


# --- beside the log -------------------------------------------------------------------------------------


def current_tails(db: sqlite3.Connection) -> list[Tail]:
    """As the book says them itself; what damage made of a key or a hash is no other's."""
    said = "lower(hex(child.key)), device, seq, lower(hex(hash))"
    return [Tail(*row) for row in db.execute(f"SELECT {said} FROM tail JOIN child ON child.id = tail.child")]


def lost_tails(db: sqlite3.Connection, head: Iterable[Tail]) -> tuple[Tail, ...]:
    """The ends of chains that the head file knows and the book does not; a forgotten child's are not lost."""
    forgotten = {key.hex() for (key,) in db.execute("SELECT key FROM child WHERE forgotten = 1")}
    mine = [tail for tail in head if tail.child not in forgotten]
    return heads.ahead(mine, lambda device, seq: hash_of(db, device, seq))


def hash_of(db: sqlite3.Connection, device: int, seq: int) -> bytes | None:
    """The hash of a row as it is stored; None where there is none."""
    found = db.execute("SELECT hash FROM log WHERE device = ? AND seq = ?", (device, seq)).fetchone()
    return found[0] if found else None


def head_problems(db: sqlite3.Connection, head: Iterable[Tail]) -> Iterator[str]:
    for tail in lost_tails(db, head):
        yield (
            f"Entry {tail.device}-{tail.seq} was written and is not in the log: "
            "an older copy was put back, or the end of the log is lost."
        )


def memory_problems(db: sqlite3.Connection, remember: Remember) -> Iterator[str]:
    """The cached memory against a fold of the whole log, bit for bit. A cache of another version is none."""
    for number, key in rows.children(db).items():
        if rows.memory_version(db, number) != remember.version:
            continue
        cached, kept, until = kept_until(db, number)
        *then, now = recording.staged(db, key, remember, kept, until)
        fresh = rows.bodies(now)
        for card in sorted(cached.keys() | fresh.keys()):
            if cached.get(card) != fresh.get(card):
                what = f"of the card {card}" if card else "of all cards together"
                yield f"What is kept in memory {what} is not what the log says."
        for season, known in zip(kept, then, strict=True):
            if kept[season] != known:
                yield "What is kept in memory of a season that began is not what the log says."


def kept_until(
    db: sqlite3.Connection, number: int
) -> tuple[dict[str, str], dict[int, Remembered | None], dict[int, int]]:
    """The cached memory of a child, now and as seasons began, and how far each device had come then: others
    may go on writing."""
    others = (mornings.OF_MORNINGS, seasons.OF_SEASONS, evenings.OF_EVENINGS)
    of_now = " AND ".join(f"NOT ({some})" for some in others)
    db.execute("BEGIN")
    try:
        cached = dict(db.execute(f"SELECT card, body FROM memory WHERE child = ? AND {of_now}", (number,)))
        kept = {season: seasons.found(db, number, season) for season in seasons.known(db, number)}
        return cached, kept, dict(db.execute("SELECT id, next FROM device"))
    finally:
        db.execute("ROLLBACK")
