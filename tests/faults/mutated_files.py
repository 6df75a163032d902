"""What is brought into the book with something amiss: taken and of use, or refused in a sentence.

python -m tests.faults.mutated_files [TIMES]       (default 4,000 of each)

An export is changed by bytes, by signs, in its order; and *forged*: any value of a row is changed, and all
hashes after it are made anew, so that no proof is left that could refuse it. What is taken is then looked at
by every report. Lines of other programs, marks, lists beside sets and files that are no books likewise.
"""

import json
import random
import re
import shutil
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from hashlib import sha256
from multiprocessing import get_context
from pathlib import Path
from typing import Any, NamedTuple

from review.book import chain
from review.book.chain import Row
from review.book.exchange import FIELDS
from tests.cli.surroundings import ALL, Done, faults, within
from tests.faults import mutations
from tests.faults.mutated_sets import Hung, no_longer_than
from tests.faults.mutations import Chance
from tests.faults.power import scratch

DAY = "2026-01-09"
HANGS = 60  # seconds of one file with all that is done to it: a guard, no goal
BATCH = 100
LONGEST = 700  # characters of a refusal

Call = Callable[..., Done]

FAMILY: Sequence[tuple[tuple[str, ...], str]] = (
    (("child", "add", "Orla", "--age", "7", "--on", "2026-01-05"), ""),
    (("child", "add", "Fenn", "--age", "10", "--minutes", "4", "--on", "2026-01-05"), ""),
    (("set", "add", "addition-facts-10", "Orla", "--taught", "--on", "2026-01-05"), ""),
    (("set", "add", "times-2-5-10", "Fenn", "--taught", "--on", "2026-01-05"), ""),
    (("set", "add", "mental-sums-to-99", "Fenn", "--taught", "--on", "2026-01-05"), ""),
    (("warmup", "Fenn", "--on", "2026-01-05"), "\n12\n\n20\n7\n?\n14\npass\n" + "8\n" * 20),
    (("warmup", "Orla", "--jsonl", "--on", "2026-01-05"), '{"answer":"7","seconds":3.2}\n' * 12),
    (("warmup", "Fenn", "--on", "2026-01-06"), "10\n" * 12 + "stop\n"),
    (("undo", "Fenn", "--yes", "--on", "2026-01-06"), ""),
    (("known", "--card", "product:2x2", "Fenn", "--on", "2026-01-06"), ""),
    (("away", "--from", "2026-02-01", "--to", "2026-02-07", "Fenn", "--on", "2026-01-06"), ""),
    (("set", "add", "ours.toml", "Orla", "--taught", "--on", "2026-01-06"), ""),
    (("warmup", "Orla", "--on", "2026-01-07"), "5\n" * 10),
    (("sheet", "--week", "Fenn", "--out", "week.html", "--on", "2026-01-07"), ""),
    (("enter", "", "--day", "1", "--marks", "1. 2o", "Fenn", "--on", "2026-01-07"), ""),
    (("fit", "Fenn", "--default", "--on", "2026-01-07"), ""),
    (("child", "edit", "Orla", "--minutes", "6", "--on", "2026-01-07"), ""),
)  # fmt: skip

OWN_SET = """\
[set]
id = "lighthouse"
title = "The lighthouse"
aim = "accuracy"
ages = [6, 9]

[[skill]]
id = "steps"
title = "Steps"
kind = "pairs"
pairs = [["steps to the lamp", "40"], ["lamps", "1"]]
"""

LOOKS: Sequence[tuple[str, ...]] = (
    (),
    ("child", "list"),
    ("child", "show", "Fenn"),
    ("overdue", "--all"),
    ("overdue", "--json"),
    ("stuck",),
    ("progress",),
    ("misses",),
    ("teach",),
    ("brief",),
    ("log",),
    ("set", "list"),
    ("warmup", "Fenn"),
    ("warmup", "Orla"),
    ("sheet", "--week", "Fenn", "--out", "other.html"),
    ("export", "again.jsonl"),
    ("verify",),
)
"""What a family does afterwards."""


class Fault(NamedTuple):
    number: int
    what: str
    how: str


