"""What `review sheet` and `review enter` say, as lines for a parent."""

from collections.abc import Iterable, Sequence
from itertools import groupby
from pathlib import Path

from review.app.entering import Entered, Waiting
from review.app.sheet_making import Ready
from review.core import days, family, skills
from review.core.paper_marks import HOWS, How, Marked
from review.core.sheets import Made
from review.core.text import clean, in_words, plural
from review.shell import word

# --- a sheet ------------------------------------------------------------------------------------------


ONE_SIDE = "Print it on one side, or the key is on the back of the problems."
MOST_SIGNS = 8


def written(ready: Ready, path: Path, unshown: Sequence[str] = ()) -> list[str]:
    """What was made, and what to do with it; `unshown`: signs for which this computer has no typeface."""
    pages = plural(len(ready.sheet.pages), "page")
    who = f" for {clean(ready.child)}" if ready.child else ""
    lines = [f"{clean(ready.sheet.name)}{who}: {pages} in {clean(str(path))}"]
    keys = sum(page.key for page in ready.sheet.pages)
    if keys:
        lines.append("The key is the last page." if keys == 1 else f"The key is the last {keys} pages.")
        lines += [ONE_SIDE] if (len(ready.sheet.pages) - keys) % 2 else []
    if any(page.side for page in ready.sheet.pages):
        lines.append("Print it on both sides, turned over along the long edge, then cut along the lines.")
    if ready.enters:
        lines.append(f"When it is done: review enter {ready.number}")
    elif ready.again:
        lines.append(f"The same once more: {ready.again}")
    return [*lines, *([boxes_instead(unshown, path)] if unshown else [])]


def boxes_instead(signs: Sequence[str], path: Path) -> str:
    some = in_words([*signs[:MOST_SIGNS], *(["others"] if len(signs) > MOST_SIGNS else [])])
    page = clean(str(path.with_suffix(".html")))
    return (
        f"This computer has no letters for {some}: the PDF shows empty boxes there. Install a font that has "
        f"them, or write --out {page} and print that page where they are known, on a phone for instance."
    )


# --- its marks ----------------------------------------------------------------------------------------

HOW_TO = (
    "Marks are one line a sitting: the numbers with a dot, like 3. and those with a ring, like 7o "
    "(or 7o=62 where 62 stands). The rest count as ticked.",
    "  all: every one is ticked. 11-: left out from 11 on. Enter alone: not done yet.",
)


def sheet_found(found: Waiting) -> list[str]:
    made = found.made
    what = f"{len(made.parts)} short warm-ups" if len(made.parts) > 1 else "a warm-up"
    of = f"Sheet {made.number} of {clean(found.child.name)}, made on {days.full_words(made.day)}"
    return [f"{of}: {what}.", *HOW_TO]


def part_asked(found: Waiting, part: int) -> list[str]:
    tasks = found.made.parts[part - 1].tasks
    day = f"Day {part}" if len(found.made.parts) > 1 else "The sitting"
    before = f", in the book as of {days.full_words(found.entered[part])}" if part in found.entered else ""
    return ["", f"{day}: {plural(len(tasks), 'problem')}{before}."]


def understood(found: Waiting, part: int, marked: Sequence[Marked]) -> list[str]:
    """What the marks were read as, so that a slip is seen."""
    made, words = found.made, family.words_of(found.child)
    groups = [(how, [one for one in marked if one.how == how]) for how in HOWS]
    lines = (f"  {how.capitalize()}: {told(made, part, how, some)}." for how, some in groups if some)
    return [family.as_written(line, words) for line in lines]


def told(made: Made, part: int, how: How, some: Iterable[Marked]) -> str:
    """Numbers alone where all was well; with their problems where there is something to see to."""
    if how in ("from memory", "left out"):
        return in_words(runs([one.n for one in some]))
    return in_words([with_problem(made, part, one) for one in some])


def runs(numbers: Sequence[int]) -> list[str]:
    """Numbers that follow each other in one word: 4 to 9."""
    groups = ([n for _, n in some] for _, some in groupby(enumerate(numbers), lambda pair: pair[1] - pair[0]))
    return [
        part
        for some in groups
        for part in ([f"{some[0]} to {some[-1]}"] if len(some) > 2 else [str(n) for n in some])
    ]


def with_problem(made: Made, part: int, one: Marked) -> str:
    """The answer too where the question alone would not tell which picture or story it was."""
    task = made.parts[part - 1].tasks[one.n - 1]
    problem = skills.problem(task.card, task.asked)
    answer = f" {skills.shown_answer(problem)}" if "=" not in problem.prompt and problem.picture else ""
    given = f"; {clean(one.given)} stands there" if one.given else ""
    return f"{one.n} ({clean(problem.prompt).removesuffix(' =')}{clean(answer)}{given})"


def entered(done: Entered) -> list[str]:
    answers = sum(one.how != "left out" for one in done.marked)
    day = f"day {done.part} of " if len(done.made.parts) > 1 else ""
    again = f" --day {done.part}" if len(done.made.parts) > 1 else ""
    kept = "Put in the place of what was there" if done.replaced else "Kept"
    when = days.full_words(done.day)
    return [
        f"{kept}: {day}sheet {done.made.number}, {plural(answers, 'answer')}, done on {when}.",
        f"To put it right: review enter {done.made.number}{again}",
    ]


def still_to_come(made: Made, parts: Sequence[int]) -> list[str]:
    """Sittings that were asked for and have no marks yet."""
    if not parts:
        return []
    days_left = in_words([str(n) for n in parts])
    which = f"{'Day' if len(parts) == 1 else 'Days'} {days_left}" if len(made.parts) > 1 else "The sitting"
    return ["", f"{which} can wait. Once done: review enter {made.number}"]


def all_entered(found: Waiting) -> list[str]:
    name = word(found.child.name)
    return [
        f"Every sitting of sheet {found.made.number} is in the book. "
        f"To put one right: review enter {found.made.number} --day 1",
        f"What has faded: review overdue {name}",
    ]
