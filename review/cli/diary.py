"""`review log`: the record of practice between two dates."""

import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import click

from review.app import spans
from review.cli.options import SINCE, UNTIL, Call, with_call
from review.cli.out import FORCE, write_out
from review.core.diary import Diary
from review.errors import Mendable
from review.render import diary
from review.render.phrases import blank_between
from review.render.screen import echo, echo_json


def as_text(found: Sequence[Diary]) -> bytes:
    return "".join(f"{line}\n" for line in text_lines(found)).encode()


def text_lines(found: Sequence[Diary]) -> list[str]:
    return [*blank_between([diary.lines(one) for one in found]), "", diary.RECORD]


def as_page(found: Sequence[Diary]) -> bytes:
    from review.render.diary_page import record_page  # only a page pays for the import

    return record_page(found).encode()


FORMATS: Mapping[str, Callable[[Sequence[Diary]], bytes]] = {
    "text": as_text,
    "csv": diary.spreadsheet,
    "html": as_page,
}
ENDINGS = {".txt": "text", ".csv": "csv", ".html": "html", ".htm": "html"}


@click.command()
@click.argument("child", required=False)
@SINCE
@UNTIL
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FILE", help="Into a file: .txt, .csv or .html"
)
@click.option("--format", "form", type=click.Choice(list(FORMATS)), help="If the file's ending does not say.")
@FORCE
@with_call(on=True, json=True)
def log(
    call: Call, child: str | None, since: int | None, until: int | None, out: Path | None,
    form: str | None, force: bool,
) -> None:  # fmt: skip
    """The record of practice, day by day: four weeks, or the days you name.

    Evidence for a portfolio, as text, for a spreadsheet, or as a page.

    \b
    Examples:
      review log
      review log Mira --since 2026-01-05 --out mira.html --force
      review log --format csv
    """
    if call.as_json and (out or form):
        raise click.UsageError("--json goes to the screen: leave that out, or --out and --format.")
    found = spans.diary_of(call.outside, child, since, until)
    if call.as_json:
        return echo_json([row for one in found for row in diary.rows(one)])
    chosen = form or ("text" if out is None else by_ending(out))
    if out is not None:
        return write_out(out, FORMATS[chosen](found), force)
    if chosen == "text":
        return echo(text_lines(found))
    sys.stdout.flush()
    sys.stdout.buffer.write(FORMATS[chosen](found))
    return None


def by_ending(out: Path) -> str:
    if out.suffix.lower() not in ENDINGS:
        raise Mendable(f"What is {out.name} to be? End its name in .txt, .csv or .html, or add --format.")
    return ENDINGS[out.suffix.lower()]
