"""`review child`."""

import json

import click

from review import app
from review.cli.options import Call, with_call
from review.render import lines
from review.render.screen import echo


@click.group(name="child")
def children() -> None:
    """Children: add one, list them.

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
@with_call(on=True)
def add(call: Call, name: str, age: int, minutes: float, zone: str, untimed: bool) -> None:
    """Add a child. The first one makes the record book.

    \b
    Example:
      review child add Nuri --age 7 --minutes 5
    """
    child = app.add_child(call.outside, name, age, minutes, zone, untimed)
    echo(lines.child_added(child, call.outside.book))


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
        click.echo(json.dumps([lines.child_row(child) for child in found], ensure_ascii=False, indent=2))
    else:
        echo(lines.children(found))
