"""`review export`, `import`, `merge`, `backup`, `restore`: the whole book, out and in."""

import sys
from pathlib import Path

import click

from review.app import archive
from review.cli.options import Call, is_yes, with_call
from review.errors import Mendable
from review.render import archive_lines
from review.render.screen import echo, echo_json

FILE = click.Path(path_type=Path)


@click.command()
@click.argument("file", type=FILE)
@click.argument("child", required=False)
@click.option("--csv", "table", is_flag=True, help="A table of the answers, to look at.")
@click.option("--force", is_flag=True, help="Write over a file that is there.")
@with_call()
def export(call: Call, file: Path, child: str | None, table: bool, force: bool) -> None:
    """Write the whole book to a file that any program can read.

    The file is text, a line an entry, and nothing is left out: `review import`
    makes the book of it again. With CHILD it holds that child alone.

    \b
    Examples:
      review export family.jsonl
      review export answers.csv Mira --csv
    """
    echo(archive_lines.exported(archive.export(call.outside, file, child, table, force), table))


@click.command("import")
@click.argument("file", type=FILE)
@with_call()
def take_in(call: Call, file: Path) -> None:
    """Take in what `review export` has written.

    Where there is no book yet it becomes one. The same file twice changes nothing.

    \b
    Example:
      review import family.jsonl
    """
    echo(archive_lines.merged(archive.take_in_file(call.outside, file)))


@click.command()
@click.argument("other", type=FILE)
@with_call()
def merge(call: Call, other: Path) -> None:
    """Bring together two copies of one book, as from two computers.

    OTHER is the copy that was carried over. What it has and this book has not
    comes in; OTHER stays as it is. The same copy twice changes nothing.

    \b
    Example:
      review merge laptop.book
    """
    echo(archive_lines.merged(archive.merge(call.outside, other)))


@click.command()
@click.argument("file", type=FILE, required=False)
@with_call()
def backup(call: Call, file: Path | None) -> None:
    """Make a copy of the book now, and verify it.

    One is made on every day with a warm-up anyway. Without FILE it stands with
    those; review restore lists them and goes back to one.

    \b
    Examples:
      review backup
      review backup copy.book
    """
    echo(archive_lines.backed_up(archive.backup(call.outside, file)))


@click.command()
@click.argument("copy", required=False)
@click.option("--yes", is_flag=True, help="Do not ask.")
@with_call(json=True)
def restore(call: Call, copy: str | None, yes: bool) -> None:
    """Go back to a copy of the book. Without COPY: which copies there are.

    COPY is a file, or the name of one in that list. The file that is there now is
    set aside. What it holds beyond the copy, and is sound, comes along.

    \b
    Examples:
      review restore
      review restore copy.book --yes
    """
    if copy is None:
        found = archive.copies(call.outside)
        if call.as_json:
            echo_json([archive_lines.copy_row(one) for one in found])
        else:
            echo(archive_lines.copies(found, call.outside.book))
        return
    archive.check_there(call.outside, copy)
    if not yes and not agreed(copy, call.outside.book):
        echo(["Nothing was restored."])
        return
    chosen, done = archive.restore(call.outside, copy)
    if call.as_json:
        echo_json(archive_lines.restored_row(chosen, done, call.outside.book))
    else:
        echo(archive_lines.restored(chosen, done, call.outside.book))


def agreed(copy: str, book: Path) -> bool:
    """By a person; nobody there: it is not done."""
    if not sys.stdin.isatty():
        raise Mendable("Nothing was restored. To do it without being asked: add --yes.")
    echo([f"This puts the copy {copy} in the place of {book}."])
    return is_yes("Go back to that copy?")
