"""Which front plays a sitting, and what it greets with."""

import sys
from collections.abc import Callable, Sequence

from review.core import placement, session
from review.core.copying import Copying
from review.core.model import Answer, Summary
from review.core.placement import Probing
from review.core.text import clean
from review.terminal import Played, json_lines, lines, typed

Front = Callable[[Played, Sequence[Answer], Callable[[Answer], None], Callable[[], int]], Summary]

MAY_BE_NEW = ("Some of these may be new.", "That is fine.")
GREETING = "Fill the dots. Then you are done."
TYPE_THEM = ("First some numbers.", "Type each one you see.")


def chosen(plain: bool, jsonl: bool) -> Front:
    """JSON lines where they are asked for; single keys on a real terminal; else line by line."""
    if jsonl:
        return by_json
    raw = not plain and sys.stdin.isatty() and sys.stdout.isatty()
    return by_keys if raw else by_lines


def by_keys(
    sitting: Played,
    so_far: Sequence[Answer],
    record: Callable[[Answer], None],
    overdue_left: Callable[[], int],
) -> Summary:
    return typed.play(sitting, so_far, record, greet=greeting(sitting, so_far), ready=wake)


def by_lines(
    sitting: Played,
    so_far: Sequence[Answer],
    record: Callable[[Answer], None],
    overdue_left: Callable[[], int],
) -> Summary:
    return lines.play(sitting, so_far, record, greet=greeting(sitting, so_far), ready=wake)


def by_json(
    sitting: Played,
    so_far: Sequence[Answer],
    record: Callable[[Answer], None],
    overdue_left: Callable[[], int],
) -> Summary:
    return json_lines.play(sitting, so_far, record, overdue_left=overdue_left, ready=wake)


def greeting(sitting: Played, so_far: Sequence[Answer]) -> list[str]:
    """No year, no number: a name, and an end one can see, where there is one still to come."""
    hello = f"Hello, {clean(sitting.name)}."
    if isinstance(sitting, Copying):
        return [hello, *TYPE_THEM]
    if isinstance(sitting, Probing):
        over = placement.start(sitting, so_far)[0].ended
        return [hello] if over else [hello, *MAY_BE_NEW, GREETING]
    return [hello] if session.start(sitting, so_far)[0].ended else [hello, GREETING]


def wake() -> None:
    """The first problem is on the screen: now there is time to load what keeps memory."""
    import review.core.memory  # noqa: F401
