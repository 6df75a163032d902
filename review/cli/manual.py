"""`review manual`: a manual page, made from the same words as `--help` (man(7) of the groff project)."""

import inspect
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

import click

from review import __version__, files
from review.app import chosen_words
from review.cli.group import COMMANDS, root
from review.cli.options import Call, with_call
from review.errors import Mendable

ENVIRONMENT = (
    ("REVIEW_BOOK", "The record book, where --book is not given."),
    ("NO_COLOR", "Takes colour away, and nothing else."),
    ("TERM", "Where it is dumb, every screen is plain lines."),
)
EXIT = (
    ("0", "Done."),
    ("1", "Something you can mend; one sentence says what."),
    ("2", "Wrong usage."),
    ("3", "The book is damaged, foreign, newer or cannot be written."),
    ("130", "Interrupted; everything is kept."),
)


@click.command()
@click.option("--out", type=click.Path(path_type=Path), help="Write it to a file, like review.1.")
@click.option("--force", is_flag=True, help="Write over a file that is there.")
@with_call()
def manual(call: Call, out: Path | None, force: bool) -> None:
    """The manual page, for man. To read it: review manual | man -l -

    \b
    Examples:
      review manual
      review manual --out review.1
    """
    maths = chosen_words.chosen(call.outside).maths
    text = "\n".join(page()).replace("elementary maths", f"elementary {maths}") + "\n"
    if out is None:
        click.echo(text, nl=False)
        return
    try:
        files.write_lines(out, [text.encode("utf-8")], force)
    except FileExistsError as error:
        raise Mendable(f"{out} exists already; choose another name, or add --force.") from error
    except OSError as error:
        raise Mendable(f"{out} cannot be written; choose another place.") from error
    click.echo(f"Written: {out}")


def page() -> Iterator[str]:
    """The page, line by line."""
    yield f'.TH REVIEW 1 "" "review {__version__}" "User commands"'
    yield from section("NAME", [r"review \- daily warm\-ups in elementary maths"])
    yield from section("SYNOPSIS", [r".B review", escaped("[--book FILE] [--plain] COMMAND ...")])
    yield from section("DESCRIPTION", prose(root.help or ""))
    yield from section("COMMANDS", (line for name in COMMANDS for line in told(name)))
    yield from section("ENVIRONMENT", listed(ENVIRONMENT))
    yield from section("EXIT STATUS", listed(EXIT))


def section(head: str, lines: Iterable[str]) -> Iterator[str]:
    yield f".SH {head}"
    yield from lines


def told(name: str, group: click.Group = root, before: str = "review") -> Iterator[str]:
    """A command with its options and examples; the commands of a group one after the other."""
    command = group.get_command(click.Context(group), name)
    assert command is not None, name
    path = f"{before} {name}"
    context = click.Context(command, info_name=name)
    yield f".SS {escaped(path)} {escaped(' '.join(command.collect_usage_pieces(context)))}"
    yield from prose(command.help or "")
    options = [param for param in command.params if isinstance(param, click.Option)]
    yield from listed(record for option in options if (record := option.get_help_record(context)))
    if isinstance(command, click.Group):
        for inner in command.list_commands(context):
            yield from told(inner, command, path)


def prose(text: str) -> Iterator[str]:
    """A help text: paragraphs filled, and those behind a mark as they are."""
    for paragraph in re.split(r"\n\s*\n", inspect.cleandoc(text)):
        if paragraph.startswith("\b"):
            yield from (".PP", ".nf", *(escaped(line) for line in paragraph.split("\n")[1:]), ".fi")
        else:
            yield from (".PP", escaped(paragraph))


def listed(rows: Iterable[tuple[str, str]]) -> Iterator[str]:
    for name, meaning in rows:
        yield from (".TP", f".B {escaped(name)}", escaped(meaning))


def escaped(text: str) -> str:
    """Text that roff prints as it is: no dot or quote begins a line, and hyphens stay hyphens."""
    kept = text.replace("\\", r"\e").replace("-", r"\-")
    safe = re.sub(r"^(?=[.'])", r"\\&", kept, flags=re.MULTILINE)
    return "".join(sign if sign.isascii() else rf"\[u{ord(sign):04X}]" for sign in safe)