class Seen(NamedTuple):
    counts: Counter[tuple[str, str]]
    faults: tuple[Fault, ...]


@contextmanager
def at(folder: Path) -> Iterator[Call]:
    """Commands in that folder, with a book and a state of its own."""
    env = {"XDG_STATE_HOME": str(folder / "state"), "XDG_DATA_HOME": str(folder / "data")}
    with within(ALL["usual"]._replace(env=env), folder) as call:
        yield call


def prepare(folder: Path) -> None:
    """A book of a family in which nearly every kind of row stands, a copy of it and its export."""
    folder.mkdir(exist_ok=True)
    (folder / "ours.toml").write_text(OWN_SET, encoding="utf-8")
    with at(folder) as call:
        number = ""
        for words, typed in FAMILY:
            done = call([word or number for word in words], typed=typed)
            assert done.code == 0, (words, done)
            number = number_of(done.out.decode()) or number
        for words in (("export", "all.jsonl"), ("backup", "copy.book")):
            assert call(words).code == 0
    (folder / "sheet").write_text(number)


def number_of(text: str) -> str:
    """Of the sheet a command has made; "" where it made none."""
    found = re.search(r"review enter (\d+)", text)
    return found[1] if found else ""


def said(done: Done, codes: Sequence[int]) -> str:
    """What is wrong with what a command said; "" where nothing is."""
    found = faults(done, ALL["usual"])
    text = done.err.decode()
    if found:
        return found[0]
    if done.code not in codes:
        return f"exit code {done.code}: {text[:200]}"
    if done.code and (len(text.splitlines()) != 1 or len(text) > LONGEST):
        return f"no one sentence: {text[:300]!r}"
    return ""


# --- imports --------------------------------------------------------------------------------------------


def export_by_bytes(lines: Sequence[bytes], chance: Chance) -> bytes:
    how = chance.choice([*mutations.BYTES])
    return mutations.BYTES[how](b"".join(lines), chance)


def export_by_signs(lines: Sequence[bytes], chance: Chance) -> bytes:
    number = chance.randrange(len(lines))
    line = mutations.another_sign(lines[number].decode(), chance).encode("utf-8", "surrogatepass")
    return b"".join([*lines[:number], line, *lines[number + 1 :]])


def export_by_order(lines: Sequence[bytes], chance: Chance) -> bytes:
    """Lines lost, twice, or elsewhere, also the first and the last; and the last one made to fit."""
    kept = list(lines[:-1])
    match chance.randrange(3):
        case 0:
            chance.shuffle(kept)
        case 1:
            del kept[chance.randrange(len(kept))]
        case 2:
            kept.insert(chance.randrange(len(kept)), chance.choice(lines))
    return ended(kept)


def export_forged(lines: Sequence[bytes], chance: Chance) -> bytes:
    """Other values in one line, all hashes made to fit."""
    tables: list[Any] = [json.loads(line) for line in lines[:-1]]
    for _ in range(chance.choice((1, 1, 1, 3))):
        number = chance.randrange(len(tables))
        tables[number] = changed(tables[number], chance)
    return ended(sealed(tables))


def changed(table: Any, chance: Chance) -> Any:
    """Mostly in the body, which is where what is believed stands."""
    if isinstance(table, dict) and isinstance(table.get("body"), dict) and chance.randrange(4):
        return {**table, "body": mutations.another_value(table["body"], chance)}
    return mutations.another_value(table, chance)


def sealed(tables: Sequence[Any]) -> list[bytes]:
    """As lines, each with the hash it would have, wherever one can be reckoned."""
    tips: dict[object, bytes] = {}
    made = []
    for number, table in enumerate(tables):
        if number and isinstance(table, dict):
            try:
                which = (table["child"], table["device"])
                previous = tips.get(which, chain.FIRST)
                body = json.dumps(table["body"], ensure_ascii=True, separators=(",", ":"), sort_keys=True)
                row = chain.sealed(Row._make((*(table[name] for name in FIELDS[:-1]), body, previous, b"")))
                tips[which] = row.hash
                table = {**table, "previous": previous.hex(), "hash": row.hash.hex()}
            except (KeyError, TypeError, ValueError):
                pass
        made.append(json.dumps(table).encode() + b"\n")
    return made


