"""What a command says, on one line or as the tables of JSON."""

import json
from typing import Any

from tests.cli.conftest import Review

DAY = "2026-01-06"  # a Tuesday
ON = ("--on", DAY)


def says(review: Review, *arguments: str) -> str:
    done = review(*arguments)
    assert done.code == 0, done.err
    return " ".join(done.out.split())


def row(review: Review, *arguments: str) -> Any:
    return json.loads(says(review, *arguments, "--json"))
