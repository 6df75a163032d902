"""`review demo`: an invented family, then a parent's screens. Apart from the desk, which need not import all
that the demo shows."""

from pathlib import Path

import click

from review import gather
from review.app import demo as season
from review.app import desk, missing, sittings
from review.cli.desk import show_overdue
from review.cli.options import Call, book_of, with_call
from review.render import lines, miss_lines
from review.render.invoked import bare, on_book
from review.render.screen import echo


@click.command()
@click.option("--folder", type=click.Path(path_type=Path), help="Where its book goes, else a new folder.")
@with_call(on=True)
def demo(call: Call, folder: Path | None) -> None:
    """An invented family plays 90 days in seconds, then you see a parent's screens.

    \b
    Example:
      review demo
    """
    if book_of(click.get_current_context().params.get("book")):
        raise click.UsageError(
            "The demo makes a book of its own and touches no other: leave --book out, and say with "
            "--folder DIR where it goes."
        )
    place = folder or season.new_folder()
    alone = season.is_empty(place)
    path = season.play(place, gather.today(call.outside, season.ANYONE))
    echo(lines.demo_intro(path))
    there = call.outside._replace(book=path, state=place / "state")
    on_book(str(path))
    echo(["", f"$ {bare()}", *lines.front_door(sittings.front_door(there))])
    echo(["", "$ review overdue"])
    show_overdue(desk.overdue(there, None), False, call.plain)
    echo(["", f"$ review overdue {season.FAMILY[-1].name} --all"])
    show_overdue(desk.overdue(there, season.FAMILY[-1].name), True, call.plain)
    echo(["", "$ review misses", *miss_lines.report(missing.of_family(there, None))])
    echo(lines.demo_end(path, season.FAMILY[0].name, alone))
