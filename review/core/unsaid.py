"""Misses with no answer tried: of a child who asks to be shown, time after time."""

from collections.abc import Iterable
from itertools import islice

from review.core import tries
from review.core.findings import Unsaid
from review.core.model import Event

LAST = 20  # misses that are looked at, as for error rules (design lab)
LEAST = 10  # of them there must be, or a bad day would be told (our judgement)
MOSTLY = 0.6  # of them with no answer tried, as for error rules (design lab)


def unsaid(told: Iterable[Event]) -> Unsaid | None:
    """Whether most of one child's last misses were asked to be shown; `told`: events of any kind, as they
    count and in order."""
    first = [*tries.first_tries(event for event in told if event.kind == "answer")]
    missed = [*islice((one for one in reversed(first) if one.answer.mark in ("not_yet", "shown")), LAST)]
    shown = sum(one.answer.mark == "shown" for one in missed)
    often = len(missed) >= LEAST and shown >= MOSTLY * len(missed)
    return Unsaid(shown, len(missed)) if often else None
