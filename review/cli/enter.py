"""`review enter`."""

import re
import sys
from contextlib import nullcontext
from datetime import date

import click

from review.app import entering
from review.app.entering import Waiting
from review.cli.options import Call, prompted, stopping, with_call, with_clock
from review.core import days, paper_marks
from review.core.family import words_of
from review.core.paper_marks import Marked, Unread
from review.errors import Mendable
from review.render import sheet_lines
from review.render.screen import echo


@click.command()
@click.argument("sheet", type=click.IntRange(1, 99_999))
@click.argument("child", required=False)
@click.option("--day", "part", type=int, help="Which day of a week's sheet, like 2.")
@click.option("--marks", help='Its marks in one line, like "3. 5o=62" or all.')
@with_call(on=True)
def enter(call: Call, sheet: int, child: str | None, part: int | None, marks: str | None) -> None:
    """Take the marks of a warm-up that was done on paper, by the number at its foot.

    SHEET is that number. It asks for one line a sitting: the numbers with a dot
    (worked out) as 3. and with a ring (not yet) as 7o; all others count as
    ticked (from memory). Behind = stands what was written: 7o=12. --on is the
    day it was done. What was entered can be put right by entering it again.

    \b
    Examples:
      review enter SHEET
      review enter SHEET --day 2 --marks "3. 5o=62"
    """
    found = with_clock(call.outside, lambda outside: entering.waiting(outside, sheet, child))
    check_part(found, part)
    if marks is not None:
        keep(call, found, the_part(found, part), marks)
    else:
        ask(call, found, part)


def check_part(found: Waiting, part: int | None) -> None:
    count = len(found.made.parts)
    if part is not None and not 1 <= part <= count:
        number = found.made.number
        if count == 1:
            raise Mendable(f"Sheet {number} is one sitting: leave out --day.")
        raise Mendable(f"Sheet {number} has {count} sittings: --day 1 to --day {count}.")


def the_part(found: Waiting, part: int | None) -> int:
    if part is None and len(found.made.parts) > 1:
        raise Mendable(f"Which sitting? Say it with --day, from 1 to {len(found.made.parts)}.")
    return part or 1


def keep(call: Call, found: Waiting, part: int, marks: str) -> None:
    """Without a question, as it is told."""
    try:
        marked = paper_marks.read(marks, found.made.parts[part - 1].tasks, words_of(found.child))
    except Unread as error:
        raise Mendable(str(error)) from error
    echo(sheet_lines.understood(found, part, marked))
    on = call.outside.on
    save(call, found, part, on if on is not None else entering.day_of(found, part), marked)


def save(call: Call, found: Waiting, part: int, day: int, marked: tuple[Marked, ...]) -> None:
    number, name = found.made.number, found.child.name
    done = with_clock(call.outside, lambda outside: entering.enter(outside, number, name, part, day, marked))
    echo(sheet_lines.entered(done))
    if done.warning:
        click.echo(done.warning, err=True)


# --- asking -------------------------------------------------------------------------------------------


def ask(call: Call, found: Waiting, part: int | None) -> None:
    """Sitting by sitting; input that ends early ends it, with everything kept."""
    parts = range(1, len(found.made.parts) + 1)
    only = part or (1 if len(parts) == 1 else None)  # asked for, so it may be in the book already
    wanted = [only] if only else [n for n in parts if n not in found.entered]
    if not wanted:
        echo(sheet_lines.all_entered(found))
        return
    echo(sheet_lines.sheet_found(found))
    for n in wanted:
        found = entering.waiting(call.outside, found.made.number, found.child.name)
        try:
            with stopping(stopped_at(found, n)) if sys.stdin.isatty() else nullcontext():
                ask_part(call, found, n, alone=len(wanted) == 1)
        except click.Abort:
            return
    found = entering.waiting(call.outside, found.made.number, found.child.name)
    echo(sheet_lines.still_to_come(found.made, [n for n in wanted if n not in found.entered]))


def stopped_at(found: Waiting, part: int) -> str:
    """What is true where a parent stops: the days before this one are in the book."""
    others = [n for n in found.entered if n != part]
    return "Stopped. What was entered before is kept." if others else "Stopped. Nothing was entered."


def ask_part(call: Call, found: Waiting, part: int, alone: bool) -> None:
    """The marks, then the day; each is asked again until it can be used."""
    echo(sheet_lines.part_asked(found, part))
    marked = asked_marks(found, part)
    if not marked:
        return
    echo(sheet_lines.understood(found, part, marked))
    on = call.outside.on if alone else None
    while True:
        try:
            save(call, found, part, asked_day(found, part) if on is None else on, marked)
            return
        except Mendable as mistake:
            if on is not None:
                raise
            echo([str(mistake).replace("--on ", "")])  # here the day alone is typed


def asked_marks(found: Waiting, part: int) -> tuple[Marked, ...]:
    """The marks of a part as they are typed, asked until they can be read; (): the part was not done yet."""
    tasks = found.made.parts[part - 1].tasks
    while True:
        line = answer("Marks")
        try:
            return paper_marks.read(line, tasks, words_of(found.child)) if line else ()
        except Unread as mistake:
            echo([str(mistake)])


def answer(question: str) -> str:
    return prompted(question).strip()


AGO = {"today": 0, "yesterday": 1}


def asked_day(found: Waiting, part: int) -> int:
    """The day it was done; Enter takes the likely one."""
    likely = entering.day_of(found, part)
    echo(["Enter alone is yes; else type the day, like Tue or 2026-11-24."])
    while True:
        typed = answer(f"Done on {days.full_words(likely)}?")
        day = likely if not typed else read_day(typed, found.today)
        if day is not None:
            return day
        echo(["Type a weekday like Tue, or a date like 2026-11-24."])


def read_day(typed: str, today: int) -> int | None:
    """A date; or a weekday, which is the last one of that name; or today or yesterday."""
    if typed.casefold() in AGO:
        return today - AGO[typed.casefold()]
    if re.fullmatch(r"\d{4}-\d\d-\d\d", typed):
        try:
            return days.day_of(date.fromisoformat(typed))
        except ValueError:
            return None
    names = [name.casefold() for name in days.WEEKDAYS]
    found = [n for n, name in enumerate(names) if len(typed) > 1 and name.startswith(typed.casefold())]
    return today - (today - 1 - found[0]) % 7 if len(found) == 1 else None
