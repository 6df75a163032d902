"""The answers of a log as a table for a spreadsheet: one row an answer, comma-separated (RFC 4180)."""

import csv
from collections.abc import Iterable, Iterator
from io import StringIO
from typing import NamedTuple

from review.core import days, skills
from review.core.amendments import amended
from review.core.model import Event
from review.core.text import clean

FORMULAS = ("=", "+", "-", "@", "\t", "\r")
"""What a cell may not begin with: a spreadsheet would take it for a formula (OWASP, "CSV Injection")."""


class AnswerRow(NamedTuple):
    """One answer, in words and numbers a parent reads."""

    date: str
    child: str
    card: str
    problem: str
    expected: str
    given: str
    mark: str
    role: str
    taken: str
    seconds: str  # to the end; "" where it was not timed
    help: str


def table(child: str, events: Iterable[Event]) -> Iterator[AnswerRow]:
    """The answers of one child as they count: what was undone is gone, and marks put right are right."""
    for event in amended(events):
        if event.kind == "answer":
            yield answer_row(child, event)


def answer_row(child: str, event: Event) -> AnswerRow:
    body = {name: str(value) for name, value in event.body.items()}
    ms, given = int(body.get("end_ms", "0")), body.get("given", "")
    return AnswerRow(
        days.date_of(event.day).isoformat(),
        child,
        event.card,
        prompt(event.card, body.get("asked", "")),
        body.get("expected", given),
        given,
        body.get("mark", ""),
        body.get("role", "ask"),
        body.get("taken", "typed"),
        f"{ms / 1000:.1f}" if ms else "",
        body.get("help", ""),
    )


def prompt(card: str, asked: str) -> str:
    """The problem as it was shown; as it was asked, where it cannot be shown any more."""
    try:
        return skills.undrawn(card, asked).prompt
    except (ValueError, KeyError, IndexError):
        return asked


def lines(rows: Iterable[AnswerRow]) -> Iterator[bytes]:
    """The file, line by line, in UTF-8 with the mark at its beginning that spreadsheets look for."""
    yield b"\xef\xbb\xbf" + line(AnswerRow._fields)
    yield from map(line, rows)


def line(cells: Iterable[str]) -> bytes:
    text = StringIO()
    csv.writer(text).writerow(map(cell, cells))
    return text.getvalue().encode("utf-8", "replace")


def cell(text: str) -> str:
    """A text that no spreadsheet takes for a formula."""
    tidy = clean(text)
    return f"'{tidy}" if tidy.startswith(FORMULAS) else tidy
