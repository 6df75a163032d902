"""Answers that say little of the thinking: of a child who asks to be shown, or for help before any answer,
time after time."""

from collections.abc import Iterable, Iterator
from itertools import islice

from review.core import marking, tries
from review.core.findings import Helped, Unsaid
from review.core.model import Answer, Event

LAST = 20  # misses, or first tries, that are looked at, as for error rules (design lab)
LEAST = 10  # of them there must be, or a bad day would be told (our judgement)
MOSTLY = 0.6  # of them with no answer tried, or with help, as for error rules (design lab)


def unsaid(told: Iterable[Event]) -> Unsaid | None:
    """Whether most of one child's last misses were asked to be shown; `told`: events of any kind, as they
    count and in order."""
    missed = [*islice((one for one in _latest(told) if one.mark in ("not_yet", "shown")), LAST)]
    shown = sum(one.mark == "shown" for one in missed)
    return Unsaid(shown, len(missed)) if _is_often(shown, len(missed)) else None


def helped(told: Iterable[Event]) -> Helped | None:
    """Whether help was looked at in most of one child's last first tries, right or not, likewise."""
    last = [*islice(_latest(told), LAST)]
    some = sum(map(marking.helped, last))
    return Helped(some, len(last)) if _is_often(some, len(last)) else None


def _latest(told: Iterable[Event]) -> Iterator[Answer]:
    """First tries, the latest first."""
    first = [*tries.first_tries(event for event in told if event.kind == "answer")]
    return (one.answer for one in reversed(first))


def _is_often(some: int, every: int) -> bool:
    return every >= LEAST and some >= MOSTLY * every
