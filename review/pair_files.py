"""Lists of prompts and answers that stand beside a set: `file = "words.csv"` becomes `pairs = [...]`.

The text of a set is made whole before it is read, so that what goes into the book needs no other file. The
list takes the very line on which `file` stood: the lines of everything else stay what they are.
"""

import csv
import io
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple, Protocol

from review import files
from review.core.model import Mistake
from review.core.text import clean, plural
from review.core.toml_text import Path as Where
from review.core.toml_text import Unreadable, lines_of, parsed
from review.errors import Mendable

MOST_BYTES = 400_000  # of a list; 5,000 pairs of the widest lines
MOST_ROWS = 5000  # no set has more cards
MOST_TOLD = 50  # mistakes of one list; our judgement: the others are likely the same
SEPARATORS = ",;\t"  # what spreadsheets save
CALLED: Mapping[str, str] = {",": "comma", ";": "semicolon", "\t": "tab"}
SHOWN: Mapping[str, str] = {  # what a list is told to write, parted as it is itself
    ",": "days in a week,7", ";": "days in a week;7", "\t": "days in a week (tab) 7",
}  # fmt: skip
LINE = re.compile(r"""^(\s*)file(\s*)=(\s*)(?:"[^"\\]*"|'[^']*')""")
PAIR = re.compile(r"skill\[(\d+)\]\.pairs\[(\d+)\]")

Pairs = Sequence[tuple[int, str, str]]  # line, prompt, answer


class Listed(NamedTuple):
    """A list beside a set: its name, what stands in it, and what its cells are parted by."""

    name: str
    pairs: Pairs = ()
    separator: str = ","


class Reader(Protocol):
    """What `csv.reader` gives, which has no public type."""

    line_num: int

    def __iter__(self) -> Iterator[list[str]]: ...


class Whole(NamedTuple):
    text: str
    rows: Mapping[int, Listed]  # place of a skill, from 1 -> its list
    mistakes: tuple[Mistake, ...] = ()


def whole(text: str, path: Path) -> Whole:
    """The text of a set with every list written in. A text that cannot be read stays as it is."""
    table = parsed(text)
    if isinstance(table, Unreadable) or "file" not in text:
        return Whole(text, {})
    skills = table.get("skill")
    asked = [
        (place, str(skill["file"]), "pairs" in skill)
        for place, skill in enumerate(skills if isinstance(skills, list) else [], start=1)
        if isinstance(skill, dict) and skill.get("kind") == "pairs" and isinstance(skill.get("file"), str)
    ]
    return _with_lists(text, path, asked) if asked else Whole(text, {})


def _with_lists(text: str, path: Path, asked: Sequence[tuple[int, str, bool]]) -> Whole:
    lines, places = text.split("\n"), _places(text)
    rows: dict[int, Listed] = {}
    mistakes: list[Mistake] = []
    for place, name, twice in asked:
        line = places.get(("skill", place - 1, "file"), 1)
        here = f"skill[{place}].file"
        trouble = _misnamed(name, twice, lines[line - 1])
        found, wrong = (Listed(name), [trouble]) if trouble else _read(path.parent / name)
        mistakes += [Mistake(path.name if not at else name, at or line, here if not at else "", *what)
                     for at, *what in wrong]  # fmt: skip
        rows[place] = found
        lines[line - 1] = _in_place(lines[line - 1], found.pairs, twice)
    return Whole("\n".join(lines), rows, tuple(mistakes))


def _places(text: str) -> Mapping[Where, int]:
    try:
        return lines_of(text)
    except RecursionError:  # brackets in brackets, as deep as the reader of TOML bears and no deeper
        return {}


def _misnamed(name: str, twice: bool, line: str) -> tuple[int, str, str] | None:
    """A plain name only: a set that was passed on reaches nothing but what lies beside it."""
    if twice:
        return 0, "pairs and file both stand here.", "Take one of them out."
    if not LINE.match(line):
        return 0, "it does not stand on a line of its own.", 'Write file = "words.csv" on its own line.'
    if not re.fullmatch(r"[^/\\:\0]{1,100}\.(?:csv|tsv|txt)", name, re.IGNORECASE) or name.startswith("."):
        return (
            0,
            f"“{clean(name)[:60]}” is no plain name of a list.",
            'Put it beside the set, like "words.csv".',
        )
    return None