def ended(lines: Sequence[bytes]) -> bytes:
    whole = b"".join(lines)
    end = {"rows": len(lines) - 1, "sha256": sha256(whole).hexdigest()}
    return whole + json.dumps(end).encode() + b"\n"


EXPORTS: Mapping[str, Callable[[Sequence[bytes], Chance], bytes]] = {
    "an export, by bytes": export_by_bytes,
    "an export, by signs": export_by_signs,
    "an export, its lines elsewhere": export_by_order,
    "an export, forged": export_forged,
}


def taken_in(home: Path, folder: Path, how: str, chance: Chance) -> str:
    """Into an empty place, or into a book of the same family."""
    lines = (home / "all.jsonl").read_bytes().splitlines(keepends=True)
    (folder / "in.jsonl").write_bytes(EXPORTS[how](lines, chance))
    if chance.randrange(3) == 0:
        shutil.copy(home / "copy.book", folder / "family.book")
    with at(folder) as call:
        done = call(["import", "in.jsonl"])
        wrong = said(done, (0, 1))
        if wrong or done.code:
            return wrong or "refused"
        return looked_at(call)


def looked_at(call: Call) -> str:
    for words in LOOKS:
        on = (
            (*words, "--on", DAY)
            if words[:1] not in (("child",), ("set",), ("export",), ("verify",))
            else words
        )
        done = call(on)
        wrong = said(done, (0, 1))
        if words == ("verify",) and done.code:
            wrong = f"exit code {done.code}"
        if wrong:
            return f"then review {' '.join(words)}: {wrong}"
    return "taken"


# --- lines of other programs, marks, lists, no books --------------------------------------------------------

LINES = (
    '{"answer":"7","seconds":3.1,"first_key":1.2,"help":1,"recalled":true}',
    '{"pass":true}',
    '{"help":true,"seconds":2}',
    '{"answer":"12"}',
)


def heard(home: Path, folder: Path, how: str, chance: Chance) -> str:
    """Lines of JSON to a warm-up: each is read or answered with a note."""
    shutil.copy(home / "copy.book", folder / "family.book")
    typed = "".join(hostile_line(chance) + "\n" for _ in range(12)) + '{"stop":true}\n'
    with at(folder) as call:
        done = call(["warmup", "Fenn", "--jsonl", "--on", DAY], typed=typed)
        wrong = said(done, (0,))
        for line in done.out.splitlines():
            json.loads(line)
        return wrong or said(call(["verify"]), (0,)) or said(call(["log", "--on", DAY]), (0,)) or "taken"


def hostile_line(chance: Chance) -> str:
    line = chance.choice(LINES)
    match chance.randrange(5):
        case 0:
            return json.dumps(mutations.another_value(json.loads(line), chance))
        case 1:
            return mutations.another_sign(line, chance)
        case 2:
            return "[" * chance.choice((5, 5000, 200_000))
        case 3:
            return json.dumps({"answer": chance.choice(mutations.TEXTS), "seconds": 1})
    return json.dumps({"answer": str(chance.choice(mutations.NUMBERS))}, ensure_ascii=False)


MARKS = ("1. 2o=62", "all", "3o", "1-3.", "2o=4 r 1", "5.")


def marked(home: Path, folder: Path, how: str, chance: Chance) -> str:
    shutil.copy(home / "copy.book", folder / "family.book")
    text = mutations.another_sign(chance.choice(MARKS), chance) if chance.randrange(3) else ""
    marks = (text or chance.choice(mutations.TEXTS) + chance.choice(MARKS)).replace("\0", "")
    with at(folder) as call:
        day = str(chance.choice((1, 2, 3, 5, 0, 9, -1, 10**20)))
        done = call(
            ["enter", (home / "sheet").read_text(), f"--day={day}", f"--marks={marks}", "Fenn", "--on", DAY]
        )
        return said(done, (0, 1, 2)) or ("refused" if done.code else said(call(["verify"]), (0,)) or "taken")


LIST = 'prompt,answer\nsteps to the lamp,40\n"lamps, all",1\nthe keeper\'s cats,3\n'


