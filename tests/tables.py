"""Published tables under `tests/data`, row by row; their sources stand beside them."""

import csv
from pathlib import Path

DATA = Path(__file__).parent / "data"


def rows(name: str, **wanted: str) -> list[dict[str, str]]:
    """The rows of a table, by the names of its columns; with `wanted`, those that say so."""
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if wanted.items() <= row.items()]


def published(name: str, key: str) -> int:
    """How many problems of a class there are, from counts.csv; each line of it says by which two ways it was
    found (brute force and a closed form, or a transfer matrix)."""
    (row,) = rows("counts.csv", **{"class": name, "key": key})
    return int(row["count"])
