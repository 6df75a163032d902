"""`review child`."""

import click

from review import app
from review.cli.options import Call, with_call
from review.render import lines
from review.render.screen import echo, echo_json


@click.group(name="child")
def children() -> None:
    """Children: add one, change what is kept of one, list them.

    \b
    Examples:
      review child add Nuri --age 7
      review child list
    """


@children.command()
@click.argument("name")
@click.option("--age", type=int, prompt=False, required=True, help="In whole years, 4 to 14.")
@click.option("--minutes", type=float, default=5.0, show_default=True, help="A day, 1 to 30.")
@click.option("--zone", default="", metavar="ZONE", help="A time zone like Europe/London.")
@click.option("--untimed", is_flag=True, help="Never judge by time: only right and not yet count.")
@click.option("--pace", type=int, default=0, help="New cards a day, 1 to 20; 0 goes by age.")
@with_call(on=True)
def add(call: Call, name: str, age: int, minutes: float, zone: str, untimed: bool, pace: int) -> None:
    """Add a child. The first one makes the record book.

    \b
    Example:
      review child add Nuri --age 7 --minutes 5
    """
    child = app.add_child(call.outside, name, age, minutes, zone, untimed, pace)
    echo(lines.child_added(child, call.outside.book))


@children.command()
@click.argument("name")
@click.option("--age", type=int, help="In whole years, 4 to 14.")
@click.option("--minutes", type=float, help="A day, 1 to 30.")
@click.option("--zone", metavar="ZONE", help="A time zone like Europe/London.")
@click.option("--untimed/--timed", default=None, help="Whether time is never judged by.")
@click.option("--pace", type=int, help="New cards a day, 1 to 20; 0 goes by age.")
@click.option("--aloud", "mode", flag_value="aloud", help="You read out, and key what came.")
@click.option("--typed", "mode", flag_value="typed", help="The child types.")
@with_call(on=True)
def edit(call: Call, name: str, **given: object) -> None:
    """Change what is kept of a child, from today on. Takes the whole name.

    \b
    Example:
      review child edit Mira --minutes 8 --pace 2
    """
    changed = {field: value for field, value in given.items() if value is not None}
    echo(lines.child_edited(app.edit_child(call.outside, name, changed)))


@children.command("list")
@with_call(json=True)
def list_children(call: Call) -> None:
    """List the children of the book.

    \b
    Example:
      review child list
    """
    found = app.list_children(call.outside)
    if call.as_json:
        echo_json([lines.child_row(child) for child in found])
    else:
        echo(lines.children(found))