def _in_place(line: str, pairs: Pairs, twice: bool) -> str:
    """The line with the list in it; where there is none, with a pair that keeps the rest readable."""
    shown = [[prompt, answer] for _, prompt, answer in pairs] or [["a", "b"]]
    written = f"pairs = {json.dumps(shown, ensure_ascii=False)}"
    return LINE.sub(lambda found: "" if twice else found[1] + written, line, count=1)


# --- a list -------------------------------------------------------------------------------------------

Wrong = tuple[int, str, str]  # line, 0 for the list as a whole; what is wrong; what to write instead


def _read(path: Path) -> tuple[Listed, list[Wrong]]:
    if path.is_symlink() or (path.exists() and not path.is_file()):
        return Listed(path.name), [
            (0, f"{clean(path.name)} is no plain file.", "Put the list itself beside the set.")
        ]
    try:
        text = files.read_text(path, MOST_BYTES)
    except Mendable as error:
        return Listed(path.name), [(0, clean(str(error)), "")]
    separator = max(SEPARATORS, key=lambda sign: (_rows_of_two(text, sign), text.count(sign)))
    pairs, wrong = _rows(text, separator)
    if not pairs and not wrong:
        wrong.append((0, f"{clean(path.name)} is empty.", "Write a prompt and its answer a row."))
    return Listed(path.name, pairs, separator), wrong


def _rows(text: str, separator: str) -> tuple[Pairs, list[Wrong]]:
    pairs: list[tuple[int, str, str]] = []
    wrong: list[Wrong] = []
    rows = _reader(text, separator)
    try:
        for line, row, cells in _cells(rows):
            if len(pairs) == MOST_ROWS or len(wrong) == MOST_TOLD:
                wrong.append(
                    (line, "the list goes on.", f"Write {MOST_ROWS:,} rows at most, two cells each.")
                )
                break
            if len(cells) == 2:
                pairs.append((line, cells[0], cells[1]))
            else:
                wrong.append((line, *_miscounted(row, separator)))
    except csv.Error as error:
        wrong.append(
            (rows.line_num, f"this row cannot be read: {clean(str(error))}.", "Save it as CSV again.")
        )
    return pairs, wrong


def _miscounted(row: Sequence[str], separator: str) -> tuple[str, str]:
    """What is wrong with a row of more or fewer cells than two, and what to write instead."""
    shown, name = SHOWN[separator], CALLED[separator]
    others = [sign for sign in SEPARATORS if len(row) == 1 and _rows_of_two(row[0], sign) == 1]
    if others:
        wrong = f"a {CALLED[others[0]]} parts this row, and a {name} the others."
        return wrong, f"Write a {name} here too, like {shown}."
    return (
        f"{plural(len(row), 'cell')} in this row.",
        f'Write two, like {shown}; put "..." around a {name} of a cell.',
    )


def _reader(text: str, separator: str) -> Reader:
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    return csv.reader(io.StringIO(plain, newline=""), delimiter=separator, strict=True)


def _rows_of_two(text: str, separator: str) -> int:
    """How many rows that separator makes two cells of."""
    count = 0
    with suppress(csv.Error):
        for row in _reader(text, separator):
            count += len(row) == 2
    return count


def _cells(rows: Reader) -> Iterator[tuple[int, list[str], list[str]]]:
    """The rows that hold something, as they stand and cleaned, each with the line it begins on; not a row of
    headings."""
    line = 1
    for number, row in enumerate(rows):
        cells = [clean(cell) for cell in row]
        heading = number == 0 and [cell.casefold() for cell in cells] == ["prompt", "answer"]
        if any(cells) and not heading:
            yield line, row, cells
        line = rows.line_num + 1


BOTH_IN_A_SET = 'like ["days in a week", "7"]'


def placed(mistake: Mistake, rows: Mapping[int, Listed]) -> Mistake:
    """A mistake in a pair that came from a list is told with the list's own name and line."""
    found = PAIR.match(mistake.path)
    if not found or int(found[1]) not in rows:
        return mistake
    name, pairs, separator = rows[int(found[1])]
    place = int(found[2]) - 1
    instead = mistake.instead.replace(BOTH_IN_A_SET, f"like `{SHOWN[separator]}`")
    told = mistake._replace(file=name, path="", instead=instead)
    return told._replace(line=pairs[place][0]) if place < len(pairs) else mistake
