"""Answers made by hand, as a log has them."""

from collections.abc import Iterable

from review.core.answer_bodies import answer_body
from review.core.model import Answer, Event


def logged(rows: Iterable[tuple[int, Answer]]) -> list[Event]:
    """Of one child and device, in order; with their days."""
    return [
        Event(1, n, "c", "answer", day, n, n, 0, one.card, answer_body(one))
        for n, (day, one) in enumerate(rows, 1)
    ]
