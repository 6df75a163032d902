"""Options as data: click is told of them, and the lane in front of it reads them without click."""

import re
from typing import Literal, NamedTuple


class Declared(NamedTuple):
    """An option as it is declared once, for whoever reads the command line."""

    spelled: str  # as it is typed; a switch that goes both ways has both: "--aloud/--typed"
    field: str  # the name of its value
    about: str  # for --help
    takes: Literal["", "text", "number", "date"] = ""  # what stands behind it; "": it is a switch
    shown: str | None = None  # what --help calls that; None: as click calls it


def number(text: str) -> float:
    """A number as it is typed, with a point or a comma: 2.5 or 2,5. ValueError where it is none; with three
    digits behind a comma that may be thousands it is none either."""
    return float(re.sub(r"^(\d+),(\d{1,2})$", r"\1.\2", text.strip()))


BOOK = Declared("--book", "book", "The record book.", "text", "FILE")
PLAIN = Declared("--plain", "plain", "Lines only, no tables.")
ON = Declared("--on", "on", "Stands for today, like 2026-11-25.", "date", "DATE")
JSON = Declared("--json", "as_json", "The same as JSON.")

ALOUD = Declared(
    "--aloud/--typed",
    "aloud",
    "You read out and press one of three keys, or the child types. Else: aloud under 8, at a terminal.",
)
SPEAK = Declared("--speak", "speak", "The computer reads out, where espeak-ng is installed.")

WARMUP = (
    Declared("--minutes", "minutes", "Another length than the child's own.", "number"),
    Declared("--untimed", "untimed", "Today only right and not yet count."),
    Declared("--gentle", "gentle", "For a hard day: sure cards, 2 minutes; no miss counts."),
    Declared("--try", "trial", "A trial: nothing is kept."),
    ALOUD,
    SPEAK,
)
"""What a child's line may hold, in the order of `review warmup --help`."""
