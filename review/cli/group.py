"""The table of commands. Only click is imported until a command is chosen, not even more for `--help`."""

from collections.abc import Mapping
from importlib import import_module
from typing import NamedTuple

import click


class Entry(NamedTuple):
    module: str
    name: str
    short: str


COMMANDS: dict[str, Entry] = {
    "warmup": Entry("review.cli.warmup", "warmup", "Today's warm-up, for a child."),
    "taught": Entry("review.cli.warmup", "taught", "Say that an idea has been taught: its cards may come."),
    "extra": Entry("review.cli.extra", "extra", "A few more of one kind, on demand."),
    "undo": Entry("review.cli.undo", "undo", "Take back the last answer, or a whole sitting."),
    "known": Entry("review.cli.week", "known", "Say that a skill or a card is known already."),
    "teach": Entry("review.cli.lessons", "teach", "What to teach next, and why."),
    "focus": Entry("review.cli.week", "focus", "Let one skill come first until Sunday."),
    "away": Entry("review.cli.week", "away", "Days off."),
    "brief": Entry("review.cli.lessons", "brief", "Four weeks in twelve lines, for an adviser."),
    "placement": Entry("review.cli.placement", "placement", "Find out what a child knows of a set already."),
    "overdue": Entry("review.cli.desk", "overdue", "What has faded, and what to do about it this week."),
    "misses": Entry("review.cli.misses", "misses", "Why a child misses, and what to do at the table."),
    "stuck": Entry("review.cli.desk", "stuck", "What did not stick, and the skill to go back to."),
    "progress": Entry("review.cli.progress", "progress", "How a child comes along, skill by skill."),
    "pacing": Entry("review.cli.pacing", "pacing", "What so many minutes a day bring."),
    "log": Entry("review.cli.diary", "log", "The record of practice between two dates."),
    "sheet": Entry(
        "review.cli.sheet", "sheet", "A sheet to print: a warm-up on paper, practice, slips, blanks."
    ),
    "enter": Entry("review.cli.enter", "enter", "Take the marks of a warm-up on paper, by its number."),
    "set": Entry("review.cli.sets", "sets", "Skill sets: see them, give them, check your own."),
    "child": Entry("review.cli.children", "children", "Children: add one, list them."),
    "words": Entry("review.cli.words", "words", "Your family's own words and signs."),
    "fit": Entry("review.cli.fit", "fit", "Fit memory to a child, from the child's own answers."),
    "verify": Entry("review.cli.desk", "verify", "Prove that the book is sound."),
    "export": Entry("review.cli.book", "export", "Write the whole book to a file, lossless."),
    "import": Entry("review.cli.book", "take_in", "Take in what export has written."),
    "merge": Entry("review.cli.book", "merge", "Bring two copies of one book together."),
    "backup": Entry("review.cli.book", "backup", "Make a verified copy of the book now."),
    "restore": Entry("review.cli.book", "restore", "Go back to a copy of the book."),
    "completion": Entry("review.cli.completion", "completion", "Let the shell complete commands and names."),
    "manual": Entry("review.cli.manual", "manual", "The manual page."),
    "more": Entry("review.cli.more", "more", "The other commands."),
    "demo": Entry("review.cli.demo", "demo", "An invented family plays 90 days; touches no book of yours."),
}


FIRST = ("warmup", "taught", "overdue", "progress", "sheet", "set", "child", "demo")
"""What a family needs in its first weeks; the help lists these, and names `more` for the others."""


MEANT: dict[str, dict[str, str]] = {
    "root": {
        "add": "child add or set add",
        "check": "set check",
        "copy": "backup",
        "delete": "child forget or set drop",
        "drop": "set drop",
        "edit": "child edit",
        "forget": "child forget",
        "help": "--help",
        "list": "child list or set list",
        "new": "set new or child add",
        "pause": "away",
        "practice": "warmup",
        "practise": "warmup",
        "print": "sheet",
        "remove": "child forget or set drop",
        "rename": "child edit",
        "report": "progress or brief",
        "save": "backup",
        "show": "child show or set show",
        "start": "warmup",
        "status": "progress",
        "sync": "merge",
        "version": "--version",
        "week": "brief or log",
    },
    "child": {"delete": "forget", "remove": "forget", "drop": "forget", "rename": "edit", "change": "edit"},
    "set": {"delete": "drop", "remove": "drop", "forget": "drop", "give": "add", "edit": "check"},
}
"""What people type for a command that is called otherwise (our judgement). By its letters alone `remove` was
taken for `restore`."""


class Group(click.Group):
    """A group below which wrong usage names the help of its own command, and a command that is not there the
    one that may be meant."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        known = self.list_commands(ctx)
        if args[0] not in known and not args[0].startswith("-"):
            raise click.UsageError(unknown_command(args[0], known, MEANT.get(self.name or "", {})), ctx)
        return super().resolve_command(ctx, args)

    def invoke(self, ctx: click.Context) -> object:
        """An option without what stands behind it is told before its command has a context, and so a help."""
        try:
            return super().invoke(ctx)
        except click.UsageError as error:
            command = self.get_command(ctx, ctx.invoked_subcommand or "")
            if error.ctx is None and command:
                error.ctx = click.Context(command, parent=ctx, info_name=ctx.invoked_subcommand)
            raise


class Lazy(Group):
    """A group whose commands are imported when they are run; their short help stands in the table."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        entry = COMMANDS.get(cmd_name)
        if entry is None:
            return None
        command: click.Command = getattr(import_module(entry.module), entry.name)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, COMMANDS[name].short) for name in (*FIRST, "more")])


def unknown_command(name: str, known: list[str], meant: Mapping[str, str]) -> str:
    from review.core.text import clean, nearest

    near = meant.get(name.casefold()) or next(iter(nearest(name, known)), "")
    return f"There is no command “{clean(name)}”." + (f" Did you mean {near}?" if near else "")


def show_version(ctx: click.Context, param: click.Parameter, value: bool) -> None:
    if value and not ctx.resilient_parsing:
        from review import __version__

        click.echo(f"review {__version__}")
        ctx.exit()


@click.command(cls=Lazy, invoke_without_command=True, context_settings={"max_content_width": 80})
@click.option("--book", metavar="FILE", help="The record book (else REVIEW_BOOK, else your data folder).")
@click.option("--plain", is_flag=True, help="Lines only, no tables: for pipes and screen readers.")
@click.option("--on", metavar="DATE", help="Stands for today, like 2026-11-25.")
@click.option("--json", "as_json", is_flag=True, help="The same as JSON.")
@click.option("--version", is_flag=True, expose_value=False, is_eager=True, callback=show_version)
@click.pass_context
def root(ctx: click.Context, book: str | None, plain: bool, on: str | None, as_json: bool) -> None:
    """Daily warm-ups in elementary maths, chosen by what this child still recalls.

    Without a command it tells who has practised today and what to type next.
    Everything stays on this computer.
    """
    ctx.obj = {"book": book, "plain": plain}
    if ctx.invoked_subcommand is None:
        from review.cli.front_door import front_door
        from review.cli.options import Day, in_context

        day = Day().convert(on, None, ctx) if on else None
        front_door(in_context(None, False, day, as_json))
    elif on or as_json:
        raise click.UsageError("--on and --json go behind the command.", ctx)
