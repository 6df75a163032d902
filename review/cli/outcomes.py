"""What click raises, as a sentence and an exit code."""

import re

import click

INVALID = "Invalid value for"
PLAINLY = (
    (
        rf"{INVALID} '[\[{{].*?[\]}}]': '(.*)' is not one of (.*)\.",
        r"There is no “\1” here: write one of \2.",
    ),
    (rf"{INVALID} '(--.*?)': '(.*)' is not one of (.*)\.", r"\1 has no “\2”: write one of \3."),
    (r"Missing argument '[\[{].*?[\]}]'\. Choose from: (.*)", r"A word is missing: write one of \1."),
    (r"Missing argument '(.*?)'\.", r"A word is missing: \1."),
    (r"Option '(.*?)' requires an argument\.", r"Something has to stand behind \1."),
    (r"is not a valid integer(?: range)?", "is no whole number"),
    (r"is not in the range (\d+)<=x<=(\d+)", r"is not from \1 to \2"),
    (r"Got unexpected extra arguments? \((.*)\)", r"Nothing more can stand here: take out \1."),
)
"""What the reader of the command line says in its own terms, and in a parent's."""


def outcome(error: Exception, program: str) -> tuple[str, int]:
    """The sentence is "" where there is nothing to say, or it was said."""
    match error:
        case click.exceptions.Exit():
            return "", error.exit_code
        case click.exceptions.NoArgsIsHelpError():
            print(error.format_message())
            return "", 0
        case click.UsageError():
            return usage(error, program), 2
        case click.ClickException():
            return error.format_message(), 2
    return "Stopped. Nothing was changed.", 130  # at a question, before anything was done about it


def usage(error: click.UsageError, program: str) -> str:
    where = error.ctx.command_path if error.ctx else program
    said = " ".join(error.format_message().split())
    for jargon, plain in PLAINLY:
        said = re.sub(jargon, plain, said)
    return f"{said} See: {where} --help"