def listed(home: Path, folder: Path, how: str, chance: Chance) -> str:
    (folder / "ours.toml").write_text(
        OWN_SET.partition("pairs = [")[0] + 'file = "ours.csv"\n', encoding="utf-8"
    )
    data = LIST.encode()
    if chance.randrange(2):
        data = mutations.BYTES[chance.choice([*mutations.BYTES])](data, chance)
    else:
        cells = [[chance.choice(mutations.TEXTS).replace("\ud800", "") for _ in range(2)] for _ in range(4)]
        data += "\n".join(chance.choice(",;\t").join(row) for row in cells).encode()
    (folder / "ours.csv").write_bytes(data)
    with at(folder) as call:
        done = call(["set", "check", "ours.toml"])
        lines = done.err.decode().splitlines()
        long = [line for line in lines if len(line) > LONGEST]
        wrong = [*faults(done, ALL["usual"]), *long, *([] if done.code in (0, 1) else [str(done)])]
        return wrong[0] if wrong else "refused" if done.code else "taken"


def no_book(home: Path, folder: Path, how: str, chance: Chance) -> str:
    """A file that was a book, or an export, or nothing of the kind, to be merged or gone back to."""
    shutil.copy(home / "copy.book", folder / "family.book")
    data = (home / chance.choice(("copy.book", "copy.book", "all.jsonl", "ours.toml"))).read_bytes()
    (folder / "other.book").write_bytes(mutations.BYTES[chance.choice([*mutations.BYTES])](data, chance))
    before = (folder / "family.book").read_bytes()
    with at(folder) as call:
        done = call(chance.choice((["merge", "other.book"], ["restore", "other.book", "--yes"])))
        wrong = said(done, (0, 1, 3))
        if done.code and (folder / "family.book").read_bytes() != before:
            wrong = f"the book was changed: {done}"
        return wrong or said(call(["verify"]), (0,)) or ("refused" if done.code else "taken")


SORTS: Mapping[str, Callable[[Path, Path, str, Chance], str]] = {
    **dict.fromkeys(EXPORTS, taken_in),
    "lines of another program": heard,
    "marks of a sheet": marked,
    "a list beside a set": listed,
    "a file that is no book": no_book,
}


# --- playing --------------------------------------------------------------------------------------------


def outcome(home: Path, sort: str, number: int) -> str:
    with scratch() as folder:
        try:
            with no_longer_than(HANGS):
                return SORTS[sort](home, folder, sort, random.Random(f"{sort} {number}"))
        except Hung:
            return "it hangs"
        except Exception as error:
            place = error.__traceback__
            while place and place.tb_next:
                place = place.tb_next
            where = f"{Path(place.tb_frame.f_code.co_filename).name}:{place.tb_lineno}" if place else ""
            return f"{type(error).__name__} in {where}: {str(error)[:100]}"


def played(sort: str, numbers: Iterable[int], home: Path | None = None) -> Seen:
    counts: Counter[tuple[str, str]] = Counter()
    found: list[Fault] = []
    with scratch() as made:
        if home is None:
            prepare(home := made / "home")
        for number in numbers:
            came = outcome(home, sort, number)
            sound = came in ("taken", "refused")
            counts[sort, came if sound else "broken"] += 1
            found += [] if sound else [Fault(number, sort, came)]
    return Seen(counts, tuple(found))


def main() -> None:
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 4_000
    wanted = sys.argv[2:] or [*SORTS]
    jobs = [(sort, range(at, min(times, at + BATCH))) for at in range(0, times, BATCH) for sort in wanted]
    with get_context("spawn").Pool(2, maxtasksperchild=40) as pool:
        seen = pool.starmap(played, jobs, chunksize=1)
    for (sort, came), count in sorted(sum((one.counts for one in seen), Counter[tuple[str, str]]()).items()):
        print(f"{sort}: {came}: {count:,}")
    broken = [fault for one in seen for fault in one.faults]
    for fault in broken[:60]:
        print(f"  {fault.number}, {fault.what}: {fault.how}")
    print(f"{times:,} of each, {len(broken)} faults")
    sys.exit(1 if broken else 0)


if __name__ == "__main__":
    main()
