"""`review completion`, and what the shell is told when it asks how a command may go on."""

import os
from collections.abc import Callable, Iterable

import click
from click import shell_completion as shells

from review import catalogue, config, gather
from review.app import own_sets
from review.book import store
from review.cli.group import COMMANDS, root
from review.cli.options import Call, with_call
from review.core.skills import ROOMS
from review.errors import ReviewError

ASKED = "_REVIEW_COMPLETE"  # the shell sets it when it asks
SHELLS = ("bash", "zsh", "fish")


@click.command()
@click.argument("shell", type=click.Choice(SHELLS))
@with_call()
def completion(call: Call, shell: str) -> None:
    """Let the shell complete commands, options, and the names in your book.

    \b
    Put the line of your shell into its start-up file:
      bash: eval "$(review completion bash)"
      zsh: eval "$(review completion zsh)"
      fish: review completion fish | source

    \b
    Example:
      review completion bash
    """
    found = shells.get_completion_class(shell)
    assert found is not None, shell
    click.echo(found(root, {}, "review", ASKED).source())


def complete(program: str) -> int:
    """Answer the shell: what may come next. A book that cannot be read only means fewer names."""
    for name in os.environ.get("COMP_WORDS", "").split():
        if name in COMMANDS:
            name_values(root.get_command(click.Context(root), name))
    try:
        return shells.shell_complete(root, {}, program, ASKED, os.environ[ASKED])
    except click.UsageError:  # no such command: nothing can follow
        return 0


def name_values(command: click.Command | None) -> None:
    """Tell the arguments of a command, and of those in a group, which names they take."""
    if isinstance(command, click.Group):
        for name in command.list_commands(click.Context(command)):
            name_values(command.get_command(click.Context(command), name))
    for param in command.params if command else ():
        wanted = NAMES.get(sort_of(command.name or "", param)) if command else None
        if wanted is not None:
            param.type = Names(wanted)


def sort_of(command: str, param: click.Parameter) -> str:
    """What an argument names: "child", "set", "skill", "kind"; "" for anything else."""
    if not isinstance(param, click.Argument):
        return ""
    if param.metavar == "SET":
        return "set"
    if param.name == "name":
        return "child" if command in ("show", "edit", "forget") else ""
    return str(param.name)


class Names(click.ParamType[str]):
    """A word out of those that stand in the book or the catalogue."""

    name = "name"

    def __init__(self, names: Callable[[click.Context], Iterable[str]]) -> None:
        self.names = names

    def shell_complete(
        self, ctx: click.Context, param: click.Parameter, incomplete: str
    ) -> list[shells.CompletionItem]:
        try:
            known = list(self.names(ctx))
        except ReviewError:
            return []
        return [
            shells.CompletionItem(name) for name in known if name.casefold().startswith(incomplete.casefold())
        ]


def children(ctx: click.Context) -> Iterable[str]:
    with store.open_book(config.book_path(book_given(ctx)), config.state_folder(), write=False) as book:
        return [child.name for child in gather.family_of(book)]


def skills(ctx: click.Context) -> Iterable[str]:
    """The skills of the sets that the book's children have."""
    with store.open_book(config.book_path(book_given(ctx)), config.state_folder(), write=False) as book:
        chosen = [one for child in gather.family_of(book) for one in child.sets]
    return dict.fromkeys(skill.id for found in catalogue.chosen_sets(chosen) for skill in found.skills)


def sets(ctx: click.Context) -> Iterable[str]:
    outside = gather.Outside(config.book_path(book_given(ctx)), config.state_folder(), 0)
    return [*catalogue.names(), *own_sets.newest(outside)]


def book_given(ctx: click.Context) -> str | None:
    return ctx.params.get("book") or ctx.find_root().params.get("book")


def kinds(ctx: click.Context) -> Iterable[str]:
    return ROOMS


NAMES: dict[str, Callable[[click.Context], Iterable[str]]] = {
    "child": children,
    "skill": skills,
    "set": sets,
    "kind": kinds,
}
