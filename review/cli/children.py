"""`review child`."""

import sys

import click

from review.app import keeping, profiles
from review.cli.group import Group
from review.cli.options import Call, Number, is_yes, prompted, with_call
from review.core.text import clean
from review.render import archive_lines, lines
from review.render.screen import echo, echo_json


@click.group(name="child", cls=Group)
def children() -> None:
    """Children: add one, change, show or forget what is kept of one, list them.

    \b
    Examples:
      review child add Nuri --age 7
      review child list
    """


@children.command()
@click.argument("name")
@click.option("--age", type=int, prompt=False, required=True, help="In whole years, 4 to 14.")
@click.option("--minutes", type=Number(), default=5.0, show_default=True, help="A day, 1 to 30.")
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
    child = profiles.add_child(call.outside, name, age, minutes, zone, untimed, pace)
    echo(lines.child_added(child, call.outside.book))


@children.command()
@click.argument("name")
@click.option("--name", "called", metavar="NAME", help="Another name.")
@click.option("--age", type=int, help="In whole years, 4 to 14.")
@click.option("--minutes", type=Number(), help="A day, 1 to 30.")
@click.option("--zone", metavar="ZONE", help="A time zone like Europe/London.")
@click.option("--untimed/--timed", default=None, help="Time never counts, or for skills you name.")
@click.option("--pace", type=int, help="New cards a day, 1 to 20; 0 goes by age.")
@click.option("--likes", metavar="STRATEGY", help="The way help follows, like bridging; none: any.")
@click.option("--aloud", "mode", flag_value="aloud", help="You read out, and key what came.")
@click.option("--typed", "mode", flag_value="typed", help="The child types.")
@with_call(on=True)
def edit(call: Call, name: str, called: str | None, **given: object) -> None:
    """Change what is kept of a child, from today on. Takes the whole name.

    \b
    Examples:
      review child edit Mira --minutes 8 --pace 2
      review child edit Mira --likes bridging
    """
    changed = {field: value for field, value in {"name": called, **given}.items() if value is not None}
    echo(lines.child_edited(profiles.edit_child(call.outside, name, changed)))


@children.command()
@click.argument("name", required=False)
@with_call(json=True, on=True)
def show(call: Call, name: str | None) -> None:
    """Everything the book keeps of a child, in words a child can read.

    \b
    Example:
      review child show Mira
    """
    found = keeping.kept(call.outside, name)
    if call.as_json:
        echo_json(archive_lines.kept_row(found))
    else:
        echo(archive_lines.kept(found))


@children.command()
@click.argument("name")
@click.option(
    "--copies/--no-copies", default=None, help="Whether copies of the book that hold the child go too."
)
@with_call()
def forget(call: Call, name: str, copies: bool | None) -> None:
    """Take everything of a child out of the book, for good. Takes the whole name.

    The name is asked for a second time.

    \b
    Example:
      review child forget Mira
    """
    done = keeping.forget(call.outside, name, typed_again, lambda found: agreed_to_delete(found, copies))
    echo(archive_lines.forgotten(done))


def typed_again(found: keeping.Kept) -> str:
    echo(archive_lines.about_to_forget(found))
    if sys.stdin.isatty():
        return prompted(f"Type the name ({clean(found.child.name)}) to go on")
    return sys.stdin.readline()


def agreed_to_delete(found: keeping.Kept, said: bool | None) -> bool:
    """What was said on the command line, else what a person says; nobody there: they stay."""
    if said is not None:
        return said
    echo(archive_lines.copies_that_hold(found))
    try:
        return sys.stdin.isatty() and is_yes("Delete these copies?")
    except click.Abort:  # the child is out of the book by now: what is left of it has to be told
        return False


@children.command("list")
@with_call(json=True, on=True)
def list_children(call: Call) -> None:
    """List the children of the book.

    \b
    Example:
      review child list
    """
    found = profiles.list_children(call.outside)
    if call.as_json:
        echo_json([lines.child_row(child) for child in found])
    else:
        echo(lines.children(found))
