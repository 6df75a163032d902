"""Which front plays a sitting, and what it greets with."""

import sys
from collections.abc import Callable, Sequence

from review.app import Front
from review.core import session
from review.core.model import Answer, Sitting, Summary
from review.core.text import clean
from review.terminal import json_lines, lines, typed

GREETING = "Fill the dots. Then you are done."


def chosen(plain: bool, jsonl: bool) -> Front:
    """JSON lines where they are asked for; single keys on a real terminal; else line by line."""
    if jsonl:
        return by_json
    raw = not plain and sys.stdin.isatty() and sys.stdout.isatty()
    return by_keys if raw else by_lines


def by_keys(
    sitting: Sitting,
    so_far: Sequence[Answer],
    record: Callable[[Answer], None],
    overdue_left: Callable[[], int],
) -> Summary:
    return typed.play(sitting, so_far, record, greet=greeting(sitting, so_far), ready=wake)


def by_lines(
    sitting: Sitting,
    so_far: Sequence[Answer],
    record: Callable[[Answer], None],
    overdue_left: Callable[[], int],
) -> Summary:
    return lines.play(sitting, so_far, record, greet=greeting(sitting, so_far), ready=wake)


def by_json(
    sitting: Sitting,
    so_far: Sequence[Answer],
    record: Callable[[Answer], None],
    overdue_left: Callable[[], int],
) -> Summary:
    return json_lines.play(sitting, so_far, record, overdue_left=overdue_left, ready=wake)


def greeting(sitting: Sitting, so_far: Sequence[Answer]) -> list[str]:
    """No year, no number: a name, and an end one can see, where there is one still to come."""
    hello = f"Hello, {clean(sitting.name)}."
    return [hello] if session.start(sitting, so_far)[0].ended else [hello, GREETING]


def wake() -> None:
    """The first problem is on the screen: now there is time to load what keeps memory."""
    from review.core import memory

    memory.wake()
