"""Sheets with problems: from what is asked to pages, with the key on a page of its own."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from review.core import full_pages, skills
from review.core.boxes import box, rows
from review.core.model import Problem
from review.core.paper import (
    HALF,
    KEY_LINE,
    KEY_TEXT,
    LARGE,
    NORMAL,
    WIDTH,
    Block,
    Box,
    Cut,
    Entries,
    Entry,
    Extent,
    Head,
    Page,
    Sheet,
    Size,
    Start,
    Words,
    broken,
    on_a_line,
    paged,
    width_of,
    wrapped,
)
from review.core.sheets import Made, Part, Task
from review.core.text import clean

TITLES = {"today": "Warm-up", "week": "Warm-ups"}
DOTS_SAID = ("Fill a dot for each one.", "Then you are done.")
SAID, SAID_LARGE = 4.1, 6.35  # letters of what is said of the dots
NUMBER_WIDTH = 11.0  # in the key
NAME_WIDTH = 66.0  # of a name on its line
BOLD = 1.15  # bold letters are so much wider
MARKS = ("Marks: ✓ tick, from memory. • dot, worked out. ○ ring, not yet.",)
NEW_ONES = (
    "“Do you know this one yet?” is a first meeting. If it is not known, say it together: it is no miss."
)
ONE_TRY = "The first try counts. What comes after it teaches."
FOOT_MARKS = "✓ from memory   • worked out   ○ not yet"


class Printed(NamedTuple):
    """What the pages of a problem sheet say besides their problems."""

    title: str
    name: str  # "": a line to write it on
    foot: str
    notes: tuple[str, ...]  # for the grown-up, on the key
    marks: str = ""  # the same at the foot of the child's pages, in short


def sheet(made: Made, name: str, large: bool, extent: Extent) -> Sheet:
    """A child's own sheet."""
    warmup = made.sort in TITLES
    title = TITLES.get(made.sort, made.title)
    new = any(task.role == "intro" for part in made.parts for task in part.tasks)
    again = f"To print it again: review sheet --number {made.number}"
    notes = (
        *(MARKS if warmup else ()),
        *([ONE_TRY, f"Then: review enter {made.number}"] if warmup else []),
        *([NEW_ONES] if new else []),
        again,
    )
    words = Printed(title, name, f"Sheet {made.number}", notes, FOOT_MARKS if warmup else "")
    return problem_sheet(made.parts, words, large, extent, strips=made.sort == "week", dots=warmup)


BESIDE = 8  # dots that stand beside the day and its words on one line of a strip


def problem_sheet(
    parts: Sequence[Part], words: Printed, large: bool, extent: Extent, *, strips: bool, dots: bool
) -> Sheet:
    size = LARGE if large else NORMAL
    groups: list[list[Block]] = [[head(words, size, dated=not strips)]]
    for n, part in enumerate(parts):
        tag = (words.foot, f"day {n + 1}") if strips else ()
        strip = part_blocks(boxes_of(part.tasks, size, extent), size, tag, dots=dots)
        if n:
            groups += [[Cut()], strip]
        else:
            groups[0] += strip
    pages = [Page(blocks) for blocks in paged(groups)]
    return Sheet(words.foot, words.foot, (*pages, *key_pages(parts, words)), large, words.marks)


def head(words: Printed, size: Size, *, dated: bool) -> Head:
    letters = on_a_line(clean(words.title), WIDTH, size.text * 1.3)
    named = on_a_line(clean(words.name), NAME_WIDTH, size.text * 0.8)
    return Head(clean(words.title), clean(words.name), dated, letters, named, head_height(size))


def head_height(size: Size) -> float:
    return round(2 * size.line + 1, 1)


def part_blocks(boxes: Sequence[Box], size: Size, tag: tuple[str, ...], *, dots: bool) -> list[Block]:
    lines = 2 if size.large or (tag and len(boxes) > BESIDE) else 1
    letters = SAID_LARGE if size.large else SAID
    start = Start(DOTS_SAID, len(boxes), bool(tag), tag, lines, letters, lines * size.line)
    return [*([start] if dots else []), *rows(boxes, size)]


def boxes_of(tasks: Iterable[Task], size: Size, extent: Extent) -> list[Box]:
    return [
        box(n, skills.problem(task.card, task.asked), size, extent, new=task.role == "intro")
        for n, task in enumerate(tasks, 1)
    ]


def filling(tasks: Sequence[Task], large: bool, extent: Extent) -> tuple[Task, ...]:
    """The tasks of a sheet of practice, in the order in which their problems fill its pages. As they are
    where that takes fewer, since one that has a row to itself may be lower."""
    size = LARGE if large else NORMAL
    boxes = boxes_of(tasks, size, extent)
    filled = full_pages.ordered(boxes, head_height(size), size.line)
    ways = (filled, [*range(len(boxes))])
    return tuple(tasks[n] for n in min(ways, key=lambda way: count([boxes[n] for n in way], size)))


def count(boxes: Sequence[Box], size: Size) -> int:
    """How many pages they take below the head."""
    return len(paged([[Head("", "", False, 0, 0, head_height(size)), *rows(boxes, size)]]))


# --- the key ------------------------------------------------------------------------------------------


def key_pages(parts: Sequence[Part], words: Printed) -> list[Page]:
    """The answers by number, sitting by sitting, for the grown-up; on pages of their own."""
    first = note_lines([f"Key. {words.foot}{of(words.name)}", *words.notes])
    groups: list[list[Block]] = []
    for n, part in enumerate(parts, 1):
        named = [note_lines([f"Day {n}"])] if len(parts) > 1 else []
        groups.append([*([first] if n == 1 else []), *named, *entries(part)])
    return [Page(blocks, key=True) for blocks in paged(groups)]


def of(name: str) -> str:
    return f", {clean(name)}" if name else ""


def note_lines(lines: Sequence[str]) -> Words:
    shown = tuple(part for line in lines for part in wrapped(line, WIDTH / KEY_TEXT))
    return Words(shown, round(len(shown) * KEY_LINE + 3, 1))


def entries(part: Part) -> list[Entries]:
    """Side by side, down the left column first, as far as a page goes."""
    known = [entry(n, skills.problem(task.card, task.asked)) for n, task in enumerate(part.tasks, 1)]
    half = (len(known) + 1) // 2
    pairs = [(known[n], known[n + half] if n + half < len(known) else None) for n in range(half)]
    return [
        Entries((left,), (right,) if right else (), round(tallest(left, right) * KEY_LINE, 1))
        for left, right in pairs
    ]


def tallest(*some: Entry | None) -> int:
    return max(len(one.lines) for one in some if one)


def entry(number: int, problem: Problem) -> Entry:
    """The answer first: it is looked up by its number."""
    answer, prompt, room = skills.shown_answer(problem), problem.prompt, (HALF - NUMBER_WIDTH) / KEY_TEXT
    if width_of(answer) * BOLD + width_of("   ") + width_of(prompt) <= room:
        return Entry(number, answer, ((answer, prompt),))
    lines = (
        *((part, "") for part in broken(answer, room / BOLD)),
        *(("", part) for part in broken(prompt, room)),
    )
    return Entry(number, answer, lines)
