"""`review sheet`."""

import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, NamedTuple

import click

from review import files
from review.app import chosen_money, chosen_years, sheet_making
from review.app.sheet_making import Ready
from review.cli.options import Call, Whole, is_yes, stopping, with_call, with_clock
from review.core import homes
from review.core.blanks import BLANKS
from review.core.blanks import Sort as BlankSort
from review.core.fact_square import FILLS, TABLES, Facts, Fill
from review.core.paper import Sheet
from review.core.text import clean
from review.errors import Mendable
from review.gather import Outside
from review.render import sheet_lines
from review.render.screen import echo

PAPERS = ("a4", "letter")
HIGH, PLACES = 10, 2  # where --to and --places are left out


@click.command()
@click.argument("child", required=False)
@click.option("--today", is_flag=True, help="Today's warm-up on paper (so also without any option).")
@click.option("--week", is_flag=True, help="Five short warm-ups, a strip each.")
@click.option("--practice", metavar="SKILL", help="Problems of one skill, or of a set.")
@click.option("--slips", metavar="SET", help="Facts of a set to cut out, answers on the back.")
@click.option("--grid", type=click.Choice([*TABLES]), help="The square of facts.")
@click.option("--blank", type=click.Choice([*BLANKS]), help="Empty pictures to lay counters on.")
@click.option("--number", type=Whole(1, 99_999), metavar="NUMBER", help="That sheet, again.")
@click.option("--count", "many", type=int, metavar="NUMBER", help="Problems of --practice; 20 if left out.")
@click.option("--fill", type=click.Choice(FILLS), help="Of --grid: what is to be filled; empty if left out.")
@click.option("--to", type=int, metavar="NUMBER", help="Of --grid: the highest number; 10 if left out.")
@click.option("--places", type=int, metavar="NUMBER", help="Of --blank mats: how many places; 2 if left out.")
@click.option("--large", is_flag=True, help="Large print.")
@click.option("--paper", type=click.Choice(PAPERS), help="Of a PDF; Letter in the US, else A4.")
@click.option("--out", type=click.Path(path_type=Path), help="The file: NAME.html or NAME.pdf.")
@click.option("--force", is_flag=True, help="Write over a file that is there.")
@with_call(on=True)
def sheet(
    call: Call,
    child: str | None,
    large: bool,
    paper: str | None,
    out: Path | None,
    force: bool,
    **wish: Any,
) -> None:
    """A sheet to print: a warm-up on paper, practice, slips, squares, blanks.

    A child's own sheet has a number at its foot. After the warm-up is done,
    type its marks: review enter NUMBER

    \b
    Examples:
      review sheet Mira --out today.html
      review sheet Mira --week --large --out week.html
      review sheet --practice table-of-2 --out twos.html
      review sheet --slips times-2-5-10 --out slips.html
      review sheet --grid products --fill full --out square.html
      review sheet --blank ten-frames --out frames.html
    """
    wanted = Wish(**wish)
    make = MAKERS[chosen(wanted)]
    if out is not None:
        check_place(out, force)
    ready = with_clock(call.outside, lambda outside: make(outside, child, large, wanted))
    path = out or Path(f"{ready.stem}.html")
    if out is None:
        check_place(path, force)
    sheet = sheet_making.in_own_words(ready.sheet, call.outside)
    save(path, drawn(sheet, path, paper or usual_paper(call.outside)))
    echo(sheet_lines.written(ready, path, unshown(sheet, path)))


class Wish(NamedTuple):
    """What the options say, by their names; None where one is left out."""

    today: bool
    week: bool
    practice: str | None
    slips: str | None
    grid: Facts | None
    blank: BlankSort | None
    number: int | None
    many: int | None
    fill: Fill | None
    to: int | None
    places: int | None


