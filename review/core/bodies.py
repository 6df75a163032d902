"""What the rows of a log may hold, by kind: a log from elsewhere is believed only where its rows can be used.

A hash proves that a row was not changed since it was written, not that it was written by this program. What
stands here is what every reader of the log relies on. Keys may be added by later versions; those that are
known keep their types for ever.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from typing import get_args

from review.core import days, skills
from review.core.keys import NO_KIND, WORD, kind_of, well_formed
from review.core.model import AIMS, MARKS, Event, Mode, Role, Sort, Taken
from review.core.sheets import Sort as SheetSort
from review.core.text import clean
from review.core.warmup import Why

Check = Callable[[object], bool]

MOST = 10**9  # of a number in a body: milliseconds of eleven days (our judgement)

DEVICES = 1 << 48
OLDEST = 120  # years; our judgement
LONGEST_LINE = 4000  # characters of an answer: Python reads numbers of up to 4,300 digits
LONGEST_ID = 60  # characters, as a set may have
LONGEST = 1_000_000  # characters of a text; the largest is a parent's own set


def whole(low: int, high: int) -> Check:
    return lambda value: isinstance(value, int) and not isinstance(value, bool) and low <= value <= high


def one_of(names: Iterable[object]) -> Check:
    known = frozenset(names)
    return lambda value: isinstance(value, str) and value in known


def list_of(check: Check) -> Check:
    return lambda value: isinstance(value, list | tuple) and all(map(check, value))


def row_of(*checks: Check) -> Check:
    """A list of just so many entries."""
    return lambda value: (
        isinstance(value, list | tuple)
        and len(value) == len(checks)
        and all(check(one) for check, one in zip(checks, value, strict=True))
    )


def table_of(check: Check) -> Check:
    return lambda value: isinstance(value, Mapping) and all(map(check, value.values()))


def either(*checks: Check) -> Check:
    return lambda value: any(check(value) for check in checks)


def is_text(value: object) -> bool:
    """A text that can be kept: whole characters, also such as no screen shows, which are left out where it is
    shown."""
    return (
        isinstance(value, str) and len(value) <= LONGEST and not any("\ud800" <= c <= "\udfff" for c in value)
    )


def is_line(value: object) -> bool:
    return is_text(value) and len(str(value)) <= LONGEST_LINE


def is_name(value: object) -> bool:
    return is_text(value) and bool(clean(str(value)))


def is_id(value: object) -> bool:
    return isinstance(value, str) and len(value) <= LONGEST_ID and re.fullmatch(WORD, value) is not None


def is_yes(value: object) -> bool:
    return isinstance(value, bool)


def is_card(value: object) -> bool:
    """A key that is well formed and of which a card comes: 5/0 is written well and is no quotient."""
    return isinstance(value, str) and _is_card(value)


@lru_cache(maxsize=8192)  # a log asks for the same cards again and again
def _is_card(key: str) -> bool:
    if not well_formed(key):
        return False
    try:
        return kind_of(key) in NO_KIND or bool(skills.traits(key))
    except (ArithmeticError, AssertionError, AttributeError, LookupError, TypeError, ValueError):
        return False


PLANNED = re.compile(rf"[!-~]+ (?:{'|'.join(get_args(Why))}) (\d{{1,10}})(?: (\d{{1,7}}))?(?: timed)?")


def is_planned(value: object) -> bool:
    """A line of a plan, as `family` writes it."""
    found = PLANNED.fullmatch(value) if isinstance(value, str) else None
    return found is not None and int(found[1]) <= MOST and int(found[2] or 0) <= 1_000_000


number, day, part = whole(0, MOST), whole(1, days.LAST_DAY), whole(1, MOST)
ids = row_of(whole(1, DEVICES), whole(1, 1 << 62))
words = list_of(is_text)
planned = list_of(either(is_planned, row_of(is_text, one_of(get_args(Why)), number, whole(-1, 1_000_000))))
tasks = list_of(row_of(is_card, is_text, one_of(get_args(Role)), one_of(AIMS)))
yes_or_number = either(is_yes, number)

NAMED: Mapping[str, Check] = {"device": whole(1, DEVICES), "seq": whole(1, 1 << 62), "rows": list_of(ids)}

KNOWN: Mapping[str, Mapping[str, Check]] = {
    "answer": {
        **dict.fromkeys(("asked", "expected", "given", "help", "slipped", "liked"), is_line),
        **dict.fromkeys(("first_ms", "end_ms", "age", "copy_ms", "slow_ms", "showing", "rule"), number),
        **dict.fromkeys(("sheet", "part"), number),
        "untimed": yes_or_number,
        "mark": one_of(MARKS),
        "role": one_of(get_args(Role)),
        "taken": one_of(get_args(Taken)),
        "aim": one_of(AIMS),
        "recalled": one_of(("", "yes", "no")),
        "sitting": one_of(get_args(Sort)),
    },
    "profile": {
        "name": is_name,
        "age": whole(0, OLDEST),
        "seconds": number,
        "zone": is_text,
        "untimed": is_yes,
        "pace": number,
        "mode": one_of(get_args(Mode)),
        **dict.fromkeys(("years", "focus"), is_text),
        "focus_until": whole(0, days.LAST_DAY),
        **dict.fromkeys(("likes", "words"), table_of(is_text)),
    },
    "sitting": {
        **dict.fromkeys(("seconds", "pace", "waiting", "slow_ms", "sheet"), number),
        **dict.fromkeys(("items", "reserve"), planned),
        **dict.fromkeys(("too_much", "alone"), is_yes),
        "timed": words,
        "copy_ms": list_of(number),
        "likes": table_of(is_text),
        "suspected": table_of(list_of(row_of(is_text, number))),
        "sort": one_of(get_args(SheetSort)),
        "title": is_text,
        "parts": list_of(row_of(day, tasks)),
        "part": part,
    },
    "taught": {"skills": words, "untaught": words, "timed": is_yes, "placement": is_text},
    "set_add": {"set": is_id, "aim": one_of(("", *AIMS)), "text": is_text},
    "set_drop": {"set": is_id},
    "undo": {**NAMED, "day": day},
    "correct": {**NAMED, "mark": one_of(MARKS)},
    "known": {"cards": list_of(is_card)},
    "away": {"from": day, "to": day},
    "fit": {
        "numbers": list_of(whole(-MOST, MOST)),
        **dict.fromkeys(("how", "library"), is_text),
        "rule": either(is_text, number),
        **dict.fromkeys(("tries", "misses"), number),
    },
}
"""Kind -> the keys its readers know, each with what it may be."""

NEEDED: Mapping[str, tuple[str, ...]] = {
    "answer": ("asked", "given", "mark"),
    "taught": ("skills",),
    "set_add": ("set",),
    "set_drop": ("set",),
    "away": ("from", "to"),
    "fit": ("numbers",),
}
SITTINGS: Mapping[str, tuple[str, ...]] = {
    "parts": ("sheet", "sort"),
    "part": ("sheet",),
    "": ("seconds", "items"),
}
"""A sheet that was made, marks that were entered, a plan: what each needs."""


def amiss(event: Event) -> str:
    """The first thing in an event that its readers could not use; "": nothing."""
    known, body = KNOWN.get(event.kind, {}), event.body
    if event.kind not in KNOWN:
        return "kind"
    if event.card and not is_card(event.card):
        return "card"
    if missing := [key for key in needed(event) if key not in body]:
        return missing[0]
    wrong = [key for key, value in body.items() if key in known and not known[key](value)]
    if wrong:
        return wrong[0]
    asked = event.kind != "answer" or well_formed(event.card, str(body["asked"]))
    return "" if asked else "asked"


def needed(event: Event) -> tuple[str, ...]:
    if event.kind == "sitting":
        return SITTINGS[next((key for key in ("parts", "part") if key in event.body), "")]
    return NEEDED.get(event.kind, ())
