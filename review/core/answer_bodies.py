"""Answers as they stand in the log: an answer to the body of its row, and back."""

from collections.abc import Mapping
from typing import Any

from review.core.model import Answer, Event

_KEPT = tuple(name for name in Answer._fields if name != "card")
_KNOWN = frozenset(_KEPT)
_BARE: dict[str, Any] = {"asked": "", "given": "", "mark": "void"}  # of an answer that says nothing


def event_answer(event: Event) -> Answer:
    """The answer in an event's body. Missing keys take the defaults of `Answer`, unknown ones are ignored.

    Where it is not said what was expected, that is what was given.
    """
    body: Mapping[str, Any] = event.body
    if not _KNOWN.issuperset(body):
        body = {name: value for name, value in body.items() if name in _KNOWN}
    return Answer(event.card, **{**_BARE, "expected": body.get("given", ""), **body})


def answer_body(answer: Answer) -> dict[str, str | int]:
    """An answer as a table of strings and integers; what equals a default of `Answer` is left out, and what
    was expected where just that was given.

    Those defaults are part of the log's format and never change.
    """
    defaults = {**Answer._field_defaults, "expected": answer.given}
    kept = {name: getattr(answer, name) for name in _KEPT}
    return {name: value for name, value in kept.items() if value != defaults.get(name)}