def chosen(wish: Wish) -> str:
    """The one sort that is asked for; a number goes with practice and slips, and alone means once more."""
    sorts = [sort for sort in MAKERS if getattr(wish, sort)]
    if {"practice", "slips"} & {*sorts}:
        sorts = [sort for sort in sorts if sort != "number"]
    if len(sorts) > 1:
        raise click.UsageError(f"One sort of sheet at a time: --{sorts[0]} or --{sorts[1]}.")
    sort = sorts[0] if sorts else "today"
    for field, (option, goes_with) in GOES_WITH.items():
        if getattr(wish, field) is not None and sort != goes_with:
            raise click.UsageError(f"--{option} goes with --{goes_with}.")
    return sort


GOES_WITH = {
    "many": ("count", "practice"),
    "fill": ("fill", "grid"),
    "to": ("to", "grid"),
    "places": ("places", "blank"),
}


def practice(outside: Outside, child: str | None, large: bool, wish: Wish) -> Ready:
    count = sheet_making.USUAL_COUNT if wish.many is None else wish.many
    return sheet_making.practice(outside, wish.practice or "", child, count, wish.number or 0, large)


def grid(outside: Outside, child: str | None, large: bool, wish: Wish) -> Ready:
    high = HIGH if wish.to is None else wish.to
    return sheet_making.square(outside, wish.grid or "products", wish.fill or "empty", high, child, large)


MAKERS: Mapping[str, Callable[[Outside, str | None, bool, Wish], Ready]] = {
    "today": lambda outside, child, large, wish: sheet_making.warmups(outside, "today", child, large),
    "week": lambda outside, child, large, wish: sheet_making.warmups(outside, "week", child, large),
    "practice": practice,
    "slips": lambda outside, child, large, wish: sheet_making.slips(
        outside, wish.slips or "", child, wish.number or 0, large
    ),
    "grid": grid,
    "blank": lambda outside, child, large, wish: sheet_making.blank(
        wish.blank or "ten-frames", PLACES if wish.places is None else wish.places, large
    ),
    "number": lambda outside, child, large, wish: sheet_making.again(outside, wish.number or 0, child, large),
}


# --- the file -----------------------------------------------------------------------------------------


def check_place(path: Path, force: bool) -> None:
    """Refuse a name that cannot be written to before anything is made: a sheet that cannot be kept should not
    have a number."""
    name = clean(str(path))
    if path.suffix not in (".html", ".pdf"):
        raise Mendable(f"The name of a sheet ends in .html or .pdf; write --out {clean(path.stem)}.html")
    if path.suffix == ".pdf":
        from review.render import sheet_pdf

        sheet_pdf.check()
    if path.is_dir():
        raise Mendable(f"{name} is a folder. Choose another name.")
    if not path.parent.is_dir():
        raise Mendable(f"There is no folder {clean(str(path.parent))}. Make it first, or choose another.")
    files.check_replaceable(path)
    if not files.is_there(path) or force:
        return
    if not sys.stdin.isatty():
        raise Mendable(f"{name} is there already. Choose another name, or write over it with --force.")
    with stopping("Stopped. Nothing was written."):
        replace = is_yes(f"{name} is there already. Write over it?")
    if not replace:
        raise Mendable("Nothing was written. Choose another name with --out.")


def usual_paper(outside: Outside) -> str:
    """By where the family lives, as far as it has said so. What the computer takes for its country is not
    asked: many have the one they were sold with."""
    return homes.paper(chosen_years.chosen(outside), chosen_money.fitting(outside).money)


def drawn(made: Sheet, path: Path, paper: str) -> bytes:
    if path.suffix == ".pdf":
        from review.render import sheet_pdf

        return sheet_pdf.pdf(made, "letter" if paper == "letter" else "a4")
    from review.render import sheet_page

    return sheet_page.html(made).encode()


def unshown(made: Sheet, path: Path) -> tuple[str, ...]:
    """Signs that a PDF cannot show. Of a page of HTML the browser that opens it decides."""
    if path.suffix != ".pdf":
        return ()
    from review.render import sheet_pdf

    return sheet_pdf.unshown(made)


def save(path: Path, data: bytes) -> None:
    try:
        files.write_whole(path, data)
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise Mendable(f"{clean(str(path))} cannot be written ({reason}). Choose another place.") from error
